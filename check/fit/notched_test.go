package fit

import (
	"math"
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/length"
)

// tower is the build of a notched lap: an upright 2 1/4 thick, cut at both sides and at the
// front, and a shelf of the same stuff slotted round the neck. All bare, calipered stock.
func tower(side, slot, height float64) *check.Job {
	j := lap(length.Inch, 2.21, 0, "none", "MDF")
	joints := func(addr string) check.Cell { return check.Cell{Book: "b", Tab: "Joints", Addr: addr} }
	u, s := j.Parts[1].Mark, j.Parts[0].Mark
	slip := check.Text{Text: "slip"}
	j.Joints = []*check.Joint{
		{Row: joints("A2"), Mark: check.Text{Text: "N1"}, Into: u, Enters: s, Kind: check.NotchedLap, Count: check.Exact(8), Fit: slip,
			Width: check.Exact(height).At(joints("F2")), Side: check.Exact(side).At(joints("G2")), Front: check.Exact(1).At(joints("H2"))},
		{Row: joints("A3"), Mark: check.Text{Text: "N2"}, Into: s, Enters: u, Kind: check.NotchedLap, Count: check.Exact(8), Fit: slip,
			Width: check.Exact(slot).At(joints("F3"))},
	}
	return j
}

func TestNotchedLapIsAskedTwice(t *testing.T) {
	// By hand: neck 2.21-2*.375 = 1.46; slot clearance .0225, notch clearance .0225.
	j := tower(.375, 1.4825, 2.2325)
	rows := Joint.Rows(j)
	if len(rows) != 2 {
		t.Fatalf("%d rows, want the shelf between the shoulders and the neck in its slot", len(rows))
	}
	for i, want := range []float64{.0225, .0225} {
		r := Joint.Judge(j, rows[i])
		if r.Verdict != check.Clear || math.Abs(r.Values["c"]-want) > 1e-3 {
			t.Errorf("%s: %v, clearance %v; want CLEAR and %v", rows[i].Name, r.Verdict, r.Values["c"], want)
		}
	}
}

func TestNotchedLapVerdicts(t *testing.T) {
	cases := []struct {
		name, hand         string
		side, slot, height float64
		want               [2]check.Verdict // shoulders, neck
	}{
		{"sound", "both .0225", .375, 1.4825, 2.2325, [2]check.Verdict{check.Clear, check.Clear}},
		{"slot as wide as the neck", "1.46 - 1.46 - .0002", .375, 1.46, 2.2325, [2]check.Verdict{check.Clear, check.Hold}},
		{"notch cut to the bare shelf", "2.21 - 2.21", .375, 1.4825, 2.21, [2]check.Verdict{check.Hold, check.Clear}},
		{"notches a sixteenth shallow", "neck 1.585 in 1.4825", .3125, 1.4825, 2.2325, [2]check.Verdict{check.Clear, check.Hold}},
		{"slot loose", ".07 over .035", .375, 1.53, 2.2325, [2]check.Verdict{check.Clear, check.Hold}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			j := tower(c.side, c.slot, c.height)
			for i, row := range Joint.Rows(j) {
				if got := Joint.Judge(j, row); got.Verdict != c.want[i] {
					t.Errorf("%s: %v, want %v (%s); c %v", row.Name, got.Verdict, c.want[i], c.hand, got.Values["c"])
				}
			}
		})
	}
}

// FX24 of the basis: upright 2.25, side notch .375, shelf slot 1.53125: clearance .03125.
func TestNeckInItsSlot(t *testing.T) {
	got, err := Joint.Work(plain(map[string]float64{"s": 1.53125, "t": 2.25, "n": .375, "b": 1, "u": .004}))
	if err != nil || math.Abs(got["c"]-.03125) > 1e-6 {
		t.Errorf("clearance %v (%v), want .03125", got["c"], err)
	}
}

// By hand: hardwood plywood named 3/4 is 23/32 in the middle of its range: 1/32 more room.
func TestThinSheetLeavesRoom(t *testing.T) {
	got, err := Joint.Work(plain(map[string]float64{"s": .75, "t": .75, "d": -.03125, "b": 1, "u": .004}))
	if err != nil || math.Abs(got["c"]-.03125) > 1e-9 || math.Abs(got["T"]-.71875) > 1e-9 {
		t.Errorf("clearance %v, part %v (%v); want .03125 and .71875", got["c"], got["T"], err)
	}
}

// By hand: a part bowed 1/16 in 8 ft, 12 in of it in the slot: .0625/64.
func TestBowCostsClearance(t *testing.T) {
	got, err := Joint.Work(plain(map[string]float64{"s": .78, "t": .75, "o": .0625, "h": 12, "b": 1, "u": .004}))
	if want := .03 - .0625/64; err != nil || math.Abs(got["c"]-want) > 1e-9 {
		t.Errorf("clearance %v (%v), want %v", got["c"], err, want)
	}
}

// By hand: painted, .004 a face; the neck stands in notches that catch .6 of it: neck
// 1.46+2*.6*.004, slot 1.5-2*.6*.004, clearance .04-.0096 = .0304, less a bow of
// .0625*(6/96)^2.
func TestNeckIsCoatedLikeACheek(t *testing.T) {
	j := tower(.375, 1.5, 2.2325)
	for _, p := range j.Parts {
		p.Finish.Text = "paint"
	}
	r := Joint.Judge(j, Joint.Rows(j)[1])
	if want := .0304 - .0625/256; math.Abs(r.Values["c"]-want) > 1e-9 {
		t.Errorf("clearance %v, want %v", r.Values["c"], want)
	}
}

