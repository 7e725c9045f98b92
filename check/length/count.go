package length

import (
	"fmt"
)

// countIn looks for a count glued to the size.
func (f *finder) countIn(size Size, terms []term) Size {
	n := len(terms)
	if n < 2 || terms[0].letter != 0 || terms[n-1].letter != 0 {
		return size
	}
	first, second, last := terms[0], terms[1], terms[n-1]
	switch {
	case isCount(first, 50) && f.leansLeft(first, second) && (second.said || second.fraction || second.value >= 20 || n > 2):
		return f.withCount(size, terms[1:], first, false)
	case n > 2:
		return size
	case isCount(first, 12) && second.said && second.unit.Metric() && second.value >= 10*first.value:
		return f.withCount(size, terms[1:], first, true)
	case isCount(first, 6) && first.value > 1 && second.fraction && second.value <= 2:
		return f.orCount(size, terms[1:], first)
	case isCount(last, 20) && first.said && first.unit == Metre && !f.tokens[last.from].spaced:
		return f.withCount(size, terms[:1], last, false)
	case isCount(last, 20) && first.said && first.unit.Metric() && first.unit != Millimetre:
		return f.withCount(size, terms[:1], last, true)
	case isCount(last, 8) && first.said && !last.said && first.value > 2*last.value:
		return f.orCount(size, terms[:1], last)
	}
	return size
}

// isCount reports whether a term can count pieces: bare, whole and small.
func isCount(t term, most float64) bool {
	return t.whole && !t.said && t.end == nil && !t.near && t.lean == 0 && t.value >= 1 && t.value <= most
}

// leansLeft reports whether the x is glued to the number before it only: 2x 200.
func (f *finder) leansLeft(first, second term) bool {
	x := f.ahead(first.to - f.at)
	return x.kind == times && !x.spaced && f.ahead(second.from-f.at).spaced
}

// withCount takes one of the numbers as a count of the rest.
func (f *finder) withCount(size Size, rest []term, count term, doubt bool) Size {
	out := f.axes(rest)
	out.Count = int(count.value)
	if doubt {
		out.Doubt = fmt.Sprintf("%s is taken as a count, it may be a size", count.typed)
		out.Other = []Size{size}
	}
	return out
}

// orCount keeps the size, with the count as its other reading.
func (f *finder) orCount(size Size, rest []term, count term) Size {
	other := f.axes(rest)
	other.Count = int(count.value)
	size.Doubt = fmt.Sprintf("%s is taken as a size, it may be a count", count.typed)
	size.Other = append(size.Other, other)
	return size
}
