package structure

import (
	"fmt"

	"dryfit/check"
)

// Sag asks how far a shelf bends: at once under the load of the standard against its limit,
// and after years under the load that really stands there against what the eye sees.
//
// The coefficients K, p and o come from a stiffness solver over the supports the shelf has;
// the bound B beside them is the plain formula of the longest bay, which no unslotted run of
// bays reaches. A strip along the front counts down to the underside of the panel, and all of it
// where the shelf cannot turn. Where the back edge is screwed to the wall, the front carries
// half the load, on the strip, a third of the panel and what the panel opposes to twisting.
var Sag = &check.Check{
	ID:      "structure.sag",
	Asks:    "Does the shelf stay straight, at once and after years?",
	Costs:   "shelves that hang, doors that no longer close over them, a job taken back",
	Applies: "every shelf and seat whose length, width, thickness and material can be read",
	Inputs: []check.Input{
		{Symbol: "L", Name: "longest bay", Unit: check.Length},
		{Symbol: "b", Name: "panel front to back", Unit: check.Length},
		{Symbol: "t", Name: "thickness", Unit: check.Length},
		{Symbol: "E", Name: "stiffness of the material", Unit: check.Pressure},
		{Symbol: "y", Name: "build-up against a solid piece", Unit: check.Ratio},
		{Symbol: "s", Name: "stiffness over shear stiffness", Unit: check.Ratio},
		{Symbol: "e", Name: "stiffness of the strip", Unit: check.Pressure},
		{Symbol: "a", Name: "strip front to back", Unit: check.Length},
		{Symbol: "c", Name: "strip top to bottom", Unit: check.Length},
		{Symbol: "h", Name: "share of the strip below the panel that counts", Unit: check.Ratio},
		{Symbol: "v", Name: "back edge screwed to the wall, 1 or 0", Unit: check.Count},
		{Symbol: "K", Name: "sag coefficient, even load", Unit: check.Ratio},
		{Symbol: "q", Name: "load along the shelf", Unit: check.LineLoad},
		{Symbol: "g", Name: "weight of the material", Unit: check.Density},
		{Symbol: "p", Name: "sag coefficient, person", Unit: check.Ratio},
		{Symbol: "P", Name: "person in the middle of a bay", Unit: check.Force},
		{Symbol: "o", Name: "sag coefficient, uprights that stand on it", Unit: check.Ratio},
		{Symbol: "N", Name: "uprights that stand on it", Unit: check.Force},
		{Symbol: "C", Name: "growth over the years", Unit: check.Ratio},
		{Symbol: "n", Name: "bay over the sag allowed", Unit: check.Ratio},
		{Symbol: "u", Name: "share of the limit below which nothing is said", Unit: check.Ratio},
	},
	Steps: []check.Step{
		{Symbol: "k", Name: "depth of strip that counts", Formula: "MIN(c,t)+h*MAX(0,c-t)", Unit: check.Length},
		{Symbol: "Z", Name: "strip, pull per stretch", Formula: "e*a*k", Unit: check.Force},
		{Symbol: "A", Name: "panel, pull per stretch", Formula: "E*b*t", Unit: check.Force},
		{Symbol: "S", Name: "bending stiffness, panel and strip glued", Formula: "E*y*b*t^3/12+e*a*k^3/12+A*Z/(A+Z)*((k-t)/2)^2", Unit: check.Stiffness},
		{Symbol: "H", Name: "bending stiffness of the front, back held", Formula: "E*y*b*t^3/36+e*a*k^3/12+A/4*Z/(A/4+Z)*((k-t)/2)^2+E/s*t^3*L^2/(3*b*PI()^2)", Unit: check.Stiffness},
		{Symbol: "r", Name: "share of the sag that holding the back leaves", Formula: "1-v*(1-MIN(1,S/(2*H)))", Unit: check.Ratio},
		{Symbol: "W", Name: "load with own weight", Formula: "q+g*(b*t+a*c)", Unit: check.LineLoad},
		{Symbol: "B", Name: "sag at once, plain shelf of the longest bay, unslotted (bound)", Formula: "5*W*L^4/(384*S)+(P+N)*L^3/(48*S)", Unit: check.Length, Aside: true},
		{Symbol: "x", Name: "what shear adds, lasting loads", Formula: "1.2*s*(W*L^2/8+N*L/4)/(E*b*t)", Unit: check.Length},
		{Symbol: "X", Name: "what shear adds, person", Formula: "1.2*s*P*L/4/(E*b*t)", Unit: check.Length},
		{Symbol: "f", Name: "sag at once, lasting loads", Formula: "r*(K*W*L^4+o*N*L^3)/S+x", Unit: check.Length},
		{Symbol: "F", Name: "sag at once, person", Formula: "r*p*P*L^3/S+X", Unit: check.Length},
		{Symbol: "D", Name: "sag that counts", Formula: "C*f+F", Unit: check.Length},
		{Symbol: "l", Name: "sag allowed", Formula: "L/n", Unit: check.Length},
		{Symbol: "z", Name: "room below half the limit", Formula: "u*l-D", Unit: check.Length, Aside: true},
		{Symbol: "m", Name: "margin", Formula: "l-D", Unit: check.Length},
	},
	Mends: []check.Mend{
		{Symbol: "t", Order: "make it {} thick", Up: true, Step: 0.25, StepMM: 3, Reach: 8},
		{Symbol: "L", Order: "bring the supports to {} apart", Down: true, Step: 1, StepMM: 25, Reach: 100, Share: 1.0 / 3},
	},
	NoMend: "shorten the bay with an upright, or screw the back edge to the wall and hang a strip under the front",
	Ways: map[string]string{
		"h": "screw the back edge to the wall, or house both ends, so that the strip below cannot turn away",
		"v": "screw the back edge to a cleat on the wall",
	},
	Source: []check.Source{
		{Title: "5wL^4/384EI, shear part 1.2wL^2/8GA: USDA Wood Handbook FPL-GTR-190 ch. 9", How: "read; constants from memory"},
		{Title: "runs of bays: stiffness method, every bay loaded or not", How: "memory"},
		{Title: "transformed section of panel and strip", How: "memory"},
		{Title: "back held: energy of a plate on three edges, S. Timoshenko, Theory of Plates and Shells", How: "memory"},
		{Title: "span/144 at the standard's load, at most 200 lb a shelf: AWS 1st ed. 2009 p. 253, 1.2.21", How: "read"},
		{Title: "lasting load times a creep factor: NDS 3.5.2", How: "memory"},
		{Title: "1/32 in per ft at the eye", How: "house rule"},
	},
	Limits:  "A slot softens the shelf over its own width and the smaller of what is cut and what is left (house rule); one deeper than two thirds of the width sags more. Takes layers and strips as glued, supports as holding down as well as up, and uprights as bearing over the whole depth.",
	Until:   check.Released,
	Quiet:   "z",
	Value:   "D",
	Against: []string{"l"},
	Fails:   "a 3/4 MDF shelf, 12 deep, 40 long, full of books",
	Mended:  "the same 2 1/4 thick and 32 long",
	Rows:    sagRows,
	Says:    sagSays,
	Way:     sagWay,
}

