package read

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/length"
)

func sayLoad(l *check.Load) string {
	s := l.On.Text + ": " + l.Kind.Text + " " + string(l.Per)
	if l.Amount.Known {
		s += " " + num(l.Amount)
	}
	return s
}

// Amounts by hand in lb per inch, psi, lb; or N per mm, MPa, N (1 kg presses with 9.80665 N,
// 1 lb with 4.4482216152605 N, 1 in is 25.4 mm).
func TestLoadTabs(t *testing.T) {
	for _, c := range []struct {
		name, lines string
		want        []string
		unread      string
	}{
		{"a table with the unit in the cell", `
Case | Load | Remark
C | 24 lb/ft | cookbooks
D | 36 psf |
E | 2 persons | seat
F | books |
G | 1.5 tons |
`, []string{"C:  length 2", "D:  area 0.25", "E:  persons 2", "F: books kind"}, "B6 1.5 tons"},
		{"the unit in the head, the kind beside it", `
Shelf | Kind | Load (kg/m²)
R1 | Bücher | 60
R2 | Wäsche | 35.5
R3 | - | -
`, []string{"R1: books area 0.000588", "R2: linen area 0.000348"}, "B4 -"},
		{"one line", `
Loads: A books; B seat 2 persons; W linen
`, []string{"A: books kind", "B: seat persons 2", "W: linen kind"}, ""},
		{"lines of a list", `
LOADS
A books 30 lb/ft
B display
`, []string{"A: books length 2.5", "B: display kind"}, ""},
		{"a place without a load before it, everything, and words of the standards", `
Case | Kind
all | display
Nisch | prydnad
Meuble 2 | exposition
`, []string{": display kind", "Nisch: display kind", "Meuble 2: display kind"}, ""},
		{"Swedish", `
Skåp | Slag
K1 | prydnad
K2 | handdukar
`, []string{"K1: display kind", "K2: linen kind"}, ""},
		{"a word nobody knows: with an amount it is a name, without one a question", `
Case | Kind | Load
Q1 | anvils | 90 lb/ft
Q2 | anvils |
`, []string{"Q1: anvils length 7.5"}, "B3 anvils"},
		{"Polish", `
Półka | Zastosowanie | Obciążenie (kg/m)
P1 | książki | 40
P2 | j.w. | 20
`, []string{"P1: books length 0.392266", "P2: books length 0.196133"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			tab := tabOf(t, c.lines)
			if tab.Kind != "loads" {
				t.Fatalf("kind %q; unread %s", tab.Kind, unreadOf(tab))
			}
			var got []string
			for _, l := range tab.Loads {
				got = append(got, sayLoad(l))
			}
			if g, w := strings.Join(got, "\n"), strings.Join(c.want, "\n"); g != w {
				t.Errorf("got\n%s\nwant\n%s", g, w)
			}
			if got := unreadOf(tab); got != c.unread {
				t.Errorf("unread %q, want %q", got, c.unread)
			}
		})
	}
}

// A load typed in pounds is the same weight in a metric job: 24 lb/ft = 24*4.44822/304.8 N/mm.
func TestLoadInOtherSystem(t *testing.T) {
	tab := tabOf(t, "Case | Load\nC | 24 lb/ft\nD | 2 people")
	job := &check.Job{Unit: length.Millimetre}
	tab.addOthers(job)
	tab.addOthers(job) // once more: nothing is converted twice
	if got := fmt.Sprintf("%.5f %v", job.Loads[0].Amount.Nominal, job.Loads[1].Amount.Nominal); got != "0.35025 2" {
		t.Errorf("in a metric job: %s, want 0.35025 N/mm and 2 persons", got)
	}
}

func sayRun(r *check.Run) string {
	var items []string
	for _, i := range r.Items {
		name := i.Mark
		if i.Plain.Known {
			name = num(i.Plain)
		}
		if i.Count.Nominal != 1 {
			name = num(i.Count) + "x" + name
		}
		items = append(items, name)
	}
	s := r.Case.Text + " " + r.Direction + ": " + strings.Join(items, " + ") + " = " + r.Fits.Text
	if r.Clearance.Known {
		s += " less " + num(r.Clearance)
	}
	return s
}

