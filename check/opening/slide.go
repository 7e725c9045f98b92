package opening

import (
	"fmt"

	"dryfit/check"
)

// Slide asks whether a case that goes in low can be raised onto its base: it must pass the
// lowest head on the way in, and then be lifted far enough for the base to slip under.
var Slide = &check.Check{
	ID:      "opening.slide",
	Asks:    "Can the case be slid in low, and then raised onto its base?",
	Costs:   "a base that does not go under, or a case jammed under the head",
	Applies: "every case on a base of its own, in an opening whose height was read",
	Inputs: []check.Input{
		{Symbol: "H", Name: "height of the case without its base", Unit: check.Length},
		{Symbol: "b", Name: "base that goes under", Unit: check.Length},
		{Symbol: "i", Name: "height inside", Unit: check.Length},
		{Symbol: "o", Name: "least height on the way in", Unit: check.Length},
		{Symbol: "h", Name: "floor still to come", Unit: check.Length},
		{Symbol: "p", Name: "play under the head while it slides", Unit: check.Length},
		{Symbol: "q", Name: "play to slip the base in", Unit: check.Length},
	},
	Steps: []check.Step{
		{Symbol: "s", Name: "head clearance on the way in", Formula: "o-h-H-p", Unit: check.Length},
		{Symbol: "l", Name: "lift wanted", Formula: "b+q", Unit: check.Length},
		{Symbol: "a", Name: "lift there is", Formula: "i-h-H", Unit: check.Length},
		{Symbol: "m", Name: "margin", Formula: "MIN(s,a-l)", Unit: check.Length},
	},
	Mends: []check.Mend{
		{Symbol: "b", Order: "make the base {} high", Down: true, Step: .0625, StepMM: 1, Reach: 128},
		{Symbol: "H", Order: "make the case {} high without its base", Down: true, Step: .0625, StepMM: 1, Reach: 128},
	},
	NoMend: "build the base in first and lower the case onto it from the front",
	Source: []check.Source{
		{Title: "heights added up: slid in, lifted, held on its base", How: "common practice"},
		{Title: "plays: shop figures in the standards, group opening", How: "house rule"},
	},
	Limits: "Level floor and head. Says nothing of how it is lifted; the base holds it up once it is under. A base built in first and the case set on it from the front wants no lift.",
	Until:  check.Released,
	Value:  "a", Against: []string{"l"},
	Fails: "a case of 80 on a base of 4 in an opening of 84 1/16", Mended: "the base 3 7/8",
	Rows: slideRows,
	Says: slideSays,
}

func slideSays(r *check.Result) string {
	switch {
	case r.Values["s"] < 0:
		return fmt.Sprintf("%s without base, head %s: less than %s of play", r.Print("H"), r.Print("o"), r.Print("p"))
	case r.Values["a"] < r.Values["l"]:
		return fmt.Sprintf("can be lifted %s; slipping the base of %s under wants %s", r.Print("a"), r.Print("b"), r.Print("l"))
	}
	return fmt.Sprintf("lift of %s for %s wanted: rests on the %s", r.Print("a"), r.Print("l"), r.Check.Named(r.Decides))
}

func slideRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, box := range boxes(j) {
		base, under := baseOf(box)
		side := largest(box.Role(check.Side), lengthOf)
		if base == nil || side == nil || !under {
			continue
		}
		out = append(out, slideRow(j, box, base, side))
	}
	return out
}

func slideRow(j *check.Job, box check.Case, base, side *check.Part) check.Row {
	r := check.Row{Case: box.Name, Name: box.Title(), Marks: []string{base.Name(), side.Name()},
		Cells: []check.Cell{base.Width.From, side.Length.From}, Cause: "slid in", Under: "opening.height"}
	r.In = map[string]check.Value{"H": side.Length, "b": base.Width,
		"p": wish(j.Standard("opening", "case", "play to slide", check.Length)),
		"q": wish(j.Standard("opening", "case", "play to slip a base in", check.Length))}
	place := placeOf(j, box)
	if place == nil {
		r.In["o"], r.In["i"], r.In["h"] = noPlace(j, box, "height"), noPlace(j, box, "height"), none("no site measure")
		return r
	}
	r.In["h"] = coming(place, inHeight)
	r.In["o"] = measured(j, place, place.Heights, "height")
	r.In["i"] = r.In["o"]
	if inside := frontal(place.Heights); len(inside) > 0 && len(inside) < len(place.Heights) {
		r.In["i"] = measured(j, place, inside, "height") // the mouth was read by itself
	}
	r.Rests = rests(place, place.Heights)
	return r
}
