package main

import (
	"context"
	"io"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// What is written for the demo shop, tab by tab.
func TestWhatIsWritten(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long")
	}
	dir := writtenShop(t)
	t.Run("no text overflows its cell", func(t *testing.T) { noTextOverflows(t, dir) })
	t.Run("every ink is read on its fill", func(t *testing.T) { inksAreRead(t, dir) })
	t.Run("links land and come back", func(t *testing.T) { linksComeBack(t, dir) })
}

// writtenShop is the demo shop after a night, with what each job lacks to be typed.
func writtenShop(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := makeShop(dir); err != nil {
		t.Fatal(err)
	}
	if err := nightly(context.Background(), dir, true, io.Discard, io.Discard); err != nil {
		t.Logf("nightly: %v", err) // the demo holds mistakes
	}
	for _, job := range jobsIn(t, dir) {
		cmd := inputsCommand()
		cmd.SetArgs([]string{job})
		cmd.SetOut(io.Discard)
		cmd.SetErr(io.Discard)
		if err := cmd.Execute(); err != nil {
			t.Fatalf("inputs %s: %v", job, err)
		}
	}
	return dir
}

// Every link within a workbook lands on a cell that holds something. One to or from the flagged
// tab can be gone back: the row it lands in has a link to the tab it came from.
func linksComeBack(t *testing.T, dir string) {
	came := map[string]int{} // from and to
	for _, job := range jobsIn(t, dir) {
		books, err := filepath.Glob(filepath.Join(job, "*.xlsx"))
		if err != nil {
			t.Fatal(err)
		}
		for _, path := range books {
			for _, l := range linksOf(t, path) {
				l.check(t)
				came[l.from+" > "+l.to]++
			}
		}
	}
	for _, way := range []string{
		"dryfit flagged > dryfit working", "dryfit working > dryfit flagged",
		"dryfit flagged > dryfit rows", "dryfit rows > dryfit flagged",
		"dryfit flagged > dryfit coverage", "dryfit coverage > dryfit flagged",
		"dryfit flagged > Parts", "dryfit working > Joints", "dryfit working > dryfit working",
	} {
		if came[way] == 0 {
			t.Errorf("no link %s", way)
		}
	}
}

// jump is a link between two cells of a workbook.
type jump struct {
	book       *linked
	from, at   string // tab and cell
	to, target string
	holds      bool // the target holds a value or a formula
}

// linked is a workbook: its tabs, and which rows lead where.
type linked struct {
	name  string
	tabs  map[string]bool
	leads map[string]map[int]map[string]bool // tab, row, tab
}

func linksOf(t *testing.T, path string) []jump {
	t.Helper()
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	b := &linked{name: filepath.Base(path), tabs: map[string]bool{}, leads: map[string]map[int]map[string]bool{}}
	var out []jump
	for _, tab := range f.GetSheetList() {
		b.tabs[tab] = true
		b.leads[tab] = map[int]map[string]bool{}
		cells, err := f.GetHyperLinkCells(tab, "Location")
		if err != nil {
			t.Fatal(err)
		}
		for _, at := range cells {
			_, to, err := f.GetCellHyperLink(tab, at)
			if err != nil {
				t.Fatal(err)
			}
			i := strings.LastIndex(to, "!")
			if i < 0 {
				t.Fatalf("%s, %s!%s leads to %q", b.name, tab, at, to)
			}
			j := jump{book: b, from: tab, at: at, to: strings.ReplaceAll(strings.Trim(to[:i], "'"), "''", "'"), target: to[i+1:]}
			value, err1 := f.GetCellValue(j.to, j.target)
			formula, err2 := f.GetCellFormula(j.to, j.target)
			j.holds = err1 == nil && err2 == nil && value+formula != ""
			b.note(j)
			out = append(out, j)
		}
	}
	return out
}

func (b *linked) note(j jump) {
	_, row, err := excelize.CellNameToCoordinates(j.at)
	if err != nil {
		panic(err) // excelize gave the name
	}
	if b.leads[j.from][row] == nil {
		b.leads[j.from][row] = map[string]bool{}
	}
	b.leads[j.from][row][j.to] = true
}

func (j jump) check(t *testing.T) {
	t.Helper()
	_, row, err := excelize.CellNameToCoordinates(j.target)
	switch {
	case !j.book.tabs[j.to] || err != nil:
		t.Errorf("%s, %s!%s leads to %s!%s, which is not there", j.book.name, j.from, j.at, j.to, j.target)
		return
	case !j.holds:
		t.Errorf("%s, %s!%s leads to %s!%s, which is empty", j.book.name, j.from, j.at, j.to, j.target)
	}
	ours := strings.HasPrefix(j.from, "dryfit ") && strings.HasPrefix(j.to, "dryfit ")
	if ours && j.from != j.to && (j.from == "dryfit flagged" || j.to == "dryfit flagged") && !j.book.leads[j.to][row][j.from] {
		t.Errorf("%s: no link leads back from row %d of %q to %q, from where %s leads to it", j.book.name, row, j.to, j.from, j.at)
	}
}
