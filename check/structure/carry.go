package structure

import (
	"math"

	"dryfit/check"
)

// foot is what an upright stands on.
type foot struct {
	on     *check.Part // nil: the floor, nothing, or nobody knows
	at     float64     // along that part
	posted bool        // another upright stands right under it
	hangs  bool        // known to stand on nothing
}

// near is how closely two typed places must agree to be one: an eighth of an inch.
func near(j *check.Job) float64 { return j.PerInch() / 8 }

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
		if math.Abs(p.Y.Nominal+p.Thickness.Nominal-u.Y.Nominal) <= near(j) && coversX(j, p, u) {
			return foot{on: p, at: u.X.Nominal + u.Thickness.Nominal/2 - p.X.Nominal, posted: !u.X.Known || !p.X.Known || postUnder(j, box, u, p)}
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
	return base + bottom + near(j)
}

func coversX(j *check.Job, p, u *check.Part) bool {
	if !p.X.Known || !u.X.Known || !p.Length.Known {
		return true
	}
	x := u.X.Nominal - p.X.Nominal
	return x >= -near(j) && x+u.Thickness.Nominal <= p.Length.Nominal+near(j)
}

// postUnder reports whether another upright stands under the foot of u: it reaches up to the
// underside of p, or goes through it.
func postUnder(j *check.Job, box check.Case, u, p *check.Part) bool {
	for _, v := range box.Role(check.Upright, check.Divider, check.Side) {
		if v == u || !v.X.Known || !v.Length.Known {
			continue
		}
		foot := v.Y.Nominal // 0 where nobody typed it: on the floor
		if math.Abs(v.X.Nominal-u.X.Nominal) < u.Thickness.Nominal && foot < p.Y.Nominal && foot+v.Length.Nominal >= p.Y.Nominal-near(j) {
			return true
		}
	}
	return false
}

// stander is an upright on a shelf, and what comes down through it.
type stander struct {
	part *check.Part
	at   float64 // along the shelf
	load float64
}

// standersOn are the uprights that stand on a part and over no other upright.
func standersOn(j *check.Job, p *check.Part) []stander {
	var out []stander
	for _, u := range caseOf(j, p).Role(check.Upright, check.Divider) {
		f := footOf(j, u)
		if f.on == p && !f.posted {
			out = append(out, stander{u, f.at, bringsDown(j, u, p)})
		}
	}
	return out
}

// bringsDown is what comes down through an upright that stands on a part: its own weight and
// its share of every shelf above, by half of the bays on both sides.
func bringsDown(j *check.Job, u, on *check.Part) float64 {
	sum := weight(j, u).Nominal / pieces(u)
	for _, m := range jointsOf(j, u) {
		for _, q := range m.others {
			if q == on || q.Role != check.Shelf && q.Role != check.Seat || q.Y.Known && q.Y.Nominal < u.Y.Nominal || !q.Length.Known {
				continue
			}
			s := &shelf{job: j, part: q, stuff: stuffOf(j, q), load: loadOn(j, q)}
			sum += s.line() * shareOf(j, q, u)
			for _, v := range standersOn(j, q) {
				sum += v.load / 2
			}
		}
	}
	return sum
}

// line is the load along a part with its own weight, as likely as anybody knows.
func (s *shelf) line() float64 {
	return s.load.line.Nominal + s.load.point.Nominal/math.Max(s.part.Length.Nominal, 1e-9) +
		s.stuff.density.Nominal*s.part.Width.Nominal*s.part.Thickness.Nominal
}

// shareOf is the length of a shelf that an upright carries: half of the bays beside it.
func shareOf(j *check.Job, q, u *check.Part) float64 {
	for _, c := range crossings(j, q) {
		if c.other == u {
			return tributary(crossings(j, q), c.at, q.Length.Nominal)
		}
	}
	return q.Length.Nominal / 2
}

func tributary(all []crossing, at, length float64) float64 {
	before, after := 0.0, length
	for _, c := range all {
		switch {
		case c.at < at-1e-9:
			before = math.Max(before, c.at)
		case c.at > at+1e-9:
			after = math.Min(after, c.at)
		}
	}
	return (after - before) / 2
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
