package length

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
	switch {
	case f.ahead(-1).kind == times && f.ahead(-2).kind == open && next.kind == closed:
		f.takeCount(n, f.at-2) // (x2)
	case next.text == "@", next.kind == word && what == "a count",
		next.kind == slash && f.ahead(2).kind == digits && f.chains == nil && f.isPerCase():
		f.takeCount(n, f.at)
	case next.kind == word && what == "layers":
		f.at += 2
		f.skipLayer()
		return true
	case next.kind == word && what != "" && !isAxis(next.text):
	default:
		return false
	}
	f.at += 2
	return true
}

// skipLayer passes over the thickness of one layer, which is not that of the part: the 5/8
// of "3 lyr 5/8".
func (f *finder) skipLayer() {
	back := f.at
	if t, ok := f.term(); !ok || !t.fraction || f.kind() == times {
		f.at = back
	}
}

// takeCount keeps a count whose tokens run from one to that behind the number.
func (f *finder) takeCount(n number, from int) {
	f.count = int(n.value)
	for i := from; i <= f.at+1; i++ {
		f.used[i] = true
	}
}

// isPerCase tells 2 / 84x14, two of them, from a fraction.
func (f *finder) isPerCase() bool {
	bar, after := f.ahead(1), f.ahead(2)
	if bar.spaced || after.spaced {
		return true
	}
	count, ok1 := decimal(f.ahead(0).text, Either)
	size, ok2 := decimal(after.text, Either)
	return ok1 && ok2 && size.whole && !ruled(int(size.value)) && size.value > 12 && size.value > 2*count.value
}

// skipName passes over numbers that belong to a name: M5x10, P1, #8, WF-500x200, @16.
func (f *finder) skipName() bool {
	t, before := f.ahead(0), f.ahead(-1)
	if t.kind != digits || t.spaced {
		return false
	}
	unit := isUnit(before.text) && (f.ahead(-2).kind == digits || f.ahead(-2).kind == vulgar)
	lettered := before.kind == word && before.text != "*" && !isAxis(before.text) && !unit
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
	f.unitBehind(&t)
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

// unitBehind reads a unit that stands apart from its number: 560D mm, 600 x 300 (mm).
func (f *finder) unitBehind(t *term) {
	back := f.at
	bracket := f.accept(open)
	if t.said || !bracket && t.letter == 0 {
		f.at = back
		return
	}
	unit, said := f.unit(t.number)
	if !said || bracket && !f.accept(closed) {
		f.at = back
		return
	}
	t.unit, t.said = unit, true
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
	if w.kind == dash && f.ahead(1).text == "ish" {
		w = f.ahead(1)
	}
	if f.done() || w.kind != word || w.spaced || isAxis(w.text) || sheetWords[w.text] || f.isNote(w.text) || byWords[w.text] {
		return false
	}
	if otherThings[w.text] != "" || orWords[w.text] {
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
	small := !t.whole && !t.fraction && t.value < 1 // .75 MDF; 1.2 may be a revision
	ruled := t.fraction && ruled(t.den)             // 3/11 may be a date
	code := t.whole && t.value < 10 && !f.tokens[t.to-1].spaced && f.tokens[t.to-1].kind == word
	lettered := t.letter != 0 && !code // 2L may be two long edges
	return t.said || ruled || small || lettered || t.again != nil || alone
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
	again := f.tokens[start-1].kind == open
	end := between[len(between)-1]
	if n := len(between); n > 1 && end.kind == comma && between[n-2].kind == times {
		end = between[n-2] // a line break behind the x
	}
	if end.kind == times || end.kind == word && byWords[end.text] {
		return linkTimes
	}
	again = again || end.kind == equals || end.kind == slash || end.kind == word && orWords[end.text]
	switch {
	case end.kind == comma:
		return linkComma
	case len(between) == 1 && end.kind == dash && !f.chains[len(f.chains)-1].terms[0].said:
		return linkDash
	case again && len(between) <= 2:
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
