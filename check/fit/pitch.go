package fit

import (
	"fmt"
	"math"
	"slices"

	"dryfit/check"
)

// Pitch asks whether the slots of a part are where they can be: none off an end, none over
// another, the clear bays adding up to the part, and at the heights at which the other parts
// carry the same shelves.
var Pitch = &check.Check{
	ID:      "fit.pitch",
	Asks:    "Do the slots stay on the part, clear of one another, and level with those of its mates?",
	Costs:   "a shelf that runs downhill, or a slot with nothing left beside it",
	Applies: "every joint whose positions are typed, on a part of known length",
	Inputs: []check.Input{
		{Symbol: "L", Name: "length of the slotted part", Unit: check.Length},
		{Symbol: "a", Name: "first edge of the first slot", Unit: check.Length},
		{Symbol: "z", Name: "first edge of the last slot", Unit: check.Length},
		{Symbol: "p", Name: "closest pitch of two slots", Unit: check.Length},
		{Symbol: "w", Name: "slot", Unit: check.Length},
		{Symbol: "q", Name: "furthest that a slot stands off its mate's", Unit: check.Length},
		{Symbol: "B", Name: "clear bays and slots added up", Unit: check.Length},
		{Symbol: "e", Name: "off by at most", Unit: check.Length},
		{Symbol: "x", Name: "may run off the end by", Unit: check.Length},
	},
	Steps: []check.Step{
		{Symbol: "E", Name: "left at the nearer end, with what may run off", Formula: "MIN(a,L-z-w)+x", Unit: check.Length},
		{Symbol: "G", Name: "left between two slots", Formula: "p-w", Unit: check.Length},
		{Symbol: "M", Name: "level with its mates, within the allowance", Formula: "e-q", Unit: check.Length},
		{Symbol: "S", Name: "bays add up, within the allowance", Formula: "e-ABS(B-L)", Unit: check.Length},
		{Symbol: "m", Name: "margin", Formula: "MIN(E,G,M,S)", Unit: check.Length},
	},
	NoMend: "measure the positions of both parts again from one named end",
	Source: []check.Source{{Title: "positions from one end, compared slot by slot", How: "common practice"}},
	Limits: "Mates of another length are compared by their spacing only. Does not know which slot a thing that stands between two shelves must clear.",
	Until:  check.Released,
	Root:   true,
	Value:  "m",
	Fails:  "slots at 14, 28 and 42 up one upright, at 14, 28 1/2 and 42 up the next",
	Mended: "both at 14, 28 and 42",
	Rows:   pitchRows,
	Says:   pitchSays,
}

func pitchSays(r *check.Result) string {
	v := r.Values
	switch least := v["m"]; {
	case least == v["E"] && v["L"]-v["z"]-v["w"] < v["a"]:
		return fmt.Sprintf("last slot ends at %s, the part at %s", r.Job.Len(v["z"]+v["w"]), r.Print("L"))
	case least == v["E"]:
		return fmt.Sprintf("first slot begins %s off the end", r.Job.Len(-v["a"]))
	case least == v["G"]:
		return fmt.Sprintf("two slots of %s stand only %s apart, edge to edge", r.Print("w"), r.Print("p"))
	case least == v["M"]:
		return fmt.Sprintf("slots stand up to %s off those of %s", r.Print("q"), r.Row.Words["mate"])
	}
	return fmt.Sprintf("clear bays and slots add up to %s, the part is %s", r.Print("B"), r.Print("L"))
}

// pitched is a slotted part with the first edges of its slots from one end.
type pitched struct {
	joint *check.Joint
	part  *check.Part
	at    []check.Value // rising, from the bottom or left end
	wide  check.Value
}

func pitchRows(j *check.Job) []check.Row {
	all := pitchedParts(j)
	var out []check.Row
	for _, p := range all {
		out = append(out, p.row(j, all))
	}
	return out
}

func pitchedParts(j *check.Job) []pitched {
	var out []pitched
	for _, jt := range j.Joints {
		if !slotted(jt.Kind) {
			continue
		}
		for _, part := range mates(j, jt.Into.Text) {
			if p, ok := pitchedOf(j, jt, part); ok {
				out = append(out, p)
			}
		}
	}
	return out
}

