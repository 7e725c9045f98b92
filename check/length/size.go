package length

import (
	"fmt"
	"math"
	"strings"
)

// Size is a compound size as read: 95-1/2 x 12 x 3/4, 24"L x 24"W x 18"H.
type Size struct {
	Axes  []Axis // in the order typed
	Count int    // pieces typed with the size (8×700mm), 0 where none is
	More  []Size // further sizes of a list: 0.25mx2, 0.4mx1
	// Doubt and Other speak of the size as a whole; each axis carries its own besides.
	Doubt string
	Other []Size
	Spans []Span // the bytes of the text that were the size, in order
}

// Axis is one length of a size, with the letter of its axis where one was typed.
type Axis struct {
	Letter byte // 'L' length, 'W' width, 'H' height, 'D' depth, 'T' thickness, or 0
	Length
}

// Span is a piece of a text, in bytes.
type Span struct{ From, To int }

// By finds the length of an axis by its letter.
func (s Size) By(letter byte) (Length, bool) {
	for _, a := range s.Axes {
		if a.Letter == letter {
			return a.Length, true
		}
	}
	return Length{}, false
}

// In expresses every axis in another unit, as [Length.In] does.
func (s Size) In(unit Unit) Size {
	s.Axes = append([]Axis(nil), s.Axes...)
	for i := range s.Axes {
		s.Axes[i].Length = s.Axes[i].Length.In(unit)
	}
	s.More, s.Other = allIn(s.More, unit), allIn(s.Other, unit)
	return s
}

func allIn(sizes []Size, unit Unit) []Size {
	var out []Size
	for _, s := range sizes {
		out = append(out, s.In(unit))
	}
	return out
}

// Doubts joins the doubt of the size and those of its axes, each once; empty where there
// is none.
func (s Size) Doubts() string {
	all := s.Doubt
	for _, a := range s.Axes {
		if !strings.Contains(all, a.Doubt) {
			all = join(all, a.Doubt)
		}
	}
	return all
}

// Rest is the text without the size: the description of "Shelf 34 1/2 x 11 1/4 x 3/4 ply"
// is "Shelf ply".
func (s Size) Rest(text string) string {
	var kept []string
	at := 0
	for _, span := range s.Spans {
		kept = append(kept, text[at:span.From])
		at = span.To
	}
	kept = append(kept, text[at:])
	words := strings.Join(strings.Fields(strings.Join(kept, " ")), " ")
	return strings.Trim(strings.ReplaceAll(words, " ,", ","), " ,;:-–—/=")
}

