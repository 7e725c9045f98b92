package drawing

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"dryfit/check"
	_ "dryfit/check/steady"
)

// Boxes are left, bottom, right, top in inches. All are worked by hand.
func TestWhereParts(t *testing.T) {
	joint := func(into, enters string, kind check.JointKind, at ...float64) *check.Joint {
		jt := &check.Joint{Mark: check.Text{Text: "J"}, Into: check.Text{Text: into}, Enters: check.Text{Text: enters}, Kind: kind, Centres: true,
			Width: check.Exact(1.5), From: "bottom"}
		for _, x := range at {
			jt.At = append(jt.At, check.Exact(x))
		}
		return jt
	}
	grid := func(js ...*check.Joint) *check.Job {
		j := job(part("U", check.Upright, 1, 40, 12, 1.5), part("S", check.Shelf, 2, 50, 12, 1.5))
		j.Joints = js
		return j
	}
	hutch := cabinet()
	hutch.Parts[3].Qty = check.Exact(1)
	hutch.Parts[3].X, hutch.Parts[3].Y = check.Exact(.75), check.Exact(30)
	onBase := job(part("A", check.Side, 2, 48, 12, .75), note(part("B", check.Deck, 2, 70.5, 12, .75), "between sides"),
		note(part("K", check.Base, 1, 70, 4, .75), "ladder base, under the case"))
	kicked := job(part("A", check.Side, 2, 34.5, 23, .75), note(part("B", check.Sill, 1, 46.5, 23, .75), "between sides"), part("K", check.Base, 1, 46.5, 4, .75))
	kicked.Parts[2].Note.Text = "toe kick"
	liner := job(part("A", check.Side, 2, 48, 12, .75), note(part("B", check.Head, 2, 70.5, 12, .75), "between sides"))
	bench := job(part("T", check.Seat, 1, 60, 16, .75), part("A", check.Side, 2, 18, 15, .75))
	over := job(part("A", check.Side, 2, 46.5, 12, .75), note(part("B", check.Deck, 2, 72, 12, .75), "over sides"))
	for _, tt := range []struct {
		name, mark, source string
		job                *check.Job
		want               []Box
		guessed            bool
	}{
		{"sides", "A", "72 = .75+70.5+.75", cabinet(), []Box{{0, 0, .75, 48}, {71.25, 0, 72, 48}}, false},
		{"bottom and top", "B", "between the sides, at the floor and at 48", cabinet(), []Box{{.75, 0, 71.25, .75}, {.75, 47.25, 71.25, 48}}, false},
		{"upright in equal bays", "C", "bays of (70.5-1.5)/2 = 34.5; on the bottom", cabinet(), []Box{{35.25, .75, 36.75, 47.25}}, true},
		{"shelves at half height", "D", "(46.5-.75)/2 = 22.875 above the bottom", cabinet(), []Box{{.75, 23.625, 35.25, 24.375}, {36.75, 23.625, 71.25, 24.375}}, true},
		{"shelf with a place", "D", "underside as typed", hutch, []Box{{.75, 30, 35.25, 30.75}}, false},
		{"shelves by the joints of an upright", "S", "10 and 30 to their middles, less .75", grid(joint("U", "S", check.CrossLap, 10, 30)),
			[]Box{{0, 9.25, 50, 10.75}, {0, 29.25, 50, 30.75}}, false},
		{"upright by the slot of a shelf", "U", "middle 20 from the left end", grid(joint("S", "U", check.CrossLap, 20)), []Box{{19.25, 0, 20.75, 40}}, false},
		{"sides on a base", "A", "4 above the floor", onBase, []Box{{0, 4, .75, 52}, {71.25, 4, 72, 52}}, false},
		{"base under a case", "K", "1 in from both ends of 72", onBase, []Box{{1, 0, 71, 4}}, false},
		{"head and sill in one row", "B", "one at the top, one at the floor", liner, []Box{{.75, 47.25, 71.25, 48}, {.75, 0, 71.25, .75}}, false},
		{"seat over the sides", "T", "18 and 3/4 above the floor, as long as the bench", bench, []Box{{0, 18, 60, 18.75}}, false},
		{"sides under a seat", "A", "at the ends of 60", bench, []Box{{0, 0, .75, 18}, {59.25, 0, 60, 18}}, false},
		{"bottom behind a kick", "B", "on top of the 4 in board", kicked, []Box{{.75, 4, 47.25, 4.75}}, false},
		{"top over the sides", "B", "the top is 72 wide and lies on 46.5+.75", over, []Box{{0, 0, 72, .75}, {0, 47.25, 72, 48}}, false},
		{"sides under a top", "A", "on the bottom", over, []Box{{0, .75, .75, 47.25}, {71.25, .75, 72, 47.25}}, false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			e := only(Elevations(report(tt.job)))
			var got []Box
			for _, s := range of(e.Drawing, Rect, tt.mark) {
				got = append(got, Box{s.At[0].X, s.At[0].Y, s.At[1].X, s.At[1].Y})
				if s.Guessed != tt.guessed {
					t.Errorf("guessed %v, want %v", s.Guessed, tt.guessed)
				}
			}
			if d := cmp.Diff(tt.want, got, cmpopts.EquateApprox(0, 1e-9)); d != "" { // sums of dyadic fractions
				t.Errorf("%s\n%s", tt.source, d)
			}
		})
	}
}

