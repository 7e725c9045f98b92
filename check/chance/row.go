package chance

import (
	"errors"
	"fmt"
	"math"
)

// Slot is one of the joints that a long part goes onto.
type Slot struct {
	At        float64 // place along the part from the named end; only a stretch uses it
	Clearance float64 // slot less part after finish, both sides together; zero or less binds
	Sigma     float64 // normal error of the place of this joint: root-sum-square of slot and part
	Half      float64 // flat error of the same place
}

// Row is a long part and the slots that it must go onto all at once. The part is rigid and
// may slide along its length as far as the slots let it, unless it is held.
//
// An error common to all slots shifts the part and costs nothing: with errors that share a
// correlation rho, give sigma*sqrt(1-rho). An end wall is a further slot without spread,
// with the clearance that the wall leaves.
type Row struct {
	Slots     []Slot
	Chain     bool    // the errors are of each step from the slot before; that of the first slot is not used
	Held      bool    // the part stands against a stop and cannot slide
	Stretch   float64 // common stretch of one pitch against the other, length per length
	Thickness float64 // sigma of the thickness common to all joints: takes clearance from all alike
}

// Equal is a row of n slots of one clearance and one normal error.
func Equal(n int, clearance, sigma float64) Row {
	r := Row{Slots: make([]Slot, n)}
	for i := range r.Slots {
		r.Slots[i] = Slot{Clearance: clearance, Sigma: sigma}
	}
	return r
}

// Play is what is left to slide for slots and part features that were measured, both from
// the same named end: from low to high. The part binds if low is above high, by the
// difference. Every joint may have clearance by itself and the row bind.
func Play(slots, features, clearances []float64) (low, high float64, err error) {
	if len(slots) == 0 || len(slots) != len(features) || len(slots) != len(clearances) {
		return 0, 0, fmt.Errorf("%d slots, %d part features and %d clearances, want as many of each", len(slots), len(features), len(clearances))
	}
	low, high = math.Inf(-1), math.Inf(1)
	for i, q := range slots {
		low = max(low, q-features[i]-clearances[i]/2)
		high = min(high, q-features[i]+clearances[i]/2)
	}
	return low, high, nil
}

// ErrSample says that no exact integration is known for this row: take Sample.
var ErrSample = errors.New("a chain of three or more slots with flat errors wants sampling")

// Bind is the share of such parts that do not go on. Exact to about 1e-9 by integrating over
// the place of the slot that stops the part on one side. With a common thickness the result
// is integrated over it as well.
//
// Error: no slot; a spread below zero; ErrSample.
//
// Source: the goes-on share is the sum over i of the integral of the density of lo_i at x
// times the product, over the others, of the share with lo_j <= x <= hi_j. For equal normal
// errors this is the distribution of the range of n normals (H. O. Hartley, Biometrika 32
// (1942) 334, from memory).
func (r Row) Bind() (float64, error) {
	if err := r.sound(); err != nil {
		return 0, err
	}
	if r.Thickness == 0 {
		return min(max(1-r.goesOn(0), 0), 1), nil
	}
	least, widest := math.Inf(1), 4*r.Thickness
	for _, s := range r.Slots {
		least = min(least, s.Clearance)
		if e := (spread{s.Sigma, s.Half}); !e.none() {
			widest = min(widest, 4*e.scale())
		}
	}
	reach := 9 * r.Thickness
	if least <= -reach {
		return 1, nil
	}
	f := func(t float64) float64 {
		return density(t/r.Thickness) / r.Thickness * r.goesOn(t)
	}
	share := integrate(f, panels(-reach, min(reach, least), widest, r.bends()))
	return min(max(1-share, 0), 1), nil
}

// bends are the extra thicknesses at which the share that goes on jumps or bends: where the
// reach of the flat errors of two slots, or of one and a stop, just uses up their clearance.
// Without flat errors that is where two slots that do not scatter cease to open together.
func (r Row) bends() (extra []float64) {
	place := func(s Slot) float64 { return r.Stretch * s.At }
	for i, s := range r.Slots {
		off := math.Abs(place(s) - place(r.Slots[0]))
		extra = append(extra, s.Clearance-2*(off-s.Half), s.Clearance-2*(off+s.Half))
		for _, o := range r.Slots[:i] {
			room := (s.Clearance+o.Clearance)/2 - math.Abs(place(s)-place(o))
			sum, difference := s.Half+o.Half, s.Half-o.Half
			extra = append(extra, room-sum, room+sum, room-difference, room+difference)
		}
	}
	return extra
}

