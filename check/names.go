package check

import (
	"cmp"
	"slices"
	"strings"
)

// Names lists names as a hand would: those kept in the order of their numbers (A2 before A10),
// and how many more there are. The first ones given are kept, at most so many, and one more
// where "and 1 more" would be as long as its name.
func Names(names []string, most int) (kept []string, more int) {
	if len(names) > most+1 {
		more, names = len(names)-most, names[:most]
	}
	kept = slices.Clone(names)
	slices.SortStableFunc(kept, byNumber)
	return kept, more
}

// byNumber compares names run by run: digits by their value, all else by letter.
func byNumber(a, b string) int {
	for a != "" && b != "" {
		x, y := run(a), run(b)
		a, b = a[len(x):], b[len(y):]
		if digit(x[0]) && digit(y[0]) {
			p, q := strings.TrimLeft(x, "0"), strings.TrimLeft(y, "0")
			if c := cmp.Or(cmp.Compare(len(p), len(q)), cmp.Compare(p, q)); c != 0 {
				return c
			}
		} else if c := cmp.Compare(x, y); c != 0 {
			return c
		}
	}
	return cmp.Compare(len(a), len(b))
}

// run is the first run of digits, or of all else, of a text that is not empty.
func run(s string) string {
	end := strings.IndexFunc(s, func(r rune) bool { return digit(s[0]) != ('0' <= r && r <= '9') })
	if end < 0 {
		return s
	}
	return s[:end]
}

func digit(c byte) bool { return '0' <= c && c <= '9' }
