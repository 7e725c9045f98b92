package write

import (
	"fmt"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// mostOnFront is how many findings the front tab names; the rest are on the flagged tab.
const mostOnFront = 10

// front is one page: the verdict, what to do first, the counts, the pictures as large as the page
// leaves room for, what was taken for granted.
func front(rep *check.Report, host, version string) (*Page, error) {
	ds, note := drawn(rep)
	p := frontAbove(rep, host, version)
	if len(ds) > 0 {
		whole := frontAbove(rep, host, version)
		whole.frontBelow(rep, host)
		if err := p.pictures(ds, note, whole.pageRoom()-whole.high(1, len(whole.Rows))); err != nil {
			return nil, fmt.Errorf("pictures of the front tab: %w", err)
		}
	} else if note != "" {
		p.Add()
		p.Add(Text(note, Look{Ink: Faint, Size: 9}))
	}
	p.frontBelow(rep, host)
	p.Area, p.OnePage = fmt.Sprintf("A1:%s", At(frontColumns, len(p.Rows))), true
	return p, nil
}

// frontColumns is how many columns the page has.
const frontColumns = 5

func frontAbove(rep *check.Report, host, version string) *Page {
	p := NewPage(TabFront, rep.Job.Name, "Checked by dryfit "+version+". Lengths in "+spelled(rep.Job.Unit)+".")
	p.Widths = []float64{16, 17, 46, 40, 14}
	m := Shown(rep.Verdict)
	big := m.Look()
	big.Size, big.Wrap = 16, true
	says := Look{Ink: Ink, Size: 12, Wrap: true, Line: true} // the line keeps the words off the box beside them
	row := p.Add(Text(m.Word(), big), Cell{Look: big}, Text(meaning(rep), says), Cell{Look: says}, Cell{Look: says})
	p.Merges = append(p.Merges, fmt.Sprintf("A%d:B%d", row, row), fmt.Sprintf("C%d:E%d", row, row))
	p.Heights[row] = 36
	p.first(rep, host)
	p.Heights[p.Add()] = 9
	p.counts(rep)
	return p
}

func (p *Page) frontBelow(rep *check.Report, host string) {
	p.list("What was taken for granted", rep.Job.Notes, 8)
	p.list("Cells that could not be read", unread(rep.Job, host), 8)
	p.list("Care", cautions, len(cautions))
}

func spelled(u length.Unit) string {
	if u == length.Millimetre {
		return "millimetres"
	}
	return "inches"
}

func meaning(rep *check.Report) string {
	cut := rep.Job.Stage >= check.Finished
	switch {
	case rep.Verdict == check.Hold && cut:
		return "Do not ship as it stands."
	case rep.Verdict == check.Hold:
		return "Do not cut or ship as scheduled."
	case rep.Verdict == check.Verify && cut:
		return "Nothing fails as typed; confirm the values below before it is shipped."
	case rep.Verdict == check.Verify:
		return "Nothing fails as typed; confirm the values below before cutting."
	case rep.Verdict == check.NotChecked:
		return "Nothing fails, but something could not be checked."
	}
	return "Every row passes every check that could be asked."
}

// counts is the legend and the numbers in one small table: the findings that the lead reads, and
// the marks times checks they were folded out of.
func (p *Page) counts(rep *check.Report) {
	c := rep.Counts
	answers := map[check.Verdict]int{check.Hold: c.Hold, check.Verify: c.Verify, check.NotChecked: c.NotChecked, check.Clear: c.Clear}
	found := map[check.Verdict]int{}
	for _, f := range rep.Findings {
		if !f.Accepted() {
			found[f.Verdict]++
		}
	}
	means := map[check.Verdict]string{
		check.Hold:       "fails as typed: do not cut or ship",
		check.Verify:     "passes only inside a tolerance, or rests on a value nobody measured",
		check.NotChecked: "an input is missing; the flagged tab says which cell to fill",
		check.Clear:      "passes over the whole range of its inputs",
	}
	head := HeadLook
	head.Centre = true
	p.legend(Text("Verdict", HeadLook), Text("Findings", head), Text("What it means", HeadLook), Text("Single results", head))
	number := Look{Ink: Ink, Line: true, Centre: true, Format: "0"}
	for _, m := range verdicts {
		lines := Number(float64(found[m.verdict]), number)
		if m.verdict == check.Clear {
			lines = Text("none needed", Look{Ink: Faint, Line: true, Centre: true})
		}
		p.legend(Text(m.Word(), m.Look()), lines, Text(means[m.verdict], BodyLook), Number(float64(answers[m.verdict]), number))
	}
	if c.Accepted > 0 {
		p.legend(Text("accepted", BodyLook), Number(float64(c.Accepted), number), Text("findings the lead took out of the verdict", BodyLook), Text("", BodyLook))
	}
}

// legend adds a row whose third cell is as wide as two columns.
func (p *Page) legend(verdict, count, means, answers Cell) {
	row := p.Add(verdict, count, means, Cell{Look: means.Look}, answers)
	p.Merges = append(p.Merges, fmt.Sprintf("C%d:D%d", row, row))
	p.Heights[row] = 18
}

// first lists what to do, the urgent first.
func (p *Page) first(rep *check.Report, host string) {
	p.Add()
	p.Add(Text("Do this first", Look{Ink: Ink, Bold: true, Size: 12}))
	if len(rep.Findings) == 0 {
		p.Add(Text("Nothing to do.", PlainLook))
		return
	}
	p.Heights[p.Add(Text("Verdict", HeadLook), Text("Where", HeadLook), Text("What is wrong", HeadLook), Text("What clears it", HeadLook), Text("Cell", HeadLook))] = 18
	for i, f := range rep.Findings {
		if i == mostOnFront || f.Accepted() {
			break
		}
		p.todo(f, host)
	}
	if n := len(rep.Findings) - mostOnFront; n > 0 {
		row := p.Add(Text(fmt.Sprintf("and %d more on the flagged tab", n), Look{Ink: linkInk, Link: true}))
		p.Links = append(p.Links, Link{At: At(1, row), To: Quote(TabFlagged) + "!A1", Tip: "all findings"})
	}
}

func (p *Page) todo(f *check.Finding, host string) {
	m := Shown(f.Verdict)
	row := len(p.Rows) + 1
	cellText := Text("", BodyLook)
	if len(f.Cells) > 0 {
		cellText = p.cellOf(f.Cells[0], host, 5, row, "the cell to mend")
	}
	p.Tall(p.Add(Text(m.Word(), m.Look()), Text(Where(f), BodyLook), Text(f.Text, BodyLook), Text(f.Fix, BodyLook), cellText), 18)
}

// list adds a short list under a heading, if there is anything to say.
func (p *Page) list(head string, lines []string, most int) {
	if len(lines) == 0 {
		return
	}
	p.Add()
	p.Add(Text(head, Look{Ink: Ink, Bold: true, Size: 12}))
	for i, l := range lines {
		if i == most {
			p.Add(Text(fmt.Sprintf("and %d more", len(lines)-most), SmallLook))
			break
		}
		row := p.Add(Text(l, Look{Ink: Ink, Wrap: true, Size: 9}))
		p.Merges = append(p.Merges, fmt.Sprintf("A%d:E%d", row, row))
		p.Tall(row, 14)
	}
}

func unread(j *check.Job, host string) []string {
	var out []string
	for _, u := range j.Unread {
		out = append(out, fmt.Sprintf("%s: %s, %s", place(u.Cell, host), check.Typed(strings.TrimSpace(u.Text)), u.Why))
	}
	return out
}

// cautions are the usual ones of the trade, in few words.
var cautions = []string{
	"These results support a person's judgement and replace none. Local codes govern.",
	"Anchor tall pieces to framing against tipping. Lift heavy and awkward pieces with enough people.",
	"Ask a licensed engineer where people could be hurt or a code applies.",
}
