package length

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "dryfit/check/steady"
)

func TestConvertIsExact(t *testing.T) {
	for _, c := range []struct {
		value    float64
		from, to Unit
		want     float64
	}{ // 1 in = 25.4 mm and 1 ft = 12 in by definition (international yard, 1959)
		{8, Foot, Inch, 96},
		{1, Inch, Millimetre, 25.4},
		{24, Inch, Millimetre, 609.6},
		{609.6, Millimetre, Inch, 24},
		{1, Foot, Millimetre, 304.8},
		{1.829, Metre, Millimetre, 1829},
		{136, Centimetre, Millimetre, 1360},
		{4, Decimetre, Centimetre, 40},
		{57, Unsaid, Inch, 57},
	} {
		if got := Convert(c.value, c.from, c.to); got != c.want {
			t.Errorf("%v %v is %v %v, want %v", c.value, c.from, got, c.to, c.want)
		}
	}
}

func TestInDoubtsABareNumber(t *testing.T) {
	l, err := Parse("57", Context{})
	if err != nil {
		t.Fatal(err)
	}
	l = l.In(Inch)
	if l.Nominal != 57 || l.Unit != Inch || l.Doubt == "" {
		t.Errorf("57 without unit is %v with doubt %q, want 57 in and a doubt", l, l.Doubt)
	}
	// by hand: 57 mm = 57/25.4 = 2.244094 in
	if len(l.Other) != 1 || math.Abs(l.Other[0].Nominal-2.244094) > 1e-6 || l.Other[0].Unit != Inch {
		t.Errorf("the other reading is %v, want 2.244094 in", l.Other)
	}
	l, _ = Parse("57", Context{})
	// by hand: 57 in = 57*25.4 = 1447.8 mm
	if l = l.In(Millimetre); l.Nominal != 57 || math.Abs(l.Other[0].Nominal-1447.8) > 1e-9 {
		t.Errorf("57 without unit is %v or %v mm, want 57 or 1447.8", l.Nominal, l.Other[0].Nominal)
	}
}

func TestInTakesOtherReadingsAlong(t *testing.T) {
	l, err := Parse("3/4", Context{Unit: Millimetre})
	if err != nil {
		t.Fatal(err)
	}
	l = l.In(Millimetre)
	// by hand: 0.75 * 25.4 = 19.05
	if math.Abs(l.Nominal-19.05) > 1e-9 || len(l.Other) != 1 || l.Other[0].Nominal != .75 {
		t.Errorf("3/4 among mm is %v or %v, want 19.05 or 0.75 mm", l, l.Other)
	}
	wide := l.Widest()
	if wide.Low != .75 || math.Abs(wide.High-19.05) > 1e-9 {
		t.Errorf("its widest range is %v to %v, want 0.75 to 19.05", wide.Low, wide.High)
	}
}

func TestSizeBy(t *testing.T) {
	s, err := ParseSize(`W 600 x H 2000 x D 400`, Context{Unit: Millimetre})
	if err != nil {
		t.Fatal(err)
	}
	if h, ok := s.By('H'); !ok || h.Nominal != 2000 {
		t.Errorf("the height is %v, want 2000 mm", h)
	}
	if _, ok := s.By('T'); ok {
		t.Error("has a thickness nobody typed")
	}
	// by hand: 2000 / 25.4 = 78.740157
	if h, _ := s.In(Inch).By('H'); math.Abs(h.Nominal-78.740157) > 1e-6 {
		t.Errorf("the height is %v in, want 78.740157", h.Nominal)
	}
}

func TestSpansAreTheBytesOfTheSize(t *testing.T) {
	for text, want := range map[string][]string{
		"Shelf 34 1/2 x 11 1/4 x 3/4 ply": {"34 1/2 x 11 1/4 x 3/4"},
		"MDF 16mm 610x930":                {"16mm 610x930"},
		"½\" Böden, 18” × 24” (links)":    {"½\"", "18” × 24”"},
		"4x4 post x 8' PT":                {"4x4", "x 8'"},
	} {
		s, err := ParseSize(text, Context{Unit: Inch})
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, span := range s.Spans {
			got = append(got, text[span.From:span.To])
		}
		if strings.Join(got, "|") != strings.Join(want, "|") {
			t.Errorf("the size in %q is %q, want %q", text, got, want)
		}
	}
}

func TestErrorSpeaksToAShop(t *testing.T) {
	for _, c := range []struct {
		text string
		ctx  Context
		want string
	}{
		{"3/4ish", Context{What: "a thickness"},
			`read "3/4ish", but "ish" is no unit; a thickness wants a length such as 3/4, 0.75 or 19 mm`},
		{`1/2" x`, Context{},
			`read "1/2" x", but a number is missing beside the x; write a length such as 3/4, 0.75 or 19 mm`},
		{"25 lb", Context{Unit: Millimetre},
			`read "25 lb", but it is a weight; write a length such as 19, 2380.5 or 3/4 in`},
	} {
		_, err := Parse(c.text, c.ctx)
		if err == nil || err.Error() != c.want {
			t.Errorf("got  %v\nwant %s", err, c.want)
		}
	}
}

