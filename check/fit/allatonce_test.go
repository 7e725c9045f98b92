package fit

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dryfit/check"
	"dryfit/check/length"
	_ "dryfit/check/steady"
)

// grid is an upright with n slots for shelves of bare, calipered stock.
func grid(n int, slot float64) *check.Job {
	j := lap(length.Inch, 1.487, slot, "none", "MDF")
	j.Joints[0].Count = check.Exact(4 * float64(n))
	return j
}

// FX77 of the basis (studentized range, a known table value): n 8, sigma .006, share .05
// wants .0257179. The check binds the same integral; here for the share and spread of the
// built-in standards: n 8, share .10, q 3.9313 times .004*sqrt(2).
func TestClearanceWantedOfARow(t *testing.T) {
	r := ruled(t, AllAtOnce, grid(8, 1.5145))
	if want := 3.9313 * .004 * math.Sqrt2; math.Abs(r.Values["W"]-want) > 1e-6 {
		t.Errorf("wanted %v, want %v", r.Values["W"], want)
	}
	if r.Values["N"] != 8 {
		t.Errorf("%v slots, want 8", r.Values["N"])
	}
}

// FX12 of the basis: n 8, clearance .030, sigma .006 binds in .00968; the live bounds are
// 2*Q = .000407 and the sum over 28 pairs, 28*.000407 = .0114.
func TestBoundsOfARow(t *testing.T) {
	got, err := AllAtOnce.Work(plain(map[string]float64{"s": .78, "t": .75, "N": 8, "u": .006, "j": 2, "W": 0, "i": .00968253}))
	if err != nil || math.Abs(got["x"]-.000407) > 1e-6 || math.Abs(got["X"]-28*.000407) > 3e-5 {
		t.Errorf("bounds %v and %v (%v)", got["x"], got["X"], err)
	}
	tight, err := AllAtOnce.Work(plain(map[string]float64{"s": .75, "t": .75, "N": 8, "u": .006, "j": 2, "W": 0, "i": 1}))
	if err != nil || math.Abs(tight["x"]-1) > 1e-6 || tight["X"] != 1 {
		t.Errorf("without clearance the bounds are %v and %v (%v), want 1", tight["x"], tight["X"], err)
	}
	if !(got["x"] <= got["p"] && got["p"] <= got["X"]) {
		t.Errorf("share %v is not between %v and %v", got["p"], got["x"], got["X"])
	}
}

func TestAllAtOnce(t *testing.T) {
	bays := grid(4, 1.5045)
	for range 5 {
		bays.Joints[0].Bays = append(bays.Joints[0].Bays, check.Exact(10))
	}
	cases := []struct {
		name, hand string
		job        *check.Job
		want       check.Verdict
	}{
		{"slip fit, 4 slots", "wants 3.2404*.00566 = .0183; has 1.5145-1.487 = .0275, less .003", grid(4, 1.5145), check.Clear},
		{"4 slots, little to spare", "has .0195 of .0183, a caliper may be .003 off", grid(4, 1.5065), check.Verify},
		{"4 slots, a snug fit", "has .006; even places off by half as much want .009", grid(4, 1.493), check.Hold},
		{"12 slots in the slot that serves 4", "wants 4.2846*.00566 = .0242 of .0215", grid(12, 1.5085), check.Verify},
		{"bays stepped off want more", "as a chain the ends alone want 1.645*sqrt(3)*.00566 = .0161; all of it more than .0175", bays, check.Verify},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := ruled(t, AllAtOnce, c.job)
			if r.Verdict != c.want {
				t.Errorf("%v, want %v (%s); c %v W %v", r.Verdict, c.want, c.hand, r.Values["c"], r.Values["W"])
			}
		})
	}
}

func TestOneSlotIsNoRow(t *testing.T) {
	if n := len(AllAtOnce.Rows(grid(1, 1.5))); n != 0 {
		t.Errorf("%d rows, want none", n)
	}
	j := grid(4, 1.5)
	j.Joints[0].Width = check.Value{}
	if n := len(AllAtOnce.Rows(j)); n != 0 {
		t.Errorf("%d rows without a slot width, want none: fit.joint asks", n)
	}
}

func TestWiderSlotsNeverBindMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 9).Draw(t, "n")
		slot := rapid.Float64Range(1.48, 1.53).Draw(t, "slot")
		wider := slot + rapid.Float64Range(0, .01).Draw(t, "more")
		share := func(s float64) float64 { return worst(t, AllAtOnce, grid(n, s)).Values["i"] }
		if a, b := share(slot), share(wider); b > a+1e-7 {
			t.Fatalf("slot %v binds %v, slot %v binds %v", slot, a, wider, b)
		}
	})
}

