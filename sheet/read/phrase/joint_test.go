package phrase

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/length"
)

// list3 prints values: known ones as numbers, a missing one as a dash, a range as low..high.
func list3(values []check.Value) string {
	var out []string
	for _, v := range values {
		out = append(out, num(v))
	}
	return strings.Join(out, " ")
}

func num(v check.Value) string {
	switch {
	case !v.Known:
		return "-"
	case v.High-v.Low > 1e-9:
		return fmt.Sprintf("%s..%s", short(v.Low), short(v.High))
	}
	return short(v.Nominal)
}

func short(x float64) string { return fmt.Sprint(math.Round(x*1e6) / 1e6) }

func TestPositions(t *testing.T) {
	in, mm := length.Inch, length.Millimetre
	for _, c := range []struct {
		header, cell string
		unit         length.Unit
		want         string
	}{
		{"Ctrs", "14, 28-1/2, 43", in, "centre: 14 28.5 43"},
		{"c/l up from bottom", "412", mm, "centre bottom: 412"},
		{"From btm to top of shelf", "16 3/4; 33 1/2", in, "far bottom: 16.75 33.5"},
		{"Positions", "16, 16, 16, bal.", in, "bays: 16 16 16 -"},
		{"Clear bays from floor", "13 1/2, 13 1/2, 13 1/2", in, "bays bottom: 13.5 13.5 13.5"},
		{"Positions", "EQ", in, "bays: -"},
		{"Positions", "4 EQ", in, "bays: - - - -"},
		{"Positions", "12, EQ, EQ", in, "bays: 12 - -"},
		{"Pos", "c/l 18, 36 from L", in, "centre left: 18 36"},
		{"Pos", "6, then 3 @ 12 1/2", in, ": 6 18.5 31 43.5"},
		{"Pos", "10, +12, +12", in, ": 10 22 34"},
		{"Achsmaße von unten", "412; 824,5", mm, "centre bottom: 412 824.5"},
		{"Achsmaße von unten", "412, 824, 1236", mm, "centre bottom: 412 824 1236"},
		{"Pos", "18,36,54", in, ": 18 36 54"},
		{"Lichte Maße ab UK", "300; 300; Rest", mm, "bays bottom: 300 300 -"},
		{"Entraxes depuis le bas (mm)", "380 / 760", mm, "centre bottom: 380 760"},
		{"OK Boden von unten", "431", mm, "far bottom: 431"},
		{"lower edge, from floor", "20\n40", in, "edges bottom: 20 40"},
		{"Osie od dołu", "400; 800", mm, "centre bottom: 400 800"},
		{"hart op hart vanaf links", "450", mm, "centre left: 450"},
	} {
		var p Positions
		p.Header(c.header)
		if err := p.Read(c.cell, c.unit); err != nil {
			t.Errorf("%s | %s: %v", c.header, c.cell, err)
			continue
		}
		var say []string
		for word, on := range map[string]bool{"centre": p.Centres, "far": p.Far, "edges": p.Edges} {
			if on {
				say = append(say, word)
			}
		}
		if p.Bays != nil {
			say = append(say, "bays")
		}
		if p.From != "" {
			say = append(say, p.From)
		}
		got := strings.Join(say, " ") + ": " + list3(append(p.At, p.Bays...))
		if got != c.want {
			t.Errorf("%s | %s: %q, want %q", c.header, c.cell, got, c.want)
		}
	}
}

func TestPositionsRefused(t *testing.T) {
	for _, c := range []struct{ cell, why string }{
		{"16 o.c.", "spacing"},
		{"4 @ 16", "first position"},
		{"see dwg", "position"},
		{"18, about where the old one was", "position"},
	} {
		var p Positions
		if err := p.Read(c.cell, length.Inch); err == nil || !strings.Contains(err.Error(), c.why) {
			t.Errorf("%q: error %v, want one about %q", c.cell, err, c.why)
		}
	}
}

