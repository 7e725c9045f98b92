package read

import (
	"regexp"

	"dryfit/check/length"
)

// lines makes a table of a tab that is no table: a part a line, all of it in one cell, as in
// "2 sides 18 x 16 x 3/4 MDF". Most lines must name a part and its size.
func (f *partsFound) lines() *table {
	first, last, sized, others, col := 0, 0, 0, 0, 0
	for i := range f.g.Rows {
		c := &f.g.Rows[i].Cells[0]
		if !f.line(c) || col != 0 && int(c.Col) != col {
			others += min(first, 1)
			continue
		}
		if first == 0 {
			first, col = int(c.Row), int(c.Col)
		}
		last = int(c.Row)
		sized++
	}
	if sized < 3 || others > sized {
		return nil
	}
	t := &table{g: f.g, top: first - 1, bottom: first - 1, last: last, left: col, right: col, headless: true, lines: true, nameSized: true}
	t.cols = []*column{{col: col, blank: true, field: fName}}
	t.sample()
	t.cols[0].field = fName
	return t
}

// line reports whether a cell names a part and its size.
func (f *partsFound) line(c *Cell) bool {
	s, ok := f.names.size(c, length.Unsaid)
	return ok && len(s.Axes) >= 2 && boardLike(s) && f.names.roles.of(c.Text()) != "" && len(c.Text()) <= maxLine
}

const maxLine = 80 // letters of a line that names a part; longer ones are sentences

// countAhead is the count that a line begins with: "2 sides", "2/ sides", "- 2 x side".
var countAhead = regexp.MustCompile(`^\s*(?:[-–•*·]\s*)?(\d{1,3})\s*(?:[/x×.)-]|ea\.?|pcs?\.?|no\.?|off|stk\.?|st\.?|szt\.?|pz\.?|uds?\.?)?\s+\pL{2}`)

// countAheadOf reads the count a line begins with.
func countAheadOf(text string) (int, bool) {
	m := countAhead.FindStringSubmatch(text)
	if m == nil {
		return 0, false
	}
	n, ok := smallNumber(m[1])
	return n, ok && n > 0
}
