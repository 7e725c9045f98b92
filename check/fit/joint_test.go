package fit

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

// lap is a job of one shelf, one upright and the joint between them.
func lap(unit length.Unit, thick, slot float64, finish, material string) *check.Job {
	at := func(addr string) check.Cell { return check.Cell{Book: "b", Tab: "Parts", Addr: addr} }
	part := func(mark string, row string) *check.Part {
		return &check.Part{Row: at("A" + row), Mark: check.Text{Text: mark, From: at("A" + row)}, Unit: unit,
			Qty: check.Exact(4), Length: check.Exact(60), Width: check.Exact(12), Thickness: check.Exact(thick).At(at("F" + row)),
			Material: check.Text{Text: material}, Finish: check.Text{Text: finish}}
	}
	s, u := part("S1", "5"), part("U1", "6")
	s.Role, u.Role = check.Shelf, check.Upright
	return &check.Job{Name: "t", Unit: unit, Shop: standard.BuiltIn(), Parts: []*check.Part{s, u},
		Joints: []*check.Joint{{Row: at("A2"), Mark: check.Text{Text: "J1"}, Into: u.Mark, Enters: s.Mark, Kind: check.CrossLap,
			Count: check.Exact(12), Width: check.Exact(slot).At(check.Cell{Book: "b", Tab: "Joints", Addr: "F2"}), Fit: check.Text{Text: "slip"}}}}
}

// plain fills in what a worked example of a whole, straight part leaves out.
func plain(in map[string]float64) map[string]float64 {
	for s, x := range map[string]float64{"n": 0, "d": 0, "f": 0, "g": 0, "k": 0, "o": 0, "h": 0, "l": 96, "a": 0, "P": .05, "ed": 0, "ef": 0} {
		if _, given := in[s]; !given {
			in[s] = x
		}
	}
	return in
}

func judged(t testing.TB, j *check.Job) *check.Result {
	t.Helper()
	rows := Joint.Rows(j)
	if len(rows) != 1 {
		t.Fatalf("%d rows, want 1", len(rows))
	}
	r := Joint.Judge(j, rows[0])
	r.Solve()
	short(t, r)
	return r
}

func TestJointVerdict(t *testing.T) {
	cases := []struct {
		name, hand string
		job        *check.Job
		want       check.Verdict
	}{
		{"slot cut to the bare part, painted", "by hand: 0 - 2*.004 - 2*.6*.004 = -.0128; kindest film .0025, share .2, sheet .010 under: -.006+.010 is still under the window's .010",
			lap(length.Inch, .75, .75, "paint", "MDF"), check.Hold},
		{"bare part in a slot of 1/32 more", "by hand: .03125 +- .010 lies in .010 to .035 except at the loose end .041",
			lap(length.Inch, .75, .78125, "none", "MDF"), check.Verify},
		{"bare part in a slot of .0225 more", "by hand: .0225 +- .010 lies between .0125 and .0325, window .010 to .035",
			lap(length.Inch, .75, .7725, "none", "MDF"), check.Clear},
		{"slot an eighth over", "by hand: .125 less at most .024 of film is over .045 even with the sheet .010 heavy",
			lap(length.Inch, .75, .875, "paint", "MDF"), check.Hold},
		{"a thickness no sheet is sold in was measured", "by hand: caliper +-.003 around .0225",
			lap(length.Inch, .737, .7595, "none", "MDF"), check.Clear},
		{"plywood sold under its name, slot of its usual size", "by hand: 23/32 - .7188 less a bow of .0625*(12/96)^2 = -.001, and .7031 under it leaves .0147: only a caliper tells",
			lap(length.Inch, .75, .71875, "none", "maple ply"), check.Verify},
		{"finish unsaid: may be painted", "by hand: .0225 bare, .0225-.024 painted heavily",
			lap(length.Inch, .75, .7725, "", "MDF"), check.Verify},
		{"no slot width typed", "nothing to compare", func() *check.Job {
			j := lap(length.Inch, .75, 1, "paint", "MDF")
			j.Joints[0].Width = check.Value{}
			return j
		}(), check.NotChecked},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if r := judged(t, c.job); r.Verdict != c.want {
				t.Errorf("%v, want %v (%s); %+v", r.Verdict, c.want, c.hand, r.Values)
			}
		})
	}
}

// FX04 and FX05 of the basis: a 2 1/4 part, slot 2.3125, film .00414: .04594 with coated
// cheeks, .05422 with masked ones (algebra of the joint, worked by hand there).
func TestJointClearanceWithFourFilmsAndWithTwo(t *testing.T) {
	in := plain(map[string]float64{"s": 2.3125, "t": 2.25, "f": .00414, "g": 2, "a": .01, "b": .045, "u": .004})
	for cheeks, want := range map[float64]float64{2: .04594, 0: .05422} {
		in["k"] = cheeks
		got, err := Joint.Work(in)
		if err != nil || math.Abs(got["c"]-want) > 1e-6 {
			t.Errorf("%g cheeks: clearance %v (%v), want %v", cheeks, got["c"], err, want)
		}
	}
}

// FX09 of the basis (normal distribution): mean clearance .010, sigma .006 binds in .0477904 of the
// joints; the loose side is out of reach.
func TestJointShareThatBinds(t *testing.T) {
	in := plain(map[string]float64{"s": .76, "t": .75, "b": 1, "u": .006})
	got, err := Joint.Work(in)
	if err != nil || math.Abs(got["p"]-.0477904) > 1e-6 {
		t.Errorf("share %v (%v), want .0477904", got["p"], err)
	}
	// One sigma too tight: 1-.1586553 bind (normal table).
	got, err = Joint.Work(plain(map[string]float64{"s": .744, "t": .75, "b": 1, "u": .006}))
	if err != nil || math.Abs(got["p"]-.8413447) > 1e-6 {
		t.Errorf("share %v (%v), want .8413447", got["p"], err)
	}
}