// The words for joints are those of the trade glossary of the project: a lap cuts both
// members, a housing is a dado, a rebate a rabbet (common practice).
func TestJointKind(t *testing.T) {
	for text, want := range map[string]check.JointKind{
		"part lap": check.CrossLap, "X-lap / egg-crate": check.CrossLap, "Half lap": check.CrossLap, "halving": check.CrossLap,
		"Kreuzüberblattung": check.CrossLap, "mi-bois": check.CrossLap, "a media madera": check.CrossLap, "a mezzo legno": check.CrossLap,
		"na zakład": check.CrossLap, "halfhout": check.CrossLap, "halvt-i-halvt": check.CrossLap,
		"notched lap": check.NotchedLap, "dado": check.Dado, "stopped housing": check.Dado, "Quernut": check.Dado,
		"plough": check.Groove, "Nut": check.Groove, "rainure": check.Groove, "rebate": check.Rabbet, "Falz": check.Rabbet, "feuillure": check.Rabbet,
		"cleat": check.CleatJoint, "Tragleiste": check.CleatJoint, "tasseau": check.CleatJoint, "butt, screwed": check.Butt, "Dübel": check.Butt,
		"notch": check.Notch, "Schlitz": check.Notch, "miter": check.Mitre, "Gehrung": check.Mitre,
	} {
		if got, ok := JointKind(text); !ok || got != want {
			t.Errorf("%q: %q %v, want %q", text, got, ok, want)
		}
	}
	if got, ok := JointKind("by hand"); ok {
		t.Errorf(`"by hand" was read as %q`, got)
	}
}

func TestScrews(t *testing.T) {
	in, mm := length.Inch, length.Millimetre
	for _, c := range []struct {
		text string
		unit length.Unit
		want string
	}{
		{"3 screws #8 x 2 in", in, "3 #8 2"},
		{"#10 x 1 1/2", in, "- #10 1.5"},
		{"(4) No. 6 x 1-1/4", in, "4 #6 1.25"},
		{"2 Schrauben 4,5 x 50", mm, "2 4.5 50"},
		{"4x Spax 5 x 60 mm", in, "4 5 2.362205"}, // 60/25.4
		{"2 vis 4 x 35", mm, "2 4 35"},
		{"3 screws #8 x 2", mm, "3 #8 2"},
	} {
		s, ok := Screws(c.text, c.unit)
		if !ok {
			t.Errorf("%q: no screws", c.text)
			continue
		}
		want := strings.Fields(c.want)
		if got := num(s.Count) + " " + s.Gauge; got != want[0]+" "+want[1] || !strings.HasPrefix(num(s.Length), want[2]) {
			t.Errorf("%q: %s %s, want %s", c.text, got, num(s.Length), c.want)
		}
	}
	for _, text := range []string{"glue", "pins", "2 dowels 8 x 40", "3/4 x 1 1/2 poplar"} {
		if s, ok := Screws(text, in); ok {
			t.Errorf("%q was read as screws %+v", text, s)
		}
	}
}

func TestSlots(t *testing.T) {
	in, mm := length.Inch, length.Millimetre
	for _, c := range []struct {
		text string
		unit length.Unit
		want string // of width over depth half all; "no"
	}{
		{"ALL SHELF SLOTS 1-13/16 x 4-7/8 DP, HALF FRONT / HALF BACK, U.N.O.", in, "shelf 1.8125 - 4.875 half all"},
		{"slots 1-15/16", in, "1.9375 - -"},
		{"slots +1/16", in, "- 0.0625 -"},
		{"slots = thk + 1/32", in, "- 0.03125 -"},
		{"slot 1 9/16 wide, 5 deep", in, "1.5625 - 5"},
		{"slots 5 1/4 deep", in, "5.25x"},
		{"Schlitze 49,2 breit, 150 tief", mm, "49.2 - 150"},
		{"Alle Schlitze 32,5 mm", mm, "32.5 - - all"},
		{"encoches 26,5 x 140 prof.", mm, "26.5 - 140"},
		{"uprights: notch 31 mm", mm, "upright 31 - -"},
		{"2 slots", in, "no"},
		{"slots 4", in, "no"},
		{"slots by CNC", in, "no"},
		{"see slot detail 3", in, "no"},
		{"slots @ 18, 36", in, "no"},
		{"scribe R +3/4", in, "no"},
		{"Nut für Rückwand", mm, "no"},
	} {
		r, ok := Slots(c.text, c.unit)
		got := strings.Join(strings.Fields(r.Of+" "+num(r.Width)+" "+num(r.Over)+" "+num(r.Depth)), " ")
		if r.Half {
			got += " half"
		}
		if r.All {
			got += " all"
		}
		want := c.want
		if want == "5.25x" {
			want = "- - 5.25"
		}
		if !ok {
			got = "no"
		}
		if got != want {
			t.Errorf("%q: %q, want %q", c.text, got, want)
		}
	}
}

func TestDitto(t *testing.T) {
	for _, s := range []string{"do", "Do.", "ditto", `"`, "”", "''", `-"-`, "dto.", "id.", "wie oben", "idem", "same", "j.w.", "als boven"} {
		if !Ditto(s) {
			t.Errorf("%q repeats the cell above", s)
		}
	}
	for _, s := range []string{"", "door", "-", "14"} {
		if Ditto(s) {
			t.Errorf("%q repeats nothing", s)
		}
	}
}
