package anchorage

import (
	"fmt"
	"math"
)

// Weight is a part of a case, or what stands in it.
type Weight struct {
	Force float64
	Arm   float64 // level distance behind the edge on which the case would turn; below zero for an open drawer in front of it
}

// Evenly is a case whose weight stands at mid depth, with the turning edge at its front.
func Evenly(force, depth float64) Weight { return Weight{force, depth / 2} }

// Pull is a level force that would turn the case over, at a height above the turning edge.
type Pull struct {
	Force  float64
	Height float64
}

// Tension is the level force in a fixing at the height that holds the case against the pulls,
// about the edge: (sum of pull*height less sum of weight*arm)/height, and zero where the
// weight alone holds it. The case is rigid, the floor does not give, and the edge does not
// slide.
//
// Error: a force or height below zero, a fixing not above the edge.
//
// Source: statics, moments about the turning edge. House rule for built-ins: ASTM F2057 leaves
// out units that are meant to be fixed.
func Tension(weights []Weight, pulls []Pull, fixing float64) (float64, error) {
	if !(fixing > 0) || math.IsInf(fixing, 0) {
		return 0, fmt.Errorf("fixing %g above the edge, want above zero", fixing)
	}
	holds, err := moment(weights)
	if err != nil {
		return 0, err
	}
	turns := 0.0
	for _, p := range pulls {
		if !(p.Force >= 0) || !(p.Height >= 0) || math.IsInf(p.Force*p.Height, 0) {
			return 0, fmt.Errorf("pull %g at height %g, want zero or more of each", p.Force, p.Height)
		}
		turns += p.Force * p.Height
	}
	return max(0, (turns-holds)/fixing), nil
}

// TippingPull is the level force at the height that is just enough to turn the case over,
// unfixed; zero if it falls by itself.
//
// Error: a weight below zero, a pull not above the edge.
func TippingPull(weights []Weight, height float64) (float64, error) {
	if !(height > 0) || math.IsInf(height, 0) {
		return 0, fmt.Errorf("pull %g above the edge, want above zero", height)
	}
	holds, err := moment(weights)
	if err != nil {
		return 0, err
	}
	return max(0, holds/height), nil
}

// moment is that of the weights about the turning edge, positive where they hold the case.
func moment(weights []Weight) (float64, error) {
	sum := 0.0
	for _, w := range weights {
		if !(w.Force >= 0) || math.IsNaN(w.Arm) || math.IsInf(w.Force*w.Arm, 0) {
			return 0, fmt.Errorf("weight %g at arm %g, want zero or more at a finite arm", w.Force, w.Arm)
		}
		sum += w.Force * w.Arm
	}
	return sum, nil
}
