package structure

import (
	"cmp"
	"math"
	"slices"

	"dryfit/check"
	"dryfit/check/beam"
)

// foot is what an upright stands on.
type foot struct {
	on     *check.Part // nil: the floor, nothing, or nobody knows
	at     float64     // along that part
	posted bool        // another upright stands right under it, or could
	post   *check.Part // that upright, where places say which
	hangs  bool        // known to stand on nothing
}

// touching is how closely two typed places must agree to be one: an eighth of an inch.
func touching(j *check.Job) float64 { return j.PerInch() / 8 }

// flat are the roles that lie, and may carry an upright.
var flat = []check.Role{check.Shelf, check.Adjustable, check.Seat, check.Deck, check.Sill, check.Head}

// footOf finds what an upright stands on, from the heights that are typed. Without its own
// height nobody knows, and it is taken to stand on the floor.
func footOf(j *check.Job, u *check.Part) foot {
	box := caseOf(j, u)
	if !u.Y.Known || u.Y.Nominal <= floorLine(j, box) {
		return foot{}
	}
	known := true
	for _, p := range box.Role(flat...) {
		if p == u {
			continue
		}
		if !p.Y.Known || !p.Thickness.Known {
			known = false
			continue
		}
		if math.Abs(p.Y.Nominal+p.Thickness.Nominal-u.Y.Nominal) <= touching(j) && coversX(j, p, u) {
			f := foot{on: p, at: u.X.Nominal + u.Thickness.Nominal/2 - p.X.Nominal, posted: !u.X.Known || !p.X.Known}
			if !f.posted {
				f.post = postUnder(j, box, u, p)
				f.posted = f.post != nil
			}
			return f
		}
	}
	return foot{hangs: known && len(box.Role(flat...)) > 0}
}

// floorLine is the height at which an upright stands on base and bottom of its case.
func floorLine(j *check.Job, box check.Case) float64 {
	base, bottom := 0.0, 0.0
	for _, p := range box.Role(check.Base) {
		base = math.Max(base, p.Width.Nominal)
	}
	for _, p := range box.Role(check.Sill, check.Deck) {
		if !p.Y.Known {
			bottom = math.Max(bottom, p.Thickness.Nominal)
		}
	}
	return base + bottom + touching(j)
}

func coversX(j *check.Job, p, u *check.Part) bool {
	if !p.X.Known || !u.X.Known || !p.Length.Known {
		return true
	}
	x := u.X.Nominal - p.X.Nominal
	return x >= -touching(j) && x+u.Thickness.Nominal <= p.Length.Nominal+touching(j)
}

// postUnder is the upright under the foot of u, nil if there is none: it reaches up to the
// underside of p, or goes through it.
func postUnder(j *check.Job, box check.Case, u, p *check.Part) *check.Part {
	for _, v := range box.Role(check.Upright, check.Divider, check.Side) {
		if v == u || !v.X.Known || !v.Length.Known {
			continue
		}
		foot := v.Y.Nominal // 0 where nobody typed it: on the floor
		if math.Abs(v.X.Nominal-u.X.Nominal) < u.Thickness.Nominal && foot < p.Y.Nominal && foot+v.Length.Nominal >= p.Y.Nominal-touching(j) {
			return v
		}
	}
	return nil
}

// stander is an upright on a shelf, and what comes down through it.
type stander struct {
	part *check.Part
	at   float64 // along the shelf
	load float64
}

// standersOn are the uprights that stand on a part and over no other upright.
func (fr *frame) standersOn(p *check.Part) []stander {
	var out []stander
	j := fr.job
	for _, u := range caseOf(j, p).Role(check.Upright, check.Divider) {
		f := footOf(j, u)
		if f.on == p && !f.posted {
			out = append(out, stander{u, f.at, fr.bringsDown(u, p)})
		}
	}
	return out
}

