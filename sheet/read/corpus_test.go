package read

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/xuri/excelize/v2"
)

// TestCorpusCells compares every cell of the workbooks under DRYFIT_CORPUS with what
// excelize reads in them.
func TestCorpusCells(t *testing.T) {
	dir := os.Getenv("DRYFIT_CORPUS")
	if dir == "" {
		t.Skip("DRYFIT_CORPUS names no folder of workbooks")
	}
	files, _ := filepath.Glob(filepath.Join(dir, "*.xls?"))
	if len(files) == 0 {
		t.Fatalf("no workbook under %s", dir)
	}
	cells, read := 0, 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		src, err := openSource(file, data)
		if err != nil {
			t.Logf("%s refused: %v", filepath.Base(file), err)
			continue
		}
		f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{RawCellValue: true})
		if err != nil {
			t.Logf("%s: excelize: %v", filepath.Base(file), err)
			continue
		}
		read++
		for _, ref := range src.tabs {
			g, err := src.grid(ref)
			if err != nil {
				t.Logf("%s: %v", filepath.Base(file), err)
				continue
			}
			cells += compareCells(t, filepath.Base(file), f, g)
		}
		f.Close()
	}
	t.Logf("%d workbooks, %d cells compared", read, cells)
}

func compareCells(t *testing.T, file string, f *excelize.File, g *Grid) int {
	rows, err := f.Rows(g.Tab)
	if err != nil {
		return 0
	}
	defer rows.Close()
	n := 0
	for r := 1; rows.Next(); r++ {
		cols, err := rows.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return n
		}
		for c, want := range cols {
			cell := g.At(r, c+1)
			if Tidy(want) == "" || c >= maxCol {
				continue
			}
			n++
			if cell == nil {
				t.Errorf("%s %s!%s: blank, excelize reads %q", file, g.Tab, Address(r, c+1), want)
			} else if got := cell.Shown(); cell.Kind == Words && Tidy(got) != Tidy(unescapeUnits(want)) && !cell.Look.Struck {
				t.Errorf("%s %s!%s: %q, excelize reads %q", file, g.Tab, Address(r, c+1), got, want)
			}
		}
	}
	return n
}

// TestCorpusParts lists the tabs of the workbooks under DRYFIT_CORPUS that are taken for part
// schedules. The corpus holds test files of spreadsheet libraries and no part schedule: at
// most 2 in 100 workbooks may be taken for one.
func TestCorpusParts(t *testing.T) {
	dir := os.Getenv("DRYFIT_CORPUS")
	if dir == "" {
		t.Skip("DRYFIT_CORPUS names no folder of workbooks")
	}
	files, _ := filepath.Glob(filepath.Join(dir, "*.xls?"))
	if len(files) == 0 {
		t.Fatalf("no workbook under %s", dir)
	}
	books, taken := 0, 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		b, err := Open(filepath.Base(file), data, nil)
		if err != nil {
			t.Logf("refused: %v", err)
			continue
		}
		books++
		for _, tab := range b.Tabs {
			if tab.Kind != "ignored" {
				t.Logf("%s, %s: taken for %s", b.Path, tab.Name, tab.Kind)
			}
		}
		if b.Has("parts") {
			taken++
		}
	}
	t.Logf("%d of %d workbooks taken for part schedules", taken, books)
	if 50*taken > books {
		t.Errorf("%d of %d workbooks taken for part schedules, want at most 2 in 100", taken, books)
	}
}
