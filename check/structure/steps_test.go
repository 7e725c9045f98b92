package structure

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dryfit/check"
)

// step finds a step by its ends.
func step(t *testing.T, j *check.Job, from, to string) Step {
	t.Helper()
	var got []string
	for _, s := range Paths(j) {
		if s.From == from && s.To == to {
			return s
		}
		got = append(got, s.String())
	}
	t.Fatalf("no step from %s to %s among\n%s", from, to, strings.Join(got, "\n"))
	return Step{}
}

func TestStepsTellWhatTheyTake(t *testing.T) {
	b := &build{}
	stacked, dado, cleats, neck := b.stacked(false), b.dado(.25), b.cleats(1, "#6", 1.25), b.notched(.75, .3125)
	for _, row := range []struct {
		source   string
		j        *check.Job
		from, to string
		governs  string
		capacity float64
	}{
		{"by hand: 6*1*.75 of MDF at 250 psi, (1+.375)/1 short of its end (NDS 3.10.4)", stacked, "S2", "U1", "bearing", 6 * .75 * 250 * 1.375},
		{"by hand: 1/310 and 6*.15/775 on 6 by 1; 3100/4 psi, two fifths of it along the panel", stacked, "U1", "S1", "neck", 6 / (1./310 + .9/775)},
		{"by hand: 40 lb/ft2 on 60 by 12 and 36 before it", stacked, "Case A", "floor", "floor", 40. / 144 * 60 * 48},
		{"by hand: WL/8 = 775*10/6", dado, "the load typed", "S1", "bending", 775 * 10 / 6. * 8 / 36},
		{"by hand: 10*.25*.75 of MDF at 250 psi, at its end", dado, "S1", "E1", "bearing", 10 * .25 * .75 * 250},
		{"by hand: 1/500 and 6*.15*.75/.125/1250 on 8 by .125; birch plywood 7000/4", neck, "U1", "floor", "neck",
			8 * .125 / (1/(.4*7000/4) + .9*6/(7000./4))},
	} {
		s := step(t, row.j, row.from, row.to)
		if s.Governs != row.governs || math.Abs(s.Capacity-row.capacity) > 1e-3*row.capacity {
			t.Errorf("%s > %s: takes %v by its %s (%s); want %v by %s: %s", row.from, row.to, s.Capacity, s.Governs, s.Why, row.capacity, row.governs, row.source)
		}
		near(t, "use is force over capacity", s.Use, s.Force/s.Capacity, 1e-12*s.Use)
	}
	if s := step(t, cleats, "C1", "E1"); s.Use <= 1 || s.Governs != "screws" || s.Verdict != check.Hold {
		t.Errorf("one small screw: %+v", s)
	}
	if s := step(t, cleats, "S1", "C1"); s.Known() || s.Why == "" {
		t.Errorf("no joint says that the shelf lies on its cleats: %+v", s)
	}
}

// By hand: half of 40 lb/ft and 48 lb/ft3 of MDF over 36 in on each side, and the side itself.
func TestForcesAddUpOnTheWayDown(t *testing.T) {
	b := &build{}
	j := b.dado(.25)
	shelf := 40./12*36 + 48./1728*10*1*36
	near(t, "on the shelf", step(t, j, "the load typed", "S1").Likely, shelf, 1e-9*shelf)
	near(t, "on a side", step(t, j, "S1", "E1").Likely, shelf/2, 1e-9*shelf)
	near(t, "on the floor", step(t, j, "E1", "floor").Likely, shelf/2+42./1728*70*10*.75, 1e-9*shelf)
}

// By hand: an upright of 12 by 1/4 bears with three quarters of it on MDF of 250 psi, times
// (.25+.375)/.25 of NDS 3.10.4.
func TestAnUprightMayCrushWhatItStandsOn(t *testing.T) {
	b := &build{}
	j := b.stacked(false)
	j.Part("U1").Thickness = check.Exact(.25)
	r := one(t, Bearing, j, "U1", "foot")
	near(t, "pressure", r.Values["p"], step(t, j, "U1", "S1").Likely/(12*.25*.75), 1e-9)
	near(t, "allowed", r.Values["A"], 250*2.5, 1e-9)
	if r := find(t, Bearing, b.stacked(true), "U1", "foot"); r != nil {
		t.Error("an upright over another is asked to bear on the shelf between")
	}
}

// By hand: two equal bays carry .4375*w*L to an end when only its bay is loaded; the slot over the
// upright makes it a little more.
func TestTheMostThatComesIsToldWhereNobodySaysWhatHolds(t *testing.T) {
	s := step(t, (&build{}).stacked(false), "S2", "E1")
	w := 80./12 + 42./1728*12*1.5
	near(t, "at an end", s.Force, .4375*w*30, .05*s.Force)
	if s.Force <= s.Likely {
		t.Errorf("at most %v comes, likely %v", s.Force, s.Likely)
	}
}

