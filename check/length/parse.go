package length

import (
	"errors"
	"fmt"
	"math"
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
		case t.kind == word && p.isNote(t.text), isLimit(t), t.text == "?":
			*notes = append(*notes, p.typed(p.at, p.at+1))
		case t.kind == equals, t.kind == colon, t.kind == open && !near:
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
		case next.kind == word && p.isNote(next.text) && next.text != "or", next.text == "?":
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
		case boundWords[w], strings.Contains("<>≤≥", w):
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
	case open, equals:
		return true
	case slash: // 3/4" / 19 mm, but not 3/4/5
		return t.spaced || p.ahead(-1).kind != digits
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
	if !first.said && second.said {
		first = first.matched(second, p.ctx)
	}
	if first.adopt(second.quantity); !l.Said && first.said {
		l = first.length(p.ctx)
	}
	if first.said && !second.said {
		second = second.swapped(first, p.ctx)
	}
	return agree(first, l, second, second.length(p.ctx))
}

// matched gives a bare first statement the unit in which it agrees with the second:
// 2134 (84"), 84 1/4 (2140 mm). Where none does, nothing is said of it.
func (t term) matched(second term, ctx Context) term {
	said := t
	said.said = true
	for _, unit := range []Unit{second.unit, Inch, Millimetre, Centimetre} {
		said.unit = unit
		if near(said, said.length(ctx), second, second.length(ctx)) {
			return said
		}
	}
	return t
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
	first.Doubt = join(first.Doubt, fmt.Sprintf("%s and %s do not agree", a.as(first.Unit), b.as(second.Unit)))
	first.Other = append(append([]Length{}, first.Other...), bare(second))
	first.Other = append(first.Other, second.Other...)
	return first
}

// as is the number as typed, with a unit.
func (t term) as(unit Unit) string { return strings.TrimSpace(t.typed + " " + unit.String()) }

func bare(l Length) Length {
	l.Other, l.Doubt, l.Note = nil, "", ""
	return l
}

// near reports whether two statements say the same length: their ranges, drawn out by half
// of the last place typed, meet. A fraction, and eighths of an inch typed as decimals, are
// exact.
func near(a term, first Length, b term, second Length) bool {
	unit := first.Unit
	if unit == Unsaid || second.Unit == Unsaid {
		unit = Unsaid
	} else {
		second = second.In(unit)
	}
	slack := math.Max(a.slack(unit), b.slack(unit)) + 1e-9
	return first.Low-slack <= second.High && second.Low-slack <= first.High
}

// slack is half of the last place typed, in a unit.
func (t term) slack(unit Unit) float64 {
	eighths := t.value * 8
	if t.fraction || !t.unit.Metric() && eighths == math.Round(eighths) {
		return 0
	}
	return Convert(t.step/2, t.unit, unit)
}

// counted reads a single length with a count: 2x 200 mm, and 3 x 5/8 for three layers.
func (p *reader) counted() Length {
	size, err := ParseSize(p.text, p.ctx)
	var refused *Error
	switch {
	case errors.As(err, &refused) && refused.Reason == NoNumber:
		p.fail(NoNumber, "%s", refused.Why)
		return Length{}
	case err != nil:
		p.fail(StrayText, "it holds no length that can be told apart")
		return Length{}
	}
	doubt := size.Doubts()
	if n := len(size.Other); len(size.Axes) > 1 && n > 0 && len(size.Other[n-1].Axes) == 1 {
		spans := size.Spans
		size, size.Spans = size.Other[n-1], spans
		doubt = join(doubt, size.Doubts())
	}
	switch {
	case len(size.Axes) > 1 || len(size.More) > 0:
		p.fail(Several, "it holds %d lengths", len(size.Axes)+len(size.More))
	case size.Rest(p.text) != "":
		p.fail(StrayText, "%s is no part of a length", quote(size.Rest(p.text)))
	}
	l := size.Axes[0].Length
	l.Count, l.Doubt = size.Count, doubt
	return l
}

// refuse says what is wrong with the token ahead.
func (p *reader) refuse() {
	t := p.ahead(0)
	rest := p.typed(p.at, len(p.tokens))
	switch {
	case p.failed():
	case p.done():
		p.fail(NoNumber, "the number is missing behind %s", quote(p.text))
	case t.kind == word && isUnit(t.text) && p.raisedBehind():
		p.fail(NotLength, "it is an area or a volume")
	case t.kind == word && otherThings[t.text] != "":
		p.fail(NotLength, "it is %s", otherThings[t.text])
	case t.text == "°" || t.text == "%":
		p.fail(NotLength, "%s is no unit of length", quote(t.text))
	case t.kind == word && t.spaced, t.kind == dash && p.ahead(1).kind == word:
		p.fail(StrayText, "%s is no part of a length", quote(rest))
	case t.kind == word:
		p.fail(StrayText, "%s is no unit", quote(t.text))
	case t.kind == digits, t.kind == vulgar, t.kind == comma, t.kind == dash, t.kind == plus:
		p.fail(Several, "more than one length, or a mark is missing before %s", quote(rest))
	default:
		p.fail(StrayText, "%s is no part of a length", quote(rest))
	}
}
