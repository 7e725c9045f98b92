package length

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
		case t.kind == word && t.text != "in" && len(t.text) > 1 && t.text != "po" && t.text != "pi" && isUnit(t.text),
			beside && t.kind == slash && i > 0 && f.tokens[i-1].kind == digits,
			beside && (isLimit(t) || t.kind == word && orWords[t.text] || t.kind == word && (t.text == "less" || t.text == "under")):
			doubt = join(doubt, quote(f.typed(i, i+1))+" stands beside the size")
		}
	}
	return doubt
}
