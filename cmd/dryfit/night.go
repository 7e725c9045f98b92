package main

import (
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/rs/zerolog"

	"dryfit/check"
	"dryfit/check/catalogue"
	"dryfit/check/standard"
	"dryfit/sheet/read"
	"dryfit/sheet/rollup"
	"dryfit/sheet/standards"
	"dryfit/sheet/write"
	"dryfit/watch"
	"dryfit/watch/memory"
)

// night is the work on a whole root: it knows which jobs there are, which of them must be looked
// at, and what is remembered of the others. Nightly does all of it once; watch does the jobs
// that settled, again and again.
type night struct {
	root     string // absolute
	memory   *memory.Store
	log      zerolog.Logger
	done     func() // called after each job, for a bar; side by side
	all      bool   // check every job, whatever is remembered
	watching bool   // called again and again: no line for a job that is unchanged

	rules watch.Hash  // what every result rests on beside workbooks
	says  saying      // the shop's list of jobs
	shop  func() shop // the shop's standards, read when first wanted
	large sync.Mutex  // held while a job with large workbooks is in memory
	book  rollupBook  // the roll-up as it stands
	era   era         // what is remembered of earlier runs
	start time.Time   // of this run

	mu    sync.Mutex // guards what follows
	ended map[string]rollup.Ended
	dirty bool // the roll-up shows what is no longer so
	stale bool // and did so before this run
	gone  int  // findings that ended in this run
	wrote map[string]watch.Hash
	again []string // folders to visit again soon
}

// due is a folder that is, or may be, an active job. There is one for each of them at a time, so
// it holds little: its place is made up when the job is done.
type due struct {
	folder *watch.Folder
	key    string // path below the root, with slashes
	says   *standards.Job
	nested bool // it lies in another job's folder
}

func (d due) isRoot() bool { return d.key == "." }

func (d due) place() place {
	p := place{name: filepath.Base(d.folder.Path), path: d.folder.Path, root: d.isRoot()}
	take(&p, *d.folder)
	return p
}

// saying is what the shop's standards say of jobs, as remembered.
type saying struct {
	Sight  watch.Hash
	Looked int64
	Sum    watch.Hash // of the standards workbook
	From   string
	Jobs   []standards.Job
	Words  []standard.Word // those about folders
	Notes  []string
}

func (s saying) job(folder string) standards.Job {
	return standards.Standards{Jobs: s.Jobs, Words: s.Words}.Job(folder)
}

// era is what is remembered from run to run, beside the jobs.
type era struct {
	Since   time.Time // lines first seen from then on are new
	Run     int64     // ns since 1970: names the run whose counts may not be in Totals yet
	Under   bool      // that run did not come to its end
	Totals  map[string]rollup.Ended
	History []rollup.Run
	Book    watch.Hash   // of the roll-up as we left it
	Beside  watch.Hash   // of the one beside it; zero for none
	Foreign bool         // somebody put tabs of their own into it
	Front   rollup.Front // its first page
	List    watch.Hash   // of the list of jobs it was made by
}

const (
	keyShop = "shop"
	keyEra  = "era"
	keyJob  = "job/"
)

// begin opens the memory of a root and reads what it holds. The caller holds watch.Lock(root)
// and closes the night.
func begin(root string, log zerolog.Logger) (*night, error) {
	n := &night{root: root, log: log, done: func() {}, ended: map[string]rollup.Ended{}, wrote: map[string]watch.Hash{}}
	path := filepath.Join(root, ".dryfit", memoryName)
	store, forgotten, err := memory.Open(path)
	if err != nil {
		log.Warn().Err(err).Msg("nothing can be remembered; every job is read")
		dir, err := os.MkdirTemp("", "dryfit-")
		if err != nil {
			return nil, err
		}
		if store, _, err = memory.Open(filepath.Join(dir, memoryName)); err != nil {
			return nil, err
		}
	}
	n.memory = store
	if data := store.Get(keyEra); data == nil || json.Unmarshal(data, &n.era) != nil {
		n.era = era{}
	}
	if forgotten {
		log.Warn().Msg("the memory was damaged; every job is read")
	}
	return n, nil
}

