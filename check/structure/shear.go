package structure

import (
	"fmt"

	"dryfit/check"
)

// Shear asks whether a shelf shears off: where it is held up, at a tongue or a rabbet that
// leaves less of its thickness there, and at a slot that leaves less of its width.
var Shear = &check.Check{
	ID:      "structure.shear",
	Asks:    "Does the shelf hold where it is notched and where it is held up?",
	Costs:   "an end that splits off along its tongue, and a shelf on the floor",
	Applies: "every shelf and seat whose sizes and material can be read",
	Inputs: []check.Input{
		{Symbol: "L", Name: "longest bay", Unit: check.Length},
		{Symbol: "b", Name: "panel front to back", Unit: check.Length},
		{Symbol: "t", Name: "thickness", Unit: check.Length},
		{Symbol: "a", Name: "cut off the thickness at the end", Unit: check.Length},
		{Symbol: "s", Name: "depth of the worst slot", Unit: check.Length},
		{Symbol: "q", Name: "load along the shelf", Unit: check.LineLoad},
		{Symbol: "g", Name: "weight of the material", Unit: check.Density},
		{Symbol: "K", Name: "shear coefficient, even load", Unit: check.Ratio},
		{Symbol: "P", Name: "person, or uprights that stand on it", Unit: check.Force},
		{Symbol: "F", Name: "shear strength in use", Unit: check.Pressure},
		{Symbol: "C", Name: "factor of load duration", Unit: check.Ratio},
		{Symbol: "u", Name: "share of the limit below which nothing is said", Unit: check.Ratio},
	},
	Steps: []check.Step{
		{Symbol: "W", Name: "load with own weight", Formula: "q+g*b*t", Unit: check.LineLoad},
		{Symbol: "V", Name: "largest shear, the person beside a support", Formula: "K*W*L+P", Unit: check.Force},
		{Symbol: "B", Name: "shear, plain shelf of the longest bay", Formula: "W*L/2+P", Unit: check.Force, Aside: true},
		{Symbol: "e", Name: "thickness left at the end", Formula: "t-a", Unit: check.Length},
		{Symbol: "n", Name: "width left at the slot", Formula: "b-s", Unit: check.Length},
		{Symbol: "A", Name: "shear the notched end takes", Formula: "2/3*F*C*b*e*(e/t)^2", Unit: check.Force},
		{Symbol: "S", Name: "shear the slotted width takes", Formula: "2/3*F*C*n*t", Unit: check.Force},
		{Symbol: "T", Name: "shear it takes", Formula: "MIN(A,S)", Unit: check.Force},
		{Symbol: "z", Name: "room below half the limit", Formula: "u-V/T", Unit: check.Ratio, Aside: true},
		{Symbol: "m", Name: "margin, as a share of what it takes", Formula: "1-V/T", Unit: check.Ratio},
	},
	Mends: []check.Mend{
		{Symbol: "a", Order: "cut only {} off the thickness at the end", Down: true, Step: 0.0625, StepMM: 1, Reach: 64, Least: some},
		{Symbol: "s", Order: "cut the slots only {} deep", Down: true, Step: 0.25, StepMM: 5, Reach: 64, Least: some},
		{Symbol: "t", Order: "make it {} thick", Up: true, Step: 0.25, StepMM: 3, Reach: 16},
	},
	NoMend: "carry the end on a cleat under its full thickness",
	Source: []check.Source{
		{Title: "2/3*Fv*b*dn*(dn/d)^2: NDS 3.4.3.2, notch on the tension side at a support", How: "memory"},
		{Title: "rolling shear of panels, clear wood by a tenth", How: "house rule"},
	},
	Limits:  "NDS lets no notch take more than a quarter of the depth at a support; below that the figure is only an order. Leaves out a split that a knot begins.",
	Until:   check.Released,
	Under:   "structure.sag",
	Quiet:   "z",
	Value:   "V",
	Against: []string{"T"},
	Fails:   "a 1 1/2 MDF seat with tongues 1/4 thick at its ends and a person on it",
	Mended:  "the tongues 1 1/4 thick",
	Rows:    shearRows,
	Says:    shearSays,
}

