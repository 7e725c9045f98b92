package chance

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// Sample is the share that Bind gives, found by trying parts at random. The same seed gives
// the same share. It serves rows that no integration covers and stands as a second opinion
// on those that one does. The standard error is that of the share: two in three samplings
// lie within it. Where no part bound, it is that of a share of one in the number of parts.
func (r Row) Sample(parts int, seed uint64) (share, standardError float64, err error) {
	if err := r.sound(); err != nil && err != ErrSample {
		return 0, 0, err
	}
	if parts < 1 {
		return 0, 0, fmt.Errorf("a sample of %d parts, want one or more", parts)
	}
	dice := rand.New(rand.NewPCG(seed, 0))
	bound := 0
	for range parts {
		if r.try(dice) {
			bound++
		}
	}
	n := float64(parts)
	share = float64(bound) / n
	guess := min(max(share, 1/n), 1-1/n)
	return share, math.Sqrt(guess * (1 - guess) / n), nil
}

// try makes one part at random and says whether it binds.
func (r Row) try(dice *rand.Rand) bool {
	extra := 0.0
	if r.Thickness > 0 {
		extra = r.Thickness * dice.NormFloat64()
	}
	low, high := math.Inf(-1), math.Inf(1)
	if r.Held {
		low, high = 0, 0
	}
	walked := 0.0
	for i, s := range r.Slots {
		off := s.Sigma*dice.NormFloat64() + s.Half*(2*dice.Float64()-1)
		if r.Chain {
			if i > 0 {
				walked += off
			}
			off = walked
		}
		place := off + r.Stretch*(s.At-r.Slots[0].At)
		low = max(low, place-(s.Clearance-extra)/2)
		high = min(high, place+(s.Clearance-extra)/2)
	}
	return low > high
}
