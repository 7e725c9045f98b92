package fit

import (
	"fmt"
	"math"
	"regexp"

	"dryfit/check"
	"dryfit/check/length"
)

// Lap asks whether the two cuts of a lap share the members. The shelf is slotted from its
// back, the upright from its front; pushed home, the bottoms of both cuts meet, and the
// upright stands behind the front of the shelf by what the cuts leave. Cuts that are too
// shallow keep the upright out; a little too deep, the bottoms only do not touch. A notched
// lap is asked across as well: the neck that is left, and the cover of the shoulders when the
// neck is pushed over to one side of its slot. A dado or a groove shares its member with
// nothing, but leaves less of it; two from both faces may meet (housed.go).
var Lap = &check.Check{
	ID:      "fit.lap",
	Asks:    "Do the two cuts of a lap share the members, with the reveal that was promised, and does a dado leave enough of its member?",
	Costs:   "a front that stands proud all the way up, or a neck that snaps in handling",
	Applies: "every lap whose cuts are typed, or asked for, in both members; every dado and groove with its depth",
	Inputs:  lapInputs,
	Steps: []check.Step{
		{Symbol: "r", Name: "upright behind the shelf front, pushed home; left under a dado", Formula: "IF(d>0,t-d,D-s-u+k*f)", Unit: check.Length},
		{Symbol: "q", Name: "upright past the shelf back", Formula: "E-D+r", Unit: check.Length, Aside: true},
		{Symbol: "b", Name: "neck left", Formula: "T-2*n", Unit: check.Length},
		{Symbol: "x", Name: "cover of a shoulder, pushed over", Formula: "(T+b)/2-w", Unit: check.Length},
		{Symbol: "F", Name: "front to back, within the allowance", Formula: "MIN(h-(r-R),g-(R-r))", Unit: check.Length},
		{Symbol: "A", Name: "across, within the allowance", Formula: "IF(n>0,MIN(x-v,b-N*T),h)", Unit: check.Length},
		{Symbol: "L", Name: "left of both members, within the allowance", Formula: "MIN(D-s-M*D,E-u-M*E)", Unit: check.Length},
		{Symbol: "m", Name: "margin", Formula: "IF(d>0,r-W,MIN(F,A,L))", Unit: check.Length},
	},
	Mends: []check.Mend{
		{Symbol: "u", Order: "cut the upright {} deep"},
		{Symbol: "s", Order: "cut the shelf {} deep"},
		{Symbol: "n", Order: "notch the sides {} deep", Least: 1e-6},
		{Symbol: "d", Order: "cut {} deep in all", Least: 1e-6, Down: true},
	},
	NoMend:  "set the two depths and the widths of both members again, together",
	Source:  []check.Source{{Title: "half lap: depths add up to the member less the reveal; shoulder cover: geometry", How: "common practice"}},
	Limits:  "Takes both cuts as square and the members as straight. Says nothing of the strength of the neck.",
	Until:   check.Released,
	Value:   "r",
	Against: []string{"R"},
	Fails:   "members 11 1/4 deep, cut 5 5/8 and 5 1/2, no reveal named",
	Mended:  "both cut 5 5/8",
	Rows:    lapRows,
	Says:    lapSays,
}

var lapInputs = []check.Input{
	{Symbol: "D", Name: "shelf, front to back", Unit: check.Length},
	{Symbol: "s", Name: "cut into the shelf", Unit: check.Length},
	{Symbol: "E", Name: "upright, front to back", Unit: check.Length},
	{Symbol: "u", Name: "cut into the upright", Unit: check.Length},
	{Symbol: "f", Name: "film on one face", Unit: check.Film},
	{Symbol: "k", Name: "films on the bottoms of both cuts", Unit: check.Ratio},
	{Symbol: "R", Name: "reveal promised", Unit: check.Length},
	{Symbol: "h", Name: "off by at most", Unit: check.Length},
	{Symbol: "g", Name: "gap allowed between the bottoms", Unit: check.Length},
	{Symbol: "T", Name: "thickness of the upright", Unit: check.Length},
	{Symbol: "n", Name: "notched from each side", Unit: check.Length},
	{Symbol: "w", Name: "slot in the shelf", Unit: check.Length},
	{Symbol: "v", Name: "least cover of a shoulder", Unit: check.Length},
	{Symbol: "N", Name: "least share of the thickness left in a neck", Unit: check.Ratio},
	{Symbol: "M", Name: "least share of the depth left in a member", Unit: check.Ratio},
	{Symbol: "t", Name: "member under a dado, thickness", Unit: check.Length},
	{Symbol: "d", Name: "cut into it, from both faces together; 0 for a lap", Unit: check.Length},
	{Symbol: "W", Name: "least left of it", Unit: check.Length},
}

