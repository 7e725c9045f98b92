package chance

import "math"

// spread is an error about zero: the sum of a normal and a flat part, either of them zero.
type spread struct {
	sigma, half float64
}

func (s spread) none() bool { return s.sigma == 0 && s.half == 0 }

// scale is the width over which the share below changes, the finest it has.
func (s spread) scale() float64 {
	if s.sigma > 0 {
		return s.sigma
	}
	return s.half
}

// reach is beyond which no error worth counting lies: 9 sigma leaves 1e-19.
func (s spread) reach() float64 { return 9*s.sigma + s.half }

// below is the share of errors under x.
func (s spread) below(x float64) float64 {
	switch {
	case s.none():
		return step(x)
	case s.sigma == 0:
		return min(max((x+s.half)/(2*s.half), 0), 1)
	case s.half < 1e-5*s.sigma: // the closed form would lose its digits; a flat part this small acts as a normal one
		return Tail(-x / math.Hypot(s.sigma, s.half/math.Sqrt(3)))
	}
	share := s.sigma / (2 * s.half) * (psi((x+s.half)/s.sigma) - psi((x-s.half)/s.sigma))
	return min(max(share, 0), 1)
}

// between is the share of errors from x to y.
func (s spread) between(x, y float64) float64 {
	if x >= y {
		return 0
	}
	if x > 0 { // the upper tail keeps its digits when it is turned over
		x, y = -y, -x
	}
	return s.below(y) - s.below(x)
}

// density is the derivative of below, for a spread that is not none.
func (s spread) density(x float64) float64 {
	switch {
	case s.sigma == 0:
		if math.Abs(x) > s.half {
			return 0
		}
		return 1 / (2 * s.half)
	case s.half < 1e-5*s.sigma:
		sigma := math.Hypot(s.sigma, s.half/math.Sqrt(3))
		return density(x/sigma) / sigma
	}
	return (Tail((x-s.half)/s.sigma) - Tail((x+s.half)/s.sigma)) / (2 * s.half)
}

// kinks are the places where the share below bends sharply.
func (s spread) kinks() []float64 {
	if s.half == 0 || s.sigma > s.half {
		return nil
	}
	return []float64{-s.half, s.half}
}
