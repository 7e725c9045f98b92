package chance

import (
	"errors"
	"fmt"
	"math"
)

// Contributor is one independent error of a clearance. It may have a normal part and a flat
// part; either may be zero.
type Contributor struct {
	Weight float64 // change of the clearance for a change of one in this size
	Sigma  float64 // standard deviation of the normal part
	Half   float64 // half range of the flat part: every value within is equally likely
}

// Clearance is a clearance that scatters about its mean: one normal part, and flat parts.
type Clearance struct {
	Mean  float64
	Sigma float64   // standard deviation of all normal parts together
	Flat  []float64 // half ranges of the flat parts, each above zero
}

// Sum gathers the contributors of a clearance. The normal parts become one by root-sum-square,
// which is exact; the flat parts stay as they are.
func Sum(mean float64, contributors ...Contributor) (Clearance, error) {
	c := Clearance{Mean: mean}
	square := 0.0
	for _, k := range contributors {
		w := math.Abs(k.Weight)
		square += w * k.Sigma * w * k.Sigma
		if half := w * k.Half; half != 0 {
			c.Flat = append(c.Flat, half)
		}
		if k.Sigma < 0 || k.Half < 0 {
			return Clearance{}, fmt.Errorf("contributor with sigma %g and half range %g, want zero or more", k.Sigma, k.Half)
		}
	}
	c.Sigma = math.Sqrt(square)
	return c, c.sound()
}

// Below is the share of joints whose clearance is under x; Below(0) binds. Exact: closed
// form for a normal, for a normal and one flat part, and for one or two flat parts alone;
// otherwise inversion of the characteristic function, good to 1e-9.
//
// Error: a spread below zero or not finite; a flat part so small beside the others that the
// inversion does not converge (some 1e-5 of the largest).
//
// Sources: normal plus flat, s/(2a)*(psi((a-m)/s)-psi((-a-m)/s)), by integrating the normal
// share over the flat part; inversion, R. B. Davies, Numerical inversion of a characteristic
// function, Biometrika 60 (1973) 415 (from memory).
func (c Clearance) Below(x float64) (float64, error) {
	if err := c.sound(); err != nil {
		return 0, err
	}
	m := c.Mean - x
	switch flat := c.Flat; {
	case len(flat) == 0 && c.Sigma == 0:
		return step(-m), nil
	case len(flat) == 0:
		return Tail(m / c.Sigma), nil
	case len(flat) == 1:
		return spread{c.Sigma, flat[0]}.below(-m), nil
	case len(flat) == 2 && c.Sigma == 0:
		return belowTwoFlat(-m, flat[0], flat[1]), nil
	}
	return c.invert(m)
}

// Outside is the share of joints tighter than least and the share looser than most.
func (c Clearance) Outside(least, most float64) (tight, loose float64, err error) {
	if least > most {
		return 0, 0, fmt.Errorf("window from %g to %g, want the least first", least, most)
	}
	if tight, err = c.Below(least); err != nil {
		return 0, 0, err
	}
	mirrored := Clearance{Mean: -c.Mean, Sigma: c.Sigma, Flat: c.Flat}
	loose, err = mirrored.Below(-most)
	return tight, loose, err
}

// OfSet is the chance that at least one of n parts binds when each binds with the given
// share by itself.
func OfSet(share float64, n int) (float64, error) {
	if !(share >= 0 && share <= 1) || n < 0 {
		return 0, fmt.Errorf("share %g of %d parts, want a share from 0 to 1 and a count", share, n)
	}
	return -math.Expm1(float64(n) * math.Log1p(-share)), nil
}

func (c Clearance) sound() error {
	if math.IsNaN(c.Mean) || math.IsInf(c.Mean, 0) {
		return fmt.Errorf("mean clearance %g, want a finite one", c.Mean)
	}
	if !(c.Sigma >= 0) || math.IsInf(c.Sigma, 0) {
		return fmt.Errorf("sigma %g, want zero or more", c.Sigma)
	}
	for _, half := range c.Flat {
		if !(half > 0) || math.IsInf(half, 0) {
			return fmt.Errorf("half range %g, want above zero", half)
		}
	}
	return nil
}

// step is the share of an error without spread below x: none at zero, since a clearance of
// exactly zero does not bind.
func step(x float64) float64 {
	if x > 0 {
		return 1
	}
	return 0
}

// belowTwoFlat is the share below x of the sum of two flat errors of half ranges a and b.
func belowTwoFlat(x, a, b float64) float64 {
	corner := func(y float64) float64 { return max(y, 0) * max(y, 0) }
	sum := corner(x+a+b) - corner(x+a-b) - corner(x-a+b) + corner(x-a-b)
	return min(max(sum/(8*a*b), 0), 1)
}

// invert sums the characteristic function of the error at half-odd steps. With steps of
// 2 pi over the reach, the only error of the sum is the share beyond the reach, none here,
// and the terms that are left off.
func (c Clearance) invert(m float64) (float64, error) {
	const wanted, most = 1e-10, 1 << 22
	reach := 10*c.Sigma + math.Abs(m)
	for _, half := range c.Flat {
		reach += half
	}
	h := 2 * math.Pi / reach
	sum := 0.0
	for n := range most {
		k := float64(n) + .5
		t := k * h
		wave, bound := c.wave(t)
		sum += math.Sin(m*t) * wave / k
		// Decays at least as fast as 1/t^2 from here, so the tail is below bound/2.
		if bound < wanted {
			return min(max(.5-sum/math.Pi, 0), 1), nil
		}
	}
	return 0, errors.New("a flat error is too small beside the others to be told apart: leave it out")
}

// wave is the characteristic function of the error at t, and a bound on it for all t above.
func (c Clearance) wave(t float64) (value, bound float64) {
	value = math.Exp(-c.Sigma * c.Sigma * t * t / 2)
	bound = value
	for _, half := range c.Flat {
		value *= math.Sin(half*t) / (half * t)
		bound *= min(1, 1/(half*t))
	}
	return value, bound
}
