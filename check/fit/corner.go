package fit

import (
	"fmt"

	"dryfit/check"
)

// Corner asks whether the round that a cutter leaves in the corners of a slot lets the part
// seat on its bottom. The edge of the part is eased; where it is eased less than the cutter's
// radius, the two arcs touch before the part is home, and it stands off. One answer a job, for
// the tightest lap.
var Corner = &check.Check{
	ID:      "fit.corner",
	Asks:    "Does the round a cutter leaves in a slot let the eased edge seat?",
	Costs:   "every joint in the job a sixteenth short of home, and files on site",
	Applies: "the tightest lap or notch of a job, once",
	Inputs: []check.Input{
		{Symbol: "R", Name: "radius that the cutter leaves", Unit: check.Length},
		{Symbol: "r", Name: "edges eased by", Unit: check.Length},
		{Symbol: "c", Name: "clearance after finish, tightest lap", Unit: check.Film},
		{Symbol: "h", Name: "may stand off by", Unit: check.Length},
	},
	Steps: []check.Step{
		{Symbol: "q", Name: "round left over the easing", Formula: "MAX(0,R-r)", Unit: check.Length},
		{Symbol: "g", Name: "clearance at one side, within the round", Formula: "MIN(q,MAX(0,c)/2)", Unit: check.Film},
		{Symbol: "y", Name: "stands off by", Formula: "q-SQRT(q^2-(q-g)^2)", Unit: check.Film},
		{Symbol: "m", Name: "margin", Formula: "h-y", Unit: check.Film},
	},
	Mends: []check.Mend{
		{Symbol: "r", Order: "ease the edges that seat by {}", Up: true},
		{Symbol: "R", Order: "clear the corners with a cutter of radius {}", Down: true, Least: 1e-6},
	},
	NoMend:  "square the corners, or drill them out",
	Source:  []check.Source{{Title: "two tangent arcs", How: "common practice"}},
	Limits:  "Takes the slot as routed and the clearance as shared between both sides.",
	Until:   check.Released,
	Value:   "y",
	Against: []string{"h"},
	Fails:   "a lap with .006 to spare, its edges eased 1/16, in a slot of a 1/4 cutter",
	Mended:  "the same with .027 to spare",
	Rows:    cornerRows,
	Says: func(r *check.Result) string {
		return fmt.Sprintf("cutter leaves a radius of %s, edges eased %s: stands %s off the bottom", r.Print("R"), r.Print("r"), check.Length.Print(r.Values["y"], r.Job.Unit))
	},
}

func cornerRows(j *check.Job) []check.Row {
	var tight *passage
	least := 0.0
	for _, p := range passages(j) {
		c, ok := p.nominal()
		if !ok || !laps(p.joint.Kind) && p.joint.Kind != check.Notch || c <= 0 {
			continue // what binds by itself is told by fit.joint
		}
		if tight == nil || c < least {
			tight, least = &p, c
		}
	}
	if tight == nil {
		return nil
	}
	r := tight.row()
	r.Name, r.Cause, r.Most, r.Count = tight.name, "corner", check.Verify, 0
	r.In = map[string]check.Value{
		"R": settled(j.Standard("cutting", "router corner", "radius", check.Length)),
		"r": settled(j.Standard("cutting", "edge", "eased by", check.Length)),
		"c": because(check.Exact(least), "worked out in fit.joint, at its nominals"),
		"h": settled(j.Standard("fit", "lap", "reveal off", check.Length)),
	}
	return []check.Row{r}
}
