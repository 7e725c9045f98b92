package chance

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestPlay(t *testing.T) {
	// By hand: each joint has clearance, yet the second binds against the third.
	off := []float64{0, .012, -.010, .020, .004}
	low, high, err := Play(off, make([]float64, 5), []float64{.03, .03, .025, .03, .03})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand", low, .005, 1e-15)
	near(t, "by hand", high, .0025, 1e-15)
	if _, _, err := Play([]float64{0}, nil, nil); err == nil {
		t.Error("a slot without a part feature was taken")
	}
}

func TestBind(t *testing.T) {
	slots := func(clearance, sigma, at []float64) []Slot {
		s := make([]Slot, len(clearance))
		for i := range s {
			s[i] = Slot{Clearance: clearance[i], Sigma: sigma[i%len(sigma)], At: at[i%len(at)]}
		}
		return s
	}
	flat := func(n int, clearance, half float64) []Slot {
		s := make([]Slot, n)
		for i := range s {
			s[i] = Slot{Clearance: clearance, Half: half}
		}
		return s
	}
	one := func(v float64) []float64 { return []float64{v} }
	const integral = "1-D numerical integration by a general engine, checked by sampling 2 million parts or more"
	for _, row := range []struct {
		name   string
		r      Row
		share  float64
		off    float64
		source string
	}{
		{"two slots", Equal(2, .02, .008), .0770998717435, 1e-10, "2*Q(c/(s*sqrt 2)); reference case F05"},
		{"eight slots", Equal(8, .03, .006), .00968253248, 1e-9, "range of 8 normals; reference case F07"},
		{"unequal clearances", Row{Slots: slots([]float64{.03, .03, .025, .03, .03}, one(.006), one(0))}, .00650680, 1e-8, integral},
		{"unequal clearances and errors", Row{Slots: slots([]float64{.03, .02, .03, .025}, []float64{.004, .006, .005, .008}, one(0))}, .0284154, 1e-7, integral},
		{"stretch", Row{Slots: slots([]float64{.03, .03, .03, .03}, one(.005), []float64{0, 24, 48, 72}), Stretch: .0002}, .0170086, 1e-7, integral},
		{"common thickness", Row{Slots: Equal(6, .03, .006).Slots, Thickness: .004}, .0154599, 1e-7, "exact integral over the common part"},
		{"thickness left out", Equal(6, .03, .006), .00545, 5e-6, "as above without the common part, three digits"},
		{"held at a stop", Row{Slots: Equal(8, .03, .006).Slots, Held: true}, .0951416, 1e-7, "1-(1-2*Q(c/(2*s)))^8"},
		{"correlated by half", Equal(8, .03, .006*math.Sqrt(.5)), 1.57902e-5, 1e-10, "range of 8 normals: only s*sqrt(1-rho) counts"},
		{"flat, six", Row{Slots: flat(6, .016, .010)}, .344640, 1e-9, "1-n*r^(n-1)+(n-1)*r^n, six digits exact"},
		{"flat, three", Row{Slots: flat(3, .012, .008)}, .156250, 1e-9, "1-n*r^(n-1)+(n-1)*r^n, six digits exact"},
		{"flat, ten", Row{Slots: flat(10, .018, .010)}, .263901, 5e-7, "1-n*r^(n-1)+(n-1)*r^n"},
		{"chain of two", Row{Slots: Equal(2, .03, .008).Slots, Chain: true}, .000176835, 1e-9, "2*Q(c/s)"},
		{"chain of three", Row{Slots: Equal(3, .03, .008).Slots, Chain: true}, .00815468, 1e-8, integral},
		{"chain of four", Row{Slots: Equal(4, .03, .008).Slots, Chain: true}, .036055040863, 5e-9, "numerical integration, reference case F09"},
		{"one slot", Equal(1, .01, .02), 0, 0, "a part that may slide goes onto one slot"},
		{"no clearance in one", Row{Slots: slots([]float64{.03, -.001}, one(.006), one(0))}, 1, 0, "by hand"},
		{"no spread goes on", Row{Slots: slots([]float64{.03, .03}, one(0), []float64{0, 10}), Stretch: .0029}, 0, 0, "by hand: .029 of stretch in .030"},
		{"no spread binds", Row{Slots: slots([]float64{.03, .03}, one(0), []float64{0, 10}), Stretch: .0031}, 1, 0, "by hand: .031 of stretch in .030"},
		{"held, places from the first slot", Row{Slots: []Slot{{At: 12, Clearance: .05}, {At: 36, Clearance: .05}}, Stretch: .001, Held: true}, 0, 0, "by hand: .024 of stretch in .025"},
		{"thickness cannot make up for it", Row{Slots: Equal(2, -.1, .006).Slots, Thickness: .003}, 1, 0, "by hand: 33 sigma short"},
		{"end wall", Row{Slots: []Slot{{Clearance: .02, Sigma: .01}, {Clearance: .02}}}, .0455003, 1e-7, "by hand: the slot binds beyond .02 either side, 2*Q(2)"},
		{"chain of two, flat", Row{Slots: flat(2, .016, .020), Chain: true}, .2, 1e-12, "by hand: (a-c)/a for a step flat within a"},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := row.r.Bind()
			if err != nil {
				t.Fatal(err)
			}
			near(t, row.source, got, row.share, row.off)
		})
	}
}

