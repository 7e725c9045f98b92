package structure

import (
	"fmt"
	"math"

	"dryfit/check"
)

// Bearing asks whether a shelf crushes what it lies on: shoulders, the cheek of a slot, a
// dado or a cleat. The strength across the grain is where the face gives by .04 in, not where
// it breaks, so a miss is a question about the fit and never more than VERIFY.
var Bearing = &check.Check{
	ID:      "structure.bearing",
	Asks:    "Does the shelf lie on enough wood?",
	Costs:   "a shelf that sinks into its shoulders and goes out of level",
	Applies: "every shelf with a joint that says how deep it bears: lap, shoulder, dado, rabbet, cleat; what stands under it by its height; an adjustable shelf, on two pins an end; and an upright on the part it stands on",
	Inputs: []check.Input{
		{Symbol: "L", Name: "longest bay", Unit: check.Length},
		{Symbol: "b", Name: "panel front to back", Unit: check.Length},
		{Symbol: "t", Name: "thickness", Unit: check.Length},
		{Symbol: "q", Name: "load along the shelf", Unit: check.LineLoad},
		{Symbol: "g", Name: "weight of the material", Unit: check.Density},
		{Symbol: "K", Name: "reaction coefficient, even load", Unit: check.Ratio},
		{Symbol: "P", Name: "person, or uprights that stand on it", Unit: check.Force},
		{Symbol: "n", Name: "faces that bear", Unit: check.Count},
		{Symbol: "w", Name: "bearing front to back", Unit: check.Length},
		{Symbol: "l", Name: "bearing along the shelf", Unit: check.Length},
		{Symbol: "k", Name: "share of the faces that touches", Unit: check.Ratio},
		{Symbol: "F", Name: "strength across the grain of the softer part", Unit: check.Pressure},
		{Symbol: "c", Name: "away from the end of the shelf, 1 or 0", Unit: check.Count},
		{Symbol: "i", Name: "units in an inch", Unit: check.Ratio},
		{Symbol: "u", Name: "share of the limit below which nothing is said", Unit: check.Ratio},
	},
	Steps: []check.Step{
		{Symbol: "W", Name: "load with own weight", Formula: "q+g*b*t", Unit: check.LineLoad},
		{Symbol: "R", Name: "load on the support", Formula: "K*W*L+P", Unit: check.Force},
		{Symbol: "p", Name: "pressure", Formula: "R/(n*w*l*k)", Unit: check.Pressure},
		{Symbol: "C", Name: "short bearing away from the end", Formula: "IF(c*(6*i-l)>0,(l+0.375*i)/l,1)", Unit: check.Ratio},
		{Symbol: "A", Name: "pressure allowed", Formula: "F*C", Unit: check.Pressure},
		{Symbol: "z", Name: "room below half the limit", Formula: "u-p/A", Unit: check.Ratio, Aside: true},
		{Symbol: "m", Name: "margin, as a share of what is allowed", Formula: "1-p/A", Unit: check.Ratio},
	},
	Mends: []check.Mend{
		{Symbol: "l", Order: "give it {} of bearing", Up: true, Step: 0.125, StepMM: 2, Reach: 32},
	},
	NoMend: "put a cleat under it",
	Source: []check.Source{
		{Title: "bearing across the grain, (lb+.375)/lb under 6 in: NDS 3.10.4", How: "memory"},
		{Title: "uneven contact", How: "house rule"},
		{Title: "pins of 5 mm, 3/8 in into the side", How: "common practice"},
		{Title: "pressure under a pin: dowel bearing of NDS Table 12.3.3, divided", How: "house rule"},
	},
	Limits:  "Takes a shelf that bears all along its joint, and leaves out how the edge of a slot rounds over.",
	Until:   check.Released,
	Quiet:   "z",
	Value:   "p",
	Against: []string{"A"},
	Fails:   "a 36 in MDF shelf, 10 deep, with 40 lb/ft in dados 1/64 deep",
	Mended:  "dados 1/4 deep",
	Rows:    bearingRows,
	Way: func(r *check.Result) string {
		if r.Row.Words["pins"] != "" {
			return "use longer or thicker pins, or a cleat under each end"
		}
		return ""
	},
	Says: func(r *check.Result) string {
		if r.Row.Words["pins"] != "" {
			each := r.Values["R"] / r.Values["n"]
			return fmt.Sprintf("each of its pins gets %s and may hold %s", check.Force.Print(each, r.Job.Unit), check.Force.Print(each*r.Values["A"]/r.Values["p"], r.Job.Unit))
		}
		return fmt.Sprintf("bears on %s by %s of %s; it may sink in under %s", r.Print("w"), r.Print("l"), r.Row.Words["on"], r.Print("R"))
	},
}