// String prints the size for messages.
func (s Size) String() string {
	var parts []string
	for _, a := range s.Axes {
		text := a.Length.String()
		if a.Letter != 0 {
			text += " " + string(rune(a.Letter))
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, " x ")
}

// ParseSize finds the size in a text that may hold other words: 7'-8" x 12" x 3/4",
// "Shelf 34 1/2 x 11 1/4 x 3/4 ply", "MDF 16mm 610x930", 1/2", 18" X 24". A text with one
// length and no x gives a size of one axis; a bare whole number among words is no size. The
// error is an *[Error].
func ParseSize(text string, ctx Context) (Size, error) {
	p := newReader(text, ctx, true)
	if p.failed() {
		return Size{}, p.err
	}
	if absent := Nothing(text); absent != Something {
		p.fail(Absent, "it says %s", absentWords[absent])
		return Size{}, p.sizeError()
	}
	if p.startsWithNumber() && !p.holds(times) {
		if s, err := p.lone(); err != nil || len(s.Axes) > 0 {
			return s, err
		}
	}
	f := &finder{reader: p, used: make([]bool, len(p.tokens))}
	f.find()
	if f.refusal != nil {
		p.err = f.refusal
		return Size{}, p.sizeError()
	}
	s, ok := f.assemble()
	if !ok {
		return p.noSize()
	}
	if f.missing() {
		p.fail(NoNumber, "a number is missing beside the x")
		return Size{}, p.sizeError()
	}
	s.Spans = f.spans()
	s.Doubt = join(s.Doubt, f.caution())
	return s, nil
}

// missing reports whether an x of the size has no number on one side: "24 x ? x 3/4".
func (f *finder) missing() bool {
	crosses, inSize := 0, false // x since the last used token
	for i, t := range f.tokens {
		switch {
		case f.used[i]:
			if inSize && crosses > 1 {
				return true
			}
			crosses, inSize = 0, true
		case t.kind == times:
			crosses++
		}
	}
	for i := range f.tokens[:len(f.tokens)-1] {
		if f.used[i] && f.tokens[i+1].kind == times && !f.numberFollows(i+2) {
			return true
		}
	}
	return false
}

// numberFollows reports whether anything used stands at or behind a token.
func (f *finder) numberFollows(i int) bool {
	for ; i < len(f.used); i++ {
		if f.used[i] {
			return true
		}
	}
	return false
}

// lone reads a cell that begins with a number and holds no x: "72 VIF", "600 +0/-1". It
// gives no size and no error where other words stand in it, for them the finder looks.
func (p *reader) lone() (Size, error) {
	wordy := p.holds(comma)
	for _, t := range p.tokens {
		if t.kind == word && isAxis(t.text) {
			return Size{}, nil
		}
		wordy = wordy || t.kind == word && !isUnit(t.text)
	}
	l, err := Parse(p.text, p.ctx)
	switch {
	case err == nil:
		all := Span{p.tokens[0].from, p.tokens[len(p.tokens)-1].to}
		return Size{Axes: []Axis{{Length: l}}, Count: l.Count, Spans: []Span{all}}, nil
	case wordy:
		return Size{}, nil
	}
	return Size{}, err
}

func (p *reader) noSize() (Size, error) {
	if n := len(p.tokens); n > 0 && p.startsWithNumber() && p.tokens[n-1].kind == times {
		p.fail(NoNumber, "a number is missing beside the x")
	}
	if !p.holds(digits) && !p.holds(vulgar) {
		p.fail(NoNumber, "it holds no number")
	}
	p.fail(StrayText, "it holds no size")
	return Size{}, p.sizeError()
}

func (p *reader) startsWithNumber() bool {
	if len(p.tokens) == 0 {
		return false
	}
	switch t := p.tokens[0]; t.kind {
	case digits, vulgar, about, plusMinus:
		return true
	default:
		return t.kind == word && (nearWords[t.text] || boundWords[t.text])
	}
}

// caution is the doubt raised by the words beside the size: VIF anywhere, a limit next
// to it.
func (f *finder) caution() string {
	doubt := ""
	for i, t := range f.tokens {
		beside := i > 0 && f.used[i-1] || i+1 < len(f.used) && f.used[i+1]
		switch {
		case f.used[i]:
		case beside && t.text == "?", t.kind == word && fieldWords[t.text]:
			doubt = join(doubt, "still to be verified in field")
		case beside && (isLimit(t) || t.kind == word && orWords[t.text] || t.kind == word && (t.text == "less" || t.text == "under")):
			doubt = join(doubt, quote(f.typed(i, i+1))+" stands beside the size")
		}
	}
	return doubt
}

func (p *reader) sizeError() error {
	p.err.Want = "write a size such as 34 1/2 x 11 1/4 x 3/4 or 880 x 285 x 19 mm"
	return p.err
}

// link is how a term hangs on the one before it.
type link int

const (
	linkNone  link = iota // words between, or the first
	linkTimes             // x
	linkComma             // a comma or line break and nothing else
	linkOther             // "or", = or a bracket: the same thing said again
	linkDash              // a dash
)

// chain is terms joined by x.
type chain struct {
	link  link
	terms []term
}

// finder looks for the terms of a size in a text.
type finder struct {
	*reader
	used    []bool
	chains  []chain
	count   int
	last    int    // token behind the last term
	refusal *Error // of a number that spoils the size
}

func (f *finder) find() {
	for !f.done() {
		switch {
		case f.skipCount(), f.skipName(), f.skipThread(), f.doorSize():
		case f.measure():
		default:
			f.at++
		}
		f.err = nil
	}
}

// skipCount passes over "2 ea.", "3 pcs", "3 ply" and the 2 of "2 / 84x14".
func (f *finder) skipCount() bool {
	t, next := f.ahead(0), f.ahead(1)
	n, ok := decimal(t.text, Either)
	if t.kind != digits || !ok || !n.whole {
		return false
	}
	what := otherThings[next.text]
	if f.ahead(-1).kind == times && f.ahead(-2).kind == open && next.kind == closed { // (x2)
		f.count = int(n.value)
		for i := f.at - 2; i <= f.at+1; i++ {
			f.used[i] = true
		}
		f.at += 2
		return true
	}
	if next.text == "@" {
		what, next.kind = "a count", word
	}
	switch {
	case next.kind == word && what == "a count":
		f.count = int(n.value)
	case next.kind == word && what != "" && !isAxis(next.text):
	case next.kind == slash && f.ahead(2).kind == digits && f.chains == nil && f.isPerCase():
		f.count = int(n.value)
	default:
		return false
	}
	if what == "a count" || next.kind == slash {
		f.used[f.at], f.used[f.at+1] = true, true
	}
	f.at += 2
	return true
}

// isPerCase tells 2 / 84x14, two of them, from a fraction.
func (f *finder) isPerCase() bool {
	bar, after := f.ahead(1), f.ahead(2)
	if bar.spaced || after.spaced {
		return true
	}
	den, ok := decimal(after.text, Either)
	return ok && den.whole && !ruled(int(den.value)) && den.value > 12
}

// skipName passes over numbers that belong to a name: M5x10, P1, #8, WF-500x200, @16.
func (f *finder) skipName() bool {
	t, before := f.ahead(0), f.ahead(-1)
	if t.kind != digits || t.spaced {
		return false
	}
	unit := isUnit(before.text) && (f.ahead(-2).kind == digits || f.ahead(-2).kind == vulgar)
	lettered := before.kind == word && !isAxis(before.text) && !unit
	hyphened := before.kind == dash && !before.spaced && f.ahead(-2).kind == word && !isAxis(f.ahead(-2).text)
	signed := before.text == "#" || before.text == "@" || before.text == "№"
	if !lettered && !hyphened && !signed {
		return false
	}
	for f.at++; !f.done() && !f.ahead(0).spaced; f.at++ {
	}
	return true
}

// skipThread passes over a screw thread: 1/4-20, 5-40.
func (f *finder) skipThread() bool {
	if f.kind() != digits || f.ahead(1).kind != slash || f.ahead(3).kind != dash || f.ahead(3).spaced {
		return false
	}
	top, ok1 := decimal(f.ahead(0).text, Point)
	bottom, ok2 := decimal(f.ahead(2).text, Point)
	pitch, ok3 := decimal(f.ahead(4).text, Point)
	if !ok1 || !ok2 || !ok3 || f.ahead(4).kind != digits || f.ahead(4).spaced || !pitch.whole {
		return false
	}
	if f.ahead(5).kind == slash || pitch.value < 8 || bottom.value == 0 || pitch.value <= 12*top.value/bottom.value {
		return false
	}
	f.at += 5
	return true
}

// measure reads one term with the letter of its axis and hangs it on the chains.
func (f *finder) measure() bool {
	start := f.at
	letter, before := f.letterBefore()
	t, ok := f.term()
	if !ok {
		f.at = start
		return false
	}
	t.letter, t.from = letter, start
	f.bracketed(&t)
	if !before {
		t.letter = f.letterBehind(t)
	}
	t.to = f.at
	how := f.linkTo(start)
	if f.spoiled(t, how) {
		return true
	}
	t.weak = how != linkTimes && !f.qualifies(t, how)
	if t.weak && !f.opensChain() {
		return true
	}
	f.hang(t, how)
	f.last = f.at
	return true
}

// bracketed reads the same length said again behind its number: 19mm (3/4") x 600.
func (f *finder) bracketed(t *term) {
	back := f.at
	if !f.accept(open) {
		return
	}
	again, ok := f.term()
	f.err = nil
	if !ok || !f.accept(closed) {
		f.at = back
		return
	}
	if again.whole && !again.said {
		bare := again.swapped(*t, f.ctx)
		if !t.said || !near(*t, t.length(f.ctx), bare, bare.length(f.ctx)) {
			f.at = back // (2) is no length
			return
		}
	}
	t.again = append(t.again, again)
}

// spoiled reports whether unknown letters are run onto the number: 3/4ish. A bare whole
// number with such letters, 2nd, is no measure at all; another spoils the size.
func (f *finder) spoiled(t term, how link) bool {
	w := f.ahead(0)
	if f.done() || w.kind != word || w.spaced || isAxis(w.text) || sheetWords[w.text] || f.isNote(w.text) || byWords[w.text] {
		return false
	}
	if w.text == "or" || otherThings[w.text] != "" || orWords[w.text] {
		return false
	}
	if (t.fraction || !t.whole || how == linkTimes) && f.refusal == nil {
		f.fail(StrayText, "%s is no unit", quote(w.text))
		f.refusal = f.err
	}
	return true
}

// opensChain reports whether an x follows, though a word stand before it: 4x4 post x 8'.
func (f *finder) opensChain() bool {
	next := f.ahead(0)
	return next.kind == times || next.kind == word && byWords[next.text]
}

// letterBefore reads L24, L=24, (L) 24, Width 24.
func (f *finder) letterBefore() (byte, bool) {
	n := 0
	if f.kind() == open && f.ahead(2).kind == closed {
		n = 1
	}
	t := f.ahead(n)
	letter, ok := axisWords[t.text]
	if t.kind != word || !ok {
		return 0, false
	}
	n += n + 1
	if k := f.ahead(n).kind; k == equals || k == colon {
		n++
	}
	next := f.ahead(n)
	if next.kind != digits && next.kind != vulgar && next.kind != about {
		return 0, false
	}
	if n == 1 && next.spaced && !f.lettersLead(len(t.text) == 1) && !f.leads(t) {
		return 0, false
	}
	f.at += n
	return letter, true
}

// leads reports whether an axis word belongs to the number behind it in a text whose other
// numbers have none: 600 x 400 ép. 19.
func (f *finder) leads(t token) bool {
	if len(t.text) < 2 || adjectives[t.text] {
		return false
	}
	for _, u := range f.tokens {
		if u.from > t.from && u.kind == word && isAxis(u.text) {
			return false
		}
	}
	return true
}

// lettersLead reports whether the axes of this text stand before their numbers: L 24 W 12.
// A single letter proves it only with a second one: "Case D 24 x 12" is a name.
func (f *finder) lettersLead(single bool) bool {
	led := 0
	for i, t := range f.tokens {
		if t.kind != digits && t.kind != vulgar {
			continue
		}
		if i > 0 && f.tokens[i-1].kind == word && isAxis(f.tokens[i-1].text) {
			led++
		}
		if led == 0 {
			return false
		}
	}
	return led > 1 || !single
}

// letterBehind reads 24"L, 24 W, 24 (L), 12" long, (3/16) thick.
func (f *finder) letterBehind(t term) byte {
	back := f.at
	for f.accept(closed) {
	}
	bracket := f.kind() == open && f.ahead(2).kind == closed
	if bracket {
		f.at++
	}
	letter := f.letterHere(t, bracket)
	if letter == 0 {
		f.at = back
	} else if bracket {
		f.at++
	}
	return letter
}

func (f *finder) letterHere(t term, bracket bool) byte {
	w, next := f.ahead(0), f.ahead(1)
	letter, ok := axisWords[w.text]
	if w.kind != word || !ok || f.done() || next.kind == slash {
		return 0
	}
	if next.kind == digits && f.leads(w) {
		return 0
	}
	if len(w.text) < 3 && w.spaced && !t.said && next.kind == word && !bracket {
		return 0
	}
	f.at++
	return letter
}

// notSize are words that make a number beside them a position or an allowance.
var notSize = set(`oc aff ctrs cc dia ø radius rad reveal scribe gap slot slots notch hole holes offset
	overhang clearance shim`)

// qualifies reports whether a term outside a chain can be part of a size: it has a unit, a
// fraction or an axis, and is no position or allowance.
func (f *finder) qualifies(t term, how link) bool {
	before, after := f.ahead(t.from-f.at-1), f.ahead(0)
	if before.kind == plus || before.kind == slash && how != linkOther || before.text == "@" || before.text == "#" {
		return false
	}
	if notSize[before.text] || notSize[after.text] || after.kind == slash && f.ahead(1).kind == word {
		return false
	}
	alone := t.from == 0 && f.done()
	small := !t.whole && t.value < 1 // .75 MDF; 1.2 may be a revision
	return t.said || t.fraction || small || t.letter != 0 || t.again != nil || alone
}

// linkTo says how a term that begins at a token hangs on the last one.
func (f *finder) linkTo(start int) link {
	if len(f.chains) == 0 {
		return linkNone
	}
	between := f.tokens[f.last:start]
	for len(between) > 0 && between[len(between)-1].kind == open && len(between) > 1 {
		between = between[:len(between)-1]
	}
	if len(between) == 0 {
		return linkNone
	}
	end := between[len(between)-1]
	if n := len(between); n > 1 && end.kind == comma && between[n-2].kind == times {
		end = between[n-2] // a line break behind the x
	}
	if end.kind == times || end.kind == word && byWords[end.text] {
		return linkTimes
	}
	first := between[0]
	if first.kind == closed && len(between) > 1 {
		first = between[1]
	}
	switch {
	case end.kind == comma:
		return linkComma
	case len(between) == 1 && end.kind == dash && !f.chains[len(f.chains)-1].terms[0].said:
		return linkDash
	case first.kind == open, first.kind == equals, first.kind == slash, first.kind == word && orWords[first.text]:
		return linkOther
	}
	return linkNone
}

var byWords = set("by mal par por per")

// hang adds a term to the last chain, or begins a new one.
func (f *finder) hang(t term, how link) {
	if how == linkTimes {
		last := &f.chains[len(f.chains)-1]
		last.terms = append(last.terms, t)
		return
	}
	f.chains = append(f.chains, chain{link: how, terms: []term{t}})
}

// mark notes the tokens of a term as used.
func (f *finder) mark(t term) {
	for i := t.from; i < t.to; i++ {
		f.used[i] = true
	}
}

// spans are the bytes of the used tokens, with the x, commas and brackets between them.
func (f *finder) spans() []Span {
	f.bridge()
	var out []Span
	for i, t := range f.tokens {
		switch {
		case !f.used[i]:
		case i > 0 && f.used[i-1]:
			out[len(out)-1].To = t.to
		default:
			out = append(out, Span{t.from, t.to})
		}
	}
	return out
}

// bridge marks the x, commas and "or" beside used tokens, and brackets around them, as used.
func (f *finder) bridge() {
	for i, t := range f.tokens {
		before, after := i > 0 && f.used[i-1], i+1 < len(f.used) && f.used[i+1]
		switch {
		case t.kind == times:
			f.used[i] = f.used[i] || before || after
		case t.kind == comma, t.kind == equals, t.kind == slash, t.kind == word && (orWords[t.text] || byWords[t.text]):
			f.used[i] = f.used[i] || before && after
		}
	}
	var opened []int
	for i, t := range f.tokens {
		switch {
		case t.kind == open:
			opened = append(opened, i)
		case t.kind == closed && len(opened) > 0:
			from := opened[len(opened)-1]
			opened = opened[:len(opened)-1]
			f.used[from] = f.within(from+1, i)
			f.used[i] = f.used[from]
		}
	}
	for i, t := range f.tokens { // the x before a bracket: 3mm x (250mm x 200mm)
		if t.kind == times && i+1 < len(f.used) {
			f.used[i] = f.used[i] || f.used[i+1]
		}
	}
}

// within reports whether a run of tokens is used, and holds any.
func (f *finder) within(from, to int) bool {
	for i := from; i < to; i++ {
		if !f.used[i] {
			return false
		}
	}
	return from < to
}

// assemble makes one Size, or a list of them, from the chains.
func (f *finder) assemble() (Size, bool) {
	var sizes []Size
	var current []term // terms of the size being gathered
	alternatives := map[int][]term{}
	long := false // current holds a chain
	dashed := false
	flush := func() {
		if len(current) > 0 {
			size := f.settle(current, alternatives)
			if bareLetters := current[0].letter == 0 || current[len(current)-1].letter == 0; bareLetters && !long && len(current) > 1 {
				size.Doubt = join(size.Doubt, "its numbers stand apart, with no x between them")
			}
			if dashed {
				size.Doubt = join(size.Doubt, "a dash stands among its numbers")
			}
			sizes = append(sizes, size)
		}
		current, alternatives, long, dashed = nil, map[int][]term{}, false, false
	}
	for _, c := range f.chains {
		f.drop(&c)
		switch {
		case len(c.terms) == 0:
			continue
		case c.link == linkOther && (layersOf(c, current) || f.again(c, current, alternatives)):
		case len(c.terms) > 1 && long, len(current)+len(c.terms) > 4:
			flush()
			fallthrough
		default:
			current = append(current, c.terms...)
			long = long || len(c.terms) > 1
			dashed = dashed || c.link == linkDash && len(current) > len(c.terms)
		}
		for _, t := range c.terms {
			f.mark(t)
		}
	}
	flush()
	if len(sizes) == 0 {
		return Size{}, false
	}
	first := sizes[0]
	first.More = sizes[1:]
	if first.Count == 0 {
		first.Count = f.count
	}
	return first, true
}

// drop clears a chain whose only term turned out to be a bare number among words.
func (f *finder) drop(c *chain) {
	if len(c.terms) != 1 {
		return
	}
	if c.terms[0].weak && c.link != linkOther {
		c.terms = nil
	}
}

// layersOf keeps 1-7/8 (3 x 5/8), the layers that make the length, as its note.
func layersOf(c chain, current []term) bool {
	if len(c.terms) != 2 || len(current) != 1 || !isCount(c.terms[0], 50) {
		return false
	}
	n, layer := c.terms[0], c.terms[1]
	if math.Abs(n.value*layer.value-current[0].value) > 1e-9 {
		return false
	}
	current[0].note = n.typed + " of " + layer.typed
	return true
}

// again reads a chain as a second statement of what stands before it.
func (f *finder) again(c chain, current []term, alternatives map[int][]term) bool {
	n := len(c.terms)
	if n > len(current) || n == 1 && c.terms[0].whole && !c.terms[0].said {
		return n == 1
	}
	for i, t := range c.terms {
		at := len(current) - n + i
		if t.letter != 0 && current[at].letter == 0 {
			current[at].letter = t.letter // 0.190 (3/16) thick
		}
		if !t.said {
			t.unit, t.said = lastUnit(c.terms[i:])
		}
		alternatives[at] = append(alternatives[at], t)
	}
	return true
}

// lastUnit is the first unit said in or behind the first term.
func lastUnit(terms []term) (Unit, bool) {
	for _, t := range terms {
		if t.said {
			return t.unit, true
		}
	}
	return Unsaid, false
}

// settle gives the terms of one size their units and looks for counts, nominal sections
// and sheets.
func (f *finder) settle(terms []term, alternatives map[int][]term) Size {
	terms = allNear(germanLetters(terms))
	size := f.axes(terms)
	for i, t := range terms {
		size.Axes[i].Note = t.note
		alternatives[i] = append(alternatives[i], t.again...)
	}
	for at, again := range alternatives {
		for _, t := range again {
			axis := &size.Axes[at]
			ctx := Context{Unit: f.unitOf(terms, at), Plain: true}
			if !t.said {
				t = t.swapped(terms[at].inside(ctx), f.ctx)
			}
			axis.Length = agree(terms[at].inside(ctx), axis.Length, t, t.length(ctx))
		}
	}
	switch {
	case f.ctx.Plain:
	case section(&size, terms):
		return size
	case sheet(&size, terms):
		return size
	}
	return f.countIn(size, terms)
}

// inside is the term with the unit the size gives it.
func (t term) inside(ctx Context) term {
	if !t.said {
		t.unit = ctx.Unit
	}
	return t
}

// axes settles the units of the terms.
func (f *finder) axes(terms []term) Size {
	var size Size
	for i, t := range terms {
		unit := f.unitOf(terms, i)
		ctx := f.ctx
		ctx.Unit = unit
		l := t.length(ctx)
		if !t.said {
			f.doubtUnit(&l, t, unit, terms, i)
		}
		size.Axes = append(size.Axes, Axis{t.letter, l})
	}
	return size
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

// germanLetters reads T as depth (Tiefe) beside B (Breite) or H and no D: people who
// write L x B x T mean it so, unless the size has a length, width and thickness.
func germanLetters(terms []term) []term {
	letters := map[byte]int{}
	for _, t := range terms {
		letters[t.letter]++
	}
	if letters['T'] == 1 && letters['H'] == 1 && letters['D'] == 0 {
		for i := range terms {
			if terms[i].letter == 'T' {
				terms[i].letter = 'D'
			}
		}
	}
	return terms
}

// allNear spreads an "about" before or a +/- behind a size over all of it.
func allNear(terms []term) []term {
	if terms[0].near || terms[len(terms)-1].near {
		for i := range terms {
			terms[i].near = true
		}
	}
	return terms
}

// countIn looks for a count glued to the size.
func (f *finder) countIn(size Size, terms []term) Size {
	n := len(terms)
	if n < 2 || terms[0].letter != 0 || terms[n-1].letter != 0 {
		return size
	}
	first, second, last := terms[0], terms[1], terms[n-1]
	switch {
	case isCount(first, 50) && f.leansLeft(first, second) && (second.said || second.fraction || second.value >= 20 || n > 2):
		return f.counted(size, terms[1:], first, false)
	case n > 2:
		return size
	case isCount(first, 12) && second.said && second.unit.Metric() && second.value >= 10*first.value:
		return f.counted(size, terms[1:], first, true)
	case isCount(first, 6) && first.value > 1 && second.fraction && second.value <= 2:
		return f.maybeCounted(size, terms[1:], first)
	case isCount(last, 20) && first.said && first.unit == Metre && !f.tokens[last.from].spaced:
		return f.counted(size, terms[:1], last, false)
	case isCount(last, 20) && first.said && first.unit.Metric() && first.unit != Millimetre:
		return f.counted(size, terms[:1], last, true)
	case isCount(last, 8) && first.said && !last.said && first.value > 2*last.value:
		return f.maybeCounted(size, terms[:1], last)
	}
	return size
}

func isCount(t term, most float64) bool {
	return t.whole && !t.said && t.end == nil && !t.near && t.lean == 0 && t.value >= 1 && t.value <= most
}

// leansLeft reports whether the x is glued to the number before it only: 2x 200.
func (f *finder) leansLeft(first, second term) bool {
	x := f.ahead(first.to - f.at)
	return x.kind == times && !x.spaced && f.ahead(second.from-f.at).spaced
}

func (f *finder) counted(size Size, rest []term, count term, doubt bool) Size {
	out := f.axes(rest)
	out.Count = int(count.value)
	if doubt {
		out.Doubt = fmt.Sprintf("%s is taken as a count, it may be a size", count.typed)
		out.Other = []Size{size}
	}
	return out
}

func (f *finder) maybeCounted(size Size, rest []term, count term) Size {
	other := f.axes(rest)
	other.Count = int(count.value)
	size.Doubt = fmt.Sprintf("%s is taken as a size, it may be a count", count.typed)
	size.Other = append(size.Other, other)
	return size
}

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
