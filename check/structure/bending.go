package structure

import (
	"fmt"

	"dryfit/check"
)

// Bending asks whether a shelf breaks: the stress at the worst place and at the worst slot,
// against the modulus of rupture divided as panels and clear wood are for use. The moment
// coefficients come from the stiffness solver; the bound B beside them is the plain formula
// of the longest bay, which no run of bays passes.
var Bending = &check.Check{
	ID:      "structure.bending",
	Asks:    "Is the shelf strong enough, at its slots as well as in the middle of a bay?",
	Costs:   "a shelf that breaks with what stands on it, and on whoever stands below",
	Applies: "every shelf and seat whose sizes and material can be read",
	Inputs: []check.Input{
		{Symbol: "L", Name: "longest bay", Unit: check.Length},
		{Symbol: "b", Name: "panel front to back", Unit: check.Length},
		{Symbol: "t", Name: "thickness", Unit: check.Length},
		{Symbol: "y", Name: "stress in the worst layer against a solid piece", Unit: check.Ratio},
		{Symbol: "q", Name: "load along the shelf", Unit: check.LineLoad},
		{Symbol: "g", Name: "weight of the material", Unit: check.Density},
		{Symbol: "K", Name: "moment coefficient, even load", Unit: check.Ratio},
		{Symbol: "P", Name: "person in the middle of a bay", Unit: check.Force},
		{Symbol: "p", Name: "moment coefficient, person", Unit: check.Ratio},
		{Symbol: "N", Name: "uprights that stand on it", Unit: check.Force},
		{Symbol: "o", Name: "moment coefficient, uprights that stand on it", Unit: check.Ratio},
		{Symbol: "a", Name: "depth of the worst slot", Unit: check.Length},
		{Symbol: "k", Name: "moment coefficient at the slot, even load", Unit: check.Ratio},
		{Symbol: "w", Name: "moment coefficient at the slot, person", Unit: check.Ratio},
		{Symbol: "R", Name: "modulus of rupture", Unit: check.Pressure},
		{Symbol: "d", Name: "divided by, for use", Unit: check.Ratio},
		{Symbol: "C", Name: "factor of load duration", Unit: check.Ratio},
		{Symbol: "u", Name: "share of the limit below which nothing is said", Unit: check.Ratio},
	},
	Steps: []check.Step{
		{Symbol: "W", Name: "load with own weight", Formula: "q+g*b*t", Unit: check.LineLoad},
		{Symbol: "M", Name: "largest moment", Formula: "K*W*L^2+p*P*L+o*N*L", Unit: check.Moment},
		{Symbol: "B", Name: "moment, plain shelf of the longest bay (bound)", Formula: "W*L^2/8+(P+N)*L/4", Unit: check.Moment, Aside: true},
		{Symbol: "Q", Name: "moment at the worst slot", Formula: "k*W*L^2+w*P*L+IF(k>0,o,0)*N*L", Unit: check.Moment},
		{Symbol: "n", Name: "width left at the slot", Formula: "b-a", Unit: check.Length},
		{Symbol: "f", Name: "stress", Formula: "y*6*M/(b*t^2)", Unit: check.Pressure},
		{Symbol: "s", Name: "stress at the slot", Formula: "y*6*Q/(n*t^2)", Unit: check.Pressure},
		{Symbol: "S", Name: "largest stress", Formula: "MAX(f,s)", Unit: check.Pressure},
		{Symbol: "A", Name: "stress allowed", Formula: "R/d*C", Unit: check.Pressure},
		{Symbol: "z", Name: "room below half the limit", Formula: "u-S/A", Unit: check.Ratio, Aside: true},
		{Symbol: "m", Name: "margin, as a share of what is allowed", Formula: "1-S/A", Unit: check.Ratio},
	},
	Mends: []check.Mend{
		{Symbol: "t", Order: "make it {} thick", Up: true, Step: 0.25, StepMM: 3, Reach: 16},
		{Symbol: "a", Order: "cut the slots only {} deep", Down: true, Step: 0.25, StepMM: 5, Reach: 64, Least: some},
		{Symbol: "L", Order: "bring the supports to {} apart", Down: true, Step: 1, StepMM: 25, Reach: 100},
	},
	NoMend: "shorten the bay with an upright, or cut the slots into the uprights instead",
	Source: []check.Source{
		{Title: "6M/bt^2; at a slot the width that is left: textbook", How: "memory"},
		{Title: "runs of bays: stiffness method, every bay loaded or not", How: "memory"},
		{Title: "strength of clear wood: USDA Wood Handbook FPL-GTR-190 Table 5-3b, divided as ASTM D245", How: "memory"},
		{Title: "panels: ANSI A208.1 and A208.2 test values divided by 4", How: "house rule"},
		{Title: "load duration: NDS 2018 Table 2.3.2", How: "read, second hand"},
	},
	Limits:  "Leaves out a strip along the front, twisting at a one-sided slot and the pinch of stress in its corners. Counts a slot as empty, whatever fills it.",
	Until:   check.Released,
	Under:   "structure.sag",
	Quiet:   "z",
	Value:   "S",
	Against: []string{"A"},
	Fails:   "a 3/4 particleboard shelf, 10 deep, 60 long, with 60 lb/ft on it",
	Mended:  "the same 2 1/2 thick",
	Rows:    bendingRows,
	Says:    bendingSays,
}

func bendingSays(r *check.Result) string {
	where := "over " + r.Print("L")
	if r.Values["s"] > r.Values["f"] {
		where = "at the slot, with " + r.Print("n") + " left"
	}
	over := ""
	if names := r.Row.Words["above"]; names != "" {
		over = " under " + names
	}
	if r.Verdict == check.Hold {
		return fmt.Sprintf("is overloaded%s %s: %s what is allowed", over, where, howMuch(r.Values["S"]/r.Values["A"]))
	}
	return fmt.Sprintf("may be too weak%s %s, with %s on it", over, where, r.Row.Words["load"])
}

func bendingRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, s := range shelves(j) {
		out = append(out, bendingRow(s))
	}
	return out
}

func bendingRow(s *shelf) check.Row {
	p := s.part
	r := rowOf(p, p.Thickness, p.Length)
	r.Words["load"], r.Words["above"] = s.load.word, list(s.above.names)
	r.Cause = "bending"
	rupture, divided := s.strength()
	r.In = map[string]check.Value{
		"L": s.span.bay, "b": s.width, "t": ask(p.Thickness, p, "thickness"), "y": s.stuff.stress,
		"q": s.load.line, "g": s.stuff.density, "K": s.span.moment,
		"P": s.load.point, "p": s.span.pointMoment, "N": s.above.total, "o": s.above.moment,
		"a": s.span.slotDepth, "k": s.span.slotMoment, "w": s.span.slotPoint,
		"R": rupture, "d": divided, "C": duration(s.job, s.load.word), "u": quiet(s.job),
	}
	return r
}

// strength is the modulus of rupture and what it is divided by for use.
func (s *shelf) strength() (rupture, divided check.Value) {
	if !s.stuff.known {
		return s.stuff.E, check.Exact(1)
	}
	rupture = ofMaterial(s.job, s.stuff.material, "modulus of rupture", check.Pressure)
	return rupture, dividedBy(s.job, s.stuff)
}

// dividedBy is the safety between a tested strength and its use.
func dividedBy(j *check.Job, s stuff) check.Value {
	item := "panel test value"
	if s.material.Solid() {
		item = "clear wood"
	}
	return j.Standard("limit", item, "divided by", check.Ratio)
}