// rest is how a shelf lies on another part.
type rest struct {
	faces       float64
	wide, along check.Value
	end         bool // at the end of the shelf
	on          *check.Part
	joint       *check.Joint // nil where only heights say it, or for an adjustable shelf
	pins        bool         // on two pins
}

func bearingRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, s := range shelves(j) {
		for _, r := range s.rests() {
			out = append(out, bearingRow(s, r))
		}
	}
	fr := frameOf(j)
	for _, u := range j.Pieces() {
		if u.Role != check.Upright && u.Role != check.Divider {
			continue
		}
		if r, ok := footRow(fr, u); ok {
			out = append(out, r)
		}
	}
	return out
}

func bearingRow(s *shelf, on rest) check.Row {
	p := s.part
	r := rowOf(p, on.along, on.wide)
	r.Most, r.Cause = check.Verify, "bearing pins"
	if on.pins {
		r.Words["pins"], r.Folds, r.Under = "pins", "pins", "structure.sag"
	} else {
		r.Cause = "bearing " + on.on.Name()
		r.Words["on"] = on.on.Name()
		r.Marks = append(r.Marks, on.on.Name())
	}
	if on.joint != nil {
		r.Cause = "bearing " + on.joint.Mark.Text
		if r.Cells[0] == p.Row {
			r.Cells[0] = on.joint.Row
		}
	}
	k, away := s.span.reaction, 1.0
	if on.end {
		k, away = s.span.atEnd, 0
	}
	r.In = s.presses(k)
	r.In["n"], r.In["w"], r.In["l"], r.In["c"] = check.Exact(on.faces), on.wide, on.along, check.Exact(away)
	if on.pins {
		r.In["F"] = s.job.Standard("fastener", "shelf pin", "pressure allowed", check.Pressure)
		r.In["u"] = why(check.Exact(1), "what a pin holds is a house rule: nothing is said until it is likely to fail")
	} else {
		r.In["F"] = softer(s.job, s.stuff, on.on)
	}
	return r
}

// presses are the inputs of bearing that do not rest on the joint; k is the reaction coefficient
// of the support.
func (s *shelf) presses(k check.Value) map[string]check.Value {
	p := s.part
	return map[string]check.Value{
		"L": s.span.bay, "b": s.width, "t": ask(p.Thickness, p, "thickness"), "q": s.load.line, "g": s.stuff.density,
		"K": k, "P": s.pressing(),
		"k": s.job.Standard("limit", "uneven contact", "share that bears", check.Ratio),
		"i": check.Exact(s.job.PerInch()), "u": quiet(s.job),
	}
}

// rests are the places where joints say how far a shelf bears, and the posts under it.
func (s *shelf) rests() []rest {
	var out []rest
	for _, o := range s.span.posts {
		if jointWith(s.job, s.part, o.part) != nil || !o.part.Width.Known || !s.width.Known {
			continue
		}
		out = append(out, rest{faces: 1, on: o.part, along: o.part.Thickness, end: o.at < 1e-9 || o.at > s.span.length-1e-9,
			wide: why(check.Exact(math.Min(o.part.Width.Nominal, s.width.Nominal)), "as deep as both")})
	}
	for _, m := range jointsOf(s.job, s.part) {
		for _, o := range m.others {
			if r, ok := s.rest(m, o); ok && r.wide.Nominal > 0 && r.along.Nominal > 0 {
				out = append(out, r)
				break
			}
		}
	}
	if jt, ok := s.pinned(); ok {
		out = append(out, rest{faces: 2, end: true, joint: jt, pins: true,
			wide: s.job.Standard("fastener", "shelf pin", "diameter", check.Length), along: s.job.Standard("fastener", "shelf pin", "reach into the side", check.Length)})
	}
	return out
}

