package write

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"dryfit/check"
)

func sorted(t Typed) []string {
	var keys []string
	for k := range t {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}

var rowHeads = []string{"Verdict", "Row", "Mark", "Part", "Role", "Case", "Qty", "Length", "Width", "Thick", "Material", "Edges", "Finish", "Note"}

// rows is the schedule as it was read, in colour, with a note on each failing cell.
func rows(rep *check.Report, host string, at *places) *Page {
	p := NewPage(TabRows, "The schedule as it was read",
		fmt.Sprintf("Lengths in %s. A coloured cell is one that a finding speaks of; its note says what.", spelled(rep.Job.Unit)))
	p.Wide, p.Frozen = true, 4
	p.Widths = []float64{16, 13, 8, 24, 11, 16, 6, 11, 10, 9, 18, 8, 10, 23}
	var heads []Cell
	for _, h := range rowHeads {
		heads = append(heads, Text(h, HeadLook))
	}
	p.Add(heads...)
	spoken := speaking(rep)
	for _, part := range rep.Job.Parts {
		p.part(rep.Job, part, host, spoken, elsewhere(rep, part), at)
	}
	p.Filter = fmt.Sprintf("A4:%s", At(len(rowHeads), max(len(p.Rows), 5)))
	p.Area = fmt.Sprintf("A1:%s", At(len(rowHeads), len(p.Rows)))
	p.Repeated = "4:4"
	return p
}

// speaking are the findings by the cells they speak of.
func speaking(rep *check.Report) map[check.Cell][]*check.Finding {
	out := map[check.Cell][]*check.Finding{}
	for _, f := range rep.Findings {
		if len(f.Cells) == 0 {
			continue // a missing tab: no cell of the schedule is at fault
		}
		for _, c := range append(append([]check.Cell{}, f.Cells...), f.Also...) {
			out[c] = append(out[c], f)
		}
	}
	return out
}

// elsewhere are the findings that name a part and speak of no cell of its row: of its joint, of
// where its load goes. Without them the row would say CLEAR of a part that is not.
func elsewhere(rep *check.Report, part *check.Part) []*check.Finding {
	own := cellsOf(part)
	var out []*check.Finding
	for _, f := range rep.Findings {
		if len(f.Cells) == 0 || slices.ContainsFunc(slices.Concat(f.Cells, f.Also), func(c check.Cell) bool { return slices.Contains(own, c) }) {
			continue
		}
		if slices.ContainsFunc(f.Results, func(r *check.Result) bool { return r.Verdict > check.Clear && names(r, part) }) {
			out = append(out, f)
		}
	}
	return out
}

// names reports whether a result speaks of a part; marks may start again in each case.
func names(r *check.Result, part *check.Part) bool {
	return slices.Contains(r.Row.Marks, part.Name()) && (r.Row.Case == "" || part.Case.Text == "" || r.Row.Case == part.Case.Text)
}

func (p *Page) part(j *check.Job, part *check.Part, host string, spoken map[check.Cell][]*check.Finding, named []*check.Finding, at *places) {
	row := len(p.Rows) + 1
	values := []struct {
		text string
		from check.Cell
	}{
		{part.Mark.Text, part.Mark.From},
		{part.Description.Text, part.Description.From},
		{part.Role.Word(), check.Cell{}},
		{part.Case.Text, check.Cell{}},
		{quantity(part.Qty), part.Qty.From},
		{size(j, part.Length), part.Length.From},
		{size(j, part.Width), part.Width.From},
		{size(j, part.Thickness), part.Thickness.From},
		{part.Material.Text, part.Material.From},
		{part.Edges.Text, part.Edges.From},
		{part.Finish.Text, part.Finish.From},
		{part.Note.Text, part.Note.From},
	}
	worst := check.Clear
	cells := []Cell{{}, p.cellOf(part.Row, host, 2, row, "the row in the schedule")}
	seen := map[check.Cell]bool{}
	told := map[*check.Finding]bool{}
	for i, v := range values {
		c := Text(v.text, BodyLook)
		if fs := spoken[v.from]; len(fs) > 0 && v.from != (check.Cell{}) && !seen[v.from] {
			seen[v.from] = true
			m := Shown(loudest(fs).Verdict)
			worst = max(worst, m.verdict)
			c.Look.Fill, c.Look.Ink = m.fill, m.ink
			if p.oneLine(i+3, v.text, c.Look) {
				c.Look.Link = true
				p.Links = append(p.Links, at.toFinding(At(i+3, row), loudest(fs)))
			}
			p.notes = append(p.notes, note{At(i+3, row), sentences(fs)})
			for _, f := range fs {
				told[f] = true
			}
		}
		cells = append(cells, c)
	}
	if fs := append(untold(spoken[part.Row], told), named...); len(fs) > 0 {
		worst = max(worst, loudest(fs).Verdict)
		p.notes = append(p.notes, note{At(1, row), sentences(fs)})
	}
	m := Shown(worst)
	cells[0] = Text(m.Word(), m.Look())
	if f := loudestOf(part, spoken, named); f != nil {
		cells[0].Look.Link = true
		p.Links = append(p.Links, at.toFinding(At(1, row), f))
	}
	p.Tall(p.Add(cells...), 0)
}

// untold are the findings about the row as a whole.
func untold(fs []*check.Finding, told map[*check.Finding]bool) []*check.Finding {
	var out []*check.Finding
	for _, f := range fs {
		if !told[f] {
			out = append(out, f)
		}
	}
	return out
}

// loudest is the most urgent of some findings, at least one.
func loudest(fs []*check.Finding) *check.Finding {
	out := fs[0]
	for _, f := range fs {
		if f.Verdict > out.Verdict {
			out = f
		}
	}
	return out
}

// loudestOf is the most urgent finding that speaks of any cell of a part, or only names it; nil
// for none.
func loudestOf(part *check.Part, spoken map[check.Cell][]*check.Finding, named []*check.Finding) *check.Finding {
	all := slices.Clone(named)
	for _, c := range cellsOf(part) {
		if c != (check.Cell{}) {
			all = append(all, spoken[c]...)
		}
	}
	if len(all) == 0 {
		return nil
	}
	return loudest(all)
}

func sentences(fs []*check.Finding) string {
	var lines []string
	for _, f := range fs {
		s := f.Verdict.String() + " " + f.ID + "\n" + f.Text + "."
		if f.Fix != "" {
			s += "\nClears it: " + f.Fix + "."
		}
		lines = append(lines, s)
	}
	return strings.Join(lines, "\n\n")
}

func quantity(v check.Value) string {
	if !v.Known {
		return ""
	}
	return fmt.Sprintf("%g", v.Nominal)
}

// size prints a size, and both ends where it is doubtful.
func size(j *check.Job, v check.Value) string {
	switch {
	case !v.Known:
		return ""
	case v.Ranged():
		return j.Len(v.Low) + " to " + j.Len(v.High)
	}
	return j.Len(v.Nominal)
}
