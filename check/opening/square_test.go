package opening

import (
	"strings"
	"testing"

	"dryfit/check"
)

// By hand: a box 2 x 3/4 + 40 = 41 1/2 wide with .008 of film on its ends, at most .030 with
// every meeting face; 1/8 in all is the least that lets it in. A tape is good for 1/16, a plumb
// reading for 1/16.
func TestSquare(t *testing.T) {
	box := func(note string) *check.Job {
		return job(piece{"D1", check.Side, 2, 83.25, 13, .75, note}, piece{"D2", check.Deck, 2, 40, 13, .75, "between sides"})
	}
	with := func(p piece, j *check.Job) *check.Job {
		j.Parts = append(j.Parts, job(p).Parts...)
		return j
	}
	high := []float64{90, 90}
	lie := crossed(niche([]float64{42, 42}, high, lean("left", 0, 90), lean("right", 0, 90), lean("floor", 0, 42)), 99.32, 98.72, "LB-RT", "RB-LT")
	cut := niche([]float64{42, 42}, high)
	cut.Diagonals = nil
	run(t, Square, []trial{
		{"level it goes in", "42.25 - .25 = 42 level, 42 - 41.508 - .125 = .367 spare, less 1/8 of readings",
			in(niche([]float64{42.25, 42.25}, high, lean("left", -.25, 90)), box("")), check.Clear},
		{"each width would do, level it does not", "42 - .75 = 41.25 < 41.508; 42 is 1/2 over the run",
			in(niche([]float64{42, 42, 42}, high, lean("left", -.75, 90), lean("right", .75, 90)), box("")), check.Hold},
		{"just in, readings may be off", "42 - .3 = 41.7; 41.7 - 41.508 - .125 = .067; plumb and tape, each 1/16, take .088",
			in(niche([]float64{42, 42}, high, lean("left", -.3, 90)), box("")), check.Verify},
		{"nobody said which way it leans", "between .75 either way: 41.25 or 42, both sides",
			in(niche([]float64{42, 42}, high, check.Lean{Of: "left", Offset: check.Guess(-.75, 0, .75, "which way"), Over: check.Exact(90)}), box("")), check.Verify},
		{"no lean was read", "width has said all there is", in(niche([]float64{42, 42}, high), box("")), asleep},
		{"nobody measured", "no site tab", box(""), check.NotChecked},
		{"scribe covers", "(42.5 - 41.5 + .25)/2 = .62 of gap, 3/4 less 1/8 left after fitting",
			in(niche([]float64{42.375, 42.5}, high), with(piece{"D9", check.Scribe, 2, 84, .875, .75, ""}, box(""))), check.Clear},
		{"scribe too narrow", "(44 - 41.508)/2 = 1.246 of gap, 3/4 less 1/8", in(niche([]float64{44, 44}, high), with(piece{"D9", check.Scribe, 2, 84, .75, .75, ""}, box(""))), check.Hold},
		{"a diagonal lies", "level and plumb, 42 by 90: both diagonals 99.32; one was read 98.72", in(lie, box("")), check.Verify},
	})
}

// basis FX29 and section 6: the gap is widest where the side is furthest; with p, q out of
// straight and s of spare it is MAX((s+p+q)/2,p,q).
func TestWidestGap(t *testing.T) {
	for _, c := range []struct{ s, p, q, want float64 }{
		{.5, 0, 0, .25},       // half of the spare
		{.125, .5, .5, .5625}, // both sides lean .5 the same way: 1/16 of play at the tight ends
		{0, .5, 0, .5},        // pushed to the straight side all of the lean is open
	} {
		at, err := Square.Work(map[string]float64{"L": 10 + c.s, "w": 0, "p": c.p, "q": c.q, "T": 0, "h": 0, "R": 10, "F": 0, "g": 0, "S": 0, "k": 0, "x": 0, "a": 0})
		if err != nil || at["G"] != c.want {
			t.Errorf("%+v: gap %v, %v", c, at["G"], err)
		}
	}
}

// The reading that most likely lies is the one that alone can mend it. A room 60 by 80, level
// and plumb, has diagonals of 100.
func TestTheLiarIsNamed(t *testing.T) {
	plumb := []check.Lean{lean("left", 0, 80), lean("right", 0, 80), lean("floor", 0, 60), lean("head", 0, 60)}
	for _, c := range []struct {
		name  string
		spoil func(*check.Opening)
		want  string // part of the sentence; empty for no disagreement
	}{
		{"all agree", func(*check.Opening) {}, ""},
		{"a diagonal", func(o *check.Opening) { o.Diagonals[0].Value = check.Exact(101) }, "most likely the diagonal LB-RT, ought to read 100 in"},
		{"the other", func(o *check.Opening) { o.Diagonals[1].Value = check.Exact(99) }, "most likely the diagonal RB-LT, ought to read 100 in"},
		{"a width", func(o *check.Opening) { o.Widths[1].Value = check.Exact(61) }, "most likely the width at the top, ought to read 60 in"},
		{"a height", func(o *check.Opening) { o.Heights[1].Value = check.Exact(81) }, "most likely the height at the right, ought to read 80 in"},
	} {
		o := crossed(niche([]float64{60, 60}, []float64{80, 80}, plumb...), 100, 100, "LB-RT", "RB-LT")
		c.spoil(o)
		s := surveyOf(bare(), o)
		rule, by, said, ok := disagreement(bare(), s)
		switch {
		case !ok:
			t.Errorf("%s: the readings check nothing", c.name)
		case c.want == "" && by > rule.within:
			t.Errorf("%s: %s by %v", c.name, said, by)
		case c.want != "" && (by <= rule.within || !strings.Contains(said, c.want)):
			t.Errorf("%s: by %v, %q, want %q", c.name, by, said, c.want)
		case (contested(bare(), o) != "") != (c.want != ""):
			t.Errorf("%s: rests on %q", c.name, contested(bare(), o))
		}
	}
}
