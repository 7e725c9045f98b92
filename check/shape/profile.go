package shape

import (
	"errors"
	"fmt"
	"math"
)

// Reading is one measure of a wall, floor or ceiling: how far it stands off a true line, at a
// place along it.
type Reading struct{ Along, Off float64 }

// Profile is a wall, floor or ceiling as it was read, in rising order along it, two readings
// or more. It is straight from one reading to the next, and beyond the outer two, but for
// the Doubt. One reading says nothing of what lies beside it: a caller who takes a wall as
// true writes the reading twice.
type Profile []Reading

// Doubt is what the readings may hide.
type Doubt struct {
	Reading float64 // most error of one reading, either way
	Bow     Bow     // most bow that nobody read
}

// Bow is a rise in the middle of a length: the sharpest bend that a surface has. The zero Bow
// is none. Between two readings it costs rise*(gap/over)^2, so a reading in the middle of a gap
// leaves a quarter.
type Bow struct{ Rise, Over float64 }

// bend is half of the second derivative that the bow stands for.
func (b Bow) bend() float64 {
	if b.Rise == 0 {
		return 0
	}
	return 4 * b.Rise / (b.Over * b.Over)
}

func (d Doubt) sound() error {
	if err := notNegative("doubt", d.Reading, d.Bow.Rise); err != nil {
		return err
	}
	if d.Bow.Rise > 0 {
		return positive("length of the bow", d.Bow.Over)
	}
	return nil
}

func (p Profile) sound(what string) error {
	if len(p) < 2 {
		return fmt.Errorf("%s with %d readings, want two or more", what, len(p))
	}
	for i, r := range p {
		if math.IsNaN(r.Along+r.Off) || math.IsInf(r.Along+r.Off, 0) {
			return errors.New(what + " with a reading that is not finite")
		}
		if i > 0 && !(r.Along > p[i-1].Along) {
			return fmt.Errorf("%s with readings at %g and then %g, want them in rising order", what, p[i-1].Along, r.Along)
		}
	}
	return nil
}

// most is the most that the profile can stand off between two places.
//
// A function whose second derivative is within 2k of zero lies within
// k*ABS((x-a)*(x-b)) of the line through its values at a and b (error of linear interpolation).
// An error of the readings counts once between them and grows beyond.
func (p Profile) most(from, to float64, d Doubt) float64 {
	k, most := d.Bow.bend(), math.Inf(-1)
	for i := range len(p) - 1 {
		a, b := p[i], p[i+1]
		low, high := max(from, a.Along), min(to, b.Along)
		if i == 0 {
			low = from // straight on beyond the first reading
		}
		if i == len(p)-2 {
			high = to
		}
		if low > high {
			continue
		}
		slope := (b.Off - a.Off) / (b.Along - a.Along)
		at := func(x float64) float64 {
			from, to := math.Abs(x-a.Along), math.Abs(x-b.Along)
			return a.Off + slope*(x-a.Along) + k*from*to + d.Reading*(from+to)/(b.Along-a.Along)
		}
		most = max(most, at(low), at(high))
		if k > 0 {
			if top := (a.Along+b.Along)/2 + slope/(2*k); top > max(low, a.Along) && top < min(high, b.Along) {
				most = max(most, at(top))
			}
		}
		for _, r := range []Reading{a, b} { // a reading is a kink of the bound when the range runs past it
			if r.Along > low && r.Along < high {
				most = max(most, at(r.Along))
			}
		}
	}
	return most
}

// least is the least that the profile can stand off between two places.
func (p Profile) least(from, to float64, d Doubt) float64 {
	return -p.turnedOver().most(from, to, d)
}

func (p Profile) turnedOver() Profile {
	over := make(Profile, len(p))
	for i, r := range p {
		over[i] = Reading{r.Along, -r.Off}
	}
	return over
}

// at is where the profile stands at a place, without doubt.
func (p Profile) at(x float64) float64 { return p.most(x, x, Doubt{}) }

func (p Profile) first() float64 { return p[0].Along }

func (p Profile) last() float64 { return p[len(p)-1].Along }
