package length

import (
	"fmt"
	"math"
)

// term is a quantity with what narrows or widens it: "~32 11/16", "6-8 mm", "19 ±0.5",
// "94 1/4 heavy 1/16".
type term struct {
	quantity
	end      *quantity // upper end of a range
	below    *quantity // tolerance down
	above    *quantity // tolerance up
	near     bool      // "about", with no amount
	lean     int       // 1 heavy, -1 light
	amount   *quantity // by how much
	stray    bool      // a lone dash or plus stands behind
	from, to int       // tokens
	letter   byte
	again    []term // the same said again in brackets
	note     string // the layers in brackets
	rival    *term  // another reading of the whole term
	weak     bool   // bare among words: part of a size only with an x
}

var (
	nearWords = set(`approx approximately appr ca circa about abt roughly around env environ
		ungefähr etwa rund okolo ok ongeveer cirka aprox approssimativamente aproximadamente`)
	heavyWords = set("heavy strong fat full plus over")
	lightWords = set("light scant skinny shy under minus")
	toWords    = set("to thru through bis à jusqu do tot till")
)

// term reads one term.
func (p *reader) term() (term, bool) {
	back := p.at
	t := term{from: p.at}
	if p.accept(about) || p.accept(plusMinus) {
		t.near = true
	} else if _, ok := p.acceptWord(nearWords); ok {
		t.near = true
	}
	q, ok := p.quantity()
	if !ok {
		p.at = back
		return t, false
	}
	t.quantity = q
	p.tail(&t)
	t.to = p.at
	return t, !p.failed()
}

// tail reads what stands behind the quantity.
func (p *reader) tail(t *term) {
	if p.rangeEnd(t) || p.oneSided(t) {
		return
	}
	if p.kind() == open && p.ahead(1).kind == plusMinus { // 24 1/2 (±1/8)
		p.at++
		defer p.accept(closed)
	}
	switch {
	case p.accept(plusMinus):
		if q, ok := p.quantity(); ok {
			t.below, t.above = &q, &q
			t.adopt(q)
			return
		}
		t.near = true
	case p.accept(about):
		t.near = true
	default:
		p.leaning(t)
	}
}

// rangeEnd reads the upper end of 6-8 mm, 6 to 8 mm, 5/8-3/4.
func (p *reader) rangeEnd(t *term) bool {
	back := p.at
	dashed := p.accept(dash)
	if _, ok := p.acceptWord(toWords); !ok && !dashed {
		return false
	}
	end, ok := p.quantity()
	named := p.free && dashed && p.kind() == times && p.tokens[back].spaced // Part 3 - 34 x 12
	if !ok || named || !t.rises(end) {
		p.at = back
		return false
	}
	if !t.said && end.said {
		t.unit, t.said, t.mark = end.unit, true, end.mark
	}
	if !end.said && t.said {
		end.unit, end.said, end.mark = t.unit, true, t.mark
	}
	t.end = &end
	return true
}

// rises reports whether end can be the upper end of a range that begins with t: above it,
// and within a decade, which 1/4-20, a thread, is not.
func (t *term) rises(end quantity) bool {
	from, to := t.value, end.value
	if t.said && end.said {
		to = Convert(to, end.unit, t.unit)
	}
	return from < to && to <= 12*from
}

// oneSided reads +1/16 -0, +0/-1, -0/+1.
func (p *reader) oneSided(t *term) bool {
	back := p.at
	var up, down *quantity
	for range 2 {
		sign := p.kind()
		if p.done() || sign != plus && sign != dash || p.ahead(1).spaced && p.ahead(0).spaced {
			break
		}
		p.at++
		q, ok := p.quantity()
		if !ok {
			p.at--
			break
		}
		if sign == plus && up != nil || sign == dash && down != nil {
			up = nil // 5/8 + 5/8 + 5/8 is a sum
			break
		}
		if sign == plus {
			up = &q
		} else {
			down = &q
		}
		if p.kind() == slash || p.kind() == comma {
			if k := p.ahead(1).kind; k == plus || k == dash {
				p.at++
			}
		}
	}
	if p.free || up == nil || p.failed() {
		p.at = back
		return false
	}
	t.above, t.below = up, down
	t.adopt(*up)
	if down != nil {
		t.adopt(*down)
	}
	return true
}

// adopt gives a bare decimal the unit typed behind what follows it: 19 ±0.3 mm.
func (t *term) adopt(q quantity) {
	if !t.said && q.said && !t.fraction {
		t.unit, t.said = q.unit, true
	}
}

