package read

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// Grid is the filled cells of one tab, row by row. Blank cells, and cells that hold only
// spaces, are not in it.
type Grid struct {
	Book       string // path of the workbook
	Tab        string
	Hidden     bool // the tab is hidden
	Rows       []Row
	Merges     []Span
	HiddenCols []Span // whole columns: From.Row and To.Row are 0
	CutAt      int    // rows beyond this one were not read; 0 if all were

	date1904 bool
	places   map[string]bool // cases and rooms that the parts of the book name, folded
	metric   bool            // the parts of the book are in millimetres
	turned   bool            // rows are columns of the tab, and columns its rows
	parts    *partsFound     // what the reader of parts found, kept between scoring and reading
	mark     *length.Mark    // how texts mark decimals, once the side readers asked
	merged   map[place]int   // anchor and covered places to the index in Merges
}

// Row is the filled cells of one row, left to right.
type Row struct {
	N      int // 1 for the first row of the tab
	Hidden bool
	Cells  []Cell
}

// Cell is one filled cell.
type Cell struct {
	Row     int32   // from 1
	Col     int16   // from 1
	Kind    Kind    // what the cell holds
	Formula bool    // the cell is a formula; its value is in the cell all the same
	Num     float64 // of a Number: as stored, whatever the format shows
	Look    *Look
	raw     string // text as stored; of a Pending cell the formula
	grid    *Grid
}

// Kind is what a cell holds.
type Kind uint8

// The kinds of content. A Pending cell is a formula nobody calculated, and that could not
// be calculated here either.
const (
	Words Kind = iota
	Number
	Truth
	Fault // a formula error such as #REF!
	Pending
)

type place struct{ row, col int32 }

// Span is a rectangle of cells, both ends included.
type Span struct{ Top, Left, Bottom, Right int }

// At returns the cell at a row and column counted from 1, nil if it is blank.
func (g *Grid) At(row, col int) *Cell {
	r := g.Row(row)
	if r == nil {
		return nil
	}
	return r.At(col)
}

// Row returns a row by its number, nil if nothing stands in it.
func (g *Grid) Row(n int) *Row {
	i, ok := slices.BinarySearchFunc(g.Rows, n, func(r Row, n int) int { return cmp.Compare(r.N, n) })
	if !ok {
		return nil
	}
	return &g.Rows[i]
}

// At returns the cell of the row in a column, nil if it is blank.
func (r *Row) At(col int) *Cell {
	i, ok := slices.BinarySearchFunc(r.Cells, col, func(c Cell, col int) int { return cmp.Compare(int(c.Col), col) })
	if !ok {
		return nil
	}
	return &r.Cells[i]
}

// Merge returns the merged range a place lies in, and false if it lies in none.
func (g *Grid) Merge(row, col int) (Span, bool) {
	i, ok := g.merged[place{int32(row), int32(col)}]
	if !ok {
		return Span{}, false
	}
	return g.Merges[i], true
}

// Anchor returns the cell a place shows: its own, or the one it is merged with; nil if that
// is blank.
func (g *Grid) Anchor(row, col int) *Cell {
	if s, ok := g.Merge(row, col); ok {
		return g.At(s.Top, s.Left)
	}
	return g.At(row, col)
}

// ColHidden reports whether a column is hidden.
func (g *Grid) ColHidden(col int) bool {
	for _, s := range g.HiddenCols {
		if s.Left <= col && col <= s.Right {
			return true
		}
	}
	return false
}

// Text is the content as a person reads it: numbers as their format shows them, spaces that
// do not break as plain ones, no blanks at either end.
func (c *Cell) Text() string { return Tidy(c.Shown()) }

// Shown is the content as the cell shows it, every character kept.
func (c *Cell) Shown() string {
	switch c.Kind {
	case Number:
		return c.Look.Format.show(c.Num, c.grid.date1904)
	case Truth:
		if c.Num != 0 {
			return "TRUE"
		}
		return "FALSE"
	case Pending:
		return "=" + c.raw
	}
	return c.raw
}