func lapSays(r *check.Result) string {
	v := r.Values
	if v["d"] > 0 {
		return housedSays(r)
	}
	short := 1 - math.Min((v["D"]-v["s"])/v["D"], (v["E"]-v["u"])/v["E"])
	switch least := math.Min(v["F"], math.Min(v["A"], v["L"])); {
	case r.Margin() >= 0:
		return fmt.Sprintf("cuts of %s and %s only just share the depth", figure(r, "s"), r.Print("u"))
	case least == v["F"] && v["r"] > v["R"]:
		return fmt.Sprintf("cuts of %s and %s leave the upright %s short", figure(r, "s"), r.Print("u"), r.Job.Len(v["r"]-v["R"]))
	case least == v["F"]:
		return fmt.Sprintf("cuts of %s and %s are %s too deep", figure(r, "s"), r.Print("u"), r.Job.Len(v["R"]-v["r"]))
	case least == v["L"]:
		return fmt.Sprintf("the cut takes %.0f %% of the depth", 100*short)
	case v["x"] < v["v"]:
		return fmt.Sprintf("pushed over, the shelf has %s on one shoulder; %s is wanted", r.Job.Len(math.Max(0, v["x"])), r.Print("v"))
	}
	return fmt.Sprintf("notches leave a neck of %s in %s", r.Print("b"), r.Print("T"))
}

// figure prints a length without its unit, which the next one bears.
func figure(r *check.Result, symbol string) string {
	return length.Figure(r.Values[symbol], r.Job.Unit)
}

func lapRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, jt := range j.Joints {
		if jt.Kind != check.CrossLap || !jt.DepthIn.Known && !jt.DepthOf.Known || told(j, jt) {
			continue
		}
		for _, in := range entering(j, jt) {
			if into := firstPart(beside(in, mates(j, jt.Into.Text))); into != nil {
				out = append(out, crossRow(j, jt, into, in)...)
			}
		}
	}
	for _, n := range notchedLaps(j) {
		if n.depth.Known && n.front.Known {
			out = append(out, n.lapRow())
		}
	}
	return append(out, housedRows(j)...)
}

// told reports whether a row above speaks of the same lap from its other member.
func told(j *check.Job, jt *check.Joint) bool {
	for _, o := range j.Joints {
		if o == jt {
			return false
		}
		if o.Kind == jt.Kind && o.Into.Text == jt.Enters.Text && o.Enters.Text == jt.Into.Text && o.DepthIn.Known {
			return true
		}
	}
	return false
}

// crossRow holds the two cuts of a cross lap against one another. The depth in the part that
// goes in may stand in a row of its own; where no column asks for it, it is not asked.
func crossRow(j *check.Job, jt *check.Joint, into, in *check.Part) []check.Row {
	upright, shelf, u, s := into, in, jt.DepthIn, depthOf(j, jt)
	if stands(in) && !stands(into) {
		upright, shelf, u, s = in, into, s, u
	}
	for _, v := range []*check.Value{&u, &s} {
		if !v.Known && v.Ask.Cell == (check.Cell{}) {
			return nil
		}
	}
	r := lapRow(j, jt, upright, shelf, u, s)
	r.In["T"] = because(check.Exact(upright.Thickness.Nominal), "not notched at its sides")
	r.In["n"], r.In["w"] = check.Exact(0), r.In["T"]
	r.In["M"] = r.In["N"]
	return []check.Row{r}
}

func depthOf(j *check.Job, jt *check.Joint) check.Value {
	if jt.DepthOf.Known {
		return jt.DepthOf
	}
	for _, o := range j.Joints {
		if o != jt && o.Into.Text == jt.Enters.Text && o.Enters.Text == jt.Into.Text && o.DepthIn.Known {
			return o.DepthIn
		}
	}
	return jt.DepthOf
}

