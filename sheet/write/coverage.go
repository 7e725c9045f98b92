package write

import (
	"fmt"
	"strings"

	"dryfit/check"
)

// coverage is every mark against every check that applies to it: the sign of the verdict and
// the first letters of its word, in columns narrow enough that all checks stand side by side.
func coverage(rep *check.Report, at *places) *Page {
	c := rep.Counts
	p := NewPage(TabCoverage, "Coverage", fmt.Sprintf("Each row against each check that applies to it. %d %s (H), %d %s (V), %d %s (NC), %d %s (C). An empty cell: the check does not apply.",
		c.Hold, Shown(check.Hold).Word(), c.Verify, Shown(check.Verify).Word(), c.NotChecked, Shown(check.NotChecked).Word(), c.Clear, Shown(check.Clear).Word()))
	p.Wide, p.Frozen = true, 4
	ids, marks, answers := matrix(rep.Coverage)
	p.Widths = []float64{22}
	heads := []Cell{Text("Mark", HeadLook)}
	upward := HeadLook
	upward.Upward, upward.Centre, upward.Wrap = true, true, false
	for _, id := range ids {
		p.Widths = append(p.Widths, signWidth)
		heads = append(heads, Text(id, upward))
	}
	p.Add(heads...)
	p.Heights[4] = 110
	for n, m := range marks {
		row := make([]Cell, 0, 1+len(ids))
		row = append(row, Text(m, BodyLook))
		for i, c := range answers[n] {
			if c == nil {
				row = append(row, Text("", BodyLook))
				continue
			}
			cell := covered(c)
			if f := at.behind(c); f != nil {
				cell.Look.Link = true
				p.Links = append(p.Links, at.toFinding(At(i+2, len(p.Rows)+1), f))
			}
			row = append(row, cell)
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
	signWidth    = 4.8
	leastColumns = 18 // so that the line under the title has room
)

// covered is one cell of the coverage.
func covered(c *check.Covered) Cell {
	m := Shown(c.Verdict)
	l := m.Look()
	l.Bold, l.Centre = c.Verdict == check.Hold, true
	short := ""
	for _, w := range strings.Fields(c.Verdict.String()) {
		short += w[:1]
	}
	return Text(m.sign+" "+short, l)
}

// matrix lists the checks and the marks in the order in which they were asked, and for each
// mark the answer of each check, nil where it does not apply.
func matrix(cov []check.Covered) (ids, marks []string, answers [][]*check.Covered) {
	column, row := map[string]int{}, map[string]int{}
	for i := range cov {
		c := &cov[i]
		if _, seen := column[c.ID]; !seen {
			column[c.ID] = len(ids)
			ids = append(ids, c.ID)
		}
		if _, seen := row[c.Mark]; !seen {
			row[c.Mark] = len(marks)
			marks = append(marks, c.Mark)
		}
	}
	answers = make([][]*check.Covered, len(marks))
	for i := range answers {
		answers[i] = make([]*check.Covered, len(ids))
	}
	for i := range cov {
		c := &cov[i]
		answers[row[c.Mark]][column[c.ID]] = c
	}
	return ids, marks, answers
}
