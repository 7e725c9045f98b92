package write

import (
	"fmt"

	"dryfit/check"
)

// coverage is every mark against every check that applies to it: one word each.
func coverage(rep *check.Report) *Page {
	c := rep.Counts
	p := NewPage(TabCoverage, "Coverage", fmt.Sprintf("Each row against each check that applies to it: %d HOLD, %d VERIFY, %d NOT CHECKED, %d CLEAR. An empty cell: the check does not apply.",
		c.Hold, c.Verify, c.NotChecked, c.Clear))
	p.Wide, p.Frozen = true, 4
	ids, marks, words := matrix(rep.Coverage)
	p.Widths = []float64{24}
	heads := []Cell{Text("Mark", HeadLook)}
	for _, id := range ids {
		p.Widths = append(p.Widths, 16)
		heads = append(heads, Text(id, HeadLook))
	}
	p.Add(heads...)
	p.Heights[4] = 20
	for _, m := range marks {
		row := []Cell{Text(m, BodyLook)}
		for i, id := range ids {
			c, ok := words[[2]string{m, id}]
			if !ok {
				row = append(row, Text("", BodyLook))
				continue
			}
			mn := Shown(c.Verdict)
			l := mn.Look()
			l.Bold = c.Verdict == check.Hold
			row = append(row, Text(mn.Word(), l))
			if c.Why != "" {
				p.notes = append(p.notes, note{At(i+2, len(p.Rows)+1), "Waits for: " + c.Why + "."})
			}
		}
		p.Tall(p.Add(row...), 0)
	}
	p.Area = fmt.Sprintf("A1:%s", At(len(ids)+1, len(p.Rows)))
	p.Repeated = "4:4"
	return p
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
