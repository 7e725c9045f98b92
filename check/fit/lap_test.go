package fit

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dryfit/check"
	"dryfit/check/length"
)

// halved is a cross lap of two members 11 1/4 deep with two cuts, as one row.
func halved(inUpright, inShelf float64) *check.Job {
	j := lap(length.Inch, 2.25, 2.28, "none", "MDF")
	at := func(a string) check.Cell { return check.Cell{Book: "b", Tab: "Joints", Addr: a} }
	for _, p := range j.Parts {
		p.Width = check.Exact(11.25).At(check.Cell{Book: "b", Tab: "Parts", Addr: "D" + p.Row.Addr[1:]})
	}
	j.Joints[0].DepthIn = check.Exact(inUpright).At(at("G2"))
	j.Joints[0].DepthOf = check.Exact(inShelf).At(at("H2"))
	return j
}

// tester is what a test and a property have in common.
type tester interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

func ruled(t tester, c *check.Check, j *check.Job) *check.Result {
	t.Helper()
	rows := c.Rows(j)
	if len(rows) != 1 {
		t.Fatalf("%d rows, want 1", len(rows))
	}
	r := c.Judge(j, rows[0])
	if r.Broken != nil {
		t.Fatal(r.Broken)
	}
	r.Solve()
	short(t, r)
	return r
}

// short demands that the lead can read what a result says in one breath: 20 words.
func short(t tester, r *check.Result) {
	t.Helper()
	if r.Verdict != check.Hold && r.Verdict != check.Verify {
		return
	}
	if text := check.Single(r).Text; len(strings.Fields(text)) > 20 {
		t.Fatalf("%d words: %s", len(strings.Fields(text)), text)
	}
}

// FX23 of the basis: D 11.25, slot 5.625 from the back, notch 5.5 from the front: .125 in
// front, .125 behind.
func TestHalfLapReveal(t *testing.T) {
	got, err := Lap.Work(map[string]float64{"D": 11.25, "s": 5.625, "E": 11.25, "u": 5.5, "f": 0, "k": 0, "R": 0, "h": .03125,
		"g": .0625, "T": 2.25, "n": 0, "w": 2.25, "v": .125, "N": .4, "M": .4, "t": 0, "d": 0, "W": 0})
	if err != nil || math.Abs(got["r"]-.125) > 1e-6 || math.Abs(got["q"]-.125) > 1e-6 {
		t.Errorf("front %v, back %v (%v); want .125 and .125", got["r"], got["q"], err)
	}
}

// By hand: halves of 11 1/4 stand off by the film on both bottoms, 1.2*.004; and a cut of 8 in
// leaves 3 1/4 where .4 of 11 1/4, 4 1/2, is wanted.
func TestFilmAndRestOfALap(t *testing.T) {
	in := func(s, u float64) map[string]float64 {
		return map[string]float64{"D": 11.25, "s": s, "E": 11.25, "u": u, "f": .004, "k": 1.2, "R": 0, "h": .03125,
			"g": .0625, "T": 2.25, "n": 0, "w": 2.25, "v": .125, "N": .4, "M": .4, "t": 0, "d": 0, "W": 0}
	}
	if got, err := Lap.Work(in(5.625, 5.625)); err != nil || math.Abs(got["r"]-.0048) > 1e-9 {
		t.Errorf("stands off %v (%v), want .0048", got["r"], err)
	}
	for _, cut := range [][2]float64{{8, 3.25}, {3.25, 8}} {
		if got, err := Lap.Work(in(cut[0], cut[1])); err != nil || math.Abs(got["m"]+1.25) > 1e-9 {
			t.Errorf("cuts %v: margin %v (%v), want -1.25", cut, got["m"], err)
		}
	}
}

// FX24 of the basis: upright 2.25, side notch .375, slot 1.53125: neck 1.5, cover .34375.
func TestNotchedLapAcross(t *testing.T) {
	got, err := Lap.Work(map[string]float64{"D": 11.25, "s": 6, "E": 11.25, "u": 5.25, "f": 0, "k": 0, "R": 0, "h": .03125,
		"g": .0625, "T": 2.25, "n": .375, "w": 1.53125, "v": .125, "N": .4, "M": .4, "t": 0, "d": 0, "W": 0})
	if err != nil || math.Abs(got["b"]-1.5) > 1e-6 || math.Abs(got["x"]-.34375) > 1e-6 {
		t.Errorf("neck %v, cover %v (%v); want 1.5 and .34375", got["b"], got["x"], err)
	}
}

