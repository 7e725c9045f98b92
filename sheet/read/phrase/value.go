package phrase

import (
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// Value reads one length, in the unit given; a bare number is of that unit. A doubtful text
// becomes a range over all its readings, with the doubt in Why. note keeps the words beside
// the number ("VIF"); plain reports that the text is nothing but the number.
func Value(text string, unit length.Unit, what string) (v check.Value, note string, err error) {
	l, err := length.Parse(text, length.Context{Unit: unit, Plain: true, What: what})
	if err != nil {
		return check.Value{}, "", err
	}
	l = l.In(unit).Widest()
	v = check.Between(l.Low, l.Nominal, l.High)
	if l.Doubt != "" {
		v.Guessed, v.Why = true, l.Doubt
	}
	return v, l.Note, nil
}

// bare reads a piece that holds a length, missing if it cannot be read.
func (p Piece) bare(unit length.Unit) check.Value {
	v, _, err := Value(p.Text, unit, "")
	if err != nil {
		return check.Value{}
	}
	return v
}

// measured reads the length at a piece with an "m" or "in" that stands apart behind it.
func measured(pieces []Piece, i int, unit length.Unit) check.Value {
	p := pieces[i]
	if next := at(pieces, i+1).Word; next == "m" || next == "in" {
		p.Text += " " + next
	}
	return p.bare(unit)
}

// words joins the words of pieces, folded, for a search of phrases.
func words(pieces []Piece) string {
	var list []string
	for _, p := range pieces {
		if p.Kind == Length {
			list = append(list, "0")
			continue
		}
		list = append(list, p.Word)
	}
	return strings.Join(list, " ")
}

// has reports whether a phrase of whole words stands among the words.
func has(words string, phrases ...string) bool {
	for _, p := range phrases {
		if strings.Contains(" "+words+" ", " "+p+" ") {
			return true
		}
	}
	return false
}
