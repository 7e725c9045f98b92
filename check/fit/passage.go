package fit

import (
	"math"

	"dryfit/check"
	"dryfit/check/standard"
)

// passage is one thing that goes into one slot: a part by its thickness, or the neck that
// the notches of an upright leave.
type passage struct {
	job   *check.Job
	joint *check.Joint
	part  *check.Part // what goes in
	into  *check.Part // what is slotted; nil where no row bears the name
	slot  check.Value // as cut
	notch check.Value // cut from each side of what goes in; 0 for a whole part
	name  string      // "Slot J3"
	cause string      // tells apart two passages of one joint
}

// passages are all that goes into something in a job. A slot whose width has no column is
// asked for only in laps, where the slot is the joint.
func passages(j *check.Job) []passage {
	var out []passage
	for _, jt := range j.Joints {
		if !slotted(jt.Kind) || jt.Kind == check.NotchedLap {
			continue
		}
		for _, in := range entering(j, jt) {
			into := firstPart(beside(in, mates(j, jt.Into.Text)))
			p := passage{job: j, joint: jt, part: in, into: into, slot: width(jt), notch: check.Exact(0),
				name: slotName(jt, in), cause: jt.Mark.Text + "in"}
			lies := jt.Kind == check.Rabbet && in.Role == check.Back // a back lies in its rabbet, nothing grips it
			if p.asked() && !lies {
				out = append(out, p)
			}
		}
		if jt.Kind == check.CrossLap {
			out = append(out, reverse(j, jt)...)
		}
	}
	for _, n := range notchedLaps(j) {
		out = append(out, n.passages()...)
	}
	return out
}

func (p passage) asked() bool {
	typed := p.slot.Known || p.joint.Width.Ask.Cell != (check.Cell{})
	return typed || p.joint.Kind == check.CrossLap || p.joint.Inferred
}

// slotted reports whether a part goes into something cut in another.
func slotted(k check.JointKind) bool {
	switch k {
	case check.CrossLap, check.NotchedLap, check.Dado, check.Groove, check.Rabbet, check.Notch:
		return true
	}
	return false
}

// entering are the parts that go in. Where the row names none, they are the fixed shelves of
// the slotted part's case, if all of those are alike.
func entering(j *check.Job, jt *check.Joint) []*check.Part {
	if jt.Enters.Text != "" {
		return mates(j, jt.Enters.Text)
	}
	into := firstPart(mates(j, jt.Into.Text))
	if into == nil {
		return nil
	}
	var shelves []*check.Part
	for _, p := range beside(into, j.Pieces()) {
		if p.Role != check.Shelf || p == into {
			continue
		}
		if len(shelves) > 0 && !alike(shelves[0], p) {
			return nil
		}
		shelves = append(shelves, p)
	}
	if len(shelves) == 0 {
		return nil
	}
	return shelves[:1]
}

// alike reports whether two parts are one in a slot.
func alike(p, q *check.Part) bool {
	return p.Thickness.Nominal == q.Thickness.Nominal && p.Material.Text == q.Material.Text && p.Finish.Text == q.Finish.Text
}

// reverse is the other half of a cross lap, where the slotted part goes into the slot of the
// part that enters. It is asked where the two differ a little and no row of its own speaks of
// it: one slot width was typed for both.
func reverse(j *check.Job, jt *check.Joint) []passage {
	in := firstPart(mates(j, jt.Enters.Text))
	if in == nil || !jt.Width.Known || spoken(j, jt) {
		return nil
	}
	var out []passage
	for _, p := range mates(j, jt.Into.Text) {
		near := math.Abs(p.Thickness.Nominal-in.Thickness.Nominal) <= j.PerInch()/16
		if !alike(p, in) && near {
			out = append(out, passage{job: j, joint: jt, part: p, into: in, slot: jt.Width, notch: check.Exact(0),
				name: slotName(jt, p), cause: jt.Mark.Text + "out"})
		}
	}
	return out
}

// spoken reports whether another row speaks of the same two parts the other way round.
func spoken(j *check.Job, jt *check.Joint) bool {
	for _, o := range j.Joints {
		if o != jt && o.Into.Text == jt.Enters.Text && o.Enters.Text == jt.Into.Text {
			return true
		}
	}
	return false
}

func slotName(jt *check.Joint, part *check.Part) string {
	if jt.Mark.Text != "" {
		return "Slot " + jt.Mark.Text
	}
	return "Slot for " + part.Name()
}

// width is the slot as cut, or the question for it.
func width(jt *check.Joint) check.Value {
	v := jt.Width
	if !v.Known {
		v.Ask.What = "the slot width as cut"
		if v.Ask.Cell == (check.Cell{}) && v.Ask.Tab == "" {
			v.Ask.Cell = jt.Row
		}
	}
	return v
}