// leaning reads "heavy 1/16", "scant", a lone + or -.
func (p *reader) leaning(t *term) {
	if _, ok := p.acceptWord(heavyWords); ok {
		t.lean = 1
	} else if _, ok := p.acceptWord(lightWords); ok {
		t.lean = -1
	} else if p.at == len(p.tokens)-1 && (p.kind() == plus || p.kind() == dash) {
		t.lean, t.stray = 1, true
		if p.take().kind == dash {
			t.lean = -1
		}
		return
	}
	if t.lean == 0 {
		return
	}
	back := p.at
	q, ok := p.quantity()
	if !ok || q.value > t.value/8 || p.free && p.kind() == times {
		p.at = back
		return
	}
	t.amount = &q
}

// hair is what "heavy" and "scant" mean at most where no amount is given: one mark of a
// tape, 1/16 in or 1 mm. Common practice.
func hair(unit Unit) float64 {
	switch {
	case unit.Metric():
		return Convert(1, Millimetre, unit)
	case unit == Foot:
		return 1. / 192
	}
	return 1. / 16
}

// length makes the Length of a term, with its tolerance spread over all readings.
func (t term) length(ctx Context) Length {
	l := t.quantity.length(ctx)
	if t.end != nil {
		l = t.ranged(l, ctx)
	}
	if t.rival != nil {
		l.Other = append(l.Other, bare(t.rival.length(ctx)))
	}
	if t.near {
		l.Doubt = join(l.Doubt, fmt.Sprintf("about %s, and nobody says how near", t.typed))
	}
	if t.lean != 0 && t.amount == nil {
		l.Doubt = join(l.Doubt, t.leanDoubt(l))
	}
	spread := func(r Length) Length { return t.spread(r) }
	l = spread(l)
	for i := range l.Other {
		l.Other[i] = spread(l.Other[i])
	}
	if t.above != nil && t.below == nil && t.end == nil {
		sum := Exact(l.High, l.Unit)
		l.Doubt = join(l.Doubt, "the plus may be a tolerance or a piece to add")
		l.Other = append(l.Other, sum)
	}
	return l
}

func (t term) leanDoubt(l Length) string {
	side := "over"
	if t.lean < 0 {
		side = "under"
	}
	if t.stray {
		return fmt.Sprintf("the sign behind %s may mean a hair %s, or nothing", t.typed, side)
	}
	return fmt.Sprintf("a hair %s %s, and nobody says how much", side, t.typed)
}

// ranged joins the readings of the two ends.
func (t term) ranged(l Length, ctx Context) Length {
	end := t.end.length(ctx)
	if end.Unit != l.Unit {
		end = end.In(l.Unit)
	}
	out := between(l, end)
	out.Said = l.Said
	out.Doubt = join(join(l.Doubt, end.Doubt), "a range is typed, "+out.String())
	if len(l.Other) == len(end.Other) {
		for i := range l.Other {
			out.Other = append(out.Other, between(l.Other[i], end.Other[i]))
		}
	}
	return out
}

func between(a, b Length) Length {
	if b.Unit != a.Unit {
		b = b.In(a.Unit)
	}
	low, high := math.Min(a.Nominal, b.Nominal), math.Max(a.Nominal, b.Nominal)
	return Length{Low: low, Nominal: low + (high-low)/2, High: high, Unit: a.Unit}
}

// spread widens a reading by the tolerance, never below zero.
func (t term) spread(l Length) Length {
	switch {
	case t.lean != 0:
		by := hair(l.Unit)
		if t.amount != nil {
			by = t.inUnit(t.amount, l.Unit)
		}
		if t.lean > 0 {
			l.High += by
		} else {
			l.Low = math.Max(0, l.Low-by)
		}
		if !t.stray {
			l.Nominal = l.Low + (l.High-l.Low)/2
		}
	case t.near:
		l.Low, l.High = l.Low-t.step, l.High+t.step
	}
	if t.above != nil {
		l.High += t.inUnit(t.above, l.Unit)
	}
	if t.below != nil {
		l.Low -= t.inUnit(t.below, l.Unit)
	}
	l.Low = math.Max(0, l.Low)
	return l
}

// inUnit is a tolerance in the unit of the length it belongs to.
func (t term) inUnit(q *quantity, unit Unit) float64 {
	l := q.length(Context{Unit: unit, Plain: true})
	return Convert(l.Nominal, l.Unit, unit)
}