// goesOn is the share of parts that go on when each is thicker by extra.
func (r Row) goesOn(extra float64) float64 {
	links := make([]link, len(r.Slots))
	for i, s := range r.Slots {
		links[i] = link{mean: r.Stretch * (s.At - r.Slots[0].At), half: (s.Clearance - extra) / 2, spread: spread{s.Sigma, s.Half}}
		if links[i].half < 0 {
			return 0
		}
	}
	switch {
	case len(links) == 1 && !r.Held:
		return 1
	case r.Chain && r.Held:
		return chainHeld(links)
	case r.Chain:
		return chainFree(links)
	case r.Held:
		share := 1.0
		for _, l := range links {
			share *= l.holds(0)
		}
		return share
	}
	return slides(links)
}

func (r Row) sound() error {
	if len(r.Slots) == 0 {
		return errors.New("a row without slots")
	}
	for i, s := range r.Slots {
		for _, v := range []float64{s.At, s.Clearance, s.Sigma, s.Half} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("slot %d has a figure that is not finite", i+1)
			}
		}
		if s.Sigma < 0 || s.Half < 0 {
			return fmt.Errorf("slot %d has sigma %g and half range %g, want zero or more", i+1, s.Sigma, s.Half)
		}
		if r.Chain && s.Half > 0 && len(r.Slots) > 2 {
			return ErrSample
		}
	}
	if !(r.Thickness >= 0) || math.IsInf(r.Thickness, 0) || math.IsNaN(r.Stretch) || math.IsInf(r.Stretch, 0) {
		return fmt.Errorf("thickness sigma %g and stretch %g, want zero or more and a finite one", r.Thickness, r.Stretch)
	}
	return nil
}

// link is a slot on its way through the integration: where its place lies on average, half
// of its clearance, and how its place (or its step, in a chain) scatters.
type link struct {
	mean, half float64
	spread     spread
}

// holds is the share of this joint that is open when the part stands at x.
func (l link) holds(x float64) float64 {
	if l.spread.none() {
		if math.Abs(x-l.mean) <= l.half {
			return 1
		}
		return 0
	}
	return l.spread.between(x-l.mean-l.half, x-l.mean+l.half)
}

// stops is the density with which this joint begins to be open at x.
func (l link) stops(x float64) float64 {
	return l.spread.density(x - l.mean + l.half)
}

// slides is the share that goes on when the errors are independent and the part may slide.
// Joints without spread fence the slide; those with spread are integrated within the fence.
func slides(links []link) float64 {
	low, high := math.Inf(-1), math.Inf(1) // the fence
	from, to := math.Inf(1), math.Inf(-1)  // where joints with spread may begin to be open
	widest := math.Inf(1)
	var loose []link
	var breaks []float64
	for _, l := range links {
		if l.spread.none() {
			low, high = max(low, l.mean-l.half), min(high, l.mean+l.half)
			continue
		}
		loose = append(loose, l)
		widest = min(widest, 1.5*l.spread.scale())
		from = min(from, l.mean-l.half-l.spread.reach())
		to = max(to, l.mean-l.half+l.spread.reach())
		for _, k := range l.spread.kinks() {
			breaks = append(breaks, l.mean-l.half+k, l.mean+l.half+k)
		}
	}
	share := 0.0
	if low > high {
		return 0
	}
	if !math.IsInf(low, 0) { // the part pushed against the fence goes on, or a joint opens later
		share = 1
		for _, l := range loose {
			share *= l.holds(low)
		}
		from, to = max(from, low), min(to, high)
	}
	if from >= to {
		return share
	}
	f := func(x float64) float64 { return firstOpen(loose, x) }
	return share + integrate(f, panels(from, to, widest, breaks))
}

// firstOpen is the density with which the last of the joints opens at x while all others
// are open: the sum over i of stops_i times the product of the holds of the rest.
func firstOpen(links []link, x float64) float64 {
	sum, all := 0.0, 1.0
	for _, l := range links {
		// sum gains the factor of l on every earlier term, all earlier factors on the term of l.
		h := l.holds(x)
		sum = sum*h + l.stops(x)*all
		all *= h
	}
	return sum
}
