package inputs

import (
	"fmt"

	"dryfit/check"
)

const jointsName = "joints"

// jointsTab asks for the slots of the crossings that were inferred; nil where the office typed
// its joints, or none was found.
func (s *survey) jointsTab() *tab {
	var rows []row
	for _, jt := range s.Joints {
		if !jt.Inferred {
			return nil
		}
		rows = append(rows, s.jointRow(jt, len(rows)+1))
	}
	if len(rows) == 0 {
		return nil
	}
	return &tab{name: jointsName, title: "Joints", rows: rows, spare: 10,
		tells: []string{"A row for each kind of slot, notch or dado. The slot width decides whether the finished part goes in.",
			"Slanting print is what dryfit takes from roles and sizes. Write yes beside it, or type over it."},
		columns: append([]column{
			{head: "joint", width: 6, spare: maybe, note: "A name for the joint, such as J1."},
			{head: "slotted part", key: true, width: 9, spare: maybe, note: "Mark of the part that is slotted or notched."},
			{head: "part that goes in", key: true, width: 9, spare: maybe, note: "Mark of the part that goes into it."},
			{head: "kind", width: 10, spare: maybe, list: jointKinds(), note: "How the two meet. In a cross lap both are cut."},
			{head: "number", width: 8, spare: maybe, note: "Crossings in the whole job."},
			{head: "slot width (" + s.unit() + ")", width: 9, spare: maybe, note: "As cut, before finish: " + s.either("1 9/16, 1.5625", "39.5") + "."},
			{head: "depth in slotted part (" + s.unit() + ")", width: 9.5, spare: maybe, note: "How deep the slot is cut."},
			{head: "depth in part that goes in (" + s.unit() + ")", width: 9.5, spare: maybe, note: "Of a lap; the two depths share the member. Empty for a dado."},
			{head: "from", width: 8, spare: maybe, list: []string{"bottom", "top", "left", "right"}, note: "The end of the slotted part that the positions count from."},
			{head: "positions, centre lines (" + s.unit() + ")", width: 13, spare: maybe, note: "Centre lines of the slots from that end, parted by semicolons: " + s.either("13; 27; 41 1/2", "330; 686; 1054") + "."},
			{head: "fit", width: 7, spare: maybe, list: []string{"snug", "slip", "loose", "hidden"}, note: "The fit wanted after finish, or a clearance as a number."},
			{head: "fastener", width: 11, spare: maybe, note: "Such as 3 screws #8 x 2 in. Glue alone carries nothing."},
		}, confirming...)}
}

func (s *survey) jointRow(jt *check.Joint, n int) row {
	mark := jt.Mark.Text
	if mark == "" {
		mark = fmt.Sprintf("J%d", n)
	}
	cells := []cell{{mark, told}, {s.partName(jt.Into.Text), found}, {s.partName(jt.Enters.Text), found}, {string(jt.Kind), found},
		{fmt.Sprintf("%g", jt.Count.Nominal), found}, {"", wanted}, {"", wanted}, {"", wanted}, {"", maybe}, {"", maybe}, {"", wanted}, {"", maybe}}
	if !jt.Count.Known {
		cells[4] = cell{"", wanted}
	}
	if jt.Kind != check.CrossLap {
		cells[7].part = maybe
	}
	reason := jt.Count.Why
	if reason == "" {
		reason = "roles and sizes"
	}
	return row{key: s.partName(jt.Into.Text) + "|" + s.partName(jt.Enters.Text), cells: confirmable(cells, reason)}
}

// partName is how a joint names a part: by its mark, else as it is.
func (s *survey) partName(mark string) string {
	if p := s.Part(mark); p != nil && p.Mark.Text == "" {
		return p.Description.Text
	}
	return mark
}

func jointKinds() []string {
	var out []string
	for _, k := range []check.JointKind{check.CrossLap, check.NotchedLap, check.Dado, check.Groove, check.Rabbet, check.CleatJoint, check.Notch, check.Butt, check.Mitre} {
		out = append(out, string(k))
	}
	return out
}
