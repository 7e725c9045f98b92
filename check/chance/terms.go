package chance

import (
	"fmt"
	"math"
)

// Term is one size that moves the clearance.
type Term struct {
	Weight float64 // change of the clearance for a change of one in this size: -4 for a film on four faces
	Range  float64 // half range, or a spread of the same meaning in every term; zero or more
}

// WorstCase is how far the clearance moves when every term stands at its worst end at once:
// the sum of the single losses, signs dropped. It supposes nothing about chance. Below four
// contributors it is the one to use.
func WorstCase(terms []Term) (float64, error) {
	sum := 0.0
	for _, t := range terms {
		if err := t.sound(); err != nil {
			return 0, err
		}
		sum += math.Abs(t.Weight) * t.Range
	}
	return sum, nil
}

// RootSumSquare is how far the clearance moves by the square root of the summed squares. It
// holds for independent terms that are centred and of one meaning: all half ranges or all
// two sigma.
func RootSumSquare(terms []Term) (float64, error) {
	sum := 0.0
	for _, t := range terms {
		if err := t.sound(); err != nil {
			return 0, err
		}
		sum += t.Weight * t.Range * t.Weight * t.Range
	}
	return math.Sqrt(sum), nil
}

func (t Term) sound() error {
	if !(t.Range >= 0) || math.IsInf(t.Range, 0) || math.IsNaN(t.Weight) || math.IsInf(t.Weight, 0) {
		return fmt.Errorf("term of weight %g and range %g, want a finite weight and a range of zero or more", t.Weight, t.Range)
	}
	return nil
}
