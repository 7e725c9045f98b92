package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"sync"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"dryfit/watch"
)

func watchCommand() *cobra.Command {
	var poll bool
	cmd := &cobra.Command{
		Use:   "watch ROOT",
		Short: "Check each job when its files settle, and keep the roll-up true",
		Long: `Check each job below ROOT when its workbooks have come to rest after a save, and keep the roll-up
workbook at ROOT true, until it is told to end (Ctrl-C, or SIGTERM). A workbook that somebody has
open gets its results beside it, and in it once it is free. A change of the shop's standards, or a
word typed in the roll-up, is heard as a save of a job is.

File events start a look sooner where they can be trusted, which is not so on most network shares;
a walk of all folders every minute is what nothing escapes. The first lines of the log on stderr say
which is used. A save is looked at some seconds after it, when two looks find the same bytes.

While it runs, no other dryfit writes below ROOT; a nightly run beside it is not needed. It has one
line a day in the history of the roll-up, and writes it on a quiet day too.`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			ctx, stop := signal.NotifyContext(orBackground(cmd.Context()), os.Interrupt, syscall.SIGTERM)
			defer stop()
			return watchRoot(ctx, watch.Options{Root: args[0], Poll: poll}, cmd.ErrOrStderr())
		},
	}
	cmd.Flags().BoolVar(&poll, "poll", false, "walk only, also where file events could be trusted")
	return cmd
}

// watchRoot watches until ctx ends. Root, Poll and the times of the options are the caller's.
func watchRoot(ctx context.Context, o watch.Options, stderr io.Writer) (err error) {
	n, release, err := beginRun(ctx, o.Root, stderr)
	if err != nil {
		return err
	}
	defer release()
	defer func() { err = errors.Join(err, n.close()) }()
	w := &watcher{night: n, folders: map[string]watch.Folder{}}
	folders, err := watch.Files(n.root)
	if err != nil {
		return err
	}
	for _, f := range folders {
		w.folders[f.Path] = f
	}
	o.Root, o.Also = n.root, []string{filepath.Join(n.root, watch.RollUp)}
	o.Settled, o.Restless = w.settled, w.restless
	o.Say = func(line string) { n.log.Info().Msg(line) }
	n.watching = true
	n.log.Info().Str("root", n.root).Int("folders", len(folders)).Msg("watching")
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	w.ctx = ctx
	var daily sync.WaitGroup
	daily.Go(func() { w.everyDay(ctx) })
	err = watch.Run(ctx, o)
	stop()
	daily.Wait()
	n.log.Info().Msg("watching ended")
	return err
}

// watcher is a night that never ends. It knows the folders as they last came to rest.
type watcher struct {
	*night
	ctx     context.Context // of the whole watch
	turn    sync.Mutex      // held while jobs are done
	folders map[string]watch.Folder
}

// settled does the jobs whose folders came to rest. The root folder stands for all of them: its
// standards, or words in the roll-up, may speak of any.
func (w *watcher) settled(ctx context.Context, visits []watch.Visit) watch.Outcome {
	w.turn.Lock()
	defer w.turn.Unlock()
	settled := map[string]bool{}
	for _, v := range visits {
		settled[v.Path] = true
		w.folders[v.Path] = withoutOurs(v.Folder)
		if len(v.Books)+len(v.Left) == 0 {
			delete(w.folders, v.Path)
		}
	}
	if err := w.batch(ctx, settled); err != nil {
		w.log.Error().Err(err).Msg("the roll-up is not up to date; it is tried again")
		w.again = append(w.again, w.root)
	}
	return watch.Outcome{Wrote: w.wrote, Again: w.again}
}

func withoutOurs(f watch.Folder) watch.Folder {
	f.Books = slices.DeleteFunc(slices.Clone(f.Books), func(b watch.Book) bool { return watch.IsOurs(b.Path) })
	return f
}

