package structure

import "dryfit/check"

// Meeting is a place along a part where another meets it.
type Meeting struct {
	Others []*check.Part // those that the joint names: one of them is there
	At     float64       // the middle, from the left or lower end of the part
	Typed  bool          // somebody gave the place; else equal bays
}

// Meetings are the places along a part where joints put other parts, in the unit of the job:
// slots at the places typed, and uprights that a shelf goes through, in equal bays where nobody
// typed a place. A joint without a place in an upright says nothing of a height.
func Meetings(j *check.Job, p *check.Part) []Meeting {
	var out []Meeting
	for _, m := range jointsOf(j, p) {
		switch {
		case runsThrough(m.joint.Kind) && !stands(p):
			for _, c := range m.places(j, p) {
				out = append(out, Meeting{m.others, c.at, c.typed})
			}
		case m.slotted && p.Length.Known:
			for _, x := range typedPlaces(m.joint, p.Length.Nominal, thick(m.others)) {
				out = append(out, Meeting{m.others, x, true})
			}
		}
	}
	return out
}
