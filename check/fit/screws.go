package fit

import (
	"fmt"
	"strings"

	"dryfit/check"
)

// Screws asks whether the screws of a joint reach what they shall hold, stay inside it, and
// stand far enough from the edge. A cleat is screwed through itself into what bears it; a
// butt, dado or rabbet through the slotted part into the end of the other.
var Screws = &check.Check{
	ID:      "fit.screws",
	Asks:    "Do the screws hold in the second member without coming through it?",
	Costs:   "a point through a painted side, or a cleat that hangs on air",
	Applies: "every joint that names its screws with their length",
	Inputs: []check.Input{
		{Symbol: "l", Name: "screw", Unit: check.Length},
		{Symbol: "D", Name: "shank", Unit: check.Film},
		{Symbol: "p", Name: "passed before it holds", Unit: check.Length},
		{Symbol: "b", Name: "board or plaster in between", Unit: check.Length},
		{Symbol: "q", Name: "second member, along the screw", Unit: check.Length},
		{Symbol: "h", Name: "hold wanted", Unit: check.Length},
		{Symbol: "t", Name: "tip to the far face, least", Unit: check.Length},
		{Symbol: "w", Name: "narrower of the faces it stands in", Unit: check.Length},
		{Symbol: "k", Name: "edge distance in shanks, least", Unit: check.Ratio},
	},
	Steps: []check.Step{
		{Symbol: "H", Name: "thread in the second member", Formula: "l-p-b", Unit: check.Length},
		{Symbol: "T", Name: "tip to the far face", Formula: "p+b+q-l", Unit: check.Length},
		{Symbol: "e", Name: "middle of the screw to the edge", Formula: "w/2", Unit: check.Length},
		{Symbol: "m", Name: "margin", Formula: "MIN(H-h,T-t,e-k*D)", Unit: check.Length},
	},
	Mends:  []check.Mend{{Symbol: "l", Order: "use screws {} long", Step: 0.125, StepMM: 5, Reach: 24, Least: 1e-6}},
	NoMend: "no length both holds and stays inside: thicken the member, or bolt through",
	Source: []check.Source{
		{Title: "lengths added up along the screw", How: "common practice"},
		{Title: "6 shanks wanted, 10 for tabulated values: wood council answer on the NDS; here only that it holds at all", How: "read"},
	},
	Limits:  "Takes screws as straight, not sunk, in the middle of the narrower face. Strength is asked by structure.cleat. Does not see whether a cleat clears a notch.",
	Until:   check.Released,
	Value:   "T",
	Against: []string{"t"},
	Fails:   "2 in screws through a 3/4 cleat into a 3/4 side",
	Mended:  "1 1/4 in screws",
	Rows:    screwRows,
	Says:    screwSays,
}

func screwSays(r *check.Result) string {
	v := r.Values
	switch least := v["m"]; {
	case least == v["T"]-v["t"] && v["T"] < 0:
		return fmt.Sprintf("%s screws come through %s by %s", r.Print("l"), r.Row.Words["second"], r.PrintSize("T"))
	case least == v["T"]-v["t"]:
		return fmt.Sprintf("%s screws end %s under the face of %s", r.Print("l"), r.Print("T"), r.Row.Words["second"])
	case least == v["H"]-v["h"] && v["H"] <= 0:
		return fmt.Sprintf("%s screws do not reach %s", r.Print("l"), r.Row.Words["second"])
	case least == v["H"]-v["h"]:
		return fmt.Sprintf("%s screws hold only %s in %s", r.Print("l"), r.Print("H"), r.Row.Words["second"])
	}
	return fmt.Sprintf("%s screws stand %s from the edge, %s wanted", r.Row.Words["gauge"], r.Print("e"), r.Job.Len(v["k"]*v["D"]))
}

func screwRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, jt := range j.Joints {
		if jt.Screws == nil || !jt.Screws.Length.Known {
			continue
		}
		if r, ok := screwRow(j, jt); ok {
			out = append(out, r)
		}
	}
	return out
}

