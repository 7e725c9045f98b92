package standard

import (
	"math"
	"strings"
	"testing"
)

// Ten readings with mean 10 and standard deviation 1, by hand: five at 10-a and five at
// 10+a give s^2 = 10 a^2 / 9, so a = sqrt(0.9).
func tenReadings() []float64 {
	a := math.Sqrt(0.9)
	return []float64{10 - a, 10 + a, 10 - a, 10 + a, 10 - a, 10 + a, 10 - a, 10 + a, 10 - a, 10 + a}
}

// Two-sided tolerance factors for 95 % at 95 % confidence, from memory of the table in
// Natrella, Experimental Statistics (NBS Handbook 91), Table A-6.
func TestToleranceFactor(t *testing.T) {
	for n, want := range map[int]float64{10: 3.379, 15: 2.954, 20: 2.752, 30: 2.549, 50: 2.379} {
		if got := toleranceFactor(n); math.Abs(got-want) > 0.002*want {
			t.Errorf("n %d: %.4f, table %g", n, got, want)
		}
	}
}

// Chi-square quantiles of 9 degrees of freedom, 2.700 and 19.023 in any table.
func TestSpreadInterval(t *testing.T) {
	low, high := spreadInterval(10)
	if math.Abs(low-math.Sqrt(9/19.023)) > 1e-4 || math.Abs(high-math.Sqrt(9/2.700)) > 2e-4 {
		t.Errorf("got %g, %g", low, high)
	}
}

func TestCalibratedFilm(t *testing.T) {
	film, _ := BuiltIn().Find("finish", "paint", "film")
	c, err := Calibrate(film, tenReadings(), "mil", 0.1)
	if err != nil {
		t.Fatal(err)
	}
	reach := toleranceFactor(10) + 0.05
	if math.Abs(c.Nominal-10) > 1e-12 || math.Abs(c.Low-(10-reach)) > 1e-12 || math.Abs(c.High-(10+reach)) > 1e-12 {
		t.Errorf("got %g %g %g", c.Low, c.Nominal, c.High)
	}
	if c.Known != KnownMeasured || c.Guessed() || c.Key() != film.Key() || !strings.Contains(c.Source, "10 readings") {
		t.Errorf("got %+v", c)
	}
}

func TestCalibratedFilmIsNeverBelowZero(t *testing.T) {
	film, _ := BuiltIn().Find("finish", "paint", "film")
	c, err := Calibrate(film, []float64{0, 1, 0, 1, 0, 1, 0, 1, 0, 1}, "mil", 1)
	if err != nil || c.Low != 0 || c.Nominal != 0.5 {
		t.Errorf("%+v, %v", c, err)
	}
}

func TestCalibratedSpread(t *testing.T) {
	slot, _ := BuiltIn().Find("spread", "slot width", "CNC, 2 sigma")
	c, err := Calibrate(slot, tenReadings(), "mil", 0.1)
	low, high := spreadInterval(10)
	if err != nil || math.Abs(c.Nominal-2) > 1e-12 || math.Abs(c.Low-2*low) > 1e-12 || math.Abs(c.High-2*high) > 1e-12 {
		t.Errorf("%+v, %v", c, err)
	}
	pitch, _ := BuiltIn().Find("spread", "slot pitch", "CNC, 1 sigma")
	same := make([]float64, 12)
	c, err = Calibrate(pitch, same, "mil", 1)
	if want := 1 / math.Sqrt(12); err != nil || math.Abs(c.Nominal-want) > 1e-12 {
		t.Errorf("equal readings to 1 mil: %+v, %v; the rounding alone is %g", c, err, want)
	}
}

// More readings with the same scatter never widen the range.
func TestMoreReadingsNarrow(t *testing.T) {
	film, _ := BuiltIn().Find("finish", "paint", "film")
	few, _ := Calibrate(film, tenReadings(), "mil", 0.1)
	many, _ := Calibrate(film, append(append(tenReadings(), tenReadings()...), tenReadings()...), "mil", 0.1)
	if many.High-many.Low >= few.High-few.Low {
		t.Errorf("%g from thirty, %g from ten", many.High-many.Low, few.High-few.Low)
	}
}

func TestCalibrateRefuses(t *testing.T) {
	film, _ := BuiltIn().Find("finish", "paint", "film")
	for name, c := range map[string]struct {
		readings []float64
		unit     string
		step     float64
		want     string
	}{
		"nine":       {tenReadings()[:9], "mil", .1, "9 readings"},
		"no step":    {tenReadings(), "mil", 0, "step above zero"},
		"other kind": {tenReadings(), "psi", .1, "pressure"},
		"infinite":   {append(tenReadings(), math.Inf(1)), "mil", .1, "finite"},
	} {
		got, err := Calibrate(film, c.readings, c.unit, c.step)
		if err == nil || !strings.Contains(err.Error(), c.want) || got != film {
			t.Errorf("%s: %v, %+v", name, err, got)
		}
	}
}
