// Package shape knows how rigid things go into rooms: round a corner, through a door, up under
// a ceiling, into an opening as it was measured. It knows no check, no verdict, no allowance
// for hands and no reading's trust; those come from the caller.
//
// All lengths of one call are in one unit. Things are rigid and carried level unless a function
// says otherwise. Angles are in radians.
package shape

import (
	"fmt"
	"math"
)

// positive refuses a length that is not above zero and finite.
func positive(what string, lengths ...float64) error {
	for _, l := range lengths {
		if !(l > 0) || math.IsInf(l, 0) {
			return fmt.Errorf("%s %g, want a length above zero", what, l)
		}
	}
	return nil
}

// notNegative refuses a length below zero or not finite.
func notNegative(what string, lengths ...float64) error {
	for _, l := range lengths {
		if !(l >= 0) || math.IsInf(l, 0) {
			return fmt.Errorf("%s %g, want a length of zero or more", what, l)
		}
	}
	return nil
}

// root halves from low to high, between which f goes once from below zero to zero or more,
// until no float64 lies between. It returns the last place below zero.
func root(f func(float64) float64, low, high float64) float64 {
	for {
		middle := low + (high-low)/2
		if middle <= low || middle >= high {
			return low
		}
		if f(middle) >= 0 {
			high = middle
		} else {
			low = middle
		}
	}
}
