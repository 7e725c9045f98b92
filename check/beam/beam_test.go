package beam

import (
	"math"
	"strings"
	"testing"
)

// run is a beam of even stiffness 1 over bays of the given spans.
func run(bays ...float64) Beam {
	b := Beam{Supports: []Support{{}}}
	for _, bay := range bays {
		b.Length += bay
		b.Supports = append(b.Supports, Support{At: b.Length})
	}
	b.Pieces = []Piece{{To: b.Length, EI: 1}}
	return b
}

// under loads the bays whose sign in the pattern is 1 with 1 per unit of length.
func (b Beam) under(pattern string) Beam {
	for i, load := range b.Bays(1) {
		if pattern[i] == '1' {
			b.Loads = b.and(load)
		}
	}
	return b
}

func solved(t *testing.T, b Beam) *Result {
	t.Helper()
	r, err := b.Solve()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func near(t *testing.T, what string, got, want, off float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > off {
		t.Errorf("%s: got %.10g, want %.10g within %.2g", what, got, want, off)
	}
}

// Beam tables are those of any handbook of structures; the figures that they print to three
// or four digits are quoted from memory and carry half a unit of their last digit.
func TestRunsOfEqualBays(t *testing.T) {
	tests := []struct {
		what, source, bays, pattern string
		got                         func(*Result) float64
		want, off                   float64
	}{
		{"end of two", "beam tables: 3/8 wL", "11", "11", func(r *Result) float64 { return r.Reactions[0] }, 0.375, 1e-12},
		{"middle of two", "beam tables: 10/8 wL", "11", "11", func(r *Result) float64 { return r.Reactions[1] }, 1.25, 1e-12},
		{"hogging of two", "beam tables: wL^2/8", "11", "11", func(r *Result) float64 { return r.Spans()[0].Hogging.Value }, 0.125, 1e-12},
		{"sagging of two", "beam tables: 9/128 wL^2", "11", "11", func(r *Result) float64 { return r.Spans()[0].Sagging.Value }, 9.0 / 128, 1e-12},
		{"sag of two", "root of the cubic: (39+55 sqrt 33)/65536", "11", "11", func(r *Result) float64 { return r.Spans()[0].Sag.Value }, (39 + 55*math.Sqrt(33)) / 65536, 1e-12},
		{"place of that sag", "root of the cubic: (1+sqrt 33)/16", "11", "11", func(r *Result) float64 { return r.Spans()[0].Sag.At }, (1 + math.Sqrt(33)) / 16, 1e-9},
		{"end of two, one loaded", "beam tables: 7/16 wL", "11", "10", func(r *Result) float64 { return r.Reactions[0] }, 0.4375, 1e-12},
		{"middle of two, one loaded", "beam tables: 10/16 wL", "11", "10", func(r *Result) float64 { return r.Reactions[1] }, 0.625, 1e-12},
		{"far end of two, one loaded", "beam tables: -1/16 wL", "11", "10", func(r *Result) float64 { return r.Reactions[2] }, -0.0625, 1e-12},
		{"moment over it", "beam tables: -1/16 wL^2", "11", "10", func(r *Result) float64 { return r.Moment(1) }, -0.0625, 1e-12},
		{"sag of two, one loaded", "beam tables: 0.0092 wL^4/EI", "11", "10", func(r *Result) float64 { return r.Spans()[0].Sag.Value }, 0.00915, 5e-6},
		{"end of three", "beam tables: 0.4 wL", "111", "111", func(r *Result) float64 { return r.Reactions[3] }, 0.4, 1e-12},
		{"inner of three", "beam tables: 1.1 wL", "111", "111", func(r *Result) float64 { return r.Reactions[2] }, 1.1, 1e-12},
		{"moment over it", "beam tables: -0.1 wL^2", "111", "111", func(r *Result) float64 { return r.Moment(2) }, -0.1, 1e-12},
		{"sagging of the end bay", "beam tables: 0.08 wL^2", "111", "111", func(r *Result) float64 { return r.Spans()[0].Sagging.Value }, 0.08, 1e-12},
		{"sag of the end bay", "beam tables: 0.0069 wL^4/EI", "111", "111", func(r *Result) float64 { return r.Spans()[0].Sag.Value }, 0.006884, 5e-7},
		{"sag of the middle bay", "beam tables: 0.00052 wL^4/EI", "111", "111", func(r *Result) float64 { return r.Spans()[1].Sag.Value }, 0.000521, 5e-7},
		{"sag, outer two loaded", "beam tables: 0.0099 wL^4/EI", "111", "101", func(r *Result) float64 { return r.Spans()[0].Sag.Value }, 0.009917, 5e-7},
		{"rise, outer two loaded", "beam tables: 1/160 wL^4/EI", "111", "101", func(r *Result) float64 { return r.Spans()[1].Rise.Value }, 0.00625, 1e-12},
		{"moment, two neighbours loaded", "beam tables: -0.1167 wL^2", "111", "110", func(r *Result) float64 { return r.Moment(1) }, -7.0 / 60, 1e-12},
		{"inner, two neighbours loaded", "beam tables: 1.2 wL", "111", "110", func(r *Result) float64 { return r.Reactions[1] }, 1.2, 1e-12},
	}
	for _, test := range tests {
		bays := make([]float64, len(test.bays))
		for i := range bays {
			bays[i] = 1
		}
		near(t, test.what+" ("+test.source+")", test.got(solved(t, run(bays...).under(test.pattern))), test.want, test.off)
	}
}

// Reactions of uneven runs under 1 per unit of length; by the three-moment equation, worked
// apart from this package.
func TestRunsOfUnevenBays(t *testing.T) {
	tests := []struct {
		bays      []float64
		pattern   string
		reactions []float64
		off       float64
	}{
		{[]float64{48, 20, 16}, "111", []float64{19.40, 50.61, 4.78, 9.21}, 5e-3},
		{[]float64{72, 12, 24}, "111", []float64{28.21, 99.81, -33.67, 13.64}, 1e-2},
		{[]float64{48, 12, 12, 48}, "1111", []float64{18.91, 64.14, -46.11, 64.14, 18.91}, 1e-2},
		{[]float64{12, 36, 36}, "101", []float64{8.38, 0.38, 23.69, 15.55}, 1e-2},
	}
	for _, test := range tests {
		r := solved(t, run(test.bays...).under(test.pattern))
		for i, want := range test.reactions {
			near(t, "reaction", r.Reactions[i], want, test.off)
		}
	}
	r := solved(t, run(48, 20, 16).under("111"))
	near(t, "moment over the inner right support", r.Moment(68), 19.346, 1e-3)
	plain, _ := EvenSag(1, 16, 1)
	near(t, "sag of the short bay over its plain sag", r.Spans()[2].Sag.Value/plain, 1.36506, 1e-4)
}

func TestBeamsOfTheHandbooks(t *testing.T) {
	half := []Piece{{To: 1, EI: 1}}
	tests := []struct {
		what, source string
		beam         Beam
		sag, moment  float64 // largest sag, largest moment by size
	}{
		{"plain shelf", "5wL^4/384EI, wL^2/8", Beam{Supports: []Support{{At: 0}, {At: 1}}, Loads: Loads{Spread: []Spread{{0, 1, 1}}}}, 5.0 / 384, 0.125},
		{"both ends held", "wL^4/384EI, wL^2/12", Beam{Supports: []Support{{At: 0, Fixed: true}, {At: 1, Fixed: true}}, Loads: Loads{Spread: []Spread{{0, 1, 1}}}}, 1.0 / 384, 1.0 / 12},
		{"one end held", "(39+55 sqrt 33)/65536 wL^4/EI, wL^2/8", Beam{Supports: []Support{{At: 0, Fixed: true}, {At: 1}}, Loads: Loads{Spread: []Spread{{0, 1, 1}}}}, (39 + 55*math.Sqrt(33)) / 65536, 0.125},
		{"cantilever", "wL^4/8EI, wL^2/2", Beam{Supports: []Support{{At: 0, Fixed: true}}, Loads: Loads{Spread: []Spread{{0, 1, 1}}}}, 0.125, 0.5},
		{"cantilever from the right, load at its tip", "PL^3/3EI, PL", Beam{Supports: []Support{{At: 1, Fixed: true}}, Loads: Loads{Points: []Point{{0, 1}}}}, 1.0 / 3, 1},
		{"held in the middle", "wl^4/8EI, wl^2/2 for l = 1/2", Beam{Supports: []Support{{At: .5, Fixed: true}}, Loads: Loads{Spread: []Spread{{0, 1, 1}}}}, 1.0 / 128, 0.125},
		{"both ends held, load in the middle", "PL^3/192EI, PL/8", Beam{Supports: []Support{{At: 0, Fixed: true}, {At: 1, Fixed: true}}, Loads: Loads{Points: []Point{{.5, 1}}}}, 1.0 / 192, 0.125},
		{"load in the middle", "PL^3/48EI, PL/4", Beam{Supports: []Support{{At: 1}, {At: 0}}, Loads: Loads{Points: []Point{{.5, 1}}}}, 1.0 / 48, 0.25},
		{"springs under a plain shelf", "5wL^4/384EI + wL/2k", Beam{Supports: []Support{{At: 0, Stiffness: 4}, {At: 1, Stiffness: 4}}, Loads: Loads{Spread: []Spread{{0, 1, 1}}}}, 5.0/384 + 0.125, 0.125},
		{"spring under the middle of two bays", "by hand: 5/384 = R/48 + R/k and k = 48 give R = 5/16, then R/48 and (11/32)^2/2", Beam{Supports: []Support{{At: 0}, {At: .5, Stiffness: 48}, {At: 1}}, Loads: Loads{Spread: []Spread{{0, 1, 1}}}}, 5.0 / 768, 121.0 / 2048},
		{"overhang, a load at its tip", "Pc^2(L+c)/3EI, Pc", Beam{Supports: []Support{{At: 0}, {At: .75}}, Loads: Loads{Points: []Point{{1, 1}}}}, .0625 / 3, 0.25},
	}
	for _, test := range tests {
		test.beam.Length, test.beam.Pieces = 1, half
		e := solved(t, test.beam).Between(0, 1)
		near(t, test.what+", sag ("+test.source+")", e.Sag.Value, test.sag, 1e-10)
		near(t, test.what+", moment ("+test.source+")", max(e.Sagging.Value, e.Hogging.Value), test.moment, 1e-10)
	}
}

// S. Timoshenko's correction for a rectangle: wL^2/8 over 5/6 G A at midspan, and PL over 4.
func TestShearIsAddedToSag(t *testing.T) {
	b := Beam{Length: 20, Pieces: []Piece{{To: 20, EI: 100, GA: .7}}, Supports: []Support{{At: 0}, {At: 20}},
		Loads: Loads{Spread: []Spread{{0, 20, 0.3}}, Points: []Point{{10, 2}}}}
	want := 5*0.3*160000/(384*100) + 2*8000.0/4800 + 0.3*400/(8*.7) + 2*20/(4*.7)
	near(t, "sag", solved(t, b).Sag(10), want, 1e-12*want)
	shear, err := ShearSag(0.3, 20, .7)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "closed form", shear, 0.3*400/5.6, 1e-12)
}

