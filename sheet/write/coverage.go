package write

import (
	"fmt"
	"strings"

	"dryfit/check"
)

// coverage is every mark against every check that applies to it: the sign of the verdict and
// the first letters of its word, in columns narrow enough that all checks stand side by side.
func coverage(rep *check.Report) *Page {
	c := rep.Counts
	p := NewPage(TabCoverage, "Coverage", fmt.Sprintf("Each row against each check that applies to it. %d %s (H), %d %s (V), %d %s (NC), %d %s (C). An empty cell: the check does not apply.",
		c.Hold, Shown(check.Hold).Word(), c.Verify, Shown(check.Verify).Word(), c.NotChecked, Shown(check.NotChecked).Word(), c.Clear, Shown(check.Clear).Word()))
	p.Wide, p.Frozen = true, 4
	ids, marks, words := matrix(rep.Coverage)
	p.Widths = []float64{24}
	heads := []Cell{Text("Mark", HeadLook)}
	upward := HeadLook
	upward.Upward, upward.Centre, upward.Wrap = true, true, false
	for _, id := range ids {
		p.Widths = append(p.Widths, signWidth)
		heads = append(heads, Text(id, upward))
	}
	p.Add(heads...)
	p.Heights[4] = 110
	for _, m := range marks {
		row := []Cell{Text(m, BodyLook)}
		for i, id := range ids {
			c, ok := words[[2]string{m, id}]
			if !ok {
				row = append(row, Text("", BodyLook))
				continue
			}
			row = append(row, covered(c))
			if c.Why != "" {
				p.notes = append(p.notes, note{At(i+2, len(p.Rows)+1), "Waits for: " + c.Why + "."})
			}
		}
		p.Tall(p.Add(row...), 0)
	}
	last := max(len(ids)+1, leastColumns)
	for len(p.Widths) < last {
		p.Widths = append(p.Widths, signWidth)
	}
	p.purpose(last)
	p.Area = fmt.Sprintf("A1:%s", At(last, len(p.Rows)))
	p.Repeated = "4:4"
	return p
}

const (
	signWidth    = 5.5
	leastColumns = 16 // so that the line under the title has room
)

// covered is one cell of the coverage.
func covered(c check.Covered) Cell {
	m := Shown(c.Verdict)
	l := m.Look()
	l.Bold, l.Centre = c.Verdict == check.Hold, true
	short := ""
	for _, w := range strings.Fields(c.Verdict.String()) {
		short += w[:1]
	}
	return Text(m.sign+" "+short, l)
}

// matrix lists the checks and the marks in the order in which they were asked.
func matrix(cov []check.Covered) (ids, marks []string, words map[[2]string]check.Covered) {
	words = map[[2]string]check.Covered{}
	seen := map[string]bool{}
	for _, c := range cov {
		if !seen["id "+c.ID] {
			seen["id "+c.ID] = true
			ids = append(ids, c.ID)
		}
		if !seen["mark "+c.Mark] {
			seen["mark "+c.Mark] = true
			marks = append(marks, c.Mark)
		}
		words[[2]string{c.Mark, c.ID}] = c
	}
	return ids, marks, words
}