// row starts a row about the passage, with the inputs that the checks of a clearance share.
func (p passage) row() check.Row {
	r := check.Row{Case: p.part.Case.Text, Name: p.name, Count: int(p.joint.Count.Nominal),
		Marks: marks(p.part, p.into), Cells: cells(p.joint.Row, p.slot, p.part.Thickness), Cause: p.cause,
		Words: map[string]string{"part": "finished " + p.part.Name(), "bare": p.part.Name()}}
	if p.slot.From == (check.Cell{}) {
		r.Cells = append([]check.Cell{p.joint.Row}, r.Cells...)
	}
	if p.notch.Nominal > 0 || !p.notch.Known {
		r.Words["part"] = "finished neck of " + p.part.Name()
	}
	r.In = p.clearance()
	return r
}

// films are the film on one face and how many times it counts: g on what goes in, k in the
// slot. All come out of one spraying, so they are one film that moves together; where only
// the slot is finished it is the film of the slotted part.
func (p passage) films() (f, g, k check.Value) {
	fin, film := finish(p.job, p.part)
	g = faces(p.job, fin.Faces)
	if p.notch.Nominal > 0 {
		g = p.cheeks(fin, 2)
	}
	into := p.into
	if into == nil {
		into = p.part
	}
	ifin, ifilm := finish(p.job, into)
	sides := 2.0
	if p.joint.Kind == check.Rabbet {
		sides = 1
	}
	k = p.cheeks(ifin, sides)
	switch {
	case ifilm.High == 0:
		k = check.Exact(0)
	case film.High == 0:
		film, g = ifilm, check.Exact(0)
	case film.Nominal > 0 && ifilm.Nominal > 0:
		k = k.Scale(ifilm.Nominal / film.Nominal)
	}
	if film.High == 0 {
		g = check.Exact(0)
	}
	return film, g, k
}

// faces is how many faces of a part are coated.
func faces(j *check.Job, coated standard.Entry) check.Value {
	v := settled(j.Entry(coated, check.Ratio))
	if !v.Known {
		return check.Exact(2)
	}
	return v
}

// cheeks is how much of a face's film lands on the walls of a cut, for so many walls: nothing
// where they are masked.
func (p passage) cheeks(fin standard.Finish, walls float64) check.Value {
	if fin.Masked {
		return because(check.Exact(0), "slots masked")
	}
	return p.job.Entry(fin.Cheeks, check.Ratio).Scale(walls)
}

// window is the least and the most clearance wanted. Where the joint names no fit, any fit up
// to a loose one may have been meant; on the tight side the shop's slip fit is wished, a snug
// one would do.
func (p passage) window() (least, most check.Value) {
	j, jt := p.job, p.joint
	fin, _ := finish(j, p.part)
	name := jt.Fit.Text
	if name == "" && (jt.Kind == check.Dado || jt.Kind == check.Groove || jt.Kind == check.Rabbet) {
		name = "hidden"
	}
	w, ok := j.Shop.Fit(name, fin)
	if !ok {
		w, _ = j.Shop.Fit("", fin)
		name = ""
	}
	e := j.Entry(w.Entry, check.Film)
	k := j.PerInch()
	if w.Unit == "mm" {
		k /= 25.4
	}
	least, most = because(check.Exact(w.Least*k), e.Why), because(check.Exact(w.Most*k), e.Why)
	if name == "" {
		snug := j.Standard("fit", "snug", "clearance", check.Film)
		loose := j.Standard("fit", "loose", "clearance", check.Film)
		why := "no fit named: " + e.Why
		least = check.Guess(math.Min(snug.Low, least.Low), least.Nominal, least.Nominal, why)
		most = because(check.Exact(math.Max(loose.High, most.High)), "no fit named: as loose as any; "+loose.Why)
	}
	return least, most
}

// sigma is one sigma of what differs from joint to joint: the slot as cut, the thickness
// within a sheet, once a layer, and for a neck the two notches that make it. It is a shop
// figure, so a shop that cuts closer is left room: it alone stops no cut.
func (p passage) sigma() check.Value {
	slot := p.job.Standard("spread", "slot width", "CNC, 2 sigma", check.Film)
	family, of := "MDF", "within a panel"
	if m, ok, _ := p.job.Material(p.part.Material.Text); ok && m.Family == "plywood" {
		family, of = "plywood", "within a sheet"
	}
	sheet := p.job.Standard("spread", family, of, check.Film)
	layers := 0.0
	for _, l := range p.part.Layers {
		if !l.Strip && l.Count.Known {
			layers += l.Count.Nominal
		}
	}
	layers = math.Max(layers, 1)
	square := func(v check.Value, end func(check.Value) float64) float64 { return end(v) * end(v) / 4 }
	low := func(v check.Value) float64 { return v.Low }
	usual := func(v check.Value) float64 { return v.Nominal }
	least := square(slot, low) + layers*square(sheet, low)
	most := square(slot, usual) + layers*square(sheet, usual)
	why := slot.Why + "; " + sheet.Why
	if p.notch.Nominal > 0 {
		depth := p.job.Standard("spread", "slot depth", "2 sigma", check.Film)
		least += 2 * square(depth, low)
		most += 2 * square(depth, usual)
		why += "; " + depth.Why
	}
	u := math.Sqrt(most)
	return check.Guess(math.Sqrt(least), u, u, why)
}
