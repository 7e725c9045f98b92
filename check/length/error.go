package length

import "strings"

// Error says why a text was not read as a length or a size.
type Error struct {
	Text   string // what was read
	Reason Reason
	Why    string // the reason with the piece of text it speaks of
	Want   string // what would have been read
}

// Error gives one sentence for a person at a shop: what was read, what is wrong with it,
// what would be read.
func (e *Error) Error() string {
	return "read " + quote(e.Text) + ", but " + e.Why + "; " + e.Want
}

// quote shows a text as it stands in the cell, inch marks and all, on one line.
func quote(text string) string {
	const enough = 60
	shown := strings.Join(strings.Fields(strings.ToValidUTF8(text, "?")), " ")
	if runes := []rune(shown); len(runes) > enough {
		shown = string(runes[:enough]) + "..."
	}
	return `"` + shown + `"`
}

// Reason is the kind of refusal.
type Reason int

// The reasons for which a text is refused.
const (
	NoNumber  Reason = iota + 1 // no number in it
	Absent                      // says itself that there is no length: "-", "TBD"
	StrayText                   // a word or mark that belongs to no length
	Several                     // more than one length where one is wanted
	Fraction                    // a fraction that no rule has: 9/2000, 3/0
	NotLength                   // a weight, an angle, an area, a thread
	Negative                    // below zero
	BadNumber                   // digits that make no number: 1.2.3
	TooLong                     // too much text, or a number out of all measure
)

// String gives the word the tests and messages use.
func (r Reason) String() string {
	switch r {
	case NoNumber:
		return "no number"
	case Absent:
		return "absent"
	case StrayText:
		return "stray text"
	case Several:
		return "several lengths"
	case Fraction:
		return "bad fraction"
	case NotLength:
		return "not a length"
	case Negative:
		return "negative"
	case BadNumber:
		return "bad number"
	case TooLong:
		return "too long"
	}
	return "unknown"
}

// want says what a length looks like, in the unit of the context.
func want(ctx Context) string {
	what := "write a length"
	if ctx.What != "" {
		what = ctx.What + " wants a length"
	}
	switch {
	case ctx.Unit.Metric():
		return what + " such as 19, 2380.5 or 3/4 in"
	case ctx.Unit == Foot:
		return what + ` such as 8, 7.5 or 7'-6 1/2"`
	}
	return what + " such as 3/4, 0.75 or 19 mm"
}
