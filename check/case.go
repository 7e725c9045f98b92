package check

import (
	"slices"
	"strings"
)

// Case is the parts that make one piece of furniture: those under one heading, or all of a
// room where no case is named.
type Case struct {
	Name, Room string
	Parts      []*Part
}

// Role lists the parts of the case with one of some roles.
func (c Case) Role(roles ...Role) []*Part {
	var out []*Part
	for _, p := range c.Parts {
		if slices.Contains(roles, p.Role) {
			out = append(out, p)
		}
	}
	return out
}

// Label is what a sentence calls the case.
func (c Case) Label() string {
	switch {
	case c.Name != "":
		return c.Name
	case c.Room != "":
		return c.Room
	}
	return "the case"
}

// Title is what begins a sentence about the case.
func (c Case) Title() string {
	switch {
	case c.Name == "" && c.Room == "":
		return "The case"
	case c.Name == "" || strings.Contains(strings.ToLower(c.Name), "case"):
		return c.Label()
	}
	return "Case " + c.Name
}

// Is reports whether a name typed in another tab means this case: the same words, or the
// letter that stands for it ("A" for "CASE A - NICHE").
func (c Case) Is(name string) bool {
	if name == "" {
		return false
	}
	for _, own := range []string{c.Name, c.Room} {
		if meet(telling(own), telling(name)) {
			return true
		}
	}
	return false
}

// SameName reports whether two names typed in different tabs mean the same place: all telling
// words of the shorter stand in the longer.
func SameName(a, b string) bool { return meet(telling(a), telling(b)) }

// OpeningOf finds the opening in which a case stands: by its name, by a typed run that fits
// parts of the case into an opening, or because there is one case and one opening. It is nil
// where nothing tells.
func (j *Job) OpeningOf(c Case) *Opening {
	return OnceFor[places](j, caseName{c.Name, c.Room}, func() *Opening { return j.findOpening(c) })
}

// places are the openings of cases.
type places map[caseName]*Opening

func (j *Job) findOpening(c Case) *Opening {
	if o := Once(j, findNamesakes)[caseName{c.Name, c.Room}]; o != nil {
		return o
	}
	for _, r := range j.Runs {
		if o := j.fittedBy(r); o != nil && j.holds(r, c) {
			return o
		}
	}
	if len(j.Openings) == 1 && j.standing() == 1 {
		return j.Openings[0]
	}
	return nil
}

// namesakes are the openings that bear the name of a case.
type namesakes map[caseName]*Opening

func findNamesakes(j *Job) namesakes {
	out := namesakes{}
	for _, o := range j.Openings {
		for _, c := range j.CasesNamed(o.Name.Text) {
			if k := (caseName{c.Name, c.Room}); out[k] == nil {
				out[k] = o
			}
		}
	}
	return out
}

// fittedBy is the opening that a run must fit, nil where it names none.
func (j *Job) fittedBy(r *Run) *Opening {
	for _, o := range j.Openings {
		if SameName(o.Name.Text, r.Fits.Text) {
			return o
		}
	}
	return nil
}

// holds reports whether a mark in a run is that of a part of a case.
func (j *Job) holds(r *Run, c Case) bool {
	for _, it := range r.Items {
		if p := j.Part(it.Mark); p != nil && slices.Contains(c.Parts, p) {
			return true
		}
	}
	return false
}

// standing counts the cases with sides.
func (j *Job) standing() int {
	n := 0
	for _, c := range j.Cases() {
		if len(c.Role(Side)) > 0 {
			n++
		}
	}
	return n
}

// filler are words that say "case" or "opening" and tell no two apart.
var filler = map[string]bool{"case": true, "cab": true, "cabinet": true, "unit": true, "opening": true, "niche": true,
	"room": true, "the": true, "no": true, "opng": true, "section": true, "elev": true, "elevation": true}

// meet compares the telling words of two names: all those of the shorter must stand in the
// longer.
func meet(x, y []string) bool {
	if len(x) > len(y) {
		x, y = y, x
	}
	for _, w := range x {
		if !slices.Contains(y, w) {
			return false
		}
	}
	return len(x) > 0
}

// telling are the words of a name that tell it from others; where it has none, all of them.
func telling(name string) []string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return strings.ContainsRune(" -_,.:;/()#'\"\u00a0", r)
	})
	var out []string
	for _, w := range words {
		if !filler[w] {
			out = append(out, w)
		}
	}
	if len(out) == 0 {
		return words
	}
	return out
}
