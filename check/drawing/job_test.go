package drawing

import (
	"fmt"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

// job is a job in inches of some parts, all of one case without a name.
func job(parts ...*check.Part) *check.Job {
	j := &check.Job{Name: "Test", Unit: length.Inch, Shop: standard.BuiltIn(), Parts: parts}
	for i, p := range parts {
		p.Row, p.Unit = check.Cell{Book: "b.xlsx", Tab: "Parts", Addr: fmt.Sprintf("A%d", i+2)}, length.Inch
	}
	return j
}

// part is a row of a schedule: mark, role, pieces, length, width, thickness.
func part(mark string, role check.Role, n, l, w, t float64) *check.Part {
	return &check.Part{Mark: check.Text{Text: mark}, Role: role, Qty: check.Exact(n), Material: check.Text{Text: "MDF"},
		Length: check.Exact(l), Width: check.Exact(w), Thickness: check.Exact(t)}
}

func note(p *check.Part, text string) *check.Part { p.Note.Text = text; return p }

// cabinet is 72 wide and 48 high, with one upright in the middle and a shelf on each side.
func cabinet() *check.Job {
	return job(part("A", check.Side, 2, 48, 12, .75), note(part("B", check.Deck, 2, 70.5, 12, .75), "between sides"),
		part("C", check.Upright, 1, 46.5, 12, 1.5), part("D", check.Shelf, 2, 34.5, 11, .75))
}

func found(v check.Verdict, id string, marks ...string) *check.Finding {
	return &check.Finding{ID: id, Verdict: v, Marks: marks}
}

func report(j *check.Job, fs ...*check.Finding) *check.Report {
	return &check.Report{Job: j, Findings: fs}
}

// of are the shapes of one form and mark.
func of(d Drawing, form Form, mark string) []Shape {
	var out []Shape
	for _, s := range d.Shapes {
		if s.Form == form && s.Mark == mark {
			out = append(out, s)
		}
	}
	return out
}

func only[T any](list []T) T {
	if len(list) != 1 {
		panic(fmt.Sprintf("%d where one is wanted", len(list)))
	}
	return list[0]
}
