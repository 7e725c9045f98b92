package beam

import (
	"fmt"
	"math"
)

// Closed forms that stand beside the solver, live on the working tab. The bounds of a run
// were compared with three-moment equations over every on and off loading of some 9,000 runs
// of 2 to 6 bays whose longest bay is up to ten times the shortest: checked, not proved. They
// suppose even stiffness, no overhang, and supports that hold down as well as up. All take
// positive lengths, stiffness and load and return an error for anything else.

// EvenSag is the sag at midspan of a plain shelf under an even load w: 5wL^4/(384EI).
// Source: USDA, Wood Handbook (FPL-GTR-190), ch. 9, form read, constant from memory.
func EvenSag(w, span, ei float64) (float64, error) {
	return 5 * w * math.Pow(span, 4) / (384 * ei), positive(w, span, ei)
}

// EvenMoment is the moment at midspan of a plain shelf under an even load: wL^2/8.
// Source: statics.
func EvenMoment(w, span float64) (float64, error) {
	return w * span * span / 8, positive(w, span)
}

// ShearSag is what shear adds at midspan of a plain shelf under an even load, ga with its
// shape factor: wL^2/(8GA). Worth adding where the span is under fifteen thicknesses.
// Source: USDA, Wood Handbook (FPL-GTR-190), ch. 9, from memory.
func ShearSag(w, span, ga float64) (float64, error) {
	return w * span * span / (8 * ga), positive(w, span, ga)
}

// PointSag is the largest sag of a plain shelf under a point load at a from an end.
// Source: beam tables, from memory.
func PointSag(p, a, span, ei float64) (float64, error) {
	if a >= span {
		return 0, fmt.Errorf("load at %v; expected a place inside the span of %v", a, span)
	}
	a = min(a, span-a)
	return p * a * math.Pow(span*span-a*a, 1.5) / (9 * math.Sqrt(3) * span * ei), positive(p, a, span, ei)
}

// LongestSpan is the longest plain shelf that sags no more than span/n under an even load:
// the cube root of 384EI/(5wn).
// Source: EvenSag, rearranged.
func LongestSpan(w, ei, n float64) (float64, error) {
	return math.Cbrt(384 * ei / (5 * w * n)), positive(w, ei, n)
}

// LastingSag adds the sag of what stands for years, times its creep factor of 1 or more, to
// the sag of what passes.
// Source: NDS (American Wood Council) 3.5.2, from memory.
func LastingSag(factor, lasting, passing float64) (float64, error) {
	if !(factor >= 1) || math.IsInf(factor, 0) {
		return 0, fmt.Errorf("creep factor %v; expected 1 or more", factor)
	}
	return factor*lasting + passing, nil
}

// RunSagBound holds anywhere in a run of bays under any on and off loading; the true sag is
// never over 0.77 of it. The sag of a bay as a plain shelf is no bound for that bay: a short
// one beside long ones can sag more.
func RunSagBound(w, longest, ei float64) (float64, error) { return EvenSag(w, longest, ei) }

// RunMomentBound holds anywhere in a run of bays; two equal bays reach it.
func RunMomentBound(w, longest float64) (float64, error) { return EvenMoment(w, longest) }

// Bay is a bay beside the support that a bound speaks of.
type Bay struct {
	Span float64
	End  bool // the outermost bay of the run
}

// InnerReactionBound is the most that a support between two bays of a run carries. Tributary
// load, or 1.25 times it, is not enough where bays differ.
func InnerReactionBound(w, longest float64, a, b Bay) (float64, error) {
	if longest < max(a.Span, b.Span) {
		return 0, fmt.Errorf("longest bay %v beside bays of %v and %v", longest, a.Span, b.Span)
	}
	turn := func(bay Bay) float64 {
		if bay.End {
			return 1 / bay.Span
		}
		return 1.5 / bay.Span
	}
	return w*(a.Span+b.Span)/2 + w*longest*longest/8*(turn(a)+turn(b)), positive(w, longest, a.Span, b.Span)
}

// EndReactionBound is the most that the outermost support of a run of two bays or more
// carries, a its bay.
func EndReactionBound(w, longest, a float64) (float64, error) {
	if longest < a {
		return 0, fmt.Errorf("longest bay %v beside a bay of %v", longest, a)
	}
	return w*a/2 + w*longest*longest/(16*a), positive(w, longest, a)
}

// OverhangSag is the sag of the tip of an overhang c beyond a bay, the overhang alone loaded:
// wc^3(4L+3c)/(24EI).
// Source: beam tables, from memory.
func OverhangSag(w, c, bay, ei float64) (float64, error) {
	return w * c * c * c * (4*bay + 3*c) / (24 * ei), positive(w, c, bay, ei)
}

// OverhangMoment is the hogging moment of an overhang c over its support: wc^2/2.
// Source: statics.
func OverhangMoment(w, c float64) (float64, error) { return w * c * c / 2, positive(w, c) }

func positive(values ...float64) error {
	for _, v := range values {
		if !(v > 0) || math.IsInf(v, 0) {
			return fmt.Errorf("read %v; expected a number above 0", v)
		}
	}
	return nil
}
