package chance

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "dryfit/check/steady"
)

func TestBelow(t *testing.T) {
	for _, row := range []struct {
		name   string
		c      Clearance
		x      float64
		share  float64
		off    float64
		source string
	}{
		{"normal", Clearance{Mean: .010, Sigma: .006}, 0, .0477904, 1e-7, "normal tail at z 5/3"},
		{"normal and flat", Clearance{.010, .004, []float64{.005}}, 0, .020226334977, 1e-11, "numerical integration, reference case F01"},
		{"normal and flat, mostly binds", Clearance{-.002, .004, []float64{.004}}, 0, .665755118181, 1e-11, "numerical integration, reference case F03"},
		{"flat", Clearance{.003, 0, []float64{.005}}, 0, .2, 1e-15, "(a-m)/(2a)"},
		{"flat, out of reach", Clearance{.006, 0, []float64{.005}}, 0, 0, 0, "by hand"},
		{"two flat", Clearance{.004, 0, []float64{.005, .005}}, 0, .18, 1e-15, "(2a-m)^2/(8a^2)"},
		{"two flat, unequal", Clearance{0, 0, []float64{3, 1}}, 1, .5 + 1./6, 1e-15, "by hand: the trapezium is 1/6 high within 2 of its middle"},
		{"three flat", Clearance{0, 0, []float64{.5, .5, .5}}, -1, 1. / 48, 1e-9, "by hand: (x+1.5)^3/6 in the first piece, at x -1"},
		{"three flat, middle", Clearance{1, 0, []float64{.5, .5, .5}}, 1, .5, 1e-9, "symmetry"},
		{"four flat", Clearance{0, 0, []float64{.5, .5, .5, .5}}, -1, 1. / 24, 1e-9, "by hand: (x+2)^4/24 in the first piece, at x -1"},
		{"no spread", Clearance{Mean: .001}, 0, 0, 0, "by hand"},
		{"no spread, binds", Clearance{Mean: -.001}, 0, 1, 0, "by hand"},
		{"no clearance is no bind", Clearance{}, 0, 0, 0, "clearance below zero binds"},
		{"flat part as small as dust", Clearance{.010, .006, []float64{1e-12}}, 0, .0477904, 1e-7, "as the normal alone"},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := row.c.Below(row.x)
			if err != nil {
				t.Fatal(err)
			}
			near(t, row.source, got, row.share, row.off)
		})
	}
}

// The inversion and the closed forms must meet where both apply.
func TestInversionMeetsClosedForms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Clearance{
			Mean:  rapid.Float64Range(-.03, .03).Draw(t, "mean"),
			Sigma: rapid.Float64Range(.001, .01).Draw(t, "sigma"),
			Flat:  []float64{rapid.Float64Range(.0001, .02).Draw(t, "half")},
		}
		closed, err := c.Below(0)
		if err != nil {
			t.Fatal(err)
		}
		inverted, err := c.invert(c.Mean)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(closed-inverted) > 1e-9 {
			t.Fatalf("%+v: closed %g, inverted %g", c, closed, inverted)
		}
	})
}

func TestOutside(t *testing.T) {
	c := Clearance{Mean: .02, Sigma: .005}
	tight, loose, err := c.Outside(.01, .035)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "normal table at z 2", tight, .0227501, 5e-8)
	near(t, "normal table at z 3", loose, .0013499, 5e-8)
	if _, _, err := c.Outside(.035, .01); err == nil {
		t.Error("a window turned round was taken")
	}
}

func TestSumKeepsWeights(t *testing.T) {
	// By hand: 4 films of sigma .001 on one spraying move by .004; with a slot of .003 that is .005.
	c, err := Sum(.02, Contributor{Weight: -4, Sigma: .001}, Contributor{Weight: 1, Sigma: .003}, Contributor{Weight: -2, Half: .002})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand", c.Sigma, .005, 1e-15)
	if len(c.Flat) != 1 {
		t.Fatalf("got flat parts %v, want one", c.Flat)
	}
	near(t, "by hand", c.Flat[0], .004, 1e-15)
}

func TestStack(t *testing.T) {
	// Worked example of a tolerance stack text, from memory: blocks 2.000+-.005, 1.500+-.003
	// and .500+-.002 in a channel 4.020+-.005: gap .020+-.015, or +-.0079 root-sum-square.
	terms := []Term{{-1, .005}, {-1, .003}, {-1, .002}, {1, .005}}
	worst, err := WorstCase(terms)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "tolerance stack text", worst, .015, 1e-15)
	square, err := RootSumSquare(terms)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "tolerance stack text", square, .00793725, 5e-9)

	// By hand: 3 plies of one pallet move together, .015; 4 films of one spraying .008; slot .002.
	worst, err = WorstCase([]Term{{-3, .005}, {-4, .002}, {1, .002}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by hand", worst, .025, 1e-15)
}

func TestOfSet(t *testing.T) {
	got, err := OfSet(.0097, 12)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "1-(1-p)^N", got, .110387, 5e-7)
}

func TestSpreadsThatCannotBe(t *testing.T) {
	for name, fails := range map[string]func() error{
		"sigma below zero":   func() error { _, err := Clearance{Sigma: -1}.Below(0); return err },
		"half of zero":       func() error { _, err := Clearance{Flat: []float64{0}}.Below(0); return err },
		"mean not a number":  func() error { _, err := Clearance{Mean: math.NaN()}.Below(0); return err },
		"contributor":        func() error { _, err := Sum(0, Contributor{Weight: 1, Half: -1}); return err },
		"contributor turned": func() error { _, err := Sum(0, Contributor{Weight: -1, Sigma: -1}); return err },
		"range below zero":   func() error { _, err := WorstCase([]Term{{1, -1}}); return err },
		"weight infinite":    func() error { _, err := RootSumSquare([]Term{{math.Inf(1), 1}}); return err },
		"share over one":     func() error { _, err := OfSet(1.1, 2); return err },
		"dust beside a flat one": func() error {
			_, err := Clearance{Flat: []float64{1, 1e-9, 1e-9}}.Below(.5)
			return err
		},
	} {
		if fails() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