// A schedule of notches that names no shelf means the fixed shelves of the case, if they are
// alike; the slot in them, that nobody typed, is not asked.
func TestShelfThatNobodyNamed(t *testing.T) {
	j := tower(.375, 0, 2.2325)
	j.Joints = j.Joints[:1]
	j.Joints[0].Enters = check.Text{}
	rows := Joint.Rows(j)
	if len(rows) != 1 || rows[0].Marks[0] != "S1" {
		t.Fatalf("rows %+v, want one, about S1", rows)
	}
	other := *j.Parts[0]
	other.Mark.Text, other.Thickness = "S2", check.Exact(.75)
	j.Parts = append(j.Parts, &other)
	if rows := Joint.Rows(j); len(rows) != 0 {
		t.Errorf("%d rows with two kinds of shelf, want none", len(rows))
	}
}

// A bare part in a painted slot: only the cheeks are coated. By hand .78-.75-2*.6*.004 =
// .0252, less a bow of .0625*(6/96)^2.
func TestBarePartInPaintedSlot(t *testing.T) {
	j := lap(length.Inch, .75, .78, "paint", "MDF")
	j.Parts[0].Finish.Text = "none"
	r := Joint.Judge(j, Joint.Rows(j)[0])
	if want := .0252 - .0625/256; math.Abs(r.Values["c"]-want) > 1e-9 {
		t.Errorf("clearance %v, want %v", r.Values["c"], want)
	}
}

// One slot width, two rows: the half that has a row of its own is not asked again.
func TestLapWithTwoRowsIsNotReversed(t *testing.T) {
	j := lap(length.Inch, .737, .7595, "none", "MDF")
	j.Parts[1].Finish.Text = "paint"
	if n := len(Joint.Rows(j)); n != 2 {
		t.Errorf("%d rows for one typed row of unlike parts, want 2", n)
	}
	back := *j.Joints[0]
	back.Into, back.Enters = back.Enters, back.Into
	j.Joints = append(j.Joints, &back)
	if n := len(Joint.Rows(j)); n != 2 {
		t.Errorf("%d rows for two typed rows, want 2", n)
	}
}

// Where no slot is both loose and tight enough, the way out says what else would do: an
// unmeasured stack of hardwood plywood scatters 4 times the window (FX52 of the basis).
func TestNoSlotDoes(t *testing.T) {
	j := lap(length.Inch, 2.25, 2.25, "paint", "3 x 3/4 birch ply")
	for _, p := range j.Parts {
		p.Layers = []check.Layer{{Count: check.Exact(3), Thickness: check.Exact(.75), Material: "birch ply"}}
	}
	f := check.Examine([]*check.Check{Joint}, j, nil).Findings[0]
	if f.Verdict != check.Hold || !strings.Contains(f.Fix, "caliper") {
		t.Errorf("%v %s, %q; want HOLD and the caliper", f.Verdict, f.Text, f.Fix)
	}
}

// A joint that names no fit may be as loose as any: 1/16 over a painted stack is common
// practice and no finding; four films and a heavy sheet still bind.
func TestUnnamedFit(t *testing.T) {
	for slot, want := range map[float64]check.Verdict{.8: check.Clear, .74: check.Hold, .93: check.Hold} {
		j := lap(length.Inch, .737, slot, "paint", "MDF")
		j.Joints[0].Fit.Text = ""
		if r := Joint.Judge(j, Joint.Rows(j)[0]); r.Verdict != want {
			t.Errorf("slot %v: %v, want %v; c %v", slot, r.Verdict, want, r.Values["c"])
		}
	}
}

func TestWhatIsNoPassage(t *testing.T) {
	lying := lap(length.Inch, .25, .25, "none", "MDF")
	lying.Joints[0].Kind, lying.Parts[0].Role = check.Rabbet, check.Back
	cleat := lap(length.Inch, .75, .75, "none", "MDF")
	cleat.Joints[0].Kind = check.CleatJoint
	dado := lap(length.Inch, .75, .75, "none", "MDF")
	dado.Joints[0].Kind, dado.Joints[0].Width = check.Dado, check.Value{}
	for name, j := range map[string]*check.Job{"a back in its rabbet": lying, "a cleat": cleat, "a dado without a column of widths": dado} {
		if n := len(Joint.Rows(j)); n != 0 {
			t.Errorf("%s: %d rows, want none", name, n)
		}
	}
	if n := len(Joint.Rows(func() *check.Job {
		dado.Joints[0].Width.Ask.Cell = check.Cell{Tab: "Joints", Addr: "F2"}
		return dado
	}())); n != 1 {
		t.Errorf("%d rows where the cell of the width is empty, want one that asks", n)
	}
}

// A rabbet has one cheek: by hand .78-.75-2*.004-.6*.004 = .0196, less a bow of
// .0625*(12/96)^2.
func TestRabbetHasOneCheek(t *testing.T) {
	j := lap(length.Inch, .75, .78, "paint", "MDF")
	j.Joints[0].Kind = check.Rabbet
	r := Joint.Judge(j, Joint.Rows(j)[0])
	if want := .0196 - .0625/64; math.Abs(r.Values["c"]-want) > 1e-9 {
		t.Errorf("clearance %v, want %v", r.Values["c"], want)
	}
}

// By hand: one sigma of a slot .002, of a sheet .0025: .0032; of a neck two notches more,
// .005 each: sqrt(.0032^2+2*.005^2) = .0078.
func TestSpreadOfANeck(t *testing.T) {
	j := tower(.375, 1.4825, 2.2325)
	rows := Joint.Rows(j)
	for i, want := range []float64{.0032016, .0077621} {
		if got := rows[i].In["u"].Nominal; math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: spread %v, want %v", rows[i].Name, got, want)
		}
	}
}
