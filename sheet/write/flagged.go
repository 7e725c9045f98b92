package write

import (
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"dryfit/check"
)

func base(path string) string { return filepath.Base(path) }

// flaggedHeads are the headers of the flagged tab, before those of the columns for typing.
var flaggedHeads = []string{"Verdict", "Where", "What is wrong", "What clears it", "Cell", "Working", "Check"}

const (
	flaggedTop = 4  // row of the headers
	colTyped   = 8  // the first column for typing
	colKept    = 12 // the hidden one
)

func flagged(rep *check.Report, host string, w *workings, at *places, typed Typed) *Page {
	p := NewPage(TabFlagged, "Flagged rows", "To accept a finding, type your initials and a reason; to ask, a name and a question. Both stay when the job is checked again.")
	p.Wide, p.Frozen = true, flaggedTop
	p.Widths = []float64{16, 14, 42, 35, 12, 9, 17, 8, 14, 8, 13, 8}
	p.Hidden = [2]int{colKept, colKept}
	var heads []Cell
	for _, h := range slices.Concat(flaggedHeads, TypedHeads) {
		heads = append(heads, Text(h, HeadLook))
	}
	p.Add(heads...)
	p.Tall(flaggedTop, 32)
	left := Typed{}
	for k, a := range typed {
		left[k] = a
	}
	for _, f := range rep.Findings {
		p.finding(f, host, w, at, typed[f.Key])
		delete(left, f.Key)
	}
	if len(rep.Findings) == 0 {
		m := Shown(check.Clear)
		p.Tall(p.Add(Text(m.Word(), m.Look()), Text("", BodyLook), Text("Nothing is open: every row passes every check that could be asked.", BodyLook)), 0)
	}
	last := len(p.Rows)
	p.gone(left)
	p.Filter = fmt.Sprintf("A%d:%s", flaggedTop, At(colKept-1, max(last, flaggedTop+1)))
	p.Area = fmt.Sprintf("A1:%s", At(colKept-1, len(p.Rows)))
	p.Repeated = fmt.Sprintf("%d:%d", flaggedTop, flaggedTop)
	return p
}

func (p *Page) finding(f *check.Finding, host string, w *workings, at *places, said Said) {
	m := Shown(f.Verdict)
	row := len(p.Rows) + 1
	verdict := m.Word()
	switch {
	case f.Accepted():
		verdict += "\naccepted"
	case f.Shared:
		verdict += "\nwants a reason of its own"
	case said.By != "" && said.Why != "":
		verdict += "\nlapsed"
	}
	cells := []Cell{Text(verdict, wrapLook(m.Look())), Text(Where(f), BodyLook), Text(f.Text, BodyLook), Text(f.Fix, BodyLook),
		Text("", BodyLook), Text("", BodyLook), Text(f.ID, BodyLook)}
	link := func(column int, to, tip string) bool {
		c := &cells[column-1]
		if to == "" || !p.oneLine(column, c.Value.(string), c.Look) {
			return false
		}
		c.Look.Link = true
		if c.Look.Fill == "" {
			c.Look.Ink = linkInk
		}
		p.Links = append(p.Links, Link{At: At(column, row), To: to, Tip: tip})
		return true
	}
	if len(f.Cells) > 0 {
		cells[4] = p.cellOf(f.Cells[0], host, 5, row, "the cell to mend")
	}
	if start := w.start[f.Results[0]]; start > 0 {
		cells[5] = Text("show", LinkLook)
		link(6, Quote(TabWorking)+"!"+At(1, start), "the working behind it")
	}
	if to, tip := at.toPart(f), "the row as it was read"; !link(1, to, tip) { // a second word stands below the verdict
		link(2, to, tip)
	}
	link(7, at.toCoverage(f), "what else was asked of it")
	p.Tall(p.Add(append(cells, typedCells(f, said)...)...), 18)
	p.notes = append(p.notes, note{At(1, row), remark(f)})
	p.noteBefore(row, said)
}

// noteBefore tells beside the columns for typing which words stood there before, and why one
// counts no more.
func (p *Page) noteBefore(row int, s Said) {
	var lines []string
	for _, b := range s.Before {
		lines = append(lines, b.String())
	}
	if len(lines) > 0 {
		p.notes = append(p.notes, note{At(colTyped, row), "Before: " + strings.Join(lines, "\n")})
	}
}

// String is the word as a person reads it.
func (p Past) String() string {
	day := ""
	if !p.On.IsZero() {
		day = p.On.Format(" (2 Jan 2006)")
	}
	switch {
	case p.As[0] != "":
		return p.As[0] + ": " + p.As[1] + day
	case p.As[2] != "":
		return "ask " + p.As[2] + ": " + p.As[3] + day
	}
	return strings.TrimSpace(p.As[1]+" "+p.As[3]) + day
}

func wrapLook(l Look) Look { l.Wrap = true; return l }

// typedCells are the columns for typing beside a finding.
func typedCells(f *check.Finding, s Said) []Cell {
	shown := Stand{f.Verdict, f.Margin}
	if s.Beside == nil && s.By != "" && s.Why != "" {
		s.Beside = &shown // what was accepted stays beside a word that lapses
	}
	return TypedCells(Kept{Key: f.Key, Shown: &shown}, s)
}

// gone keeps what was typed beside findings that are no longer there.
func (p *Page) gone(left Typed) {
	maps.DeleteFunc(left, func(key string, s Said) bool { return s.Silent() || Measured(key) })
	keys := sorted(left)
	if len(keys) == 0 {
		return
	}
	p.Add()
	p.Add(Text("No longer found; kept because somebody wrote a word beside it", Look{Ink: Ink, Bold: true}))
	for _, k := range keys {
		parts := strings.SplitN(k, "|", 3)
		cells := []Cell{Text("gone", BodyLook), Text(strings.Join(parts[1:], " "), BodyLook), Text("", BodyLook), Text("", BodyLook),
			Text("", BodyLook), Text("", BodyLook), Text(parts[0], BodyLook)}
		p.Add(append(cells, TypedCells(Kept{Key: k}, left[k])...)...)
	}
}

// Where names case and marks: the first few, and how many more.
func Where(f *check.Finding) string {
	const most = 4
	if len(f.Cells) == 0 {
		return "whole job"
	}
	marks, left := check.Names(f.Marks, most)
	more := ""
	if left > 0 {
		more = fmt.Sprintf(" and %d more", left)
	}
	s := strings.Join(marks, ", ") + more
	switch { // on one line: a link that breaks its lines is run together in print
	case f.Case == "":
		return s
	case s == "":
		return f.Case
	}
	return f.Case + ": " + s
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