// pitchedOf turns centre lines and far edges into first edges, and counts from the bottom or
// the left end.
func pitchedOf(j *check.Job, jt *check.Joint, part *check.Part) (pitched, bool) {
	p := pitched{joint: jt, part: part, wide: jt.Width}
	if !p.wide.Known {
		if in := firstPart(entering(j, jt)); in != nil {
			p.wide = because(check.Exact(in.Thickness.Nominal), "slot taken as thick as "+in.Name())
		}
	}
	if !part.Length.Known || !p.wide.Known || len(jt.At) == 0 {
		return p, false
	}
	back := 0.0
	if jt.Centres {
		back = p.wide.Nominal / 2
	} else if jt.Far {
		back = p.wide.Nominal
	}
	for _, v := range jt.At {
		if !v.Known {
			return p, false
		}
		x := v.Nominal - back
		if jt.From == "top" || jt.From == "right" {
			x = part.Length.Nominal - x - p.wide.Nominal
		}
		edge := check.Exact(x).At(v.From)
		edge.Plain = v.Plain && x == v.Nominal
		p.at = append(p.at, edge)
	}
	slices.SortStableFunc(p.at, func(a, b check.Value) int { return sign(a.Nominal - b.Nominal) })
	return p, true
}

func sign(x float64) int {
	switch {
	case x < 0:
		return -1
	case x > 0:
		return 1
	}
	return 0
}

func (p pitched) row(j *check.Job, all []pitched) check.Row {
	r := check.Row{Case: p.part.Case.Text, Marks: marks(p.part), Name: slotName(p.joint, p.part) + " in " + p.part.Name(),
		Cells: cells(p.joint.Row, p.at[0]), Cause: "pitch", Words: map[string]string{}}
	if p.joint.Mark.Text == "" {
		r.Name = "Slots in " + p.part.Name()
	}
	q, mate := p.off(all, j)
	if mate != nil {
		r.Words["mate"] = mate.part.Name()
		r.Marks = append(r.Marks, mate.part.Name())
	}
	r.In = map[string]check.Value{
		"L": p.part.Length, "a": p.at[0], "z": p.at[len(p.at)-1], "w": p.wide, "p": p.closest(), "q": check.Exact(q),
		"B": p.bays(), "e": upTo(j.Standard("fit", "pitch", "off", check.Length)), "x": p.over(),
	}
	return r
}

// over is how much of a slot may run off the end: half of a dado, which is then a rabbet; of
// a lap nothing.
func (p pitched) over() check.Value {
	if p.joint.Kind == check.Dado || p.joint.Kind == check.Groove || p.joint.Kind == check.Rabbet {
		return because(check.Exact(p.wide.Nominal/2), "half a dado at the end is a rabbet")
	}
	return check.Exact(0)
}

func (p pitched) closest() check.Value {
	least := p.part.Length.Nominal
	for i := 1; i < len(p.at); i++ {
		least = math.Min(least, p.at[i].Nominal-p.at[i-1].Nominal)
	}
	return check.Exact(least)
}

// bays is what clear bays add up to where all of them are typed, else the part itself.
func (p pitched) bays() check.Value {
	sum := float64(len(p.joint.Bays)-1) * p.wide.Nominal
	for _, b := range p.joint.Bays {
		if !b.Known {
			return because(check.Exact(p.part.Length.Nominal), "a bay takes the balance")
		}
		sum += b.Nominal
	}
	if len(p.joint.Bays) != len(p.at)+1 {
		return because(check.Exact(p.part.Length.Nominal), "no clear bays typed to the far end")
	}
	return check.Exact(sum).At(p.joint.Bays[0].From)
}

// off is how far a slot stands off that of the first of its mates: the other parts of the
// case, of the same kind and as many slots, that carry the same parts. Mates of another
// length may stand higher or lower as a whole.
func (p pitched) off(all []pitched, j *check.Job) (float64, *pitched) {
	for i := range all {
		o := &all[i]
		if o.joint == p.joint && o.part == p.part {
			return 0, nil // the first of its mates is what the others are held against
		}
		if p.mates(o) {
			return p.against(o, j), o
		}
	}
	return 0, nil
}

func (p pitched) against(o *pitched, j *check.Job) float64 {
	shift, most := 0.0, 0.0
	if math.Abs(o.part.Length.Nominal-p.part.Length.Nominal) > j.PerInch()/16 {
		shift = o.at[0].Nominal - p.at[0].Nominal
	}
	for k := range p.at {
		most = math.Max(most, math.Abs(o.at[k].Nominal-p.at[k].Nominal-shift))
	}
	return most
}

func (p pitched) mates(o *pitched) bool {
	return p.part != o.part && p.part.Case.Text == o.part.Case.Text && p.part.Room.Text == o.part.Room.Text &&
		p.part.Role == o.part.Role && p.joint.Enters.Text == o.joint.Enters.Text && len(p.at) == len(o.at)
}
