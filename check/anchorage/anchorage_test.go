package anchorage

import (
	"math"
	"slices"
	"testing"

	"dryfit/check/beam"

	"pgregory.net/rapid"

	_ "dryfit/check/steady"
)

func TestTension(t *testing.T) {
	for _, row := range []struct {
		name          string
		weights       []Weight
		pulls         []Pull
		fixing        float64
		tension, tips float64
		source        string
	}{
		{"light and shallow", []Weight{Evenly(120, 12)}, []Pull{{50, 48}}, 80, 21, 15, "reference case A01: (2400-720)/80, 720/48"},
		{"heavy and deep", []Weight{Evenly(300, 24)}, []Pull{{50, 48}}, 80, 0, 75, "reference case A03"},
		{"open drawer", []Weight{Evenly(100, 16), {30, -10}}, []Pull{{20, 48}}, 72, 460. / 72, 500. / 48, "by hand: 960-800+300"},
		{"falls by itself", []Weight{{50, 4}, {40, -10}}, []Pull{{0, 48}}, 50, 4, 0, "by hand: 400-200 over 50"},
		{"nobody pulls", []Weight{Evenly(120, 12)}, nil, 80, 0, 15, "by hand"},
	} {
		t.Run(row.name, func(t *testing.T) {
			tension, err := Tension(row.weights, row.pulls, row.fixing)
			if err != nil {
				t.Fatal(err)
			}
			near(t, row.source, tension, row.tension, 1e-12)
			tips, err := TippingPull(row.weights, 48)
			if err != nil {
				t.Fatal(err)
			}
			near(t, row.source, tips, row.tips, 1e-12)
		})
	}
}

func even(bays []float64, w float64) beam.Loads {
	end := 0.0
	for _, b := range bays {
		end += b
	}
	return beam.Loads{Spread: []beam.Spread{{To: end, W: w}}}
}

func TestFeet(t *testing.T) {
	for _, row := range []struct {
		name    string
		bays    []float64
		shelves []float64
		feet    []float64
		source  string
	}{
		{"three shelves on four uprights", []float64{30, 36, 30}, []float64{3, 4, 5}, []float64{136.157142857, 439.842857143, 439.842857143, 136.157142857}, "stiffness method, reference case A05"},
		{"two equal bays", []float64{36, 36}, []float64{4}, []float64{54, 180, 54}, "handbook: 3/8, 10/8, 3/8 of w*L"},
		{"one bay", []float64{40}, []float64{5, 5}, []float64{200, 200}, "by hand"},
	} {
		t.Run(row.name, func(t *testing.T) {
			var shelves []beam.Loads
			for _, w := range row.shelves {
				shelves = append(shelves, even(row.bays, w))
			}
			got, err := Feet(row.bays, shelves)
			if err != nil {
				t.Fatal(err)
			}
			if len(got) != len(row.feet) {
				t.Fatalf("got %v, want %v", got, row.feet)
			}
			for i, want := range row.feet {
				near(t, row.source, got[i], want, 1e-8)
			}
		})
	}
}

func TestFeetCarryEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bays := rapid.SliceOfN(rapid.Float64Range(8, 60), 1, 6).Draw(t, "bays")
		w := rapid.Float64Range(0, 8).Draw(t, "w")
		feet, err := Feet(bays, []beam.Loads{even(bays, w)})
		if err != nil {
			t.Fatal(err)
		}
		sum, length := 0.0, 0.0
		for _, f := range feet {
			sum += f
		}
		for _, b := range bays {
			length += b
		}
		if math.Abs(sum-w*length) > 1e-8*(1+w*length) {
			t.Fatalf("%v carry %g of %g", feet, sum, w*length)
		}
		slices.Reverse(bays)
		mirrored, err := Feet(bays, []beam.Loads{even(bays, w)})
		if err != nil {
			t.Fatal(err)
		}
		for i, f := range feet {
			if math.Abs(f-mirrored[len(feet)-1-i]) > 1e-7*(1+w*length) {
				t.Fatalf("feet %v, mirrored %v", feet, mirrored)
			}
		}
	})
}

func TestOutsideTheRange(t *testing.T) {
	one := []Weight{{1, 1}}
	for name, err := range map[string]error{
		"fixing on the floor": second(Tension(one, nil, 0)),
		"pull below zero":     second(Tension(one, []Pull{{-1, 1}}, 1)),
		"pull below the edge": second(Tension(one, []Pull{{1, -1}}, 1)),
		"weight below zero":   second(Tension([]Weight{{-1, 1}}, nil, 1)),
		"arm no number":       second(TippingPull([]Weight{{1, math.NaN()}}, 1)),
		"pull at the edge":    second(TippingPull(one, 0)),
		"no bay":              second(Feet(nil, []beam.Loads{{}})),
		"bay of nothing":      second(Feet([]float64{30, 0}, []beam.Loads{{}})),
		"load off the shelf":  second(Feet([]float64{30}, []beam.Loads{even([]float64{31}, 1)})),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func second[T any](_ T, err error) error { return err }

func near(t *testing.T, what string, got, want, off float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > off {
		t.Errorf("%s: got %.12g, want %.12g within %.3g", what, got, want, off)
	}
}
