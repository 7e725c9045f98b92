package anchorage

import (
	"fmt"

	"dryfit/check/beam"
)

// Feet is what each upright brings to the floor, from left to right, when every shelf is one
// continuous piece over all uprights. The first upright stands at 0; bays are the distances
// from one to the next. The uprights do not give, the crossings turn freely and hold down as
// well as up, and each shelf has one stiffness along its length. A foot below zero would lift.
//
// Error: fewer than one bay, a bay that is no length, a load off the shelf.
//
// Source: continuous beam, each shelf by package beam.
func Feet(bays []float64, shelves []beam.Loads) ([]float64, error) {
	supports := []beam.Support{{}}
	end := 0.0
	for i, bay := range bays {
		if !(bay > 0) {
			return nil, fmt.Errorf("bay %d is %g wide, want above zero", i+1, bay)
		}
		end += bay
		supports = append(supports, beam.Support{At: end})
	}
	feet := make([]float64, len(supports))
	for i, loads := range shelves {
		shelf := beam.Beam{
			Length:   end,
			Pieces:   []beam.Piece{{To: end, EI: end * end * end}}, // the stiffness cancels out; this one keeps the figures near one
			Supports: supports,
			Loads:    loads,
		}
		result, err := shelf.Solve()
		if err != nil {
			return nil, fmt.Errorf("shelf %d: %w", i+1, err)
		}
		for k, r := range result.Reactions {
			feet[k] += r
		}
	}
	return feet, nil
}
