package standard

import (
	"math"
	"slices"
	"testing"
)

// Films of one coat, from data sheets: primer 1.5 mil, enamel 1.7, clear 1.0; 0.3 mil is
// sanded off between coats. The sums are by hand.
func TestFinishesAsTyped(t *testing.T) {
	for _, c := range []struct {
		text, kind    string
		film          float64 // nominal, mil
		coats, cheeks float64
		faces         float64
		masked, open  bool
	}{
		{"P1", "paint", 4, 3, .6, 2, false, false},
		{"paint", "paint", 4, 3, .6, 2, false, false},
		{"PTD", "paint", 4, 3, .6, 2, false, false},
		{"CL", "clear", 1.7, 2, .6, 2, false, false},
		{"clear 2", "clear", 2*1.0 - .3, 2, .6, 2, false, false},
		{"CV 3", "clear", 3*1.4 - 2*.3, 3, .6, 2, false, false},
		{"PF", "prefinished", 0, 0, 0, 0, false, false},
		{"none", "none", 0, 0, 0, 0, false, false},
		{"-", "none", 0, 0, 0, 0, false, false},
		{"prime", "prime", 1.5, 1, .6, 2, false, false},
		{"site paint by others, primed only", "prime", 1.5, 1, .6, 2, false, false},
		{"primer 2 + top 2, sprayed, all faces, slots NOT masked", "paint", 2*1.5 + 2*1.7 - 3*.3, 4, .6, 2, false, true},
		{"2 coats of primer, 1 top coat; slots masked", "paint", 2*1.5 + 1.7 - 2*.3, 3, 0, 2, true, false},
		{"primer + 2 topcoats", "paint", 2*1.7 - .3, 2, .6, 2, false, false},
		{"paint, exposed face only", "paint", 4, 3, .6, 1, false, false},
		{"paint edges only", "paint", 4, 3, .6, 0, false, false},
		{"stain & clear", "clear", 1.7, 2, .6, 2, false, false},
		{"lackiert", "paint", 4, 3, .6, 2, false, false},
	} {
		f, ok, _ := BuiltIn().Finish(c.text)
		got := []float64{f.Film.Nominal, f.Coats.Nominal, f.Cheeks.Nominal, f.Faces.Nominal}
		want := []float64{c.film, c.coats, c.cheeks, c.faces}
		same := slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 1e-12 })
		if !ok || f.Kind != c.kind || !same || f.Masked != c.masked || f.Open != c.open || f.Film.Unit != "mil" {
			t.Errorf("%q: %s, film coats cheeks faces %v, masked %v, open %v; want %+v", c.text, f.Kind, got, f.Masked, f.Open, c)
		}
	}
}

func TestUnknownFinish(t *testing.T) {
	for text, want := range map[string][]string{"lacquerd": {"clear"}, "chrome": nil, "": nil} {
		f, ok, near := BuiltIn().Finish(text)
		if ok || f.Kind != "" || !slices.Equal(near, want) {
			t.Errorf("%q: %v %q near %v", text, ok, f.Kind, near)
		}
	}
}

func TestShopFinishCodes(t *testing.T) {
	own := func(item, property string, x float64, unit string) Entry {
		return Entry{Group: "finish", Item: item, Property: property, Low: x, Nominal: x, High: x, Unit: unit,
			Source: "measured on six panels", Known: KnownMeasured, From: "shop standards, finishes!C9"}
	}
	shop := BuiltIn().With([]Entry{own("Q7", "film", 5.2, "mil"), own("Q7", "cheek share", 0.5, "1"), own("W2", "film", 2.2, "mil")}).
		Speaking([]Word{
			{"finish", "W2", "clear 2, slots masked", "shop standards, finishes!A10"},
			{"finish", "S9", "primer 1, top 1", "shop standards, finishes!A11"},
		})
	for _, c := range []struct {
		text, kind          string
		film, coats, cheeks float64
		from                string
	}{
		{"q7", "paint", 5.2, 3, .5, "shop standards, finishes!C9"},
		{"W2", "clear", 2.2, 2, 0, "shop standards, finishes!C9"},
		{"S9", "paint", 1.5 + 1.7 - .3, 2, .6, "shop standards, finishes!A11"},
		{"paint", "paint", 4, 3, .6, "built in"},
	} {
		f, ok, _ := shop.Finish(c.text)
		if !ok || f.Kind != c.kind || math.Abs(f.Film.Nominal-c.film) > 1e-12 || f.Coats.Nominal != c.coats || f.Cheeks.Nominal != c.cheeks || f.From != c.from {
			t.Errorf("%q: %s, film %g, coats %g, cheeks %g, from %q; want %+v", c.text, f.Kind, f.Film.Nominal, f.Coats.Nominal, f.Cheeks.Nominal, f.From, c)
		}
	}
}

// Windows as listed; a clearance typed as a number may be off by 1/64 (house rule).
func TestFits(t *testing.T) {
	paint, _, _ := BuiltIn().Finish("paint")
	clear, _, _ := BuiltIn().Finish("clear")
	for _, c := range []struct {
		text             string
		finish           Finish
		least, aim, most float64
		unit             string
	}{
		{"slip", paint, .010, .025, .045, "in"},
		{"", paint, .010, .025, .045, "in"},
		{"Slip fit", clear, .004, .010, .020, "in"},
		{"slip", Finish{}, .010, .020, .035, "in"},
		{"snug", paint, .004, .008, .015, "in"},
		{"hand", clear, .004, .008, .015, "in"},
		{"loose", paint, .04, .0625, .094, "in"},
		{"+1/32", paint, 1. / 64, 2. / 64, 3. / 64, "in"},
		{"0", paint, 0, 0, 1. / 64, "in"},
		{"1 mm", paint, 1 - 25.4/64, 1, 1 + 25.4/64, "mm"},
		{"0.1 cm", paint, 1 - 25.4/64, 1, 1 + 25.4/64, "mm"},
	} {
		w, ok := BuiltIn().Fit(c.text, c.finish)
		off := math.Abs(w.Least-c.least) + math.Abs(w.Aim-c.aim) + math.Abs(w.Most-c.most)
		if !ok || off > 1e-9 || w.Unit != c.unit {
			t.Errorf("%q under %q: %+v, want %+v", c.text, c.finish.Kind, w, c)
		}
	}
	for _, text := range []string{"as before", "-1/32", "1/32 x 2", "?"} {
		if w, ok := BuiltIn().Fit(text, paint); ok {
			t.Errorf("%q is taken as %+v", text, w)
		}
	}
	shop := BuiltIn().With([]Entry{{Group: "fit", Item: "Grid", Property: "clearance", Low: .02, Nominal: .03, High: .05, Unit: "in", Source: "ours", Known: KnownShop}})
	if w, ok := shop.Fit("grid", paint); !ok || w.Aim != .03 {
		t.Errorf("the shop's grid fit is %+v", w)
	}
}
