package opening

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/check"
)

// Enter asks whether there is an order in which every piece still goes in. A piece goes
// straight in, or on the slant through the mouth and is turned level behind it. Of two lapped
// pieces the one that comes second must come straight, along its slots; a piece too long for
// the mouth must therefore be first in all its laps.
var Enter = &check.Check{
	ID:      "opening.enter",
	Asks:    "Is there an order in which every piece still goes in?",
	Costs:   "a lapped grid that locks with the last piece in hand",
	Applies: "every piece across an opening whose mouth was read by itself; every lapped grid; a case that goes in whole",
	Inputs: []check.Input{
		{Symbol: "L", Name: "length across the opening", Unit: check.Length},
		{Symbol: "t", Name: "thickness, seen from the front", Unit: check.Length},
		{Symbol: "M", Name: "width of the mouth", Unit: check.Length},
		{Symbol: "I", Name: "width inside", Unit: check.Length},
		{Symbol: "h", Name: "height of the mouth", Unit: check.Length},
		{Symbol: "x", Name: "must go straight in, 1 for yes", Unit: check.Count},
		{Symbol: "K", Name: "laps that no order serves", Unit: check.Count},
	},
	Steps: []check.Step{
		{Symbol: "a", Name: "spare, straight in", Formula: "M-L", Unit: check.Length},
		{Symbol: "z", Name: "leg of the slant", Formula: "SQRT(MAX(0,L^2+t^2-h^2))", Unit: check.Length},
		{Symbol: "n", Name: "width it takes on the slant", Formula: "IF(L<=h,t,(L*(t*h+L*z)+t*(L*h-t*z))/(L^2+t^2))", Unit: check.Length},
		{Symbol: "w", Name: "width it sweeps when it is turned level", Formula: "SQRT(L^2+t^2)", Unit: check.Length},
		{Symbol: "b", Name: "spare, on the slant", Formula: "MIN(M-n,I-w)", Unit: check.Length},
		{Symbol: "s", Name: "spare", Formula: "IF(x>0,a,MAX(a,b))", Unit: check.Length},
		{Symbol: "m", Name: "margin", Formula: "IF(K>0,0-K,s)", Unit: check.Length},
	},
	Mends:  []check.Mend{{Symbol: "L", Order: "make it {} long, or in two pieces", Down: true, Step: .25, StepMM: 5, Reach: 256}},
	NoMend: "cut one of the laps through, or make the piece in two",
	Source: []check.Source{
		{Title: "rectangle through a rectangle on the slant; diagonal of what is turned", How: "common practice"},
		{Title: "order of entry: the laps as a directed graph, which has an order if and only if it has no ring", How: "common practice"},
	},
	Limits: "The moves modelled: straight in from the front, and on the slant through the mouth and turned level behind it. A no means that none of these does. Pieces are rigid; a notched upright takes its shelf from the front.",
	Until:  check.Released,
	Value:  "s", Against: []string{"K"},
	Fails: "a shelf of 61 to lie behind a mouth of 58, 12 high, in an inside of 61", Mended: "the shelf in two pieces of 30 1/2",
	Rows: enterRows,
	Says: enterSays,
}

func enterSays(r *check.Result) string {
	switch {
	case r.Values["K"] > 0:
		return "no order of entry for the moves tried: " + r.Row.Words["lock"]
	case r.Values["x"] > 0:
		return fmt.Sprintf("%s long must come straight in (%s); the mouth is %s", r.Print("L"), r.Row.Words["why"], r.Print("M"))
	case r.Values["M"] < r.Values["n"]:
		return fmt.Sprintf("%s long goes through the mouth of %s neither straight nor on the slant", r.Print("L"), r.Print("M"))
	}
	return fmt.Sprintf("%s long cannot be turned level behind the mouth: sweeps %s in %s", r.Print("L"), r.Print("w"), r.Print("I"))
}

func enterRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, box := range j.Cases() {
		var mouth *gate
		if len(box.Role(check.Side)) > 0 {
			if place := placeOf(j, box); place != nil {
				mouth = gateOf(j, place)
			}
		}
		g := gridOf(j, box, mouth)
		if len(g.pieces) > 0 {
			out = append(out, g.row(box))
		}
		if mouth == nil {
			continue
		}
		for _, p := range across(box) {
			out = append(out, mouth.row(box, p, g))
		}
		if r, ok := mouth.whole(j, box); ok {
			out = append(out, r)
		}
	}
	return out
}

// across are the pieces of a case that lie across the opening.
func across(box check.Case) []*check.Part {
	var out []*check.Part
	for _, p := range box.Role(check.Shelf, check.Deck, check.Head, check.Sill, check.Seat, check.Front, check.Base) {
		if p.Length.Known && p.Thickness.Known {
			out = append(out, p)
		}
	}
	return out
}

// gate is the mouth of an opening that was read by itself, and what is behind it.
type gate struct {
	mouth, inside, high check.Value
}

// gateOf finds the mouth: a width said to be at the front, beside others.
func gateOf(j *check.Job, o *check.Opening) *gate {
	var at, behind []check.Reading
	for _, r := range o.Widths {
		if r.At == "front" {
			at = append(at, r)
		} else {
			behind = append(behind, r)
		}
	}
	if len(at) == 0 || len(behind) == 0 || len(o.Heights) == 0 {
		return nil
	}
	off := closeness(j, o, o.Widths).Nominal
	m, _ := check.Smallest(at)
	b, _ := check.Smallest(behind)
	return &gate{m.Value.PlusMinus(off), b.Value.PlusMinus(off), measured(j, o, o.Heights, "height")}
}

