package opening

import (
	"fmt"
	"math"
	"strings"

	"dryfit/check"
	"dryfit/check/shape"
)

// Stand asks whether a case that is put together lying on its back can be stood up under the
// ceiling: its diagonal from the foot at the back to the top at the front passes the upright.
// A base that is a part of its own may be left off and slipped under.
var Stand = &check.Check{
	ID:      "opening.stand",
	Asks:    "Can the case be stood up under the ceiling once it is put together lying?",
	Costs:   "a case taken apart again on a finished floor",
	Applies: "every case whose parts make a box, unless the carry tab says that it is put together in the opening",
	Inputs: []check.Input{
		{Symbol: "H", Name: "height of the case", Unit: check.Length},
		{Symbol: "D", Name: "depth of the case", Unit: check.Length},
		{Symbol: "n", Name: "left off at the foot", Unit: check.Length},
		{Symbol: "b", Name: "base that could be left off", Unit: check.Length},
		{Symbol: "C", Name: "ceiling", Unit: check.Length, Measure: "measure the ceiling where the case is stood up"},
		{Symbol: "p", Name: "play under the ceiling", Unit: check.Length},
		{Symbol: "e", Name: "floor wanted beyond the height", Unit: check.Length},
	},
	Steps: []check.Step{
		{Symbol: "d", Name: "diagonal", Formula: "SQRT((H-n)^2+D^2)", Unit: check.Length},
		{Symbol: "K", Name: "clear height it takes", Formula: "MAX(d,H)", Unit: check.Length},
		{Symbol: "t", Name: "tallest of this depth that stands up", Formula: "SQRT(MAX(0,(C-p)^2-D^2))", Unit: check.Length, Aside: true},
		{Symbol: "o", Name: "diagonal with the base left off", Formula: "SQRT((H-b)^2+D^2)", Unit: check.Length, Aside: true},
		{Symbol: "f", Name: "clear floor wanted in front", Formula: "H-n+e", Unit: check.Length, Aside: true},
		{Symbol: "m", Name: "margin", Formula: "C-p-K", Unit: check.Length},
	},
	Mends:  []check.Mend{{Symbol: "H", Order: "make it {} high", Down: true, Step: .125, StepMM: 2, Reach: 256}},
	NoMend: "put it together standing, or in the opening",
	Source: []check.Source{
		{Title: "diagonal of the side of the case, turned about the edge it rests on", How: "common practice"},
		{Title: "play under the ceiling: shop figure in the standards, opening, stand up", How: "house rule"},
	},
	Limits: "A plain side: a crown, a recessed front or a notched foot makes the diagonal less. Rigid, turned about its back edge on a level floor. Clear floor in front is told, not judged.",
	Until:  check.Released,
	Value:  "K", Against: []string{"C"},
	Fails: "92 high and 24 deep under a ceiling of 94", Mended: "88 high",
	Rows: standRows,
	Says: standSays,
	Way:  standWay,
	Ways: map[string]string{"p": "stand it up with care, or put it together standing"},
}

func standSays(r *check.Result) string {
	if r.Row.In["C"].Guessed {
		return fmt.Sprintf("standing it up takes a ceiling of %s; nobody measured it", r.Job.Len(r.Values["K"]+r.Values["p"]))
	}
	if r.Values["K"] <= r.Values["C"] {
		return fmt.Sprintf("takes %s to stand up, ceiling %s; wants %s of play", r.Print("K"), r.Print("C"), r.Print("p"))
	}
	text := fmt.Sprintf("takes %s to stand up, ceiling %s", r.Print("K"), r.Print("C"))
	side, err := shape.Case(r.Values["H"]-r.Values["n"], r.Values["D"], shape.Cuts{})
	if err != nil {
		return text
	}
	from, _, sticks, err := side.Sticks(r.Values["C"])
	if err != nil || !sticks {
		return text
	}
	return fmt.Sprintf("%s; sticks %.0f degrees from upright", text, from*180/math.Pi)
}