var pegs = words("pin pins peg pegs")

// pinned reports whether a shelf lies on pins: a joint says so, or it is adjustable and none
// says anything else.
func (s *shelf) pinned() (jt *check.Joint, ok bool) {
	for _, m := range jointsOf(s.job, s.part) {
		if m.joint.Screws == nil && (m.joint.Kind == check.Butt || m.joint.Kind == check.CleatJoint) && anyWord(m.joint.Fastener.Text, pegs) {
			return m.joint, true
		}
	}
	return nil, s.part.Role == check.Adjustable && len(holds(s.job, s.part)) == 0
}

func (s *shelf) rest(m meeting, o *check.Part) (rest, bool) {
	jt := m.joint
	inOther, inShelf := jt.DepthIn, jt.DepthOf // depths cut into the other part and into the shelf
	if m.slotted {
		inOther, inShelf = jt.DepthOf, jt.DepthIn
	}
	r := rest{faces: 1, on: o, joint: jt}
	switch jt.Kind {
	case check.CrossLap:
		r.wide, r.along = inOther, o.Thickness
	case check.NotchedLap:
		r.faces, r.along, r.wide = 2, jt.Side, inShelf
		if !r.wide.Known && o.Width.Known {
			r.wide = check.Exact(o.Width.Nominal - jt.Front.Nominal)
		}
	case check.Dado, check.Groove, check.Rabbet:
		r.wide, r.along, r.end = s.width, inOther, true
		if m.slotted {
			return r, false // the shelf is what something else lies in
		}
	case check.CleatJoint:
		if o.Role != check.Cleat && o.Role != check.Ledger || !o.Length.Known || o.Length.Nominal >= .8*s.part.Length.Nominal {
			return r, false
		}
		r.wide, r.along, r.end = check.Exact(math.Min(o.Length.Nominal, s.width.Nominal)), o.Thickness, true
	}
	return r, r.wide.Known && r.along.Known
}

// softer is the lower strength across the grain of a part and what it bears on.
func softer(j *check.Job, own stuff, on *check.Part) check.Value {
	if !own.known {
		return own.E
	}
	a := ofMaterial(j, own.material, "Fc perpendicular", check.Pressure)
	if under := stuffOf(j, on); under.known {
		if b := ofMaterial(j, under.material, "Fc perpendicular", check.Pressure); b.Known && b.Nominal < a.Nominal {
			return b
		}
	}
	return a
}

// footRow is an upright that stands on a part that lies: all that comes down through it, on its
// foot. It is silent about one that stands on the floor.
func footRow(fr *frame, u *check.Part) (check.Row, bool) {
	j, f := fr.job, footOf(fr.job, u)
	if f.on == nil || f.post != nil || !u.Width.Known || !u.Thickness.Known || !(u.Width.Nominal*u.Thickness.Nominal > 0) {
		return check.Row{}, false
	}
	r := rowOf(u, u.Thickness, u.Width)
	r.Most, r.Cause, r.Marks = check.Verify, "foot", append(r.Marks, f.on.Name())
	r.Words["on"] = f.on.Name()
	none := why(check.Exact(0), "an upright: all comes down in one place")
	r.In = map[string]check.Value{"L": none, "b": none, "t": none, "q": none, "g": none, "K": none,
		"P": why(check.Exact(fr.bringsDown(u, f.on)), "what comes down through "+u.Name()),
		"n": check.Exact(1), "w": u.Width, "l": u.Thickness, "c": check.Exact(1), "F": softer(j, stuffOf(j, f.on), u),
		"k": j.Standard("limit", "uneven contact", "share that bears", check.Ratio), "i": check.Exact(j.PerInch()), "u": quiet(j)}
	return r, true
}
