package main

import (
	"cmp"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"iter"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"dryfit/check"
	"dryfit/sheet/gate"
	"dryfit/sheet/graft"
	"dryfit/sheet/rollup"
	"dryfit/sheet/write"
	"dryfit/watch"
)

// rollupBook is the roll-up workbook as it stands at the start of a run.
type rollupBook struct {
	path    string
	data    []byte // nil when there is none
	sum     watch.Hash
	sibling []byte                      // the one beside it, from a day when it was open; nil when there is none
	touched bool                        // it is not as we left it: somebody saved it, or memory is lost
	ahead   bool                        // it may tell of jobs that memory knows nothing of
	words   func() (rollup.Past, error) // the runs, and what was typed since we left it
	read    func() (rollup.Past, error) // all of it
	fault   func(error)
}

// openBook looks at the roll-up. It is read only when it is not as we left it, or when memory
// lacks something.
func (n *night) openBook() error {
	b := rollupBook{path: filepath.Join(n.root, watch.RollUp)}
	b.fault = func(err error) { n.log.Warn().Err(err).Msg("the roll-up is made anew; the old one is in the backups") }
	var saved, beside time.Time
	var err error
	if b.data, saved, err = readIfAny(b.path); err != nil {
		return err
	}
	if b.sibling, beside, err = readIfAny(watch.Sibling(b.path)); err != nil {
		return err
	}
	b.sum = sumOf(b.data)
	b.touched = n.era.Book != b.sum || n.era.Beside != sumOf(b.sibling)
	once := func(read reader) func() (rollup.Past, error) {
		return sync.OnceValues(func() (rollup.Past, error) {
			past, err := readBook(read, b.data, saved)
			if b.sibling != nil {
				second, e := readBook(read, b.sibling, beside)
				past, err = past.With(second), errors.Join(err, e)
			}
			return past, err
		})
	}
	b.words, b.read = once(rollup.ReadWords), once(rollup.Read)
	n.book = b
	return nil
}

type reader func(data []byte, saved time.Time) (rollup.Past, error)

func readIfAny(path string) ([]byte, time.Time, error) {
	data, saved, err := readSaved(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, saved, nil
	}
	return data, saved, err
}

func readBook(read reader, data []byte, saved time.Time) (rollup.Past, error) {
	if data == nil {
		return rollup.Past{}, nil
	}
	if err := gate.Check(data); err != nil {
		return rollup.Past{}, err
	}
	return read(data, saved)
}

// past is what people may have typed since we left the roll-up: nothing, unless it was touched.
func (b *rollupBook) past() rollup.Past { return readIf(b.touched, b.words) }

// whole is all that the roll-up holds: nothing, unless it is ahead of memory.
func (b *rollupBook) whole() rollup.Past { return readIf(b.ahead, b.read) }

// readIf gives nothing also for a roll-up that cannot be read.
func readIf(wanted bool, read func() (rollup.Past, error)) rollup.Past {
	if !wanted {
		return rollup.Past{}
	}
	past, err := read()
	if err != nil {
		return rollup.Past{}
	}
	return past
}

// startRun begins a run, or takes up one that was broken off. since is the moment from which
// lines are new.
func (n *night) startRun(at, since time.Time) {
	n.start = at
	n.ended, n.wrote, n.again, n.dirty, n.gone = map[string]rollup.Ended{}, map[string]watch.Hash{}, nil, n.stale, 0
	if n.book.touched {
		if _, err := n.book.words(); err != nil {
			n.book.fault(err)
		}
	}
	if n.era.Totals == nil || n.isBehind() {
		n.relearn()
	}
	if n.era.Under {
		n.takeUp()
	} else {
		n.dirty = n.dirty || n.era.Front.Run.New > 0 && since.After(n.era.Since) // they are new no more
		n.era.Since, n.era.Run, n.era.Under = since, at.UnixNano(), true
	}
	n.dirty = n.dirty || n.book.touched || n.book.data == nil || n.book.sibling != nil && !n.staysOpen()
	n.remember(keyEra, n.era)
}

