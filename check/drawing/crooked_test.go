package drawing

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/opening"
)

// crookedJob is a case 72 wide in an opening whose sides lean to the right.
func crookedJob() *check.Job {
	j := cabinet()
	read := func(at string, x float64) check.Reading { return check.Reading{At: at, Value: check.Exact(x)} }
	lean := func(of string, off float64) check.Lean {
		return check.Lean{Of: of, Offset: check.Exact(off), Over: check.Exact(50)}
	}
	j.Openings = []*check.Opening{{By: check.Text{Text: "K."},
		Widths:  []check.Reading{read("floor", 73), read("middle", 72.875), read("top", 73)},
		Heights: []check.Reading{read("left", 50), read("right", 50.25)},
		Leans:   []check.Lean{lean("left", -.375), lean("right", .375)}}} // both tops .375 to the right
	return j
}

func TestOpening(t *testing.T) {
	j := crookedJob()
	a := only(opening.Arounds(j))
	e := only(Openings(report(j)))

	// By hand: the left side is furthest in at its top, .375; the right one at its foot or
	// middle, 73 or 72.875+.1875 = 73.0625. Level: from .375 to 73 at the most.
	if a.Level.Left != .375 || a.Level.Right > 73 || a.Level.Right < 72.875 {
		t.Errorf("level rectangle from %g to %g", a.Level.Left, a.Level.Right)
	}
	if !a.Plumb || a.Sure <= 0 || a.Sure > a.Level.Width() {
		t.Errorf("sure width %g of %g", a.Sure, a.Level.Width())
	}

	var sure Box
	var faces []Shape
	for _, s := range e.Shapes {
		if s.Form == Rect && s.Role == Sure {
			sure = Box{s.At[0].X, s.At[0].Y, s.At[1].X, s.At[1].Y}
		}
		if s.Form == Line && s.Role == Part {
			faces = append(faces, s)
		}
	}
	if len(faces) != 4 || sure.Right <= sure.Left {
		t.Fatalf("%d faces, sure rectangle %v", len(faces), sure)
	}
	for i, inside := range []func(Point) bool{
		func(p Point) bool { return p.X <= sure.Left }, func(p Point) bool { return p.X >= sure.Right },
		func(p Point) bool { return p.Y <= sure.Bottom }, func(p Point) bool { return p.Y >= sure.Top },
	} {
		for _, p := range faces[i].At {
			if !inside(p) {
				t.Errorf("the sure rectangle %v leaves the opening at %v of face %d", sure, p, i)
			}
		}
	}
	if text := strings.Join(e.Notes, " "); !strings.Contains(text, "drawn 10 times") && !strings.Contains(text, "drawn 5 times") {
		t.Errorf("notes %q do not say how often it is exaggerated", text)
	}
	if !strings.Contains(e.Says, "Sure to go in: "+j.Len(a.Sure)) {
		t.Errorf("says %q", e.Says)
	}
}

// Without plumb both sides are drawn alike: each stands out by half of what its width is over the
// smallest, 72.875.
func TestPlumbNotRead(t *testing.T) {
	j := crookedJob()
	j.Openings[0].Leans = nil
	a := only(opening.Arounds(j))
	for i, want := range []float64{-.0625, 0, -.0625} {
		if got := a.Faces.Left[i].Off; got != want {
			t.Errorf("left side stands at %g at reading %d, want %g", got, i, want)
		}
		if got := a.Faces.Right[i].Off; got != 72.875-want {
			t.Errorf("right side stands at %g at reading %d, want %g", got, i, 72.875-want)
		}
	}
	if text := strings.Join(only(Openings(report(j))).Notes, " "); !strings.Contains(text, "Plumb not read") {
		t.Errorf("notes %q", text)
	}
}

// A gap is drawn as long as it is, so many times, and written as it is.
func TestGaps(t *testing.T) {
	j := crookedJob()
	e := only(Openings(report(j)))
	var times float64
	for _, n := range e.Notes {
		if strings.Contains(n, "sides") {
			for _, k := range timesDrawn {
				if strings.Contains(n, fmt.Sprintf("drawn %g times", k)) {
					times = k
				}
			}
		}
	}
	n := 0
	for i, s := range e.Shapes {
		if s.Form != Line || s.Role != Gap || s.At[0].Y != s.At[1].Y {
			continue
		}
		n++
		text := e.Shapes[i+1].Text
		if want := j.Len((s.At[1].X - s.At[0].X) / times); text != want {
			t.Errorf("gap from %g to %g, drawn %g times, is written %q, want %q", s.At[0].X, s.At[1].X, times, text, want)
		}
	}
	if n != 6 {
		t.Errorf("%d gaps at the sides, want one at each of three readings, left and right", n)
	}
}

