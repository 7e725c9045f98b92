// Package schedule asks whether the part schedule is complete and says one thing, before
// anything is computed from it.
package schedule

import "dryfit/check"

// row starts a row about one part.
func row(p *check.Part, cause string, cells ...check.Cell) check.Row {
	r := check.Row{Case: p.Case.Text, Marks: []string{p.Name()}, Name: p.Name(), Cause: cause,
		In: map[string]check.Value{}, Words: map[string]string{}}
	for _, c := range cells {
		if c != (check.Cell{}) {
			r.Cells = append(r.Cells, c)
		}
	}
	if len(r.Cells) == 0 {
		r.Cells = []check.Cell{p.Row}
	}
	return r
}

// settled is a figure that the shop works by: its nominal, without a range.
func settled(v check.Value) check.Value {
	if !v.Known {
		return v
	}
	return because(check.Exact(v.Nominal), v.Why)
}

// because gives a value its reason.
func because(v check.Value, why string) check.Value {
	v.Why = why
	return v
}
