package standards

import (
	"math"
	"strings"
	"testing"
)

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		text, unit string
		want       float64
		typed      string
	}{
		{"0.75", "in", 0.75, "in"},
		{"0,75", "in", 0.75, "in"},
		{"3/4", "in", 0.75, "in"},
		{"1-1/8", "in", 1.125, "in"},
		{"1 1/8\"", "in", 1.125, "in"},
		{"6'-8\"", "in", 80, "in"},
		{"19 mm", "in", 19, "mm"},
		{"19mm", "in", 19, "mm"},
		{"3/4 in", "mm", 0.75, "in"},
		{"25 lb/ft", "psf", 25, "lb/ft"},
		{"60 %", "1", 60, "%"},
		{"1.4E6", "psi", 1.4e6, "psi"},
		{" 4.4 mil ", "mil", 4.4, "mil"},
		{"0.1 N/mm2", "psi", 0.1, "N/mm2"},
	} {
		got, typed, err := number(c.text, c.unit)
		if err != nil || math.Abs(got-c.want) > 1e-12*c.want || typed != c.typed {
			t.Errorf("%q in %s: %g %s, %v; want %g %s", c.text, c.unit, got, typed, err, c.want, c.typed)
		}
	}
}

func TestNumberRefuses(t *testing.T) {
	for _, c := range [][3]string{
		{"3/4ish", "in", "length wanted"}, {"thick", "psi", "number wanted, in psi"}, {"NaN", "psi", "number wanted"},
		{"Inf", "in", "wanted"}, {"", "in", "wanted"}, {"3/4", "psi", "number wanted"}, {"1,200", "mm", ""},
	} {
		v, _, err := number(c[0], c[1])
		if c[2] == "" {
			if err != nil || v != 1.2 {
				t.Errorf("%q: %g, %v", c[0], v, err)
			}
			continue
		}
		if err == nil || !strings.Contains(err.Error(), c[2]) {
			t.Errorf("%q in %s: %g, %v; want %q", c[0], c[1], v, err, c[2])
		}
	}
}

func TestUnitOf(t *testing.T) {
	for text, want := range map[string]string{
		"mil": "mil", "MPA": "MPa", "lbs": "lb", "pcf": "lb/ft3", "inches": "in", "percent": "%", " psf ": "psf", "stone": "", "": "",
	} {
		if got, ok := unitOf(text); got != want || ok != (want != "") {
			t.Errorf("%q is %q, %v; want %q", text, got, ok, want)
		}
	}
}

func FuzzCells(f *testing.F) {
	for _, s := range []string{"3/4", "19 mm", "-1", "NaN", "1/0", "6'-8\"", "1e400", "0x1p4", "½", "4-Mar"} {
		f.Add("finish", "paint", "film", "mil", s)
		f.Add("door", "hall", "width", "", s)
		f.Add("material", "our ply", "density", "lb/ft3", s)
	}
	f.Fuzz(func(t *testing.T, kind, item, what, unit, value string) {
		s, ok := ReadRows("shop", "x.xlsx", "ours", [][]string{{"kind", "item", "what", "unit", "value"}, {kind, item, what, unit, value}})
		if !ok {
			t.Fatal("header not known")
		}
		for _, e := range s.Entries {
			if !finite(e.Low) || !finite(e.Nominal) || !finite(e.High) || e.Item == "" || e.Unit == "" {
				t.Errorf("%+v", e)
			}
		}
		if len(s.Entries)+len(s.Problems) > 2 {
			t.Errorf("%d entries and %d problems from one row", len(s.Entries), len(s.Problems))
		}
	})
}