func TestShearForceAndFixingMoment(t *testing.T) {
	b := Beam{Length: 10, Pieces: []Piece{{To: 10, EI: 1}}, Supports: []Support{{At: 0, Fixed: true}, {At: 8, Fixed: true}},
		Loads: Loads{Spread: []Spread{{0, 8, 3}}, Points: []Point{{10, 5}, {8, 7}, {0, 2}}}}
	r := solved(t, b)
	// by hand: wL/2 = 12 at both ends, plus what stands over the support, plus the overhang
	near(t, "left reaction", r.Reactions[0], 14, 1e-12)
	near(t, "right reaction", r.Reactions[1], 24, 1e-12)
	near(t, "shear right of the left support", r.Shear(0), 12, 1e-12)
	near(t, "shear right of the right support", r.Shear(8), 5, 1e-12)
	near(t, "left fixing moment, wL^2/12", r.Turning[0], -16, 1e-12)
	near(t, "right fixing moment, wL^2/12 - Pc", r.Turning[1], 16-10, 1e-12)
	near(t, "largest shear", r.Between(0, 10).Shear.Value, 12, 1e-12)
	near(t, "tip, PL^3/3EI from a held root", r.Sag(10), 5*8.0/3, 1e-12)
	near(t, "largest moment between", r.Between(3, 5).Sagging.Value, 8, 1e-12)
}

