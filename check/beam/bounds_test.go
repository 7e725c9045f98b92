package beam

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	_ "dryfit/check/steady"
)

// AWS (Architectural Woodwork Standards), 1st ed. 2009, p. 279: spans for span/144, cut down to
// whole inches; one of the twelve is rounded up. Shelf as wide as long is deep does not matter:
// load and stiffness both go with the width.
func TestLongestSpanMeetsPublishedTable(t *testing.T) {
	for _, row := range []struct{ e, thick, psf, inches float64 }{
		{950000, .75, 40, 40}, {950000, .75, 50, 37}, {950000, 1, 40, 53}, {950000, 1, 50, 49},
		{1800000, .75, 40, 49}, {1800000, .75, 50, 46}, {1800000, 1, 40, 66}, {1800000, 1, 50, 61},
		{1820000, .75, 40, 49}, {1820000, .75, 50, 46}, {1820000, 1, 40, 66}, {1820000, 1, 50, 61},
	} {
		w, ei := row.psf/144, row.e*math.Pow(row.thick, 3)/12
		span, err := LongestSpan(w, ei, 144)
		if err != nil {
			t.Fatal(err)
		}
		if cut := math.Floor(span); cut != row.inches && math.Round(span) != row.inches {
			t.Errorf("E %v, %v thick, %v psf: %.2f, printed %v", row.e, row.thick, row.psf, span, row.inches)
		}
		sag, err := EvenSag(w, span, ei)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "sag at that span", sag, span/144, 1e-12)
	}
}

func TestClosedFormsMeetPublishedFigures(t *testing.T) {
	type form func() (float64, error)
	for _, row := range []struct {
		source    string
		form      form
		want, off float64
	}{
		{"by hand from beam tables: 50 lb at 10 of 30 in, E 1.2e6, I .421875",
			func() (float64, error) { return PointSag(50, 10, 30, 1.2e6*.421875) }, .047788, 1e-6},
		{"the same from the other end",
			func() (float64, error) { return PointSag(50, 20, 30, 1.2e6*.421875) }, .047788, 1e-6},
		{"by hand: MDF 3/4 x 11 1/4, 36 in, 25 lb/ft",
			func() (float64, error) { return EvenSag(25.0/12, 36, 350000*.3955078125) }, .3291, 1e-4},
		{"European MDF information pages: 5WL^3 9.81/(32Ebt^3), 25 kg over 800 mm, by hand",
			func() (float64, error) { return EvenSag(25*9.81/800, 800, 2500*300*18*18*18/12) }, 4.485597, 1e-6},
		{"NDS 3.5.2, from memory: 1.5 x 0.1 + 0.04",
			func() (float64, error) { return LastingSag(1.5, .1, .04) }, .19, 1e-12},
		{"beam tables: overhang .3 beyond 1",
			func() (float64, error) { return OverhangSag(1, .3, 1, 1) }, .0055125, 1e-12},
		{"statics", func() (float64, error) { return OverhangMoment(1, .3) }, .045, 1e-12},
		{"by hand: 72, 12, 24, inner support of an end and an inner bay",
			func() (float64, error) { return InnerReactionBound(1, 72, Bay{72, true}, Bay{12, false}) }, 42 + 648*(1/72.0+1.5/12), 1e-9},
		{"by hand: 48, 12, 12, 48", func() (float64, error) { return InnerReactionBound(1, 48, Bay{48, true}, Bay{12, false}) }, 72, 1e-9},
		{"by hand: end of 12, 36, 36", func() (float64, error) { return EndReactionBound(1, 36, 12) }, 12.75, 1e-9},
		{"HUD Residential Structural Design Guide, 2nd ed., ex. 5.1: 2x8 joist, 30 psf at 16 in, L/360 at 13.8 ft",
			func() (float64, error) { return LongestSpan(30*16/12.0/12, 1.5e6*47.63, 360) }, 13.83 * 12, .05},
	} {
		got, err := row.form()
		if err != nil {
			t.Errorf("%s: %v", row.source, err)
		}
		near(t, row.source, got, row.want, row.off)
	}
}

// HUD Residential Structural Design Guide, 2nd ed., ex. 5.1 (second hand): a 1.5 x 7.25 in joist
// at 16 in under 40 psf reaches its bending, shear and bearing values at these spans.
func TestJoistReachesItsValuesAtPublishedSpans(t *testing.T) {
	const w, b, d = 40 * 16 / 12.0 / 12, 1.5, 7.25
	for _, row := range []struct {
		what           string
		feet, capacity float64
		of             func(*Result) float64
	}{
		{"bending", 14.865, 975 * 1.15 * 1.2 * b * d * d / 6, func(r *Result) float64 { return r.Spans()[0].Sagging.Value }},
		{"shear", 40.8, 75 * 2 * b * d / 1.5, func(r *Result) float64 { return r.Spans()[0].Shear.Value }},
		{"bearing", 45.6, 405 * b * 2, func(r *Result) float64 { return r.Reactions[0] }},
	} {
		span := row.feet * 12
		r := solved(t, Beam{Length: span, Pieces: []Piece{{To: span, EI: 1.5e6 * 47.63}}, Supports: []Support{{At: 0}, {At: span}},
			Loads: Loads{Spread: []Spread{{0, span, w}}}})
		near(t, row.what, row.of(r)/row.capacity, 1, 3e-3)
	}
}

