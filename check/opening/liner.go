package opening

import (
	"fmt"
	"strings"

	"dryfit/check"
)

// Liner asks whether the liner goes into its opening with room to shim it plumb, and whether
// it still stands square enough for the shelves when the opening is too tight for that: what
// it must lean comes off the play of the shelves.
var Liner = &check.Check{
	ID:      "opening.liner",
	Asks:    "Does the liner go into its opening with room for shims, and square enough for the shelves?",
	Costs:   "a liner that follows a leaning wall, and shelves that bind in it",
	Applies: "every liner, in width and in height",
	Inputs: []check.Input{
		{Symbol: "L", Name: "level size of the opening", Unit: check.Length, Measure: "read plumb and level, with direction and length"},
		{Symbol: "h", Name: "plaster or floor still to come", Unit: check.Length},
		{Symbol: "W", Name: "liner outside", Unit: check.Length},
		{Symbol: "F", Name: "finish on the run", Unit: check.Film, Measure: "measure the film on a painted sample"},
		{Symbol: "u", Name: "least shim at each face", Unit: check.Length},
		{Symbol: "I", Name: "liner inside", Unit: check.Length},
		{Symbol: "K", Name: "longest part that stands in it, 0 for none", Unit: check.Length},
		{Symbol: "f", Name: "flange or trim past the liner, 0 for none", Unit: check.Length},
		{Symbol: "e", Name: "opening at its largest less level size", Unit: check.Length},
	},
	Steps: []check.Step{
		{Symbol: "s", Name: "spare for shims, both faces", Formula: "L-h-W-F", Unit: check.Length},
		{Symbol: "k", Name: "lean it must take", Formula: "MAX(0,2*u-s)", Unit: check.Length},
		{Symbol: "y", Name: "play of the parts inside", Formula: "I-K-F", Unit: check.Length},
		{Symbol: "G", Name: "widest gap behind the flange", Formula: "MAX(0,s)/2+e", Unit: check.Length},
		{Symbol: "v", Name: "flange to spare", Formula: "IF(f>0,f-G,s)", Unit: check.Length},
		{Symbol: "m", Name: "margin", Formula: "MIN(s,IF(K>0,y-k,s),v)", Unit: check.Length},
	},
	Mends: []check.Mend{
		{Symbol: "f", Order: "make the flange {} wide", Up: true, Step: .0625, StepMM: 1, Reach: 48},
		{Symbol: "K", Order: "make what stands in it {} long", Down: true},
		{Symbol: "W", Order: "make the liner {} outside", Down: true, Step: .0625, StepMM: 1, Reach: 128},
	},
	NoMend: "make the liner smaller, or what stands in it shorter",
	Source: []check.Source{
		{Title: "geometry of a frame shimmed in an opening", How: "common practice"},
		{Title: "shims: shop figure in the standards, opening, liner", How: "house rule"},
	},
	Limits: "A liner that leans is taken to lose its whole lean between its sides. Does not see a bottom that is twisted, or fixings through the shims.",
	Until:  check.Released,
	Value:  "s", Against: []string{"u"},
	Fails: "a liner 60 outside in 60 1/8, with a shelf 1/16 shorter than its inside", Mended: "the liner 59 5/8 outside, the shelf 3/16 shorter than its inside",
	Rows: linerRows,
	Says: linerSays,
}

func linerSays(r *check.Result) string {
	d := r.Row.Words["direction"]
	switch {
	case r.Values["s"] < 0:
		return fmt.Sprintf("liner is %s over the level %s of the opening", r.PrintSize("s"), d)
	case r.Values["K"] > 0 && r.Values["y"] < r.Values["k"]:
		return fmt.Sprintf("%s left to shim: liner must lean %s, %s has %s of play", r.Print("s"), r.Print("k"), r.Row.Words["inside"], r.Print("y"))
	case r.Values["v"] < 0:
		return fmt.Sprintf("gap up to %s behind a flange of %s", r.Print("G"), r.Print("f"))
	}
	return fmt.Sprintf("liner has %s to shim in %s: rests on the %s", r.Print("s"), d, r.Check.Named(r.Decides))
}

func linerRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, box := range boxes(j) {
		if !isLiner(box) {
			continue
		}
		place := placeOf(j, box)
		for _, d := range []direction{inWidth, inHeight} {
			if c, ok := inferred(j, box, d.name); ok && c.total.Known {
				out = append(out, linerRow(j, box, place, c, d))
			}
		}
	}
	return out
}