func TestParseList(t *testing.T) {
	for text, want := range map[string][]float64{
		"18, 36-3/4, 55-1/2, 74-1/4": {18, 36.75, 55.5, 74.25},
		"18,36-3/4,55-1/2":           {18, 36.75, 55.5},
		"458; 934":                   {458, 934},
		"458\n934\n":                 {458, 934},
		"16 & 32":                    {16, 32},
		"24":                         {24},
		"1,5":                        {1.5},
	} {
		got, err := ParseList(text, Context{Unit: Inch})
		if err != nil || len(got) != len(want) {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
			continue
		}
		for i, w := range want {
			if got[i].Nominal != w {
				t.Errorf("%q: %v is %v, want %v", text, i, got[i].Nominal, w)
			}
		}
	}
	for text, want := range map[string]Reason{"16, 16, bal.": Absent, "-": Absent, "18, 20 lb": NotLength} {
		_, err := ParseList(text, Context{Unit: Inch})
		var refused *Error
		if !errors.As(err, &refused) || refused.Reason != want {
			t.Errorf("%q: %v, want %v", text, err, want)
		}
	}
}

func TestNothing(t *testing.T) {
	for want, texts := range map[Absence][]string{
		Blank:   {"", " ", "\u00a0", "\u200b", "\t"},
		None:    {"-", "–", "--", "n/a", "N/A", "N.A.", "(none)", "NIL", "w/o", "keine", "sans", "brak", "/"},
		Unknown: {"?", "???", "TBD", "t.b.d.", "O.K.", "ok", "VIF", "V.I.F.", "to suit", "...", "BAL.", "#N/A", "à définir"},
		Something: {"0", "3/4", "12", "shelf", "do", "same as A3", "-5", "n/a 12",
			"\xff"},
	} {
		for _, text := range texts {
			if got := Nothing(text); got != want {
				t.Errorf("%q says %v, want %v", text, got, want)
			}
		}
	}
}

func TestUnitIn(t *testing.T) {
	for want, texts := range map[Unit][]string{
		Millimetre: {"Length (mm)", "all sizes mm", "Finished size [mm]", "mm", "Sizes in millimetres", `0" mm"`, "Wymiary (mm)"},
		Inch:       {"Part (in.)", "Size (in x in)", "inches", `"`, "in", "All sizes in inches", "Breite [Zoll]"},
		Centimetre: {"Długość (cm)", "cm"},
		Foot:       {"Length (ft)", "feet"},
		Metre:      {"Length (m)", "Length\n(m)", "m", "metres"},
		Unsaid:     {"Length", "Qty in case", "Mat'l", "", "in/mm", "L (in) / W (mm)", "In case A", "Price/m2"},
	} {
		for _, text := range texts {
			if got := UnitIn(text); got != want {
				t.Errorf("%q names %v, want %v", text, got, want)
			}
		}
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		value float64
		unit  Unit
		want  string
	}{
		{2.3125, Inch, "2 5/16 in"},
		{95.5, Inch, "95 1/2 in"},
		{.75, Inch, "3/4 in"},
		{12, Inch, "12 in"},
		{0, Inch, "0 in"},
		{-.25, Inch, "-1/4 in"},
		{1.0 - 1./256, Inch, "1 in"},
		{2.301, Inch, "2 19/64 in"}, // 2.301*64 = 147.264, 147/64 = 2 19/64
		{7.5, Foot, "7 1/2 ft"},
		{58.7375, Millimetre, "58.7 mm"},
		{19, Millimetre, "19 mm"},
		{-.04, Millimetre, "0 mm"},
		{1.25, Centimetre, "1.25 cm"},
		{1.8294, Metre, "1.8294 m"},
		{57, Unsaid, "57"},
		{math.NaN(), Inch, "? in"},
	} {
		if got := Format(c.value, c.unit); got != c.want {
			t.Errorf("%v %v prints %q, want %q", c.value, c.unit, got, c.want)
		}
	}
	for inches, want := range map[float64]string{
		90.5: `7'-6 1/2"`, 84: `7'-0"`, .75: `0'-3/4"`, 11.999: `1'-0"`, -13: `-1'-1"`,
	} {
		if got := FeetInches(inches); got != want {
			t.Errorf("%v in prints %q, want %q", inches, got, want)
		}
	}
}

