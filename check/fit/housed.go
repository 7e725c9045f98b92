package fit

import (
	"fmt"
	"math"
	"slices"

	"dryfit/check"
)

// housedRows ask of each member with dadoes or grooves what they leave of its thickness.
func housedRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, jt := range j.Joints {
		if jt.Kind != check.Dado && jt.Kind != check.Groove || !jt.DepthIn.Known {
			continue
		}
		for _, p := range mates(j, jt.Into.Text) {
			if p.Thickness.Known {
				out = append(out, housedRow(j, jt, p))
			}
		}
	}
	return out
}

// leastUnderDado is the share of the thickness that should be left: the usual dado takes a
// third to a half. A twentieth of it is no wood.
var leastUnderDado = check.Guess(.05, .25, .25, "a dado usually takes a third to a half")

func housedRow(j *check.Job, jt *check.Joint, p *check.Part) check.Row {
	in := firstPart(entering(j, jt))
	r := check.Row{Case: p.Case.Text, Marks: marks(p, in), Name: "Joint " + jt.Mark.Text, Count: int(jt.Count.Nominal),
		Cells: cells(jt.Row, jt.DepthIn), Cause: jt.Mark.Text + "housed", Words: map[string]string{"member": p.Name()}}
	if jt.Mark.Text == "" {
		r.Name = "Slot in " + p.Name()
	}
	none := because(check.Exact(0), "a dado, no lap")
	r.In = map[string]check.Value{}
	for _, i := range lapInputs {
		r.In[i.Symbol] = none
	}
	least := leastUnderDado.Scale(p.Thickness.Nominal)
	r.In["t"], r.In["W"], r.In["R"] = p.Thickness, least, settled(least)
	r.In["d"] = jt.DepthIn
	if other := behind(j, jt, p); other != nil {
		r.In["d"] = because(check.Exact(jt.DepthIn.Nominal+other.DepthIn.Nominal).At(jt.DepthIn.From), "from both faces, at one place")
		r.Words["both"] = "yes"
	}
	return r
}

// behind is the joint cut into the other face of a divider at the same place: another row with
// a slot there, or the row itself where it counts twice as many slots as it has places.
func behind(j *check.Job, jt *check.Joint, p *check.Part) *check.Joint {
	if p.Role != check.Divider && p.Role != check.Upright || len(jt.At) == 0 {
		return nil
	}
	if jt.Count.Known && jt.Count.Nominal == 2*pieces(p)*float64(len(jt.At)) {
		return jt
	}
	own, ok := pitchedOf(j, jt, p)
	if !ok {
		return nil
	}
	for _, o := range j.Joints {
		if o == jt || o.Kind != check.Dado && o.Kind != check.Groove || !o.DepthIn.Known || !slices.Contains(mates(j, o.Into.Text), p) {
			continue
		}
		if other, ok := pitchedOf(j, o, p); ok && own.shares(other) {
			return o
		}
	}
	return nil
}

// shares reports whether a slot of one stands over one of the other.
func (p pitched) shares(o pitched) bool {
	for _, a := range p.at {
		for _, b := range o.at {
			if math.Abs(a.Nominal-b.Nominal) < math.Min(p.wide.Nominal, o.wide.Nominal) {
				return true
			}
		}
	}
	return false
}

func housedSays(r *check.Result) string {
	how := "as deep as"
	switch v := r.Values; {
	case r.Row.Words["both"] != "" && v["r"] <= 0:
		return fmt.Sprintf("cuts from both faces, %s in all, meet in the %s of %s", r.Print("d"), r.Print("t"), r.Row.Words["member"])
	case v["r"] > 0:
		return fmt.Sprintf("cut %s deep leaves %s of the %s of %s", r.Print("d"), r.Print("r"), r.Print("t"), r.Row.Words["member"])
	case v["r"] < 0:
		how = "deeper than"
	}
	return fmt.Sprintf("cut %s deep, %s the %s of %s", r.Print("d"), how, r.Print("t"), r.Row.Words["member"])
}
