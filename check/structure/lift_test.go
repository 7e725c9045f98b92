package structure

import (
	"strings"
	"testing"

	"dryfit/check"
)

// bench is a seat of 80 on two trestles, their middles at two places, fastened as said; an
// empty word leaves the joints out.
func (b *build) bench(left, right float64, with string) *check.Job {
	j := b.job(in("Bench", at(part("T1", check.Seat, 80, 16, 1.5, "MDF"), 0, 16),
		at(part("D1", check.Divider, 16, 15, 1, "MDF"), left-.5, 0), at(part("D2", check.Divider, 16, 15, 1, "MDF"), right-.5, 0))...)
	if with != "" {
		b.join(j, fastened(joint("J1", "T1", "D1", check.Butt), with), fastened(joint("J2", "T1", "D2", check.Butt), with))
	}
	return b.load(j, "Bench", check.Persons, 1)
}

// By hand: the seat weighs 80*16*1.5*48/1728 = 53 lb, 27 on each trestle. A person of 300 lb (250
// at the least) sits 10 in from the end. With trestles 20 in from the ends that is 10 outside of 40:
// 75 lb up on the other one, 62 at the least. With trestles 12 in from the ends it is 2 outside of
// 56: 11 up, and 27 down.
func TestWhatOverhangsMayLift(t *testing.T) {
	b := &build{}
	for _, row := range []struct {
		name        string
		left, right float64
		with        string
		want        check.Verdict
		says        string
	}{
		{"laid on trestles far in", 20, 60, "loose", check.Hold, "lifts off D1"},
		{"nobody said how it is held", 20, 60, "", check.Verify, "lifts off D1"},
		{"glued down", 20, 60, "glue", check.Hold, "lifts off D1"},
		{"screwed down", 20, 60, "4 screws", check.Clear, ""},
		{"trestles near the ends", 12, 68, "loose", check.Clear, ""},
	} {
		for _, mm := range []bool{false, true} {
			b.mm = mm
			var got *check.Result
			for _, r := range asked(t, Path, b.bench(row.left, row.right, row.with)) {
				if r.Row.Cause == "lifts" {
					got = r
				}
			}
			switch {
			case got == nil && row.want != check.Clear:
				t.Errorf("%s (mm %v): nothing is asked", row.name, mm)
			case got != nil && (got.Verdict != row.want || !strings.Contains(Path.Says(got), row.says)):
				t.Errorf("%s (mm %v): %v, %s", row.name, mm, got.Verdict, Path.Says(got))
			}
		}
	}
}

// By hand, three-moment equations: 10, 60 and 10 in between the middles of four posts. With only
// the long bay loaded the outer posts are pulled up, and the inner two still carry.
func TestAShortEndBayIsAQuestion(t *testing.T) {
	b := &build{}
	parts := in("Desk", at(part("S1", check.Shelf, 81, 16, .75, "MDF"), 0, 30))
	for i, x := range []float64{0, 10, 70, 80} {
		parts = append(parts, in("Desk", at(part([]string{"U1", "U2", "U3", "U4"}[i], check.Upright, 30, 15, 1, "MDF"), x, 0))...)
	}
	j := b.load(b.job(parts...), "Desk", check.PerLength, 20)
	r := one(t, Path, j, "S1", "lifts")
	if r.Verdict != check.Verify || r.Values["c"] != 3 && r.Values["c"] != 2 {
		t.Errorf("%v, %v of %v supports stay", r.Verdict, r.Values["c"], r.Values["n"])
	}
	near(t, "longest bay", one(t, Sag, j, "S1", "at once").Values["L"], 60, 1e-9)
}

// By hand: ST56 of the basis, an overhang of .3 of the bay: c^3*(4L+3c)/24 at the tip is less than
// the full bay's 5/384 of L^4; a person at the tip, c^2*(L+c)/3 of it, is more than 1/48.
func TestAPersonAtAnOverhang(t *testing.T) {
	l := layout{supports: []float64{0, 50}}
	r, err := l.work(65)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "person at the tip, over PL^3/EI", r.pointSag, .09*1.3/3, 1e-9)
	near(t, "moment over the support, over PL", r.pointMoment, .3, 1e-9)
}

func TestPostsNamedByHeightCarry(t *testing.T) {
	b := &build{}
	j := b.bench(12, 68, "")
	s := step(t, j, "T1", "D1")
	if s.By != "lies on it" || s.At[0] != 12 {
		t.Errorf("the seat on its trestle: %+v", s)
	}
	near(t, "by hand: 15*1*.75 of MDF at 250 psi, (1+.375)/1 away from the ends", s.Capacity, 15*.75*250*1.375, 1e-6)
	if r := one(t, Upright, j, "D1", "column"); r.Values["n"] != 1 || r.Verdict != check.Clear {
		t.Errorf("the trestle carries %v seats: %v", r.Values["n"], r.Verdict)
	}
	near(t, "half of what the seat weighs, and half a person", s.Likely, (80*16*1.5*48./1728+300)/2, 1e-6)
}
