package write

import "dryfit/check"

// Rows in which the lists of the tabs begin.
const (
	flaggedFirst  = flaggedTop + 1
	rowsFirst     = 5
	coverageFirst = 5
)

// places says where findings, parts and verdicts stand on the tabs, so that the tabs can be
// linked to one another.
type places struct {
	finding map[*check.Finding]int       // row on the flagged tab
	told    map[*check.Finding]int       // row on the rows tab of the first part it speaks of
	covered map[*check.Finding]string    // the first cell on the coverage tab that leads to it
	about   map[[2]string]*check.Finding // mark and check: the finding that holds such a result
	under   map[string]*check.Finding    // mark: a finding under which others of it are folded
}

func newPlaces(rep *check.Report) *places {
	p := &places{finding: map[*check.Finding]int{}, told: map[*check.Finding]int{}, covered: map[*check.Finding]string{},
		about: map[[2]string]*check.Finding{}, under: map[string]*check.Finding{}}
	for i, f := range rep.Findings {
		p.finding[f] = flaggedFirst + i
		p.index(f)
	}
	spoken := speaking(rep)
	for i, part := range rep.Job.Parts {
		for _, c := range cellsOf(part) {
			for _, f := range spoken[c] {
				if c != (check.Cell{}) && p.told[f] == 0 {
					p.told[f] = rowsFirst + i
				}
			}
		}
	}
	for i, part := range rep.Job.Parts {
		for _, f := range elsewhere(rep, part) {
			if p.told[f] == 0 {
				p.told[f] = rowsFirst + i
			}
		}
	}
	_, _, answers := matrix(rep.Coverage)
	for i, row := range answers {
		for j, c := range row {
			if f := p.behind(c); f != nil && p.covered[f] == "" {
				p.covered[f] = At(j+2, coverageFirst+i)
			}
		}
	}
	return p
}

// index notes the finding under its marks and checks; the most urgent stands.
func (p *places) index(f *check.Finding) {
	for _, r := range f.Results {
		marks := r.Row.Marks
		if len(marks) == 0 {
			marks = []string{r.Row.Name}
		}
		for _, m := range marks {
			at := [2]string{m, r.Check.ID}
			if old := p.about[at]; old == nil || old.Verdict < f.Verdict {
				p.about[at] = f
			}
		}
	}
	for _, m := range f.Marks {
		if old := p.under[m]; old == nil || old.Verdict < f.Verdict {
			p.under[m] = f
		}
	}
}

// behind is the finding that a verdict of the coverage belongs to: the one that holds such a
// result, else one under which it was folded. nil for CLEAR, and where the check does not apply.
func (p *places) behind(c *check.Covered) *check.Finding {
	if c == nil || c.Verdict == check.Clear {
		return nil
	}
	for _, f := range []*check.Finding{p.about[[2]string{c.Mark, c.ID}], p.under[c.Mark]} {
		if f != nil && f.Verdict >= c.Verdict {
			return f
		}
	}
	return nil
}

// toFinding is the link to the row of a finding.
func (p *places) toFinding(at string, f *check.Finding) Link {
	return Link{At: at, To: Quote(TabFlagged) + "!" + At(1, p.finding[f]), Tip: "what is wrong, and what clears it"}
}

// toCoverage is the cell on the coverage tab that leads to a finding; empty where none does.
func (p *places) toCoverage(f *check.Finding) string {
	if p.covered[f] == "" {
		return ""
	}
	return Quote(TabCoverage) + "!" + p.covered[f]
}

// toPart is the row on the rows tab of the first part that a finding speaks of; empty for none.
func (p *places) toPart(f *check.Finding) string {
	if p.told[f] == 0 {
		return ""
	}
	return Quote(TabRows) + "!" + At(1, p.told[f])
}

// cellsOf are the cells of the schedule that a row of the rows tab shows.
func cellsOf(p *check.Part) []check.Cell {
	return []check.Cell{p.Row, p.Mark.From, p.Description.From, p.Qty.From, p.Length.From, p.Width.From, p.Thickness.From,
		p.Material.From, p.Edges.From, p.Finish.From, p.Note.From}
}
