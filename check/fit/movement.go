package fit

import (
	"fmt"

	"dryfit/check"
	"dryfit/check/moisture"
	"dryfit/check/standard"
)

// Movement asks whether what was dry in the shop still has room in the damp months. A part
// swells in its thickness, the slot it stands in opens in plane or along the grain; solid wood
// screwed across its grain swells against its screws. The moisture comes from the air of the
// room: Hailwood and Horrobin's equation at 70 F for wood, a table for MDF.
var Movement = &check.Check{
	ID:      "fit.movement",
	Asks:    "Is there room left when the parts swell in the damp months?",
	Costs:   "a grid that locks in its first summer, a solid top that splits along its screws",
	Applies: "every slot whose clearance is known, and solid wood screwed across the grain",
	Inputs: []check.Input{
		{Symbol: "x", Name: "size that swells", Unit: check.Length},
		{Symbol: "C", Name: "movement for 1 % of moisture", Unit: check.Ratio, Measure: "look up the movement of the board"},
		{Symbol: "B", Name: "movement of what holds it for 1 % of moisture", Unit: check.Ratio, Measure: "look up the movement of the board"},
		{Symbol: "M", Name: "moisture as made, in %", Unit: check.Ratio},
		{Symbol: "N", Name: "moisture in the damp months, in %", Unit: check.Ratio},
		{Symbol: "c", Name: "room it has", Unit: check.Film},
	},
	Steps: []check.Step{
		{Symbol: "g", Name: "swells by", Formula: "x*(C-B)*(N-M)", Unit: check.Film},
		{Symbol: "m", Name: "room left", Formula: "c-g", Unit: check.Film},
	},
	NoMend: moreRoom,
	Ways:   map[string]string{"x": moreRoom, "C": moreRoom, "B": moreRoom, "M": moreRoom, "N": moreRoom},
	Source: []check.Source{
		{Title: "dD = D C dM: USDA Wood Handbook FPL-GTR-190 eq. 13-2, 6 to 14 % moisture", How: "read"},
		{Title: "moisture of wood from the air: Wood Handbook ch. 4, Fahrenheit form", How: "read, second hand"},
		{Title: "MDF in thickness and plane: European and Australasian panel trade guides, which differ by 2", How: "read"},
	},
	Limits:  "A guess at the air of the room: VERIFY at most. Growth along a run of MDF belongs to the opening.",
	Until:   check.Released,
	Under:   "fit.joint",
	Value:   "g",
	Against: []string{"c"},
	Fails:   "a 3 in stack of MDF with .010 to spare in its slot",
	Mended:  "1/32 to spare",
	Rows:    movementRows,
	Way:     func(r *check.Result) string { return r.Row.Words["way"] },
	Says: func(r *check.Result) string {
		return fmt.Sprintf("may swell by %s and more in damp months; it has %s of room", r.Print("g"), r.Print("c"))
	},
}

const moreRoom = "leave more clearance, and seal all faces before they leave the shop"

func movementRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, p := range passages(j) {
		if r, ok := p.swelling(); ok {
			out = append(out, r)
		}
	}
	for _, jt := range j.Joints {
		out = append(out, screwedAcross(j, jt)...)
	}
	return out
}

// swelling is a part that swells in its slot.
func (p passage) swelling() (check.Row, bool) {
	c, ok := p.nominal()
	if !ok || c <= 0 || p.into == nil {
		return check.Row{}, false // what binds by itself is told by fit.joint
	}
	part, _, _ := p.job.Material(stuff(p.part))
	into, _, _ := p.job.Material(stuff(p.into))
	thick, ok := acrossOf(p.job, part)
	open, ok2 := alongOf(p.job, into)
	if !ok || !ok2 {
		return check.Row{}, false
	}
	r := p.row()
	r.Name, r.Cause, r.Most, r.Folds = p.part.Name(), p.cause+" swells", check.Verify, "swells"
	r.In = map[string]check.Value{
		"x": check.Exact(p.part.Thickness.Nominal - 2*p.notch.Nominal).At(p.part.Thickness.From),
		"C": thick, "B": open, "c": because(check.Exact(c), "worked out in fit.joint, at its nominals"),
	}
	return r, air(p.job, part, r)
}