// Beam formulas, 69.94 lb/ft over two bays of 12 ft.
func TestTwoBaysOfTwelveFeet(t *testing.T) {
	b := run(144, 144)
	b.Spread = []Spread{{0, 288, 69.94 / 12}}
	r := solved(t, b)
	near(t, "end", r.Reactions[0], 314.7, .1)
	near(t, "middle", r.Reactions[1], 1049.1, .1)
}

// AWS 1st ed. 2009 p. 253: 50 psf, at most 200 lb on a shelf; 46 in by 14 in carries more.
func TestShelfLoadAgainstCap(t *testing.T) {
	for _, row := range []struct{ depth, load float64 }{{14, 223.61}, {12.52, 200}} {
		b := run(46)
		b.Spread = []Spread{{0, 46, 50.0 / 144 * row.depth}}
		r := solved(t, b)
		near(t, "load", r.Reactions[0]+r.Reactions[1], row.load, .05)
	}
}

func TestOverhangMeetsClosedForm(t *testing.T) {
	b := Beam{Length: 1.3, Pieces: []Piece{{To: 1.3, EI: 1}}, Supports: []Support{{At: 0}, {At: 1}},
		Loads: Loads{Spread: []Spread{{1, 1.3, 1}}}}
	r := solved(t, b)
	near(t, "tip", r.Sag(1.3), .0055125, 1e-12)
	near(t, "moment", r.Moment(1), -.045, 1e-12)
	if e := r.Spans()[0]; e.Rise.Value <= 0 || e.Sag.Value > 1e-15 {
		t.Errorf("the bay does not rise: %+v", e)
	}
}

func drawBays(t *rapid.T, least, most int) []float64 {
	return rapid.SliceOfN(rapid.Float64Range(10, 100), least, most).Draw(t, "bays")
}

func TestRunBoundsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bays := drawBays(t, 2, 6)
		b := run(bays...)
		worst, err := b.Worst(b.Bays(1))
		if err != nil {
			t.Fatal(err)
		}
		longest := slices.Max(bays)
		sag, errS := RunSagBound(1, longest, 1)
		moment, errM := RunMomentBound(1, longest)
		if errS != nil || errM != nil {
			t.Fatal(errS, errM)
		}
		for i, s := range worst.Spans {
			if s.Sag.Value > .77*sag {
				t.Fatalf("%v: sag %v of bay %d over .77 of %v", bays, s.Sag.Value, i, sag)
			}
			if m := max(s.Sagging.Value, s.Hogging.Value); m > moment*(1+1e-9) {
				t.Fatalf("%v: moment %v of bay %d over %v", bays, m, i, moment)
			}
		}
		last := len(bays) - 1
		for i, reaction := range worst.Reactions {
			var bound float64
			switch i {
			case 0:
				bound, err = EndReactionBound(1, longest, bays[0])
			case len(bays):
				bound, err = EndReactionBound(1, longest, bays[last])
			default:
				bound, err = InnerReactionBound(1, longest, Bay{bays[i-1], i == 1}, Bay{bays[i], i == last})
			}
			if err != nil {
				t.Fatal(err)
			}
			if reaction.Value > bound*(1+1e-9) {
				t.Fatalf("%v: reaction %v of support %d over %v", bays, reaction.Value, i, bound)
			}
		}
	})
}

// Over six bays only some loadings are tried; here all of them are, apart from Worst.
func TestChosenLoadingsFindTheWorst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := run(drawBays(t, 7, 8)...)
		if rapid.Bool().Draw(t, "overhang") {
			b.Supports = b.Supports[1:]
		}
		if rapid.Bool().Draw(t, "slot") {
			b.Pieces = []Piece{{To: b.Length / 3, EI: 1}, {To: b.Length/3 + 5, EI: .5}, {To: b.Length, EI: 1}}
		}
		bays := b.Bays(1)
		chosen, err := b.Worst(bays)
		if err != nil {
			t.Fatal(err)
		}
		all := b.noCase()
		for choice := range 1 << len(bays) {
			loaded := b
			on := make([]bool, len(bays))
			for i, bay := range bays {
				if on[i] = choice>>i&1 == 1; on[i] {
					loaded.Loads = loaded.and(bay)
				}
			}
			r, err := loaded.Solve()
			if err != nil {
				t.Fatal(err)
			}
			all.take(r, on)
		}
		same := func(what string, got, want Case) {
			if math.Abs(got.Value-want.Value) > 1e-9*math.Abs(want.Value) {
				t.Fatalf("%s: %v under %v, but %v under %v", what, got.Value, got.On, want.Value, want.On)
			}
		}
		for i := range all.Spans {
			got, want := chosen.Spans[i], all.Spans[i]
			same("sag", got.Sag, want.Sag)
			same("rise", got.Rise, want.Rise)
			same("sagging", got.Sagging, want.Sagging)
			same("hogging", got.Hogging, want.Hogging)
			same("shear", got.Shear, want.Shear)
		}
		for i := range all.Reactions {
			same("reaction", chosen.Reactions[i], all.Reactions[i])
			same("uplift", chosen.Uplift[i], all.Uplift[i])
		}
	})
}