func linerRow(j *check.Job, box check.Case, place *check.Opening, c chain, d direction) check.Row {
	r := sizeRow(j, box, place, c, d)
	r.Under, r.Cause = "opening."+d.name, "liner "+d.name
	r.Words["direction"] = d.name
	inside, _ := insideOfBox(box, d.name)
	in := map[string]check.Value{"W": r.In["R"], "F": r.In["F"], "h": r.In["h"], "I": inside,
		"u": shim(j, d),
		"K": none("nothing stands in it"), "f": flange(box), "e": none("no lean was read")}
	if p := insider(box, inside); p != nil && d.name == "width" {
		in["K"] = p.Length
		r.Words["inside"] = p.Name()
	}
	if place == nil {
		in["L"] = noPlace(j, box, d.name)
	} else {
		in["L"] = r.In["o"]
		if l, read := levelOf(j, place, d); read {
			in["L"], r.Rests = l.value(j, methodOf(d)), contested(j, place)
			p, q := l.outOfStraight()
			in["e"] = because(check.Exact(max(p, q)), "the face that is most out of straight")
		}
	}
	r.In = in
	return r
}

// isLiner reports a case that lines an opening: its sides or its head say so.
func isLiner(box check.Case) bool {
	for _, p := range box.Role(check.Side, check.Head, check.Sill, check.Deck) {
		if saysLiner(p.Description.Text + " " + p.Note.Text) {
			return true
		}
	}
	return saysLiner(box.Name)
}

func saysLiner(text string) bool {
	text = strings.ToLower(text)
	for _, w := range []string{"liner", "casing box", "jamb box", "surround", "futter", "auskleidung"} {
		if strings.Contains(text, w) {
			return true
		}
	}
	return false
}

func saysCeiling(text string) bool {
	text = strings.ToLower(text)
	return strings.Contains(text, "ceiling") || strings.Contains(text, "clg") || strings.Contains(text, "decke")
}

// insideOf is the clear size inside the liner of the job, for a run that must fit it.
func insideOf(j *check.Job, direction string) (check.Value, bool) {
	for _, box := range boxes(j) {
		if isLiner(box) {
			return insideOfBox(box, direction)
		}
	}
	return check.Value{}, false
}

// insideOfBox is the clear size between the sides, or between top and bottom. Top and bottom
// of a liner lie between its sides unless the schedule says otherwise.
func insideOfBox(box check.Case, direction string) (check.Value, bool) {
	side, deck := largest(box.Role(check.Side), lengthOf), largest(decks(box), lengthOf)
	if side == nil || deck == nil || !side.Thickness.Known || !deck.Thickness.Known {
		return check.Missing(check.Ask{Cell: box.Parts[0].Row, What: "sides, top and bottom of the liner with their thickness"}), false
	}
	how := layOf(box, side, deck)
	switch {
	case direction == "width" && how == over:
		return less(deck.Length, side.Thickness, 2), true
	case direction == "width":
		return deck.Length, true
	case how == over:
		return side.Length, true
	}
	return less(side.Length, deck.Thickness, 2), true
}

func less(a, b check.Value, n float64) check.Value {
	v := check.Between(a.Low-n*b.High, a.Nominal-n*b.Nominal, a.High-n*b.Low).At(a.From)
	v.Guessed = a.Guessed || b.Guessed
	return v
}

// shim is the least that must be left to shim: at both sides, at the head alone, since the
// foot stands on the floor.
func shim(j *check.Job, d direction) check.Value {
	v := j.Standard("opening", "liner", "shim per side", check.Length)
	if d.name == "height" {
		return because(check.Exact(v.Low/2), "at the head alone, half of it counted at each face: "+v.Why)
	}
	return because(check.Exact(v.Low), v.Why)
}

// insider is the longest shelf that lies in the liner from side to side: a liner that leans
// takes its play.
func insider(box check.Case, inside check.Value) *check.Part {
	p := largest(box.Role(check.Shelf, check.Adjustable), lengthOf)
	if p == nil || !inside.Known || p.Length.Nominal < .8*inside.Nominal {
		return nil
	}
	return p
}

// flange is the trim that covers the joint between liner and wall.
func flange(box check.Case) check.Value {
	for _, p := range box.Role(check.Trim) {
		if says([]*check.Part{p}, "flange", "casing") && p.Width.Known {
			return p.Width
		}
	}
	return none("no flange or casing in the schedule")
}