// Clear sizes are written where every place is typed, and nowhere else. By hand: 70.5 less the
// upright at 20 from the left, 1.5 thick; from the bottom at .75 to shelves at 20 and 30, then to
// the top at 47.25.
func TestClearSizes(t *testing.T) {
	j := cabinet()
	j.Parts[2].X = check.Exact(20)
	j.Parts[3] = part("D", check.Shelf, 1, 70.5, 11, .75)
	j.Parts = append(j.Parts, part("E", check.Shelf, 1, 70.5, 11, .75))
	j.Parts[3].Y, j.Parts[4].Y = check.Exact(20), check.Exact(30)
	chains := func(j *check.Job) map[Side][]string {
		out := map[Side][]string{}
		for _, s := range only(Elevations(report(j))).Shapes {
			if s.Form == Dimension && s.Chain {
				out[s.Side] = append(out[s.Side], s.Text)
			}
		}
		return out
	}
	want := map[Side][]string{Below: {"19 1/4", "49 3/4"}, Right: {"19 1/4", "9 1/4", "16 1/2"}}
	if d := cmp.Diff(want, chains(j)); d != "" {
		t.Error(d)
	}
	if got := chains(cabinet()); len(got) != 0 {
		t.Errorf("guessed places have sizes: %v", got)
	}
}

func TestGuessesAreSaid(t *testing.T) {
	e := only(Elevations(report(cabinet())))
	text := strings.Join(e.Notes, " ")
	for _, want := range []string{"Bays not typed", "Heights of shelves not typed"} {
		if !strings.Contains(text, want) {
			t.Errorf("notes %q do not say %q", text, want)
		}
	}
}

func TestDimensions(t *testing.T) {
	j := cabinet()
	j.Openings = []*check.Opening{{Widths: []check.Reading{{At: "floor", Value: check.Exact(73.125)}, {At: "top", Value: check.Exact(73)}},
		Heights: []check.Reading{{Value: check.Exact(49.0625)}}}}
	e := only(Elevations(report(j)))
	var got []string
	for _, s := range e.Shapes {
		if s.Form == Dimension {
			got = append(got, s.Text)
		}
	}
	slices.Sort(got)
	want := []string{"48 in", "72 in", "opening 49 1/16 in", "opening 73 in"} // the smallest width counts
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	// 72 in the middle of 73: the left wall ends half an inch before the case
	right := math.Inf(-1)
	for _, s := range e.Shapes {
		if s.Form == Rect && s.Role == Wall && s.At[1].X < 0 {
			right = math.Max(right, s.At[1].X)
		}
	}
	if right != -.5 {
		t.Errorf("left wall ends at %g, want -0.5", right)
	}
}