// isBehind reports whether the roll-up tells of a run that memory knows nothing of.
func (n *night) isBehind() bool {
	runs := n.book.past().History
	return len(runs) > 0 && (len(n.era.History) == 0 || runs[0].At.After(n.era.History[0].At))
}

// relearn takes from the roll-up what memory has lost.
func (n *night) relearn() {
	for _, key := range n.memory.Keys() {
		if strings.HasPrefix(key, keyJob) {
			n.memory.Forget(key)
		}
	}
	n.book.ahead = true
	past := n.book.whole()
	n.era = era{History: past.History, Totals: past.Ended, Book: n.era.Book, Beside: n.era.Beside}
	if n.era.Totals == nil {
		n.era.Totals = map[string]rollup.Ended{}
	}
	if len(past.History) > 0 {
		n.era.Since = past.History[0].Since
	}
	n.dirty = true
}

// staysOpen reports whether a watch would write the roll-up once more beside itself.
func (n *night) staysOpen() bool {
	_, open := watch.OpenBy(n.book.path)
	return n.watching && open
}

// settleEra ends a run after which the roll-up is as true as before.
func (n *night) settleEra() {
	n.era.Under = false
	n.remember(keyEra, n.era)
}

// takeUp adds up what jobs of a run that was broken off had counted.
func (n *night) takeUp() {
	n.dirty, n.book.touched, n.book.ahead = true, true, true
	for _, key := range n.memory.Keys() {
		h := decodeHead(n.memory.Peek(key))
		if !strings.HasPrefix(key, keyJob) || h == nil || h.Run != n.era.Run {
			continue
		}
		if r := decodeRecord(n.memory.Get(key)); r != nil {
			for id, count := range r.Ended {
				n.ended[id] = add(n.ended[id], count)
				n.gone += count.Mended + count.Itself
			}
		}
	}
}

// wordsOf lists what stands or stood beside the findings of a job.
func wordsOf(job string, typed write.Typed, lines []rollup.Line) []rollup.Word {
	fates := map[string]string{}
	for _, l := range lines {
		fates[l.Key] = "stands"
		switch l.Fate {
		case rollup.Lapsed:
			fates[l.Key] = "lapsed: the finding became worse"
		case rollup.Shared:
			fates[l.Key] = "does not count: wants a reason of its own"
		}
	}
	var words []rollup.Word
	for key, s := range typed {
		if write.Measured(key) {
			continue // of no finding: it stays on the install tab
		}
		older := "replaced"
		if s.Silent() {
			older = "withdrawn"
		} else {
			words = append(words, rollup.Word{Job: job, Key: key, On: s.On, As: s.As(), Fate: cmp.Or(fates[key], "the finding is gone")})
		}
		for _, b := range s.Before {
			words = append(words, rollup.Word{Job: job, Key: key, On: b.On, As: b.As, Fate: older})
			older = "replaced"
		}
	}
	slices.SortFunc(words, laterWord)
	return words
}

func laterWord(a, b rollup.Word) int {
	return cmp.Or(b.On.Compare(a.On), cmp.Compare(a.Job, b.Job), cmp.Compare(a.Key, b.Key), slices.Compare(a.As[:], b.As[:]))
}

// mostRuns is how many runs the history goes back.
const mostRuns = 400

