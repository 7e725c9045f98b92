package structure

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dryfit/check"
	_ "dryfit/check/steady"
)

// Everything that stands in a random frame comes down to its floor: shelves at random heights
// over random uprights, some of which stand on a shelf below instead of the floor.
func TestFramesAreInBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wide := float64(rapid.IntRange(40, 120).Draw(t, "wide"))
		var parts []*check.Part
		var joints []*check.Joint
		levels := rapid.IntRange(1, 4).Draw(t, "levels")
		for i := range levels {
			parts = append(parts, at(part(fmt.Sprintf("S%d", i), check.Shelf, wide, 12, 1, "MDF"), 0, float64(20*(i+1))))
		}
		x := 0.
		for i := range rapid.IntRange(1, 4).Draw(t, "uprights") {
			x += float64(rapid.IntRange(8, 25).Draw(t, "bay"))
			if x > wide-6 {
				break
			}
			foot := rapid.IntRange(0, levels-1).Draw(t, "stands on level") // 0 is the floor
			y := 0.
			if foot > 0 {
				y = float64(20*foot) + 1
			}
			u := at(part(fmt.Sprintf("U%d", i), check.Upright, float64(20*(levels+1))-y, 12, 1, "MDF"), x-.5, y)
			parts = append(parts, u)
			for l := foot; l < levels; l++ {
				joints = append(joints, joint(fmt.Sprintf("J%d%d", i, l), u.Mark.Text, fmt.Sprintf("S%d", l), check.CrossLap))
			}
		}
		j := inches(in("A", parts...)...)
		for _, jt := range joints {
			jt.Count = check.Exact(1)
			joined(j, jt)
		}
		for i := range levels {
			carrying(j, fmt.Sprintf("S%d", i), "", check.PerLength, rapid.Float64Range(.1, 5).Draw(t, "load"))
		}
		fr := frameOf(j)
		brought, taken := 0., 0.
		for _, s := range shelves(j) {
			brought += s.line() * wide
			for _, l := range s.landings() {
				if l.on == nil {
					taken += l.force // an end, on a side
				}
			}
		}
		for _, u := range parts[levels:] {
			brought += weight(j, u).Nominal
			if footOf(j, u).on == nil {
				taken += fr.bringsDown(u, nil)
			}
		}
		if math.Abs(taken-brought) > 1e-9*brought {
			t.Fatalf("%v stands in the frame, %v reaches the floor", brought, taken)
		}
	})
}

// By hand: a shelf of 60 with 2 lb/in and its own weight brings half of it to an upright in
// the middle of two bays times 1.25; the shelf below gets that and the upright's own weight.
func TestUprightOnAShelfBendsIt(t *testing.T) {
	b := &build{}
	j := b.stacked(false)
	s := one(t, Sag, j, "S1", "at once")
	w := 80./12 + 42./1728*12*1.5
	own := 48. / 1728 * 32 * 12 * 1
	// the slot over the upright makes the shelf a little softer there, and the reaction smaller
	near(t, "by hand: 1.25*w*30 and the upright", s.Values["N"], 1.25*w*30+own, .04*277)
	near(t, "by hand: a load in the middle of a plain span", s.Values["o"], 1./48, 1e-9)
	near(t, "by hand: its moment", one(t, Bending, j, "S1", "bending").Values["o"], .25, 1e-9)
	if got := one(t, Sag, b.stacked(true), "S1", "at once").Values["N"]; got != 0 {
		t.Errorf("an upright over another brings %v to the shelf between, want nothing", got)
	}
}

func TestFeet(t *testing.T) {
	frame := func(change func(u, s *check.Part)) (*check.Job, *check.Part) {
		s := at(part("S", check.Shelf, 60, 12, 1, "MDF"), 0, 30)
		u := at(part("U", check.Upright, 30, 12, 1, "MDF"), 20, 31)
		change(u, s)
		return inches(in("A", s, u, of(part("E", check.Side, 70, 12, .75, "MDF"), 2), part("B", check.Base, 60, 4, .75, "MDF"))...), u
	}
	for _, row := range []struct {
		name   string
		change func(u, s *check.Part)
		on     bool
		hangs  bool
	}{
		{"on the shelf", func(u, s *check.Part) {}, true, false},
		{"on the base, 4 high", func(u, s *check.Part) { u.Y = check.Exact(4) }, false, false},
		{"height not typed", func(u, s *check.Part) { u.Y = check.Value{} }, false, false},
		{"ten inches over the shelf", func(u, s *check.Part) { u.Y = check.Exact(41) }, false, true},
		{"beside the shelf", func(u, s *check.Part) { u.X = check.Exact(65) }, false, true},
		{"height of the shelf not typed", func(u, s *check.Part) { s.Y = check.Value{}; u.Y = check.Exact(41) }, false, false},
	} {
		j, u := frame(row.change)
		f := footOf(j, u)
		if (f.on != nil) != row.on || f.hangs != row.hangs {
			t.Errorf("%s: stands on %v, hangs %v; want %v, %v", row.name, f.on, f.hangs, row.on, row.hangs)
		}
	}
}

