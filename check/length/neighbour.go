package length

import (
	"fmt"
)

// lastUnit is the first unit said in or behind the first term.
func lastUnit(terms []term) (Unit, bool) {
	for _, t := range terms {
		if t.said {
			return t.unit, true
		}
	}
	return Unsaid, false
}

// unitOf is the unit of the i-th term: its own, or the next one typed behind it, for one
// trailing mark serves all, or the last one before it, or that of the context.
func (f *finder) unitOf(terms []term, i int) Unit {
	if terms[i].said {
		return terms[i].unit
	}
	if unit, ok := lastUnit(terms[i:]); ok {
		if unit == Foot && !feetPair(terms, i) {
			return Inch
		}
		return f.overruled(unit, terms[i])
	}
	for j := i - 1; j >= 0; j-- {
		switch {
		case !terms[j].said:
		case terms[j].unit != Foot:
			if f.ctx.Unit != Unsaid {
				return f.ctx.Unit
			}
			return terms[j].unit
		case sheetPair(terms[j].value, terms[i].value):
			return Foot
		default:
			return Inch
		}
	}
	return f.ctx.Unit
}

// feetPair reports whether a bare number can take the foot mark behind it: 4x8', but not
// the 12 of 3/4 x 12 x 8'.
func feetPair(terms []term, i int) bool {
	for _, t := range terms[i+1:] {
		if t.said {
			return sheetPair(terms[i].value, t.value)
		}
	}
	return false
}

// longestPart is the inches beyond which a bare number is no part of joinery: 12 ft, the
// longest sheet. Common practice.
const longestPart = 144

// overruled keeps the unit of the context for a bare number far too large for the mark
// behind it: 600 x 300 x 3/4" among millimetres.
func (f *finder) overruled(unit Unit, t term) Unit {
	if unit.Imperial() && f.ctx.Unit.Metric() && Convert(t.value, unit, Inch) > longestPart {
		return f.ctx.Unit
	}
	return unit
}

// doubtUnit raises a doubt where the unit taken from a neighbour is not that of the
// context, or inches were taken beside feet.
func (f *finder) doubtUnit(l *Length, t term, unit Unit, terms []term, i int) {
	rival := Unsaid
	switch {
	case unit == Unsaid || l.Unit != unit:
		return
	case f.ctx.Unit != Unsaid && f.ctx.Unit.Metric() != unit.Metric():
		rival = f.ctx.Unit
	case f.ctx.Unit.Metric() && unit == f.ctx.Unit:
		if behind, ok := lastUnit(terms[i:]); ok && behind.Imperial() {
			rival = behind
		}
	case unit == Inch && t.whole && f.ctx.Unit == Unsaid && besideFeet(terms):
		rival = Foot
	case unit == Foot:
		if _, behind := lastUnit(terms[i:]); !behind {
			rival = Inch
		}
	}
	if rival == Unsaid || rival.Imperial() && Convert(t.value, rival, Inch) > longestPart {
		return
	}
	l.Doubt = join(l.Doubt, fmt.Sprintf("%s is taken as %s, it may be %s", t.typed, unit, rival))
	l.Other = append(l.Other, Exact(t.value, rival))
}

func besideFeet(terms []term) bool {
	for _, t := range terms {
		if t.said && t.unit == Foot {
			return true
		}
	}
	return false
}