// stuff is the material of a part, or of its layers.
func stuff(p *check.Part) string {
	for _, l := range p.Layers {
		if !l.Strip && l.Material != "" {
			return l.Material
		}
	}
	return p.Material.Text
}

// acrossOf is the movement of a material in its thickness; of solid wood, from quarter to
// flat sawn.
func acrossOf(j *check.Job, m standard.Material) (check.Value, bool) {
	if !m.Solid() {
		e, ok := j.Shop.For(m, "movement", "thickness")
		return j.Entry(e, check.Ratio), ok
	}
	radial, ok := j.Shop.For(m, "movement", "radial")
	tangential, ok2 := j.Shop.For(m, "movement", "tangential")
	if !ok || !ok2 {
		return check.Value{}, false
	}
	v := j.Entry(tangential, check.Ratio)
	return check.Guess(radial.Nominal, tangential.Nominal, tangential.High, v.Why+"; less if quarter sawn"), true
}

// alongOf is the movement of a material in plane, or along the grain.
func alongOf(j *check.Job, m standard.Material) (check.Value, bool) {
	property := "in plane"
	if m.Solid() {
		property = "along grain"
	}
	e, ok := j.Shop.For(m, "movement", property)
	return j.Entry(e, check.Ratio), ok
}

const roomHeat = 70 // degrees F

// air binds the moisture of a material as made, in the middle of the room's year, and in its
// damp months.
func air(j *check.Job, m standard.Material, r check.Row) bool {
	h := j.Standard("movement", "room air", "humidity over the year", check.Ratio)
	settles, how := func(h float64) (float64, error) { return moisture.EMCFahrenheit(roomHeat, h) }, "Hailwood-Horrobin at 70 F"
	if m.Family == "MDF" || m.Family == "particleboard" || m.Family == "HDF" {
		settles, how = moisture.MDFMoisture, "moisture of MDF, panel guide"
	}
	made, err := settles(h.Nominal)
	damp, err2 := settles(h.High)
	if !h.Known || err != nil || err2 != nil {
		return false
	}
	r.In["M"] = because(check.Exact(made), fmt.Sprintf("%s, air of %.0f %%", how, 100*h.Nominal))
	r.In["N"] = because(check.Exact(damp), fmt.Sprintf("%s, air of %.0f %%", how, 100*h.High))
	return true
}

// screwedAcross is solid wood that a cleat or a board as long as it is wide holds by screws.
func screwedAcross(j *check.Job, jt *check.Joint) []check.Row {
	if jt.Screws == nil {
		return nil
	}
	var out []check.Row
	in, into := firstPart(mates(j, jt.Enters.Text)), firstPart(mates(j, jt.Into.Text))
	for _, pair := range [][2]*check.Part{{in, into}, {into, in}} {
		wide, cleat := pair[0], pair[1]
		if wide == nil || cleat == nil {
			continue
		}
		m, ok, _ := j.Material(stuff(wide))
		lies := cleat.Length.Nominal / wide.Width.Nominal
		if !ok || !m.Solid() || lies < .5 || lies > 1.1 || wide.Length.Nominal < wide.Width.Nominal {
			continue
		}
		if r, ok := acrossRow(j, jt, wide, m); ok {
			out = append(out, r)
		}
	}
	return out
}

func acrossRow(j *check.Job, jt *check.Joint, wide *check.Part, m standard.Material) (check.Row, bool) {
	across, ok := acrossOf(j, m)
	if !ok {
		return check.Row{}, false
	}
	r := check.Row{Case: wide.Case.Text, Marks: marks(wide), Name: wide.Name(), Count: int(pieces(wide)),
		Cells: cells(jt.Row, check.Value{From: jt.Fastener.From}, wide.Width), Cause: jt.Mark.Text + " screwed across", Most: check.Verify,
		Folds: "screwed across", Words: map[string]string{}}
	r.In = map[string]check.Value{
		"x": check.Exact(wide.Width.Nominal).At(wide.Width.From), "C": across, "B": check.Exact(0),
		"c": settled(j.Standard("movement", "screw hole", "play", check.Film)),
	}
	r.Words["way"] = "slot the screw holes across the grain, all but the row in the middle"
	return r, air(j, m, r)
}