func (n *night) close() error { return n.memory.Close() }

// readShop finds what the shop goes by in the workbooks of the root folder. The standards
// themselves are read only when a job must be checked.
func (n *night) readShop(top watch.Folder) {
	n.shop = sync.OnceValue(n.openShop)
	sight := sightOf(top)
	var s saying
	known := json.Unmarshal(n.memory.Get(keyShop), &s) == nil && s.Sight == sight && !isFresh(top, s.Looked)
	if !known {
		looked := time.Now().UnixNano()
		full := n.shop()
		s = saying{Sight: sight, Looked: looked, From: full.from, Jobs: full.says.Jobs, Notes: full.notes}
		for _, w := range full.says.Words {
			if w.Kind == "folder" {
				s.Words = append(s.Words, w)
			}
		}
		for _, b := range top.Books {
			if b.Path == full.from && b.Rival != "" {
				s.Notes = append(s.Notes, fmt.Sprintf("%s: two versions of it (%s); keep one", filepath.Base(b.Path), b.Rival))
			}
		}
		if data, err := os.ReadFile(full.from); full.from != "" && err == nil {
			s.Sum = watch.Sum(data)
		}
		n.remember(keyShop, s)
	}
	n.says = s
	n.rules = sha256.Sum256(fmt.Appendf(nil, "%s\n%x\n", programSight(), s.Sum))
}

func (n *night) openShop() shop {
	s := open(n.root, "")
	s.root = n.root
	return s
}

func (n *night) remember(key string, x any) {
	data, err := json.Marshal(x)
	if err == nil {
		err = n.memory.Put(key, data)
	}
	if err != nil {
		n.log.Warn().Err(err).Str("what", key).Msg("not remembered")
	}
}

// jobs sorts the folders of the root into those that are due and those that rest.
func (n *night) jobs(folders []watch.Folder) (list []due, resting int) {
	jobs := make(map[string]bool, len(folders))
	list = make([]due, 0, len(folders))
	for i := range folders { // a folder comes before those in it
		d := due{folder: &folders[i], key: n.below(folders[i].Path)}
		if d.isRoot() {
			if d.folder = n.withoutShop(d.folder); len(d.folder.Books) == 0 {
				continue
			}
		}
		d.says, d.nested = n.listed(d.key), inside(jobs, d.key)
		if !d.says.Active || d.says.Stage == check.Shipped.String() {
			if !d.nested {
				resting++
			}
			jobs[d.key] = true
			continue
		}
		jobs[d.key] = !d.isRoot()
		list = append(list, d)
	}
	return list, resting
}

// withoutShop is the root folder without the standards workbook of the shop.
func (n *night) withoutShop(f *watch.Folder) *watch.Folder {
	g := *f
	g.Books = slices.DeleteFunc(slices.Clone(f.Books), func(b watch.Book) bool { return b.Path == n.says.From })
	return &g
}

// unlisted is a folder of which the shop's standards say nothing.
var unlisted = &standards.Job{Active: true}

// listed is what the list of jobs says of a folder, or of one that it lies in.
func (n *night) listed(key string) *standards.Job {
	job := unlisted
	for part := range strings.SplitSeq(key, "/") {
		if j := n.says.job(part); j.From != "" {
			job = &j
		}
		if !job.Active {
			break
		}
	}
	return job
}

func inside(jobs map[string]bool, key string) bool {
	for at := strings.LastIndex(key, "/"); at > 0; at = strings.LastIndex(key[:at], "/") {
		if jobs[key[:at]] {
			return true
		}
	}
	return false
}

// workThrough does jobs side by side on all cores, until ctx ends.
func (n *night) workThrough(ctx context.Context, list []due) {
	queue := make(chan due)
	var workers sync.WaitGroup
	for range runtime.NumCPU() {
		workers.Go(func() {
			for d := range queue {
				n.job(ctx, d)
				n.done()
			}
		})
	}
	for _, d := range list {
		if ctx.Err() != nil {
			break
		}
		queue <- d
	}
	close(queue)
	workers.Wait()
}