// Raw is the content without the number format: 0.75 where the cell shows 3/4 or 4-Mar.
func (c *Cell) Raw() string {
	if c.Kind == Number {
		return strconv.FormatFloat(c.Num, 'f', -1, 64)
	}
	return c.Shown()
}

// IsDate reports a number that is shown as a date.
func (c *Cell) IsDate() bool { return c.Kind == Number && c.Look.Format.Date }

// MonthDay returns month and day of a date cell. A typed 3/4 that became a date is month 3,
// day 4 where dates are written month first, and the other way round elsewhere.
func (c *Cell) MonthDay() (month, day int) {
	t := dateOf(c.Num, c.grid.date1904)
	return int(t.Month()), t.Day()
}

// Addr is the address of the cell, such as E14.
func (c *Cell) Addr() string { return Address(int(c.Row), int(c.Col)) }

// From is the cell as the job model names it.
func (c *Cell) From() check.Cell { return c.grid.Place(int(c.Row), int(c.Col)) }

// Place names a place of the tab, filled or blank, as the job model does.
func (g *Grid) Place(row, col int) check.Cell {
	if g.turned {
		row, col = col, row
	}
	return check.Cell{Book: g.Book, Tab: g.Tab, Addr: Address(row, col)}
}

// locate is the row and column that an address has in the grid.
func (g *Grid) locate(addr string) (row, col int, ok bool) {
	row, col, ok = parseRef([]byte(addr))
	if g.turned {
		row, col = col, row
	}
	return row, col, ok
}

// fault says what is wrong with a cell that holds no value.
func (c *Cell) fault() string {
	switch {
	case c.Kind == Pending:
		return "the formula was never calculated, and cannot be calculated here"
	case strings.HasPrefix(c.raw, "#"):
		return "the cell shows the formula error " + c.raw
	}
	return "the cell is damaged: it holds " + strconv.Quote(c.raw)
}

// Unread names the cell as not understood.
func (c *Cell) Unread(why string) check.Unread {
	return check.Unread{Cell: c.From(), Text: c.Text(), Why: why, Formula: c.Kind == Fault || c.Kind == Pending}
}

// Address prints a row and column counted from 1, such as E14.
func Address(row, col int) string { return ColName(col) + strconv.Itoa(row) }

// ColName prints a column, such as E.
func ColName(col int) string {
	var b [8]byte
	i := len(b)
	for ; col > 0; col = (col - 1) / 26 {
		i--
		b[i] = byte('A' + (col-1)%26)
	}
	return string(b[i:])
}

// parseRef reads an address such as E14; ok is false for anything else.
func parseRef(b []byte) (row, col int, ok bool) {
	i := 0
	for ; i < len(b) && (b[i] >= 'A' && b[i] <= 'Z' || b[i] >= 'a' && b[i] <= 'z'); i++ {
		col = col*26 + int(b[i]&^0x20-'A') + 1
		if i > 2 {
			return 0, 0, false
		}
	}
	if i == 0 || i == len(b) || len(b)-i > 7 {
		return 0, 0, false
	}
	for ; i < len(b); i++ {
		if b[i] < '0' || b[i] > '9' {
			return 0, 0, false
		}
		row = row*10 + int(b[i]-'0')
	}
	return row, col, row > 0 && col > 0
}

// Tidy makes a text plain: no soft hyphens or marks of no width, every kind of space one
// blank, line breaks kept, no blanks at the ends.
func Tidy(s string) string {
	clean := true
	for i := 0; i < len(s); i++ {
		if s[i] >= 0x80 || s[i] < ' ' {
			clean = false
			break
		}
	}
	if clean {
		return strings.TrimSpace(s)
	}
	s = strings.Map(func(r rune) rune {
		switch r {
		case '\u00ad', '\u200b', '\u200c', '\u200d', '\u2060', '\ufeff', '\u200e', '\u200f':
			return -1
		case '\u00a0', '\u2007', '\u202f', '\u2009', '\u2003', '\u2002', '\u2008', '\u3000', '\t':
			return ' '
		case '\r':
			return -1
		}
		if r < ' ' && r != '\n' {
			return -1
		}
		return r
	}, s)
	return strings.TrimSpace(s)
}
