// Package beam works out straight members that carry load across their length: shelves over
// several uprights, cleats, rails and seats, with slots, overhangs and supports that only push.
//
// It knows lengths, stiffness, loads and supports in any coherent units (in, lb, psi or mm, N,
// MPa). It knows no material, no limit and no check. The theory is Euler and Bernoulli's:
// plane sections, small slopes (sag under a tenth of the span), members more than about
// fifteen times as long as thick, or thicker ones with their shear stiffness given.
//
// Signs: x runs from the left end; loads and sag are positive down, reactions positive up, a
// sagging moment (bottom in tension) is positive, and shear is the slope of the moment, so it
// is positive at the left end of a plain shelf.
package beam

import (
	"fmt"
	"math"
)

// Beam is one straight member, from x = 0 to Length.
type Beam struct {
	Length   float64
	Pieces   []Piece   // stiffness from left to right, without a gap, to the end
	Supports []Support // in any order, no two in one place
	Loads
}

// Piece is a stretch of even stiffness that begins where the one before it ends.
type Piece struct {
	To float64 // x of its right end
	EI float64 // bending stiffness, above zero
	GA float64 // shear stiffness with its shape factor, 5/6 G A for a rectangle; 0 leaves shear out
}

// Support holds the beam up at one place.
type Support struct {
	At        float64
	Stiffness float64 // force per unit of settling; 0 does not settle
	Fixed     bool    // also held against turning
	Rests     bool    // only pushes up; the beam may lift off
}

// Loads are what the beam carries. A load may be negative where something lifts.
type Loads struct {
	Spread []Spread
	Points []Point
}

// Spread is an even load, W per unit of length.
type Spread struct{ From, To, W float64 }

// Point is a load at one place.
type Point struct{ At, P float64 }

func (l Loads) and(more Loads) Loads {
	return Loads{
		Spread: append(append([]Spread(nil), l.Spread...), more.Spread...),
		Points: append(append([]Point(nil), l.Points...), more.Points...),
	}
}

// Solve finds forces, moments and sags. Supports that only rest and would have to pull down
// are let go, one by one, until every one that is left pushes and the beam stands above the
// others. The result is exact within the theory: no mesh to refine.
//
// Errors: a length, stiffness or place outside the range said above; a beam that nothing
// keeps from turning; a load that tips the beam off supports that only push.
func (b Beam) Solve() (*Result, error) {
	if err := b.check(); err != nil {
		return nil, err
	}
	return newMesh(b).settle()
}

func (b Beam) check() error {
	if !(b.Length > 0) || math.IsInf(b.Length, 0) {
		return fmt.Errorf("beam is %v long; expected more than 0", b.Length)
	}
	if err := b.checkPieces(); err != nil {
		return err
	}
	if err := b.checkSupports(); err != nil {
		return err
	}
	for _, s := range b.Spread {
		if !b.holds(s.From) || !b.holds(s.To) || !(s.From < s.To) || !finite(s.W) {
			return fmt.Errorf("load of %v from %v to %v; expected a stretch of the beam from 0 to %v", s.W, s.From, s.To, b.Length)
		}
	}
	for _, p := range b.Points {
		if !b.holds(p.At) || !finite(p.P) {
			return fmt.Errorf("load of %v at %v; expected a place on the beam from 0 to %v", p.P, p.At, b.Length)
		}
	}
	return nil
}

func (b Beam) checkPieces() error {
	from := 0.0
	for _, p := range b.Pieces {
		if !(p.To > from) {
			return fmt.Errorf("piece from %v to %v; expected pieces from left to right", from, p.To)
		}
		if !(p.EI > 0) || !finite(p.EI) || !(p.GA >= 0) || !finite(p.GA) {
			return fmt.Errorf("piece to %v has EI %v and GA %v; expected EI above 0, GA 0 or more", p.To, p.EI, p.GA)
		}
		from = p.To
	}
	if math.Abs(from-b.Length) > b.dust() {
		return fmt.Errorf("stiffness is given to %v; expected to %v", from, b.Length)
	}
	return nil
}

func (b Beam) checkSupports() error {
	fixed := false
	for i, s := range b.Supports {
		if !b.holds(s.At) || !(s.Stiffness >= 0) || !finite(s.Stiffness) {
			return fmt.Errorf("support at %v with stiffness %v; expected a place from 0 to %v, stiffness 0 or more", s.At, s.Stiffness, b.Length)
		}
		for _, other := range b.Supports[:i] {
			if math.Abs(s.At-other.At) <= b.dust() {
				return fmt.Errorf("two supports at %v; expected one", s.At)
			}
		}
		fixed = fixed || s.Fixed
	}
	if len(b.Supports) < 2 && !fixed {
		return fmt.Errorf("%d supports, none held against turning; expected two, or one that is held", len(b.Supports))
	}
	return nil
}

// dust is the length below which two places on the beam are one.
func (b Beam) dust() float64 { return 1e-10 * b.Length }

func (b Beam) holds(x float64) bool { return x >= -b.dust() && x <= b.Length+b.dust() }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
