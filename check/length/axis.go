package length

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
	if n == 1 && len(t.text) == 1 && f.names(next) {
		return 0, false
	}
	if n == 1 && next.spaced && !f.lettersLead(len(t.text) == 1) && !f.leads(t) {
		return 0, false
	}
	f.at += n
	return letter, true
}

// names reports whether the letter ahead and the digit run onto it are a name: W1, B2.
func (f *finder) names(digit token) bool {
	if digit.spaced || len(digit.text) > 1 {
		return false
	}
	switch after := f.ahead(2); after.kind {
	case slash, dash, vulgar, digits, inchMark, footMark:
		return false
	default:
		return after.kind != word || !isUnit(after.text)
	}
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
