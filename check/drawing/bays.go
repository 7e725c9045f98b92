package drawing

import (
	"math"
	"slices"

	"dryfit/check"
	"dryfit/check/structure"
)

// uprights stand at the places typed for them or for their joints, else in equal bays.
func (s *standing) uprights() {
	for _, p := range sized(s.box, check.Upright, check.Divider) {
		n := s.each(p)
		if p.X.Known && n == 1 {
			s.uprightAt(p, p.X.Nominal, false)
			continue
		}
		at := s.crossed(p)
		for _, x := range at[:min(n, len(at))] {
			s.uprightAt(p, x, false)
		}
		s.between(p, n-min(n, len(at)))
	}
}

// crossed are the left edges of an upright by the joints of what it crosses.
func (s *standing) crossed(u *check.Part) []float64 {
	var out []float64
	for _, p := range sized(s.box, across...) {
		left := s.acrossAt(p)
		for _, m := range structure.Meetings(s.job, p) {
			if m.Typed && slices.Contains(m.Others, u) {
				out = append(out, left+m.At-u.Thickness.Nominal/2)
			}
		}
		if len(out) > 0 {
			break
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// between marks n pieces to be spread over the inside in equal bays, with all others of which
// nobody typed a place.
func (s *standing) between(p *check.Part, n int) {
	for range n {
		s.uprightAt(p, math.NaN(), true)
	}
}

func (s *standing) uprightAt(p *check.Part, x float64, guessed bool) {
	foot := s.inner.Bottom
	high := p.Length.Nominal
	switch {
	case p.Y.Known:
		foot = p.Y.Nominal
	case high > s.inner.Top-s.inner.Bottom+s.job.PerInch()/2:
		foot = s.out.Raised
	}
	s.put(p, Box{x, foot, x + p.Thickness.Nominal, foot + high}, Part, guessed)
}

// spread gives the uprights without a place equal bays between the others.
func (s *standing) spread() {
	var free []int
	var taken []Box
	for i, q := range s.pieces {
		switch {
		case math.IsNaN(q.box.Left):
			free = append(free, i)
		case q.role == Part && isUpright(q.part) && q.part.Role != check.Side:
			taken = append(taken, q.box)
		}
	}
	if len(free) == 0 {
		return
	}
	t := s.pieces[free[0]].part.Thickness.Nominal
	places := fill(s.inner.Left, s.inner.Right, horizontal(taken), t, len(free))
	for k, i := range free {
		b := &s.pieces[i].box
		b.Left, b.Right = places[k], places[k]+s.pieces[i].part.Thickness.Nominal
	}
	s.guess("Bays not typed: drawn equal.")
}

// stretch is a part of a line.
type stretch struct{ from, to float64 }

func horizontal(bs []Box) []stretch {
	var out []stretch
	for _, b := range bs {
		out = append(out, stretch{b.Left, b.Right})
	}
	return out
}

// fill puts n things of a thickness between two ends, so that what stays clear between them and
// what is taken already is as even as may be. It returns where each begins, in rising order.
func fill(from, to float64, taken []stretch, thick float64, n int) []float64 {
	slices.SortFunc(taken, func(a, b stretch) int {
		if a.from < b.from {
			return -1
		}
		return 1
	})
	var gaps []stretch
	at := from
	for _, t := range taken {
		if t.to <= from || t.from >= to {
			continue
		}
		gaps = append(gaps, stretch{at, math.Max(at, t.from)})
		at = math.Max(at, t.to)
	}
	gaps = append(gaps, stretch{at, math.Max(at, to)})
	in := make([]int, len(gaps))
	for range n {
		best, most := 0, math.Inf(-1)
		for i, g := range gaps {
			if clear := (g.to - g.from - float64(in[i])*thick) / float64(in[i]+1); clear > most+1e-9 {
				best, most = i, clear
			}
		}
		in[best]++
	}
	var out []float64
	for i, g := range gaps {
		clear := (g.to - g.from - float64(in[i])*thick) / float64(in[i]+1)
		for k := range in[i] {
			out = append(out, g.from+clear*float64(k+1)+thick*float64(k))
		}
	}
	return out
}

func widest(bays []stretch) float64 {
	most := 0.0
	for _, b := range bays {
		most = math.Max(most, b.to-b.from)
	}
	return most
}

// bays are what stays clear beside uprights that are at least half as high as the inside.
func (s *standing) bays() []stretch {
	var taken []stretch
	for _, q := range s.pieces {
		if isUpright(q.part) && q.box.Left > s.inner.Left && q.box.Right < s.inner.Right && 2*(q.box.Top-q.box.Bottom) > s.inner.Top-s.inner.Bottom {
			taken = append(taken, stretch{q.box.Left, q.box.Right})
		}
	}
	slices.SortFunc(taken, func(a, b stretch) int {
		if a.from < b.from {
			return -1
		}
		return 1
	})
	var out []stretch
	at := s.inner.Left
	for _, t := range taken {
		if t.from > at {
			out = append(out, stretch{at, t.from})
		}
		at = math.Max(at, t.to)
	}
	if s.inner.Right > at {
		out = append(out, stretch{at, s.inner.Right})
	}
	return out
}