func TestPaths(t *testing.T) {
	b := &build{}
	two := func(jt *check.Joint) *check.Job { return b.butted(jt) }
	butt := func() *check.Joint { return joint("J1", "U1", "S1", check.Butt) }
	tight := butt()
	tight.Fit = check.Text{Text: "press fit"}
	glued := func() *check.Job { // a shelf on cleats that are only glued
		j := b.job(in("A", of(part("E1", check.Side, 70, 12, 1, "MDF"), 2), part("S1", check.Shelf, 24, 11, 1, "MDF"), of(part("C1", check.Cleat, 10, 1, .75, "poplar"), 2))...)
		on := joint("J1", "C1", "S1", check.CleatJoint)
		on.Count = check.Exact(2)
		return b.join(j, on, fastened(joint("J2", "E1", "C1", check.CleatJoint), "contact cement and glue"))
	}
	hanging := func() *check.Job {
		j := b.stacked(false)
		for _, p := range j.Parts {
			if p.Mark.Text == "U1" {
				p.Y = check.Exact(35)
			}
		}
		for _, jt := range j.Joints {
			jt.Count = check.Exact(2)
		}
		return j
	}
	ring := func() *check.Job { // two shelves, each housed in the other
		j := b.job(in("A", part("S1", check.Shelf, 24, 11, 1, "MDF"), part("S2", check.Shelf, 24, 11, 1, "MDF"))...)
		x, y := joint("J1", "S1", "S2", check.Dado), joint("J2", "S2", "S1", check.Dado)
		x.Count, y.Count = check.Exact(1), check.Exact(1)
		return b.join(j, x, y)
	}
	nosed := func(into, enters string) *check.Job {
		j := b.job(in("A", part("S1", check.Shelf, 24, 11, 1, "MDF"), part("N1", check.Trim, 24, 1.5, .75, "poplar"))...)
		return b.join(j, fastened(joint("J1", into, enters, check.Butt), "glue"))
	}
	for _, row := range []struct {
		name string
		j    *check.Job
		want check.Verdict
		says string
	}{
		{"glue", two(fastened(butt(), "PVA glue")), check.Hold, "glue or friction alone at U1"},
		{"friction", two(tight), check.Hold, "glue or friction alone at U1"},
		{"glue and screws", two(fastened(butt(), "glue and screws")), check.Clear, ""},
		{"dowels", two(fastened(butt(), "3 dowels")), check.Clear, ""},
		{"nobody said", two(butt()), check.Verify, "nobody said what fastens it to U1"},
		{"dado", two(depths(joint("J1", "U1", "S1", check.Dado), .25, 0)), check.Clear, ""},
		{"a nosing glued on is no support", nosed("N1", "S1"), check.Clear, ""},
		{"nor is one named the other way", nosed("S1", "N1"), check.Clear, ""},
		{"glued cleats", glued(), check.Hold, "a cleat that is only glued at C1"},
		{"an upright on nothing", hanging(), check.Hold, "U1 stands on nothing, 35 in above the floor"},
		{"shelves that hold one another", ring(), check.Hold, "hangs on what it carries"},
	} {
		found := false
		for _, r := range asked(t, Path, row.j) {
			if r.Verdict == check.Clear && row.want != check.Clear {
				continue
			}
			found = true
			if says := Path.Says(r); r.Verdict != row.want || !strings.Contains(says, row.says) {
				t.Errorf("%s: %v, %s; want %v with %q", row.name, r.Verdict, says, row.want, row.says)
			}
		}
		if !found && row.want != check.Clear {
			t.Errorf("%s: nothing is asked or said", row.name)
		}
	}
}

func TestWhatFastens(t *testing.T) {
	for text, want := range map[string]grip{
		"glue": loose, "Leim": loose, "friction": loose, "2 screws #8 x 2": sound, "glued and dowelled": sound, "bolts": sound, "": unsaid, "see detail": unsaid,
	} {
		if got := gripOf(fastened(joint("J", "A", "B", check.Butt), text)); got != want {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
	for text, want := range map[string]bool{"into studs": true, "back wall": true, "study": false, "wallet": false, "fits the niche": false} {
		if got := toFraming(text); got != want {
			t.Errorf("%q is framing: %v, want %v", text, got, want)
		}
	}
}
