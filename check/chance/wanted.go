package chance

import (
	"fmt"
	"math"
)

// Widen is how much clearance every slot of the row must gain so that no more than the share
// of parts binds; below zero where there is clearance to spare. Found by halving to 1e-7 of
// the spread, on the side that binds less.
//
// Error: what Bind refuses; a share not between 0 and 1, both left out.
func (r Row) Widen(share float64) (extra float64, err error) {
	if !(share > 0 && share < 1) {
		return 0, fmt.Errorf("share wanted %g, want one between 0 and 1", share)
	}
	if err := r.sound(); err != nil {
		return 0, err
	}
	enough := func(extra float64) bool {
		wide := r
		wide.Slots = make([]Slot, len(r.Slots))
		for i, s := range r.Slots {
			wide.Slots[i] = s
			wide.Slots[i].Clearance += extra
		}
		bound, _ := wide.Bind() // sound, so no error is left
		return bound <= share
	}
	low, step := r.tightest(), r.scatter()
	high := low + step
	for !enough(high) {
		low, step = high, 2*step
		high += step
	}
	for high-low > 1e-7*step {
		middle := low + (high-low)/2
		if enough(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high, nil
}

// tightest is the extra clearance with which the tightest slot has none left, even for the
// thinnest part.
func (r Row) tightest() float64 {
	least := math.Inf(1)
	for _, s := range r.Slots {
		least = min(least, s.Clearance)
	}
	return -least - 9*r.Thickness
}

// scatter is a length of the order in which the row scatters.
func (r Row) scatter() float64 {
	widest := 9 * r.Thickness
	for _, s := range r.Slots {
		widest = max(widest, s.Sigma+s.Half, math.Abs(r.Stretch*(s.At-r.Slots[0].At)))
	}
	if widest == 0 {
		return math.Abs(r.tightest()) + 1e-9 // nothing scatters: any length will do
	}
	return widest
}
