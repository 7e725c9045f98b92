package opening

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/check"
)

// Lift asks whether the crew that is sent can lift every piece, and every case that goes in one
// piece or is stood up: weight against the shop's figure per head.
var Lift = &check.Check{
	ID:      "opening.lift",
	Asks:    "Can the crew that is sent lift every piece, and what is carried or stood up whole?",
	Costs:   "a strained back, a dropped panel, or a second trip with more people",
	Applies: "every piece of known size; a case that travels whole; half of a case that is said to be stood up",
	Inputs: []check.Input{
		{Symbol: "l", Name: "length", Unit: check.Length},
		{Symbol: "b", Name: "width", Unit: check.Length},
		{Symbol: "t", Name: "thickness", Unit: check.Length},
		{Symbol: "r", Name: "density", Unit: check.Density, Measure: "weigh one piece"},
		{Symbol: "j", Name: "unit of the density in one of weight", Unit: check.Ratio},
		{Symbol: "G", Name: "weight of what is put together", Unit: check.Weight, Measure: "weigh it"},
		{Symbol: "n", Name: "crew", Unit: check.Count, Measure: "name the crew on the carry tab"},
		{Symbol: "P", Name: "weight per head", Unit: check.Weight},
		{Symbol: "u", Name: "lengths in an inch", Unit: check.Ratio},
		{Symbol: "y", Name: "weights in a pound", Unit: check.Ratio},
		{Symbol: "H", Name: "reach of the hands", Unit: check.Length},
		{Symbol: "V", Name: "height of the hands", Unit: check.Length},
		{Symbol: "D", Name: "travel", Unit: check.Length},
	},
	Steps: []check.Step{
		{Symbol: "W", Name: "weight", Formula: "l*b*t*r/j+G", Unit: check.Weight},
		{Symbol: "c", Name: "what the crew lifts", Formula: "n*P", Unit: check.Weight},
		{Symbol: "N", Name: "people wanted", Formula: "ROUNDUP(W/P,0)", Unit: check.Count, Aside: true},
		{Symbol: "RWL", Name: "one person, by the NIOSH equation", Formula: "51*y*10/MAX(H/u,10)*(1-0.0075*ABS(V/u-30))*(0.82+1.8/MAX(D/u,10))", Unit: check.Weight, Aside: true},
		{Symbol: "LI", Name: "lifting index of an even share", Formula: "W/n/RWL", Unit: check.Ratio, Aside: true},
		{Symbol: "m", Name: "margin", Formula: "c-W", Unit: check.Weight},
	},
	Mends:  []check.Mend{{Symbol: "n", Order: "send {} people", Up: true, Reach: 10}},
	NoMend: "send a lift, or make it in more pieces",
	Source: []check.Source{
		{Title: "volume times density; shop figure per head in the standards, group crew", How: "house rule"},
		{Title: "revised NIOSH lifting equation, DHHS (NIOSH) 94-110: one person, two hands, no carrying; a working aid only", How: "memory"},
	},
	Limits: "Level lifts, the weight shared evenly; no stairs, no reach overhead. Hardware, glass and finish are not counted.",
	Until:  check.Finished,
	Grave:  true,
	Value:  "W", Against: []string{"c"},
	Fails: "a solid oak top 96 x 30 x 1 3/4 and a crew of two", Mended: "a crew of five",
	Rows: liftRows,
	Says: liftSays,
	Way:  liftWay,
}

func liftSays(r *check.Result) string {
	who := fmt.Sprintf("a crew of %s lifts", r.Print("n"))
	if r.Row.In["n"].Guessed {
		who = fmt.Sprintf("%s people, where no crew is named, lift", r.Print("n"))
	}
	return fmt.Sprintf("%s %s%s; %s %s", r.Row.Words["what"], r.Print("W"), r.Row.Words["others"], who, r.Print("c"))
}

// liftWay sends more people rather than ask what a board weighs.
func liftWay(r *check.Result) string {
	if r.Fix != nil {
		return r.Fix.Text
	}
	return ""
}

