package standards

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"dryfit/check/standard"

	"github.com/xuri/excelize/v2"
)

// Standards is what a workbook says about what the shop, or one job, goes by.
type Standards struct {
	Path     string
	Entries  []standard.Entry // later ones rule over earlier ones of the same three words
	Words    []standard.Word
	Jobs     []Job
	Tabs     []Tab
	Notes    []string // what was taken from calibration, and what still wants readings
	Problems []Problem
}

// Tab is a tab that was read.
type Tab struct {
	Name   string
	Kind   string // "values", "finish list", "words", "jobs" or "calibration"
	Header string // address of its first header cell
	Rows   int    // rows of the shop's own
}

// Over puts what was read over a table: the shop's over the built-in one, a job's over the
// shop's.
func (s Standards) Over(t *standard.Table) *standard.Table {
	return t.With(s.Entries).Speaking(append(t.Words(), s.Words...))
}

// limits on a workbook that people type, in bytes when unpacked.
const (
	mostUnpacked = 256 << 20
	mostTab      = 64 << 20
)

// ErrNoStandards is returned for a workbook without a standards tab.
var ErrNoStandards = errors.New("no standards tab: a header with item, what and our value is wanted")

// Read reads the shop's standards from a workbook. Tabs are known by their header words;
// others are passed over. Cells that make no sense are listed as problems and not used.
// It fails when the workbook cannot be opened, and with [ErrNoStandards].
func Read(path string, data []byte) (Standards, error) { return read("shop", path, data) }

// ReadJob reads the standards tabs in a workbook of one job, as Read does.
func ReadJob(path string, data []byte) (Standards, error) { return read("job", path, data) }

func read(whose, path string, data []byte) (Standards, error) {
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: mostUnpacked, UnzipXMLSizeLimit: mostTab})
	if err != nil {
		return Standards{Path: path}, fmt.Errorf("%s: not a workbook that can be opened: %w", path, err)
	}
	defer f.Close()
	s := Standards{Path: path}
	for _, tab := range f.GetSheetList() {
		rows, err := f.GetRows(tab, excelize.Options{RawCellValue: true})
		if err != nil {
			return s, fmt.Errorf("%s, tab %s: %w", path, tab, err)
		}
		s.tab(whose, tab, rows)
	}
	s.calibratedFirst()
	if len(s.Tabs) == 0 {
		return s, fmt.Errorf("%s: %w", path, ErrNoStandards)
	}
	return s, nil
}

// ReadRows reads one tab that somebody else has opened: its cells, row by row, as raw
// values. whose is "shop" or "job". ok is false when it is no standards tab.
func ReadRows(whose, path, tab string, rows [][]string) (s Standards, ok bool) {
	s.Path = path
	s.tab(whose, tab, rows)
	s.calibratedFirst()
	return s, len(s.Tabs) > 0
}

// calibratedFirst lets a typed value rule over a calibrated one.
func (s *Standards) calibratedFirst() {
	var measured, typed []standard.Entry
	for _, e := range s.Entries {
		if strings.HasPrefix(e.Source, "mean of ") || strings.HasPrefix(e.Source, "spread of ") {
			measured = append(measured, e)
			continue
		}
		typed = append(typed, e)
	}
	s.Entries = append(measured, typed...)
}

// sheet is a tab while it is read.
type sheet struct {
	out     *Standards
	whose   string
	tab     string
	rows    [][]string
	columns []column
	place   map[string]int // column index by id
	head    int            // row index of the header
}

// tab reads a tab as what its header says it is, if it is anything of ours.
func (s *Standards) tab(whose, tab string, rows [][]string) {
	sh := &sheet{out: s, whose: whose, tab: tab, rows: rows}
	switch {
	case sh.is(valueColumns, "item", "what", "our value") || sh.is(valueColumns, "item", "what", "value"):
		sh.note("values", sh.values())
	case sh.is(finishColumns, finishTable.needs...):
		sh.note(finishTab, sh.finishes())
	case sh.is(wordColumns, wordTable.needs...):
		sh.note(wordsTab, sh.words())
	case sh.is(jobColumns, jobTable.needs...):
		sh.note(jobsTab, sh.jobs())
	case sh.isCalibration():
		sh.note(measureTab, sh.calibration())
	}
}

func (sh *sheet) note(kind string, rows int) {
	sh.out.Tabs = append(sh.out.Tabs, Tab{Name: sh.tab, Kind: kind, Header: address(sh.firstColumn()+1, sh.head+1), Rows: rows})
}

func (sh *sheet) firstColumn() int {
	first := -1
	for _, c := range sh.place {
		if first < 0 || c < first {
			first = c
		}
	}
	return max(first, 0)
}

// searched is how many rows from the top a header may stand.
const searched = 30

// is looks for a header row that names all the columns needed, and keeps where they are.
func (sh *sheet) is(columns []column, needs ...string) bool {
	for r, cells := range sh.rows[:min(searched, len(sh.rows))] {
		place := map[string]int{}
		for c, cell := range cells {
			if i, ok := columnOf(columns, cell); ok {
				if _, taken := place[columns[i].id]; !taken {
					place[columns[i].id] = c
				}
			}
		}
		all := true
		for _, id := range needs {
			_, ok := place[id]
			all = all && ok
		}
		if all {
			sh.columns, sh.place, sh.head = columns, place, r
			return true
		}
	}
	return false
}

// cell is the text under a column, "" where there is none.
func (sh *sheet) cell(r int, id string) string {
	c, ok := sh.place[id]
	if !ok || c >= len(sh.rows[r]) {
		return ""
	}
	return strings.TrimSpace(sh.rows[r][c])
}

// address of a cell under a column; where the tab lacks the column, the row's first cell.
func (sh *sheet) address(r int, id string) string {
	c, ok := sh.place[id]
	if !ok {
		c = sh.firstColumn()
	}
	return address(c+1, r+1)
}

func (sh *sheet) from(r int, id string) string {
	return fmt.Sprintf("%s standards, %s!%s", sh.whose, sh.tab, sh.address(r, id))
}

func (sh *sheet) problem(r int, id, want string, args ...any) {
	sh.out.Problems = append(sh.out.Problems, Problem{Path: sh.out.Path, Tab: sh.tab, Cell: sh.address(r, id),
		Read: sh.cell(r, id), Want: fmt.Sprintf(want, args...)})
}

// blank reports whether a row says nothing under the columns of ours.
func (sh *sheet) blank(r int) bool {
	for id := range sh.place {
		if sh.cell(r, id) != "" {
			return false
		}
	}
	return true
}

// repeated reports whether a row is the header said again.
func (sh *sheet) repeated(r int, id string) bool {
	i, ok := columnOf(sh.columns, sh.cell(r, id))
	return ok && sh.columns[i].id == id
}
