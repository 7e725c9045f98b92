package structure

import (
	"fmt"
	"strings"

	"dryfit/check"
)

// load is what stands on a part: an even load along it, and weights in the middle.
type load struct {
	line  check.Value // per length of the part
	point check.Value // in the middle
	word  string      // books, linen, ...
}

// loadOn finds what stands on a part: a load that names it, then one that names its case,
// then one for the whole job, then the general load of the standards.
func loadOn(j *check.Job, p *check.Part) load {
	for _, l := range j.Loads {
		if p.Mark.Text != "" && l.On.Text == p.Mark.Text {
			return amount(j, l, p)
		}
	}
	c := check.Case{Name: p.Case.Text, Room: p.Room.Text}
	for _, l := range j.Loads {
		if c.Is(l.On.Text) {
			return amount(j, l, p)
		}
	}
	for _, l := range j.Loads {
		if l.On.Text == "" {
			return amount(j, l, p)
		}
	}
	return ofKind(j, "general", p, "nobody said what stands there")
}

// amount turns a typed load into a load along the part.
func amount(j *check.Job, l *check.Load, p *check.Part) load {
	word := strings.ToLower(l.Kind.Text)
	if l.Per == check.ByKind || !l.Amount.Known {
		why := "the word " + word
		if l.Inferred {
			why = "load taken from the words of the case: " + word
		}
		return ofKind(j, word, p, why)
	}
	v := l.Amount
	switch l.Per {
	case check.PerLength:
		return load{line: v, point: check.Exact(0), word: word}
	case check.PerArea:
		return load{line: v.Scale(p.Width.Nominal), point: check.Exact(0), word: word}
	case check.Persons:
		one := j.Standard("load", "seat", "in all", check.Force)
		return load{line: check.Exact(0), point: one, word: word}
	}
	return load{line: check.Exact(0), point: v, word: word}
}

// ofKind is the load of the standards for a word: per length of shelf, else per area, else
// in all.
func ofKind(j *check.Job, word string, p *check.Part, why string) load {
	because := func(v check.Value) check.Value {
		v.Why = fmt.Sprintf("%s; %s", why, v.Why)
		return v
	}
	if v := j.Standard("load", word, "per length", check.LineLoad); v.Known {
		return load{line: because(v), point: check.Exact(0), word: word}
	}
	if v := j.Standard("load", word, "per area", check.Pressure); v.Known {
		return load{line: because(v.Scale(p.Width.Nominal)), point: check.Exact(0), word: word}
	}
	if v := j.Standard("load", word, "in all", check.Force); v.Known {
		return load{line: check.Exact(0), point: because(v), word: word}
	}
	missing := check.Missing(check.Ask{What: fmt.Sprintf("a load that the standards know, instead of %q", word)})
	return load{line: missing, point: missing, word: word}
}
