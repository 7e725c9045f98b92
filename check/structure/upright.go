package structure

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"dryfit/check"
)

// Upright asks whether an upright stands under the shelves it carries: as a column between
// shelves that hold it sideways, with the load off its middle, and at its neck. The reaction
// coefficient comes from the stiffness solver and counts the heaviest shelf for all of them.
var Upright = &check.Check{
	ID:      "structure.upright",
	Asks:    "Does the upright stand, between its shelves and at its necks?",
	Costs:   "an upright that bows under the load, or crushes where it is notched",
	Applies: "every upright and side that goes through shelves or carries them in a joint",
	Inputs: []check.Input{
		{Symbol: "h", Name: "clear height between shelves", Unit: check.Length},
		{Symbol: "b", Name: "upright front to back", Unit: check.Length},
		{Symbol: "t", Name: "thickness", Unit: check.Length},
		{Symbol: "a", Name: "cut off the width at the neck", Unit: check.Length},
		{Symbol: "s", Name: "cut off the thickness at the neck, each side", Unit: check.Length},
		{Symbol: "n", Name: "shelves it carries", Unit: check.Count},
		{Symbol: "K", Name: "reaction coefficient of the heaviest", Unit: check.Ratio},
		{Symbol: "W", Name: "load along it with own weight", Unit: check.LineLoad},
		{Symbol: "L", Name: "longest bay of the heaviest", Unit: check.Length},
		{Symbol: "P", Name: "person, uprights over it, its own weight", Unit: check.Force},
		{Symbol: "E", Name: "stiffness of the material", Unit: check.Pressure},
		{Symbol: "j", Name: "share of the stiffness that is sure", Unit: check.Ratio},
		{Symbol: "G", Name: "strength along the upright, in use", Unit: check.Pressure},
		{Symbol: "R", Name: "modulus of rupture, in use", Unit: check.Pressure},
		{Symbol: "C", Name: "factor of load duration", Unit: check.Ratio},
		{Symbol: "o", Name: "load off the middle, share of the thickness", Unit: check.Ratio},
		{Symbol: "u", Name: "share of the limit below which nothing is said", Unit: check.Ratio},
	},
	Steps: []check.Step{
		{Symbol: "N", Name: "load that comes down", Formula: "n*K*W*L+P", Unit: check.Force},
		{Symbol: "T", Name: "the same by half of the bays beside it", Formula: "n*W*L+P", Unit: check.Force, Aside: true},
		{Symbol: "c", Name: "stress", Formula: "N/(b*t)", Unit: check.Pressure},
		{Symbol: "x", Name: "stress at the neck", Formula: "N/((b-a)*(t-2*s))", Unit: check.Pressure},
		{Symbol: "D", Name: "stress at which it would buckle", Formula: "0.822*j*E/(h/t)^2", Unit: check.Pressure},
		{Symbol: "S", Name: "crushing strength", Formula: "G*C", Unit: check.Pressure},
		{Symbol: "v", Name: "buckling over crushing", Formula: "D/S", Unit: check.Ratio},
		{Symbol: "w", Name: "half sum", Formula: "(1+v)/1.6", Unit: check.Ratio},
		{Symbol: "Q", Name: "share of the strength that buckling leaves", Formula: "w-SQRT(w^2-v/0.8)", Unit: check.Ratio},
		{Symbol: "f", Name: "use, straight down", Formula: "c/(S*Q)", Unit: check.Ratio},
		{Symbol: "Z", Name: "stress over buckling stress", Formula: "c/D", Unit: check.Ratio},
		{Symbol: "y", Name: "use, off the middle", Formula: "IF(Z<0.9,f^2+c*6*o*(1+0.234*Z)/(R*C*(1-MIN(Z,0.9))),1+Z)", Unit: check.Ratio},
		{Symbol: "X", Name: "use at the neck, off the middle", Formula: "x/S+x*6*o*t/(t-2*s)/(R*C)", Unit: check.Ratio},
		{Symbol: "U", Name: "use", Formula: "MAX(f,MAX(y,X))", Unit: check.Share},
		{Symbol: "A", Name: "all that it takes", Formula: "1", Unit: check.Ratio},
		{Symbol: "z", Name: "room below half the limit", Formula: "u*A-U", Unit: check.Ratio, Aside: true},
		{Symbol: "m", Name: "margin, as a share of what it takes", Formula: "A-U", Unit: check.Ratio},
	},
	Mends: []check.Mend{
		{Symbol: "s", Order: "notch the sides only {} deep", Down: true, Step: 0.0625, StepMM: 1, Reach: 64, Least: some},
		{Symbol: "a", Order: "cut the slots only {} deep", Down: true, Step: 0.25, StepMM: 5, Reach: 64, Least: some},
		{Symbol: "t", Order: "make it {} thick", Up: true, Step: 0.25, StepMM: 3, Reach: 16},
	},
	NoMend: "set another upright, or hold this one sideways by one more fixed shelf",
	Source: []check.Source{
		{Title: ".822Emin/(le/d)^2 and the stability factor, c 0.8: NDS 3.7.1", How: "read, second hand"},
		{Title: "load off the middle, and the straight use as a second sum: NDS 15.4", How: "memory"},
		{Title: "panels on edge: share of the modulus of rupture", How: "house rule"},
		{Title: "shelves on one face: half the thickness less half the bearing off the middle, statics", How: "common practice"},
	},
	Limits:  "Takes shelves as holding it sideways and a back as not. NDS stops at a height of 50 thicknesses; beyond that the buckling stress is Euler's with the same safety. Leaves out a bowed upright.",
	Until:   check.Released,
	Quiet:   "z",
	Value:   "U",
	Against: []string{"A"},
	Fails:   "a plywood upright 3/4 thick, its sides notched 5/16 each, in the middle of nine shelves of 96 in with 40 lb/ft",
	Mended:  "the same 1 1/2 thick, its sides notched 1/16",
	Rows:    uprightRows,
	Says:    uprightSays,
}

