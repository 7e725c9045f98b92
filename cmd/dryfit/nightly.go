package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"syscall"
	"time"

	"github.com/mattn/go-isatty"
	"github.com/rs/zerolog"
	"github.com/schollz/progressbar/v3"
	"github.com/spf13/cobra"

	"dryfit/check"
	"dryfit/sheet/rollup"
	"dryfit/watch"
)

func nightlyCommand() *cobra.Command {
	var all bool
	cmd := &cobra.Command{
		Use:   "nightly ROOT",
		Short: "Check every active job once and write the roll-up",
		Long: `Check every active job below ROOT once, and write the roll-up workbook at ROOT for the morning. Jobs
whose workbooks, standards and dryfit are unchanged come from memory. A job that fails does not
stop the others; a run that was broken off is continued by the next.

In the morning: print the first page of "` + watch.RollUp + `". Beside a line, type initials and a reason to
accept it, or a name and a question to ask; the next run carries both into the job, and they stay.
A job rests when the jobs tab of the shop's standards says so, or a word in its folder's name.

Made for the system's scheduler (cron: 0 2 * * 1-6 dryfit nightly /srv/jobs 2>>/var/log/dryfit.log). It
asks nothing, writes a log line a job on stderr, and shows a bar instead where stderr is a terminal.
Exit code: 0 no open HOLD, 1 an open HOLD, 2 something could not be read, or no job was found. What
is remembered is in ROOT/.dryfit: to lose the file "memory" costs time, never a result.`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			ctx, stop := signal.NotifyContext(orBackground(cmd.Context()), os.Interrupt, syscall.SIGTERM)
			defer stop()
			return nightly(ctx, args[0], all, cmd.OutOrStdout(), cmd.ErrOrStderr())
		},
	}
	cmd.Flags().BoolVar(&all, "all", false, "check every job, also those that are unchanged")
	return cmd
}

func orBackground(ctx context.Context) context.Context {
	if ctx == nil {
		return context.Background()
	}
	return ctx
}

// mostTries is how often the roll-up is made when somebody saves it at the same time.
const mostTries = 3

func nightly(ctx context.Context, root string, all bool, stdout, stderr io.Writer) (err error) {
	n, release, err := beginRun(ctx, root, stderr)
	if err != nil {
		return err
	}
	defer release()
	defer func() { err = errors.Join(err, n.close()) }()
	n.all = all
	start := time.Now()
	var run rollup.Run
	for try := 1; ; try++ {
		run, err = n.once(ctx, start, stderr)
		if try == mostTries || !errors.Is(err, watch.ErrChanged) {
			break
		}
		n.all = false // those that were checked are remembered
	}
	if err != nil {
		return err
	}
	printRun(stdout, n.root, run)
	return codeOf(run)
}

// once does every job that is due, and the roll-up.
func (n *night) once(ctx context.Context, start time.Time, stderr io.Writer) (rollup.Run, error) {
	folders, err := watch.Files(n.root)
	if err != nil {
		return rollup.Run{}, err
	}
	if err := n.openBook(); err != nil {
		return rollup.Run{}, err
	}
	n.readShop(topOf(n.root, folders))
	for _, note := range n.says.Notes {
		n.log.Warn().Msg(note)
	}
	n.startRun(start, start)
	list, resting := n.jobs(folders)
	finish := n.showBar(len(list), stderr)
	n.workThrough(ctx, list)
	finish()
	if err := ctx.Err(); err != nil {
		return rollup.Run{}, fmt.Errorf("broken off; what was done is remembered, and the next run continues: %w", err)
	}
	return n.rollUp(ctx, list, resting, "nightly")
}

func topOf(root string, folders []watch.Folder) watch.Folder {
	i := slices.IndexFunc(folders, func(f watch.Folder) bool { return f.Path == root })
	if i < 0 {
		return watch.Folder{Path: root}
	}
	return folders[i]
}

// beginRun makes this run the only one below root, and puts right what a broken one left.
func beginRun(ctx context.Context, root string, stderr io.Writer) (*night, func(), error) {
	root, err := filepath.Abs(root)
	if err != nil {
		return nil, nil, err
	}
	if info, err := os.Stat(root); err != nil {
		return nil, nil, err
	} else if !info.IsDir() {
		return nil, nil, fmt.Errorf("%s: the folder that holds the job folders is wanted", root)
	}
	release, err := watch.Lock(root)
	if err != nil {
		return nil, nil, err
	}
	log := newLog(stderr)
	notes, err := watch.Recover(ctx, root)
	for _, note := range notes {
		log.Warn().Msg(note)
	}
	if err != nil {
		log.Error().Err(err).Msg("something that a broken run left could not be put right")
	}
	n, err := begin(root, log)
	if err != nil {
		release()
		return nil, nil, err
	}
	return n, release, nil
}

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && isatty.IsTerminal(f.Fd())
}

// newLog writes lines for machines, or on a terminal for a person.
func newLog(stderr io.Writer) zerolog.Logger {
	if isTerminal(stderr) {
		stderr = zerolog.ConsoleWriter{Out: stderr, TimeFormat: time.TimeOnly, NoColor: os.Getenv("NO_COLOR") != ""}
	}
	return zerolog.New(zerolog.SyncWriter(stderr)).With().Timestamp().Logger() // jobs are done side by side
}

// showBar shows a bar in place of a line a job where somebody is looking.
func (n *night) showBar(jobs int, stderr io.Writer) (finish func()) {
	if !isTerminal(stderr) {
		return func() {}
	}
	lines := n.log
	bar := progressbar.NewOptions(jobs, progressbar.OptionSetWriter(stderr), progressbar.OptionShowCount(),
		progressbar.OptionSetDescription("jobs"), progressbar.OptionThrottle(100*time.Millisecond), progressbar.OptionClearOnFinish())
	n.log = n.log.Level(zerolog.WarnLevel)
	n.done = func() { _ = bar.Add(1) }
	return func() {
		_ = bar.Finish()
		n.log, n.done = lines, func() {}
	}
}

// printRun says in four lines what the roll-up holds.
func printRun(w io.Writer, root string, r rollup.Run) {
	fmt.Fprintf(w, "%d jobs (%d unchanged, %d resting): %d HOLD, %d VERIFY, %d NOT CHECKED, %d CLEAR\n", r.Jobs, r.Unchanged, r.Resting,
		r.Verdicts[check.Hold], r.Verdicts[check.Verify], r.Verdicts[check.NotChecked], r.Verdicts[check.Clear])
	if r.Faults > 0 {
		fmt.Fprintf(w, "%d with a workbook that could not be read\n", r.Faults)
	}
	fmt.Fprintf(w, "%d new rows, %d older, %d accepted, %d asked, %d gone\n", r.New, r.Old, r.Accepted, r.Asked, r.Ended)
	fmt.Fprintf(w, "Open: %s\n", filepath.ToSlash(filepath.Join(root, watch.RollUp)))
}

func codeOf(r rollup.Run) error {
	switch {
	case r.Faults > 0 || r.Jobs == 0:
		return exit(exitFailed)
	case r.Verdicts[check.Hold] > 0:
		return exit(exitHold)
	}
	return nil
}
