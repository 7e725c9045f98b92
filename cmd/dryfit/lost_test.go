package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"dryfit/sheet/office"
	"dryfit/sheet/rollup"
	"dryfit/sheet/write"
	"dryfit/watch"
)

// nightOver runs one night and gives what it said on stdout.
func nightOver(t testing.TB, root string) string {
	t.Helper()
	var out bytes.Buffer
	var code exit
	if err := nightly(context.Background(), root, false, &out, io.Discard); err != nil && !errors.As(err, &code) {
		t.Fatal(err)
	}
	return out.String()
}

// shown is the roll-up without moments and without what tells how it was come by.
func shown(t testing.TB, root string) []string {
	t.Helper()
	data, saved, err := readSaved(filepath.Join(root, watch.RollUp))
	must(t, err)
	past, err := rollup.Read(data, saved)
	must(t, err)
	var out []string
	for job, lines := range past.Lines {
		for key, l := range lines {
			s := past.Typed[job][key]
			out = append(out, fmt.Sprint(job, key, l.ID, l.Stand, l.Where, l.Text, l.Fix, l.Book, l.Cell, l.Fate, s.As(), len(s.Before)))
		}
	}
	out = append(out, slices.Collect(maps.Keys(past.Digests))...) // the digests hold the moments of words
	for id, e := range past.Ended {
		out = append(out, fmt.Sprint(id, e))
	}
	for _, r := range past.History {
		out = append(out, fmt.Sprint("run ", r.Jobs, r.Resting, r.Faults, r.Verdicts, r.New, r.Old, r.Ended, r.Accepted, r.Asked))
	}
	slices.Sort(out)
	return out
}

// Whatever becomes of the memory, the roll-up says the same: two roots live through the same
// nights, and one of them loses its memory, or has it damaged, before each.
func TestLostMemoryCostsNoResult(t *testing.T) {
	kept, lost := t.TempDir(), t.TempDir()
	r := rand.New(rand.NewPCG(20, 11))
	both := func(act func(root string)) { act(kept); act(lost) }
	for night := range 14 {
		for range 1 + r.IntN(3) {
			act := anyAct(t, r)
			both(act)
		}
		damage(t, r, filepath.Join(lost, ".dryfit", memoryName))
		nightOver(t, kept)
		nightOver(t, lost)
		if a, b := shown(t, kept), shown(t, lost); !slices.Equal(a, b) {
			t.Fatalf("night %d: with memory\n%q\nwithout\n%q", night, a, b)
		}
	}
}

// anyAct is something that an office does between two nights, drawn once for both roots.
func anyAct(t *testing.T, r *rand.Rand) func(root string) {
	job := fmt.Sprint(2300 + r.IntN(4))
	text := []string{wrongSlab, soundSlab, partsHead + "B7 | Bench slab | 1 | 40 | 14 | 3 3/4 | 2 x 3/4 MDF\n",
		wrongSlab + "B7 | Bench slab | 1 | 41 | 14 | 1 1/2 | 2 x 3/4 MDF\n"}[r.IntN(4)]
	initials, header, tab := []string{"RB", "KO", ""}[r.IntN(3)], write.TypedHeads[r.IntN(4)], []string{rollup.TabOpen, write.TabFlagged}[r.IntN(2)]
	data := bookOf(t, text)
	what := r.IntN(10)
	return func(root string) {
		list := filepath.Join(root, job, "list.xlsx")
		switch {
		case what < 5:
			must(t, os.MkdirAll(filepath.Dir(list), 0o755))
			must(t, os.WriteFile(list, data, 0o644))
		case what < 9:
			path := list
			if tab == rollup.TabOpen {
				path = filepath.Join(root, watch.RollUp)
			}
			if _, err := os.Stat(path); err == nil && flagged(t, list) != "" {
				trySay(t, path, tab, header, job, initials)
			}
		default:
			must(t, os.RemoveAll(filepath.Dir(list)))
		}
	}
}

// trySay types beside the first row that is about a job, if there is one.
func trySay(t *testing.T, path, tab, header, job, text string) {
	f, err := excelize.OpenFile(path)
	must(t, err)
	defer f.Close()
	beside := "B7"
	if tab == rollup.TabOpen {
		beside = `"job":"` + job
	}
	if sayIn(f, tab, beside, header, text) == nil {
		must(t, f.Save())
	}
}

// damage removes the memory, cuts it short or changes a byte of it.
func damage(t *testing.T, r *rand.Rand, path string) {
	data, err := os.ReadFile(path)
	if err != nil {
		return
	}
	at := r.IntN(len(data))
	switch r.IntN(3) {
	case 0:
		must(t, os.Remove(path))
		return
	case 1:
		data = data[:at]
	default:
		data[at] ^= 0x5a
	}
	must(t, os.WriteFile(path, data, 0o644))
}

// cancelAfter ends a run when so many jobs were checked.
type cancelAfter struct {
	bytes.Buffer
	jobs   int
	cancel context.CancelFunc
}

func (c *cancelAfter) Write(p []byte) (int, error) {
	n, err := c.Buffer.Write(p)
	if strings.Count(c.String(), `"how":"checked"`) >= c.jobs {
		c.cancel()
	}
	return n, err
}

