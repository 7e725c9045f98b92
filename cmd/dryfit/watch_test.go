package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"dryfit/sheet/draft"
	"dryfit/sheet/graft"
	"dryfit/sheet/rollup"
	"dryfit/sheet/write"
	"dryfit/watch"
)

const (
	partsHead = "== Parts\nMark | Part | Qty | L | W | T | Material\n"
	wrongSlab = partsHead + "B7 | Bench slab | 1 | 40 | 14 | 2 1/4 | 2 x 3/4 MDF\n"
	soundSlab = partsHead + "B7 | Bench slab | 1 | 40 | 14 | 1 1/2 | 2 x 3/4 MDF\n"
)

// safeBuffer takes the log of a watch while a test reads it.
type safeBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (s *safeBuffer) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.Write(p)
}

func (s *safeBuffer) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.String()
}

// giveUp is short for the tests; while it is not over, nothing is said of a folder.
const giveUp = 2 * time.Second

// watched is a root under watch.
type watched struct {
	t    *testing.T
	root string
	log  safeBuffer
	stop context.CancelFunc
	end  chan error
}

func startWatch(t *testing.T, root string, poll bool) *watched {
	w := &watched{t: t, root: root, end: make(chan error, 1)}
	ctx, stop := context.WithCancel(t.Context())
	w.stop = stop
	go func() {
		w.end <- watchRoot(ctx, watch.Options{Root: root, Poll: poll, Every: 60 * time.Millisecond, Settle: 20 * time.Millisecond, GiveUp: giveUp}, &w.log)
	}()
	t.Cleanup(func() {
		if t.Failed() {
			t.Logf("log of the watch:\n%s", w.log.String())
		}
	})
	return w
}

func (w *watched) path(parts ...string) string {
	return filepath.Join(append([]string{w.root}, parts...)...)
}

func (w *watched) finish() {
	w.t.Helper()
	w.stop()
	select {
	case err := <-w.end:
		if err != nil {
			w.t.Errorf("the watch ended with %v", err)
		}
	case <-time.After(20 * time.Second):
		w.t.Fatal("the watch does not end")
	}
}

// until waits for something that the watch does.
func (w *watched) until(what string, holds func() bool) {
	w.t.Helper()
	for start := time.Now(); time.Since(start) < 20*time.Second; time.Sleep(10 * time.Millisecond) {
		if holds() {
			return
		}
	}
	w.t.Fatalf("in 20 s not: %s", what)
}

// lines are those of a job on the roll-up; ok is false when the job is not on it.
func (w *watched) lines(job string) (lines map[string]rollup.Line, ok bool) {
	data, saved, err := readSaved(w.path(watch.RollUp))
	if err != nil {
		return nil, false
	}
	past, err := rollup.Read(data, saved)
	if err != nil {
		w.t.Errorf("roll-up: %v", err)
		return nil, false
	}
	_, ok = past.Digests[job]
	return past.Lines[job], ok
}

func (w *watched) open(job string, want int) func() bool {
	return func() bool { lines, ok := w.lines(job); return ok && len(lines) == want }
}

func (w *watched) isAway(job string) func() bool {
	return func() bool { _, ok := w.lines(job); return !ok }
}

// flagged is the flagged tab of a workbook as text; empty when it has none.
func flagged(t *testing.T, path string) string {
	data, err := os.ReadFile(path)
	if err != nil {
		return ""
	}
	if ours, err := graft.Ours(data); err == nil && len(ours) == 0 && !watch.IsOurs(path) {
		return ""
	}
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		return ""
	}
	defer f.Close()
	rows, err := f.GetRows(write.TabFlagged)
	if err != nil {
		return ""
	}
	return fmt.Sprint(rows)
}