// job does one job, or finds that what is remembered of it still holds.
func (n *night) job(ctx context.Context, d due) {
	start := time.Now()
	h := decodeHead(n.memory.Peek(keyJob + d.key))
	if h != nil && !n.all && n.holds(d, h) {
		n.logJob(d, h, "", "unchanged", start)
		return
	}
	if size(*d.folder) > largeBytes {
		n.large.Lock()
		defer n.large.Unlock()
	}
	r := n.check(ctx, d, decodeRecord(n.memory.Get(keyJob+d.key)))
	if ctx.Err() != nil {
		return // half done: the next run does it
	}
	if data, err := r.encode(); err != nil {
		n.log.Error().Err(err).Str("job", d.key).Msg("not remembered")
	} else if err := n.memory.Put(keyJob+d.key, data); err != nil {
		n.log.Error().Err(err).Str("job", d.key).Msg("not remembered")
	}
	n.logJob(d, &r.head, r.Fault, "checked", start)
}

// largeBytes is the size of workbooks from which jobs are done one at a time.
const largeBytes = 10 << 20

func size(f watch.Folder) (sum int64) {
	for _, b := range f.Books {
		sum += b.Size
	}
	return sum
}

// holds reports whether what is remembered of a job is still so.
func (n *night) holds(d due, h *head) bool {
	if h.is(flagAgain) || h.Rules != n.rulesOf(d) || n.book.past().Changed[d.key] {
		return false
	}
	proven := h.Sight == sightOf(*d.folder) && !h.is(flagWritten) && !isFresh(*d.folder, h.Looked)
	if proven && !h.is(flagBeside) {
		return true
	}
	looked := time.Now().UnixNano()
	r := decodeRecord(n.memory.Get(keyJob + d.key))
	if r == nil || !n.sameFiles(d, r.Files) {
		return false
	}
	r.Sight, r.Looked = sightOf(*d.folder), looked
	r.set(flagWritten, false)
	if fresh, err := r.encode(); err == nil {
		n.memory.Put(keyJob+d.key, fresh)
	}
	return true
}

// rulesOf is what the result of one job rests on beside the bytes of its workbooks: what is said
// of it, and what was left out of its folder.
func (n *night) rulesOf(d due) watch.Hash {
	besides := d.says.Stage
	for _, b := range d.folder.Books {
		if b.Rival != "" {
			besides += fmt.Sprintf("\n%q %q", filepath.Base(b.Path), b.Rival)
		}
	}
	for _, l := range d.folder.Left {
		besides += fmt.Sprintf("\n%q %q", filepath.Base(l.Path), l.Why)
	}
	if besides == "" {
		return n.rules
	}
	return sha256.Sum256(fmt.Appendf(nil, "%x %s", n.rules, besides))
}

// sameFiles reads the workbooks of a job and the siblings beside them.
func (n *night) sameFiles(d due, files map[string]watch.Hash) bool {
	seen := 0
	for _, b := range d.place().books {
		for _, path := range []string{b, watch.Sibling(b)} {
			data, err := os.ReadFile(path)
			if errors.Is(err, fs.ErrNotExist) {
				continue
			}
			if sum, known := files[n.below(path)]; err != nil || !known || sum != watch.Sum(data) {
				return false
			}
			seen++
		}
	}
	return seen == len(files)
}

// below writes a path below the root with slashes.
func (n *night) below(path string) string {
	if rest, is := strings.CutPrefix(path, n.root+string(filepath.Separator)); is {
		return filepath.ToSlash(rest)
	}
	rel, err := filepath.Rel(n.root, path)
	if err != nil {
		return filepath.ToSlash(path)
	}
	return filepath.ToSlash(rel)
}