func TestSupportsThatOnlyPushLetGo(t *testing.T) {
	rest := func(b Beam) Beam {
		for i := range b.Supports {
			b.Supports[i].Rests = true
		}
		return b
	}
	// by hand: two bays, one loaded: the far end lifts, the loaded bay is a plain shelf and
	// the rest stands straight on at its end slope wL^3/24
	r := solved(t, rest(run(1, 1).under("10")))
	if !r.Lifted[2] || r.Lifted[0] || r.Lifted[1] {
		t.Fatalf("lifted %v, want the far end alone", r.Lifted)
	}
	near(t, "reaction", r.Reactions[1], 0.5, 1e-12)
	near(t, "reaction of what lifted", r.Reactions[2], 0, 0)
	near(t, "sag", r.Spans()[0].Sag.Value, 5.0/384, 1e-12)
	near(t, "far end stands clear", r.Sag(2), -1.0/24, 1e-12)

	// the middle support of 48, 12, 12, 48 lifts and makes one bay of 24; by hand, symmetric:
	// M(2(48+24) + 24) = -(48^3+24^3)/4 gives M, reactions from statics
	r = solved(t, rest(run(48, 12, 12, 48).under("1111")))
	moment := -(48*48*48 + 24*24*24) / 4.0 / (2*(48+24) + 24)
	near(t, "moment", r.Moment(48), moment, 1e-9)
	near(t, "end", r.Reactions[0], 24+moment/48, 1e-9)
	near(t, "inner", r.Reactions[1], 24-moment/48+12, 1e-9)
	if !r.Lifted[2] {
		t.Error("the middle support holds down although it only pushes")
	}

	tipping := Beam{Length: 10, Pieces: []Piece{{To: 10, EI: 1}}, Supports: []Support{{At: 0, Rests: true}, {At: 4, Rests: true}},
		Loads: Loads{Points: []Point{{9, 1}}}}
	if _, err := tipping.Solve(); err == nil || !strings.Contains(err.Error(), "tips") {
		t.Errorf("a load past two resting supports: error %v, want that it tips", err)
	}
	tipping.Supports[0].Rests = false
	near(t, "held down", solved(t, tipping).Reactions[0], -1.25, 1e-12)
}

