package length

import "fmt"

// quantity is a number with the unit that was typed behind it, if one was.
type quantity struct {
	number
	unit Unit
	said bool
	mark bool // the unit was said by ' alone, which people type for "
}

// quantity reads 19, 19 mm, 3/4", 7'-6 1/2", 1 m 20 cm.
func (p *reader) quantity() (quantity, bool) {
	back := p.at
	n, ok := p.number()
	if !ok || p.failed() {
		p.at = back
		return quantity{}, false
	}
	q := quantity{number: n}
	q.mark = p.kind() == footMark
	q.unit, q.said = p.unit(n)
	switch {
	case q.unit == Foot && q.said:
		return p.inchesBehind(q), !p.failed()
	case q.unit == Inch && q.said && n.whole:
		return p.fractionBehindMark(q), !p.failed()
	case q.unit == Metre && q.said:
		return p.centimetresBehind(q), !p.failed()
	}
	return q, true
}

var lineal = set("lin lineal linear running rn lfd laufende laufender")

// unit reads the unit behind a number.
func (p *reader) unit(n number) (Unit, bool) {
	t := p.ahead(0)
	switch {
	case p.done():
		return Unsaid, false
	case t.kind == footMark:
		p.at++
		return Foot, true
	case t.kind == inchMark:
		p.at++
		return Inch, true
	case t.kind != word:
		return Unsaid, false
	}
	next := p.ahead(1)
	if unit, ok := unitWords[next.text]; ok && next.kind == word && lineal[t.text] {
		p.at += 2
		return unit, true
	}
	unit, ok := unitWords[t.text]
	if !ok || p.raisedBehind() || p.free && n.whole && p.prose() {
		return Unsaid, false
	}
	p.at++
	return unit, true
}

// prose reports whether the word ahead, a unit by its letters, is part of a sentence:
// "2 in drawer", "for 4 m bits".
func (p *reader) prose() bool {
	t, next := p.ahead(0), p.ahead(1)
	if t.text != "in" && t.text != "m" && t.text != "po" && t.text != "pi" && t.text != "cal" {
		return false
	}
	return t.spaced && next.kind == word && next.spaced && !isAxis(next.text) && !sheetWords[next.text]
}

// raisedBehind reports whether the unit ahead is squared or cubed: m2, mm², ft3.
func (p *reader) raisedBehind() bool {
	t := p.ahead(1)
	return t.kind == digits && !t.spaced && (t.text == "2" || t.text == "3")
}

// inchesBehind reads the inches of 7'-6 1/2", 7' 6, 7'6", 7 ft. 6 in.
func (p *reader) inchesBehind(feet quantity) quantity {
	back := p.at
	dashed := p.accept(dash)
	if dashed && p.done() {
		p.at = back
		return feet
	}
	apart := p.ahead(0).spaced && !dashed
	inches, ok := p.number()
	if !ok || p.failed() || feet.fraction {
		p.at = back
		return feet
	}
	unit, said := p.unit(inches)
	if said && unit != Inch || !said && (inches.value >= 12 || apart && p.gluedTimes()) {
		p.at = back
		return feet
	}
	if said && inches.whole {
		inches = p.fractionBehindMark(quantity{number: inches, unit: Inch, said: true}).number
	}
	sum := quantity{number: inches, unit: Inch, said: true}
	sum.value += 12 * feet.value
	sum.typed = p.typed(max(0, back-2), p.at)
	sum.whole, sum.quarter = false, 0
	sum.doubt = join(feet.doubt, sum.doubt)
	for i := range sum.rivals {
		sum.rivals[i] += 12 * feet.value
	}
	switch {
	case inches.value >= 12:
		sum.doubt = join(sum.doubt, fmt.Sprintf("%s in beside feet is more than a foot", plain(inches.value)))
	case !feet.whole:
		sum.doubt = join(sum.doubt, fmt.Sprintf("%s feet and inches besides", feet.typed))
	}
	return sum
}

// gluedTimes reports whether an x is run onto the number read: 8' 2x4 is no 8'-2".
func (p *reader) gluedTimes() bool { return p.kind() == times && !p.ahead(0).spaced }

// fractionBehindMark reads the slip 6"1/2 for 6 1/2".
func (p *reader) fractionBehindMark(q quantity) quantity {
	t := p.ahead(0)
	if t.spaced || t.kind != vulgar && t.kind != digits {
		return q
	}
	back := p.at
	part, ok := number{}, true
	if t.kind == vulgar {
		part = p.vulgar()
	} else {
		part, ok = p.ratio()
	}
	if !ok || part.value >= 1 {
		p.at = back
		return q
	}
	q.number = mixed(q.number, part, q.typed+" "+part.typed)
	q.doubt = join(q.doubt, fmt.Sprintf("the inch mark stands before the fraction, read as %s", q.typed))
	p.accept(inchMark)
	return q
}

