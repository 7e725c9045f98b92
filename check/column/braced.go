package column

import (
	"errors"
	"fmt"
	"math"
)

// Bay is one clear height of an upright between things that hold it sideways.
type Bay struct {
	Height, EI float64
	Share      float64 // of the load at the foot that passes through this bay, above 0 up to 1
}

// BracedLoad is the load at the foot at which an upright buckles that runs through over
// several heights, pinned at its ends and held sideways, not against turning, between them.
// It lies at or above the load at which its weakest bay would buckle alone with pinned ends.
//
// Method: stiffness of turning over the supports with the stability functions of R.
// Livesley and D. Chandler (from memory); the load at which it is no longer positive
// definite, by bisection to the last digit.
// Errors: no bay; a height, stiffness or share outside the range said above.
func BracedLoad(bays []Bay) (float64, error) {
	if len(bays) == 0 {
		return 0, errors.New("an upright without a height")
	}
	low, high := math.Inf(1), math.Inf(1)
	for _, b := range bays {
		alone, err := EulerLoad(b.EI, b.Height)
		if err != nil {
			return 0, err
		}
		if !(b.Share > 0) || b.Share > 1 {
			return 0, fmt.Errorf("share %v of the load; expected above 0 up to 1", b.Share)
		}
		// no bay can be held better than clamped, which takes four times the load
		low, high = math.Min(low, alone/b.Share), math.Min(high, 4*alone/b.Share)
	}
	low *= 1 - 1e-12
	for range 100 {
		if middle := (low + high) / 2; stands(bays, middle) {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2, nil
}

// stands eliminates the turnings one by one; every pivot is positive while the upright holds.
func stands(bays []Bay, load float64) bool {
	pivot := 0.0
	for i, b := range bays {
		near, far := turning(b.Height * math.Sqrt(b.Share*load/b.EI))
		unit := b.EI / b.Height
		pivot += near * unit
		if pivot <= 0 {
			return false
		}
		pivot = near*unit - far*unit*far*unit/pivot
		if i == len(bays)-1 {
			return pivot > 0
		}
	}
	return false
}

// turning gives the moments at the near and the far end, in EI/L, that turn one end of a
// compressed bay by one while the other is clamped; angle is L sqrt(P/EI), 0 to 2 pi.
func turning(angle float64) (near, far float64) {
	if angle < .1 { // the closed form loses its digits; series to the fourth power
		square := angle * angle
		return 4 - square*(2.0/15+square*11/6300), 2 + square*(1.0/30+square*13/12600)
	}
	sin, cos := math.Sincos(angle)
	below := 2 - 2*cos - angle*sin
	return angle * (sin - angle*cos) / below, angle * (angle - sin) / below
}