func uprightSays(r *check.Result) string {
	where := "between its shelves, " + r.Print("h") + " clear"
	if r.Values["X"] > r.Values["f"] && r.Values["X"] > r.Values["y"] {
		where = "at its neck, " + r.Job.Len(r.Values["t"]-2*r.Values["s"]) + " by " + r.Job.Len(r.Values["b"]-r.Values["a"])
	}
	if r.Verdict == check.Hold {
		return fmt.Sprintf("gives way %s under %s: %s what it holds", where, r.Print("N"), howMuch(r.Values["U"]))
	}
	return fmt.Sprintf("may give way %s under %s", where, r.Print("N"))
}

func uprightRows(j *check.Job) []check.Row {
	var out []check.Row
	all := shelves(j)
	for _, u := range j.Pieces() {
		if !stands(u) {
			continue
		}
		if r, ok := uprightRow(j, u, all); ok {
			out = append(out, r)
		}
	}
	return out
}

// stands reports whether a part carries on end.
func stands(p *check.Part) bool {
	return p.Role == check.Upright || p.Role == check.Divider || p.Role == check.Side
}

func uprightRow(j *check.Job, u *check.Part, all []*shelf) (check.Row, bool) {
	heaviest, n := heaviestOn(j, u, all)
	if heaviest == nil || n == 0 {
		return check.Row{}, false
	}
	own := stuffOf(j, orAnyPanel(u))
	s := heaviest
	r := rowOf(u, u.Thickness)
	r.Cause = "column"
	cut, side := neck(j, u)
	most := s.span.reaction
	if u.Role == check.Side {
		most = s.span.atEnd
	}
	r.In = map[string]check.Value{
		"h": clearHeight(j, u, n), "b": ask(u.Width, u, "width"), "t": ask(u.Thickness, u, "thickness"), "a": cut, "s": side,
		"n": check.Exact(float64(n)), "K": most, "W": s.heavy(), "L": s.span.bay, "P": s.onPost(u),
		"E": own.E, "j": j.Standard("limit", "column", "Emin over E", check.Ratio), "C": duration(j, s.load.word),
		"o": offMiddle(j, u, n), "u": quiet(j),
		"G": own.E, "R": own.E,
	}
	if own.known {
		r.In["G"], r.In["R"] = inUse(j, own)
	}
	return r, true
}

// onPost is what an upright under a shelf carries beside its shelves: a person, what stands on
// that shelf, what comes down through uprights over it, and its own weight.
func (s *shelf) onPost(u *check.Part) check.Value {
	v := s.pressing()
	if !v.Known {
		return v
	}
	own := s.frame.over(u) + weight(s.job, u).Nominal/pieces(u)
	v.Low, v.Nominal, v.High = v.Low+own, v.Nominal+own, v.High+own
	v.Why = strings.TrimSuffix("its own weight, and what stands over it; "+v.Why, "; ")
	return v
}

// offMiddle is by what share of its thickness the load of an upright stands off its middle. A side
// has shelves on one face only: each of them bears half of its dado inside that face, and moves the
// load of one of n off the middle; were the shelves above it empty, that would be all of it.
func offMiddle(j *check.Job, u *check.Part, n int) check.Value {
	if u.Role != check.Side || !(u.Thickness.Nominal > 0) {
		return j.Standard("limit", "column", "off the middle", check.Ratio)
	}
	deep := 0.0
	for _, m := range jointsOf(j, u) {
		if d := m.joint.DepthIn; m.slotted && d.Known && d.Nominal < u.Thickness.Nominal {
			deep = math.Max(deep, d.Nominal)
		}
	}
	off := .5 - deep/u.Thickness.Nominal/2
	return check.Guess(off/float64(n), off/float64(n), off, fmt.Sprintf("shelves on one face of %s", u.Name()))
}

