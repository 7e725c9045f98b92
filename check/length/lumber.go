package length

import (
	"fmt"
	"math"
)

// dressedThick and dressedWide give the dry dressed size in inches of nominal softwood
// boards and dimension lumber: American Softwood Lumber Standard PS 20, from memory.
var (
	dressedThick = map[float64]float64{1: .75, 2: 1.5, 3: 2.5, 4: 3.5, 6: 5.5, 8: 7.25}
	dressedWide  = map[float64]float64{
		2: 1.5, 3: 2.5, 4: 3.5, 5: 4.5, 6: 5.5, 8: 7.25, 10: 9.25, 12: 11.25,
	}
)

// section gives a nominal section, 2x4 or 4x4 post x 8', both its readings: dressed first,
// true besides. It is one only alone or with a length far greater than itself.
func section(size *Size, terms []term, sheet bool) bool {
	if len(terms) < 2 || len(terms) > 3 {
		return false
	}
	at, along := 0, 2 // of the section and of its length
	if len(terms) == 3 && terms[0].said && terms[0].unit == Foot {
		at, along = 1, 0 // 8' 2x4
	}
	a, b := terms[at], terms[at+1]
	thick, ok1 := dressedThick[a.value]
	wide, ok2 := dressedWide[b.value]
	if !ok1 || !ok2 || a.value > b.value || !sectionSide(a) || !sectionSide(b) {
		return false
	}
	if len(terms) == 3 && !stick(&size.Axes[along].Length, terms[along]) {
		return false
	}
	doubt := fmt.Sprintf("nominal %s x %s is %s x %s in dressed", a.typed, b.typed, fraction(thick), fraction(wide))
	feet := len(terms) == 2 && sheetPair(a.value, b.value) && !a.said && !b.said
	if feet {
		doubt += ", or it is a sheet in feet"
	}
	for i, dressed := range []float64{thick, wide} {
		sawn := terms[at+i].value
		readings := []Length{Exact(dressed, Inch), Exact(sawn, Inch)}
		if feet {
			readings = append(readings, Exact(sawn, Foot))
		}
		if feet && sheet {
			readings = []Length{readings[2], readings[0], readings[1]}
		}
		axis := &size.Axes[at+i]
		said := axis.Said
		axis.Length = readings[0]
		axis.Said, axis.Doubt, axis.Other = said, doubt, readings[1:]
	}
	return true
}

// stick reports whether a length is that of a stick of lumber. A bare number of feet
// that lumber is sold in, 2x6x10, becomes feet, with its doubt.
func stick(l *Length, t term) bool {
	if !stickFeet(t) || l.Unit.Metric() {
		return runs(*l)
	}
	was := bare(*l)
	if was.Unit == Unsaid {
		was.Unit = Inch
	}
	*l = Exact(t.value, Foot)
	l.Said = false
	l.Doubt = fmt.Sprintf("%s behind a nominal section is taken as feet", t.typed)
	l.Other = []Length{was}
	return true
}

// sectionSide reports whether a term can be one number of a nominal section: whole, bare
// or in inches, without letter.
func sectionSide(t term) bool {
	return t.whole && t.letter == 0 && (!t.said || t.unit == Inch) && t.end == nil && !t.near && t.lean == 0 && t.above == nil
}

// stickFeet reports whether a bare number is a length in feet that lumber is sold in: 2x6x10.
func stickFeet(t term) bool {
	return t.whole && !t.said && t.letter == 0 && t.value >= 8 && t.value <= 20 && int(t.value)%2 == 0
}

// runs reports whether a length is that of a stick: two feet, twice the widest section.
func runs(l Length) bool {
	if l.Unit == Unsaid {
		return l.Nominal >= 24
	}
	return Convert(l.Nominal, l.Unit, Inch) >= 24
}

// sheet reads the bare feet of a sheet behind or before its thickness: .75x4x8.
func sheet(size *Size, terms []term) bool {
	if len(terms) != 3 {
		return false
	}
	for thin := range 3 {
		a, b := (thin+1)%3, (thin+2)%3
		if !sheetSide(terms[a]) || !sheetSide(terms[b]) || !sheetPair(terms[a].value, terms[b].value) {
			continue
		}
		t := size.Axes[thin].Length
		if t.Unit != Unsaid && Convert(t.Nominal, t.Unit, Inch) > 2 || t.Unit == Unsaid && t.Nominal > 2 {
			continue
		}
		for _, i := range []int{a, b} {
			axis := &size.Axes[i]
			was := axis.Length
			axis.Length = Exact(terms[i].value, Foot)
			axis.Said = false
			axis.Doubt = fmt.Sprintf("%s x %s is taken as the feet of a sheet", terms[a].typed, terms[b].typed)
			axis.Other = []Length{bare(was)}
			if was.Unit == Unsaid {
				axis.Other[0].Unit = Inch
			}
		}
		return true
	}
	return false
}

func sheetSide(t term) bool { return t.whole && !t.said && t.letter == 0 }

// sheetPair reports whether two numbers are the feet of a sheet as it is sold.
func sheetPair(a, b float64) bool {
	low, high := math.Min(a, b), math.Max(a, b)
	switch low {
	case 4:
		return high == 8 || high == 9 || high == 10 || high == 12
	case 5:
		return high == 5 || high == 10 || high == 12
	}
	return false
}