func TestRunTabs(t *testing.T) {
	for _, c := range []struct {
		name, lines string
		want        []string
		unread      string
	}{
		{"lines", `
RUNS
W: side + shelf + side + scr 5/16 ea = niche
C height: base + 3 x K2 + 7/8 = ceiling less 3/4 clr
`, []string{" width: side + shelf + side + 2x0.3125 = niche", "C height: base + 3xK2 + 0.875 = ceiling less 0.75"}, ""},
		{"a table", `
Direction | Parts in order | Must fit | Clearance
Width | L1 + B2 + L1 | Alcove N | 1/8 ea
H | P1 + 2 x L1 + | opening | 3/16
deep | just the back | niche |
`, []string{" width: L1 + B2 + L1 = Alcove N less 0.25", " height: P1 + 2xL1 = opening less 0.1875"}, "B4 just the back"},
		{"a part in each cell", `
B: | S1 | + | F3 | + | S1 | '= | 1204
`, []string{" width: S1 + F3 + S1 = 1204"}, ""},
		{"German table, metric", `
Richtung | Teile | passt in | Luft
Breite | Seite + Boden + Seite | Nische 4 | 5 je Seite
Höhe | Sockel + Seite | Raumhöhe | 20
`, []string{" width: Seite + Boden + Seite = Nische 4 less 10", " height: Sockel + Seite = Raumhöhe less 20"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			tab := tabOf(t, c.lines)
			if tab.Kind != "runs" {
				t.Fatalf("kind %q; unread %s", tab.Kind, unreadOf(tab))
			}
			var got []string
			for _, r := range tab.Runs {
				got = append(got, sayRun(r))
			}
			if g, w := strings.Join(got, "\n"), strings.Join(c.want, "\n"); g != w {
				t.Errorf("got\n%s\nwant\n%s", g, w)
			}
			if got := unreadOf(tab); got != c.unread {
				t.Errorf("unread %q, want %q", got, c.unread)
			}
		})
	}
}

func sayCarry(c *check.Carry) string {
	var out []string
	for _, s := range c.Stops {
		line := fmt.Sprintf("%s %q %s x %s x %s", s.Kind, s.Name.Text, num(s.Width), num(s.Height), num(s.Length))
		if s.Turn {
			line += " turn"
		}
		out = append(out, line)
	}
	if c.Crew.Known {
		out = append(out, "crew "+num(c.Crew))
	}
	if c.Note.Text != "" {
		out = append(out, "note "+c.Note.Text)
	}
	if len(c.Whole) > 0 {
		out = append(out, "whole "+strings.Join(c.Whole, ","))
	}
	return strings.Join(out, "\n")
}

// Width x height x length, by hand.
func TestCarryTabs(t *testing.T) {
	for _, c := range []struct {
		name, lines, want, unread string
	}{
		{"a line over cells", `
Van 9' bed | Gate 41 | Side dr 33 1/2 x 79 | Hall 40 | Stair 35, turn, head 78 | Den dr 29 x 77 1/2
Crew: 3
case K goes whole
assembled lying, stood up
`, `vehicle "Van" - x - x 108
door "Gate" 41 x - x -
door "Side dr" 33.5 x 79 x -
hall "Hall" 40 x - x -
stair "Stair" 35 x 78 x - turn
door "Den dr" 29 x 77.5 x -
crew 3
note assembled lying, stood up
whole case K`, ""},
		{"a table in millimetres", `
Stop | Clear width | Clear height | Length | Note
Lieferwagen | 1400 | 1800 | 3200 |
Haustür | 950 | 2040 | |
Treppe | 900 | 2000 | | viertelgewendelt
Aufzug | 1100 | 2150 | 1400 |
Gartenzaun | 800 | | |
Crew | 2 | | |
`, `vehicle "Lieferwagen" 1400 x 1800 x 3200
door "Haustür" 950 x 2040 x -
stair "Treppe" 900 x 2000 x - turn
lift "Aufzug" 1100 x 2150 x 1400
crew 2`, "A6 Gartenzaun | 800"},
		{"the crew and how it goes up, and no way", `
Crew | 3
assembled in the opening
`, `crew 3
note assembled in the opening`, ""},
		{"no word that is known over the names", `
Ruta | Bredd | Höjd
Skåpbil | 1700 | 1800
Ytterdörr | 900 | 2050
Rumsdörr | 800 | 2000
`, `vehicle "Skåpbil" 1700 x 1800 x -
door "Ytterdörr" 900 x 2050 x -
door "Rumsdörr" 800 x 2000 x -`, ""},
		{"words and numbers in cells of their own", `
Truck | 12' x 7' x 6'-6"
Hall | 38
Crew | 2
put together in the opening
`, `vehicle "Truck" 84 x 78 x 144
hall "Hall" 38 x - x -
crew 2
note put together in the opening`, ""},
		{"French", `
Camion 3,2 m | Porte d'entrée 830 x 2040 mm | Couloir 1100 | Escalier 850, tournant, hauteur 2000
Équipe : 2
`, `vehicle "Camion" - x - x 3200
door "Porte d'entrée" 830 x 2040 x -
hall "Couloir" 1100 x - x -
stair "Escalier" 850 x 2000 x - turn
crew 2`, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			tab := tabOf(t, c.lines)
			if tab.Kind != "carry" {
				t.Fatalf("kind %q; unread %s", tab.Kind, unreadOf(tab))
			}
			if got := sayCarry(tab.Carry); got != c.want {
				t.Errorf("got\n%s\nwant\n%s", got, c.want)
			}
			if got := unreadOf(tab); got != c.unread {
				t.Errorf("unread %q, want %q", got, c.unread)
			}
		})
	}
}