// batch does the jobs in folders that settled, and then the roll-up if it shows what is no
// longer so.
func (w *watcher) batch(ctx context.Context, settled map[string]bool) error {
	if err := w.openBook(); err != nil {
		return err
	}
	now := time.Now()
	w.readShop(topOf(w.root, []watch.Folder{w.folders[w.root]}))
	w.startRun(now, w.newSince(now))
	list, resting := w.jobs(w.sorted())
	work := list
	if !settled[w.root] {
		work = slices.DeleteFunc(slices.Clone(list), func(d due) bool { return !settled[d.folder.Path] })
	}
	w.workThrough(ctx, work)
	w.lookAgain()
	if ctx.Err() != nil {
		return nil // the next start continues
	}
	if !w.dirty && w.listSum(list) == w.era.List && w.isOfToday(now) {
		w.settleEra()
		return nil
	}
	run, err := w.rollUp(ctx, list, resting, "watch")
	if errors.Is(err, watch.ErrChanged) {
		return nil // somebody saved it just now: it will settle
	}
	if err == nil {
		w.log.Info().Int("jobs", run.Jobs).Int("new", run.New).Int("older", run.Old).Int("gone", run.Ended).Msg("roll-up written")
	}
	return err
}

// newSince is the moment from which lines are new: since yesterday began, so that they are all
// seen on the next morning, or since a nightly run of a later hour.
func (w *watcher) newSince(now time.Time) time.Time {
	yesterday := time.Date(now.Year(), now.Month(), now.Day()-1, 0, 0, 0, 0, now.Location())
	if w.era.Since.After(yesterday) {
		return w.era.Since
	}
	return yesterday
}

func (w *watcher) isOfToday(now time.Time) bool {
	if len(w.era.History) == 0 {
		return false
	}
	y, m, d := w.era.History[0].At.In(now.Location()).Date()
	return now.Year() == y && now.Month() == m && now.Day() == d
}

func (w *watcher) sorted() []watch.Folder {
	var out []watch.Folder
	for _, path := range slices.Sorted(maps.Keys(w.folders)) {
		out = append(out, w.folders[path])
	}
	return out
}

// lookAgain takes in what our own writes did to sizes and time stamps.
func (w *watcher) lookAgain() {
	for path := range w.wrote {
		if f, known := w.folders[filepath.Dir(path)]; known {
			w.folders[f.Path] = again(f)
		}
	}
}

// restless tells of a folder that does not come to rest, in the log and on the roll-up: its job
// is not checked as it is now.
func (w *watcher) restless(f watch.Folder) {
	const why = "its workbooks have been changing for half an hour; it is looked at when they rest"
	w.log.Warn().Str("folder", w.below(f.Path)).Msg(why)
	w.turn.Lock()
	defer w.turn.Unlock()
	w.folders[f.Path] = withoutOurs(f)
	key := keyJob + w.below(f.Path)
	r := decodeRecord(w.memory.Get(key))
	if r == nil {
		r = &record{}
		r.sumUp(nil)
	}
	r.Fault = why
	r.set(flagFault|flagAgain, true)
	data, err := r.encode()
	if err == nil {
		err = w.memory.Put(key, data)
	}
	w.stale = true
	if err := errors.Join(err, w.batch(w.ctx, nil)); err != nil {
		w.log.Error().Err(err).Msg("the roll-up does not tell of it yet")
	}
}

// everyDay brings the roll-up up to date once a day though nothing changed, so that its first
// page tells a quiet day from a watch that died.
func (w *watcher) everyDay(ctx context.Context) {
	for {
		now := time.Now()
		tomorrow := time.Date(now.Year(), now.Month(), now.Day()+1, 0, 5, 0, 0, now.Location())
		select {
		case <-ctx.Done():
			return
		case <-time.After(tomorrow.Sub(now)):
		}
		w.turn.Lock()
		if err := w.batch(ctx, nil); err != nil {
			w.log.Error().Err(err).Msg(fmt.Sprintf("the roll-up is not up to date on %s", tomorrow.Format(time.DateOnly)))
		}
		w.turn.Unlock()
	}
}
