package length

import (
	"fmt"
	"math"
)

// Length is one length as read, in the unit it was typed in.
type Length struct {
	// Low ≤ Nominal ≤ High, all in Unit. They are equal unless a tolerance, a range or a
	// word such as "heavy 1/16" was typed. Nominal is the number typed, or the middle of
	// a range; "94 1/4 heavy 1/16" is one, from 94 1/4 to 94 5/16.
	Low, Nominal, High float64
	// Unit is the unit typed, or that of the context, or Unsaid. Feet and inches together
	// are given in inches, metres and centimetres together in metres.
	Unit Unit
	// Said is true where the unit stood in the text itself.
	Said bool
	// Doubt says in words why the reading is doubtful. Empty: it can be read in one way.
	Doubt string
	// Other holds the further readings of a doubtful text, the likeliest first. Some
	// doubts have none: "about 32" has a wider range instead.
	Other []Length
	// Note keeps the words that stood beside the number: "VIF", "clr", "o.c.".
	Note string
	// Count is the number of pieces typed with it (2x 200 mm), 0 where none is.
	Count int
}

// Exact is a length without tolerance or doubt.
func Exact(value float64, unit Unit) Length {
	return Length{Low: value, Nominal: value, High: value, Unit: unit, Said: unit != Unsaid}
}

// In expresses the length, and its other readings, in another unit. Where no unit was ever
// said the number is taken to be of the unit asked for, with a Doubt and the reading in
// the other system beside it.
func (l Length) In(unit Unit) Length {
	if l.Unit == Unsaid && unit != Unsaid {
		l = l.supposed(unit)
	}
	from := l.Unit
	l.Low, l.Nominal, l.High = Convert(l.Low, from, unit), Convert(l.Nominal, from, unit), Convert(l.High, from, unit)
	if unit != Unsaid {
		l.Unit = unit
	}
	others := make([]Length, 0, len(l.Other))
	for _, o := range l.Other {
		others = append(others, o.In(unit))
	}
	if len(others) > 0 {
		l.Other = others
	}
	return l
}

// supposed gives a bare length a unit that nobody said, and says so.
func (l Length) supposed(unit Unit) Length {
	swapped := Millimetre
	if unit.Metric() {
		swapped = Inch
	}
	rival := Length{Low: l.Low, Nominal: l.Nominal, High: l.High, Unit: swapped}
	l.Unit = unit
	others := make([]Length, 0, len(l.Other)+1)
	for _, o := range l.Other {
		if o.Unit == Unsaid {
			o.Unit = unit
		}
		others = append(others, o)
	}
	l.Other = append(others, rival)
	l.Doubt = join(l.Doubt, fmt.Sprintf("no unit is given: %s is taken as %s, it may be %s",
		plain(l.Nominal), unit, swapped))
	return l
}

// Widest is the length with Low and High drawn out over all its readings, in its own unit.
// Nominal, Doubt and Other stay.
func (l Length) Widest() Length {
	for _, o := range l.Other {
		o = o.Widest()
		if l.Unit != Unsaid && o.Unit != Unsaid {
			o = o.In(l.Unit)
		}
		l.Low, l.High = math.Min(l.Low, o.Low), math.Max(l.High, o.High)
	}
	return l
}

// String prints the length with its unit, for messages: "2 5/16 in", "6 to 8 mm".
func (l Length) String() string {
	if l.Low < l.High {
		return Figure(l.Low, l.Unit) + " to " + Format(l.High, l.Unit)
	}
	return Format(l.Nominal, l.Unit)
}

// join puts two remarks into one.
func join(a, b string) string {
	switch {
	case a == "", a == b:
		return b
	case b == "":
		return a
	}
	return a + "; " + b
}
