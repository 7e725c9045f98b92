package read

import (
	"fmt"
	"math"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// measure is one length of a row on its way to a value: what was read, and where.
type measure struct {
	length.Length
	cell   *Cell
	from   check.Cell // the cell it counts as read in; differs from cell behind a ditto mark
	plain  bool       // the cell holds the number and nothing else
	absent bool       // the cell says that there is none
}

// axes are the lengths of a row by the letter of their axis.
type axes map[byte]measure

// plan is what a row says about its sizes, after the axes have been turned by the role.
type plan struct {
	length, width, thickness measure
	has                      struct{ length, width, thickness bool }
	over                     []measure // axes that found no place
}

func (p *plan) setLength(m measure)    { p.length, p.has.length = m, true }
func (p *plan) setWidth(m measure)     { p.width, p.has.width = m, true }
func (p *plan) setThickness(m measure) { p.thickness, p.has.thickness = m, true }

// lay turns lettered axes into length, width and thickness. The name of a part decides where
// letters leave it open: a side stands, so its height is its length; a shelf lies, so its
// length is the width of the case.
func lay(a axes, role check.Role) plan {
	var p plan
	take := func(l byte) (measure, bool) {
		m, ok := a[l]
		delete(a, l)
		return m, ok
	}
	if m, ok := take('T'); ok {
		p.setThickness(m)
	} else if l, ok := smallAxis(a); ok {
		m, _ := take(l)
		p.setThickness(m)
	}
	order := "LHWD"
	switch {
	case lies(role) && role != check.Drawer && a.onlyPanel():
		// nothing lies high: the two words only name the sides of a panel
		if mm(a['W']) >= mm(a['H']) {
			order = "LWHD"
		}
	case role == check.Front, lies(role):
		order = "LWHD"
		if _, hasDepth := a['D']; hasDepth {
			order = "LWDH"
		}
	case role == check.Side || role == check.Upright || role == check.Divider:
		order = "LHDW"
		if _, hasHeight := a['H']; !hasHeight {
			order = "LWDH"
		}
	default:
		if _, hasHeight := a['H']; !hasHeight {
			order = "LWDH"
		}
	}
	_, hasLength := a['L']
	for i := 0; i < len(order); i++ {
		m, ok := take(order[i])
		switch {
		case !ok:
		case !p.has.length && (hasLength || order[i] != 'D' && !(order[i] == 'W' && len(a) == 0)):
			p.setLength(m)
		case !p.has.width:
			p.setWidth(m)
		default:
			p.over = append(p.over, m)
		}
	}
	return p
}

// onlyPanel reports whether width and height are all that is left.
func (a axes) onlyPanel() bool { return len(a) == 2 && a.has('W') && a.has('H') }

// smallAxis finds the axis that is a thickness by its size, where three are given and none
// is called so.
func smallAxis(a axes) (byte, bool) {
	if len(a) < 3 {
		return 0, false
	}
	small, least, next := byte(0), math.Inf(1), math.Inf(1)
	for l, m := range a {
		x := length.Convert(m.Nominal, m.Unit, length.Millimetre)
		if x < least {
			small, least, next = l, x, least
		} else {
			next = min(next, x)
		}
	}
	if small == 'L' || least > .35*next && least > 64 {
		return 0, false
	}
	return small, true
}

// layUnlettered orders sizes typed without letters: the smallest of three is the thickness,
// the longer plan size the length. section says that the length stands in a column of its
// own, so that two numbers are width and thickness.
func layUnlettered(ms []measure, section bool) plan {
	var p plan
	by := append([]measure(nil), ms...)
	for i := range by { // few enough for the plainest sort; equal sizes keep their order
		for j := i; j > 0 && mm(by[j]) > mm(by[j-1]); j-- {
			by[j], by[j-1] = by[j-1], by[j]
		}
	}
	switch {
	case len(by) >= 3:
		p.setLength(by[0])
		p.setWidth(by[1])
		p.setThickness(by[len(by)-1])
		p.over = append(p.over, by[2:len(by)-1]...)
	case len(by) == 2 && section:
		p.setWidth(by[0])
		p.setThickness(by[1])
	case len(by) == 2:
		p.setLength(by[0])
		p.setWidth(by[1])
	case len(by) == 1:
		p.setLength(by[0])
	}
	return p
}

func mm(m measure) float64 { return length.Convert(m.Nominal, m.Unit, length.Millimetre) }

// measureOf reads one cell of a column of lengths. why says what is wrong where ok is false.
func (rr *rowReader) measureOf(c *Cell, col *column, what string) (m measure, ok bool, why string) {
	m = measure{cell: c, from: c.From()}
	unit := rr.unitOf(col)
	switch c.Kind {
	case Fault, Pending:
		return m, false, c.fault()
	case Truth:
		return m, false, "a truth value, not a length"
	case Number:
		if c.IsDate() {
			return rr.dateAsFraction(m, c)
		}
		if u := suffixUnit(c.Look); u != length.Unsaid {
			unit = u
		}
		m.Length = length.Exact(c.Num, unit)
		m.Said, m.plain = suffixUnit(c.Look) != length.Unsaid, true
		return m, true, ""
	}
	text := c.Text()
	found := rr.names.lengths.of(lengthAsked{text, unit})
	if found.err == nil {
		m.Length = found.l
		return m, true, ""
	}
	_, err := length.Parse(text, length.Context{Unit: unit, Decimal: rr.decimal, What: what})
	if e, isErr := err.(*length.Error); isErr {
		if e.Reason == length.Absent {
			m.absent = length.Nothing(text) == length.None
			return m, false, "it says that nobody knows it yet"
		}
		return m, false, e.Why + "; " + e.Want
	}
	return m, false, fmt.Sprint(err)
}

// unitOf is the unit of bare numbers in a column: what the row says in a column of units
// comes first.
func (rr *rowReader) unitOf(col *column) length.Unit {
	if rr.said != length.Unsaid {
		return rr.said
	}
	return col.unitOr(rr.unit)
}

// unitSaid is the unit that the row names for its sizes, Unsaid where it only counts.
func (rr *rowReader) unitSaid(b *body) length.Unit {
	col := rr.find(fUnit)
	if col == nil {
		return length.Unsaid
	}
	return lengthUnit(b.at(col))
}

// lengthUnit is the unit of sizes that a cell holds and nothing else. Feet and metres are
// left out: there they are what a thing is sold by.
func lengthUnit(c *Cell) length.Unit {
	if c == nil || c.Kind != Words {
		return length.Unsaid
	}
	switch fold(c.Text()) {
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return length.Millimetre
	case "cm":
		return length.Centimetre
	case "in", "inch", "inches", "zoll", "cale", "pouces":
		return length.Inch
	}
	if t := c.Text(); t == `"` || t == "″" || t == "”" {
		return length.Inch
	}
	return length.Unsaid
}

// dateAsFraction reads 4-Mar as the 3/4 that was typed into a cell of the wrong format, and
// a date of 2004 or 2008 as 1-3/4 or 1-7/8.
func (rr *rowReader) dateAsFraction(m measure, c *Cell) (measure, bool, string) {
	d := dateOf(c.Num, c.grid.date1904)
	month, day := c.MonthDay()
	year := d.Year() - 2000
	shown := c.Text()
	x, text := 0., ""
	switch {
	case year > 1 && year <= 16 && year&(year-1) == 0 && day < year && day%2 == 1 && strings.ContainsAny(c.Look.Format.Code, "yY"):
		x = float64(month) + float64(day)/float64(year)
		text = fmt.Sprintf("%d-%d/%d", month, day, year)
	case day > month && isPowerOfTwo(day):
		x, text = float64(month)/float64(day), fmt.Sprintf("%d/%d", month, day)
	case month > day && isPowerOfTwo(month):
		x, text = float64(day)/float64(month), fmt.Sprintf("%d/%d", day, month)
	default:
		return m, false, "a date, and no fraction that a rule has; format the cell as text and type the size again"
	}
	m.Length = length.Exact(x, length.Inch)
	m.Doubt = fmt.Sprintf("the cell holds a date, %s; taken for %s typed into it", shown, text)
	return m, true, ""
}

func isPowerOfTwo(n int) bool { return n > 1 && n <= 64 && n&(n-1) == 0 }

// value makes the value of a measure in the unit of the row, and its doubt if it has one.
func (rr *rowReader) value(m measure, unit length.Unit, field string) (check.Value, *check.Doubt) {
	l := m.Length
	if l.Unit == length.Unsaid {
		l.Unit = unit
	}
	plain := m.plain && l.Unit == unit && l.Doubt == ""
	l = l.In(unit)
	if l.Doubt == "" {
		v := check.Between(l.Low, l.Nominal, l.High).At(m.from)
		v.Plain = plain
		if l.Low < l.High {
			return v, &check.Doubt{Field: field, Cell: m.from, Text: m.cell.Text(), Why: "typed as a range",
				Readings: []string{length.Format(l.Low, unit), length.Format(l.High, unit)}}
		}
		return v, nil
	}
	w := l.Widest()
	v := check.Between(w.Low, l.Nominal, w.High).At(m.from)
	v.Guessed, v.Why = true, l.Doubt
	d := &check.Doubt{Field: field, Cell: m.from, Text: m.cell.Text(), Why: l.Doubt, Readings: []string{l.String()}}
	if len(l.Other) == 0 && l.Low < l.High {
		d.Readings = []string{length.Format(l.Low, unit), length.Format(l.High, unit)}
	}
	for _, o := range l.Other {
		d.Readings = append(d.Readings, o.In(unit).String())
	}
	if len(l.Other) == 0 && m.cell.IsDate() {
		d.Readings = append(d.Readings, "the date "+m.cell.Text())
	}
	return v, d
}

// rowUnit is the unit a row is given in: that of its texts where all agree, else the tab's.
func rowUnit(tab length.Unit, ms []measure) length.Unit {
	metric, imperial := 0, 0
	for _, m := range ms {
		switch {
		case m.Unit.Metric():
			metric++
		case m.Unit.Imperial():
			imperial++
		}
	}
	switch {
	case metric > 0 && imperial == 0:
		return length.Millimetre
	case imperial > 0 && metric == 0:
		return length.Inch
	}
	return tab
}