// FX07 and FX08 of the basis use three half ranges; here by hand: ed .003, ef .001 on four
// films (.004), 2 sigma .004: worst .011, root-sum-square sqrt(9+16+16) = .0064031.
func TestJointWorstCaseAndRootSumSquare(t *testing.T) {
	in := plain(map[string]float64{"s": .78, "t": .75, "g": 2, "k": 2, "b": 1, "u": .002, "ed": .003, "ef": .001})
	got, err := Joint.Work(in)
	if err != nil || math.Abs(got["w"]-.019) > 1e-9 || math.Abs(got["r"]-(.03-.0064031)) > 1e-6 {
		t.Errorf("worst %v, rss %v (%v); want .019 and .0235969", got["w"], got["r"], err)
	}
}

func TestOfferedSlotClears(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		finish := rapid.SampledFrom([]string{"paint", "clear", "none"}).Draw(t, "finish")
		slot := rapid.Float64Range(.7, .85).Draw(t, "slot")
		j := lap(length.Inch, .737, slot, finish, "MDF")
		r := Joint.Judge(j, Joint.Rows(j)[0])
		r.Solve()
		if r.Fix == nil || r.Fix.Measure != "" {
			return
		}
		again := lap(length.Inch, .737, r.Fix.To, finish, "MDF")
		if v := Joint.Judge(again, Joint.Rows(again)[0]).Verdict; v != check.Clear {
			t.Fatalf("%q leaves %v", r.Fix.Text, v)
		}
	})
}

func TestWiderSlotNeverBindsMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slot := rapid.Float64Range(.74, .8).Draw(t, "slot")
		more := slot + rapid.Float64Range(0, .02).Draw(t, "more")
		binds := func(s float64) float64 {
			got, err := Joint.Work(plain(map[string]float64{"s": s, "t": .75, "f": .004, "g": 2, "k": 1.2, "a": .01, "b": 1, "u": .004}))
			if err != nil {
				t.Fatal(err)
			}
			return got["p"]
		}
		if binds(more) > binds(slot)+1e-7 {
			t.Fatalf("slot %v binds %v, slot %v binds %v", slot, binds(slot), more, binds(more))
		}
	})
}

func TestJointSentence(t *testing.T) {
	r := judged(t, lap(length.Inch, .75, .75, "paint", "MDF"))
	if says := Joint.Says(r); !strings.Contains(says, "too thick for the slot after finish") {
		t.Errorf("says %q", says)
	}
	if r.Fix == nil || !strings.HasPrefix(r.Fix.Text, "cut the slot ") {
		t.Errorf("fix %+v, want an order to cut the slot", r.Fix)
	}
}

// An inch job and the same in millimetres end in one verdict, with margins 25.4 times apart.
func TestJointInMillimetres(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slot := rapid.Float64Range(.72, .8).Draw(t, "slot")
		finish := rapid.SampledFrom([]string{"paint", "clear", "none"}).Draw(t, "finish")
		inch := lap(length.Inch, .737, slot, finish, "MDF")
		mm := lap(length.Inch, .737, slot, finish, "MDF")
		mm.Unit = length.Millimetre
		for _, p := range mm.Parts {
			p.In(length.Millimetre)
		}
		mm.Joints[0].Width = mm.Joints[0].Width.Scale(25.4)
		a, b := Joint.Judge(inch, Joint.Rows(inch)[0]), Joint.Judge(mm, Joint.Rows(mm)[0])
		if a.Verdict != b.Verdict || math.Abs(a.Margin()*25.4-b.Margin()) > 1e-6 {
			t.Fatalf("%v %v in inches, %v %v in millimetres", a.Verdict, a.Margin(), b.Verdict, b.Margin())
		}
	})
}

// By hand, window .010 to .045, share .05: the nearest side counts, or the share that binds
// times the width of the window. Q(1) = .1586553 (normal table).
func TestJointMargin(t *testing.T) {
	for _, c := range []struct{ clearance, sigma, want float64 }{
		{.011, .001, .001}, {.044, .001, .001}, {.020, .002, .00175}, {.020, .020, (.05 - .1586553) * .035}, {.005, .001, -.005}, {.050, .001, -.005},
	} {
		got, err := Joint.Work(plain(map[string]float64{"s": .75 + c.clearance, "t": .75, "a": .010, "b": .045, "u": c.sigma}))
		if err != nil || math.Abs(got["m"]-c.want) > 1e-7 {
			t.Errorf("clearance %v, sigma %v: margin %v (%v), want %v", c.clearance, c.sigma, got["m"], err, c.want)
		}
	}
}

// A stack typed as its layers add up to by name was not measured; typed otherwise, it was: the
// corners of a panel differ by .003 in either way, which is more than a caliper does (shop
// figure). Half a layer off and more is a wrong count of layers, and no reading.
func TestThicknessOfALayeredPart(t *testing.T) {
	for _, c := range []struct {
		typed    float64
		measured bool
	}{{1.5, false}, {1.494, true}, {1.46875, true}, {1.53, true}, {2.25, false}, {.75, false}} {
		j := lap(length.Inch, c.typed, 1.53125, "paint", "MDF")
		p := j.Parts[0]
		p.Layers = []check.Layer{{Count: check.Exact(2), Thickness: check.Exact(.75), Material: "MDF"}}
		d := thickness(j, p)
		if reading := d.Low == -.003 && d.Nominal == 0 && d.High == .003; reading != c.measured {
			t.Errorf("2 x 3/4 typed %g: error %g to %g, want measured %v", c.typed, d.Low, d.High, c.measured)
		}
	}
}
