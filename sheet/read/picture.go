package read

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// Print writes how workbooks were understood, for people: which cells were the header, which
// column is what, and what each row was taken for.
func Print(w io.Writer, books []*Book) {
	for i, b := range books {
		if i > 0 {
			fmt.Fprintln(w)
		}
		fmt.Fprintln(w, b.Path)
		if !b.Has("parts") {
			fmt.Fprintln(w, "  holds no part schedule")
		}
		for _, t := range b.Tabs {
			t.print(w)
		}
	}
}

// Has reports whether a tab of the book is of a kind, whole or in part.
func (b *Book) Has(kind string) bool {
	for _, t := range b.Tabs {
		if t.Kind == kind {
			return true
		}
		for _, k := range t.Also {
			if k == kind {
				return true
			}
		}
	}
	return false
}

func (t *Tab) print(w io.Writer) {
	fmt.Fprintf(w, "\n  tab %q: %s", t.Name, strings.Join(append([]string{t.Kind}, t.Also...), " and "))
	if t.Why != "" {
		fmt.Fprintf(w, ", %s", t.Why)
	}
	fmt.Fprintln(w)
	if t.Kind == "ignored" && !t.old {
		return
	}
	for _, n := range t.Notes {
		fmt.Fprintf(w, "    note: %s\n", n)
	}
	for _, tb := range t.tables {
		tb.printColumns(w, t.Unit)
	}
	for _, tb := range t.turned {
		tb.printFields(w, t.Unit)
	}
	t.printRows(w)
	for _, u := range t.Unread {
		fmt.Fprintf(w, "    not read  %-5s %s: %s\n", u.Cell.Addr, check.Typed(clip(u.Text, 60)), u.Why)
	}
	for _, u := range t.Aside {
		if row, _, _ := parseRef([]byte(u.Cell.Addr)); t.roles[row].word == "header" {
			fmt.Fprintf(w, "    not used  %-5s %s: %s\n", u.Cell.Addr, check.Typed(clip(u.Text, 60)), u.Why)
		}
	}
}

// printColumns lists the columns of a table and what each was taken for.
func (t *table) printColumns(w io.Writer, unit length.Unit) {
	rows := fmt.Sprintf("row %d", t.top)
	if t.bottom > t.top {
		rows = fmt.Sprintf("rows %d and %d", t.top, t.bottom)
	}
	if t.headless {
		fmt.Fprintln(w, "    no header; the columns are known by their values")
	} else {
		fmt.Fprintf(w, "    header in %s\n", rows)
	}
	if t.matrix != nil {
		what := "parts down, cases across"
		if t.matrix.turned {
			what = "cases down, parts across"
		}
		fmt.Fprintf(w, "      a matrix: %s, labels in column %s\n", what, ColName(t.matrix.names))
		return
	}
	for _, c := range t.cols {
		if c.blank && c.prof.n == 0 {
			continue
		}
		fmt.Fprintf(w, "      %-3s %-24s %s\n", ColName(c.col), clip(c.headText(), 24), c.what(unit))
	}
}

// printFields lists the rows of a table with the parts across, and what each was taken for.
func (t *table) printFields(w io.Writer, unit length.Unit) {
	fmt.Fprintf(w, "    fields in column %s, parts across\n", ColName(t.top))
	for _, c := range t.cols {
		fmt.Fprintf(w, "      %-3d %-24s %s\n", c.col, clip(c.headText(), 24), c.what(unit))
	}
}

// what says what a column was taken for.
func (c *column) what(unit length.Unit) string {
	what := string(c.field)
	if c.field == fUnknown {
		what = "not known"
	}
	if c.kind != "" {
		what = string(c.kind) + " " + what
	}
	if c.head.edge != "" {
		what += " " + c.head.edge
	}
	if c.isLength() {
		what += " in " + c.unitOr(unit).Word()
	}
	return what
}

// printRows is the tab row by row: what each was taken for, and each part as it was read.
// Rows of one kind that follow each other are one line, but for parts and headings.
func (t *Tab) printRows(w io.Writer) {
	texts := map[int]string{}
	for _, list := range [][]check.Unread{t.Unread, t.Aside} {
		for _, u := range list {
			if row, _, ok := parseRef([]byte(u.Cell.Addr)); ok && texts[row] == "" {
				texts[row] = u.Text
			}
		}
	}
	parts := map[int][]int{}
	for i := range t.parts.rows {
		row, _, _ := parseRef([]byte(t.parts.at(i).Row.Addr))
		parts[row] = append(parts[row], i)
	}
	for _, n := range slices.Sorted(maps.Keys(t.roles)) {
		role := t.roles[n]
		for _, i := range parts[n] {
			t.printPart(w, n, t.parts.at(i))
		}
		if len(parts[n]) > 0 {
			continue
		}
		text := role.text
		if text == "" && role.word != "header" {
			text = texts[n]
		}
		line := fmt.Sprintf("    %5d  %-8s %s", n, role.word, clip(text, 70))
		if role.why != "" && role.word != "title" && role.word != "total" {
			line += " (" + role.why + ")"
		}
		fmt.Fprintln(w, strings.TrimRight(line, " "))
	}
}

// printPart is one part as it was read.
func (t *Tab) printPart(w io.Writer, n int, p *check.Part) {
	name := p.Mark.Text
	if p.Description.Text != "" {
		name = strings.TrimSpace(name + " " + p.Description.Text)
	}
	word, count := "part", "?"
	switch {
	case p.Of != "":
		word = "layer"
	case p.Role == check.NotAPart:
		word = "no part"
	}
	if p.Qty.Known {
		count = general(p.Qty.Nominal)
	}
	line := fmt.Sprintf("    %5d  %-8s %3s x %-30s %s", n, word, count, clip(name, 30), printSizes(p))
	if p.Of != "" {
		line += ", of " + p.Of
	}
	for _, s := range []string{p.Role.Word(), p.Room.Text, p.Case.Text, p.Material.Text, p.Edges.Text, p.Finish.Text} {
		if s != "" && s != string(check.NotAPart) {
			line += ", " + clip(s, 24)
		}
	}
	fmt.Fprintln(w, strings.TrimRight(line, " "))
	for _, d := range p.Doubts {
		fmt.Fprintf(w, "           doubtful %s, %s %s: %s; %s\n", d.Field, d.Cell.Addr, check.Typed(clip(d.Text, 30)), strings.Join(d.Readings, " or "), d.Why)
	}
}

func printSizes(p *check.Part) string {
	var s []string
	for _, x := range p.Sizes() {
		if !x.Value.Known {
			s = append(s, "?")
			continue
		}
		s = append(s, length.Figure(x.Value.Nominal, p.Unit))
	}
	return strings.Join(s, " x ") + " " + p.Unit.String()
}

func clip(s string, n int) string {
	s = strings.Join(strings.Fields(s), " ")
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}