// Beam tables: two equal bays sag most with one loaded, and hog most with both.
func TestWorstNamesTheLoading(t *testing.T) {
	b := run(1, 1)
	worst, err := b.Worst(b.Bays(1))
	if err != nil {
		t.Fatal(err)
	}
	s := worst.Spans[0]
	near(t, "sag", s.Sag.Value, .00915, 5e-6)
	near(t, "rise", s.Rise.Value, 1/math.Sqrt(3)/16/9, 1e-9) // by hand: ML^2/(9 sqrt 3 EI)
	near(t, "hogging", s.Hogging.Value, .125, 1e-12)
	near(t, "uplift", worst.Uplift[0].Value, .0625, 1e-12)
	for _, want := range []struct {
		got Case
		on  []bool
	}{{s.Sag, []bool{true, false}}, {s.Rise, []bool{false, true}}, {s.Hogging, []bool{true, true}},
		{worst.Reactions[0], []bool{true, false}}, {worst.Reactions[1], []bool{true, true}}, {worst.Uplift[0], []bool{false, true}}} {
		if !slices.Equal(want.got.On, want.on) {
			t.Errorf("worst with %v, want %v", want.got.On, want.on)
		}
	}
	b.Spread = []Spread{{0, 2, 1}} // what always stands holds the end down
	if worst, err = b.Worst(b.Bays(1)); err != nil {
		t.Fatal(err)
	}
	near(t, "uplift with books that stay", worst.Uplift[0].Value, 0, 0)
	near(t, "reaction with books that stay", worst.Reactions[1].Value, 2.5, 1e-12)
}

// The closed form takes the moments at the middle of the slot for all of its width. By hand, at
// midspan, s = L/10, half kept: 1+384/5*(1/8)*(1/4)*.1 = 1.24 against 1.2273 by the integral, 1.04 % off.
func TestSlotClosedFormIsNearSolver(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		span := rapid.Float64Range(20, 80).Draw(t, "span")
		width := span * rapid.Float64Range(.01, .0999).Draw(t, "width")
		x := rapid.Float64Range(width/2, span-width/2).Draw(t, "x")
		kept := rapid.Float64Range(.5, 1).Draw(t, "kept")
		pieces, err := Slotted(span, 1, 0, []Slot{{Centre: x, Width: width, EI: kept}})
		if err != nil {
			t.Fatal(err)
		}
		r := draws(t, Beam{Length: span, Pieces: pieces, Supports: []Support{{At: 0}, {At: span}}, Loads: Loads{Spread: []Spread{{0, span, 1}}}})
		plain, _ := EvenSag(1, span, 1)
		closed, err := SlotSag(span, x, width, kept)
		if err != nil {
			t.Fatal(err)
		}
		alike(t, "closed form", closed, r.Sag(span/2)/plain, 1, .0125)
	})
}

func TestClosedFormsRefuseWhatIsNoBeam(t *testing.T) {
	type form func() (float64, error)
	for what, f := range map[string]form{
		"no span":            func() (float64, error) { return EvenSag(1, 0, 1) },
		"no stiffness":       func() (float64, error) { return EvenSag(1, 1, 0) },
		"NaN":                func() (float64, error) { return EvenMoment(math.NaN(), 1) },
		"off the span":       func() (float64, error) { return PointSag(1, 2, 1, 1) },
		"kind creep":         func() (float64, error) { return LastingSag(.9, 1, 1) },
		"longest shorter":    func() (float64, error) { return EndReactionBound(1, 1, 2) },
		"inner shorter":      func() (float64, error) { return InnerReactionBound(1, 1, Bay{1, true}, Bay{2, true}) },
		"no overhang":        func() (float64, error) { return OverhangSag(1, 0, 1, 1) },
		"wide slot":          func() (float64, error) { return SlotSag(10, 5, 2, .5) },
		"slot at the end":    func() (float64, error) { return SlotSag(10, 10, 1, .5) },
		"more left than was": func() (float64, error) { return SlotSag(10, 5, 1, 1.5) },
		"nothing left":       func() (float64, error) { return SlotSag(10, 5, 1, 0) },
		"n":                  func() (float64, error) { return LongestSpan(1, 1, -144) },
		"no shear":           func() (float64, error) { return ShearSag(1, 1, 0) },
		"no moment":          func() (float64, error) { return OverhangMoment(1, -1) },
	} {
		if got, err := f(); err == nil {
			t.Errorf("%s gave %v without an error", what, got)
		}
	}
}