func (n *notched) lapRow() check.Row {
	r := lapRow(n.job, n.high, n.upright, n.shelf, n.front, n.depth)
	r.In["T"] = ask(n.upright.Thickness, n.upright, "thickness")
	r.In["n"], r.In["w"] = n.side, n.slot
	r.In["M"] = because(check.Exact(0), "the shelf rests on the shoulders and is slotted nearly through")
	if !n.side.Known {
		r.In["n"] = check.Exact(0)
	}
	if !n.slot.Known {
		r.In["w"] = because(check.Exact(n.neck()), "slot taken as wide as the neck: no width typed")
	}
	return r
}

func lapRow(j *check.Job, jt *check.Joint, upright, shelf *check.Part, u, s check.Value) check.Row {
	r := check.Row{Case: shelf.Case.Text, Marks: marks(upright, shelf), Name: slotName(jt, shelf), Count: int(jt.Count.Nominal),
		Cells: cells(jt.Row, u, s, shelf.Width, upright.Width), Cause: jt.Mark.Text + "depths"}
	deep := j.Standard("spread", "slot depth", "2 sigma", check.Film).Nominal
	cut := j.Standard("spread", "part cut to size", "CNC, 2 sigma", check.Film).Nominal
	fin, film := finish(j, shelf)
	k := check.Exact(0)
	if !fin.Masked {
		k = settled(j.Entry(fin.Cheeks, check.Ratio)).Scale(2)
	}
	whole := because(check.Exact(0), "no dado")
	r.In = map[string]check.Value{
		"t": whole, "d": whole, "W": whole,
		"D": toler(ask(shelf.Width, shelf, "width"), cut), "E": toler(ask(upright.Width, upright, "width"), cut),
		"s": toler(askDepth(s, shelf), deep), "u": toler(askDepth(u, upright), deep),
		"f": settled(film), "k": k, "R": promised(j, jt, upright, shelf),
		"h": upTo(j.Standard("fit", "lap", "reveal off", check.Length)),
		"g": upTo(j.Standard("fit", "lap", "gap between the bottoms", check.Length)),
		"v": downTo(j.Standard("fit", "notched lap", "shoulder cover, least", check.Length)),
		"N": downTo(j.Standard("fit", "lap", "neck left, least share", check.Ratio)),
	}
	return r
}

// toler gives a typed size the tolerance of the machine; it stays the plain number it is.
func toler(v check.Value, u float64) check.Value {
	if v.Known {
		v = v.PlusMinus(u)
	}
	return v
}

func askDepth(v check.Value, p *check.Part) check.Value {
	if !v.Known {
		v.Ask.What = "the depth cut into " + p.Name()
	}
	return v
}

const lengthText = `((?:\d+[ -])?\d+/\d+|\d*[.,]?\d+)\s*(?:in|mm|")?`

var (
	revealFirst = regexp.MustCompile(`(?i)\b(?:reveal|proud|set ?back)\b(?:\s+of)?\s*` + lengthText)
	revealAfter = regexp.MustCompile(`(?i)` + lengthText + `\s*(?:reveal|proud|set ?back)\b`)
)

// promised is the reveal that the row or the notes of its parts name. Unnamed, equal members
// are flush, and unequal ones are flush at the front or at the back.
func promised(j *check.Job, jt *check.Joint, upright, shelf *check.Part) check.Value {
	for _, t := range []check.Text{jt.Fit, shelf.Note, upright.Note} {
		if x, ok := revealIn(j, t.Text); ok {
			return check.Exact(x).At(t.From)
		}
	}
	d := shelf.Width.Nominal - upright.Width.Nominal
	if d == 0 {
		return because(check.Exact(0), "no reveal named: flush")
	}
	nearest := 0.0
	if r := shelf.Width.Nominal - jt.DepthIn.Nominal - depthOf(j, jt).Nominal; math.Abs(r-d) < math.Abs(r) {
		nearest = d
	}
	return check.Guess(math.Min(0, d), nearest, math.Max(0, d), "no reveal named: flush at the front or at the back")
}

func revealIn(j *check.Job, text string) (float64, bool) {
	m := revealFirst.FindStringSubmatch(text)
	if m == nil {
		m = revealAfter.FindStringSubmatch(text)
	}
	if m == nil {
		return 0, false
	}
	l, err := length.Parse(m[1], length.Context{Unit: j.Unit, Plain: true})
	return l.Nominal, err == nil
}
