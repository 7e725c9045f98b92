package length

import (
	"fmt"
	"strings"
)

// Parse reads one length: 95-1/2, 7'-6 1/2", 19 mm, 1⅞, "6-8mm", "94 1/4 heavy 1/16",
// "609.6mm (24 in)". A bare number has the unit of the context. The error is an *[Error].
//
// A number glued to a count, 2x 200 mm, is one length with its Count; a size of several
// numbers is refused, see [ParseSize].
func Parse(text string, ctx Context) (Length, error) {
	p := newReader(text, ctx, false)
	l := p.one()
	if p.failed() {
		return Length{}, p.err
	}
	return l, nil
}

func (p *reader) one() Length {
	if p.failed() {
		return Length{}
	}
	if absent := Nothing(p.text); absent != Something {
		p.fail(Absent, "it says %s", absentWords[absent])
		return Length{}
	}
	if !p.holds(digits) && !p.holds(vulgar) {
		p.fail(NoNumber, "it holds no number")
		return Length{}
	}
	if p.holds(times) {
		return p.counted()
	}
	var notes []string
	near := p.leading(&notes)
	if p.kind() == dash && p.ahead(1).kind == digits {
		p.fail(Negative, "a length is not below zero")
		return Length{}
	}
	p.accept(plus)
	t, ok := p.term()
	if !ok {
		p.refuse()
		return Length{}
	}
	t.near = t.near || near
	l := t.length(p.ctx)
	return p.trailing(t, l, notes)
}

var absentWords = map[Absence]string{
	Blank: "nothing", None: "that there is none", Unknown: "that nobody knows it yet",
}

func (p *reader) holds(k kind) bool {
	for _, t := range p.tokens {
		if t.kind == k {
			return true
		}
	}
	return false
}

// leading reads the words before the number.
func (p *reader) leading(notes *[]string) (near bool) {
	for !p.done() {
		t := p.ahead(0)
		switch {
		case t.kind == word && nearWords[t.text]:
			near = true
		case t.kind == word && p.isNote(t.text):
			*notes = append(*notes, p.typed(p.at, p.at+1))
		case t.kind == equals, t.kind == open && !near:
		default:
			return near
		}
		p.at++
	}
	return near
}

func (p *reader) isNote(text string) bool {
	return noteWords[text] || fieldWords[text] || boundWords[text] || isAxis(text)
}

// trailing reads what stands behind the first term: notes and alternatives.
func (p *reader) trailing(t term, l Length, notes []string) Length {
	for !p.done() && !p.failed() {
		next := p.ahead(0)
		switch {
		case next.kind == word && nearWords[next.text]:
			p.at++
			t.near = true
			again := t.length(p.ctx)
			l.Low, l.High, l.Doubt = again.Low, again.High, again.Doubt
		case next.kind == word && p.isNote(next.text) && next.text != "or":
			notes = append(notes, p.typed(p.at, p.at+1))
			p.at++
		case next.kind == closed, next.kind == comma, next.kind == open && !p.numberAhead():
			p.at++
		case p.alternativeAhead():
			l = p.alternative(t, l)
		default:
			p.refuse()
		}
	}
	l.Note = strings.Join(notes, " ")
	for _, w := range notes {
		w = strings.ToLower(strings.ReplaceAll(w, ".", ""))
		switch {
		case fieldWords[w]:
			l.Doubt = join(l.Doubt, "still to be verified in field ("+l.Note+")")
		case boundWords[w]:
			l.Doubt = join(l.Doubt, "a limit, not a size ("+l.Note+")")
		}
	}
	return l
}

// numberAhead reports whether a number follows the bracket ahead.
func (p *reader) numberAhead() bool {
	for i := 1; i <= 2; i++ {
		switch t := p.ahead(i); {
		case t.kind == digits, t.kind == vulgar:
			return true
		case t.kind != about && !(t.kind == word && nearWords[t.text]):
			return false
		}
	}
	return false
}

func (p *reader) alternativeAhead() bool {
	t := p.ahead(0)
	switch t.kind {
	case open, slash, equals:
		return true
	}
	return t.kind == word && orWords[t.text]
}