// What fails is told by word, hatch and fill; what was accepted, and what fails as a whole, is
// not told of a part.
func TestFailing(t *testing.T) {
	accepted := found(check.Hold, "fit.case", "B")
	accepted.Accept = &check.Acceptance{By: "K.", Why: "seen"}
	e := only(Elevations(report(cabinet(), found(check.Hold, "structure.sag", "D"), found(check.Verify, "fit.case", "C"), accepted)))
	for mark, want := range map[string]check.Verdict{"A": check.Clear, "B": check.Clear, "C": check.Verify, "D": check.Hold} {
		rects, hatches, label := of(e.Drawing, Rect, mark), of(e.Drawing, Hatch, mark), only(of(e.Drawing, Label, mark))
		for _, s := range rects {
			if s.Verdict != want {
				t.Errorf("%s is drawn as %v, want %v", mark, s.Verdict, want)
			}
		}
		if n := map[bool]int{true: len(rects)}[want > check.Clear]; len(hatches) != n {
			t.Errorf("%s has %d hatches, want %d", mark, len(hatches), n)
		}
		if label.Verdict != want {
			t.Errorf("label of %s says %v, want %v", mark, label.Verdict, want)
		}
	}
	if e.Verdict != check.Hold || !strings.Contains(e.Says, "HOLD: D") {
		t.Errorf("picture is %v and says %q", e.Verdict, e.Says)
	}

	whole := only(Elevations(report(cabinet(), found(check.Verify, "structure.anchor", "A", "B", "C", "D"))))
	if whole.Whole != check.Verify || len(of(whole.Drawing, Hatch, "A")) != 0 {
		t.Errorf("a finding on all parts: whole %v, %d hatches", whole.Whole, len(of(whole.Drawing, Hatch, "A")))
	}
	mixed := only(Elevations(report(cabinet(), found(check.Verify, "fit.movement", "A", "B", "C", "D"), found(check.Hold, "structure.sag", "D"))))
	if a, d := only(of(mixed.Drawing, Label, "A")), only(of(mixed.Drawing, Label, "D")); mixed.Whole >= check.Verify || a.Verdict != check.Verify || d.Verdict != check.Hold {
		t.Errorf("a milder finding on all parts: whole %v, A %v, D %v; want no word on the whole, VERIFY, HOLD", mixed.Whole, a.Verdict, d.Verdict)
	}
}

// A part that fails and has no place in the picture is named with its word.
func TestLeftOut(t *testing.T) {
	j := cabinet()
	lost := part("E", check.Shelf, 1, 34.5, 11, .75)
	lost.Thickness.Known = false
	j.Parts = append(j.Parts, part("F", check.Scribe, 2, 48, 2, .75), lost)
	e := only(Elevations(report(j, found(check.Hold, "schedule.read", "E"))))
	if want := "Not drawn: E (shelf), HOLD; F (scribe)."; !slices.Contains(e.Notes, want) {
		t.Errorf("notes %q, want %q", e.Notes, want)
	}
	if e.Verdict != check.Hold {
		t.Errorf("picture is %v", e.Verdict)
	}
}

func TestShort(t *testing.T) {
	for _, tt := range []struct{ mark, text, want string }{
		{"A4", "Case side", "A4"},
		{"", "Case side", "Case side"},
		{"", "Bench side 44 x 12 x 3/4 maple", "Bench side"},
		{"", "2x4 sleeper that runs along the wall", "2x4 sleeper that runs…"},
	} {
		p := &check.Part{Mark: check.Text{Text: tt.mark}, Description: check.Text{Text: tt.text}}
		if got := shorten(short(p)); got != tt.want {
			t.Errorf("%q %q is called %q, want %q", tt.mark, tt.text, got, tt.want)
		}
	}
}

