// Package structure asks whether the load comes down to the floor, for years, without a sag
// that shows and with nothing hanging on a glue line. It supports a person's judgement and
// replaces none: a licensed engineer and the local code decide where people could be hurt.
//
// A case becomes a frame (frame.go): every loaded part a beam over the uprights it crosses,
// with its slots taken out. What the frame cannot know, a bay or a foot, is a guess with its
// range, so that it never stops a cut by itself. Numbers that need the solver enter a check
// as coefficients, beside a plain formula that bounds them.
package structure

import (
	"fmt"
	"math"
	"strings"

	"dryfit/check"
)

// quiet is the share of a limit below which nothing is said.
func quiet(j *check.Job) check.Value {
	return settled(j.Standard("limit", "structure", "quiet below", check.Ratio))
}

// settled is a figure that the shop works by: its nominal, without a range.
func settled(v check.Value) check.Value {
	if !v.Known {
		return v
	}
	s := check.Exact(v.Nominal)
	s.Why = v.Why
	return s
}

// why gives a value its reason.
func why(v check.Value, text string) check.Value {
	v.Why = text
	return v
}

// solved is a number of the stiffness method, with what was solved.
func solved(x float64, what string) check.Value {
	return why(check.Exact(x), "stiffness method: "+what)
}

// ask names the cell to fill when a size is missing, or is none.
func ask(v check.Value, p *check.Part, field string) check.Value {
	if v.Known && v.Low <= 0 {
		v = check.Missing(check.Ask{Cell: v.From})
	}
	if !v.Known {
		v.Ask.What = "the " + field
		if v.Ask.Cell == (check.Cell{}) {
			v.Ask.Cell = p.Row
		}
	}
	return v
}

// rowOf is a row about one part, mended at the cell of one of its sizes.
func rowOf(p *check.Part, at ...check.Value) check.Row {
	r := check.Row{Case: p.Case.Text, Marks: []string{p.Name()}, Name: p.Name(), Count: int(p.Qty.Nominal),
		Words: map[string]string{}}
	for _, v := range at {
		if v.From != (check.Cell{}) {
			r.Cells = append(r.Cells, v.From)
		}
	}
	if len(r.Cells) == 0 {
		r.Cells = []check.Cell{p.Row}
	}
	return r
}

// pieces is how many of a part there are, at least one.
func pieces(p *check.Part) float64 { return math.Max(1, p.Qty.Nominal) }

// list names some things in a sentence: "U1, U2 and 3 more".
func list(names []string) string {
	const most = 2
	if len(names) > most+1 {
		return strings.Join(names[:most], ", ") + fmt.Sprintf(" and %d more", len(names)-most)
	}
	return strings.Join(names, ", ")
}

// some is the least that is offered of a cut: less than any step, and more than none at all.
const some = 0.01

// howMuch writes a use as a sentence speaks of it: "80 % of", "4.5 times", "42 times".
func howMuch(use float64) string {
	switch {
	case use < .995:
		return fmt.Sprintf("%.0f %% of", use*100)
	case use < 1.05:
		return "just over"
	case use < 9.95:
		return fmt.Sprintf("%g times", math.Round(use*10)/10)
	}
	return fmt.Sprintf("%.0f times", use)
}
