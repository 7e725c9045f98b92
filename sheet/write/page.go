package write

import (
	"iter"
	"strings"
	"time"

	"dryfit/sheet/write/part"
)

// Page is a tab while it is made up: cells row by row, and what hangs on them.
type Page struct {
	Name     string
	Rows     [][]Cell
	Later    iter.Seq[[]Cell] // rows behind Rows that are made one at a time; may be nil
	Heights  map[int]float64
	Widths   []float64
	notes    []note
	Links    []Link
	Merges   []string
	Pictures []Picture
	Frozen   int            // rows that stay in sight
	Repeated string         // rows printed on every page, such as 1:3
	Filter   string         // range with filter buttons
	Area     string         // print area
	Wide     bool           // landscape
	OnePage  bool           // printed on one page, however small
	Hidden   [2]int         // columns from..to that are folded away, 1-based; 0 for none
	Folded   [][2]int       // rows from..to that are folded away under the row above them, 1-based
	Breaks   []int          // rows that begin a new printed page
	words    string         // range whose cells hold a verdict word that a formula may change
	spans    map[[2]int]int // last column of merged cells, by their first column and row
	spanned  int            // how many of Merges are in spans
}

// Cell is one cell: a value or a formula with its cached value, and how it looks.
type Cell struct {
	Value   any
	Formula string
	Look    Look
}

type note struct{ at, text string }

// Link leads to a place in the same workbook, or to another file: a path that is relative to
// the folder of this one, escaped as in a URL, with #Tab!A1 behind it.
type Link struct {
	At, To, Tip string
	Outside     bool // To is another file
}

// Picture is a PNG with its upper left corner in a cell, shown Width by Height points. Alt says
// in words what it shows.
type Picture struct {
	At            string
	PNG           []byte
	Width, Height float64
	Alt           string
}

// Text is a cell that holds a text.
func Text(s string, l Look) Cell { return Cell{Value: clean(s), Look: l} }

// Number is a cell that holds a number.
func Number(x float64, l Look) Cell { return Cell{Value: x, Look: l} }

// Date is a cell that holds a moment as its own clock shows it; the look says how much of it is
// seen. The zero time is an empty cell.
func Date(t time.Time, l Look) Cell {
	if t.IsZero() {
		return Text("", l)
	}
	t = time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), 0, time.UTC)
	return Number(t.Sub(spreadsheetDays).Hours()/24, l)
}

// spreadsheetDays is the day from which spreadsheets count: two before 1900, as they take 1900
// for a leap year.
var spreadsheetDays = time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)

// mostUnits is the most UTF-16 units that a cell holds; what is longer would be cut in silence.
const mostUnits = 32767

// mostTip is the most that a program shows of the tip of a link, from memory; more is called
// damage by one of them.
const mostTip = 255

// clean takes out what a workbook cannot hold: control characters and overlong text.
func clean(s string) string { return cleanTo(s, mostUnits) }

func cleanTo(s string, most int) string {
	if strings.ContainsFunc(s, unheld) {
		s = strings.Map(func(r rune) rune {
			if unheld(r) {
				return ' '
			}
			return r
		}, s)
	}
	if len(s) <= most { // no letter takes more units than bytes
		return s
	}
	return cut(s, most)
}

func unheld(r rune) bool { return r < ' ' && r != '\n' && r != '\t' || r == 0xFFFE || r == 0xFFFF }

// cut shortens a text that takes more than so many units, between two letters.
func cut(s string, most int) string {
	const dots = "..."
	units, end := 0, 0
	for i, r := range s {
		if units <= most-len(dots) {
			end = i
		}
		units++
		if r > 0xFFFF {
			units++
		}
	}
	if units <= most {
		return s
	}
	return s[:end] + dots
}

// Add puts a row at the end and returns its number.
func (p *Page) Add(cells ...Cell) int {
	p.Rows = append(p.Rows, cells)
	return len(p.Rows)
}

// absolute writes 1:3 or A1:G9 as an absolute reference to a tab.
func absolute(tab, ref string) string {
	var out []string
	for _, part := range strings.Split(ref, ":") {
		letters := strings.TrimRight(part, "0123456789")
		s := ""
		if letters != "" {
			s = "$" + letters
		}
		if digits := part[len(letters):]; digits != "" {
			s += "$" + digits
		}
		out = append(out, s)
	}
	return Quote(tab) + "!" + strings.Join(out, ":")
}

// Quote writes the name of a tab for a formula.
func Quote(tab string) string { return "'" + strings.ReplaceAll(tab, "'", "''") + "'" }

// all are the rows at hand and the later ones.
func (p *Page) all() iter.Seq[[]Cell] {
	return func(yield func([]Cell) bool) {
		for _, row := range p.Rows {
			if !yield(row) {
				return
			}
		}
		if p.Later != nil {
			p.Later(yield)
		}
	}
}

// fold is what folding does to a row.
func (p *Page) fold(row int) part.Fold {
	for _, f := range p.Folded {
		switch {
		case f[0] <= row && row <= f[1]:
			return part.Folded
		case row == f[0]-1:
			return part.Folder
		}
	}
	return part.Open
}

// At is the address of a cell by column and row, both from 1.
func At(col, row int) string { return part.Cell(col, row) }

// NewPage begins a tab with its title and a line that says what it is for.
func NewPage(name, title, purpose string) *Page {
	p := &Page{Name: name, Heights: map[int]float64{1: 26, 2: 15}}
	p.Add(Text(title, TitleLook))
	p.Add(Text(purpose, Look{Ink: Faint, Size: 9}))
	p.Add()
	return p
}
