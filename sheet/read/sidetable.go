package read

import (
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// sideTable is a table of one of the tabs beside the part schedule.
type sideTable struct {
	g     *Grid
	heads []int // rows of the header
	cols  []sideCol
	rows  []*Row // below the header, to the next header or the end
}

// sideCol is a column whose header word a lexicon knows.
type sideCol struct {
	col   int
	field Field
	text  string // of the header
	unit  length.Unit
}

// column gives the first column of a field, nil if there is none.
func (t *sideTable) column(f Field) *sideCol {
	for i := range t.cols {
		if t.cols[i].field == f {
			return &t.cols[i]
		}
	}
	return nil
}

// cell gives the cell of a field in a row, the one a merge shows included; nil if it is blank.
func (t *sideTable) cell(r *Row, f Field) *Cell {
	c := t.column(f)
	if c == nil {
		return nil
	}
	if a := t.g.Anchor(r.N, c.col); a != nil && a.said() != "" {
		return a
	}
	return nil
}

// place names the place of a field in a row, blank or not.
func (t *sideTable) place(r *Row, f Field) check.Cell {
	if c := t.column(f); c != nil {
		return t.g.Place(r.N, c.col)
	}
	return check.Cell{}
}

// nameUnknown names the cells of a row that stand under no known header, and the formulas
// without a value.
func (t *sideTable) nameUnknown(row *Row, tab *Tab) {
	for i := range row.Cells {
		c := &row.Cells[i]
		switch c.Kind {
		case Fault:
			tab.Unread = append(tab.Unread, c.Unread("a formula error"))
			continue
		case Pending:
			tab.Unread = append(tab.Unread, c.Unread("the formula was never calculated, and cannot be calculated here"))
			continue
		}
		if !slices.ContainsFunc(t.cols, func(k sideCol) bool { return k.col == int(c.Col) }) {
			tab.Unread = append(tab.Unread, c.Unread("no header word that is known stands over the cell"))
		}
	}
}

// nameHeads sets the words of the header that name no column aside.
func (t *sideTable) nameHeads(tab *Tab) {
	for _, n := range t.heads {
		row := t.g.Row(n)
		for i := range row.Cells {
			c := &row.Cells[i]
			if !slices.ContainsFunc(t.cols, func(k sideCol) bool { return k.col == int(c.Col) }) {
				tab.setAside(c, "no header word that is known")
			}
		}
	}
}

// struckOut reports a row of which every cell is struck through: it no longer counts.
func struckOut(row *Row) bool {
	for i := range row.Cells {
		if !row.Cells[i].Look.Struck {
			return false
		}
	}
	return len(row.Cells) > 0
}

// rowText is all a row says, for a message about the whole row.
func rowText(row *Row) string {
	var words []string
	for i := range row.Cells {
		words = append(words, row.Cells[i].Text())
	}
	return strings.Join(words, " | ")
}

// setAside keeps a cell that was understood to say nothing a check could use.
func (t *Tab) setAside(c *Cell, why string) {
	t.Aside = append(t.Aside, c.Unread(why))
}

// sideTables finds the tables whose header says enough to a reader. It is asked with the
// columns of a row, and of a row with the group row above it.
func sideTables(g *Grid, name func(text string) Field, enough func(cols []sideCol) bool) []*sideTable {
	var tables []*sideTable
	for i := 0; i < len(g.Rows); i++ {
		r := &g.Rows[i]
		if struckOut(r) {
			continue
		}
		if !wordy(r) {
			if n := len(tables); n > 0 {
				tables[n-1].rows = append(tables[n-1].rows, r)
			}
			continue
		}
		cols, heads := headerCols(g, i, name)
		if enough(cols) {
			tables = append(tables, &sideTable{g: g, heads: heads, cols: cols})
			i += len(heads) - 1
			continue
		}
		if n := len(tables); n > 0 {
			tables[n-1].rows = append(tables[n-1].rows, r)
		}
	}
	return tables
}

// headerCols reads a row as a header, with the row below it as its second line where that
// says more.
func headerCols(g *Grid, i int, name func(string) Field) ([]sideCol, []int) {
	r := &g.Rows[i]
	one := colsOf(g, name, r, nil)
	if i+1 < len(g.Rows) && g.Rows[i+1].N == r.N+1 && wordy(&g.Rows[i+1]) {
		below := &g.Rows[i+1]
		alone := max(fieldCount(one), fieldCount(colsOf(g, name, below, nil)))
		if two := colsOf(g, name, r, below); fieldCount(two) > alone {
			return two, []int{r.N, below.N}
		}
	}
	return one, []int{r.N}
}

func fieldCount(cols []sideCol) int {
	var seen []Field
	for _, c := range cols {
		if !slices.Contains(seen, c.field) {
			seen = append(seen, c.field)
		}
	}
	return len(seen)
}

func colsOf(g *Grid, name func(string) Field, upper, lower *Row) []sideCol {
	var cols []sideCol
	add := func(col int, texts ...string) {
		for _, text := range texts {
			if f := name(text); f != fUnknown {
				cols = append(cols, sideCol{col: col, field: f, text: text, unit: length.UnitIn(text)})
				return
			}
		}
	}
	if lower == nil {
		for i := range upper.Cells {
			if c := &upper.Cells[i]; c.Kind == Words {
				add(int(c.Col), c.Text())
			}
		}
		return cols
	}
	for i := range lower.Cells {
		c := &lower.Cells[i]
		group := groupText(g, upper, int(c.Col))
		add(int(c.Col), strings.TrimSpace(group+" "+c.Text()), c.Text(), group)
	}
	for i := range upper.Cells {
		if c := &upper.Cells[i]; lower.At(int(c.Col)) == nil {
			add(int(c.Col), c.Text())
		}
	}
	slices.SortFunc(cols, func(a, b sideCol) int { return a.col - b.col })
	return cols
}

// groupText is the group word over a column: in it, merged over it, or to the left of it
// with blanks between.
func groupText(g *Grid, upper *Row, col int) string {
	if c := g.Anchor(upper.N, col); c != nil {
		return c.Text()
	}
	for c := col - 1; c > 0 && c > col-5; c-- {
		if over := upper.At(c); over != nil {
			return over.Text()
		}
	}
	return ""
}
