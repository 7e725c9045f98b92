package structure

import (
	"strings"
	"testing"

	"dryfit/check"
)

// railed is a bookcase with a rail along its top, screwed to something.
func (b *build) railed(to string, n float64, gauge string, long float64) *check.Job {
	j := b.job(in("A", of(part("E1", check.Side, 70, 12, .75, "birch plywood"), 2), part("S1", check.Shelf, 30, 12, 1, "MDF"), part("N1", check.Ledger, 30, 3, .75, "yellow poplar"))...)
	jt := screwed(joint("J1", to, "N1", check.CleatJoint), n, gauge, long)
	jt.Count = check.Exact(1)
	return b.load(b.join(j, jt), "A", check.PerLength, 10)
}

// By hand, NDS 12.2.2 and 1.25 for a person (Table 2.3.2): four No. 10 x 3 through 3/4 of rail and
// 1/2 of board hold 1.75 in each, 2850*.42^2*.19*1.75*1.25 = 209 lb; one No. 6 x 1 1/4 ends in
// the board.
func TestFixingsAreAskedWhatTheyHold(t *testing.T) {
	b := &build{}
	recess := func(j *check.Job) *check.Job {
		j.Openings = []*check.Opening{{Name: check.Text{Text: "A"}, Widths: []check.Reading{{Value: check.Exact(32)}}}}
		return j
	}
	for _, row := range []struct {
		name string
		j    *check.Job
		want check.Verdict
		asks bool
		says string
	}{
		{"long screws into studs", b.railed("studs", 4, "#10", 3), check.Clear, true, ""},
		{"a short one that ends in the board", b.railed("studs", 1, "#6", 1.25), check.Verify, true, "one screw No. 6 x 1 1/4 in may not even reach the studs"},
		{"a short one in a recess", recess(b.railed("studs", 1, "#6", 1.25)), check.Clear, false, ""},
		{"into brick, whose plugs nobody can work out", b.railed("brick", 1, "#6", 1.25), check.Clear, false, ""},
		{"into nothing that is a house", b.railed("E1", 4, "#10", 3), check.Verify, true, "none is named"},
	} {
		all := asked(t, Anchor, row.j)
		if len(all) > 0 != row.asks {
			t.Errorf("%s: asked %d times", row.name, len(all))
			continue
		}
		for _, r := range all {
			if says := Anchor.Says(r); r.Verdict != row.want || row.says != "" && !strings.Contains(says, row.says) {
				t.Errorf("%s: %v, %s; want %v", row.name, r.Verdict, says, row.want)
			}
		}
	}
	j := b.railed("studs", 4, "#10", 3)
	near(t, "four screws", fixingOf(j, j.Cases()[0], check.Exact(70)).takes.Nominal, 4*2850*.42*.42*.19*1.75*1.25, 1e-6)
	b.mm = true
	j = b.railed("studs", 4, "#10", 3)
	near(t, "four screws, in newtons", fixingOf(j, j.Cases()[0], check.Exact(1778)).takes.Nominal, 4*2850*.42*.42*.19*1.75*1.25*4.4482216152605, 1e-3)
}
