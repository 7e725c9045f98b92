package write

import (
	"fmt"
	"strings"

	"dryfit/check"
	"dryfit/check/structure"
)

// mostSteps is how many lines the list of the ways down shows; cases go in whole.
const mostSteps = 150

// paths adds the ways of the loads to the floor, case by case: what comes to each step, what it
// takes, and the use as a live formula. It returns the rows in which a printed page may begin.
func (w *workings) paths() (starts []int) {
	cases := byCase(structure.Paths(w.job))
	if len(cases) == 0 {
		return nil
	}
	starts = append(starts, len(w.Rows)+1)
	head := w.Add(Text("The ways down: what comes to each step, and what it takes", Look{Ink: Ink, Bold: true, Size: 12}))
	w.Heights[head] = 24
	shown := 0
	for i, steps := range cases {
		if shown > 0 && shown+len(steps) > mostSteps {
			w.Add(Text("", PlainLook), Text(left(cases[i:]), PlainLook))
			break
		}
		if shown > 0 {
			starts = append(starts, len(w.Rows)+1)
		}
		w.way(steps)
		shown += len(steps)
	}
	w.Add()
	return starts
}

// byCase parts steps into those of each case, in their order.
func byCase(steps []structure.Step) [][]structure.Step {
	var out [][]structure.Step
	for i, s := range steps {
		if i == 0 || s.Case != steps[i-1].Case {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], s)
	}
	return out
}

func left(cases [][]structure.Step) string {
	most := 0.0
	for _, steps := range cases {
		for _, s := range steps {
			most = max(most, s.Use)
		}
	}
	return fmt.Sprintf("and %d more cases, no step used over %.0f %%", len(cases), most*100)
}

func (w *workings) way(steps []structure.Step) {
	name := steps[0].Case
	if name == "" {
		name = "All parts"
	}
	row := w.Add(Text("", HeadLook), Text(name, HeadLook), Text("Comes", numberHead), Text("Unit", HeadLook), Text("Takes", numberHead), Text("Use", numberHead),
		Text("What gives way first, or why nobody knows", HeadLook))
	w.Tall(row, 0)
	unit := check.Force.In(w.job.Unit)
	for _, s := range steps {
		w.down(s, unit)
	}
}

// down adds one step: the use is what comes over what it takes.
func (w *workings) down(s structure.Step, unit string) {
	row := len(w.Rows) + 1
	number := Look{Ink: Ink, Line: true, Format: "#,##0"}
	takes, use := Text("", BodyLook), Text("", BodyLook)
	if s.Known() {
		look := Look{Ink: Ink, Line: true, Format: "0%"}
		if s.Verdict >= check.Verify {
			look.Fill, look.Ink, look.Bold = Shown(s.Verdict).fill, Shown(s.Verdict).ink, true
		}
		takes = Number(s.Capacity, number)
		use = Cell{Value: s.Use, Formula: At(colValue, row) + "/" + At(colLow, row), Look: look}
	}
	w.Tall(w.Add(Text("", BodyLook), Text(stepName(s), BodyLook), Number(s.Force, number), Text(unit, BodyLook), takes, use, Text(stepWhy(s), BodyLook)), 0)
}

// stepName is what goes where, by what.
func stepName(s structure.Step) string {
	sign := " > "
	if !s.Carries {
		sign = " | "
	}
	return s.From + sign + s.To + ": " + s.By
}

// stepWhy is what governs a step and where that is worked out, or why nobody knows.
func stepWhy(s structure.Step) string {
	var parts []string
	if !s.Carries {
		parts = append(parts, "carries nothing")
	}
	if s.Known() {
		parts = append(parts, s.Governs+", "+s.Check)
	}
	if s.Why != "" {
		parts = append(parts, s.Why)
	}
	if s.Cell.Addr != "" {
		parts = append(parts, s.Cell.String())
	}
	return strings.Join(parts, "; ")
}