// centimetresBehind reads 1 m 20 cm, 1 m 200 mm and 1m20.
func (p *reader) centimetresBehind(q quantity) quantity {
	back := p.at
	t := p.ahead(0)
	if !q.whole || t.kind != digits {
		return q
	}
	part, ok := p.number()
	if !ok || !part.whole {
		p.at = back
		return q
	}
	unit, said := p.unit(part)
	switch {
	case said && (unit == Centimetre || unit == Millimetre):
	case !said && !t.spaced && len(part.typed) == 2:
		unit = Centimetre
	default:
		p.at = back
		return q
	}
	q.value += Convert(part.value, unit, Metre)
	q.step = Convert(part.step, unit, Metre)
	q.whole = false
	return q
}

// reading is one meaning of a quantity.
type reading struct {
	value float64
	unit  Unit
}

// readings lists what the quantity may mean, the likeliest first, and why there is doubt.
func (q quantity) readings(ctx Context) ([]reading, string) {
	unit := q.unit
	if !q.said {
		unit = ctx.Unit
	}
	switch {
	case q.quarter > 0 && !ctx.Plain && (!q.said || unit == Inch):
		return q.roughReadings()
	case q.grouped != nil:
		return q.groupedReadings(unit)
	case q.fraction && !q.said && unit.Metric():
		return q.foreignFraction(unit)
	case unit == Foot && q.doubtfulFoot():
		return q.footReadings()
	}
	found := []reading{{q.value, unit}}
	for _, v := range q.rivals {
		found = append(found, reading{v, unit})
	}
	return found, q.doubt
}

// surfaced gives the thickness in inches of rough hardwood after it is planed on two
// faces, by quarters of an inch. Grading rules of the North American hardwood trade,
// from memory.
var surfaced = map[int]float64{
	4: 13. / 16, 5: 1 + 1./16, 6: 1 + 5./16, 8: 1.75, 10: 2.25, 12: 2.75, 14: 3.25, 16: 3.75,
}

func (q quantity) roughReadings() ([]reading, string) {
	planed := surfaced[q.quarter]
	return []reading{{planed, Inch}, {q.value, Inch}}, fmt.Sprintf(
		"%s is rough lumber: %s when planed, %s as sawn", q.typed, Format(planed, Inch), Format(q.value, Inch))
}

// groupedReadings judges 1,200 and 1.200. Nobody types a thousand inches, centimetres or
// metres for a part; inches and metres are often typed to three decimals.
func (q quantity) groupedReadings(unit Unit) ([]reading, string) {
	as, all := reading{q.value, unit}, reading{*q.grouped, unit}
	doubt := fmt.Sprintf("%s is %s or %s, by what its mark means", q.typed, plain(q.value), plain(*q.grouped))
	small := *q.grouped < 10000
	switch {
	case unit == Metre, !q.comma && unit != Millimetre, !q.comma && !small:
		return []reading{as}, ""
	case (unit == Millimetre || unit == Unsaid) && small:
		return []reading{all, as}, doubt
	}
	return []reading{as, all}, doubt
}

// foreignFraction is a bare fraction where metric is wanted: rules in mm have no eighths.
func (q quantity) foreignFraction(unit Unit) ([]reading, string) {
	inch, here := reading{q.value, Inch}, reading{q.value, unit}
	doubt := join(q.doubt, fmt.Sprintf("%s among %s is taken as inches", q.typed, unit))
	if unit == Metre && q.den <= 4 {
		return []reading{here, inch}, join(q.doubt, fmt.Sprintf("%s among m may be inches", q.typed))
	}
	found := []reading{inch, here}
	for _, v := range q.rivals {
		found = append(found, reading{v, Inch})
	}
	return found, doubt
}

// doubtfulFoot reports whether a foot mark was likely meant for an inch mark: eighths and
// finer, less than a foot, or longer than a room.
func (q quantity) doubtfulFoot() bool {
	switch {
	case q.said && !q.mark:
		return false
	case !q.said:
		return q.fraction && q.den >= 8
	}
	return q.fraction || q.value < 1 || q.value >= 24
}

func (q quantity) footReadings() ([]reading, string) {
	feet, inches := reading{q.value, Foot}, reading{q.value, Inch}
	doubt := join(q.doubt, fmt.Sprintf("%s is marked feet, it may be inches", q.typed))
	if q.value < 1 || q.fraction && (q.den >= 8 || q.value >= 24) {
		return []reading{inches, feet}, doubt
	}
	return []reading{feet, inches}, doubt
}

// length makes the Length of a quantity.
func (q quantity) length(ctx Context) Length {
	found, doubt := q.readings(ctx)
	l := Exact(found[0].value, found[0].unit)
	l.Said, l.Doubt = q.said, doubt
	for _, r := range found[1:] {
		l.Other = append(l.Other, Exact(r.value, r.unit))
	}
	return l
}