// standWay offers the base left off, where that alone lets it stand up.
func standWay(r *check.Result) string {
	b := r.Row.In["b"]
	if !b.Known || b.Nominal <= 0 {
		return ""
	}
	off := r.Row
	off.In = map[string]check.Value{}
	for s, v := range r.Row.In {
		off.In[s] = v
	}
	off.In["n"] = check.Exact(b.Nominal)
	if r.Check.Judge(r.Job, off).Verdict != check.Clear {
		return ""
	}
	return fmt.Sprintf("leave the base of %s off, stand it up, and slip the base under", r.Print("b"))
}

func standRows(j *check.Job) []check.Row {
	var out []check.Row
	how := risesAs(j)
	for _, box := range boxes(j) {
		if !isBox(box) || how == inPlace {
			continue
		}
		high, ok1 := inferredHeight(box)
		deep, ok2 := inferredDepth(box)
		if ok1 && ok2 {
			out = append(out, standRow(j, box, high, deep, how))
		}
	}
	return out
}

func standRow(j *check.Job, box check.Case, high, deep chain, how rise) check.Row {
	r := check.Row{Case: box.Name, Name: box.Title(), Marks: high.marks, Cells: high.cells, Words: map[string]string{}, Cause: "stood up"}
	if how == nobodySaidRise {
		r.Most = check.Verify
	}
	r.In = map[string]check.Value{"H": high.run(j), "D": deep.run(j), "n": none("stood up as it is"), "b": none("no base that comes off"),
		"p": j.Standard("opening", "stand up", "play under ceiling", check.Length),
		"e": limit(j.Standard("opening", "stand up", "floor beyond the height", check.Length))}
	if b, _ := baseOf(box); b != nil {
		r.In["b"] = because(check.Exact(b.Width.Nominal), b.Name())
	}
	r.In["C"] = ceilingFor(j, box, math.Hypot(high.total.Nominal, deep.total.Nominal)+r.In["p"].High)
	if how == nobodySaidRise && r.In["C"].Known {
		r.In["p"] = wish(r.In["p"])
	}
	return r
}

// ceilingFor is the ceiling over the place of a case. Where nobody measured it, it is at least
// the head of the opening; a case that stands up in any room asks for nothing.
func ceilingFor(j *check.Job, box check.Case, takes float64) check.Value {
	place := placeOf(j, box)
	room := j.Standard("opening", "unmeasured room", "ceiling", check.Length)
	switch {
	case place != nil && place.Ceiling.Known:
		v := place.Ceiling.PlusMinus(closeness(j, place, frontal(place.Heights)).Nominal)
		if len(place.Heights) < 2 {
			v = place.Ceiling.PlusMinus(j.Standard("site", "tape", "reading", check.Length).Nominal)
		}
		return v
	case place == nil && takes > room.Low && len(j.Openings) == 0:
		return noPlace(j, box, "ceiling height")
	case place == nil:
		return room
	}
	if least, ok := check.Smallest(place.Heights); ok && least.Value.Nominal > room.Low {
		h := least.Value.Nominal
		room.Low, room.Nominal, room.High = h, max(h, room.Nominal), max(h, room.High)
		room.Why = "not measured; no lower than the opening"
	}
	return room
}

// rise is how a case goes up.
type rise int

const (
	nobodySaidRise rise = iota
	stoodUp
	inPlace
)

// risesAs reads the note of the carry tab on how the cases go up.
func risesAs(j *check.Job) rise {
	if j.Carry == nil {
		return nobodySaidRise
	}
	text := strings.ToLower(j.Carry.Note.Text)
	for _, w := range []string{"stood", "stand", "lying", "tilt", "raised", "liegend", "aufgestellt", "aufrichten"} {
		if strings.Contains(text, w) {
			return stoodUp
		}
	}
	for _, w := range []string{"opening", "in place", "in situ", "on site", "knocked", "kd", "flat", "piece by piece", "vor ort"} {
		if strings.Contains(text, w) {
			return inPlace
		}
	}
	return nobodySaidRise
}