// rollUp brings the roll-up workbook up to date with what is remembered of the jobs.
func (n *night) rollUp(ctx context.Context, list []due, resting int, kind string) (rollup.Run, error) {
	n.dropGone(list)
	run := n.tally(list, resting)
	run.Kind = kind
	listed := n.listSum(list)
	n.dirty = n.dirty || listed != n.era.List || n.era.Foreign
	history := n.era.History
	if len(history) > 0 && run.Continues(history[0]) {
		history = history[1:]
	}
	var front rollup.Front
	var book rollup.Book
	if n.dirty {
		book = n.wholeBook(list, &run)
		front = book.Front
	} else {
		front = n.era.Front
		run.New, run.Old = front.Run.New, front.Run.Old
		front.Run = run
	}
	history = append([]rollup.Run{run}, history...)
	history = history[:min(len(history), mostRuns)]
	book.History = history
	if err := n.writeBook(ctx, book, front); err != nil {
		return run, err
	}
	n.era.Totals, n.era.History, n.era.Front, n.era.List, n.era.Under = n.totals(), history, front, listed, false
	n.ended, n.stale = map[string]rollup.Ended{}, false
	n.remember(keyEra, n.era)
	return run, n.memory.Sync()
}

func (n *night) totals() map[string]rollup.Ended {
	totals := maps.Clone(n.era.Totals)
	if totals == nil {
		totals = map[string]rollup.Ended{}
	}
	for id, count := range n.ended {
		totals[id] = add(totals[id], count)
	}
	return totals
}

// dropGone forgets the jobs that are not due any more, and counts their findings as left.
func (n *night) dropGone(list []due) {
	due := map[string]bool{}
	for _, d := range list {
		due[d.key] = true
	}
	lines := map[string][]rollup.Line{}
	for job, byKey := range n.book.whole().Lines {
		if !due[job] {
			lines[job] = slices.Collect(maps.Values(byKey))
		}
	}
	for _, key := range n.memory.Keys() {
		job, is := strings.CutPrefix(key, keyJob)
		if !is || due[job] {
			continue
		}
		if r := decodeRecord(n.memory.Get(key)); r != nil {
			lines[job] = r.Lines
		}
		n.memory.Forget(key)
		n.dirty = true
	}
	for _, left := range lines {
		for _, l := range left {
			n.ended[l.ID] = add(n.ended[l.ID], rollup.Ended{Left: 1})
		}
	}
}

// tally adds up the heads of the jobs. New and old lines are counted by wholeBook.
func (n *night) tally(list []due, resting int) rollup.Run {
	run := rollup.Run{At: n.start, Since: n.era.Since, Version: version, Resting: resting, Ended: n.gone}
	for _, d := range list {
		h := decodeHead(n.memory.Peek(keyJob + d.key))
		if h == nil || h.is(flagNoJob) {
			continue
		}
		run.Jobs++
		if h.Run != n.era.Run {
			run.Unchanged++
		}
		if h.is(flagFault) {
			run.Faults++
		}
		if h.is(flagRead) {
			run.Verdicts[h.Verdict]++
		}
		run.Accepted += int(h.Said[0])
		run.Asked += int(h.Said[1])
	}
	run.Took = time.Since(n.start)
	return run
}

// listSum sums up the list of jobs with their dates.
func (n *night) listSum(list []due) watch.Hash {
	sum := sha256.New()
	var line []byte
	for _, d := range list {
		line = append(append(line[:0], d.key...), 0)
		line = append(append(line, d.says.Stage...), 0)
		line = append(strconv.AppendInt(line, d.says.Cut.Unix(), 10), 0)
		sum.Write(append(strconv.AppendInt(line, d.says.Ship.Unix(), 10), 0))
	}
	return watch.Hash(sum.Sum(nil))
}