func TestNoPicture(t *testing.T) {
	for name, j := range map[string]*check.Job{
		"loose boards":       job(part("S", check.Shelf, 4, 30, 11, .75), part("T", check.Trim, 3, 96, 2, .75)),
		"2 m by 900 m":       job(part("A", check.Side, 2, 78.7, 12, .75), part("B", check.Deck, 2, 35433, 12, .75)),
		"sizes not finite":   job(part("A", check.Side, 2, math.Inf(1), 12, .75), part("B", check.Deck, 2, 40, 12, .75)),
		"a size left out":    job(part("A", check.Side, 2, 48, 12, 0), part("B", check.Deck, 2, 40, 12, .75)),
		"unlike cases":       job(part("A", check.Side, 4, 30, 24, .75), part("B", check.Deck, 2, 16, 24, .75), part("C", check.Deck, 2, 34, 24, .75)),
		"thousands of parts": job(part("A", check.Side, 2, 48, 12, .75), part("B", check.Shelf, 5000, 40, 12, .75)),
	} {
		if es := Elevations(report(j)); len(es) != 0 {
			t.Errorf("%s make a picture: %s", name, es[0].Says)
		}
	}
}

func TestAlike(t *testing.T) {
	e := only(Elevations(report(job(part("A", check.Side, 6, 30, 12, .75), part("B", check.Deck, 6, 30, 12, .75)))))
	if n := len(of(e.Drawing, Rect, "A")); n != 2 || !slices.Contains(e.Notes, "One of 3 alike.") {
		t.Errorf("%d sides drawn, notes %q", n, e.Notes)
	}
}

// Whatever is typed, a picture has finite shapes, names every failing part that it shows, and
// puts no label to a part that it does not show.
func TestAnyJob(t *testing.T) {
	roles := []check.Role{check.Side, check.Side, check.Deck, check.Upright, check.Shelf, check.Adjustable, check.Divider, check.Seat,
		check.Back, check.Door, check.Base, check.Scribe, check.Front, check.Head, check.Sill, check.Unknown}
	usual := rapid.Float64Range(.1, 120)
	size := rapid.OneOf(usual, usual, usual, usual, usual, usual, usual, usual, rapid.SampledFrom([]float64{0, .75, 12, 48, 1e6, 1e300, math.Inf(1), math.NaN(), -5}))
	rapid.Check(t, func(t *rapid.T) {
		var parts []*check.Part
		for i := range rapid.IntRange(1, 9).Draw(t, "parts") {
			p := part(string(rune('A'+i)), rapid.SampledFrom(roles).Draw(t, "role"), float64(rapid.IntRange(0, 9).Draw(t, "n")),
				size.Draw(t, "l"), size.Draw(t, "w"), size.Draw(t, "t"))
			if rapid.Bool().Draw(t, "placed") {
				p.X, p.Y = check.Exact(size.Draw(t, "x")), check.Exact(size.Draw(t, "y"))
			}
			p.Length.Known = rapid.IntRange(0, 9).Draw(t, "known") > 0
			parts = append(parts, p)
		}
		j := job(parts...)
		j.Openings = []*check.Opening{{Widths: []check.Reading{{Value: check.Exact(size.Draw(t, "opening"))}, {Value: check.Exact(size.Draw(t, "opening"))}},
			Leans: []check.Lean{{Of: "left", Offset: check.Exact(.5), Over: check.Exact(96)}}}}
		rep := report(j, found(check.Hold, "fit.case", "A"), found(check.Verify, "structure.sag", "B", "C"))
		for _, all := range [][]Elevation{Elevations(rep), Ways(rep), Openings(rep)} {
			for _, e := range all {
				sound(t, e)
			}
		}
	})
}

func sound(t *rapid.T, e Elevation) {
	shown := map[string]bool{}
	for _, s := range e.Shapes {
		for _, p := range s.At {
			if math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0) {
				t.Fatalf("%s: a place of %+v is not finite", e.Title, s)
			}
		}
		if s.Form == Rect {
			shown[s.Mark] = true
		}
	}
	for _, s := range e.Shapes {
		if s.Form == Hatch && s.Mark != "" && len(of(e.Drawing, Label, s.Mark)) == 0 {
			t.Fatalf("%s: %s is hatched and no word says why", e.Title, s.Mark)
		}
		if s.Form == Label && s.Mark != "" && !shown[s.Mark] {
			t.Fatalf("%s: %s has a label and is not drawn", e.Title, s.Mark)
		}
	}
}
