package phrase

import (
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/length"
)

func TestParseRun(t *testing.T) {
	in, mm := length.Inch, length.Millimetre
	for _, c := range []struct {
		text string
		unit length.Unit
		want string // case/direction: items = fits, clearance
	}{
		{"W: side + shelf + side + scr 5/16 ea = niche", in, "/width: side side? =="},
		{"B height: base + 2 x K4 + 3/4 = ceiling less 1/2", in, "B/height: base*1 K4*2 0.75*1 = ceiling less 0.5"},
		{"Breite: Seite + Boden + Seite + 2 x 5 Luft = Nische", mm, "/width: Seite*1 Boden*1 Seite*1 = Nische less 10"},
		{"width: A1 + 3 shelves + A1 + clr 1/8 ea = 60 1/2", in, "/width: A1*1 shelves*3 A1*1 = 60 1/2 less 0.25"},
		{"H: 101 + 104 + 101 <= 2400", mm, "/height: 101*1 104*1 101*1 = 2400"},
		{"D: back + side + door 22 = 450", mm, "/depth: back*1 side*1 22*1 = 450"},
		{"W: 2 x (K1 + K2 + K1) = wall", in, "/width: K1*1 K2*1 K1*1 K1*1 K2*1 K1*1 = wall"},
		{"F1 + (K1 + K2) x 2 + F1", in, "/: F1*1 K1*1 K2*1 K1*1 K2*1 F1*1 = "},
		{"P1 + P2(3) + P1", in, "/: P1*1 P2*3 P1*1 = "},
		{"Largeur: côté + tablette + côté = niche moins 6 jeu", mm, "/width: côté*1 tablette*1 côté*1 = niche less 6"},
	} {
		r, rest, ok := ParseRun(c.text, c.unit)
		if strings.HasSuffix(c.want, "==") {
			c.want = "/width: side*1 shelf*1 side*1 0.3125*2 = niche"
		}
		var items []string
		for _, i := range r.Items {
			name := i.Mark
			if i.Plain.Known {
				name = num(i.Plain)
			}
			items = append(items, name+"*"+num(i.Count))
		}
		got := r.Case + "/" + r.Direction + ": " + strings.Join(items, " ") + " = " + r.Fits
		if r.Clearance.Known {
			got += " less " + num(r.Clearance)
		}
		if !ok || got != c.want || len(rest) > 0 {
			t.Errorf("%q: %v %q, rest %q; want %q", c.text, ok, got, rest, c.want)
		}
	}
	for _, text := range []string{"side", "W: 94", "no runs yet", "tape +/- 1/16", ""} {
		if r, _, ok := ParseRun(text, in); ok {
			t.Errorf("%q was read as a run %+v", text, r)
		}
	}
}

func stop(s check.Stop) string {
	out := s.Kind + " " + s.Name.Text + " " + num(s.Width) + " " + num(s.Height) + " " + num(s.Length)
	if s.Turn {
		out += " turn"
	}
	return out
}

func TestCarry(t *testing.T) {
	in, mm := length.Inch, length.Millimetre
	for _, c := range []struct {
		text string
		unit length.Unit
		want string
	}{
		{"Van 9' bed | Side dr 34 x 80 | Hall 40 | Stair 34, turn, head 78 | Study dr 28 1/2 x 79",
			in, "vehicle Van - - 108; door Side dr 34 80 -; hall Hall 40 - -; stair Stair 34 78 - turn; door Study dr 28.5 79 -"},
		{"Truck 14' x 7' x 7'", in, "vehicle Truck 84 84 168"},
		{"Lift 1100 x 1400 x 2200; Flur 1250; Haustür 985 x 2100", mm, "lift Lift 1100 2200 1400; hall Flur 1250 - -; door Haustür 985 2100 -"},
		{"Lift 1100 x 2200 x 1400; elevator 48 x 84 x 54", mm, "lift Lift 1100 2200 1400; lift elevator 48 54 84"},
		{"corner 38 x 42", in, "corner corner 38 - 42"},
		{"Front door 79 1/2 x 35 1/2", in, "door Front door 35.5 79.5 -"},
		{"porte 830 x 2040 -> couloir 1100 -> escalier 900, tournant, hauteur 2050", mm, "door porte 830 2040 -; hall couloir 1100 - -; stair escalier 900 2050 - turn"},
		{"drzwi szer. 800 wys. 2000", mm, "door drzwi 800 2000 -"},
		{"Hall 36 wide 84 high, door 30 x 78", in, "hall Hall 36 84 -; door door 30 78 -"},
	} {
		w, rest := Carry(c.text, c.unit)
		var stops []string
		for _, s := range w.Stops {
			stops = append(stops, stop(s))
		}
		if got := strings.Join(stops, "; "); got != c.want || len(rest) > 0 {
			t.Errorf("%q:\n got %q, rest %q\nwant %q", c.text, got, rest, c.want)
		}
	}
}

