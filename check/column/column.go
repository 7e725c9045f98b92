// Package column works out members that carry load along their length: uprights between
// shelves, posts and feet.
//
// It knows loads, lengths and strengths in any coherent units (in, lb, psi or mm, N, MPa). It
// knows no material, no load, no limit and no check. Members are straight, pinned at their
// ends unless a name says otherwise, and hold their section over the length.
package column

import (
	"fmt"
	"math"
)

// MostSlender is the largest ratio of length to thickness that the stability factor covers.
// Source: NDS (American Wood Council) 3.7.1.4, from memory.
const MostSlender = 50

// CriticalStress is the stress at which a slender column of thickness d and effective length
// le buckles, with a margin in emin: .822 Emin/(le/d)^2.
//
// Source: NDS 3.7.1.5 (second hand).
// Errors: a value that is not positive; le/d over MostSlender.
func CriticalStress(emin, le, d float64) (float64, error) {
	if err := positive(emin, le, d); err != nil {
		return 0, err
	}
	if ratio := le / d; ratio > MostSlender {
		return 0, fmt.Errorf("length %v over thickness %v is %.4g; expected %d at most", le, d, ratio, MostSlender)
	}
	return .822 * emin / (le / d * le / d), nil
}

// StabilityFactor is the share of the crushing strength that buckling leaves: critical is
// CriticalStress, crushing the strength with every factor but this one, c .8 for sawn lumber,
// .85 for round poles, .9 for glued laminated timber.
//
// Source: NDS 3.7.1.5 (second hand), after A. Ylinen, 1956 (from memory).
// Errors: a value that is not positive, c over 1.
func StabilityFactor(critical, crushing, c float64) (float64, error) {
	if err := positive(critical, crushing, c); err != nil {
		return 0, err
	}
	if c > 1 {
		return 0, fmt.Errorf("c is %v; expected above 0 up to 1", c)
	}
	r := critical / crushing
	a := (1 + r) / (2 * c)
	return a - math.Sqrt(a*a-r/c), nil
}

// EulerLoad is the load at which a column with pinned ends buckles: pi^2 EI/L^2.
// Errors: a value that is not positive.
func EulerLoad(ei, length float64) (float64, error) {
	return math.Pi * math.Pi * ei / (length * length), positive(ei, length)
}

// Eccentric is a column with pinned ends under a load that stands off its axis, alike at both
// ends.
type Eccentric struct {
	Load, Off float64 // the load and its distance from the axis, which may be 0
	Length    float64
	E         float64
	Thick     float64 // of the rectangle, in the direction of Off
	Width     float64
}

func (e Eccentric) ei() float64 { return e.E * e.Width * e.Thick * e.Thick * e.Thick / 12 }

// secant is 1/cos of half the angle that the load stands for.
func (e Eccentric) secant() (float64, error) {
	if err := positive(e.Load, e.Length, e.E, e.Thick, e.Width); err != nil {
		return 0, err
	}
	if !(e.Off >= 0) || math.IsInf(e.Off, 0) {
		return 0, fmt.Errorf("load stands %v off the axis; expected 0 or more", e.Off)
	}
	critical, err := EulerLoad(e.ei(), e.Length)
	if err != nil {
		return 0, err
	}
	if e.Load >= critical {
		return 0, fmt.Errorf("load %v; the column buckles at %v", e.Load, critical)
	}
	return 1 / math.Cos(math.Pi/2*math.Sqrt(e.Load/critical)), nil
}

// Bow is how far the middle moves sideways.
//
// Source: secant formula (S. Timoshenko and J. Gere, Theory of Elastic Stability; from memory).
// Errors: a size that is not positive; a load that buckles the column.
func (e Eccentric) Bow() (float64, error) {
	secant, err := e.secant()
	return e.Off * (secant - 1), err
}

// Stress is the largest compression, at the middle of the hollow side.
// Source and errors: as Bow.
func (e Eccentric) Stress() (float64, error) {
	secant, err := e.secant()
	return e.Load / (e.Width * e.Thick) * (1 + 6*e.Off/e.Thick*secant), err
}

// EccentricUse is the share of its strength that a column uses under a load off its axis, for
// stress fc of the load alone: the larger of the two sums of NDS 15.4 and of fc against its
// own strength. critical is CriticalStress, crushing the strength with the stability factor
// in it, bending the bending strength, off and thick as in Eccentric.
//
// Source: NDS 15.4, from memory. Its bow is .8 % under the secant formula at half the
// critical stress and 2.5 % at nine tenths.
// Errors: a value that is not positive; fc at nine tenths of critical or over.
func EccentricUse(fc, critical, crushing, bending, off, thick float64) (float64, error) {
	if err := positive(fc, critical, crushing, bending, thick); err != nil {
		return 0, err
	}
	if !(off >= 0) || math.IsInf(off, 0) {
		return 0, fmt.Errorf("load stands %v off the axis; expected 0 or more", off)
	}
	u := fc / critical
	if u >= .9 {
		return 0, fmt.Errorf("stress %v is %.3g of the critical stress; expected under 0.9", fc, u)
	}
	straight := fc / crushing
	return math.Max(straight, straight*straight+fc*6*off/thick*(1+.234*u)/(bending*(1-u))), nil
}

func positive(values ...float64) error {
	for _, v := range values {
		if !(v > 0) || math.IsInf(v, 0) {
			return fmt.Errorf("read %v; expected a number above 0", v)
		}
	}
	return nil
}