func TestOfferedSlotsClear(t *testing.T) {
	r := ruled(t, AllAtOnce, grid(5, 1.49))
	if r.Fix == nil {
		t.Fatal("no fix")
	}
	if v := ruled(t, AllAtOnce, grid(5, r.Fix.To)).Verdict; v != check.Clear {
		t.Errorf("%q leaves %v", r.Fix.Text, v)
	}
}

// What the row says stands under fit.joint where that speaks of the same parts.
func TestRowFoldsUnderTheJoint(t *testing.T) {
	fs := check.Examine([]*check.Check{Joint, AllAtOnce, Ease, Movement, Corner}, grid(5, 1.487), nil).Findings
	if len(fs) != 1 || fs[0].ID != "fit.joint" {
		for _, f := range fs {
			t.Errorf("%v %s %s", f.Verdict, f.ID, f.Text)
		}
	}
}

func TestEase(t *testing.T) {
	cases := []struct {
		name, hand   string
		slot         float64
		finish, says string
		want         check.Verdict
	}{
		{"room enough", ".0272 over 2 sigma of .0032", 1.5145, "none", "goes on without easing", check.Clear},
		{"a bevel", "c .01: no face; 2*.004 - .005 = .003 of bevel", 1.4973, "none", "bevel the leading edge by 0.003 in", check.Clear},
		{"bare wood may be sanded", "c -.0002: (.0064+.0002)/2 = .0033 under 1/64", 1.487, "none", "take 0.003 in off each face of the leading edge, and wax", check.Clear},
		{"paint would go", "c -.0130: (.0064+.0130)/2 = .0097 over .004 of paint", 1.487, "paint", "wants 0.010 in off each face of the leading edge: that sands through the finish", check.Verify},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			j := grid(5, c.slot)
			for _, p := range j.Parts {
				p.Finish.Text = c.finish
			}
			r := ruled(t, Ease, j)
			if r.Verdict != c.want || Ease.Says(r) != c.says {
				t.Errorf("%v %q, want %v %q (%s)", r.Verdict, Ease.Says(r), c.want, c.says, c.hand)
			}
		})
	}
}

// By hand, painted: c = -2*.004-1.2*.004 = -.0128; (2*.0032+.0128)/2 = .0096 a face over .004
// of paint; bevel 2*.004+.0064 = .0144. Bare, .03 too tight: .015 a face under 1/64, but a
// bevel of .008+.015 = .023 where .02 can be had.
func TestEasingAndBevel(t *testing.T) {
	painted, err := Ease.Work(plain(map[string]float64{"s": .75, "t": .75, "f": .004, "g": 2, "k": 1.2, "u": .0032, "e": .004, "B": .125, "w": .015625}))
	if err != nil || math.Abs(painted["x"]-.0096) > 1e-9 || math.Abs(painted["q"]-.0144) > 1e-9 || math.Abs(painted["m"]+.0056) > 1e-9 {
		t.Errorf("painted: face %v, bevel %v, margin %v (%v)", painted["x"], painted["q"], painted["m"], err)
	}
	bare, err := Ease.Work(plain(map[string]float64{"s": .72, "t": .75, "u": 0, "e": .004, "B": .02, "w": .015625}))
	if err != nil || math.Abs(bare["q"]-.023) > 1e-9 || math.Abs(bare["m"]+.003) > 1e-9 {
		t.Errorf("bare: bevel %v, margin %v (%v)", bare["q"], bare["m"], err)
	}
}

// FX58 of the basis: corner .125, half clearance .0125: .07051 with a square edge, .02500
// with the edge eased 1/16.
func TestCornerStandsOff(t *testing.T) {
	for easing, want := range map[float64]float64{0: .07051, .0625: .025} {
		got, err := Corner.Work(map[string]float64{"R": .125, "r": easing, "c": .025, "h": .03125})
		if err != nil || math.Abs(got["y"]-want) > 1e-5 {
			t.Errorf("eased %v: %v (%v), want %v", easing, got["y"], err, want)
		}
	}
}

