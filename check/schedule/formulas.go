package schedule

import (
	"fmt"
	"regexp"

	"dryfit/check"
)

// Formulas asks whether a cell that the job needs shows a formula error or was never
// calculated, and whether hidden rows hold parts.
var Formulas = &check.Check{
	ID:      "schedule.formulas",
	Asks:    "Does a cell show a formula error, or does a hidden row hold a part?",
	Costs:   "a quantity of nothing, or a part cut that was dropped",
	Applies: "every cell of a schedule that holds a formula, and every tab of parts",
	Inputs: []check.Input{
		{Symbol: "e", Name: "cells that show an error", Unit: check.Count},
		{Symbol: "h", Name: "hidden rows that hold parts", Unit: check.Count},
	},
	Steps: []check.Step{
		{Symbol: "m", Name: "nothing broken or hidden", Formula: "0-e-h", Unit: check.Count},
	},
	NoMend: "mend the formula, or type the number",
	Source: []check.Source{{Title: "an error value is no number; what is hidden is not read over", How: "common practice"}},
	Limits: "A number typed over a formula is only told by \"dryfit read\".",
	Until:  check.Released,
	Root:   true,
	Value:  "e",
	Fails:  "quantity #DIV/0!",
	Mended: "quantity 2",
	Rows:   formulaRows,
	Says:   func(r *check.Result) string { return r.Row.Words["says"] },
	Way:    func(r *check.Result) string { return r.Row.Words["way"] },
}

var errorValue = regexp.MustCompile(`^#(REF!|DIV/0!|N/A|NAME\?|VALUE!|NULL!|NUM!|SPILL!|CALC!|GETTING_DATA)`)

// broken reports whether a cell that could not be read holds a formula that failed.
func broken(u check.Unread) bool { return u.Formula || errorValue.MatchString(u.Text) }

func formulaRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, u := range j.Unread {
		if u.Wants != "" && broken(u) {
			out = append(out, brokenRow(j, u))
		}
	}
	for _, t := range tabsOf(j) {
		out = append(out, t.hiddenRow())
	}
	return out
}

func brokenRow(j *check.Job, u check.Unread) check.Row {
	r := check.Row{Marks: []string{u.Mark}, Name: u.Mark, Cells: []check.Cell{u.Cell}, Cause: "error in " + u.Wants, Words: map[string]string{}}
	if p := j.Part(u.Mark); p != nil {
		r.Case = p.Case.Text
	}
	if u.Mark == "" {
		r.Name, r.Marks = u.Cell.String(), nil
	}
	r.In = map[string]check.Value{"e": check.Exact(1).At(u.Cell), "h": check.Exact(0)}
	r.Words["says"] = fmt.Sprintf("%s shows %s", u.Wants, u.Text)
	if u.Text == "" {
		r.Words["says"] = u.Wants + " was never calculated"
	}
	return r
}

// tab is a tab of parts.
type tab struct {
	first check.Cell
	parts []*check.Part
}

// tabsOf are the tabs that hold parts, in the order of the job.
func tabsOf(j *check.Job) []tab {
	at := map[[2]string]int{}
	var out []tab
	for _, p := range j.Parts {
		k := [2]string{p.Row.Book, p.Row.Tab}
		i, seen := at[k]
		if !seen {
			i = len(out)
			at[k] = i
			out = append(out, tab{first: p.Row})
		}
		out[i].parts = append(out[i].parts, p)
	}
	return out
}

// hiddenRow counts the hidden rows of a tab.
func (t tab) hiddenRow() check.Row {
	r := check.Row{Name: t.first.Tab, Cells: []check.Cell{t.first}, Cause: "hidden " + t.first.Tab, Most: check.Verify,
		Words: map[string]string{"way": "show the rows, or take them out of the schedule"}}
	for _, p := range t.parts {
		if !p.Hidden {
			continue
		}
		if len(r.Marks) == 0 {
			r.Cells = nil
		}
		r.Marks = append(r.Marks, p.Name())
		r.Cells = append(r.Cells, p.Row)
	}
	n := len(r.Marks)
	r.In = map[string]check.Value{"e": check.Exact(0), "h": check.Exact(float64(n))}
	r.Words["says"] = fmt.Sprintf("%s on hidden rows; are they to be cut?", rowsOfParts(n))
	return r
}

func rowsOfParts(n int) string {
	if n == 1 {
		return "1 part"
	}
	return fmt.Sprintf("%d parts", n)
}