// wholeBook gathers all that the roll-up shows. Jobs and lines are read from memory while they
// are written: only their order is held.
func (n *night) wholeBook(list []due, run *rollup.Run) rollup.Book {
	b := rollup.Book{Since: n.era.Since, Checks: map[string]rollup.Outcome{}}
	slices.SortFunc(list, due.sooner)
	var order []spot
	for i, d := range list {
		r := n.recordOf(d)
		if r == nil {
			continue
		}
		b.Jobs++
		for k, l := range r.Lines {
			p := spot{int32(i), int32(k), group(l, b.Since), uint8(check.Hold - l.Stand.Verdict)}
			order = append(order, p)
			countLine(&b, run, l, p.group)
		}
		b.Words = append(b.Words, r.Words...)
	}
	for id, e := range n.totals() {
		o := b.Checks[id]
		o.ID, o.Ended = id, e
		b.Checks[id] = o
	}
	slices.SortFunc(b.Words, laterWord)
	slices.SortFunc(order, spot.before)
	b.Lines, b.Rows, b.AllJobs = len(order), n.rows(list, order), n.allJobs(list)
	b.Front = n.front(list, order, *run, b)
	return b
}

// recordOf is what is remembered of a job; nil for a folder that is none.
func (n *night) recordOf(d due) *record {
	r := decodeRecord(n.memory.Get(keyJob + d.key))
	if r == nil || r.is(flagNoJob) {
		return nil
	}
	return r
}

// spot is where a line of the roll-up comes from, and what orders it: the group, HOLD before all
// else, the date of its job, the verdict.
type spot struct {
	job, line int32
	group     uint8
	verdict   uint8 // the urgent first
}

// group puts new lines on top, answered ones at the end.
func group(l rollup.Line, since time.Time) uint8 {
	switch {
	case l.Fate == rollup.Accepted:
		return 3
	case l.Fate == rollup.Asked:
		return 2
	case l.IsNew(since):
		return 0
	}
	return 1
}

// before orders the lines; their jobs are in order already.
func (a spot) before(b spot) int {
	return cmp.Or(cmp.Compare(a.group, b.group), cmp.Compare(min(a.verdict, 1), min(b.verdict, 1)), cmp.Compare(a.job, b.job), cmp.Compare(a.verdict, b.verdict), cmp.Compare(a.line, b.line))
}

func (d due) sooner(e due) int { return d.job().Sooner(e.job()) }

// allJobs reads the jobs in their order.
func (n *night) allJobs(list []due) iter.Seq[rollup.Job] {
	return func(yield func(rollup.Job) bool) {
		for _, d := range list {
			if r := n.recordOf(d); r != nil && !yield(jobOf(d, r, n.era.Since)) {
				return
			}
		}
	}
}

// rows reads the lines in their order.
func (n *night) rows(list []due, order []spot) iter.Seq[rollup.Line] {
	return func(yield func(rollup.Line) bool) {
		at := int32(-1)
		var r *record
		for _, p := range order {
			if p.job != at {
				at, r = p.job, decodeRecord(n.memory.Get(keyJob+list[p.job].key))
			}
			if r == nil || int(p.line) >= len(r.Lines) || !yield(r.Lines[p.line]) {
				return
			}
		}
	}
}

// job is what the list of jobs says of it.
func (d due) job() rollup.Job {
	return rollup.Job{Name: d.key, Stage: d.says.Stage, Cut: d.says.Cut, Ship: d.says.Ship}
}

func jobOf(d due, r *record, since time.Time) rollup.Job {
	j := d.job()
	j.Verdict, j.Fault, j.Read, j.Notes, j.Digest = check.Verdict(r.Verdict), r.Fault, r.is(flagRead), r.Notes, r.digest()
	j.Counts = rollup.Counts{Hold: int(r.Open[check.Hold]), Verify: int(r.Open[check.Verify]), NotChecked: int(r.Open[check.NotChecked]),
		Accepted: int(r.Said[0]), Asked: int(r.Said[1])}
	for _, l := range r.Lines {
		if group(l, since) == 0 {
			j.New++
		}
	}
	return j
}

func countLine(b *rollup.Book, run *rollup.Run, l rollup.Line, group uint8) {
	o := b.Checks[l.ID]
	o.ID = l.ID
	switch group {
	case 0:
		o.Open++
		run.New++
	case 1:
		o.Open++
		run.Old++
	case 2:
		o.Open++
		o.Asked++
	case 3:
		o.Accepted++
	}
	b.Checks[l.ID] = o
}