// check looks at a job and makes the record of it.
func (n *night) check(ctx context.Context, d due, old *record) *record {
	before := n.linesBefore(d, old)
	p := d.place()
	p.said = n.wordsAbout(d, old, before)
	r := &record{head: head{Rules: n.rulesOf(d), Looked: time.Now().UnixNano()}}
	out := work(ctx, n.shop(), p, options{checks: catalogue.All, write: true})
	noJob := errors.Is(out.err, read.ErrNoParts) && (p.root || d.nested)
	if noJob {
		out.err = nil
	}
	r.set(flagNoJob, noJob)
	r.set(flagRead, out.report != nil)
	r.set(flagFault, out.err != nil)
	r.set(flagAgain, out.busy || out.err != nil)
	r.set(flagWritten, len(out.wrote) > 0)
	r.keepFiles(n, out)
	r.Sight = sightOf(again(*d.folder))
	r.Notes = out.notes
	if out.err != nil {
		r.Fault = oneLine(out.err.Error())
	}
	switch {
	case out.report != nil:
		r.Lines = n.linesOf(d, out, before)
	case !noJob:
		r.Lines, out.typed = lastKnown(before, p.said), p.said
	}
	r.Words = wordsOf(d.key, out.typed, r.Lines)
	r.sumUp(out.report)
	n.settleAccounts(d, out, r, old, before)
	n.note(d, out)
	return r
}

// keepFiles remembers which bytes stand under which name now.
func (r *record) keepFiles(n *night, out outcome) {
	r.Files = map[string]watch.Hash{}
	for path, sum := range out.read {
		if _, err := os.Lstat(path); err == nil {
			r.Files[n.below(path)] = sum
		}
	}
	for path, sum := range out.wrote {
		r.Files[n.below(path)] = sum
		r.set(flagBeside, r.is(flagBeside) || watch.IsOurs(path))
	}
}

// linesBefore are the lines of the job's last reading, by key: from its record, or from the
// roll-up where that is lost.
func (n *night) linesBefore(d due, old *record) map[string]rollup.Line {
	if old == nil {
		return n.book.whole().Lines[d.key]
	}
	lines := map[string]rollup.Line{}
	for _, l := range old.Lines {
		lines[l.Key] = l
	}
	return lines
}

// wordsAbout are the words that stand in the roll-up beside the lines of a job.
func (n *night) wordsAbout(d due, old *record, before map[string]rollup.Line) write.Typed {
	words := write.Typed{}
	for key, l := range before {
		words.Hear(write.Typed{key: l.Said})
	}
	if old == nil {
		words.Hear(n.book.whole().Typed[d.key])
	} else {
		words.Hear(n.book.past().Typed[d.key])
	}
	return words
}

// lastKnown are the lines of a job that cannot be read: those of its last reading, with what
// people wrote beside them since.
func lastKnown(before map[string]rollup.Line, said write.Typed) []rollup.Line {
	var lines []rollup.Line
	for _, key := range slices.Sorted(maps.Keys(before)) {
		l := before[key]
		l.Said = said[key]
		lines = append(lines, l)
	}
	return lines
}

// linesOf turns the findings of a report into lines.
func (n *night) linesOf(d due, out outcome, before map[string]rollup.Line) []rollup.Line {
	var lines []rollup.Line
	for _, f := range out.report.Findings {
		l := rollup.Line{Job: d.key, Key: f.Key, ID: f.ID, Stand: write.Stand{Verdict: f.Verdict, Margin: f.Margin},
			Where: write.Where(f), Text: f.Text, Fix: f.Fix, First: n.start, Said: out.typed[f.Key]}
		if len(f.Cells) > 0 {
			c := f.Cells[0]
			l.Book, l.Cell, l.Link = n.below(c.Book), c.String(), rollup.LinkTo(c)
		}
		if len(f.Cells) == 0 || f.Cells[0].Book == "" {
			l.Book = n.anyBook(out)
		}
		if was, known := before[f.Key]; known {
			l.First = was.First
		}
		l.Fate = fate(f, l.Said)
		lines = append(lines, l)
	}
	return lines
}

// anyBook is where a finding about the whole job is answered.
func (n *night) anyBook(out outcome) string {
	if len(out.written) == 0 {
		return ""
	}
	return n.below(out.written[0])
}

