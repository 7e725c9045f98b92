package schedule

import (
	"fmt"
	"math"

	"dryfit/check"
)

// Joints asks whether there are as many slots as crossings. Two straight parts cross once, so
// a row cannot have more crossings than pieces of one times pieces of the other; each piece
// of a mark is cut alike, so the crossings come to a whole number of slots a piece; and what
// one row counts, the row of the mating part must count too. Left hands pair up with right.
var Joints = &check.Check{
	ID:      "schedule.joints",
	Asks:    "Are there as many slots as crossings, on both mating parts, and do left and right pair up?",
	Costs:   "a shelf short of a slot, found when the grid goes together; two left sides",
	Applies: "every typed lap, dado and notch that counts its crossings, every cleat with a joint that counts it, and every case with handed sides or doors",
	Inputs: []check.Input{
		{Symbol: "n", Name: "crossings as typed, or right hands", Unit: check.Count},
		{Symbol: "s", Name: "slots by positions and pieces, or left hands", Unit: check.Count},
		{Symbol: "x", Name: "most crossings that the pieces can make", Unit: check.Count},
		{Symbol: "w", Name: "crossings that the mating part counts", Unit: check.Count},
		{Symbol: "P", Name: "pieces that are cut alike", Unit: check.Count},
	},
	Steps: []check.Step{
		{Symbol: "d", Name: "slots and crossings differ by", Formula: "ABS(n-s)", Unit: check.Count},
		{Symbol: "e", Name: "more than the pieces can make", Formula: "MAX(0,n-x)", Unit: check.Count},
		{Symbol: "f", Name: "the mating part counts otherwise by", Formula: "ABS(n-w)", Unit: check.Count},
		{Symbol: "g", Name: "left over after a whole number a piece", Formula: "n-P*ROUNDDOWN(n/P,0)", Unit: check.Count},
		{Symbol: "m", Name: "no slot too many or too few", Formula: "0-MAX(d,e,f,g)", Unit: check.Count},
	},
	NoMend:  "count the crossings again: pieces of the one times slots in each",
	Source:  []check.Source{{Title: "two straight parts cross once; pieces of one mark are cut alike", How: "common practice"}},
	Limits:  "A shelf that stops short of an upright is fine: only more crossings than possible are wrong.",
	Until:   check.Released,
	Value:   "n",
	Against: []string{"s", "x", "w"},
	Fails:   "2 uprights, slots at 4 heights, 10 crossings typed",
	Mended:  "8 crossings",
	Rows:    jointCountRows,
	Says:    jointCountSays,
}

func jointCountSays(r *check.Result) string {
	v := r.Values
	switch {
	case r.Row.Words["says"] != "":
		return r.Row.Words["says"]
	case v["d"] > 0 && v["n"]*v["P"] == v["s"]:
		return fmt.Sprintf("%s crossings typed; is that on each of the %s pieces? In all there are %s", r.Print("n"), r.Print("P"), r.Print("s"))
	case v["d"] > 0:
		return fmt.Sprintf("%s crossings typed; positions on %s pieces make %s", r.Print("n"), r.Print("P"), r.Print("s"))
	case v["e"] > 0:
		return fmt.Sprintf("%s crossings typed; the pieces can cross %s times at most", r.Print("n"), r.Print("x"))
	case v["f"] > 0:
		return fmt.Sprintf("%s crossings typed; the row of the mating part says %s", r.Print("n"), r.Print("w"))
	}
	return fmt.Sprintf("%s crossings on %s pieces cut alike is no whole number a piece", r.Print("n"), r.Print("P"))
}

func jointCountRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, jt := range j.Joints {
		if r, ok := jointCount(j, jt); ok {
			out = append(out, r)
		}
	}
	return append(append(out, cleatRows(j)...), handRows(j)...)
}

// cleatRows ask whether each cleat is screwed on: the joints that count it come to no fewer
// than its pieces. The first of them speaks.
func cleatRows(j *check.Job) []check.Row {
	fixed, first := map[*check.Part]float64{}, map[*check.Part]*check.Joint{}
	var order []*check.Part
	for _, jt := range j.Joints {
		p := j.Part(jt.Enters.Text)
		if jt.Kind != check.CleatJoint || jt.Inferred || p == nil || p.Role != check.Cleat && p.Role != check.Ledger {
			continue
		}
		if first[p] == nil {
			first[p] = jt
			order = append(order, p)
		}
		if !jt.Count.Known {
			fixed[p] = math.Inf(1) // a row without a number may stand for all
		}
		fixed[p] += jt.Count.Nominal
	}
	var out []check.Row
	for _, p := range order {
		jt, n := first[p], fixed[p]
		if !p.Qty.Known || math.IsInf(n, 1) {
			continue
		}
		r := row(p, jt.Mark.Text+" cleats", jt.Count.From, jt.Row)
		r.Most = check.Verify
		r.Words["says"] = fmt.Sprintf("%g joints screw it on; there are %g of it", n, p.Qty.Nominal)
		all := check.Exact(n)
		r.In = map[string]check.Value{"n": all.At(jt.Count.From), "s": check.Exact(math.Max(n, p.Qty.Nominal)), "x": all, "w": all, "P": check.Exact(1)}
		out = append(out, r)
	}
	return out
}