const forYears = "sag after years"

func sagSays(r *check.Result) string {
	when := "at once"
	if r.Row.Cause == forYears {
		when = "after years"
	}
	if r.Verdict == check.Hold {
		return fmt.Sprintf("sags %s %s over %s; %s is allowed", r.Print("D"), when, r.Print("L"), r.Print("l"))
	}
	load := "with " + r.Row.Words["load"] + " on it"
	if r.Row.Words["load"] == "general" {
		load = "nobody said under what load"
	}
	return fmt.Sprintf("may sag %s %s over %s, %s; %s is allowed", r.Print("D"), when, r.Print("L"), load, r.Print("l"))
}

// sagWay asks first for the load where nobody said it.
func sagWay(r *check.Result) string {
	if r.Row.Words["load"] != "general" || r.Fix == nil || r.Fix.Leaves != "" {
		return ""
	}
	return "say what stands on it, or " + r.Fix.Text
}

func sagRows(j *check.Job) []check.Row {
	limit := settled(j.Standard("limit", "shelf sag", "span over", check.Ratio))
	eye := eyeLimit(j)
	var out []check.Row
	for _, s := range shelves(j) {
		once, years := sagRow(s, s.load.standard), sagRow(s, s.load.line)
		once.Cause, years.Cause, years.Most = "at once", forYears, check.Verify
		once.In["C"], once.In["n"] = check.Exact(1), limit
		years.In["C"], years.In["n"] = s.stuff.creep, eye
		strong := []check.Beside{{Check: Bending, Row: bendingRow(s)}, {Check: Shear, Row: shearRow(s)}}
		once.Beside, years.Beside = append(strong, check.Beside{Row: years}), append(strong, check.Beside{Row: once})
		out = append(out, once, years)
	}
	return out
}

// eyeLimit turns a sag per foot into a bay over a sag.
func eyeLimit(j *check.Job) check.Value {
	e, ok := j.Shop.Find("limit", "shelf sag", "at the eye")
	perLength, err := e.In("1")
	if !ok || err != nil || !(perLength.Nominal > 0) {
		return check.Missing(check.Ask{What: "limit, shelf sag, at the eye in the standards"})
	}
	return why(check.Exact(1/perLength.Nominal), e.From+": "+e.Name())
}

func sagRow(s *shelf, line check.Value) check.Row {
	p := s.part
	r := rowOf(p, p.Thickness, p.Length)
	r.Words["load"] = s.load.word
	r.Folds = "sag"
	r.In = map[string]check.Value{
		"L": s.span.bay, "b": s.width, "t": ask(p.Thickness, p, "thickness"),
		"E": s.stuff.E, "y": s.stuff.build, "s": s.stuff.slip,
		"e": s.stuff.strip.E, "a": s.stuff.strip.thick, "c": s.stuff.strip.deep, "h": s.turning(), "v": s.backHeld(),
		"K": s.span.sag, "q": line, "g": s.stuff.density, "p": s.span.pointSag, "P": s.load.point,
		"o": s.above.sag, "N": s.above.total, "u": quiet(s.job),
	}
	return r
}
