package main

import (
	"fmt"
	"io"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// printPage prints the page of a check from its fields.
func printPage(w io.Writer, c *check.Check) {
	fmt.Fprintf(w, "%s\n\n%s\n\n", c.ID, c.Asks)
	for _, f := range facts(c) {
		fmt.Fprintf(w, "%s: %s.\n", f.name, f.text)
	}
	fmt.Fprintln(w, "\nInputs")
	for _, in := range c.Inputs {
		fmt.Fprintf(w, "  %-4s %s%s\n", in.Symbol, in.Name, bracketed(in.Unit))
	}
	fmt.Fprintln(w, "\nWorking")
	for _, s := range c.Steps {
		fmt.Fprintf(w, "  %-4s = %s\n         %s%s\n", s.Symbol, s.Formula, s.Name, bracketed(s.Unit))
	}
	fmt.Fprintf(w, "\nVerdict: %s.\n", passes(c))
	for _, r := range rule {
		fmt.Fprintf(w, "  %-12s %s\n", r.name, r.text)
	}
	fmt.Fprintln(w, "\nWhat clears it")
	for _, m := range ways(c) {
		fmt.Fprintf(w, "  %s\n", m)
	}
	fmt.Fprintln(w, "\nSource")
	for _, s := range c.Source {
		fmt.Fprintf(w, "  %s\n", s)
	}
	fmt.Fprintf(w, "\nLimits: %s\n\nFails:  %s\nMended: %s\n", c.Limits, c.Fails, c.Mended)
}

// printManual prints the pages of all checks as Markdown.
func printManual(w io.Writer, all []*check.Check) {
	fmt.Fprint(w, "# The checks\n\nMade by `dryfit explain --all`. Sizes in examples are inches.\n\n| verdict | means |\n|---|---|\n")
	for _, r := range rule {
		fmt.Fprintf(w, "| %s | %s |\n", r.name, r.text)
	}
	fmt.Fprint(w, "\n| check | asks |\n|---|---|\n")
	for _, c := range all {
		fmt.Fprintf(w, "| [%s](#%s) | %s |\n", c.ID, strings.ReplaceAll(c.ID, ".", ""), c.Asks)
	}
	for _, c := range all {
		printSection(w, c)
	}
}

func printSection(w io.Writer, c *check.Check) {
	fmt.Fprintf(w, "\n## %s\n\n**%s**\n\n", c.ID, c.Asks)
	for _, f := range facts(c) {
		fmt.Fprintf(w, "- %s: %s.\n", f.name, f.text)
	}
	fmt.Fprint(w, "\n| input | | unit |\n|---|---|---|\n")
	for _, in := range c.Inputs {
		fmt.Fprintf(w, "| `%s` | %s | %s |\n", in.Symbol, in.Name, both(in.Unit))
	}
	fmt.Fprint(w, "\n| working | | unit |\n|---|---|---|\n")
	for _, s := range c.Steps {
		fmt.Fprintf(w, "| `%s = %s` | %s | %s |\n", s.Symbol, s.Formula, s.Name, both(s.Unit))
	}
	fmt.Fprintf(w, "\nVerdict: %s.\n\nWhat clears it:\n\n", passes(c))
	for _, m := range ways(c) {
		fmt.Fprintf(w, "- %s\n", m)
	}
	fmt.Fprint(w, "\nSource:\n\n")
	for _, s := range c.Source {
		fmt.Fprintf(w, "- %s\n", s)
	}
	fmt.Fprintf(w, "\nLimits: %s\n\n- Fails: %s\n- Mended: %s\n", c.Limits, c.Fails, c.Mended)
}

// fact is one line of a page.
type fact struct{ name, text string }

var rule = []fact{
	{"HOLD", "fails as typed, even with every guess at its kindest"},
	{"VERIFY", "fails for some values inside the ranges of its inputs, not for all"},
	{"CLEAR", "passes everywhere inside the ranges"},
	{"NOT CHECKED", "an input is missing"},
}

func facts(c *check.Check) []fact {
	out := []fact{
		{"What it costs when nobody asks", c.Costs},
		{"Applies to", c.Applies},
		{"Asked until the job is", c.Until.String()},
	}
	if c.Under != "" {
		out = append(out, fact{"Told under", c.Under + ", where that speaks of the same parts as loudly"})
	}
	if c.Grave {
		out = append(out, fact{"To be accepted", "it wants a reason of its own, since people could be hurt"})
	}
	return out
}

func passes(c *check.Check) string {
	last := c.Steps[len(c.Steps)-1]
	return fmt.Sprintf("passes where %s, the last line of the working, is at or above zero", last.Symbol)
}

// ways lists the changes that are tried, and what is said where none of them clears it.
func ways(c *check.Check) []string {
	var out []string
	for _, m := range c.Mends {
		out = append(out, strings.ReplaceAll(m.Order, "{}", m.Symbol))
	}
	if c.NoMend != "" && len(out) > 0 {
		return append(out, "else: "+c.NoMend)
	} else if c.NoMend != "" {
		return []string{c.NoMend}
	}
	return out
}

// both names a unit in the two systems a job may be worked in.
func both(u check.Unit) string {
	in, mm := u.In(length.Inch), u.In(length.Millimetre)
	if in == "" {
		return string(u)
	}
	return in + " or " + mm
}

func bracketed(u check.Unit) string { return " (" + both(u) + ")" }
