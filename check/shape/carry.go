package shape

import (
	"fmt"
	"math"
)

// Swept is the clear width that a rectangle sweeps when it is swung in, or dropped in by one
// end: its diagonal.
func Swept(length, depth float64) (float64, error) {
	return math.Hypot(length, depth), notNegative("side", length, depth)
}

// StairHeadroom is the clear height square to the slope of a stair with a headroom measured
// plumb: headroom times the cosine of the slope.
//
// Error: a length that is none.
func StairHeadroom(headroom, riser, tread float64) (float64, error) {
	return headroom * tread / math.Hypot(riser, tread), positive("stair", headroom, riser, tread)
}

// Raise is what is left when a case is slid in low and then raised: the spare under the least
// height on the way after the play, and the most it can be lifted inside. Below zero it does
// not enter, or cannot be lifted.
//
// Error: a height that is none, a play below zero.
func Raise(height, least, inside, play float64) (spare, lift float64, err error) {
	if err := positive("height", height, least, inside); err != nil {
		return 0, 0, err
	}
	return least - play - height, inside - height, notNegative("play", play)
}

// StandOff is how far a part with an edge eased to a radius stays out of a slot's inside
// corner that a cutter left with a radius, for a clearance in all: with q = R-easing,
// 0 if q <= c/2, else q-SQRT(q^2-(q-c/2)^2).
//
// Error: a length below zero.
//
// Source: geometry of two tangent arcs.
func StandOff(cutter, easing, clearance float64) (float64, error) {
	if err := notNegative("radius or clearance", cutter, easing, clearance); err != nil {
		return 0, err
	}
	q, half := cutter-easing, clearance/2
	if q <= half {
		return 0, nil
	}
	return q - math.Sqrt(half*(2*q-half)), nil
}

func tooThick(q, b float64) error {
	return fmt.Errorf("a thickness of %g does not enter a width of %g", q, b)
}
