package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"dryfit/check"
)

// mostTold is how many findings of a job are printed, the rest are on its flagged tab; and how
// many workbooks to open.
const mostTold = 8

// printReport prints a line a job, then the findings that matter, then what to open.
func printReport(w io.Writer, all []outcome) {
	for _, o := range all {
		fmt.Fprintln(w, jobLine(o))
	}
	for _, o := range all {
		printFindings(w, o)
	}
	printOpen(w, all)
}

func jobLine(o outcome) string {
	if o.report == nil {
		return fmt.Sprintf("%-11s  %s: %s", "NOT READ", o.place.name, oneLine(o.err.Error()))
	}
	c := o.report.Counts
	line := fmt.Sprintf("%-11s  %s: %d parts", o.report.Verdict, o.place.name, len(o.report.Job.Pieces()))
	for _, n := range []struct {
		n    int
		word string
	}{{lines(o.report, check.Hold), "to stop"}, {lines(o.report, check.Verify), "to verify"}, {lines(o.report, check.NotChecked), "not checked"}, {c.Accepted, "accepted"}} {
		if n.n > 0 {
			line += fmt.Sprintf(", %d %s", n.n, n.word)
		}
	}
	if len(o.report.Findings) == 0 {
		line += ", nothing open"
	}
	return line
}

func lines(rep *check.Report, v check.Verdict) int {
	n := 0
	for _, f := range rep.Findings {
		if f.Verdict == v && !f.Accepted() {
			n++
		}
	}
	return n
}

func oneLine(s string) string { return strings.ReplaceAll(s, "\n", "; ") }

func printFindings(w io.Writer, o outcome) {
	if o.report == nil || len(o.report.Findings)+len(o.notes) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", o.place.name)
	for i, f := range o.report.Findings {
		if i == mostTold {
			fmt.Fprintf(w, "  and %d more on the flagged tab\n", len(o.report.Findings)-mostTold)
			break
		}
		printFinding(w, f)
	}
	for _, n := range o.notes {
		fmt.Fprintf(w, "  note: %s\n", n)
	}
}

func printFinding(w io.Writer, f *check.Finding) {
	word := f.Verdict.String()
	if f.Accepted() {
		word += " (accepted)"
	}
	where := ""
	if len(f.Cells) > 0 {
		where = " [" + f.Cells[0].String() + "]"
	}
	fmt.Fprintf(w, "  %-11s  %s  %s%s\n", word, f.ID, f.Text, where)
	if f.Fix != "" {
		fmt.Fprintf(w, "  %-11s    -> %s\n", "", f.Fix)
	}
}

// near is a path as seen from where the command runs, if it lies below.
func near(path string) string {
	here, err := os.Getwd()
	if err != nil {
		return path
	}
	if rel, err := filepath.Rel(here, path); err == nil && filepath.IsLocal(rel) {
		return rel
	}
	return path
}

func printOpen(w io.Writer, all []outcome) {
	var paths []string
	for _, o := range all {
		if o.report != nil && o.report.Verdict == check.Hold {
			paths = append(paths, o.written...)
		}
	}
	if len(paths) == 0 {
		for _, o := range all {
			paths = append(paths, o.written...)
		}
	}
	if len(paths) == 0 {
		return
	}
	fmt.Fprintln(w, "\nOpen, at the tab \"dryfit\":")
	for i, p := range paths {
		if i == mostTold {
			fmt.Fprintf(w, "  and %d more\n", len(paths)-mostTold)
			break
		}
		fmt.Fprintf(w, "  %s\n", filepath.ToSlash(near(p)))
	}
}
