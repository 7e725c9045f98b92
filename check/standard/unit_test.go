package standard

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "dryfit/check/steady"
)

// Factors as printed in NIST Special Publication 811 (2008), Appendix B.8.
func TestUnitFactors(t *testing.T) {
	for _, c := range []struct {
		from, to string
		factor   float64
		digits   float64 // relative, half of the last printed figure
	}{
		{"in", "mm", 25.4, 0},
		{"mil", "mm", 0.0254, 0},
		{"mil", "in", 0.001, 0},
		{"ft", "m", 0.3048, 0},
		{"psi", "kPa", 6.894757, 1e-7},
		{"psi", "MPa", 6.894757e-3, 1e-7},
		{"psf", "kPa", 4.788026e-2, 2e-7},
		{"lb/ft3", "kg/m3", 16.01846, 3e-7},
		{"lb/in3", "kg/m3", 2.767990e4, 3e-7},
		{"lb/ft", "N/m", 14.59390, 3e-7},
		{"lb/in", "N/m", 175.1268, 3e-7},
		{"lb", "kg", 0.45359237, 1e-12},
		{"lb", "N", 4.448222, 1e-7},
		{"kg", "N", 9.80665, 0},
		{"kg/m2", "psf", 0.2048161, 3e-7},      // kgf/m2 9.80665 Pa over lbf/ft2 47.88026 Pa
		{"lb/ft3", "N/mm3", 1.570874e-7, 5e-6}, // 16.01846 x 9.80665 / 1e9
		{"in/ft", "mm/m", 1000. / 12, 1e-15},
		{"%", "1", 0.01, 0},
	} {
		got, err := Entry{Low: 1, Nominal: 2, High: 3, Unit: c.from}.In(c.to)
		if err != nil {
			t.Error(err)
			continue
		}
		for i, v := range []float64{got.Low, got.Nominal, got.High} {
			want := float64(i+1) * c.factor
			if math.Abs(v-want) > want*(c.digits+4e-16) {
				t.Errorf("%d %s is %.10g %s, want %.10g", i+1, c.from, v, c.to, want)
			}
		}
		if got.Unit != c.to {
			t.Errorf("unit is %s after converting to %s", got.Unit, c.to)
		}
	}
}

func TestNonsensePairsAreRefused(t *testing.T) {
	for _, c := range [][3]string{
		{"psi", "in", "pressure"}, {"lb", "lb/ft", "force per length"}, {"mil", "1", "ratio"}, {"1/%", "%", "moisture"},
		{"stone", "lb", `"stone"`}, {"lb", "stone", `"stone"`}, {"", "in", `""`},
	} {
		e := Entry{Item: "MDF", Property: "E", Nominal: 5, Unit: c[0]}
		got, err := e.In(c[1])
		if err == nil || !strings.Contains(err.Error(), c[2]) || !strings.Contains(err.Error(), "MDF, E") {
			t.Errorf("%s to %s: %v", c[0], c[1], err)
		}
		if got != e {
			t.Errorf("%s to %s changed the entry to %+v", c[0], c[1], got)
		}
	}
}

func TestConvertingBackGivesTheValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := rapid.SampledFrom(BuiltIn().Entries()).Draw(t, "entry")
		to := rapid.SampledFrom(Units()).Draw(t, "unit")
		there, err := e.In(to)
		a, _ := Measures(e.Unit)
		b, _ := Measures(to)
		if (err == nil) != (a == b) {
			t.Fatalf("%s (%s) to %s (%s): %v", e.Unit, a, to, b, err)
		}
		if err != nil {
			return
		}
		back, err := there.In(e.Unit)
		if err != nil || math.Abs(back.Nominal-e.Nominal) > 1e-12*math.Abs(e.Nominal) || back.Low > back.Nominal || back.Nominal > back.High {
			t.Fatalf("%+v came back as %+v, %v", e, back, err)
		}
	})
}
