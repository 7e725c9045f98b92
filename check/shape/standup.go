package shape

import (
	"errors"
	"fmt"
	"math"
)

// Point is a corner of an outline seen from the side: X forward from the back, Y up from the
// floor as it will stand.
type Point struct{ X, Y float64 }

// Outline is a case seen from the side, its corners in order or not: only the furthest count.
type Outline []Point

// Cuts are what is missing at two corners of a case: relief at the top of the front (a crown
// left off, a recess) and a notch at the bottom of the back (a base or skirting cut out).
type Cuts struct {
	TopHeight, TopDepth       float64
	BottomHeight, BottomDepth float64
}

// Case is the outline of a case of a height and depth less its cuts.
//
// Error: a size that is no length, a cut below zero or past the case.
func Case(height, depth float64, cut Cuts) (Outline, error) {
	if err := positive("case", height, depth); err != nil {
		return nil, err
	}
	if err := notNegative("cut", cut.TopHeight, cut.TopDepth, cut.BottomHeight, cut.BottomDepth); err != nil {
		return nil, err
	}
	if cut.TopHeight+cut.BottomHeight >= height || cut.TopDepth >= depth || cut.BottomDepth >= depth {
		return nil, fmt.Errorf("cuts %+v leave nothing of a case %g high and %g deep", cut, height, depth)
	}
	return Outline{
		{cut.BottomDepth, 0}, {depth, 0},
		{depth, height - cut.TopHeight}, {depth - cut.TopDepth, height - cut.TopHeight}, {depth - cut.TopDepth, height},
		{0, height}, {0, cut.BottomHeight}, {cut.BottomDepth, cut.BottomHeight},
	}, nil
}

// StandUp is the clear height that the outline takes while it is turned from lying on its
// back to standing, resting on the floor all the way, and the tilt from upright at which it
// takes most. Exact: the height at a tilt is the largest rise over all pairs of corners, and
// over a quarter turn each pair reaches its distance if its direction passes the vertical.
//
// Error: fewer than three corners, a corner that is not finite.
func (o Outline) StandUp() (height, tilt float64, err error) {
	if err := o.sound(); err != nil {
		return 0, 0, err
	}
	o.pairs(func(d Point) {
		switch distance := math.Hypot(d.X, d.Y); {
		case d.X >= 0 && d.Y >= 0 && distance > height:
			height, tilt = distance, math.Atan2(d.X, d.Y)
		case d.Y > height:
			height, tilt = d.Y, 0
		case d.X > height:
			height, tilt = d.X, math.Pi/2
		}
	})
	return height, tilt, nil
}

// Sticks are the tilts from upright between which the outline is higher than the ceiling:
// it sticks first at the larger one on its way up. None if it goes up.
//
// Error: as StandUp; a ceiling that is no height.
func (o Outline) Sticks(ceiling float64) (from, to float64, sticks bool, err error) {
	if err := o.sound(); err != nil {
		return 0, 0, false, err
	}
	if err := positive("ceiling", ceiling); err != nil {
		return 0, 0, false, err
	}
	to = math.Pi / 2
	o.pairs(func(d Point) {
		distance := math.Hypot(d.X, d.Y)
		if distance <= ceiling {
			return
		}
		middle, half := math.Atan2(d.X, d.Y), math.Acos(ceiling/distance)
		low, high := max(0, middle-half), min(math.Pi/2, middle+half)
		if low < high {
			sticks = true
			from, to = max(from, high), min(to, low)
		}
	})
	if !sticks {
		return 0, 0, false, nil
	}
	return from, to, true, nil
}

// pairs shows every difference between two corners, both ways round.
func (o Outline) pairs(see func(d Point)) {
	for _, p := range o {
		for _, q := range o {
			see(Point{q.X - p.X, q.Y - p.Y})
		}
	}
}

func (o Outline) sound() error {
	if len(o) < 3 {
		return fmt.Errorf("outline of %d corners, want three or more", len(o))
	}
	for _, p := range o {
		if math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0) {
			return errors.New("outline with a corner that is not finite")
		}
	}
	return nil
}

// TallestUnder is the tallest plain case of a depth that stands up under a ceiling:
// SQRT(C^2-D^2).
//
// Error: a length that is none; a depth not under the ceiling.
func TallestUnder(ceiling, depth float64) (float64, error) {
	if err := positive("ceiling and depth", ceiling, depth); err != nil {
		return 0, err
	}
	if depth >= ceiling {
		return 0, fmt.Errorf("depth %g under a ceiling of %g, want a lesser one", depth, ceiling)
	}
	return math.Sqrt((ceiling - depth) * (ceiling + depth)), nil
}