func (g *gate) row(box check.Case, p *check.Part, laps grid) check.Row {
	r := check.Row{Case: box.Name, Name: p.Name(), Marks: []string{p.Name()}, Cells: []check.Cell{p.Length.From}, Cause: "enters", Words: map[string]string{}}
	straight := none("may go on the slant")
	_, ring := laps.order()
	if after := laps.before[p]; len(after) > 0 && !slices.Contains(ring, p) {
		straight = because(check.Exact(1), "comes onto "+names(after)+" along its slots")
		r.Words["why"] = "onto " + names(after)
	}
	r.In = map[string]check.Value{"L": p.Length, "t": p.Thickness, "M": g.mouth, "I": g.inside, "h": g.high, "x": straight, "K": none("asked of the grid by itself")}
	return r
}

// whole is a case that goes in put together: it can only go straight.
func (g *gate) whole(j *check.Job, box check.Case) (check.Row, bool) {
	wide, ok := inferredWidth(j, box)
	deep, ok2 := inferredDepth(box)
	if !ok || !ok2 || !isBox(box) || risesAs(j) == inPlace || !wide.total.Known || !deep.total.Known {
		return check.Row{}, false
	}
	r := check.Row{Case: box.Name, Name: box.Title(), Marks: wide.marks, Cells: wide.cells, Cause: "enters whole", Words: map[string]string{"why": "put together"}}
	if risesAs(j) == nobodySaidRise {
		r.Most = check.Verify
	}
	r.In = map[string]check.Value{"L": wide.run(j), "t": deep.run(j), "M": g.mouth, "I": g.inside, "h": g.high,
		"x": because(check.Exact(1), "goes in put together"), "K": none("no laps")}
	return r, true
}

// grid is the laps of a case as a directed graph: what must be in before what comes onto it.
type grid struct {
	pieces []*check.Part
	before map[*check.Part][]*check.Part // pieces that must be in before this one
}

// gridOf directs the laps: a notched upright stands before its shelf; a piece too long to go
// straight in comes before all it meets; others may come either way.
func gridOf(j *check.Job, box check.Case, mouth *gate) grid {
	g := grid{before: map[*check.Part][]*check.Part{}}
	long := func(p *check.Part) bool {
		return mouth != nil && slices.Contains(across(box), p) && p.Length.Nominal > mouth.mouth.Nominal
	}
	for _, jt := range j.Joints {
		if jt.Kind != check.CrossLap && jt.Kind != check.NotchedLap {
			continue
		}
		into, enters := inCase(j, box, jt.Into.Text), inCase(j, box, jt.Enters.Text)
		if into == nil || enters == nil || into == enters {
			continue
		}
		g.take(into)
		g.take(enters)
		if jt.Kind == check.NotchedLap || long(into) {
			g.direct(into, enters)
		}
		if long(enters) {
			g.direct(enters, into)
		}
	}
	return g
}

func (g *grid) take(p *check.Part) {
	if !slices.Contains(g.pieces, p) {
		g.pieces = append(g.pieces, p)
	}
}

func (g *grid) direct(first, second *check.Part) {
	if !slices.Contains(g.before[second], first) {
		g.before[second] = append(g.before[second], first)
	}
}

func inCase(j *check.Job, box check.Case, name string) *check.Part {
	p := called(j, box, name)
	if p == nil || !slices.Contains(box.Parts, p) {
		return nil
	}
	return p
}

// order takes the pieces whose forerunners are all in, one after another. What is left over
// stands in a ring, each waiting for another: then no order exists.
func (g grid) order() (order, ring []*check.Part) {
	left := slices.Clone(g.pieces)
	for moved := true; moved; {
		moved = false
		for i, p := range left {
			waits := slices.ContainsFunc(g.before[p], func(q *check.Part) bool { return slices.Contains(left, q) })
			if !waits {
				order = append(order, p)
				left = slices.Delete(left, i, i+1)
				moved = true
				break
			}
		}
	}
	return order, left
}

// row asks the grid as a whole for an order; the sizes are those of its longest piece.
func (g grid) row(box check.Case) check.Row {
	order, ring := g.order()
	r := check.Row{Case: box.Name, Name: box.Title(), Cause: "order of entry",
		Words: map[string]string{"lock": names(ring) + " each want the other in first", "order": markLines(order)}}
	for _, p := range g.pieces {
		r.Marks = append(r.Marks, p.Name())
		r.Cells = append(r.Cells, p.Row)
	}
	wide := because(check.Exact(1), "asked of each piece by itself")
	r.In = map[string]check.Value{"L": wide, "t": wide, "M": wide, "I": wide, "h": wide, "x": none("asked of each piece by itself"),
		"K": because(check.Exact(float64(len(ring))), "search over the directed laps: "+orderText(order, ring))}
	return r
}

// markLines lists marks a line each, for those who take them one by one.
func markLines(ps []*check.Part) string {
	var out []string
	for _, p := range ps {
		out = append(out, p.Name())
	}
	return strings.Join(out, "\n")
}

func orderText(order, ring []*check.Part) string {
	if len(ring) > 0 {
		return names(ring) + " stand in a ring, no order exists"
	}
	return "order of entry " + names(order)
}

func names(ps []*check.Part) string {
	var out []string
	for _, p := range ps {
		out = append(out, p.Name())
	}
	return strings.Join(out, ", ")
}
