package write

import (
	"fmt"
	"path/filepath"
	"strings"

	"dryfit/check"
)

func base(path string) string { return filepath.Base(path) }

// Typed is what people wrote on the flagged tab, by the key of its finding.
type Typed map[string]Said

// flaggedHeads are the headers of the flagged tab. The hidden columns at the end carry the
// key of the finding and what was accepted.
var flaggedHeads = []string{"Verdict", "Where", "What is wrong", "What clears it", "Cell", "Working", "Check",
	"Accept: initials", "Accept: why", "Ask: whom", "Ask: what", "key", "accepted verdict", "accepted margin"}

const (
	flaggedTop  = 4 // row of the headers
	colAccept   = 8
	colWhy      = 9
	colAsk      = 10
	colQuestion = 11
	colKey      = 12
	colWasWord  = 13
	colWasWorst = 14
)

func flagged(rep *check.Report, host string, w *workings, typed Typed) *page {
	p := newPage(TabFlagged, "Flagged rows", "To accept a finding, type your initials and a reason; to ask, a name and a question. Both stay when the job is checked again.")
	p.wide, p.frozen = true, flaggedTop
	p.widths = []float64{15, 16, 52, 42, 14, 9, 16, 9, 20, 10, 20, 8, 8, 8}
	p.hidden = [2]int{colKey, colWasWorst}
	var heads []cell
	for _, h := range flaggedHeads {
		heads = append(heads, text(h, headLook))
	}
	p.add(heads...)
	p.heights[flaggedTop] = 32
	left := Typed{}
	for k, a := range typed {
		left[k] = a
	}
	for _, f := range rep.Findings {
		p.finding(f, host, w, typed[f.Key])
		delete(left, f.Key)
	}
	if len(rep.Findings) == 0 {
		m := shown(check.Clear)
		p.add(text(m.word(), m.look()), text("", bodyLook), text("Nothing is open: every row passes every check that could be asked.", bodyLook))
	}
	last := len(p.rows)
	p.gone(left)
	p.filter = fmt.Sprintf("A%d:%s", flaggedTop, at(len(flaggedHeads)-3, max(last, flaggedTop+1)))
	p.area = fmt.Sprintf("A1:%s", at(colQuestion, len(p.rows)))
	p.repeated = fmt.Sprintf("%d:%d", flaggedTop, flaggedTop)
	return p
}

func (p *page) finding(f *check.Finding, host string, w *workings, said Said) {
	m := shown(f.Verdict)
	row := len(p.rows) + 1
	verdict := m.word()
	if f.Accepted() {
		verdict += "\naccepted"
	}
	cells := []cell{text(verdict, wrapLook(m.look())), text(where(f), bodyLook), text(f.Text, bodyLook), text(f.Fix, bodyLook),
		text("", bodyLook), text("", bodyLook), text(f.ID, bodyLook)}
	if len(f.Cells) > 0 {
		cells[4] = text(place(f.Cells[0], host), bodyLook)
		if to := target(f.Cells[0], host); to != "" {
			cells[4].look = linkLook
			p.links = append(p.links, link{at(5, row), to, "the cell to mend"})
		}
	}
	if start := w.start[f.Results[0]]; start > 0 {
		cells[5] = text("show", linkLook)
		p.links = append(p.links, link{at(6, row), quote(TabWorking) + "!" + at(1, start), "the working behind it"})
	}
	p.tall(p.add(append(cells, typedCells(f, said)...)...), 18)
	p.notes = append(p.notes, note{at(1, row), remark(f)})
}

func wrapLook(l look) look { l.wrap = true; return l }

// typedCells are the columns for typing, and the hidden ones that say what was accepted.
func typedCells(f *check.Finding, s Said) []cell {
	out := said(f.Key, s)
	if f.Accepted() {
		out[5], out[6] = text(f.Accept.Worst.String(), plainLook), number(f.Accept.Margin, plainLook)
	}
	return out
}

// said are the cells from the initials to the hidden ones. What was accepted stays beside a
// word that has lapsed, so that it does not come to life again.
func said(key string, s Said) []cell {
	out := []cell{text(s.By, typeLook), text(s.Why, typeLook), text(s.Whom, typeLook), text(s.What, typeLook),
		text(key, plainLook), {}, {}}
	if s.By != "" && !s.Fresh {
		out[5], out[6] = text(s.Worst.String(), plainLook), number(s.Margin, plainLook)
	}
	return out
}

// gone keeps what was typed beside findings that are no longer there.
func (p *page) gone(left Typed) {
	keys := sorted(left)
	if len(keys) == 0 {
		return
	}
	p.add()
	p.add(text("No longer found; kept because somebody wrote a word beside it", look{ink: ink, bold: true}))
	for _, k := range keys {
		parts := strings.SplitN(k, "|", 3)
		cells := []cell{text("gone", bodyLook), text(strings.Join(parts[1:], " "), bodyLook), text("", bodyLook), text("", bodyLook),
			text("", bodyLook), text("", bodyLook), text(parts[0], bodyLook)}
		p.add(append(cells, said(k, left[k])...)...)
	}
}

// where names case and marks: the first few, and how many more.
func where(f *check.Finding) string {
	const most = 4
	if len(f.Cells) == 0 {
		return "whole job"
	}
	marks := f.Marks
	more := ""
	if len(marks) > most {
		more = fmt.Sprintf(" and %d more", len(marks)-most)
		marks = marks[:most]
	}
	s := strings.Join(marks, ", ") + more
	if f.Case != "" {
		s = f.Case + "\n" + s
	}
	return strings.TrimSpace(s)
}

// remark is the note on a failure: what turns it, what it rests on, what is folded under it.
func remark(f *check.Finding) string {
	lines := []string{f.ID + ": " + f.Results[0].Check.Asks}
	if f.Turns != nil {
		lines = append(lines, fmt.Sprintf("Decides: %s, turns at %.4g %s.", f.Turns.Input, f.Turns.At, f.Turns.Unit))
	}
	if n := len(f.Also); n > 0 {
		lines = append(lines, fmt.Sprintf("Folded under it: %d more %s.", n, map[bool]string{true: "cell", false: "cells"}[n == 1]))
	}
	lines = append(lines, "Source: "+f.Source+".", "Does not see: "+f.Results[0].Check.Limits)
	return strings.Join(lines, "\n")
}
