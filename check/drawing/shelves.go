package drawing

import (
	"math"
	"slices"

	"dryfit/check"
	"dryfit/check/structure"
)

// shelves puts the shelves: those through the whole case first, then those of single bays.
func (s *standing) shelves() {
	s.spread()
	cleared := s.bays()
	var inBay []*check.Part
	for _, p := range sized(s.box, check.Shelf, check.Adjustable) {
		if len(cleared) > 1 && p.Length.Nominal < .5*(widest(cleared)+s.inner.Right-s.inner.Left) && !p.X.Known {
			inBay = append(inBay, p)
			continue
		}
		s.full(p)
	}
	s.stack(s.inner.Left, s.inner.Right)
	for _, p := range inBay {
		s.bayed(p, cleared)
	}
	for _, b := range cleared {
		s.stack(b.from, b.to)
	}
}

// full puts the pieces of a shelf that runs through the case.
func (s *standing) full(p *check.Part) {
	x := s.acrossAt(p)
	heights := s.heights(p)
	for i := range s.each(p) {
		if i < len(heights) {
			s.put(p, Box{x, heights[i], x + p.Length.Nominal, heights[i] + p.Thickness.Nominal}, Part, false)
			continue
		}
		s.put(p, Box{x, math.NaN(), x + p.Length.Nominal, math.NaN()}, Part, true)
	}
}

// heights are the undersides of the pieces of a shelf: as typed in its row, else by the joints
// of an upright or side that it goes into. Two rows that share a joint share its places.
func (s *standing) heights(p *check.Part) []float64 {
	if p.Y.Known && s.each(p) == 1 {
		return []float64{p.Y.Nominal}
	}
	for _, q := range s.pieces {
		if !isUpright(q.part) {
			continue
		}
		var out []float64
		for _, m := range structure.Meetings(s.job, q.part) {
			if m.Typed && slices.Contains(m.Others, p) {
				out = append(out, q.box.Bottom+m.At-p.Thickness.Nominal/2)
			}
		}
		if len(out) > 0 {
			return s.free(p, out)
		}
	}
	return nil
}

// free leaves out the heights where another shelf stands already.
func (s *standing) free(p *check.Part, heights []float64) []float64 {
	var out []float64
	for _, y := range heights {
		if !slices.ContainsFunc(s.pieces, func(q piece) bool {
			return q.part != p && !isUpright(q.part) && q.role == Part && math.Abs(q.box.Bottom-y) < s.job.PerInch()/8
		}) {
			out = append(out, y)
		}
	}
	slices.Sort(out)
	return out
}

// bayed puts the pieces of a shelf into the bays whose width is nearest to its length, as many
// in each.
func (s *standing) bayed(p *check.Part, bays []stretch) {
	near := math.Inf(1)
	for _, b := range bays {
		near = math.Min(near, math.Abs(b.to-b.from-p.Length.Nominal))
	}
	var fits []stretch
	for _, b := range bays {
		if math.Abs(b.to-b.from-p.Length.Nominal) <= near+s.job.PerInch()/2 {
			fits = append(fits, b)
		}
	}
	n := s.each(p)
	fits = fits[:min(n, len(fits))]
	heights := s.heights(p)
	for i := range n {
		b := fits[i%len(fits)]
		x := (b.from + b.to - p.Length.Nominal) / 2
		if k := i / len(fits); k < len(heights) {
			s.put(p, Box{x, heights[k], x + p.Length.Nominal, heights[k] + p.Thickness.Nominal}, Part, false)
			continue
		}
		s.put(p, Box{x, math.NaN(), x + p.Length.Nominal, math.NaN()}, Part, true)
	}
}

// stack gives the shelves without a height in one column even spaces.
func (s *standing) stack(from, to float64) {
	var free []int
	var taken []stretch
	thick := 0.0
	for i, q := range s.pieces {
		lies := !isUpright(q.part) && q.role == Part && s.lies(q, stretch{from, to})
		switch {
		case lies && math.IsNaN(q.box.Bottom):
			free = append(free, i)
			thick = math.Max(thick, q.part.Thickness.Nominal)
		case lies:
			taken = append(taken, stretch{q.box.Bottom, q.box.Top})
		}
	}
	if len(free) == 0 {
		return
	}
	for k, y := range fill(s.inner.Bottom, s.inner.Top, taken, thick, len(free)) {
		b := &s.pieces[free[k]].box
		b.Bottom, b.Top = y, y+s.pieces[free[k]].part.Thickness.Nominal
	}
	s.guess("Heights of shelves not typed: drawn equal.")
}

// lies reports whether a piece lies in a bay, over a quarter of it at least.
func (s *standing) lies(q piece, bay stretch) bool {
	return math.Min(q.box.Right, bay.to)-math.Max(q.box.Left, bay.from) > (bay.to-bay.from)/4
}