func TestStep(t *testing.T) {
	for _, c := range []struct {
		value, step float64
		side        Direction
		want        float64
	}{
		{2.301, 1. / 32, Up, 2.3125}, // 2.301*32 = 73.6, 74/32
		{2.301, 1. / 32, Down, 2.28125},
		{2.301, 1. / 32, Nearest, 2.3125},
		{2.3125, 1. / 32, Up, 2.3125},
		{2.3125 + 1e-12, 1. / 32, Up, 2.3125}, // dust does not move a cut
		{2.3125 - 1e-12, 1. / 32, Down, 2.3125},
		{49.2, .5, Up, 49.5},
		{49.2, .5, Down, 49},
		{.31, .1, Down, .3},
		{.21, .1, Up, .3},
		{-1.3, .5, Up, -1},
		{-1.3, .5, Down, -1.5},
		{7, 0, Up, 7},
		{7, 3, Up, 9},
	} {
		if got := Step(c.value, c.step, c.side); got != c.want {
			t.Errorf("Step(%v, %v, %v) is %v, want %v", c.value, c.step, c.side, got, c.want)
		}
	}
}

// drawInches draws a length on a rule: whole sixty-fourths.
func drawInches(t *rapid.T) float64 {
	return float64(rapid.IntRange(0, 64*400).Draw(t, "sixty-fourths")) / 64
}

// TestRoundTrip: what is printed is read back as the same length, without doubt.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inches := drawInches(t)
		tenths := float64(rapid.IntRange(0, 60000).Draw(t, "tenths"))
		for _, c := range []struct {
			text string
			ctx  Context
			want float64
			unit Unit
		}{
			{Figure(inches, Inch), Context{Unit: Inch}, inches, Inch},
			{Format(inches, Inch), Context{Unit: Millimetre}, inches, Inch},
			{strings.ReplaceAll(Figure(inches, Inch), " ", "-"), Context{Unit: Inch}, inches, Inch},
			{FeetInches(inches), Context{}, inches, Inch},
			{Figure(tenths/10, Millimetre), Context{Unit: Millimetre}, tenths / 10, Millimetre},
			{Format(tenths/10, Millimetre), Context{Unit: Inch}, tenths / 10, Millimetre},
			{Format(tenths/100, Centimetre), Context{}, tenths / 100, Centimetre},
		} {
			got, err := Parse(c.text, c.ctx)
			if err != nil || got.Unit != c.unit || math.Abs(got.Nominal-c.want) > 1e-9 || got.Low != got.High {
				t.Fatalf("%q reads %v (%v), want %v %v", c.text, got, err, c.want, c.unit)
			}
			if got.Doubt != "" {
				t.Fatalf("%q is doubtful: %s", c.text, got.Doubt)
			}
		}
	})
}

// TestUnitsAgree: the same length in inches and in millimetres is one length.
func TestUnitsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inches := drawInches(t)
		a, errA := Parse(Format(inches, Inch), Context{})
		b, errB := Parse(strconv.FormatFloat(inches*25.4, 'f', -1, 64)+" mm", Context{Decimal: Point})
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		if x, y := a.In(Millimetre).Nominal, b.Nominal; math.Abs(x-y) > 1e-6 {
			t.Fatalf("%v in is %v mm or %v mm", inches, x, y)
		}
		if x, y := a.Nominal, b.In(Inch).Nominal; math.Abs(x-y) > 1e-6 {
			t.Fatalf("%v in is %v in or %v in", inches, x, y)
		}
	})
}

// TestSizeRoundTrip: a printed size is read back inside any description.
func TestSizeRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := []float64{13 + drawInches(t), 13 + drawInches(t), .75}
		by := rapid.SampledFrom([]string{" x ", "x", " X ", " × ", "*"}).Draw(t, "by")
		size := Figure(want[0], Inch) + by + Figure(want[1], Inch) + by + Figure(want[2], Inch)
		s, err := ParseSize("Shelf "+size+" ply", Context{Unit: Inch})
		if err != nil || len(s.Axes) != 3 || s.Doubts() != "" {
			t.Fatalf("%q reads %v (%v, %s)", size, s, err, s.Doubts())
		}
		for i, w := range want {
			if s.Axes[i].Nominal != w {
				t.Fatalf("%q reads %v", size, s)
			}
		}
		if rest := s.Rest("Shelf " + size + " ply"); rest != "Shelf ply" {
			t.Fatalf("%q leaves %q", size, rest)
		}
	})
}

// TestWidestHoldsAllReadings on every text of the table.
func TestWidestHoldsAllReadings(t *testing.T) {
	for _, r := range table(t) {
		if l, err := Parse(r.text, r.ctx); err == nil {
			wide := l.In(Millimetre).Widest()
			for _, o := range append(l.In(Millimetre).Other, l.In(Millimetre)) {
				if o.Low < wide.Low || o.High > wide.High {
					t.Errorf("%q: %v is outside of %v", r.text, o, wide)
				}
			}
		}
	}
}
