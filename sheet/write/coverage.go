package write

import (
	"fmt"

	"dryfit/check"
)

// coverage is every mark against every check that applies to it: one word each.
func coverage(rep *check.Report) *page {
	c := rep.Counts
	p := newPage(TabCoverage, "Coverage", fmt.Sprintf("Each row against each check that applies to it: %d HOLD, %d VERIFY, %d NOT CHECKED, %d CLEAR. An empty cell: the check does not apply.",
		c.Hold, c.Verify, c.NotChecked, c.Clear))
	p.wide, p.frozen = true, 4
	ids, marks, words := matrix(rep.Coverage)
	p.widths = []float64{24}
	heads := []cell{text("Mark", headLook)}
	for _, id := range ids {
		p.widths = append(p.widths, 16)
		heads = append(heads, text(id, headLook))
	}
	p.add(heads...)
	p.heights[4] = 20
	for _, m := range marks {
		row := []cell{text(m, bodyLook)}
		for i, id := range ids {
			c, ok := words[[2]string{m, id}]
			if !ok {
				row = append(row, text("", bodyLook))
				continue
			}
			mn := shown(c.Verdict)
			l := mn.look()
			l.bold = c.Verdict == check.Hold
			row = append(row, text(mn.word(), l))
			if c.Why != "" {
				p.notes = append(p.notes, note{at(i+2, len(p.rows)+1), "Waits for: " + c.Why + "."})
			}
		}
		p.tall(p.add(row...), 0)
	}
	p.area = fmt.Sprintf("A1:%s", at(len(ids)+1, len(p.rows)))
	p.repeated = "4:4"
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
