package phrase

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/length"
)

// say prints a lean: of offset/over, with a question mark on a guess.
func sayLean(l check.Lean) string {
	s := l.Of + " " + num(l.Offset)
	if l.Offset.Guessed {
		s += fmt.Sprintf("?%s", short(l.Offset.Nominal))
	}
	if l.Over.Known {
		s += "/" + num(l.Over)
	}
	return s
}

// Signs by hand: away from the opening is plus, down to the right is plus.
func TestLeans(t *testing.T) {
	in, mm := length.Inch, length.Millimetre
	for _, c := range []struct {
		kind LeanKind
		text string
		unit length.Unit
		want string
	}{
		{Plumb, "L 1/4 out at top, R 1/8 in", in, "left 0.25; right -0.125"},
		{Plumb, "Plumb L 3/8 in at top | R 1/8 out", in, "left -0.375; right 0.125"},
		{Plumb, "left 1/4 out at bottom", in, "left -0.25"},
		{Plumb, `R leans in 3/16 over 78`, in, "right -0.1875/78"},
		{Plumb, "L leans left 1/4 in 8'", in, "left 0.25/96"},
		{Plumb, "L leans right 1/4 in 8'", in, "left -0.25/96"},
		{Plumb, "back wall 7/1800 leans in", mm, "back -7/1800"},
		{Plumb, "back wall 6 leans out over 1500", mm, "back 6/1500"},
		{Plumb, "1/4 out", in, " -0.25..0.25?0.25"},
		{Plumb, "L 1/4 out of plumb", in, "left -0.25..0.25?0"},
		{Plumb, "L 1/4", in, "left -0.25..0.25?0"},
		{Plumb, "R 1/8 in", in, "right -0.125..0.125?-0.125"},
		{Plumb, "L 0", in, "left 0"},
		{Plumb, "links 6 nach außen auf 2000, rechts 4 nach innen", mm, "left 6/2000; right -4"},
		{Plumb, "gauche 5 vers l'extérieur sur 2 m", mm, "left 5/2000"},
		{Plumb, "izq 5 hacia dentro en 2400, dcha 3 hacia fuera", mm, "left -5/2400; right 3"},
		{Plumb, "sx 4 in fuori in alto", mm, "left 4"},
		{Plumb, "lewa 6 do środka u góry", mm, "left -6"},
		{Plumb, "links 4 naar buiten over 1800", mm, "left 4/1800"},
		{Level, "floor 3/16 low R in 8'", in, "floor 0.1875/96"},
		{Level, "Level floor 1/4 low L", in, "floor -0.25"},
		{Level, "floor R low 3/8 over 78", in, "floor 0.375/78"},
		{Level, "head 1/8 high R", in, "head -0.125"},
		{Level, "3/16 low", in, "floor -0.1875..0.1875?0"},
		{Level, "floor 1/4 low at front", in, "floor, front to back 0.25"},
		{Level, "Boden rechts 5 tiefer auf 2000", mm, "floor 5/2000"},
		{Square, "L 1/8 in 24", in, "left corner -0.125..0.125?0/24"},
	} {
		l := Leans{Kind: c.kind}
		found, rest := l.Read(c.text, c.unit)
		var say []string
		for _, f := range found {
			say = append(say, sayLean(f))
		}
		got := strings.Join(say, "; ")
		if got != c.want || len(rest) > 0 {
			t.Errorf("%q: %q, rest %q; want %q", c.text, got, rest, c.want)
		}
	}
}

func TestLeansOK(t *testing.T) {
	l := Leans{Kind: Plumb}
	found, rest := l.Read("L O.K., R 1/8 out at top", length.Inch)
	if len(found) != 1 || sayLean(found[0]) != "right 0.125" || len(rest) != 1 || rest[0] != "L O.K." {
		t.Errorf("O.K. is no reading: found %v, rest %q", found, rest)
	}
}

func TestLoads(t *testing.T) {
	for _, c := range []struct{ text, unit, want string }{
		{"A books; B seat 2 persons; W linen", "", "A:books:kind | B:seat:persons 2 | W:linen:kind"},
		{"A books, B seat, 2 persons, C none", "", "A:books:kind | B:seat:persons 2 | C:none:kind"},
		{"25 lb/ft", "", "::length 25 lb/ft"},
		{"20 lb/ft2", "", "::area 20 psf"},
		{"18 psf", "", "::area 18 psf"},
		{"60 kg/m²", "", "::area 60 kg/m2"},
		{"150 N/m", "", "::length 150 N/m"},
		{"1,5 kN/m2", "", "::area 1.5 kPa"},
		{"500 N/m2", "", "::area 0.5 kPa"},
		{"40 lb each", "", "::in all 40 lb"},
		{"30 lbs per lin. ft", "", "::length 30 lb/ft"},
		{"20-25 lb/ft", "", "::length 20..25 lb/ft"},
		{"25", "lb/ft", "::length 25 lb/ft"},
		{"60", "kg/m²", "::area 60 kg/m2"},
		{"seat", "", ":seat:kind"},
		{"2 people", "", "::persons 2"},
		{"Case C: books 30 lb/ft", "", "Case C:books:length 30 lb/ft"},
		{"books on A", "", "A:books:kind"},
		{"SH-4 = 45 lb", "", "SH-4::in all 45 lb"},
		{"A Bücher; B Sitzbank 2 Personen", "", "A:books:kind | B:seat:persons 2"},
		{"étagère livres 40 kg/m", "", "étagère:books:length 40 kg/m"},
		{"K3 książki 35 kg/m", "", "K3:books:length 35 kg/m"},
	} {
		loads, rest := Loads(c.text, c.unit)
		var say []string
		for _, l := range loads {
			s := l.On + ":" + l.Kind + ":" + string(l.Per)
			if l.Amount.Known {
				s += strings.TrimRight(" "+num(l.Amount)+" "+l.Unit, " ")
			}
			say = append(say, s)
		}
		if got := strings.Join(say, " | "); got != c.want || len(rest) > 0 {
			t.Errorf("%q: %q, rest %q; want %q", c.text, got, rest, c.want)
		}
	}
	for _, text := range []string{"to be discussed", "25 kg/ft", "25"} {
		if loads, rest := Loads(text, ""); len(loads) > 0 || len(rest) == 0 {
			t.Errorf("%q: read %v, want it named as unread", text, loads)
		}
	}
}

// 1 lb = 4.4482216152605 N and 1 in = 25.4 mm exactly; standard gravity 9.80665 m/s2 (NIST SP 811).
func TestLoadIn(t *testing.T) {
	for _, c := range []struct {
		text string
		unit length.Unit
		want float64
	}{
		{"24 lb/ft", length.Inch, 2},                 // 24/12
		{"36 psf", length.Inch, 0.25},                // 36/144
		{"25 lb/ft", length.Millimetre, 0.3648476},   // 25*4.4482216/304.8
		{"60 kg/m2", length.Millimetre, 0.000588399}, // 60*9.80665/1e6
		{"150 N/m", length.Millimetre, 0.15},
		{"50 kg", length.Millimetre, 490.3325},
		{"2 persons", length.Inch, 2},
	} {
		loads, _ := Loads(c.text, "")
		if len(loads) != 1 {
			t.Fatalf("%q: %d loads", c.text, len(loads))
		}
		v, err := loads[0].In(c.unit)
		if err != nil || v.Nominal < c.want*(1-1e-6) || v.Nominal > c.want*(1+1e-6) {
			t.Errorf("%q: %v %v, want %v", c.text, v.Nominal, err, c.want)
		}
	}
}