func TestBindRefuses(t *testing.T) {
	chain := Row{Slots: []Slot{{Clearance: 1, Half: 1}, {Clearance: 1, Half: 1}, {Clearance: 1, Half: 1}}, Chain: true}
	if _, err := chain.Bind(); !errors.Is(err, ErrSample) {
		t.Errorf("a chain with flat errors: got %v, want ErrSample", err)
	}
	for name, r := range map[string]Row{
		"no slot":              {},
		"sigma below zero":     Equal(2, .01, -1),
		"clearance not finite": Equal(2, math.Inf(1), 1),
		"thickness below zero": {Slots: Equal(2, .01, 1).Slots, Thickness: -1},
	} {
		if _, err := r.Bind(); err == nil {
			t.Errorf("%s: no error from Bind", name)
		}
		if _, _, err := r.Sample(10, 1); err == nil {
			t.Errorf("%s: no error from Sample", name)
		}
		if _, err := r.Widen(.05); err == nil {
			t.Errorf("%s: no error from Widen", name)
		}
	}
	if _, _, err := Equal(2, .01, 1).Sample(0, 1); err == nil {
		t.Error("a sample of no part was taken")
	}
}

// anyRow draws a row of any shape that Bind takes.
func anyRow(t *rapid.T) Row {
	r := Row{
		Held:    rapid.Bool().Draw(t, "held"),
		Chain:   rapid.Bool().Draw(t, "chain"),
		Stretch: rapid.SampledFrom([]float64{0, -.0002, .0003}).Draw(t, "stretch"),
	}
	if rapid.IntRange(0, 3).Draw(t, "thick") == 0 {
		r.Thickness = .003
	}
	for i := range rapid.IntRange(1, 6).Draw(t, "slots") {
		s := Slot{
			At:        12 * float64(i),
			Clearance: rapid.Float64Range(.005, .04).Draw(t, "clearance"),
			Sigma:     rapid.SampledFrom([]float64{0, .002, .006, .01}).Draw(t, "sigma"),
		}
		if !r.Chain {
			s.Half = rapid.SampledFrom([]float64{0, 0, .004, .012}).Draw(t, "half")
		}
		r.Slots = append(r.Slots, s)
	}
	return r
}

func TestSamplingAgrees(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRow(t)
		exact, err := r.Bind()
		if err != nil {
			t.Fatal(err)
		}
		share, off, err := r.Sample(20_000, 7)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(share-exact) > 5*off {
			t.Fatalf("%+v: integrated %g, sampled %g with a standard error of %g", r, exact, share, off)
		}
	})
}

func TestSampleOfChainWithFlatSteps(t *testing.T) {
	// By hand: steps flat within a, three slots, clearance a. Range of (0, x, x+y) within a has
	// the share 3/4 of... each sign pair is one quarter: like signs need |x|+|y| <= a, one half;
	// unlike signs need max(|x|,|y|) <= a, always. So one quarter binds.
	r := Row{Chain: true}
	for range 3 {
		r.Slots = append(r.Slots, Slot{Clearance: .01, Half: .01})
	}
	share, off, err := r.Sample(400_000, 1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand", share, .25, 4*off)
	again, _, _ := r.Sample(400_000, 1)
	near(t, "the same seed", again, share, 0)
	near(t, "binomial standard error, by hand", off, math.Sqrt(.25*.75/400_000), 1e-5)
}

func TestWiderSlotNeverBindsMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRow(t)
		before, err := r.Bind()
		if err != nil {
			t.Fatal(err)
		}
		i := rapid.IntRange(0, len(r.Slots)-1).Draw(t, "which")
		r.Slots[i].Clearance += rapid.Float64Range(0, .01).Draw(t, "wider")
		after, err := r.Bind()
		if err != nil {
			t.Fatal(err)
		}
		if after > before+1e-9 {
			t.Fatalf("slot %d cut wider: binds %g, before %g", i, after, before)
		}
	})
}

func TestInchAndMillimetreAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRow(t)
		inch, err := r.Bind()
		if err != nil {
			t.Fatal(err)
		}
		metric := r
		metric.Thickness *= 25.4
		metric.Slots = nil
		for _, s := range r.Slots {
			metric.Slots = append(metric.Slots, Slot{s.At * 25.4, s.Clearance * 25.4, s.Sigma * 25.4, s.Half * 25.4})
		}
		mm, err := metric.Bind()
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(inch-mm) > 1e-9 {
			t.Fatalf("%+v: %g in inches, %g in millimetres", r, inch, mm)
		}
	})
}

func TestBounds(t *testing.T) {
	for _, row := range []struct {
		name             string
		n                int
		clearance, sigma float64
		chain            bool
		least, most, off float64
		source           string
	}{
		{"independent", 8, .03, .006, false, .001627, .011332, 5e-7, "1-(1-p)^4 and 1-(1-p)^28 with p = 2*Q(c/(s*sqrt 2)) = .000407"},
		{"each slot", 12, .02, .01, false, .6418702369, .9897510678, 1e-9, "1-(1-2*Q(sqrt 2))^6 and 1-(1-2*Q(1))^12"},
		{"chain", 4, .03, .008, true, .030383, .046933, 5e-7, "2*Q(c/(s*sqrt 3)) and the sum of (n-k)*2*Q(c/(s*sqrt k))"},
	} {
		least, most, err := Bounds(row.n, row.clearance, row.sigma, row.chain)
		if err != nil {
			t.Fatal(err)
		}
		near(t, row.name+" least, "+row.source, least, row.least, row.off)
		near(t, row.name+" most, "+row.source, most, row.most, row.off)
	}
	if _, _, err := Bounds(1, .03, .006, false); err == nil {
		t.Error("bounds of one slot were given")
	}
}

func TestBoundsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Equal(rapid.IntRange(2, 9).Draw(t, "n"), rapid.Float64Range(0, .08).Draw(t, "clearance"), rapid.Float64Range(.002, .02).Draw(t, "sigma"))
		r.Chain = rapid.Bool().Draw(t, "chain")
		share, err := r.Bind()
		if err != nil {
			t.Fatal(err)
		}
		least, most, err := Bounds(len(r.Slots), r.Slots[0].Clearance, r.Slots[0].Sigma, r.Chain)
		if err != nil {
			t.Fatal(err)
		}
		if share < least-1e-9 || share > most+1e-9 {
			t.Fatalf("%+v: share %g outside %g to %g", r, share, least, most)
		}
	})
}

func TestEqualFlat(t *testing.T) {
	got, err := EqualFlat(6, .016, .010)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand: 1-6*.8^5+5*.8^6", got, .344640, 1e-12)
	if got, _ = EqualFlat(3, .05, .010); got != 0 {
		t.Errorf("more clearance than the whole range: got %g, want 0", got)
	}
	if _, err := EqualFlat(3, .05, 0); err == nil {
		t.Error("a half range of zero was taken")
	}
}

func TestWiden(t *testing.T) {
	// Studentized range with infinite freedom, n by share .10, .05, .01; published tables.
	for n, q := range map[int][3]float64{
		2:  {2.3262, 2.7718, 3.6428},
		3:  {2.9024, 3.3145, 4.1203},
		5:  {3.4783, 3.8577, 4.6028},
		8:  {3.9313, 4.2863, 4.9872},
		12: {4.2846, 4.6217, 5.2902},
	} {
		for i, share := range []float64{.10, .05, .01} {
			extra, err := Equal(n, 1, 1).Widen(share)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "studentized range", 1+extra, q[i], 5.1e-5)
		}
	}
	extra, err := Equal(8, 0, .006).Widen(.05)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "4.2863 times .006", extra, .0257179, 5e-8)
	if _, err := Equal(8, 0, .006).Widen(0); err == nil {
		t.Error("a share of none was promised")
	}
}

func TestWidenKeepsItsPromise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRow(t)
		if r.Chain || len(r.Slots) > 3 {
			r.Thickness = 0 // right but slow: an integration within each step of the search
		}
		extra, err := r.Widen(.05)
		if err != nil {
			t.Fatal(err)
		}
		for i := range r.Slots {
			r.Slots[i].Clearance += extra
		}
		if share, _ := r.Bind(); share > .05 {
			t.Fatalf("%+v still binds %g", r, share)
		}
	})
}

func BenchmarkBind(b *testing.B) {
	for name, r := range map[string]Row{
		"slides": Equal(8, .03, .006),
		"chain":  {Slots: Equal(8, .03, .006).Slots, Chain: true},
		"common": {Slots: Equal(8, .03, .006).Slots, Thickness: .004},
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := r.Bind(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
