package write

import (
	"fmt"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// mostOnFront is how many findings the front tab names; the rest are on the flagged tab.
const mostOnFront = 10

// front is one page: the verdict, what to do first, the counts, what was taken for granted.
func front(rep *check.Report, host, version string) *page {
	p := newPage(TabFront, rep.Job.Name, "Checked by dryfit "+version+". Lengths in "+rep.Job.Unit.String()+".")
	p.widths = []float64{16, 17, 46, 40, 14}
	m := shown(rep.Verdict)
	big := m.look()
	big.size, big.wrap = 16, true
	row := p.add(text(m.word(), big), cell{look: big}, text(meaning(rep), look{ink: ink, size: 12, wrap: true}))
	p.merges = append(p.merges, fmt.Sprintf("A%d:B%d", row, row), fmt.Sprintf("C%d:E%d", row, row))
	p.heights[row] = 36
	p.add()
	p.counts(rep)
	p.first(rep, host)
	p.list("What was taken for granted", rep.Job.Notes, 8)
	p.list("Cells that could not be read", unread(rep.Job, host), 8)
	p.list("Care", cautions, len(cautions))
	p.area = fmt.Sprintf("A1:%s", at(5, len(p.rows)))
	return p
}

func spelled(u length.Unit) string {
	if u == length.Millimetre {
		return "millimetres"
	}
	return "inches"
}

func meaning(rep *check.Report) string {
	switch rep.Verdict {
	case check.Hold:
		return "Do not cut or ship as scheduled."
	case check.Verify:
		return "Nothing fails as typed; confirm the values below before cutting."
	case check.NotChecked:
		return "Nothing fails, but something could not be checked."
	}
	return "Every row passes every check that could be asked."
}

// counts is the legend and the numbers in one small table.
func (p *page) counts(rep *check.Report) {
	c := rep.Counts
	n := map[check.Verdict]int{check.Hold: c.Hold, check.Verify: c.Verify, check.NotChecked: c.NotChecked, check.Clear: c.Clear}
	means := map[check.Verdict]string{
		check.Hold:       "fails as typed: do not cut or ship",
		check.Verify:     "passes only inside a tolerance, or rests on a value nobody measured",
		check.NotChecked: "an input is missing; the flagged tab says which cell to fill",
		check.Clear:      "passes over the whole range of its inputs",
	}
	p.legend(text("Verdict", headLook), text("Questions", headLook), text("What it means", headLook))
	for _, m := range verdicts {
		p.legend(text(m.word(), m.look()), number(float64(n[m.verdict]), look{ink: ink, line: true, centre: true, format: "0"}), text(means[m.verdict], bodyLook))
	}
	if c.Accepted > 0 {
		p.legend(text("accepted", bodyLook), number(float64(c.Accepted), look{ink: ink, line: true, centre: true, format: "0"}), text("findings the lead took out of the verdict", bodyLook))
	}
}

// legend adds a row whose last cell runs to the right edge.
func (p *page) legend(verdict, count, means cell) {
	row := p.add(verdict, count, means, cell{look: means.look}, cell{look: means.look})
	p.merges = append(p.merges, fmt.Sprintf("C%d:E%d", row, row))
	p.heights[row] = 18
}

// first lists what to do, the urgent first.
func (p *page) first(rep *check.Report, host string) {
	p.add()
	p.add(text("Do this first", look{ink: ink, bold: true, size: 12}))
	if len(rep.Findings) == 0 {
		p.add(text("Nothing to do.", plainLook))
		return
	}
	p.heights[p.add(text("Verdict", headLook), text("Where", headLook), text("What is wrong", headLook), text("What clears it", headLook), text("Cell", headLook))] = 18
	for i, f := range rep.Findings {
		if i == mostOnFront || f.Accepted() {
			break
		}
		p.todo(f, host)
	}
	if n := len(rep.Findings) - mostOnFront; n > 0 {
		row := p.add(text(fmt.Sprintf("and %d more on the flagged tab", n), look{ink: linkInk, link: true}))
		p.links = append(p.links, link{at(1, row), quote(TabFlagged) + "!A1", "all findings"})
	}
}

func (p *page) todo(f *check.Finding, host string) {
	m := shown(f.Verdict)
	row := len(p.rows) + 1
	cellText := text("", bodyLook)
	if len(f.Cells) > 0 {
		cellText = text(place(f.Cells[0], host), bodyLook)
		if to := target(f.Cells[0], host); to != "" {
			cellText.look = linkLook
			p.links = append(p.links, link{at(5, row), to, "the cell to mend"})
		}
	}
	p.tall(p.add(text(m.word(), m.look()), text(where(f), bodyLook), text(f.Text, bodyLook), text(f.Fix, bodyLook), cellText), 18)
}

// list adds a short list under a heading, if there is anything to say.
func (p *page) list(head string, lines []string, most int) {
	if len(lines) == 0 {
		return
	}
	p.add()
	p.add(text(head, look{ink: ink, bold: true, size: 12}))
	for i, l := range lines {
		if i == most {
			p.add(text(fmt.Sprintf("and %d more", len(lines)-most), smallLook))
			break
		}
		row := p.add(text(l, look{ink: ink, wrap: true, size: 9}))
		p.merges = append(p.merges, fmt.Sprintf("A%d:E%d", row, row))
		p.heights[row] = float64(wrapped(l, 150))*lineHeight + 2
	}
}

func unread(j *check.Job, host string) []string {
	var out []string
	for _, u := range j.Unread {
		out = append(out, fmt.Sprintf("%s: %q, %s", place(u.Cell, host), strings.TrimSpace(u.Text), u.Why))
	}
	return out
}

// cautions are the usual ones of the trade, in few words.
var cautions = []string{
	"These results support a person's judgement and replace none. Local codes govern.",
	"Anchor tall pieces to framing against tipping. Lift heavy and awkward pieces with enough people.",
	"Ask a licensed engineer where people could be hurt or a code applies.",
}
