package write

import (
	"fmt"
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
func rows(rep *check.Report, host string) *page {
	p := newPage(TabRows, "The schedule as it was read",
		fmt.Sprintf("Lengths in %s. A coloured cell is one that a finding speaks of; its note says what.", spelled(rep.Job.Unit)))
	p.wide, p.frozen = true, 4
	p.widths = []float64{15, 13, 9, 28, 13, 18, 6, 12, 12, 10, 18, 9, 12, 26}
	var heads []cell
	for _, h := range rowHeads {
		heads = append(heads, text(h, headLook))
	}
	p.add(heads...)
	spoken := speaking(rep)
	for _, part := range rep.Job.Parts {
		p.part(rep.Job, part, host, spoken)
	}
	p.filter = fmt.Sprintf("A4:%s", at(len(rowHeads), max(len(p.rows), 5)))
	p.area = fmt.Sprintf("A1:%s", at(len(rowHeads), len(p.rows)))
	p.repeated = "4:4"
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

func (p *page) part(j *check.Job, part *check.Part, host string, spoken map[check.Cell][]*check.Finding) {
	row := len(p.rows) + 1
	values := []struct {
		text string
		from check.Cell
	}{
		{part.Mark.Text, part.Mark.From},
		{part.Description.Text, part.Description.From},
		{string(part.Role), check.Cell{}},
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
	cells := []cell{{}, text(place(part.Row, host), bodyLook)}
	if to := target(part.Row, host); to != "" {
		cells[1].look = linkLook
		p.links = append(p.links, link{at(2, row), to, "the row in the schedule"})
	}
	seen := map[check.Cell]bool{}
	told := map[*check.Finding]bool{}
	for i, v := range values {
		c := text(v.text, bodyLook)
		if fs := spoken[v.from]; len(fs) > 0 && v.from != (check.Cell{}) && !seen[v.from] {
			seen[v.from] = true
			m := shown(loudest(fs))
			worst = max(worst, m.verdict)
			c.look.fill, c.look.ink = m.fill, m.ink
			p.notes = append(p.notes, note{at(i+3, row), sentences(fs)})
			for _, f := range fs {
				told[f] = true
			}
		}
		cells = append(cells, c)
	}
	if fs := untold(spoken[part.Row], told); len(fs) > 0 {
		worst = max(worst, loudest(fs))
		p.notes = append(p.notes, note{at(1, row), sentences(fs)})
	}
	m := shown(worst)
	cells[0] = text(m.word(), m.look())
	p.tall(p.add(cells...), 0)
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

func loudest(fs []*check.Finding) check.Verdict {
	v := check.Clear
	for _, f := range fs {
		v = max(v, f.Verdict)
	}
	return v
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
