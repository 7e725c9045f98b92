package section

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "dryfit/check/steady"
)

func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > share*math.Abs(want) {
		t.Errorf("%s: got %.10g, want %.10g within %.2g of it", what, got, want, share)
	}
}

func stiffness(t *testing.T, s Section) Stiffness {
	t.Helper()
	stiff, err := s.Stiffness()
	if err != nil {
		t.Fatal(err)
	}
	return stiff
}

func TestSectionsWorkedByHand(t *testing.T) {
	board := Panel(11, Layer{E: .33e6, Thick: .75})
	strip := Strip{E: 1.58e6, Thick: .75, Depth: 1.5}
	tests := []struct {
		what, source      string
		section           Section
		axis, full, loose float64 // 0 is not demanded
		off               float64
	}{
		{"one board", "bt^3/12", Panel(12, Layer{E: 1e6, Thick: 1}), .5, 1e6, 1e6, 1e-12},
		{"ply under MDF, 10 in", "by hand, axis .556034 from the outer face of the ply: 1,629,916 and 509,766",
			Panel(10, Layer{E: 1.1e6, Thick: .75}, Layer{E: .35e6, Thick: .75}), .556034, 1629916, 509766, 1e-5},
		{"board with a strip flush at the top", "by hand, axis .523125 under the top: 612,125 and 460,898",
			board.WithFront(strip), .75 - .523125, 612125, 460898, 1e-5},
		{"the same strip flush at the bottom", "mirror of the one above",
			board.WithFront(Strip{E: 1.58e6, Thick: .75, Depth: 1.5, Flush: Bottom}), .523125, 612125, 460898, 1e-5},
		{"the same strip behind", "the side does not matter to EI", board.WithBack(strip), .75 - .523125, 612125, 460898, 1e-5},
		{"only what is flush of it", "by hand: (.33*11 + 1.58*.75)*.75^3/12", board.WithFront(strip.Within(.75)), .375, 169277, 169277, 1e-5},
		{"board alone, 11 3/4 wide", "by hand", Panel(11.75, Layer{E: .33e6, Thick: .75}), .375, 136318, 136318, 1e-5},
		{"strip about the middle", "by hand: own inertias only", board.WithFront(Strip{E: 1.58e6, Thick: .75, Depth: 1.5, Flush: Middle}), .375, 460898, 460898, 1e-5},
		{"half the width cut away, strip and all", "by hand: 5.875 in of board", board.WithFront(strip).Cut(5.875, 0), .375, .33e6 * 5.875 * .421875 / 12, 0, 1e-9},
		{"cut from the back", "by hand: 5.125 in of board and the strip", Panel(5.125, Layer{E: .33e6, Thick: .75}).WithFront(strip), 0, 0, .33e6*5.125*.421875/12 + 1.58e6*.75*3.375/12, 1e-9},
	}
	for _, test := range tests {
		stiff := stiffness(t, test.section)
		for _, pair := range []struct {
			name      string
			got, want float64
		}{{"axis", stiff.NeutralAxis, test.axis}, {"EI", stiff.EI, test.full}, {"loose", stiff.Loose, test.loose}} {
			if pair.want != 0 {
				near(t, test.what+", "+pair.name+" ("+test.source+")", pair.got, pair.want, test.off)
			}
		}
	}
	cut, narrow := stiffness(t, board.WithFront(strip).Cut(0, 5.875)), stiffness(t, tests[9].section)
	near(t, "cut from the back against a narrow board", cut.EI, narrow.EI, 1e-12)
	near(t, "front to back too", cut.Free, narrow.Free, 1e-12)
}

// By hand, from a core of 950,000 psi (AWS 1st ed. 2009) between two red oak faces of 1/42 in
// and 1,820,000 psi.
func TestPlywoodFromItsVeneers(t *testing.T) {
	const face = .0238095
	s := Panel(1, Layer{E: 1.82e6, Thick: face}, Layer{E: .95e6, Thick: .75 - 2*face}, Layer{E: 1.82e6, Thick: face})
	near(t, "E of the whole", stiffness(t, s).EI/(.75*.75*.75/12), 1105415, 1e-6)
}

// By hand: an L of two squares of side 1, E 1, has Iyz; section free to move sideways.
// Axis at 1/2 of each: dy = +-1/2, dz = +-1/2. EI = 2/12+2/4, EIyy the same, mixed = -1/2.
func TestFreeSectionMovesSideways(t *testing.T) {
	s := Section{{E: 1, Top: 1, Front: 1}, {E: 1, Bottom: -1, Top: 0, Back: 1, Front: 2}}
	stiff := stiffness(t, s)
	near(t, "EI", stiff.EI, 2.0/3, 1e-12)
	near(t, "free", stiff.Free, 2.0/3-.25/(2.0/3), 1e-12)
}