func fate(f *check.Finding, s write.Said) rollup.Fate {
	switch {
	case f.Accepted():
		return rollup.Accepted
	case f.Shared:
		return rollup.Shared
	case s.By != "" && s.Why != "":
		return rollup.Lapsed
	case f.Accept != nil:
		return rollup.Asked
	}
	return rollup.Open
}

// settleAccounts counts what became of the findings that are there no more, and whether the
// roll-up has to change.
func (n *night) settleAccounts(d due, out outcome, r, old *record, before map[string]rollup.Line) {
	r.Run, r.Ended = n.era.Run, map[string]rollup.Ended{}
	if r.is(flagRead) || r.is(flagNoJob) {
		mended := n.digestRead(out) != n.digestBefore(d, old)
		for id, count := range endedOf(before, r.Lines, mended) {
			r.Ended[id] = count
		}
	}
	n.mu.Lock()
	defer n.mu.Unlock()
	for id, count := range r.Ended {
		n.ended[id] = add(n.ended[id], count)
		n.gone += count.Mended + count.Itself
	}
	n.dirty = n.dirty || old == nil || shownOf(r) != shownOf(old)
	if old != nil && old.Run == r.Run { // of the same run, broken off before it was added up
		for id, count := range old.Ended {
			r.Ended[id] = add(r.Ended[id], count)
		}
	}
}

// digestRead is the digest of the workbooks as they were found.
func (n *night) digestRead(out outcome) string {
	files := map[string]watch.Hash{}
	for path, sum := range out.read {
		files[n.below(path)] = sum
	}
	return (&rest{Files: files}).digest()
}

func (n *night) digestBefore(d due, old *record) string {
	if old == nil {
		return n.book.whole().Digests[d.key]
	}
	return old.digest()
}

// endedOf counts the findings, by check, that were there before and are no more.
func endedOf(before map[string]rollup.Line, now []rollup.Line, mended bool) map[string]rollup.Ended {
	still := map[string]bool{}
	for _, l := range now {
		still[l.Key] = true
	}
	out := map[string]rollup.Ended{}
	for key, l := range before {
		if still[key] {
			continue
		}
		if mended {
			out[l.ID] = add(out[l.ID], rollup.Ended{Mended: 1})
		} else {
			out[l.ID] = add(out[l.ID], rollup.Ended{Itself: 1})
		}
	}
	return out
}

func add(a, b rollup.Ended) rollup.Ended {
	return rollup.Ended{Mended: a.Mended + b.Mended, Itself: a.Itself + b.Itself, Left: a.Left + b.Left}
}

// shownOf is all of a record that the roll-up shows, as text.
func shownOf(r *record) string {
	shown := r.rest
	shown.Ended, shown.Files = nil, nil
	text, err := json.Marshal(shown)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("%d %d %s %s", r.Verdict, r.Flags, r.digest(), text)
}

// note keeps what the watcher wants to know of a job.
func (n *night) note(d due, out outcome) {
	n.mu.Lock()
	defer n.mu.Unlock()
	for path, sum := range out.wrote {
		n.wrote[path] = sum
	}
	if out.busy {
		n.again = append(n.again, d.folder.Path)
	}
}

// logJob writes the line of a job.
func (n *night) logJob(d due, h *head, fault, how string, start time.Time) {
	if h.is(flagNoJob) || n.watching && how == "unchanged" {
		return
	}
	e := n.log.Info()
	if h.is(flagFault) {
		e = n.log.Warn()
	}
	verdict := check.Verdict(h.Verdict).String()
	if !h.is(flagRead) {
		verdict = "NOT READ"
	}
	e.Str("job", d.key).Str("verdict", verdict).Str("how", how).
		Uint16("hold", h.Open[check.Hold]).Uint16("verify", h.Open[check.Verify]).Uint16("notChecked", h.Open[check.NotChecked])
	if how == "checked" {
		e.Int64("ms", time.Since(start).Round(time.Millisecond).Milliseconds())
	}
	if fault != "" {
		e.Str("fault", fault)
	}
	e.Send()
}