func screwRow(j *check.Job, jt *check.Joint) (check.Row, bool) {
	in, into := firstPart(mates(j, jt.Enters.Text)), firstPart(mates(j, jt.Into.Text))
	shank, ok := shankOf(j, jt.Screws.Gauge)
	if !ok {
		return check.Row{}, false
	}
	r := check.Row{Name: screwName(jt), Marks: marks(in, into), Cells: cells(jt.Row, jt.Screws.Length), Cause: jt.Mark.Text + "screws",
		Words: map[string]string{"gauge": jt.Screws.Gauge}}
	r.In = map[string]check.Value{
		"l": jt.Screws.Length, "D": shank, "b": check.Exact(0),
		"h": downTo(j.Standard("fastener", "wood screw", "least hold", check.Length)),
		"t": downTo(j.Standard("limit", "screw tip to face", "least", check.Length)),
		"k": downTo(j.Standard("fastener", "wood screw", "least edge distance", check.Ratio)),
	}
	switch {
	case in != nil && into == nil && intoFrame(jt.Into.Text):
		r.Case = in.Case.Text
		return r, wallScrew(j, &r, in, jt.Into.Text)
	case in == nil || into == nil:
		return r, false
	case jt.Kind == check.CleatJoint:
		r.Case = in.Case.Text
		r.Words["second"] = into.Name()
		r.In["p"], r.In["q"] = ask(in.Thickness, in, "thickness"), ask(into.Thickness, into, "thickness")
		r.In["w"] = narrower(in)
	case jt.Kind == check.Butt || jt.Kind == check.Dado || jt.Kind == check.Rabbet:
		r.Case = into.Case.Text
		r.Words["second"] = in.Name()
		r.In["p"], r.In["q"] = passed(jt, into), ask(in.Length, in, "length")
		r.In["w"] = ask(in.Thickness, in, "thickness")
	default:
		return r, false
	}
	return r, true
}

func screwName(jt *check.Joint) string {
	if jt.Mark.Text != "" {
		return "Joint " + jt.Mark.Text
	}
	return "Screws of " + jt.Enters.Text
}

// passed is what a screw through the slotted part has to pass: its thickness less the slot.
func passed(jt *check.Joint, into *check.Part) check.Value {
	v := ask(into.Thickness, into, "thickness")
	if jt.Kind == check.Butt || !jt.DepthIn.Known || !v.Known {
		return v
	}
	d := jt.DepthIn
	return because(check.Between(v.Low-d.High, v.Nominal-d.Nominal, v.High-d.Low), "thickness less the depth of the slot")
}

// narrower is the narrower face that a screw through the thickness of a part stands in.
func narrower(p *check.Part) check.Value {
	if p.Width.Known && p.Length.Known && p.Length.Nominal < p.Width.Nominal {
		return p.Length
	}
	return ask(p.Width, p, "width")
}

// shankOf is the shank of a gauge: "#8" from the table, a thread in millimetres as it is.
func shankOf(j *check.Job, gauge string) (check.Value, bool) {
	if number, ok := strings.CutPrefix(gauge, "#"); ok {
		v := j.Standard("fastener", "No. "+number, "shank", check.Film)
		return v, v.Known
	}
	var mm float64
	if _, err := fmt.Sscanf(strings.ReplaceAll(gauge, ",", "."), "%g", &mm); err != nil || mm < 1 || mm > 12 {
		return check.Value{}, false
	}
	return check.Exact(mm / 25.4 * j.PerInch()), true
}

// intoFrame reports whether words name the frame of the house.
func intoFrame(text string) bool {
	text = strings.ToLower(text)
	for _, w := range []string{"stud", "wall", "framing", "blocking", "joist", "wand", "mur"} {
		if strings.Contains(text, w) {
			return true
		}
	}
	return false
}

// wallScrew is a screw through a part and what covers the wall into a stud.
func wallScrew(j *check.Job, r *check.Row, in *check.Part, name string) bool {
	board := j.Standard("site", "board to come", "thickness", check.Length)
	stud := 3.5 * j.PerInch()
	r.Words["second"] = "the " + name
	r.In["p"], r.In["w"] = ask(in.Thickness, in, "thickness"), narrower(in)
	r.In["b"] = check.Guess(0, board.Nominal, board.High, "board or plaster on the wall, nobody said")
	r.In["q"] = because(check.Exact(stud), "stud of 3 1/2 in")
	r.In["h"] = downTo(j.Standard("fastener", "anchor into stud", "embedment", check.Length))
	return board.Known
}