func tabText(t testing.TB, data []byte, tab string) string {
	f, err := excelize.OpenReader(bytes.NewReader(data))
	must(t, err)
	defer f.Close()
	rows, err := f.GetRows(tab)
	must(t, err)
	return fmt.Sprint(rows)
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func bookOf(t testing.TB, text string) []byte {
	t.Helper()
	data, err := draft.Workbook(text)
	must(t, err)
	return data
}

func put(t testing.TB, path, text string) {
	t.Helper()
	must(t, os.MkdirAll(filepath.Dir(path), 0o755))
	must(t, os.WriteFile(path, bookOf(t, text), 0o644))
}

// saveByRename saves as spreadsheet programs do: a temporary name without an ending, the
// original away, the new one in its place.
func saveByRename(t testing.TB, path, text string) {
	t.Helper()
	temp := filepath.Join(filepath.Dir(path), "7F3A21C0")
	must(t, os.WriteFile(temp, bookOf(t, text), 0o644))
	must(t, os.Remove(path))
	must(t, os.Rename(temp, path))
}

func sayAt(t testing.TB, path, tab, beside, header, text string) {
	t.Helper()
	f, err := excelize.OpenFile(path)
	must(t, err)
	defer f.Close()
	must(t, sayIn(f, tab, beside, header, text))
	must(t, f.Save())
}

// One watch sees whatever an office does with its files, by events and by walks alone.
func TestWatch(t *testing.T) {
	for name, poll := range map[string]bool{"events": false, "walks": true} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			root := t.TempDir()
			put(t, filepath.Join(root, "2301", "list.xlsx"), wrongSlab)
			w := startWatch(t, root, poll)
			list := w.path("2301", "list.xlsx")
			w.until("the job that was there is on the roll-up", w.open("2301", 1))
			if !strings.Contains(flagged(t, list), "HOLD") {
				t.Error("no HOLD on the flagged tab of the job")
			}
			w.create(list)
			w.saveOver(list)
			w.saveInPieces()
			w.openWhile(list)
			w.moveIn()
			w.word()
			w.standards()
			w.finish()
			w.leavesNothing()
		})
	}
}

func (w *watched) create(list string) {
	put(w.t, w.path("2302", "list.xlsx"), soundSlab)
	w.until("a new folder is on the roll-up", w.open("2302", 0))
}

func (w *watched) saveOver(list string) {
	saveByRename(w.t, list, soundSlab)
	w.until("a save by rename is seen", w.open("2301", 0))
	saveByRename(w.t, list, wrongSlab)
	w.until("and the next", w.open("2301", 1))
	w.until("its tabs stand in the new file", func() bool { return strings.Contains(flagged(w.t, list), "HOLD") })
}

// saveInPieces writes a workbook slowly and many times over.
func (w *watched) saveInPieces() {
	path := w.path("2302", "list.xlsx")
	for i := range 20 {
		text := soundSlab
		if i%2 == 1 {
			text = wrongSlab
		}
		data := bookOf(w.t, text)
		f, err := os.Create(path)
		must(w.t, err)
		for len(data) > 0 {
			n := min(len(data), 3000)
			_, err := f.Write(data[:n])
			must(w.t, err)
			data = data[n:]
		}
		must(w.t, f.Close())
	}
	w.until("the last of a burst of saves counts", w.open("2302", 1))
	w.until("and is in the workbook", func() bool { return strings.Contains(flagged(w.t, path), "HOLD") })
}

// openWhile has the workbook open while it is saved.
func (w *watched) openWhile(list string) {
	lock := filepath.Join(filepath.Dir(list), ".~lock.list.xlsx#")
	must(w.t, os.WriteFile(lock, []byte("Ann Example,ann,desk-2,02.11.2026 10:15,file:///home/ann;"), 0o644))
	put(w.t, list, soundSlab)
	w.until("results go beside a workbook that is open", func() bool { return flagged(w.t, watch.Sibling(list)) != "" })
	if flagged(w.t, list) != "" {
		w.t.Error("a workbook that is open was written")
	}
	must(w.t, os.Remove(lock))
	w.until("and into it when it is closed", func() bool { return flagged(w.t, list) != "" })
	w.until("the sibling goes", func() bool { _, err := os.Stat(watch.Sibling(list)); return err != nil })
}

// moveIn moves a whole folder in, renames it and takes it away.
func (w *watched) moveIn() {
	away := w.t.TempDir()
	put(w.t, filepath.Join(away, "2303", "list.xlsx"), wrongSlab)
	must(w.t, os.Rename(filepath.Join(away, "2303"), w.path("2303")))
	w.until("a folder that was moved in is on the roll-up", w.open("2303", 1))
	must(w.t, os.Rename(w.path("2303"), w.path("2303 shelf")))
	w.until("a renamed folder goes by its new name", w.open("2303 shelf", 1))
	w.until("and not by the old one", w.isAway("2303"))
	must(w.t, os.RemoveAll(w.path("2303 shelf")))
	w.until("a folder that was removed is away", w.isAway("2303 shelf"))
}