// Half the width gone over 2 5/16 in at midspan of 40 in; quadrature of M m / EI.
func TestSlotAddsSag(t *testing.T) {
	tests := []struct{ span, x, slot, b, left, ratio, closed float64 }{
		{40, 20, 2.3125, 11.25, 5.625, 1.134586, 1.13875},
		{36, 9, 1.5625, 12, 6, 1.039093, 1.039062},
		{48, 24, 2.3125, 14, 9, 1.062645, 1.064236},
	}
	for _, test := range tests {
		pieces, err := Slotted(test.span, 1, 0, []Slot{{Centre: test.x, Width: test.slot, EI: test.left / test.b}})
		if err != nil {
			t.Fatal(err)
		}
		b := Beam{Length: test.span, Pieces: pieces, Supports: []Support{{At: 0}, {At: test.span}},
			Loads: Loads{Spread: []Spread{{0, test.span, 1}}}}
		plain, err := EvenSag(1, test.span, 1)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "sag at midspan", solved(t, b).Sag(test.span/2)/plain, test.ratio, 1e-5)
		closed, err := SlotSag(test.span, test.x, test.slot, test.left/test.b)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "closed form", closed, test.closed, 1e-5)
	}
}

func TestSlottedKeepsOrderAndEnds(t *testing.T) {
	pieces, err := Slotted(30, 9, 1, []Slot{{Centre: 20, Width: 2, EI: 4}, {Centre: 0, Width: 2, EI: 5}, {Centre: 22, Width: 2, EI: 3}})
	if err != nil {
		t.Fatal(err)
	}
	want := []Piece{{To: 1, EI: 5}, {To: 19, EI: 9, GA: 1}, {To: 21, EI: 4}, {To: 23, EI: 3}, {To: 30, EI: 9, GA: 1}}
	if len(pieces) != len(want) {
		t.Fatalf("got %v, want %v", pieces, want)
	}
	for i := range want {
		if pieces[i] != want[i] {
			t.Errorf("piece %d is %v, want %v", i, pieces[i], want[i])
		}
	}
	for what, slots := range map[string][]Slot{
		"begins at":       {{Centre: 10, Width: 2, EI: 1}, {Centre: 11, Width: 2, EI: 1}},
		"width above 0":   {{Centre: 10, EI: 1}},
		"place from 0 to": {{Centre: 40, Width: 2, EI: 1}},
	} {
		if _, err := Slotted(30, 1, 0, slots); err == nil || !strings.Contains(err.Error(), what) {
			t.Errorf("%v: error %v, want %q in it", slots, err, what)
		}
	}
}

// Places are sums of sizes, so the last one may come out a hair past the end.
func TestHairPastTheEndIsTheEnd(t *testing.T) {
	const hair = 1e-10
	b := Beam{Length: 10, Pieces: []Piece{{To: 10 - hair, EI: 1}}, Supports: []Support{{At: -hair}, {At: 10 + hair}},
		Loads: Loads{Spread: []Spread{{-hair, 10 + hair, 2}}, Points: []Point{{10 + hair, 3}, {5, 1}, {5 + hair, 1}}}}
	r := solved(t, b)
	near(t, "left", r.Reactions[0], 11, 1e-8)
	near(t, "right", r.Reactions[1], 14, 1e-8)
}