func jointCount(j *check.Job, jt *check.Joint) (check.Row, bool) {
	into, enters := bearing(j, jt.Into.Text), bearing(j, jt.Enters.Text)
	if jt.Inferred || !jt.Count.Known && jt.Count.Ask.Says == "" || len(into) == 0 || !counted(jt.Kind) {
		return check.Row{}, false
	}
	n := jt.Count
	r := check.Row{Case: into[0].Case.Text, Name: jt.Mark.Text, Cells: []check.Cell{jt.Row}, Cause: jt.Mark.Text + " count", Words: map[string]string{}}
	if r.Name == "" {
		r.Name = "joint in " + into[0].Name()
	} else {
		r.Name = "Joint " + r.Name
	}
	if n.From != (check.Cell{}) {
		r.Cells = []check.Cell{n.From}
	} else if !n.Known {
		r.Cells = []check.Cell{n.Ask.Cell}
	}
	r.Marks = []string{into[0].Name()}
	if len(enters) > 0 {
		r.Marks = append(r.Marks, enters[0].Name())
	}
	r.In = map[string]check.Value{"n": n, "s": n, "x": n, "w": n, "P": check.Exact(1)}
	if !n.Known {
		return r, true
	}
	cut := count(into)
	switch {
	case cut == 0:
		return r, true
	case len(jt.At) > 0:
		r.In["s"] = check.Exact(cut * float64(len(jt.At)))
	}
	if len(into) == 1 {
		r.In["P"] = check.Exact(cut)
	}
	if n.Nominal == float64(len(jt.At)) && cut > 1 || !crosses(jt.Kind) {
		r.Most = check.Verify // counted on each piece, or by the shelves, it would be right
	}
	if goes := count(enters); goes > 0 && crosses(jt.Kind) {
		r.In["x"] = check.Exact(math.Max(cut*goes, float64(len(jt.At))*cut))
	}
	if w, ok := mating(j, jt); ok {
		r.In["w"] = w
	}
	return r, true
}

// counted are the joints whose number is that of the slots: a groove or a rabbet runs all
// round, and its number may mean anything.
func counted(k check.JointKind) bool { return crosses(k) || k == check.Dado || k == check.Notch }

func crosses(k check.JointKind) bool { return k == check.CrossLap || k == check.NotchedLap }

// bearing are the parts that a joint names, by mark or by what they are.
func bearing(j *check.Job, name string) []*check.Part {
	if p := j.Part(name); p != nil {
		return []*check.Part{p}
	}
	return j.Called(name)
}

func count(ps []*check.Part) float64 {
	n := 0.0
	for _, p := range ps {
		if !p.Qty.Known {
			return 0
		}
		n += p.Qty.Nominal
	}
	return n
}

// mating is what the row of the mating part counts, where one above speaks of the same two
// parts the other way round.
func mating(j *check.Job, jt *check.Joint) (check.Value, bool) {
	for _, o := range j.Joints {
		if o == jt {
			break // the later row of the two speaks
		}
		if o.Kind == jt.Kind && o.Into.Text == jt.Enters.Text && o.Enters.Text == jt.Into.Text && o.Count.Known {
			if cut := count(bearing(j, o.Into.Text)); len(o.At) > 0 && cut > 0 && o.Count.Nominal != cut*float64(len(o.At)) {
				return check.Value{}, false // wrong by itself, and told there
			}
			return o.Count, true
		}
	}
	return check.Value{}, false
}

// handRows ask of sides and doors that are typed by hand whether each left has its right.
// They pair only where both hands are typed: a lone door has one hand, and "fin. end L" is no
// hand of a pair of sides.
func handRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, c := range j.Cases() {
		for _, role := range []check.Role{check.Side, check.Door} {
			left, right, first := 0.0, 0.0, (*check.Part)(nil)
			sound := true
			for _, p := range c.Role(role) {
				sound = sound && p.Qty.Known && p.Hand != ""
				if p.Hand == "L" {
					left += p.Qty.Nominal
				} else {
					right += p.Qty.Nominal
				}
				if first == nil {
					first = p
				}
			}
			if first == nil || !sound || left == 0 || right == 0 {
				continue
			}
			r := row(first, "hands", first.Qty.From)
			r.Most = check.Verify
			r.In["n"], r.In["s"] = check.Exact(right), check.Exact(left)
			r.In["x"], r.In["w"], r.In["P"] = r.In["n"], r.In["n"], check.Exact(1)
			r.Words["says"] = fmt.Sprintf("%g left and %g right among the %ss of %s", left, right, role, c.Label())
			out = append(out, r)
		}
	}
	return out
}
