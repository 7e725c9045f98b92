// Package opening asks whether what was made goes into the room as it was measured: along the
// way by the crew that is sent, up under the ceiling, and into its opening.
//
// It knows no other room of checks. What a reading may be off by, what is left to slide a case
// in and what a door is where nobody measured one come from the standards.
package opening

import (
	"strings"

	"dryfit/check"
)

// boxes are the cases that stand in an opening: those with sides, not a lone heap of shelves.
func boxes(j *check.Job) []check.Case {
	var out []check.Case
	for _, c := range j.Cases() {
		if len(c.Role(check.Side)) > 0 {
			out = append(out, c)
		}
	}
	return out
}

// isBox reports whether the parts of a case make a box that can be put together lying down.
func isBox(c check.Case) bool {
	across := c.Role(check.Deck, check.Head, check.Sill, check.Shelf)
	return count(c.Role(check.Side)) >= 2 && count(across) >= 2
}

func count(ps []*check.Part) float64 {
	n := 0.0
	for _, p := range ps {
		n += p.Qty.Nominal
	}
	return n
}

// placeOf finds the opening in which a case stands.
func placeOf(j *check.Job, c check.Case) *check.Opening { return j.OpeningOf(c) }

// noPlace asks for the opening of a case that no site measure speaks of.
func noPlace(j *check.Job, box check.Case, what string) check.Value {
	ask := check.Ask{Tab: "site", What: "the " + what + " as measured"}
	if len(j.Openings) > 0 {
		ask.Says = "No opening measured under the name of " + box.Label()
		ask.What = "the opening of " + box.Label() + " on the site tab, under that name"
	}
	return check.Missing(ask)
}

// noReading asks for a reading that the site measure of an opening leaves out.
func noReading(o *check.Opening, what string) check.Value {
	return check.Missing(check.Ask{Tab: "site", Says: "No " + what + " measured in " + placeName(o),
		What: "the " + what + " of " + placeName(o) + " on the site tab"})
}

func placeName(o *check.Opening) string {
	if o.Name.Text == "" {
		return "the opening"
	}
	return o.Name.Text
}

// says reports whether the words of any part hold one of some words.
func says(ps []*check.Part, words ...string) bool {
	for _, p := range ps {
		text := strings.ToLower(p.Description.Text + " " + p.Note.Text)
		for _, w := range words {
			if strings.Contains(text, w) {
				return true
			}
		}
	}
	return false
}

// largest is the part with the largest of one size, nil where no part has it.
func largest(ps []*check.Part, of func(*check.Part) check.Value) *check.Part {
	var most *check.Part
	for _, p := range ps {
		if of(p).Known && (most == nil || of(p).Nominal > of(most).Nominal) {
			most = p
		}
	}
	return most
}

func lengthOf(p *check.Part) check.Value    { return p.Length }
func widthOf(p *check.Part) check.Value     { return p.Width }
func thicknessOf(p *check.Part) check.Value { return p.Thickness }

// because gives a value its reason.
func because(v check.Value, why string) check.Value {
	v.Why = why
	return v
}

// none is an exact zero with its reason.
func none(why string) check.Value { return because(check.Exact(0), why) }

// wish is what the shop would like to have: less of it, down to the low end, will do.
func wish(v check.Value) check.Value {
	v.High = v.Nominal
	return v
}

// limit is a figure that the shop set: its nominal, without a range.
func limit(v check.Value) check.Value {
	if v.Known {
		v.Low, v.High = v.Nominal, v.Nominal
	}
	return v
}