func (w *watched) word() {
	w.until("its results are written", func() bool { return strings.Contains(flagged(w.t, w.path("2302", "list.xlsx")), "HOLD") })
	book := w.path(watch.RollUp)
	f, err := excelize.OpenFile(book)
	must(w.t, err)
	must(w.t, sayIn(f, rollup.TabOpen, "B7", "Accept: initials", "RB"))
	must(w.t, sayIn(f, rollup.TabOpen, "B7", "Accept: why", "veneered core"))
	must(w.t, f.Save())
	must(w.t, f.Close())
	w.until("a word typed in the roll-up reaches the job", func() bool {
		return strings.Contains(flagged(w.t, w.path("2302", "list.xlsx")), "RB veneered core")
	})
	w.until("and counts", func() bool {
		lines, _ := w.lines("2302")
		for _, l := range lines {
			return l.Fate == rollup.Accepted
		}
		return false
	})
}

// standards changes what the shop goes by: every job is checked again, and one rests.
func (w *watched) standards() {
	before := strings.Count(w.log.String(), `"job":"2302"`)
	put(w.t, w.path("standards.xlsx"), "== Jobs\njob folder | active | stage | note\n2301 | no | |\n")
	w.until("a job that is not active any more is away", w.isAway("2301"))
	w.until("the others are checked again", func() bool { return strings.Count(w.log.String(), `"job":"2302"`) > before })
}

// leavesNothing looks for what a clean end must not leave.
func (w *watched) leavesNothing() {
	must(w.t, filepath.WalkDir(w.root, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() && (strings.HasSuffix(path, ".tmp") || strings.HasPrefix(d.Name(), "write-") || d.Name() == "lock") {
			w.t.Errorf("left behind: %s", path)
		}
		return err
	}))
	release, err := watch.Lock(w.root)
	must(w.t, err)
	release()
}

// A workbook that never comes to rest is told of on the roll-up, and checked when it does.
func TestRestless(t *testing.T) {
	root := t.TempDir()
	path := filepath.Join(root, "2301", "list.xlsx")
	put(t, path, wrongSlab)
	w := startWatch(t, root, true)
	w.until("the roll-up is there", w.open("2301", 1))
	writing, stop := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(writing)
		for i := 0; ; i++ {
			select {
			case <-stop:
				return
			case <-time.After(5 * time.Millisecond):
				os.WriteFile(path, fmt.Appendf(nil, "piece %d", i), 0o644)
			}
		}
	}()
	w.until("it is told of", func() bool {
		data, err := os.ReadFile(w.path(watch.RollUp))
		return err == nil && strings.Contains(tabText(t, data, rollup.TabFront), "have been changing")
	})
	close(stop)
	<-writing
	put(t, path, soundSlab)
	w.until("it is checked when it rests", w.open("2301", 0))
	w.finish()
}

func TestTwoOnOneRoot(t *testing.T) {
	root := t.TempDir()
	put(t, filepath.Join(root, "2301", "list.xlsx"), wrongSlab)
	w := startWatch(t, root, true)
	w.until("the roll-up is there", w.open("2301", 1))
	var out, log bytes.Buffer
	err := nightly(t.Context(), root, false, &out, &log)
	var held *watch.HeldError
	if !errors.As(err, &held) || held.Holder.PID != os.Getpid() {
		t.Errorf("a second run on the root: %v", err)
	}
	if code := run([]string{"watch", root}, &out, &log); code != exitFailed || !strings.Contains(log.String(), "another dryfit is at work") {
		t.Errorf("a second watch ends with %d: %s", code, log.String())
	}
	w.finish()
}

// A watch that starts again does nothing over, and sees what changed meanwhile.
func TestWatchStartsAgain(t *testing.T) {
	root := t.TempDir()
	for i := range 5 {
		put(t, filepath.Join(root, fmt.Sprint(2300+i), "list.xlsx"), wrongSlab)
	}
	w := startWatch(t, root, false)
	w.until("the roll-up is there", w.open("2304", 1))
	w.finish()
	put(t, filepath.Join(root, "2302", "list.xlsx"), soundSlab)
	w = startWatch(t, root, false)
	w.until("what changed meanwhile is seen", w.open("2302", 0))
	w.finish()
	if n := strings.Count(w.log.String(), `"how":"checked"`); n != 1 {
		t.Errorf("%d jobs were checked, one had changed", n)
	}
}