func TestStresses(t *testing.T) {
	// one material: 6M/bt^2; loose layers of one material: each bends alone with half the moment
	for _, test := range []struct {
		what string
		of   func(Section) ([]Stress, error)
		want []Stress
	}{
		{"glued", func(s Section) ([]Stress, error) { return s.Stresses(18) }, []Stress{{9, 0}, {0, -9}}},
		{"loose", func(s Section) ([]Stress, error) { return s.LooseStresses(18) }, []Stress{{18, -18}, {18, -18}}},
		{"hogging", func(s Section) ([]Stress, error) { return s.Stresses(-18) }, []Stress{{-9, 0}, {0, 9}}},
	} {
		got, err := test.of(Panel(3, Layer{E: 7, Thick: 1}, Layer{E: 7, Thick: 1}))
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range test.want {
			if math.Abs(got[i].Bottom-want.Bottom) > 1e-12 || math.Abs(got[i].Top-want.Top) > 1e-12 {
				t.Errorf("%s, layer %d: got %v, want %v", test.what, i, got[i], want)
			}
			near(t, test.what, got[i].Largest(), max(math.Abs(want.Bottom), math.Abs(want.Top)), 1e-12)
		}
	}
}

// By hand: each part of a laminate loses stiffness by its own factor; one material by that one.
func TestLastingSectionIsSofter(t *testing.T) {
	one, err := Panel(10, Layer{E: 3, Thick: 1, Creep: 1.5}, Layer{E: 3, Thick: 1, Creep: 1.5}).Lasting()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "one material", stiffness(t, one).EI, 2*10*8.0/12, 1e-12)
	two, err := Panel(10, Layer{E: 3, Thick: 1, Creep: 1.5}).WithFront(Strip{E: 13, Thick: 1, Depth: 1, Creep: 3.25}).Lasting()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "two side by side", stiffness(t, two).EI, (2*10+4)/12.0, 1e-12)
	for _, creep := range []float64{0, .9, math.NaN(), math.Inf(1)} {
		if _, err := Panel(10, Layer{E: 3, Thick: 1, Creep: creep}).Lasting(); err == nil || !strings.Contains(err.Error(), "part 1 has a creep factor") {
			t.Errorf("creep factor %v: error %v", creep, err)
		}
	}
}

func TestStiffnessSaysWhatIsWrong(t *testing.T) {
	good := Layer{E: 1, Thick: 1}
	for want, s := range map[string]Section{
		"no part":                               Panel(10),
		"part 2 has E 0":                        Panel(10, good, Layer{Thick: 1}),
		"part 1 has E 1, height 0":              Panel(10, Layer{E: 1}),
		"part 1 has E 1, height 1 and depth -1": Panel(-1, good),
		"part 2 has E NaN":                      Panel(10, good).WithFront(Strip{E: math.NaN(), Thick: 1, Depth: 1}),
		"the section has no part":               Panel(10, good).Cut(6, 4),
	} {
		if _, err := s.Stiffness(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want %q in it", err, want)
		}
		if _, err := s.Stresses(1); err == nil {
			t.Errorf("%q: stresses without an error", want)
		}
	}
}

func drawSection(t *rapid.T) Section {
	size := func(name string) float64 { return rapid.Float64Range(.1, 3).Draw(t, name) }
	var layers []Layer
	for range rapid.IntRange(1, 5).Draw(t, "layers") {
		layers = append(layers, Layer{E: size("E"), Thick: size("thick"), Creep: 1 + size("creep")})
	}
	s := Panel(10*size("width"), layers...)
	flush := Flush(rapid.IntRange(0, 2).Draw(t, "flush"))
	if rapid.Bool().Draw(t, "strip") {
		s = s.WithFront(Strip{E: size("E"), Thick: size("thick"), Depth: size("depth"), Flush: flush, Creep: 1})
	}
	return s
}

// Fibres carry the moment and no thrust, glued stands over free over loose, and cutting or
// years never stiffen.
func TestSectionInBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSection(t)
		stiff, err := s.Stiffness()
		if err != nil {
			t.Fatal(err)
		}
		stresses, err := s.Stresses(1)
		if err != nil {
			t.Fatal(err)
		}
		force, moment := 0.0, 0.0
		for i, p := range s {
			h, b := p.Top-p.Bottom, p.Front-p.Back
			mean := (stresses[i].Bottom + stresses[i].Top) / 2
			force += mean * b * h
			moment += mean*b*h*(stiff.NeutralAxis-(p.Bottom+p.Top)/2) + (stresses[i].Bottom-stresses[i].Top)*b*h*h/12
		}
		if math.Abs(force) > 1e-9 || math.Abs(moment-1) > 1e-9 {
			t.Fatalf("stresses give a thrust of %v and a moment of %v", force, moment)
		}
		if stiff.Free > stiff.EI || stiff.Loose > stiff.Free*(1+1e-12) {
			t.Fatalf("glued %v, free %v, loose %v", stiff.EI, stiff.Free, stiff.Loose)
		}
		back, front := s.depths()
		cut, err := s.Cut((front-back)/3, (front-back)/4).Stiffness()
		if err != nil || cut.EI > stiff.EI {
			t.Fatalf("cut %v over whole %v, %v", cut.EI, stiff.EI, err)
		}
		lasting, err := s.Lasting()
		if err != nil {
			t.Fatal(err)
		}
		if old, err := lasting.Stiffness(); err != nil || old.EI > stiff.EI {
			t.Fatalf("after years %v over %v at once, %v", old.EI, stiff.EI, err)
		}
	})
}
