package read

import (
	"cmp"
	"slices"
	"time"
)

// sortRows puts rows and cells in order where a program wrote them out of order, and joins
// rows of one number. The last of two cells at one place counts, as in a spreadsheet.
func sortRows(g *Grid) {
	for i := range g.Rows {
		byCol := func(a, b Cell) int { return cmp.Compare(a.Col, b.Col) }
		if cells := g.Rows[i].Cells; !slices.IsSortedFunc(cells, byCol) {
			slices.SortStableFunc(cells, byCol)
		}
	}
	byRow := func(a, b Row) int { return cmp.Compare(a.N, b.N) }
	if !slices.IsSortedFunc(g.Rows, byRow) {
		slices.SortStableFunc(g.Rows, byRow)
	}
	rows := g.Rows[:0]
	for _, r := range g.Rows {
		r.Cells = lastOfEach(r.Cells)
		if n := len(rows); n > 0 && rows[n-1].N == r.N {
			both := append(rows[n-1].Cells, r.Cells...)
			slices.SortStableFunc(both, func(a, b Cell) int { return cmp.Compare(a.Col, b.Col) })
			rows[n-1].Cells = lastOfEach(both)
			continue
		}
		rows = append(rows, r)
	}
	g.Rows = rows
}

func lastOfEach(cells []Cell) []Cell {
	out := cells[:0]
	for _, c := range cells {
		if n := len(out); n > 0 && out[n-1].Col == c.Col {
			out[n-1] = c
			continue
		}
		out = append(out, c)
	}
	return out
}

// isoDay turns the text of a date cell of the strict form into a serial day.
func isoDay(s string, is1904 bool) (float64, bool) {
	for _, form := range []string{"2006-01-02T15:04:05.999999999", "2006-01-02T15:04:05Z07:00", "2006-01-02"} {
		if d, err := time.Parse(form, s); err == nil {
			base := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
			if is1904 {
				base = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
			}
			return d.Sub(base).Hours() / 24, true
		}
	}
	return 0, false
}
