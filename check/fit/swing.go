package fit

import (
	"fmt"

	"dryfit/check"
	"dryfit/check/length"
)

// Swing asks whether a door that stands in its opening can open: its thickness makes the
// inner corner of the free edge swing wider than the door, against the case or against the
// other door of a pair.
var Swing = &check.Check{
	ID:      "fit.swing",
	Asks:    "Does the inner edge of the door clear what it swings past?",
	Costs:   "doors planed to a bevel after they are painted",
	Applies: "every door that stands in the opening of its case",
	Inputs: []check.Input{
		{Symbol: "I", Name: "opening of the case", Unit: check.Length},
		{Symbol: "w", Name: "door, width", Unit: check.Length},
		{Symbol: "t", Name: "door, thickness", Unit: check.Length},
		{Symbol: "N", Name: "doors side by side", Unit: check.Count},
		{Symbol: "f", Name: "film on one face", Unit: check.Film},
	},
	Steps: []check.Step{
		{Symbol: "W", Name: "width after finish", Formula: "w+2*f", Unit: check.Length},
		{Symbol: "T", Name: "thickness after finish", Formula: "t+2*f", Unit: check.Length},
		{Symbol: "q", Name: "corner swings wider than the door by", Formula: "SQRT(W^2+T^2)-W", Unit: check.Film},
		{Symbol: "g", Name: "gap at the free edge, gaps all alike", Formula: "(I-2*f-N*W)/(N+1)", Unit: check.Film},
		{Symbol: "m", Name: "margin", Formula: "g-q", Unit: check.Film},
	},
	Mends:  []check.Mend{{Symbol: "w", Order: "make the doors {} wide", Down: true, Least: 1e-6}},
	NoMend: "bevel the free edges before finish",
	Source: []check.Source{{Title: "diagonal of the door's section about its hinge edge", How: "common practice"}},
	Limits: "Takes the hinge at the front edge of the door. Does not know casings, walls, pulls, or lids.",
	Until:  check.Released,
	Value:  "g", Against: []string{"q"},
	Fails:  "a door 12 wide and 1 3/8 thick with 1/16 at its free edge",
	Mended: "3/32 at the free edge",
	Rows:   swingRows,
	Says: func(r *check.Result) string {
		step := 1.0 / 64
		if r.Job.Unit == length.Millimetre {
			step = 0.1
		}
		wants, gap := length.Step(r.Values["q"], step, length.Up), length.Step(r.Values["g"], step, length.Down)
		return fmt.Sprintf("inner corner wants %s to swing, the gap is %s", length.Format(wants, r.Job.Unit), length.Format(gap, r.Job.Unit))
	},
}

func swingRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, b := range boxes(j) {
		for _, p := range b.Role(check.Door) {
			d, ok := b.doors(p)
			if !ok || !d.inset || d.open <= d.n*p.Width.Nominal {
				continue // what does not go in at all is told by fit.case
			}
			_, film := finish(j, p)
			r := b.row(p, "swing", p.Width)
			r.Most = check.Verify
			r.In = map[string]check.Value{"I": because(check.Exact(d.open).At(b.deck.Length.From), "between the sides"), "w": p.Width,
				"t": ask(p.Thickness, p, "thickness"), "N": check.Exact(d.n), "f": settled(film)}
			out = append(out, r)
		}
	}
	return out
}