var orWords = set("or oder ou o lub of eller aka ie resp")

// alternative reads a second statement of the same length and compares the two.
func (p *reader) alternative(first term, l Length) Length {
	p.at++
	second, ok := p.term()
	if !ok {
		p.refuse()
		return l
	}
	if second.stated(p.ctx) == Unsaid && first.stated(p.ctx) != Unsaid {
		second = second.swapped(first, p.ctx)
	}
	return agree(first, l, second, second.length(p.ctx))
}

func (t term) stated(ctx Context) Unit {
	if t.said {
		return t.unit
	}
	return Unsaid
}

// swapped gives a bare second statement the unit of the first, or that of the other system
// where only so the two agree: 609.6mm (24).
func (t term) swapped(first term, ctx Context) term {
	for _, unit := range []Unit{first.unit, Inch, Millimetre} {
		t.unit, t.said = unit, true
		if near(first, first.length(ctx), t, t.length(ctx)) {
			return t
		}
	}
	t.unit = first.unit
	return t
}

// agree keeps the first of two statements, with the second as its doubt where they differ
// by more than the rounding of the coarser.
func agree(a term, first Length, b term, second Length) Length {
	if near(a, first, b, second) {
		return first
	}
	first.Doubt = join(first.Doubt, fmt.Sprintf("%s and %s do not agree", first, second))
	first.Other = append(append([]Length{}, first.Other...), bare(second))
	first.Other = append(first.Other, second.Other...)
	return first
}

func bare(l Length) Length {
	l.Other, l.Doubt, l.Note = nil, "", ""
	return l
}

// near reports whether two statements say the same length: their ranges, drawn out by half
// of the last place typed, meet. A fraction or whole inch is taken as exact.
func near(a term, first Length, b term, second Length) bool {
	unit := first.Unit
	if unit == Unsaid || second.Unit == Unsaid {
		unit = Unsaid
	} else {
		second = second.In(unit)
	}
	slack := a.slack(unit) + b.slack(unit) + 1e-9
	return first.Low-slack <= second.High && second.Low-slack <= first.High
}

// slack is half of the last place typed, in a unit.
func (t term) slack(unit Unit) float64 {
	if t.fraction || t.whole && !t.unit.Metric() {
		return 0
	}
	return Convert(t.step/2, t.unit, unit)
}

// counted reads a single length with a count: 2x 200 mm.
func (p *reader) counted() Length {
	size, err := ParseSize(p.text, p.ctx)
	switch {
	case err != nil:
		p.fail(StrayText, "it holds no length that can be told apart")
	case len(size.Axes) > 1 || len(size.More) > 0:
		p.fail(Several, "it holds %d numbers, not one length", len(size.Axes)+len(size.More))
	case size.Rest(p.text) != "":
		p.fail(StrayText, "%q is no part of a length", size.Rest(p.text))
	}
	if p.failed() {
		return Length{}
	}
	l := size.Axes[0].Length
	l.Count = size.Count
	l.Doubt = join(size.Doubt, l.Doubt)
	return l
}

// refuse says what is wrong with the token ahead.
func (p *reader) refuse() {
	t := p.ahead(0)
	rest := p.typed(p.at, len(p.tokens))
	switch {
	case p.failed():
	case p.done():
		p.fail(NoNumber, "the number is missing behind %q", p.text)
	case t.kind == digits && !t.spaced && (t.text == "2" || t.text == "3") && p.ahead(-1).kind == word:
		p.fail(NotLength, "it is an area or a volume")
	case t.kind == word && otherThings[t.text] != "":
		p.fail(NotLength, "it is %s", otherThings[t.text])
	case t.text == "°" || t.text == "%":
		p.fail(NotLength, "%q is no unit of length", t.text)
	case t.kind == word && t.spaced:
		p.fail(StrayText, "%q is no part of a length", rest)
	case t.kind == word:
		p.fail(StrayText, "%q is no unit", t.text)
	case t.kind == digits, t.kind == vulgar, t.kind == comma, t.kind == dash, t.kind == plus:
		p.fail(Several, "more than one length, or a mark is missing before %q", rest)
	default:
		p.fail(StrayText, "%q is no part of a length", rest)
	}
}