// bringsDown is what comes down through one piece of an upright: its own weight, what the
// shelves above its foot land on it, and what comes down through the uprights over it.
func (fr *frame) bringsDown(u, on *check.Part) float64 {
	j := fr.job
	sum := weight(j, u).Nominal/pieces(u) + fr.over(u)
	for _, p := range caseOf(j, u).Role(check.Shelf, check.Seat) {
		if p == on || !p.Length.Known || p.Y.Known && u.Y.Known && p.Y.Nominal < u.Y.Nominal {
			continue
		}
		s := fr.shelf(p)
		for _, l := range s.landings() {
			if l.on == u {
				sum += l.force * pieces(p) / pieces(u)
			}
		}
	}
	return sum
}

// over is what comes down on an upright through the uprights that stand over it.
func (fr *frame) over(u *check.Part) (sum float64) {
	for _, v := range caseOf(fr.job, u).Role(check.Upright, check.Divider) {
		if f := footOf(fr.job, v); f.post == u {
			sum += fr.bringsDown(v, f.on)
		}
	}
	return sum
}

// landing is what one support of a loaded part takes of its likely load.
type landing struct {
	on    *check.Part // nil: nobody said which part holds it there
	name  string      // of what holds it there, as typed
	joint *check.Joint
	how   string
	force float64
	at    float64 // along the part
	most  float64 // reaction coefficient of the support, over wL of the longest bay
	end   bool
}

// landings solves a part under its likely load, with the uprights that stand on it: what
// lands on each support. They add up to the load.
func (s *shelf) landings() []landing {
	b, err := s.span.likely.beam(s.span.length)
	if err != nil {
		return nil
	}
	b.Spread = []beam.Spread{{To: s.span.length, W: s.line()}}
	for i, x := range s.above.places {
		b.Points = append(b.Points, beam.Point{At: x, P: s.above.loads[i]})
	}
	r, err := b.Solve()
	if err != nil {
		return nil
	}
	ends := s.endHolds()
	var out []landing
	for i, x := range s.span.likely.supports {
		l := landing{force: r.Reactions[i], how: "its end", at: x, end: x < 1e-9 || x > s.span.length-1e-9}
		if i < len(s.span.each) {
			l.most = s.span.each[i]
		}
		if o := s.span.postAt(x); o != nil {
			l.on, l.name, l.how, l.joint = o, o.Name(), "lies on it", jointWith(s.job, s.part, o)
		} else if l.end && len(ends) > 0 {
			h := ends[min(len(ends)-1, side(x))]
			l.on, l.name, l.joint, l.how = h.by, h.name, h.joint, h.how
		} else if !l.end && len(s.span.over) > 0 {
			c := s.span.at(x, i-1)
			l.on, l.name, l.joint, l.how = c.other, c.name, c.joint, string(c.joint.Kind)
		}
		out = append(out, l)
	}
	return out
}

func side(x float64) int {
	if x < 1e-9 {
		return 0
	}
	return 1
}

// endHolds are the joints that hold the ends of a part: the leftmost first, where the places
// of what holds them are typed; else the house, where the part is fixed to it.
func (s *shelf) endHolds() []hold {
	var out, house []hold
	for _, h := range holds(s.job, s.part) {
		switch {
		case runsThrough(h.joint.Kind):
		case h.by != nil:
			out = append(out, h)
		default:
			house = append(house, h)
		}
	}
	if len(out) == 0 {
		return house
	}
	slices.SortStableFunc(out, func(a, b hold) int { return cmp.Compare(a.by.X.Nominal, b.by.X.Nominal) })
	return out
}

// line is the load along a part with its own weight, as likely as anybody knows.
func (s *shelf) line() float64 {
	return s.load.line.Nominal + s.load.point.Nominal/math.Max(s.part.Length.Nominal, 1e-9) +
		s.stuff.density.Nominal*s.width.Nominal*s.part.Thickness.Nominal
}

// weight is what all pieces of a part weigh: lb, or N in a metric job. A material that
// nobody knows leaves it missing.
func weight(j *check.Job, p *check.Part) check.Value {
	s := stuffOf(j, p)
	if !s.density.Known || !p.Length.Known || !p.Width.Known || !p.Thickness.Known {
		return check.Missing(check.Ask{Cell: p.Row, What: "sizes and material of " + p.Name() + ", for its weight"})
	}
	return s.density.Scale(math.Max(p.Length.Nominal*p.Width.Nominal*p.Thickness.Nominal*pieces(p), 1e-12))
}
