package fit

import (
	"fmt"

	"dryfit/check"
)

// Ease lists the laps that will want easing on site, and how much. It looks at the tight end
// of what leaves the shop, two sigma from the middle: what is missing there comes off the
// leading edge, half from each face, and a lead-in bevel takes up the error of the places. It
// speaks only where sanding would go through the paint or no bevel is enough: then cutting
// the slot wider now is cheaper. What it says stands under fit.joint; the list is for the
// people who install.
var Ease = &check.Check{
	ID:      "fit.ease",
	Asks:    "Which laps will want easing on site, by how much, and is a wider slot cheaper now?",
	Costs:   "finished faces sanded through on site",
	Applies: "every cross lap and notched lap whose slot width is typed",
	Inputs: inputsAnd(
		check.Input{Symbol: "u", Name: "spread from joint to joint (of three joints, two are within it)", Unit: check.Film},
		check.Input{Symbol: "e", Name: "spread of the places (of three places, two are within it)", Unit: check.Film},
		check.Input{Symbol: "B", Name: "bevel that a leading edge takes", Unit: check.Length},
		check.Input{Symbol: "w", Name: "bare wood that sanding may take", Unit: check.Film},
	),
	Steps: stepsAnd(
		check.Step{Symbol: "x", Name: "off each face of the leading edge", Formula: "MAX(0,2*u-c)/2", Unit: check.Film},
		check.Step{Symbol: "q", Name: "lead-in bevel wanted", Formula: "MAX(0,2*e-c/2)", Unit: check.Film},
		check.Step{Symbol: "a", Name: "what sanding may take", Formula: "IF(f>0,f,w)", Unit: check.Film},
		check.Step{Symbol: "m", Name: "margin", Formula: "MIN(a-x,B-q)", Unit: check.Film},
	),
	Mends:   []check.Mend{{Symbol: "s", Order: "cut the slot {} now, cheaper than easing", Up: true}},
	NoMend:  "wax the slots and bevel the leading edges; paint that is soft sticks in a snug lap",
	Source:  []check.Source{clearanceSource, {Title: "easing: two sigma of the joint, bevel for the error of the places", How: "house rule"}},
	Limits:  "Reckons with the middle of what nobody measured. Paint under a week old sticks in any snug lap.",
	Until:   check.Finished,
	Under:   "fit.joint",
	Value:   "x",
	Against: []string{"a"},
	Fails:   "a painted lap with the slot cut to the bare part",
	Mended:  "the slot cut 1/32 wider",
	Rows:    easeRows,
	Says:    easeSays,
	Way:     easeWay,
}

func easeSays(r *check.Result) string {
	switch {
	case r.Values["x"] > r.Values["a"]:
		return fmt.Sprintf("wants %s off each face of the leading edge: that sands through the finish", r.Print("x"))
	case r.Values["x"] > 0:
		return fmt.Sprintf("take %s off each face of the leading edge, and wax", r.Print("x"))
	case r.Values["q"] > 0:
		return fmt.Sprintf("bevel the leading edge by %s", r.Print("q"))
	}
	return "goes on without easing"
}

// easeWay offers no cut where the parts are in their finish already.
func easeWay(r *check.Result) string {
	if r.Job.Stage >= check.Finished {
		return r.Check.NoMend
	}
	return ""
}

func easeRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, p := range passages(j) {
		if !laps(p.joint.Kind) || !p.slot.Known {
			continue
		}
		r := p.row()
		r.Cause, r.Most = p.cause+" ease", check.Verify
		r.In["u"] = p.sigma()
		r.In["e"] = settled(j.Standard("spread", "slot pitch", "CNC, 1 sigma", check.Film))
		r.In["B"] = settled(j.Standard("cutting", "lead-in", "bevel", check.Length))
		r.In["w"] = because(check.Exact(j.PerInch()/64), "house rule: 1/64 in of bare wood")
		out = append(out, r)
	}
	return out
}