// A run that was broken off is continued: what was done is not done again, and counts as found
// in the run that ends it.
func TestARunThatWasBrokenOffIsContinued(t *testing.T) {
	root := t.TempDir()
	const jobs = 12
	for i := range jobs {
		put(t, filepath.Join(root, fmt.Sprint(2300+i), "list.xlsx"), wrongSlab)
	}
	nightOver(t, root)
	for i := range jobs {
		put(t, filepath.Join(root, fmt.Sprint(2300+i), "list.xlsx"), soundSlab)
	}
	ctx, cancel := context.WithCancel(t.Context())
	log := cancelAfter{jobs: 4, cancel: cancel}
	if err := nightly(ctx, root, false, io.Discard, &log); !errors.Is(err, context.Canceled) {
		t.Fatalf("broken off: %v", err)
	}
	done := strings.Count(log.String(), `"how":"checked"`)
	if got := len(shownKeys(t, root)); got != jobs {
		t.Errorf("the roll-up of the night before holds %d lines, want %d", got, jobs)
	}
	log = cancelAfter{jobs: jobs + 1, cancel: func() {}}
	var out bytes.Buffer
	must(t, nightly(t.Context(), root, false, &out, &log))
	if n := strings.Count(log.String(), `"how":"checked"`); done < 4 || n != jobs-done {
		t.Errorf("%d jobs were done before it broke off, %d after, of %d", done, n, jobs)
	}
	if !strings.Contains(out.String(), fmt.Sprintf(" %d gone\n", jobs)) {
		t.Errorf("not all that were mended are counted: %s", out.String())
	}
	data, saved, err := readSaved(filepath.Join(root, watch.RollUp))
	must(t, err)
	past, err := rollup.Read(data, saved)
	must(t, err)
	if past.Ended["schedule.layers"].Mended != jobs {
		t.Errorf("ended: %+v", past.Ended)
	}
}

// The first night of a root is continued as any other is.
func TestAFirstNightIsContinued(t *testing.T) {
	root := t.TempDir()
	const jobs = 12
	makeJobs(t, root, wrongSlab, jobs)
	ctx, cancel := context.WithCancel(t.Context())
	log := cancelAfter{jobs: 4, cancel: cancel}
	if err := nightly(ctx, root, false, io.Discard, &log); !errors.Is(err, context.Canceled) {
		t.Fatalf("broken off: %v", err)
	}
	done := strings.Count(log.String(), `"how":"checked"`)
	log = cancelAfter{jobs: jobs + 1, cancel: func() {}}
	var code exit
	if err := nightly(t.Context(), root, false, io.Discard, &log); !errors.As(err, &code) || code != exitHold {
		t.Fatalf("the next night: %v", err)
	}
	if n := strings.Count(log.String(), `"how":"checked"`); done < 4 || n != jobs-done {
		t.Errorf("%d jobs were done before it broke off, %d after, of %d", done, n, jobs)
	}
	if n := len(shownKeys(t, root)); n != jobs {
		t.Errorf("%d lines, want %d", n, jobs)
	}
}

func shownKeys(t *testing.T, root string) (keys []string) {
	data, saved, err := readSaved(filepath.Join(root, watch.RollUp))
	must(t, err)
	past, err := rollup.Read(data, saved)
	must(t, err)
	for _, lines := range past.Lines {
		keys = slices.AppendSeq(keys, maps.Keys(lines))
	}
	return keys
}

// Words survive that LibreOffice saves the workbooks they stand in.
func TestWordsThroughLibreOffice(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long")
	}
	root := t.TempDir()
	list, book := filepath.Join(root, "2301", "list.xlsx"), filepath.Join(root, watch.RollUp)
	put(t, list, wrongSlab+"C9 | Bench slab | 1 | 42 | 14ish | 1 1/2 | 2 x 3/4 MDF\n")
	nightOver(t, root)
	sayAt(t, book, rollup.TabFront, "B7", "Accept: initials", "RB")
	sayAt(t, book, rollup.TabFront, "B7", "Accept: why", "veneered core, 3 layers")
	sayAt(t, book, rollup.TabFront, "C9", "Ask: whom", "Ida")
	sayAt(t, book, rollup.TabFront, "C9", "Ask: what", "two or three?")
	resave(t, book)
	nightOver(t, root)
	want := func(when, accepted, asked string) {
		t.Helper()
		data, saved, err := readSaved(book)
		must(t, err)
		past, err := rollup.Read(data, saved)
		must(t, err)
		got := map[rollup.Fate]string{}
		for key, l := range past.Lines["2301"] {
			s := past.Typed["2301"][key]
			got[l.Fate] += s.By + s.Whom
		}
		if len(got) != 2 || got[rollup.Accepted] != accepted || got[rollup.Asked] != asked {
			t.Errorf("%s: %v, want one accepted by %s and one asked of %s", when, got, accepted, asked)
		}
		if past.Foreign {
			t.Errorf("%s: our own tabs are taken for somebody else's", when)
		}
	}
	want("the roll-up was saved", "RB", "Ida")
	resave(t, list)
	resave(t, book)
	nightOver(t, root)
	want("both were saved", "RB", "Ida")
	sayAt(t, list, write.TabFlagged, "B7", "Accept: initials", "KO")
	sayAt(t, list, write.TabFlagged, "C9", "Ask: whom", "Odile")
	resave(t, list)
	nightOver(t, root)
	want("newer words in the job", "KO", "Odile")
}

// resave has LibreOffice open a workbook and save it under its name.
func resave(t *testing.T, path string) {
	t.Helper()
	out := office.Convert(t, "xlsx", path)
	data, err := os.ReadFile(filepath.Join(out, filepath.Base(path)))
	must(t, err)
	must(t, os.WriteFile(path, data, 0o644))
}
