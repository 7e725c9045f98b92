package structure

import (
	"fmt"
	"math"
	"strings"

	"dryfit/check"
)

// load is what stands on a part.
type load struct {
	line     check.Value // even load per length of the part
	standard check.Value // the same as the standard of the sag limit means it, for a load given by a word
	point    check.Value // a person in the middle of a bay: passes, and does not make the shelf creep
	word     string      // books, linen, ...
	typed    bool        // somebody typed it
}

// given are the loads that somebody named something for.
type given struct {
	mark  map[string][]*check.Load      // a part by its mark
	part  map[*check.Part][]*check.Load // what a part is
	box   map[[2]string][]*check.Load   // a case, by name and room
	whole []*check.Load                 // nothing: the whole job
}

func givenLoads(j *check.Job) *given {
	g := &given{mark: map[string][]*check.Load{}, part: map[*check.Part][]*check.Load{}, box: map[[2]string][]*check.Load{}}
	for _, l := range j.Loads {
		on := l.On.Text
		if on == "" {
			g.whole = append(g.whole, l)
			continue
		}
		g.mark[on] = append(g.mark[on], l)
		for _, p := range called(j, on) {
			g.part[p] = append(g.part[p], l)
		}
		for _, c := range j.CasesNamed(on) {
			k := [2]string{c.Name, c.Room}
			g.box[k] = append(g.box[k], l)
		}
	}
	return g
}

// loadOn finds what stands on a part: a load that names it, then one that names what it is,
// then one that names its case, then one for the whole job, then what its role or the
// standards say.
func loadOn(j *check.Job, p *check.Part) load {
	g := check.Once(j, givenLoads)
	for _, loads := range [][]*check.Load{g.mark[p.Mark.Text], g.part[p], g.box[[2]string{p.Case.Text, p.Room.Text}], g.whole} {
		for _, l := range loads {
			if !(l.Inferred && p.Role == check.Seat) {
				got := amount(j, l, p)
				got.typed = !l.Inferred
				return got
			}
		}
	}
	if p.Role == check.Seat {
		return ofKind(j, "seat", p, "it is a seat")
	}
	return ofKind(j, "general", p, "nobody said what stands there")
}

// amount turns a typed load into a load along the part.
func amount(j *check.Job, l *check.Load, p *check.Part) load {
	word := strings.ToLower(l.Kind.Text)
	if item, ok := j.Shop.Load(word); ok {
		word = item
	}
	none := check.Exact(0)
	if l.Per == check.Persons && l.Amount.Known {
		return persons(j, p, l.Amount.Nominal)
	}
	if l.Per == check.ByKind || !l.Amount.Known {
		reason := "the word " + word
		if l.Inferred {
			reason = "load taken from the words of the case: " + word
		}
		return ofKind(j, word, p, reason)
	}
	if word == "" {
		word = "the load typed"
	}
	v := l.Amount
	switch l.Per {
	case check.PerArea:
		v = v.Scale(p.Width.Nominal)
	case check.InAll:
		v = v.Scale(1 / math.Max(p.Length.Nominal, 1e-9))
	}
	return load{line: v, standard: v, point: none, word: word}
}

// ofKind is the load of the standards for a word: per length of shelf, else per area. The
// standard of the sag limit loads books by area, and no shelf with more than its cap.
func ofKind(j *check.Job, word string, p *check.Part, reason string) load {
	none := check.Exact(0)
	if word == "seat" {
		return persons(j, p, 0)
	}
	because := func(v check.Value) check.Value {
		return why(v, fmt.Sprintf("%s; %s", reason, v.Why))
	}
	perLength := j.Standard("load", word, "per length", check.LineLoad)
	perArea := j.Standard("load", word, "per area", check.Pressure)
	switch {
	case perLength.Known && perArea.Known:
		return load{line: because(perLength), standard: capped(j, p, because(perArea.Scale(p.Width.Nominal))), point: none, word: word}
	case perLength.Known:
		return load{line: because(perLength), standard: because(perLength), point: none, word: word}
	case perArea.Known:
		v := because(perArea.Scale(p.Width.Nominal))
		return load{line: v, standard: v, point: none, word: word}
	}
	missing := check.Missing(check.Ask{What: fmt.Sprintf("a load that the standards know, instead of %s", check.Typed(word))})
	return load{line: missing, standard: missing, point: none, word: word}
}

// capped holds the load of the standard to the most it puts on any one shelf.
func capped(j *check.Job, p *check.Part, v check.Value) check.Value {
	most := j.Standard("limit", "shelf", "load at most", check.Force)
	if !most.Known || !(p.Length.Nominal > 0) || v.High*p.Length.Nominal <= most.Nominal {
		return v
	}
	line := most.Nominal / p.Length.Nominal
	v.Low, v.Nominal, v.High = min(v.Low, line), min(v.Nominal, line), line
	v.Why += "; " + check.Force.Print(most.Nominal, j.Unit) + " on one shelf at most"
	return v
}

// mostStanding is how many persons on a seat weigh less on it, sitting side by side at half
// the figure each, than one who stands in the middle: by the sag of a plain span,
// n/2*5/384 against 1/48.
const mostStanding = 3

// persons is one standing in the middle of a bay, or so many sitting that they weigh more.
// Without a number, as many as the seat has room for.
func persons(j *check.Job, p *check.Part, n float64) load {
	one := j.Standard("load", "seat", "in all", check.Force)
	if n == 0 && p.Length.Known {
		wide := j.Standard("load", "seat", "width of a person", check.Length)
		n = math.Max(1, math.Floor(p.Length.Nominal/math.Max(wide.Nominal, 1e-9)))
	}
	if n <= mostStanding || !(p.Length.Nominal > 0) {
		return load{line: check.Exact(0), standard: check.Exact(0), point: one, word: "a person"}
	}
	v := one.Scale(n / 2 / p.Length.Nominal)
	v.Why = fmt.Sprintf("%g persons side by side; %s", n, one.Why)
	return load{line: v, standard: v, point: check.Exact(0), word: "persons"}
}

// duration is the factor of load duration: what stands for years, what is stored, a person.
func duration(j *check.Job, word string) check.Value {
	item := "stored goods"
	switch word {
	case "books", "paper", "records":
		item = "books"
	case "a person", "persons":
		item = "seat"
	}
	return settled(j.Standard("duration", item, "CD", check.Ratio))
}

// called is what a list calls a load.
func (l load) called() string {
	switch l.word {
	case "general":
		return "what stands there"
	case "none":
		return "own weight"
	}
	return l.word
}
