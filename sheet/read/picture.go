package read

import (
	"fmt"
	"io"
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
	t.printRows(w)
	t.printParts(w)
	for _, u := range t.Unread {
		fmt.Fprintf(w, "    not read %s: %q, %s\n", u.Cell.Addr, clip(u.Text, 60), u.Why)
	}
	for _, u := range t.Aside {
		if strings.Contains(u.Why, "column") || strings.Contains(u.Why, "cells below") {
			fmt.Fprintf(w, "    not used %s: %q, %s\n", u.Cell.Addr, clip(u.Text, 60), u.Why)
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
			what += " in " + c.unitOr(unit).String()
		}
		fmt.Fprintf(w, "      %-3s %-24s %s\n", ColName(c.col), clip(c.headText(), 24), what)
	}
}

// printRows lists what runs of rows were taken for.
func (t *Tab) printRows(w io.Writer) {
	if t.grid == nil {
		return
	}
	type run struct {
		from, to int
		role     rowRole
	}
	var runs []run
	for _, r := range t.grid.Rows {
		role := t.roles[r.N]
		if n := len(runs); n > 0 && runs[n-1].role == role && r.N == runs[n-1].to+1 {
			runs[n-1].to = r.N
			continue
		}
		runs = append(runs, run{r.N, r.N, role})
	}
	for _, r := range runs {
		rows := fmt.Sprintf("row %d", r.from)
		if r.to > r.from {
			rows = fmt.Sprintf("rows %d to %d", r.from, r.to)
		}
		line := fmt.Sprintf("    %-16s %s", rows, r.role.word)
		if r.role.word == "heading" {
			line += " " + t.rowWords(r.from)
		}
		if r.role.why != "" {
			line += ": " + r.role.why
		}
		fmt.Fprintln(w, line)
	}
}

func (t *Tab) rowWords(n int) string {
	r := t.grid.Row(n)
	if r == nil {
		return ""
	}
	return fmt.Sprintf("%q", clip(r.Cells[0].Text(), 40))
}

// printParts lists the parts as they were read.
func (t *Tab) printParts(w io.Writer) {
	for p := range t.parts.All() {
		name := p.Name()
		if p.Mark.Text != "" && p.Description.Text != "" {
			name += " " + p.Description.Text
		}
		line := fmt.Sprintf("    %-5s %s", p.Row.Addr, clip(name, 34))
		if p.Of != "" {
			line = fmt.Sprintf("    %-5s   layer of %s: %s", p.Row.Addr, p.Of, clip(name, 24))
		}
		line = fmt.Sprintf("%-46s", line)
		if p.Qty.Known {
			line += fmt.Sprintf(" %4s x", general(p.Qty.Nominal))
		} else {
			line += "    ? x"
		}
		line += " " + printSizes(p)
		for _, s := range []string{string(p.Role), p.Case.Text, p.Material.Text, p.Edges.Text, p.Finish.Text} {
			if s != "" {
				line += ", " + clip(s, 24)
			}
		}
		fmt.Fprintln(w, strings.TrimRight(line, " "))
		for _, d := range p.Doubts {
			fmt.Fprintf(w, "          %s, %s: %q can be %s: %s\n", d.Field, d.Cell.Addr, d.Text, strings.Join(d.Readings, " or "), d.Why)
		}
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
