package read

import (
	"strings"
	"testing"

	"dryfit/check"
)

// jobOf reads a workbook in the notation of fixtures as a job.
func jobOf(t *testing.T, fixture string) (*check.Job, []*Book) {
	t.Helper()
	b, err := Open("job.xlsx", parseFixture(t, fixture).data, nil)
	if err != nil {
		t.Fatal(err)
	}
	job, err := Job("job", ".", []*Book{b}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return job, []*Book{b}
}

const gridParts = `
== tab Parts
Job 61 Loft || | | | | |
ALL SHELF SLOTS 1-5/16 x 4-7/8 DP, HALF FRONT / HALF BACK, U.N.O. | | | | | |
Mark | Part | Qty | L | W | T | Note
F1 | Shelf | 4 | 70 | 9 3/4 | 1 1/4 | slots +1/16
F2 | Shelf | 2 | 70 | 9 3/4 | 1 1/4 |
V1 | Upright | 3 | 80 | 9 3/4 | 1 1/4 | slots 1-11/32
V2 | Upright | 2 | 80 | 9 3/4 | 1 1/4 | do
`

// Widths by hand: the note of the slotted part before that of the part that goes in, before
// the standing rule; 1 1/4 + 1/16 = 1.3125; 1 11/32 = 1.34375.
func TestSettleSlots(t *testing.T) {
	job, books := jobOf(t, gridParts)
	mark := func(into, enters string) *check.Joint {
		j := &check.Joint{Into: check.Text{Text: into}, Enters: check.Text{Text: enters}, Kind: check.CrossLap}
		job.Joints = append(job.Joints, j)
		return j
	}
	note, ditto, over, rule := mark("V1", "F2"), mark("V2", "F2"), mark("F1", "V1"), mark("F2", "V9")
	own := mark("V1", "F1")
	own.Width = check.Exact(1.5)
	cleat := mark("V1", "F2")
	cleat.Kind = check.CleatJoint
	SettleSlots(job, books)
	for _, c := range []struct {
		name  string
		joint *check.Joint
		width float64
		cell  string
	}{
		{"note of the slotted part", note, 1.34375, "G6"},
		{"ditto below it", ditto, 1.34375, "G7"},
		{"over the part that goes in", over, 1.3125, "G4"},
		{"standing rule", rule, 1.3125, "A2"},
	} {
		w := c.joint.Width
		if w.Nominal != c.width || w.From.Addr != c.cell || w.Why == "" {
			t.Errorf("%s: width %v from %s (%s), want %v from %s", c.name, w.Nominal, w.From, w.Why, c.width, c.cell)
		}
		if c.joint.DepthIn.Nominal != 4.875 || c.joint.DepthOf.Nominal != 4.875 {
			t.Errorf("%s: depths %v and %v, want 4.875", c.name, c.joint.DepthIn.Nominal, c.joint.DepthOf.Nominal)
		}
	}
	if own.Width.Nominal != 1.5 || cleat.Width.Known {
		t.Errorf("a typed width became %v, a cleat got %v", own.Width.Nominal, cleat.Width)
	}
}

// By hand, upright 80, shelf 1.25 thick. Bays 18, 20, bal.: slots at 18 and 18+1.25+20 = 39.25.
// Equal bays of 3 slots: (80-3*1.25)/4 = 19.0625; slots at 19.0625, 39.375, 59.6875. Tops of
// shelves at 20 and 40: slots at 18.75 and 38.75. Balance in the middle of 18, bal., 20:
// 80-38-2*1.25 = 39.5, slots at 18 and 18+1.25+39.5 = 58.75. Three bays without a balance
// for 3 slots: 18, 37.25, 56.5.
func TestPlaceBays(t *testing.T) {
	job, books := jobOf(t, gridParts+`
== tab Joints
Jt | In | Rcvs | Type | No. | Slot W | From | Clear bays | Dp in A
J1 | V1 | F2 | lap | 6 | 1.3 | btm | 18, 20, bal. | 4
J2 | V1 | F2 | lap | 9 | 1.3 | btm | EQ | 4
J3 | V2 | F2 | lap | 4 | 1.3 | btm | to top of shelf 20, 40 | 4
J4 | V2 | F2 | lap | 4 | 1.3 | btm | 18, bal., 20 | 4
J5 | V2 | F2 | lap | 6 | 1.3 | btm | 18, 18, 18 | 4
J6 | V2 | Q9 | lap | 6 | 1.3 | btm | 18, 18, 18 | 4
`)
	SettleSlots(job, books)
	for i, want := range []string{"18 39.25", "19.0625 39.375 59.6875", "18.75 38.75", "18 58.75", "18 37.25 56.5", ""} {
		j := job.Joints[i]
		if got := nums(j.At); got != want || j.Centres || j.Far {
			t.Errorf("%s: slots at %q (centres %v, far %v), want %q", j.Mark.Text, got, j.Centres, j.Far, want)
		}
	}
	if !strings.Contains(strings.Join(job.Notes, "\n"), "thickness of Q9") {
		t.Errorf("nobody says why J6 has no positions: %q", job.Notes)
	}
}
