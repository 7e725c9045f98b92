package drawing

import (
	"math"
	"slices"

	"dryfit/check"
)

// frame puts the sides, top and bottom, the base and a seat, and finds the inside.
func (s *standing) frame() {
	s.inner = Box{0, s.out.Raised, s.width, s.height}
	s.seat()
	s.decks()
	s.sides()
	s.base()
}

// seat lies over the sides.
func (s *standing) seat() {
	for _, p := range sized(s.box, check.Seat) {
		x := s.acrossAt(p)
		y := s.inner.Top - p.Thickness.Nominal
		if p.Y.Known {
			y = p.Y.Nominal
		}
		s.put(p, Box{x, y, x + p.Length.Nominal, y + p.Thickness.Nominal}, Part, false)
		s.inner.Top = math.Min(s.inner.Top, y)
	}
}

// acrossAt is where a part that runs across begins: as typed, else in the middle of the case.
func (s *standing) acrossAt(p *check.Part) float64 {
	if p.X.Known && s.each(p) == 1 {
		return p.X.Nominal
	}
	return (s.width - p.Length.Nominal) / 2
}

// decks puts the bottom, then the top; what is narrower than half of the sides is a rail at the
// top.
func (s *standing) decks() {
	bottom, top := s.inner.Bottom+s.kick(), s.inner.Top
	topFree, bottomFree := true, true
	for _, p := range slices.Concat(sized(s.box, check.Sill), sized(s.box, check.Deck), sized(s.box, check.Head)) {
		t := p.Thickness.Nominal
		x := s.acrossAt(p)
		for i := range s.each(p) {
			y := top - t
			switch {
			case p.Y.Known && s.each(p) == 1:
				y = p.Y.Nominal
			case bottomFree && !s.rail(p) && (p.Role != check.Head || i == 1): // "head/sill", one row for both
				y, bottomFree = bottom, false
				s.inner.Bottom = bottom + t
			case topFree:
				topFree = false
				s.inner.Top = top - t
			}
			s.put(p, Box{x, y, x + p.Length.Nominal, y + t}, Part, false)
		}
	}
}

// kick is how high a board in front of the sides lifts the bottom: as high as it is, unless the
// uprights are too long to stand on such a bottom.
func (s *standing) kick() float64 {
	high := 0.0
	for _, p := range s.box.Role(check.Base) {
		if p.Width.Known && s.out.Raised == 0 {
			high = math.Max(high, p.Width.Nominal)
		}
	}
	room := s.inner.Top - s.inner.Bottom - high
	bottoms := sized(s.box, check.Sill, check.Deck)
	if high == 0 || high > (s.inner.Top-s.inner.Bottom)/3 || len(bottoms) == 0 || longest(sized(s.box, check.Upright, check.Divider)) > room {
		return 0
	}
	s.guess("Bottom drawn on top of the kick.")
	return high
}

func (s *standing) rail(p *check.Part) bool {
	for _, side := range s.box.Role(check.Side) {
		if p.Width.Known && p.Width.Nominal < side.Width.Nominal/2 {
			return true
		}
	}
	return false
}

// sides stand at both ends, the first on the left; a third one stands between them.
func (s *standing) sides() {
	foot := s.out.Raised
	if s.out.Over {
		foot = s.inner.Bottom
	}
	n := 0
	for _, p := range sized(s.box, check.Side) {
		t := p.Thickness.Nominal
		for range s.each(p) {
			x := 0.0
			switch {
			case n == 1 || n == 0 && p.Hand == "R":
				x = s.width - t
			case n > 1:
				s.between(p, 1)
				continue
			}
			n++
			s.put(p, Box{x, foot, x + t, foot + p.Length.Nominal}, Part, false)
			if x == 0 {
				s.inner.Left = t
			} else {
				s.inner.Right = s.width - t
			}
		}
	}
}

// base is under the case where it raises it, else in front of it as a kick.
func (s *standing) base() {
	for _, p := range s.box.Role(check.Base) {
		if !p.Length.Known || !p.Width.Known || p.Length.Nominal > 1.1*s.width {
			s.leave(p)
			continue
		}
		x := (s.width - p.Length.Nominal) / 2
		b := Box{x, 0, x + p.Length.Nominal, p.Width.Nominal}
		if s.out.Raised > 0 {
			s.put(p, b, Part, false)
		} else {
			s.put(p, b, Cover, false)
		}
	}
}
