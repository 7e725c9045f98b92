package chance

import (
	"errors"
	"math"
)

// Bounds are a least and a most of the share of parts that bind on n slots of one clearance
// and one normal error, for a part that may slide; they are closed forms for a live cell.
//
// Independent places: with p the share in which one pair of slots alone binds, n/2 pairs
// that share no slot bind independently, which is the least; the most is the lesser of two
// Sidak bounds: all pairs as if independent, and all slots within half a clearance of the
// true place. Chain: the pair of both ends is the least; the sum over all pairs the most.
//
// Error: fewer than two slots, no spread, clearance below zero.
//
// Source: Z. Sidak, J. Amer. Statist. Assoc. 62 (1967) 626 (from memory).
func Bounds(n int, clearance, sigma float64, chain bool) (least, most float64, err error) {
	if n < 2 || !(sigma > 0) || !(clearance >= 0) {
		return 0, 0, errors.New("bounds want two slots or more, a spread and a clearance of zero or more")
	}
	pair := func(steps int) float64 { return 2 * Tail(clearance/(sigma*math.Sqrt(float64(steps)))) }
	if chain {
		for k := 1; k < n; k++ {
			most += float64(n-k) * pair(k)
		}
		return pair(n - 1), min(most, 1), nil
	}
	least, err = OfSet(pair(2), n/2)
	if err != nil {
		return 0, 0, err
	}
	pairs, err := OfSet(pair(2), n*(n-1)/2)
	if err != nil {
		return 0, 0, err
	}
	each, err := OfSet(2*Tail(clearance/(2*sigma)), n)
	return least, min(pairs, each), err
}

// EqualFlat is the share that binds on n slots of one clearance whose places scatter flat
// within the half range: 1-n*r^(n-1)+(n-1)*r^n with r the clearance over the whole range,
// one at most. Exact, and a closed form for a live cell.
//
// Source: distribution of the range of n uniform values.
func EqualFlat(n int, clearance, half float64) (float64, error) {
	if n < 1 || !(half > 0) || !(clearance >= 0) {
		return 0, errors.New("flat errors want a slot, a half range above zero and a clearance of zero or more")
	}
	r := min(1, clearance/(2*half))
	k := float64(n)
	return 1 - k*math.Pow(r, k-1) + (k-1)*math.Pow(r, k), nil
}
