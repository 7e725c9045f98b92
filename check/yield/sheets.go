package yield

import (
	"fmt"
	"math"
)

// Order is so many parts of one size.
type Order struct {
	Part
	Wanted int
}

// Sheets is the least number of sheets from which all the parts can come, as far as it can be
// proven: the largest of three bounds. Each kind by itself by StackingBound; all by area; all
// by scaled sizes, where a large part counts for more than its area since too little is left
// beside it.
//
// Error: as AreaBound; a count below zero; a part that does not come out of the sheet at all.
//
// Source of the third: S. P. Fekete and J. Schepers, dual feasible functions for packing,
// Math. Meth. Oper. Res. 60 (2004) 311 (from memory).
func (s Sheet) Sheets(orders []Order) (int, error) {
	least := 0
	for _, o := range orders {
		if o.Wanted < 0 {
			return 0, fmt.Errorf("%d parts of %g x %g, want a count", o.Wanted, o.Length, o.Width)
		}
		each, err := s.StackingBound(o.Part)
		if err != nil {
			return 0, err
		}
		if each == 0 {
			return 0, fmt.Errorf("a part of %g x %g does not come out of a sheet of %g x %g", o.Length, o.Width, s.Length, s.Width)
		}
		least = max(least, (o.Wanted+each-1)/each)
	}
	return max(least, s.scaledBound(orders)), nil
}

// scaledBound is the sum of the areas of all parts with their sizes put through every pair of
// scales; the plain scale among them gives the bound by area.
func (s Sheet) scaledBound(orders []Order) int {
	room := s.field()
	var sizes []float64
	for _, o := range orders {
		part := s.grown(o.Part)
		sizes = append(sizes, part.length/room.length, part.width/room.width)
		if o.Turns {
			sizes = append(sizes, part.width/room.length, part.length/room.width)
		}
	}
	scales := scalesFor(sizes)
	most := 0.0
	for _, f := range scales {
		for _, g := range scales {
			sum := 0.0
			for _, o := range orders {
				sum += float64(o.Wanted) * s.scaled(o.Part, f, g)
			}
			most = max(most, sum)
		}
	}
	return int(math.Ceil(most*(1-dust) - dust))
}

// scaled is the share of a sheet that a part counts for: the lesser of the ways it may lie.
func (s Sheet) scaled(p Part, f, g scale) float64 {
	room, part := s.field(), s.grown(p)
	share := infinite
	if part.fits(room) {
		share = f(part.length/room.length) * g(part.width/room.width)
	}
	if p.Turns && part.turned().fits(room) {
		share = min(share, f(part.width/room.length)*g(part.length/room.width))
	}
	return share
}

// scale is a dual feasible function: sizes from 0 to 1 that add up to 1 at most still do so
// after it.
type scale func(x float64) float64

// scalesFor are the plain scale, those that give all to large parts and nothing to small
// ones, with the bound between at each size, and those that round to steps.
func scalesFor(sizes []float64) []scale {
	const mostBounds, mostSteps = 12, 6
	scales := []scale{func(x float64) float64 { return min(x, 1) }}
	seen := map[float64]bool{}
	for _, x := range sizes {
		small := min(x, 1-x)
		if small > dust && small <= .5 && !seen[small] && len(seen) < mostBounds {
			seen[small] = true
			scales = append(scales, largeOnly(small))
		}
	}
	scales = append(scales, largeOnly(.5))
	for k := 1; k <= mostSteps; k++ {
		scales = append(scales, stepped(float64(k)))
	}
	return scales
}

// largeOnly counts a size above 1-small as all, below small as nothing.
func largeOnly(small float64) scale {
	return func(x float64) float64 {
		switch {
		case x > 1-small+dust:
			return 1
		case x < small-dust:
			return 0
		}
		return min(x, 1)
	}
}

// stepped counts a size by how many whole steps of 1/(k+1) it passes.
func stepped(k float64) scale {
	return func(x float64) float64 {
		steps := (k + 1) * x
		if math.Abs(steps-math.Round(steps)) < 1e-6 {
			return min(x, math.Floor(steps+.5)/(k+1))
		}
		return min(1, math.Floor(steps)/k)
	}
}