func TestCarryRest(t *testing.T) {
	w, rest := Carry("Crew: 3 | A goes whole | assembled lying, stood up | dog bites | B and C in one piece", length.Inch)
	if num(w.Crew) != "3" || strings.Join(w.Whole, ",") != "A,B,C" || w.Note != "assembled lying, stood up" || strings.Join(rest, ",") != "dog bites" {
		t.Errorf("crew %s, whole %q, note %q, rest %q", num(w.Crew), w.Whole, w.Note, rest)
	}
	if w, _ := Carry("2 Mann", length.Millimetre); num(w.Crew) != "2" {
		t.Errorf("2 Mann: crew %s", num(w.Crew))
	}
	if w, _ := Carry("put together in the opening", length.Millimetre); w.Note == "" {
		t.Error("how it goes up was not kept")
	}
}

func TestCorners(t *testing.T) {
	for text, want := range map[string]string{
		"LB-RT": "LB-RT", "BL to TR": "LB-RT", "TR-BL": "LB-RT", "RB-LT": "RB-LT", "TL/BR": "RB-LT",
		"bottom left to top right": "LB-RT", "links unten - rechts oben": "LB-RT", "haut gauche / bas droite": "RB-LT",
		"X1": "", "LB-LT": "", "left": "",
	} {
		if got := Corners(Cut(text)); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// FuzzLines holds that no line makes a parser panic, and that what is read is in order.
func FuzzLines(f *testing.F) {
	for _, s := range []string{
		"14, 28-1/2, 43", "16, bal.", "3 @ 12", "L 1/4 out at top, R 1/8 in", "A books; B 2 persons", "25-20 lb/ft",
		"W: side + 2 x K4 = niche less 1/8", "Truck 10' box | dr 30 x 78", "3 screws #8 x 2 in", "SLOTS 1-15/16 x 5 DP", "±", "9/2000", "x x x", "4 EQ", "+ + =", "½/½",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, line string) {
		if len(line) > 400 {
			return
		}
		for _, unit := range []length.Unit{length.Inch, length.Millimetre} {
			var values []check.Value
			var p Positions
			p.Header(line)
			if p.Read(line, unit) == nil {
				values = append(values, p.At...)
				values = append(values, p.Bays...)
			}
			for _, kind := range []LeanKind{Plumb, Level, Square} {
				found, _ := (&Leans{Kind: kind}).Read(line, unit)
				for _, l := range found {
					values = append(values, l.Offset, l.Over)
				}
			}
			loads, _ := Loads(line, "lb/ft")
			for _, l := range loads {
				v, err := l.In(unit)
				if err != nil {
					t.Fatalf("%q: load %+v: %v", line, l, err)
				}
				values = append(values, v)
			}
			if r, _, ok := ParseRun(line, unit); ok {
				for _, i := range r.Items {
					values = append(values, i.Count, i.Plain)
				}
				values = append(values, r.Clearance)
			}
			w, _ := Carry(line, unit)
			for _, s := range w.Stops {
				values = append(values, s.Width, s.Height, s.Length)
			}
			if s, ok := Screws(line, unit); ok {
				values = append(values, s.Count, s.Length)
			}
			if r, ok := Slots(line, unit); ok {
				values = append(values, r.Width, r.Over, r.Depth)
			}
			JointKind(line)
			Corners(Cut(line))
			for _, v := range values {
				if !(v.Low <= v.Nominal && v.Nominal <= v.High) {
					t.Fatalf("%q: a value runs from %v over %v to %v", line, v.Low, v.Nominal, v.High)
				}
			}
		}
	})
}