// An upright on a shelf and over another hands its load to that one; over none, to the shelf.
func TestUprightsHandOverTheirLoad(t *testing.T) {
	b := &build{}
	alone := step(t, b.stacked(false), "U1", "S1")
	if !strings.Contains(alone.Why, "over no upright: it bends S1") || len(alone.At) != 1 || alone.At[0] != 30 {
		t.Errorf("an upright in the middle of a shelf: %+v", alone)
	}
	over := b.stacked(true)
	through := step(t, over, "U1", "U2")
	near(t, "what U1 hands over", step(t, over, "U2", "floor").Likely-step(t, over, "S1", "U2").Likely, through.Likely+48./1728*30*12*1, 1e-9*through.Likely)
	near(t, "structure.upright counts it", find(t, Upright, over, "U2", "column").Row.In["P"].Nominal, through.Likely+48./1728*30*12*1, 1e-9*through.Likely)
}

func TestStepsSayWhyNobodyKnows(t *testing.T) {
	b := &build{}
	butt := func(with string) *check.Job { return b.butted(fastened(joint("J1", "U1", "S1", check.Butt), with)) }
	hanging := b.stacked(false)
	hanging.Part("U1").Y = check.Exact(35)
	uncounted := b.cleats(1, "#6", 1.25)
	uncounted.Joints[0].Screws.Count = check.Value{}
	for _, row := range []struct {
		j        *check.Job
		from, to string
		carries  bool
		why      string
	}{
		{butt(""), "S1", "U1", true, "nobody said what fastens it to U1"},
		{butt("glue"), "S1", "U1", false, "glue or friction alone"},
		{butt("3 dowels"), "S1", "U1", true, "nothing typed says how much of it bears"},
		{hanging, "U1", "nothing", false, "stands on nothing, 35 in above the floor"},
		{hanging, "S2", "U1", false, "U1 stands on nothing, 35 in above the floor"},
		{b.stacked(false), "S2", "E1", true, "no joint says what holds it there"},
		{uncounted, "C1", "E1", true, "wants how many screws in each joint"},
	} {
		s := step(t, row.j, row.from, row.to)
		if s.Known() || s.Use != 0 || s.Carries != row.carries || !strings.Contains(s.Why, row.why) {
			t.Errorf("%s: known %v, carries %v, %q; want %q", s, s.Known(), s.Carries, s.Why, row.why)
		}
	}
}

func TestCasesThatSayNothingHaveNoPath(t *testing.T) {
	b := &build{}
	if got := Paths(b.plain(30, 12, .75, "MDF", 10)); len(got) != 0 {
		t.Errorf("a case without a joint or a height has the steps %v", got)
	}
}

// A step over 1 is one that its check finds, and what a check holds up is a step over 1.
func TestStepsAgreeWithTheirChecks(t *testing.T) {
	agree := func(t interface{ Errorf(string, ...any) }, name string, j *check.Job) {
		worst := map[string]check.Verdict{} // by check and mark
		for _, c := range []*check.Check{Bending, Shear, Bearing, Upright, Cleat} {
			for _, row := range c.Rows(j) {
				key := c.ID + " " + row.Marks[0]
				worst[key] = max(worst[key], c.Judge(j, row).Verdict)
			}
		}
		over := map[string]bool{}
		steps := Paths(j)
		for _, s := range steps {
			mark := s.From
			if s.By == "its own strength" {
				mark = s.To
			}
			key := s.Check + " " + mark
			if s.Use > 1+1e-9 && s.Governs != "floor" && worst[key] < check.Verify {
				t.Errorf("%s: %s is used %v by its %s, and %s says %v", name, s, s.Use, s.Governs, key, worst[key])
			}
			if s.Verdict == check.Hold && s.Use <= 1 {
				t.Errorf("%s: %s is HOLD and used %v", name, s, s.Use)
			}
			over[mark] = over[mark] || s.Use > 1
		}
		for key, v := range worst {
			mark := key[strings.Index(key, " ")+1:]
			if told := slices.ContainsFunc(steps, func(s Step) bool { return s.From == mark || s.To == mark }); told && v == check.Hold && !over[mark] {
				t.Errorf("%s: %s is HOLD and no step of it is over 1", name, key)
			}
		}
	}
	for _, e := range examples {
		agree(t, e.name, e.fails(&build{}))
		agree(t, e.name+", mended", e.mends(&build{mm: true}))
	}
	rapid.Check(t, func(t *rapid.T) {
		b := &build{}
		drawn := func(from, to float64, what string) float64 { return rapid.Float64Range(from, to).Draw(t, what) }
		j := b.job(in("A", of(part("U1", check.Upright, 80, 12, drawn(.4, 1.5, "upright"), "MDF"), 2), of(part("S1", check.Shelf, drawn(30, 99, "long"), 12, drawn(.5, 1.5, "shelf"), "MDF"), 4))...)
		jt := depths(joint("J1", "U1", "S1", check.NotchedLap), 0, 5)
		jt.Count, jt.Side, jt.Front = check.Exact(8), check.Exact(drawn(.01, .19, "shoulder")), check.Exact(2)
		b.load(b.join(j, jt), "A", check.PerLength, drawn(5, 300, "load"))
		agree(t, "random grid", j)
	})
}
