package opening

import (
	"fmt"

	"dryfit/check"
)

// Later asks whether the run still goes in when the floor, plaster or tile that is to come is
// there. Width and height count in what the form says in figures; this check counts in what
// nobody said: a thickness left blank, or a floor that nobody answered for.
var Later = &check.Check{
	ID:      "opening.later",
	Asks:    "Does the run still go in when the floor, plaster or tile still to come is there?",
	Costs:   "a case that fitted on the day of the measure and not on the day of the install",
	Applies: "every case in a measured opening: its height over the floor, its width and depth between walls still to be finished",
	Inputs: []check.Input{
		{Symbol: "o", Name: "measured size", Unit: check.Length},
		{Symbol: "h", Name: "finish to come, as the form says", Unit: check.Length},
		{Symbol: "v", Name: "finish to come that nobody gave", Unit: check.Length, Measure: "ask what is still to come, and how thick"},
		{Symbol: "R", Name: "run of parts", Unit: check.Length},
		{Symbol: "F", Name: "finish on the run", Unit: check.Film, Measure: "measure the film on a painted sample"},
	},
	Steps: []check.Step{
		{Symbol: "d", Name: "spare as measured", Formula: "o-R-F", Unit: check.Length},
		{Symbol: "s", Name: "spare with what the form says", Formula: "d-h", Unit: check.Length},
		{Symbol: "m", Name: "margin", Formula: "s-v", Unit: check.Length},
	},
	Mends:  []check.Mend{{Symbol: "R", Order: "make the run {}", Down: true, Step: .0625, StepMM: 1, Reach: 128}},
	NoMend: "ask what is still to come, and type its thickness on the site tab",
	Source: []check.Source{
		{Title: "measured size less the build-up to come", How: "common practice"},
		{Title: "thicknesses of floors, tile and plaster: standards, group site", How: "common practice"},
	},
	Limits: "Asks whether it goes in at all; the clearance wanted is asked by width and height. " +
		"A site form that says nothing of walls or ceiling is taken to mean that they are finished.",
	Until: check.Released,
	Value: "s", Against: []string{"v"},
	Fails: "a case 95 1/2 high in 96, and nobody said whether the floor is in", Mended: "floor said to be in",
	Rows: laterRows,
	Says: laterSays,
	Way:  laterWay,
}

func laterSays(r *check.Result) string {
	on, d := r.Row.Words["on"], r.Row.Words["direction"]
	switch {
	case r.Values["d"] < 0:
		return fmt.Sprintf("%s is %s over the %s before anything is added", r.Print("R"), r.PrintSize("d"), d)
	case r.Values["h"] > 0 && r.Values["s"] < 0:
		return fmt.Sprintf("%s fits today; with %s to come on the %s, %s over", r.Print("R"), r.Print("h"), on, r.PrintSize("s"))
	case r.Row.Words["asked"] == "":
		return fmt.Sprintf("nobody said whether the %s is in; %s is spare in %s", on, r.Print("s"), d)
	}
	return fmt.Sprintf("finish to come on the %s has no thickness; %s is spare in %s", on, r.Print("s"), d)
}

// laterWay says how thick a finish may still come.
func laterWay(r *check.Result) string {
	t := r.Turns
	if t == nil || t.Symbol != "v" || !t.Alone {
		return ""
	}
	return fmt.Sprintf("ask, and type it on the site tab: goes in with up to %s on the %s", r.Job.Len(t.At), r.Row.Words["on"])
}

func laterRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, box := range boxes(j) {
		place := placeOf(j, box)
		for _, d := range []direction{inHeight, inWidth, inDepth} {
			c, ok := chainOf(j, box, place, d)
			if !ok || place == nil && d.name != "height" || place != nil && !mayCome(place, d) {
				continue
			}
			out = append(out, laterRow(j, box, place, c, d))
		}
	}
	return out
}

// mayCome reports whether a finish may still come that takes from a direction: the floor
// always may, walls where the form speaks of them.
func mayCome(o *check.Opening, d direction) bool {
	if len(d.readings(o)) == 0 {
		return false
	}
	for _, f := range o.ToCome {
		if f.On == d.coming {
			return true
		}
	}
	return d.coming == "floor"
}

func laterRow(j *check.Job, box check.Case, place *check.Opening, c chain, d direction) check.Row {
	r := sizeRow(j, box, place, c, d)
	r.Cause, r.Under = "later "+d.coming+" "+d.name, "opening."+d.name
	r.Words["on"], r.Words["direction"] = d.coming, d.name
	delete(r.In, "g")
	r.In["v"] = none("no site measure")
	if place == nil {
		return r
	}
	v := unsaid(j, place, d.coming)
	if r.Rests != "" { // whoever measures it properly sees whether the floor is in
		v = none("asked with the measure itself")
	}
	r.In["v"] = because(v.Scale(d.times), v.Why)
	if v.High > 0 {
		r.Folds = "finish on the " + d.coming + " of " + place.Row.String()
	}
	for _, f := range place.ToCome {
		if f.On == d.coming {
			r.Words["asked"] = f.Text.Text
		}
	}
	if r.Words["asked"] == "" {
		r.Most = check.Verify
	}
	return r
}
