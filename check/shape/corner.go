package shape

import (
	"fmt"
	"math"
)

// Corner is where two halls meet at a right angle, both with straight walls.
type Corner struct {
	From, To float64 // clear widths of the hall that one comes from and the hall that one goes to
}

// Turned is the longest rectangle of depth t that can be turned round the corner with its
// long side along the outer walls, and the angle at which it is tightest, from the length
// of the hall it comes from. Exact to the last digits.
//
// With k the tangent of the angle across the wider hall, the length that passes at an angle is
// G(k) = (a*k+b-t*SQRT(1+k^2))*SQRT(1+k^2)/k, whose derivative has the sign of
// h(k) = a*k^3-b+t*(1-k^2)*SQRT(1+k^2). For t up to the narrower hall h falls from t-b, then
// rises without end, so it has one root above zero, and there G is least.
//
// Error: a hall that is no width, a depth below zero or above the narrower hall.
//
// Source: ladder in a corridor with thickness; the stationary point as in the fixed point
// k = ((b-t*(1-k^2)*SQRT(1+k^2))/a)^(1/3).
func (c Corner) Turned(t float64) (longest, angle float64, err error) {
	if err := c.sound(t); err != nil {
		return 0, 0, err
	}
	narrow, wide := min(c.From, c.To), max(c.From, c.To)
	if t > narrow {
		return 0, 0, fmt.Errorf("depth %g does not enter a hall of %g", t, narrow)
	}
	h := func(k float64) float64 {
		return wide*k*k*k - narrow + t*(1-k*k)*math.Sqrt(1+k*k)
	}
	// h(1) = wide-narrow is zero or more, so the root is at 1 or below.
	k := root(h, 0, 1)
	longest = turnedAt(wide, narrow, t, k)
	angle = math.Atan(k)
	if c.From >= c.To {
		angle = math.Pi/2 - angle
	}
	return longest, angle, nil
}

// turnedAt is the length that passes at the tangent k of the angle; no k gives less than
// the longest.
func turnedAt(wide, narrow, t, k float64) float64 {
	root := math.Sqrt(1 + k*k)
	return (wide*k + narrow - t*root) * root / k
}

// TurnedLive is Turned as a spreadsheet can follow it: k starts at (b/a)^(1/3), with a the
// wider hall, and takes some steps of the fixed point; the length at that k. Never too short:
// for halls of 28 to 96 in and depths to 24 in it is up to 4.6 in too long after no step and
// .05 in after three.
//
// Error: as Turned; steps below zero.
func (c Corner) TurnedLive(t float64, steps int) (float64, error) {
	if err := c.sound(t); err != nil {
		return 0, err
	}
	narrow, wide := min(c.From, c.To), max(c.From, c.To)
	if t > narrow || steps < 0 {
		return 0, fmt.Errorf("depth %g in a hall of %g and %d steps, want a depth that enters and a count", t, narrow, steps)
	}
	k := math.Cbrt(narrow / wide)
	for range steps {
		k = math.Cbrt((narrow - t*(1-k*k)*math.Sqrt(1+k*k)) / wide)
	}
	return turnedAt(wide, narrow, t, k), nil
}

// Way is how a piece gets round a corner.
type Way int

const (
	NoWay      Way = iota
	SlidWay        // without turning: along the one hall lengthwise, along the other sideways
	TurningWay     // turned with its long side along the outer walls
)

// Pass is how a plan of length by depth gets round the corner, NoWay if it cannot. A piece
// is furthest from the inner corner when it is pushed into the outer one. There the inner
// corner blocks an angle if a*sin+b*cos < t+l*sin*cos; where it does, the piece is also wider
// than either hall as long as t enters both, so Turned is exact and not only safe.
//
// Error: a hall or plan that is no width.
func (c Corner) Pass(length, depth float64) (Way, error) {
	if err := positive("hall or plan", c.From, c.To, length, depth); err != nil {
		return NoWay, err
	}
	l, t := max(length, depth), min(length, depth)
	switch {
	case l <= c.To && t <= c.From, l <= c.From && t <= c.To:
		return SlidWay, nil
	case t > min(c.From, c.To):
		return NoWay, nil
	}
	longest, _, err := c.Turned(t)
	if err != nil || l > longest {
		return NoWay, err
	}
	return TurningWay, nil
}

func (c Corner) sound(depth float64) error {
	if err := positive("hall", c.From, c.To); err != nil {
		return err
	}
	return notNegative("depth", depth)
}