// front takes what fits on a page.
func (n *night) front(list []due, order []spot, run rollup.Run, b rollup.Book) rollup.Front {
	f := rollup.Front{Root: filepath.Base(n.root), Run: run}
	for j := range b.AllJobs {
		if j.Fault != "" && len(f.Faults) < rollup.MostFaults {
			f.Faults = append(f.Faults, j)
		}
		if len(f.Jobs) < rollup.MostJobs {
			f.Jobs = append(f.Jobs, j)
		} else if len(f.Faults) == min(run.Faults, rollup.MostFaults) {
			break
		}
	}
	for l := range n.rows(list, onFront(order, f)) {
		switch group(l, b.Since) {
		case 0:
			f.New = append(f.New, l)
		case 1:
			f.Old = append(f.Old, l)
		default:
			f.Asked = append(f.Asked, l)
		}
	}
	return f.Oldest()
}

// onFront picks the lines that the page may show: all questions, as the oldest are not known yet.
func onFront(order []spot, f rollup.Front) (picked []spot) {
	room, fresh := f.RoomFor()
	for _, p := range order {
		switch {
		case p.group == 0 && fresh > 0:
			picked, room, fresh = append(picked, p), room-1, fresh-1
		case p.group == 1 && room > 0:
			picked, room = append(picked, p), room-1
		case p.group == 2:
			picked = append(picked, p)
		}
	}
	return picked
}

// writeBook puts the roll-up in its place, or beside it while somebody has it open.
func (n *night) writeBook(ctx context.Context, book rollup.Book, front rollup.Front) error {
	book.Front = front
	made, err := n.makeBook(book)
	if err != nil {
		return fmt.Errorf("making the roll-up: %w", err)
	}
	path, sum := n.book.path, watch.Sum(made)
	_, err = watch.Replace(ctx, watch.Change{Root: n.root, Path: path, Was: n.book.sum, New: made})
	var refused *watch.Refused
	switch {
	case errors.As(err, &refused):
		n.log.Warn().Err(err).Str("instead", filepath.Base(watch.Sibling(path))).Msg("the roll-up is written beside")
		_, err = watch.Replace(ctx, watch.Change{Root: n.root, Path: watch.Sibling(path), Was: sumOf(n.book.sibling), New: made})
		n.era.Book, n.era.Beside = n.book.sum, sum
		n.again = append(n.again, n.root)
		return err
	case err != nil && !errors.Is(err, watch.ErrUnfinished):
		return err
	}
	n.era.Book, n.era.Beside = sum, watch.Hash{}
	n.wrote[path] = sum
	if n.book.sibling != nil {
		if err := watch.Retire(n.root, watch.Sibling(path), watch.Sum(n.book.sibling)); err != nil {
			n.era.Beside = watch.Sum(n.book.sibling)
			n.log.Warn().Err(err).Msg("a roll-up that is no longer needed stays")
		}
	}
	return nil
}

func sumOf(data []byte) watch.Hash {
	if data == nil {
		return watch.Hash{}
	}
	return watch.Sum(data)
}

// makeBook makes the bytes of the roll-up; tabs that somebody put into it stay.
func (n *night) makeBook(book rollup.Book) ([]byte, error) {
	if !n.dirty {
		return rollup.Refresh(n.book.data, book.Front, book.History)
	}
	foreign := n.era.Foreign
	if n.book.touched {
		foreign = n.book.past().Foreign
	}
	if n.book.data != nil && foreign {
		made, err := rollup.Into(n.book.data, book)
		n.era.Foreign = err == nil
		var refusal *graft.Refusal
		if !errors.As(err, &refusal) {
			return made, err
		}
		n.book.fault(err)
	}
	n.era.Foreign = false
	return rollup.Make(book)
}
