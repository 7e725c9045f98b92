package chance

import (
	"math"
	"testing"

	"dryfit/check/formula"

	"gonum.org/v1/gonum/stat/distuv"
)

func TestTail(t *testing.T) {
	for _, row := range []struct {
		z, share, off float64
		source        string
	}{
		{0, .5, 0, "half of a symmetric error"},
		{1, .1586553, 5e-8, "table of the normal distribution, 7 digits"},
		{2, .0227501, 5e-8, "table of the normal distribution, 7 digits"},
		{3, .0013499, 1e-7, "table of the normal distribution, 7 digits"},
		{-1, .8413447, 5e-8, "table of the normal distribution, 7 digits"},
	} {
		near(t, row.source, Tail(row.z), row.share, row.off)
		near(t, row.source, TailLive(row.z), row.share, row.off+7.5e-8)
	}
}

func TestLiveTailKeepsItsError(t *testing.T) {
	for z := -8.0; z <= 8; z += .001 {
		exact := distuv.UnitNormal.Survival(z)
		near(t, "statistics library", Tail(z), exact, 1e-15)
		near(t, "statistics library", TailLive(z), exact, 7.5e-8)
	}
	near(t, "z beyond 8 counts as 8", TailLive(50), TailLive(8), 0)
}

// The two formulas, worked as a spreadsheet does, give the same tail.
func TestLiveTextIsTheTail(t *testing.T) {
	work := func(text string, cells map[string]float64) float64 {
		f, err := formula.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		var at []float64
		for _, name := range f.Symbols() {
			at = append(at, cells[name])
		}
		p, err := f.Bind(f.Symbols())
		if err != nil {
			t.Fatal(err)
		}
		got, err := p.Eval(at)
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	for z := 0.0; z <= 8; z += .25 {
		cells := map[string]float64{"z": z}
		cells["t"] = work(LiveT, cells)
		near(t, "the same tail in Go", work(LiveTail, cells), TailLive(z), 1e-15)
	}
}

func near(t *testing.T, what string, got, want, off float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > off {
		t.Errorf("%s: got %.12g, want %.12g within %.3g", what, got, want, off)
	}
}