func TestOver(t *testing.T) {
	j := crookedJob()
	j.Parts[1].Length = check.Exact(72) // a case of 73.5
	e := only(Openings(report(j)))
	over := 0
	for _, s := range e.Shapes {
		if s.Form == Label && s.Role == Gap && s.Verdict == check.Hold {
			over++
			if !strings.HasSuffix(s.Text, " over") {
				t.Errorf("label %q", s.Text)
			}
		}
	}
	if over == 0 {
		t.Error("a case wider than its opening shows no gap that is over")
	}
}

func TestWay(t *testing.T) {
	jt := func(into, enters string, fastener string) *check.Joint {
		return &check.Joint{Mark: check.Text{Text: "J" + into}, Into: check.Text{Text: into}, Enters: check.Text{Text: enters}, Kind: check.Butt,
			Fastener: check.Text{Text: fastener}, Count: check.Exact(2)}
	}
	bench := func(fastener string) *check.Job {
		j := job(part("A", check.Side, 2, 30, 12, .75), part("B", check.Deck, 2, 40, 12, .75), part("S", check.Shelf, 1, 40, 11, .75))
		j.Joints = []*check.Joint{jt("A", "S", fastener)}
		j.Loads = []*check.Load{{Kind: check.Text{Text: "books"}, Per: check.ByKind}}
		return j
	}
	for _, tt := range []struct {
		fastener string
		breaks   bool
	}{{"glue", true}, {"2 dowels", false}} {
		e := only(Ways(report(bench(tt.fastener))))
		arrows, breaks, words := 0, 0, 0
		for _, s := range e.Shapes {
			switch {
			case s.Form == Arrow:
				arrows++
				if s.At[1].Y >= s.At[0].Y || s.At[0].X != s.At[1].X {
					t.Errorf("%s: an arrow from %v to %v does not go down", tt.fastener, s.At[0], s.At[1])
				}
			case s.Form == Break:
				breaks++
			case s.Form == Label && s.Verdict == check.Hold:
				words++
			}
		}
		if arrows < 2 || (breaks > 0) != tt.breaks || (words > 0) != tt.breaks {
			t.Errorf("%s: %d arrows, %d broken, %d words", tt.fastener, arrows, breaks, words)
		}
	}
}

// Only a few cases are drawn, those that fail first, and the page says so.
func TestFront(t *testing.T) {
	var parts []*check.Part
	for _, name := range []string{"Ash", "Box", "Cork", "Dill", "Elm"} {
		for _, p := range []*check.Part{part(name+"1", check.Side, 2, 48, 12, .75), part(name+"2", check.Deck, 2, 40, 12, .75)} {
			p.Case.Text = name
			parts = append(parts, p)
		}
	}
	ds, note := Front(report(job(parts...), found(check.Verify, "fit.case", "Cork2"), found(check.Hold, "fit.case", "Elm1")))
	var titles []string
	for _, d := range ds {
		titles = append(titles, d.Title)
	}
	if got := strings.Join(titles, ", "); got != "Elm, Cork, Ash" {
		t.Errorf("drawn: %s", got)
	}
	if note != "Drawn: Elm, Cork, Ash, of 5 cases; those that fail come first." {
		t.Errorf("note %q", note)
	}
	if ds, note := Front(report(job(part("S", check.Shelf, 4, 30, 11, .75)))); len(ds) != 0 || note != "" {
		t.Errorf("loose boards: %d pictures, note %q", len(ds), note)
	}
}

// fill leaves even spaces: by hand.
func TestFill(t *testing.T) {
	for _, tt := range []struct {
		name  string
		taken []stretch
		n     int
		want  []float64
	}{
		{"two in 10, 1 thick", nil, 2, []float64{8. / 3, 8./3*2 + 1}},
		{"one beside one taken at 2 to 3: the larger gap", []stretch{{2, 3}}, 1, []float64{6}},
		{"none", nil, 0, nil},
	} {
		got := fill(0, 10, tt.taken, 1, tt.n)
		for i := range tt.want {
			if len(got) != len(tt.want) || math.Abs(got[i]-tt.want[i]) > 1e-12 {
				t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
				break
			}
		}
	}
}

// By hand: 4235 in a hundred is 42 times; a share that is there is not none.
func TestAUseIsSaidAsAHandWouldSayIt(t *testing.T) {
	for use, want := range map[float64]string{.002: "under 1 %", .181: "18 %", 1.3: "130 %", 2.11: "2.1 times", 42.35: "42 times"} {
		if got := used(use); got != want {
			t.Errorf("%v is %q, want %q", use, got, want)
		}
	}
}