// orAnyPanel takes an upright without a material as any panel that is sold.
func orAnyPanel(u *check.Part) *check.Part {
	if u.Material.Text != "" {
		return u
	}
	guess := *u
	guess.Material.Text = "made-up panel"
	return &guess
}

// heaviestOn is the shelf that loads an upright most, and how many shelves one piece of the
// upright carries.
func heaviestOn(j *check.Job, u *check.Part, all []*shelf) (heaviest *shelf, n int) {
	if len(all) == 0 {
		return nil, 0
	}
	fr, most := all[0].frame, -1.0
	take := func(s *shelf) {
		if x := s.span.reaction.Nominal * s.heavy().Nominal * s.span.bay.Nominal; x > most {
			heaviest, most = s, x
		}
	}
	for _, m := range jointsOf(j, u) {
		carried := false
		for _, o := range m.others {
			if s := fr.of[o]; s != nil && s.part.Role != check.Adjustable {
				carried = true
				take(s)
			}
		}
		if carried && m.joint.Kind != check.Butt && m.joint.Kind != check.Mitre {
			n += max(1, m.each(u))
		}
	}
	for _, s := range fr.overPost(u) {
		if jointWith(j, u, s.part) == nil {
			n++
			take(s)
		}
	}
	return heaviest, n
}

func contains(ps []*check.Part, p *check.Part) bool {
	for _, q := range ps {
		if q == p {
			return true
		}
	}
	return false
}

// heavy is the load along a shelf with its own weight.
func (s *shelf) heavy() check.Value {
	v := s.load.line
	own := s.stuff.density.Nominal * s.width.Nominal * s.part.Thickness.Nominal
	if !v.Known {
		return v
	}
	v.Low, v.Nominal, v.High = v.Low+own, v.Nominal+own, v.High+own
	v.Plain = false
	return v
}

// neck is what the deepest joint takes off the width of an upright, and off each side of its
// thickness.
func neck(j *check.Job, u *check.Part) (cut, side check.Value) {
	none := why(check.Exact(0), "no joint cuts into it there")
	cut, side = none, none
	for _, m := range jointsOf(j, u) {
		jt := m.joint
		depth := jt.DepthOf
		if m.slotted {
			depth = jt.DepthIn
		}
		switch jt.Kind {
		case check.CrossLap, check.Notch:
			cut = deeper(cut, depth, u.Width.Nominal)
		case check.NotchedLap:
			cut, side = deeper(cut, jt.Front, u.Width.Nominal), deeper(side, jt.Side, u.Thickness.Nominal/2)
		case check.Dado, check.Groove:
			if m.slotted && depth.Known && depth.Nominal < u.Thickness.Nominal {
				half := depth.Scale(.5) // from one face; the neck counts it from both
				half.Why = "half of the dado of one face"
				side = deeper(side, half, u.Thickness.Nominal/2)
			}
		}
	}
	return cut, side
}

func deeper(a, b check.Value, all float64) check.Value {
	if b.Known && b.Nominal > a.Nominal && b.Nominal < all {
		return b
	}
	return a
}

// clearHeight is the largest height between the things that hold an upright sideways: at the
// places typed, else in equal parts that may be out by a factor of two.
func clearHeight(j *check.Job, u *check.Part, shelves int) check.Value {
	length := ask(u.Length, u, "length")
	if !length.Known || length.Nominal <= 0 {
		return length
	}
	var places []float64
	for _, m := range jointsOf(j, u) {
		if m.slotted {
			places = append(places, typedPlaces(m.joint, length.Nominal, thick(m.others))...)
		}
	}
	if len(places) > 0 {
		places = append(places, 0, length.Nominal)
		sort.Float64s(places)
		return why(check.Exact(longestBay(places)), "largest height between the shelves, or above and below them")
	}
	even := length.Nominal / float64(shelves+1)
	return check.Guess(even, even, math.Min(length.Nominal, 2*even), fmt.Sprintf("heights of the shelves on %s never typed", u.Name()))
}

// inUse are the strengths of an upright along its length and in bending, divided for use.
func inUse(j *check.Job, s stuff) (along, bending check.Value) {
	safety := dividedBy(j, s)
	rupture := ofMaterial(j, s.material, "modulus of rupture", check.Pressure)
	item := "panel in compression"
	if s.material.Solid() {
		item = "clear wood in compression"
	}
	along = ofMaterial(j, s.material, "compression along grain", check.Pressure)
	if !along.Known {
		along = times(rupture, j.Standard("limit", item, "share of modulus of rupture", check.Ratio))
	}
	return over(along, safety), over(rupture, safety)
}
