package fit

import (
	"testing"

	"dryfit/check"
)

// housed is a divider 3/4 thick and 60 long, with a dado 3/4 wide of a depth at 20 from the
// bottom, and one of another depth at another place from the other side.
func housed(depth, other, at float64) *check.Job {
	j := caseOf(piece("A1", check.Divider, 60, 12, .75), piece("A2", check.Shelf, 20, 12, .75), piece("A3", check.Shelf, 15, 12, .75))
	dado := func(mark, shelf string, depth, at float64) *check.Joint {
		return &check.Joint{Row: check.Cell{Tab: "Joints", Addr: "A2"}, Mark: check.Text{Text: mark}, Into: check.Text{Text: "A1"}, Enters: check.Text{Text: shelf},
			Kind: check.Dado, Count: check.Exact(1), Width: check.Exact(.75), DepthIn: check.Exact(depth), From: "bottom", At: []check.Value{check.Exact(at)}}
	}
	j.Joints = []*check.Joint{dado("J1", "A2", depth, 20)}
	if other > 0 {
		j.Joints = append(j.Joints, dado("J2", "A3", other, at))
	}
	return j
}

func TestHoused(t *testing.T) {
	twice := housed(.375, 0, 0)
	twice.Joints[0].Count = check.Exact(2)
	groove := housed(.75, 0, 0)
	groove.Joints[0].Kind = check.Groove
	cases := []struct {
		name, hand string
		job        *check.Job
		want       check.Verdict
		says       string
	}{
		{"a third", ".75 - .25 = 1/2", housed(.25, 0, 0), check.Clear, ""},
		{"two thirds", ".75 - .5 = 1/4 over a quarter of .75", housed(.5, 0, 0), check.Clear, ""},
		{"an eighth left", ".75 - .625 = 1/8 under 3/16", housed(.625, 0, 0), check.Verify, "cut 5/8 in deep leaves 1/8 in of the 3/4 in of A1"},
		{"as deep as the member", ".75 - .75", housed(.75, 0, 0), check.Hold, "cut 3/4 in deep, as deep as the 3/4 in of A1"},
		{"deeper", ".75 - 1", housed(1, 0, 0), check.Hold, "cut 1 in deep, deeper than the 3/4 in of A1"},
		{"a groove as deep", ".75 - .75", groove, check.Hold, "cut 3/4 in deep, as deep as the 3/4 in of A1"},
		{"from both faces at one height", ".75 - .375 - .375", housed(.375, .375, 20), check.Hold, "cuts from both faces, 3/4 in in all, meet in the 3/4 in of A1"},
		{"from both faces, a quarter each", ".75 - .5 = 1/4", housed(.25, .25, 20), check.Clear, ""},
		{"from both faces, clear of each other", "20 to 20.75, 20.75 on", housed(.375, .375, 20.75), check.Clear, ""},
		{"one row counted on both faces", "2 slots, 1 place: .75 - 2*.375", twice, check.Hold, "cuts from both faces, 3/4 in in all, meet in the 3/4 in of A1"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := worst(t, Lap, c.job)
			short(t, r)
			if r.Verdict != c.want || c.says != "" && Lap.Says(r) != c.says {
				t.Errorf("%v %q, want %v %q (%s)", r.Verdict, Lap.Says(r), c.want, c.says, c.hand)
			}
		})
	}
	unsaid := housed(.25, 0, 0)
	unsaid.Joints[0].DepthIn = check.Value{}
	if n := len(Lap.Rows(unsaid)); n != 0 {
		t.Errorf("%d rows for a dado without a depth, want none", n)
	}
}