func shearSays(r *check.Result) string {
	where := "at the end"
	left := r.Print("e") + " of " + r.Print("t") + " thick"
	if r.Values["S"] < r.Values["A"] {
		where, left = "at the slot", r.Print("n")+" of "+r.Print("b")+" wide"
	}
	verb := "may shear off"
	if r.Verdict == check.Hold {
		verb = "shears off"
	}
	return fmt.Sprintf("%s %s, %s: %s on it, %s what is allowed", verb, where, left, r.Print("V"), howMuch(r.Values["V"]/r.Values["T"]))
}

func shearRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, s := range shelves(j) {
		out = append(out, shearRow(s))
	}
	return out
}

func shearRow(s *shelf) check.Row {
	p := s.part
	r := rowOf(p, p.Thickness)
	r.Cause = "shear"
	t := ask(p.Thickness, p, "thickness")
	cut := s.cutAtEnd(t)
	if cut.From != (check.Cell{}) {
		r.Cells = append([]check.Cell{cut.From}, r.Cells...)
	}
	r.In = map[string]check.Value{
		"L": s.span.bay, "b": s.width, "t": t, "a": cut, "s": s.span.slotDepth,
		"q": s.load.line, "g": s.stuff.density, "K": s.span.shear, "P": s.pressing(),
		"F": s.shearStrength(), "C": duration(s.job, s.load.word), "u": quiet(s.job),
	}
	return r
}

// pressing is what stands in one place: a person, and uprights that stand on the part.
func (s *shelf) pressing() check.Value {
	p := s.load.point
	if !p.Known || s.above.total.Nominal == 0 {
		return p
	}
	n := s.above.total.Nominal
	p.Low, p.Nominal, p.High = p.Low+n, p.Nominal+n, p.High+n
	return p
}

// cutAtEnd is what a dado or rabbet takes off the thickness of the part that goes in.
func (s *shelf) cutAtEnd(t check.Value) check.Value {
	for _, m := range jointsOf(s.job, s.part) {
		switch m.joint.Kind {
		case check.Dado, check.Groove, check.Rabbet:
			cut := m.joint.DepthOf
			if !m.slotted && cut.Known && cut.Nominal > 0 && cut.Nominal < t.Nominal {
				return cut
			}
		}
	}
	return why(check.Exact(0), "no joint cuts into its end")
}

// shearStrength is what the material takes in shear: for panels a figure for use, for solid
// wood a share of that of clear wood, and of its bending strength where nothing else is known.
func (s *shelf) shearStrength() check.Value {
	if !s.stuff.known {
		return s.stuff.E
	}
	if v := ofMaterial(s.job, s.stuff.material, "shear in use", check.Pressure); v.Known {
		return v
	}
	share := s.job.Standard("limit", "clear wood in shear", "divided by", check.Ratio)
	if v := ofMaterial(s.job, s.stuff.material, "shear along grain", check.Pressure); v.Known {
		return over(v, share)
	}
	v := ofMaterial(s.job, s.stuff.material, "modulus of rupture", check.Pressure)
	tenth := s.job.Standard("limit", "shear along grain", "share of modulus of rupture", check.Ratio)
	return over(times(v, tenth), share)
}

// over is a guess divided by another, both at their ends.
func over(a, b check.Value) check.Value {
	if !a.Known || !b.Known {
		return a
	}
	return check.Guess(a.Low/b.High, a.Nominal/b.Nominal, a.High/b.Low, a.Why+"; "+b.Why)
}

// times is a guess times another, both at their ends.
func times(a, b check.Value) check.Value {
	if !a.Known || !b.Known {
		return a
	}
	return check.Guess(a.Low*b.Low, a.Nominal*b.Nominal, a.High*b.High, a.Why+"; "+b.Why)
}