func TestCorner(t *testing.T) {
	// By hand: q = 1/8 - 1/16; at .0272 to spare .0625-sqrt(.003906-.002391) = .0236, at .006
	// .0625-sqrt(.003906-.003540) = .0434 over 1/32.
	if r := ruled(t, Corner, grid(5, 1.5145)); r.Verdict != check.Clear || math.Abs(r.Values["y"]-.0236) > 2e-4 {
		t.Errorf("%v, stands off %v; want CLEAR and .0236", r.Verdict, r.Values["y"])
	}
	snug := grid(5, 1.4932)
	r := ruled(t, Corner, snug)
	if r.Verdict != check.Verify || !strings.HasPrefix(r.Fix.Text, "ease the edges that seat by") {
		t.Errorf("%v %+v, want VERIFY and an easing", r.Verdict, r.Fix)
	}
	if n := len(Corner.Rows(grid(5, 1.487))); n != 0 {
		t.Errorf("%d rows where the lap binds anyway, want none", n)
	}
}

// FX59 of the basis: MDF shelf 2.25 in a slot of MDF, +2 % moisture: 2.25*.003*2 = .0135.
// FX18: red oak 5 in, 4.8 %, .00369: .08856.
func TestSwelling(t *testing.T) {
	for _, c := range []struct{ x, coefficient, hold, dm, want float64 }{{2.25, .0035, .0005, 2, .0135}, {5, .00369, 0, 4.8, .08856}} {
		got, err := Movement.Work(map[string]float64{"x": c.x, "C": c.coefficient, "B": c.hold, "M": 8, "N": 8 + c.dm, "c": 0})
		if err != nil || math.Abs(got["g"]-c.want) > 1e-6 {
			t.Errorf("swells %v (%v), want %v", got["g"], err, c.want)
		}
	}
}

func TestMovement(t *testing.T) {
	// By hand: MDF 8 % at 45, 9.5 % at 60 % humidity; 1.487*(.0035-.0005)*1.5 = .0067 at the
	// middle, 1.487*(.006-.00025)*1.5 = .0128 at the worst.
	if r := ruled(t, Movement, grid(5, 1.5145)); r.Verdict != check.Clear || math.Abs(r.Values["g"]-.0067) > 1e-4 {
		t.Errorf("%v, swells %v; want CLEAR and .0067", r.Verdict, r.Values["g"])
	}
	if r := ruled(t, Movement, grid(5, 1.4972)); r.Verdict != check.Verify {
		t.Errorf("%v with .010 of room, want VERIFY", r.Verdict)
	}
	steel := grid(5, 1.5145)
	steel.Parts[0].Material.Text = "steel"
	if n := len(Movement.Rows(steel)); n != 0 {
		t.Errorf("%d rows for a stuff of unknown movement, want none", n)
	}
}

// By hand: 14 in of flat sawn red oak, 8.35 to 10.97 % (70 F, 45 and 60 %): 14*.00369*2.6 =
// .135 over the 1/16 that a screw hole gives; 2 in of it: .019.
func TestSolidWoodScrewedAcross(t *testing.T) {
	for width, want := range map[float64]check.Verdict{14: check.Verify, 2: check.Clear} {
		j := lap(length.Inch, .75, 0, "clear", "red oak")
		j.Parts[0].Width = check.Exact(width)
		j.Parts[1].Role, j.Parts[1].Length = check.Cleat, check.Exact(width-1)
		jt := j.Joints[0]
		jt.Kind, jt.Into, jt.Enters, jt.Width = check.CleatJoint, j.Parts[0].Mark, j.Parts[1].Mark, check.Value{}
		jt.Screws = &check.Screws{Count: check.Exact(3), Gauge: "#8", Length: check.Exact(1.25)}
		r := ruled(t, Movement, j)
		if r.Verdict != want {
			t.Errorf("%v in wide: %v, swells %v; want %v", width, r.Verdict, r.Values["g"], want)
		}
	}
}

// A wider range never turns VERIFY or HOLD into CLEAR.
func TestWideningNeverClears(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slot := rapid.Float64Range(1.48, 1.54).Draw(t, "slot")
		more := rapid.Float64Range(0, .02).Draw(t, "more")
		j := grid(4, slot)
		for _, c := range []*check.Check{Joint, AllAtOnce, Ease, Movement} {
			for _, row := range c.Rows(j) {
				narrow := c.Judge(j, row)
				wide := row
				wide.In = map[string]check.Value{}
				for s, v := range row.In {
					wide.In[s] = v
				}
				wide.In["s"] = row.In["s"].PlusMinus(more)
				if _, has := row.In["s"]; !has {
					wide.In["c"] = row.In["c"].PlusMinus(more)
					delete(wide.In, "s")
				}
				if got := c.Judge(j, wide); narrow.Verdict != check.Clear && got.Verdict == check.Clear {
					t.Fatalf("%s: %v becomes CLEAR when a range is widened by %v", c.ID, narrow.Verdict, more)
				}
			}
		}
	})
}