func TestLapVerdicts(t *testing.T) {
	noted := halved(5.5, 5.625)
	noted.Parts[0].Note = check.Text{Text: "1/8 reveal at uprights"}
	oneSide := halved(5.625, 0)
	oneSide.Joints[0].DepthOf = check.Missing(check.Ask{Cell: check.Cell{Tab: "Joints", Addr: "H2"}})
	narrow := halved(5.625, 5.5)
	narrow.Parts[1].Width = check.Exact(11).At(narrow.Parts[1].Width.From)
	cases := []struct {
		name, hand string
		job        *check.Job
		want       check.Verdict
		fix        string
	}{
		{"halves", "11.25 - 2*5.625 = 0", halved(5.625, 5.625), check.Clear, ""},
		{"an eighth short", "11.25 - 5.625 - 5.5 = 1/8 over the 1/16 that could be meant", halved(5.5, 5.625), check.Hold, "cut the upright 5 5/8 in deep"},
		{"an eighth short, and promised", "1/8 - 1/8 = 0", noted, check.Clear, ""},
		{"a scant 1/32 short", "1/32 - .03125 + tolerance", halved(5.625, 5.59375), check.Verify, ""},
		{"cut a quarter too deep", "gap of 1/4 over 1/8 at the kindest", halved(5.875, 5.625), check.Hold, ""},
		{"a hair deep does not show", "1/32 of gap under 1/16, .017 of tolerance", halved(5.65625, 5.625), check.Clear, ""},
		{"one cut takes most of the member", "1 - 8/11.25 = .29 under .33", halved(8, 3.25), check.Hold, ""},
		{"second depth left out", "its column stands there", oneSide, check.NotChecked, ""},
		{"upright a quarter narrower, flush in front", "11.25-5.5-5.625 = 1/8: neither 0 nor 1/4, but something between may be meant", narrow, check.Verify, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := ruled(t, Lap, c.job)
			if r.Verdict != c.want {
				t.Fatalf("%v, want %v (%s); r %v", r.Verdict, c.want, c.hand, r.Values["r"])
			}
			if c.fix != "" && (r.Fix == nil || r.Fix.Text != c.fix) {
				t.Errorf("fix %+v, want %q", r.Fix, c.fix)
			}
		})
	}
}

// A lap typed in two rows, one a member, is one lap.
func TestLapOfTwoRows(t *testing.T) {
	j := halved(5.5, 0)
	j.Joints[0].DepthOf = check.Missing(check.Ask{Cell: check.Cell{Tab: "Joints", Addr: "H2"}})
	other := *j.Joints[0]
	other.Into, other.Enters, other.DepthIn, other.Mark.Text = other.Enters, other.Into, check.Exact(5.625), "J2"
	j.Joints = append(j.Joints, &other)
	if r := ruled(t, Lap, j); r.Verdict != check.Hold || math.Abs(r.Values["r"]-.125) > 1e-9 {
		t.Errorf("%v, reveal %v; want HOLD and .125", r.Verdict, r.Values["r"])
	}
}

func TestLapDoesNotApply(t *testing.T) {
	if n := len(Lap.Rows(lap(length.Inch, .75, .78, "paint", "MDF"))); n != 0 {
		t.Errorf("%d rows without any depth, want none", n)
	}
	rabbet := halved(.375, 0)
	rabbet.Joints[0].Kind, rabbet.Joints[0].DepthOf = check.Rabbet, check.Value{}
	if n := len(Lap.Rows(rabbet)); n != 0 {
		t.Errorf("%d rows for a rabbet, want none", n)
	}
}

// By hand: neck 1.46, cover (2.21+1.46)/2-1.4825 = .3525; with notches of .1 the cover is
// (2.21+2.01)/2-2.04 = .07 under 1/8.
func TestShouldersOfANotchedLap(t *testing.T) {
	for _, c := range []struct {
		side, slot float64
		want       check.Verdict
		says       string
	}{{.375, 1.4825, check.Clear, ""}, {.1, 2.04, check.Hold, "on one shoulder"}, {.7, .83, check.Verify, "leave a neck"}} {
		j := tower(c.side, c.slot, 2.2325)
		j.Joints[0].DepthOf = check.Exact(11)
		r := ruled(t, Lap, j)
		if r.Verdict != c.want || !strings.Contains(Lap.Says(r), c.says) {
			t.Errorf("side %v: %v %q, want %v %q", c.side, r.Verdict, Lap.Says(r), c.want, c.says)
		}
	}
}

func TestLapInMillimetres(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.Float64Range(5.3, 5.9).Draw(t, "u")
		inch := halved(u, 5.625)
		mm := halved(u*25.4, 5.625*25.4)
		mm.Unit = length.Millimetre
		for _, p := range mm.Parts {
			p.Width, p.Thickness = p.Width.Scale(25.4), p.Thickness.Scale(25.4)
		}
		a, b := Lap.Judge(inch, Lap.Rows(inch)[0]), Lap.Judge(mm, Lap.Rows(mm)[0])
		if a.Verdict != b.Verdict || math.Abs(a.Margin()*25.4-b.Margin()) > 1e-6 {
			t.Fatalf("%v %v in inches, %v %v in millimetres", a.Verdict, a.Margin(), b.Verdict, b.Margin())
		}
	})
}

func TestOfferedDepthClears(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := halved(rapid.Float64Range(5, 6.2).Draw(t, "u"), rapid.Float64Range(5, 6.2).Draw(t, "s"))
		r := Lap.Judge(j, Lap.Rows(j)[0])
		r.Solve()
		if r.Fix == nil || r.Fix.Measure != "" {
			return
		}
		if r.Fix.Symbol == "u" {
			j.Joints[0].DepthIn = check.Exact(r.Fix.To)
		} else {
			j.Joints[0].DepthOf = check.Exact(r.Fix.To)
		}
		if v := Lap.Judge(j, Lap.Rows(j)[0]).Verdict; v != check.Clear {
			t.Fatalf("%q leaves %v", r.Fix.Text, v)
		}
	})
}
