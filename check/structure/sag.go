package structure

import (
	"fmt"

	"dryfit/check"
)

// Sag asks how far a shelf bends: at once against the limit of the standard, and after
// years against what the eye sees. The coefficients K and Kp come from a stiffness solver
// over the supports the shelf really has; the bound B beside them is the plain formula.
var Sag = &check.Check{
	ID:      "structure.sag",
	Asks:    "Does the shelf stay straight, at once and after years?",
	Costs:   "shelves that hang, doors that no longer close over them, a job taken back",
	Applies: "every shelf and seat whose length, width, thickness and material can be read",
	Inputs: []check.Input{
		{Symbol: "L", Name: "longest bay", Unit: check.Length},
		{Symbol: "b", Name: "depth front to back", Unit: check.Length},
		{Symbol: "t", Name: "thickness", Unit: check.Length},
		{Symbol: "E", Name: "stiffness of the material", Unit: check.Pressure},
		{Symbol: "y", Name: "build-up against a solid piece", Unit: check.Ratio},
		{Symbol: "K", Name: "sag coefficient, even load", Unit: check.Ratio},
		{Symbol: "q", Name: "load along the shelf", Unit: check.LineLoad},
		{Symbol: "P", Name: "load in the middle", Unit: check.Force},
		{Symbol: "g", Name: "weight of the material", Unit: check.Density},
		{Symbol: "C", Name: "growth over the years", Unit: check.Ratio},
		{Symbol: "n", Name: "bay over the sag allowed", Unit: check.Ratio},
	},
	Steps: []check.Step{
		{Symbol: "I", Name: "second moment of area", Formula: "b*t^3/12", Unit: check.Inertia},
		{Symbol: "W", Name: "load with own weight", Formula: "q+g*b*t", Unit: check.LineLoad},
		{Symbol: "B", Name: "sag at once, plain shelf of the longest bay (bound)", Formula: "5*W*L^4/(384*E*y*I)+P*L^3/(48*E*y*I)", Unit: check.Length, Aside: true},
		{Symbol: "d", Name: "sag at once", Formula: "K*W*L^4/(E*y*I)+P*L^3/(48*E*y*I)", Unit: check.Film},
		{Symbol: "D", Name: "sag that counts", Formula: "C*d", Unit: check.Length},
		{Symbol: "l", Name: "sag allowed", Formula: "L/n", Unit: check.Length},
		{Symbol: "m", Name: "margin", Formula: "l-D", Unit: check.Length},
	},
	Mends: []check.Mend{
		{Symbol: "t", Order: "make it {} thick", Up: true, Step: 0.25, StepMM: 3, Reach: 16},
		{Symbol: "L", Order: "bring the supports to {} apart", Down: true, Step: 1, StepMM: 25, Reach: 100},
	},
	NoMend: "shorten the bay with an upright, or hold the back edge to the wall",
	Source: []check.Source{
		{Title: "5wL^4/384EI: USDA Wood Handbook FPL-GTR-190 ch. 9", How: "read; constant from memory"},
		{Title: "span/144: AWS 1st ed. 2009 p. 253, 1.2.21", How: "read"},
		{Title: "lasting load times a creep factor: NDS 3.5.2", How: "memory"},
		{Title: "1/32 in per ft at the eye", How: "house rule"},
	},
	Limits:  "Leaves out shear, a back edge held to the wall, a nosing below the panel and twisting at a slot.",
	Until:   check.Released,
	Value:   "D",
	Against: []string{"l"},
	Fails:   "a 3/4 MDF shelf, 12 deep, 40 long, full of books",
	Mended:  "the same 1 1/4 thick, or 28 long",
	Rows:    sagRows,
	Says:    sagSays,
}

func sagSays(r *check.Result) string {
	when := "at once"
	if r.Row.Cause == "for years" {
		when = "after years"
	}
	if r.Verdict == check.Hold {
		return fmt.Sprintf("sags %s %s over %s; %s is allowed", r.Print("D"), when, r.Print("L"), r.Print("l"))
	}
	return fmt.Sprintf("may sag over %s %s across %s, with %s on it", r.Print("l"), when, r.Print("L"), r.Row.Words["load"])
}

func sagRows(j *check.Job) []check.Row {
	limit := j.Standard("limit", "shelf sag", "span over", check.Ratio)
	eye := eyeLimit(j)
	var out []check.Row
	for _, p := range j.Pieces() {
		if p.Role != check.Shelf && p.Role != check.Adjustable {
			continue
		}
		once := sagRow(j, p)
		years := sagRow(j, p)
		once.Cause, years.Cause, years.Most = "at once", "for years", check.Verify
		years.In["C"] = once.In["C"]
		once.In["C"] = check.Exact(1)
		once.In["n"], years.In["n"] = limit, eye
		out = append(out, once, years)
	}
	return out
}

// eyeLimit turns a sag per foot into a bay over a sag.
func eyeLimit(j *check.Job) check.Value {
	e, ok := j.Shop.Find("limit", "shelf sag", "at the eye")
	if !ok || e.Nominal == 0 {
		return check.Missing(check.Ask{What: "limit, shelf sag, at the eye in the standards"})
	}
	v := check.Exact(12 / e.Nominal)
	v.Why = e.From + ": " + e.Name()
	return v
}

func sagRow(j *check.Job, p *check.Part) check.Row {
	s := stuffOf(j, p)
	l := loadOn(j, p)
	r := check.Row{Case: p.Case.Text, Marks: []string{p.Name()}, Name: p.Name(), Count: int(p.Qty.Nominal),
		Cells: []check.Cell{p.Thickness.From, p.Length.From}, Words: map[string]string{"load": l.word}}
	if r.Cells[0] == (check.Cell{}) {
		r.Cells[0] = p.Row
	}
	bay, k := bayOf(j, p)
	r.In = map[string]check.Value{"L": bay, "b": ask(p.Width, p, "width"), "t": ask(p.Thickness, p, "thickness"),
		"E": s.E, "y": s.build, "K": k, "q": l.line, "P": l.point, "g": s.density, "C": s.creep}
	return r
}

// ask names the cell to fill when a size is missing.
func ask(v check.Value, p *check.Part, field string) check.Value {
	if !v.Known {
		v.Ask.What = "the " + field
		if v.Ask.Cell == (check.Cell{}) {
			v.Ask.Cell = p.Row
		}
	}
	return v
}

// bayOf is the longest bay of a shelf and the sag coefficient of the whole. A plain shelf
// spans its own length, so the bay is the cell in which that was typed.
func bayOf(j *check.Job, p *check.Part) (bay, k check.Value) {
	if !p.Length.Known || p.Length.Nominal <= 0 {
		v := ask(check.Value{Ask: p.Length.Ask}, p, "length")
		return v, v
	}
	s, err := spanOf(j, p)
	if err != nil {
		v := check.Missing(check.Ask{Cell: p.Row, What: "positions of the uprights that lie on the shelf: " + err.Error()})
		return v, v
	}
	k = check.Exact(s.k)
	k.Why = "stiffness method: " + s.how
	if s.longest == p.Length.Nominal {
		return p.Length, k
	}
	bay = check.Exact(s.longest)
	bay.Why = fmt.Sprintf("%s over %s", j.Len(p.Length.Nominal), s.how)
	return bay, k
}