func TestSolveSaysWhatIsWrong(t *testing.T) {
	for want, spoil := range map[string]func(*Beam){
		"beam is 0 long":           func(b *Beam) { b.Length = 0 },
		"beam is NaN long":         func(b *Beam) { b.Length = math.NaN() },
		"stiffness is given to 9":  func(b *Beam) { b.Pieces[1].To = 9 },
		"stiffness is given to 0":  func(b *Beam) { b.Pieces = nil },
		"from left to right":       func(b *Beam) { b.Pieces[0].To = 12 },
		"EI above 0":               func(b *Beam) { b.Pieces[0].EI = 0 },
		"GA 0 or more":             func(b *Beam) { b.Pieces[0].GA = -1 },
		"support at 11":            func(b *Beam) { b.Supports[1].At = 11 },
		"support at 10 with":       func(b *Beam) { b.Supports[1].Stiffness = -1 },
		"two supports at 0":        func(b *Beam) { b.Supports[1].At = 0 },
		"1 supports, none held":    func(b *Beam) { b.Supports = b.Supports[:1] },
		"load of 2 from 3 to 3":    func(b *Beam) { b.Spread[0].To = 3 },
		"load of +Inf from 3":      func(b *Beam) { b.Spread[0].W = math.Inf(1) },
		"load of -Inf from 3":      func(b *Beam) { b.Spread[0].W = math.Inf(-1) },
		"load of 4 at -1":          func(b *Beam) { b.Points[0].At = -1 },
		"place on the beam from 0": func(b *Beam) { b.Points[0].At = math.NaN() },
		"too far apart":            func(b *Beam) { b.Supports = append(b.Supports, Support{At: 5, Stiffness: 1e-320}) },
	} {
		b := Beam{Length: 10, Pieces: []Piece{{To: 4, EI: 1}, {To: 10, EI: 2}}, Supports: []Support{{At: 0}, {At: 10}},
			Loads: Loads{Spread: []Spread{{3, 5, 2}}, Points: []Point{{7, 4}}}}
		spoil(&b)
		if _, err := b.Solve(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want %q in it", err, want)
		}
	}
}

func TestRootsOfPolynomials(t *testing.T) {
	// (x-.2)(x-.5)(x-.5)(x-.9) and (x-.5)^3: a touch is no crossing, a triple root is one
	for _, test := range []struct{ polynomial, want []float64 }{
		{[]float64{.045, -.455, 1.53, -2.1, 1}, []float64{.2, .9}},
		{[]float64{-.125, .75, -1.5, 1}, []float64{.5}},
		{[]float64{-1, 2}, []float64{.5}},
		{[]float64{1, 2}, nil},
		{[]float64{0, 0, 0}, nil},
	} {
		got := roots(test.polynomial, 0, 1)
		for _, want := range test.want {
			found := false
			for _, x := range got {
				found = found || math.Abs(x-want) < 1e-5
			}
			if !found {
				t.Errorf("%v: roots %v, want %v among them", test.polynomial, got, want)
			}
		}
		for _, x := range got {
			if y := evaluate(test.polynomial, x); math.Abs(y) > 1e-12 {
				t.Errorf("%v: %v at the root %v", test.polynomial, y, x)
			}
		}
	}
}

func BenchmarkSolveFiveBaysWithSlots(b *testing.B) {
	beam := run(36, 30, 42, 30, 36)
	var slots []Slot
	for _, s := range beam.Supports[1:5] {
		slots = append(slots, Slot{Centre: s.At, Width: 2.3125, EI: .5})
	}
	var err error
	if beam.Pieces, err = Slotted(beam.Length, 1, 0, slots); err != nil {
		b.Fatal(err)
	}
	b.Run("solve", func(b *testing.B) {
		loaded := beam.under("11111")
		for b.Loop() {
			r, err := loaded.Solve()
			if err != nil {
				b.Fatal(err)
			}
			r.Spans()
		}
	})
	b.Run("worst", func(b *testing.B) {
		bays := beam.Bays(1)
		for b.Loop() {
			if _, err := beam.Worst(bays); err != nil {
				b.Fatal(err)
			}
		}
	})
}