func liftRows(j *check.Job) []check.Row {
	most := crew(j).Nominal * perHead(j).Nominal
	var out []check.Row
	var heavy []*check.Part
	for _, p := range j.Pieces() {
		switch {
		case !weighable(p) || p.Role == check.Trim:
		case weight(j, p).Nominal > most:
			heavy = append(heavy, p)
		default:
			out = append(out, liftRow(j, p.Case.Text, p.Name(), []*check.Part{p}))
		}
	}
	if len(heavy) > 0 { // the crew is the one cause: one row, the heaviest speaks
		slices.SortStableFunc(heavy, func(a, b *check.Part) int { return int(weight(j, b).Nominal - weight(j, a).Nominal) })
		out = append(out, liftRow(j, "", heavy[0].Name(), heavy))
	}
	for _, box := range boxes(j) {
		if r, ok := liftCase(j, box); ok {
			out = append(out, r)
		}
	}
	return out
}

// Piece is the lifting of one piece by itself: its weight W and the people N it wants, of those
// who install. False where its sizes are not known.
func Piece(j *check.Job, p *check.Part) (*check.Result, bool) {
	if !weighable(p) {
		return nil, false
	}
	return Lift.Judge(j, liftRow(j, p.Case.Text, p.Name(), []*check.Part{p})), true
}

func liftRow(j *check.Job, room, name string, ps []*check.Part) check.Row {
	p := ps[0]
	r := blankLift(j)
	r.Case, r.Name, r.Cause = room, name, "pieces"
	r.Words = map[string]string{"what": "weighs"}
	if len(ps) > 1 {
		r.Words["others"] = fmt.Sprintf(", %d more marks also over", len(ps)-1)
	}
	for _, each := range ps {
		r.Marks = append(r.Marks, each.Name())
		r.Cells = append(r.Cells, each.Row)
	}
	r.In["l"], r.In["b"], r.In["t"], r.In["r"] = p.Length, p.Width, p.Thickness, density(j, p)
	return r
}

func blankLift(j *check.Job) check.Row {
	zero := none("a case, not a piece")
	in := map[string]check.Value{"l": zero, "b": zero, "t": zero, "r": zero, "G": none("a piece by itself"),
		"j": check.Exact(weighing(j)), "u": check.Exact(j.PerInch()), "y": check.Exact(poundsIn(j)), "n": crew(j), "P": perHead(j)}
	for s, property := range map[string]string{"H": "reach of the hands", "V": "height of the hands", "D": "travel"} {
		in[s] = limit(j.Standard("crew", "lift", property, check.Length))
	}
	r := check.Row{In: in}
	if !crewNamed(j) {
		r.Most, r.Folds = check.Verify, "no crew named"
	}
	return r
}

// liftCase is a case that travels whole, or is said to be stood up: then half of it is lifted.
func liftCase(j *check.Job, box check.Case) (check.Row, bool) {
	r := blankLift(j)
	r.Case, r.Name, r.Cause = box.Name, box.Title(), "whole"
	whole, terms := together(j, box)
	share := 1.0
	switch {
	case travelsWhole(j, box):
		r.Words = map[string]string{"what": "whole weighs"}
	case isBox(box) && risesAs(j) == stoodUp:
		r.Words = map[string]string{"what": "stood up by one end weighs"}
		share = .5
		whole = because(whole.Scale(share), "half of "+whole.Why)
	default:
		return r, false
	}
	r.In["G"] = whole
	for _, t := range terms {
		t.Share = t.Share.Scale(share)
		r.Terms = append(r.Terms, t)
	}
	for _, p := range box.Parts {
		r.Marks = append(r.Marks, p.Name())
		r.Cells = append(r.Cells, p.Row)
	}
	return r, true
}

func travelsWhole(j *check.Job, box check.Case) bool {
	if j.Carry == nil {
		return false
	}
	for _, name := range j.Carry.Whole {
		if box.Is(name) || strings.EqualFold(name, box.Label()) {
			return true
		}
	}
	return false
}

func crewNamed(j *check.Job) bool { return j.Carry != nil && j.Carry.Crew.Known }

func crew(j *check.Job) check.Value {
	if crewNamed(j) {
		return j.Carry.Crew
	}
	return j.Standard("crew", "crew", "people", check.Count)
}

// perHead is the shop's figure. More may be lifted now and then, so the figure alone stops
// nothing.
func perHead(j *check.Job) check.Value {
	v := j.Standard("crew", "per head", "level", check.Weight)
	v.Low = v.Nominal
	return v
}
