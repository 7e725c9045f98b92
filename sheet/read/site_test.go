package read

import (
	"slices"
	"strings"
	"testing"

	"dryfit/check/length"
)

// Fixtures of our own; what each says was worked out by hand. Away from the opening is plus,
// down to the right is plus.
func TestSiteTabs(t *testing.T) {
	for _, c := range []struct {
		name, lines string
		unit        length.Unit
		want        []string
		unread      string
	}{
		{"the boxed form", `
SITE MEASURE - Job 52 Garden room
ALCOVE B  by: K.  date 9/14 | | PLASTERED Y | FLOOR IN N (+5/8 cork)
W top 61 3/8 | mid 61 1/4 | floor 61 5/16
H left 88 1/2 | mid 88 3/8 | right 88 7/16
D left 16 1/4 | right 16 1/8
Diag LB-RT 107 1/2 | RB-LT 107 3/8
Plumb L 3/16 out at top, R 1/4 in | Level floor 1/8 low L in 6'
Ceiling 101 1/2 | Base 4 1/4 x 1/2 | Crown none
Outlet 15 AFF, 20 from L | Reg. floor 4x10, 12 from R
`, length.Inch, []string{
			"ALCOVE B; W floor=61.3125 middle=61.25 top=61.375; H left=88.5 middle=88.375 right=88.4375; D left=16.25 right=16.125; " +
				"X LB-RT=107.5 RB-LT=107.375; left 0.1875; right -0.25; floor -0.125/72; ceiling 101.5; base 4.25; x 0.5; crown 0; " +
				"to come floor 0.625; done walls; outlet 20,15; vent 12,- from right 10x4 on floor; by K. 9/14",
		}, ""},
		{"words and numbers in cells of their own", `
Opening: | Den recess | | by | Ona | date | {date}2026-05-08
Width | top | 47 1/8 | middle | 47 | bottom | 46 15/16
Height | left | 84 | right | 84 1/8
Depth | 14
Plumb | L | 1/8 in at top | R | O.K.
Ceiling | 96 1/4
`, length.Inch, []string{
			"Den recess; W floor=46.9375 middle=47 top=47.125; H left=84 right=84.125; D =14; left -0.125; ceiling 96.25; by Ona 8-May",
		}, "E5 O.K."},
		{"a German list, the dimension beside the point is the reading", `
Ort | Punkt | Maß | Notiz
Nische | B1 (Boden) | 1540 |
Nische | B3 (oben) | 1541 |
Nische | H1 links | 2168 |
`, length.Millimetre, []string{
			"Nische; W floor=1540 top=1541; H left=2168",
		}, ""},
		{"a list of readings in millimetres", `
Loc | Point | Reading | Note
K | W1 (sill) | 1742 |
K | W2 @1100 | 1736 | bow
K | W3 (head) | 1740 | tight
K | H left | 2391 |
 | H right | 2388 |
K | back wall | 7/1800 | leans in
K | left side | 4 | out at top
K | X1 LB-RT | 2958 |
M | W1 (sill) | 905 |
M | level floor | 3/1000 | low R
`, length.Millimetre, []string{
			"K; W floor=1742 W2@1100=1736(bow) top=1740(tight); H left=2391 right=2388; X LB-RT=2958; back -7/1800; left 4",
			"M; W floor=905; floor 3/1000; poor",
		}, ""},
		{"a row per opening", `
Opng | W1 | W2 | W3 | H1 | H2 | H3 | D | X1 | X2 | Remarks
North | 52 1/2 | 52 3/8 | 52 7/16 | 80 | 80 1/8 | 80 | 13 | 95 3/4 | 95 5/8 |
South | 40.25 | 40.25 | 40.125 | 80 | 80 | 80 | 13 | 89.5 | 89.5 | VIF
`, length.Inch, []string{
			"North; W W1=52.5 W2=52.375 W3=52.4375; H H1=80 H2=80.125 H3=80; D =13; X X1=95.75 X2=95.625",
			"South; W W1=40.25(VIF) W2=40.25(VIF) W3=40.125(VIF); H H1=80(VIF) H2=80(VIF) H3=80(VIF); D =13(VIF); X X1=89.5(VIF) X2=89.5(VIF)",
		}, ""},
		{"the poor form of one line", `
niche 70 3/4 x 90 x 11 +/-
`, length.Inch, []string{"niche; W =70.75(+/-); H =90(+/-); D =11(+/-); poor"}, ""},
		{"two boxes side by side", `
NICHE 1 | | | NICHE 2 |
W top | 30 1/4 | | W top | 31
W floor | 30 1/8 | | W floor | 31 1/8
H left | 84 | | H left | 83 3/4
H right | 84 1/4 | | H right | 83 5/8
`, length.Inch, []string{
			"NICHE 1; W floor=30.125 top=30.25; H left=84 right=84.25",
			"NICHE 2; W floor=31.125 top=31; H left=83.75 right=83.625",
		}, ""},
		{"points down, openings across", `
Point | Bay 1 | Bay 2
W top | 812 | 640.5
W bottom | 808 | 642
H left | 2105 | 2101
Plumb L | 3 out at top | 2 in at top
`, length.Millimetre, []string{
			"Bay 1; W floor=808 top=812; H left=2105; left 3",
			"Bay 2; W floor=642 top=640.5; H left=2101; left -2",
		}, ""},
		{"German form", `
Aufmaß Nische 4  von: R.  Datum 3.6.
Breite oben 1398 | mitte 1395 | unten 1401
Höhe links 2246 | rechts 2250
Tiefe 402
Lot links 5 nach außen oben, rechts 3 nach innen | Waage Boden rechts 4 tiefer auf 1400
Raumhöhe 2520 | Sockelleiste 60 x 15
Steckdose 300 über Boden, 250 von links
Verputzt ja | Bodenbelag nein (+12 Kork)
`, length.Millimetre, []string{
			"Nische 4; W floor=1401 middle=1395 top=1398; H left=2246 right=2250; D =402; left 5; right -3; floor 4/1400; ceiling 2520; base 60; x 15; " +
				"to come floor 12; done walls; outlet 250,300; by R. 3.6.",
		}, ""},
		{"French matrix of places", `
Niche salon | haut | milieu | bas
Largeur | 1203 | 1200 | 1204
Hauteur sous plafond | 2480
Diagonale bas gauche - haut droite | 2401
`, length.Millimetre, []string{
			"Niche salon; W floor=1204 middle=1200 top=1203; X LB-RT=2401; ceiling 2480",
		}, ""},
		{"Italian list with the unit in the head", `
Vano | Punto | Misura (cm) | Note
V3 | larghezza sopra | '120,4 | stretto
V3 | larghezza sotto | '121 |
V3 | altezza | 240 |
`, length.Millimetre, []string{"V3; W floor=1210 top=1204(stretto); H =2400"}, ""},
		{"words that widen a reading", `
Alcove N
W top 36 1/8 heavy | floor 36 1/4 light 1/16
H ~80 | D 12 ± 1/8
`, length.Inch, []string{"Alcove N; W floor=36.1875..36.25 top=36.125..36.1875?(W top 36 1/8 heavy); H =79..81?(H ~80); D =11.875..12.125"}, ""},
		{"a rough opening, its plaster unsaid", `
R.O. 48 1/2 x 84 x 16
`, length.Inch, []string{"R.O.; W =48.5; H =84; D =16; to come walls -; poor"}, ""},
		{"columns named in full, plumb and level among them", `
Opening | Width top | Width mid | Width bottom | Height left | Depth | Diag LB-RT | Diag RB-LT | Plumb L | Plumb R | Level floor | Ceiling
Pantry | 33 1/4 | 33 1/8 | 33 3/16 | 82 1/8 | 15 1/2 | 88 5/8 | 88 7/8 | 1/4 out at top | 0 | 3/16 low R in 32 | 97
`, length.Inch, []string{
			"Pantry; W floor=33.1875 middle=33.125 top=33.25; H left=82.125; D =15.5; X LB-RT=88.625 RB-LT=88.875; " +
				"left 0.25; right 0; floor 0.1875/32; ceiling 97",
		}, ""},
		{"lines that name the opening each time", `
Hall recess, not yet plastered
Recess C width floor | 812.5
Recess C width top | 815
Recess C height | 2050
Recess C depth left | 351.125
`, length.Millimetre, []string{"Recess C; W floor=812.5 top=815; H =2050; D left=351.125"}, ""},
		{"metric leans: in is no inch", `
opening | width top | width bottom | height left | plumb left | plumb right
R2 | 2398 | 2400 | 2440 | 6 out over 2400 | 3 in over 2400
`, length.Millimetre, []string{"R2; W floor=2400 top=2398; H left=2440; left 6/2400; right -3/2400"}, ""},
		{"sizes and only one of each: one reading, never three", `
Opening | Width | Height | Depth
Niche 7 | 41 1/8 | 80 | 11 1/2
`, length.Inch, []string{"Niche 7; W =41.125; H =80; D =11.5; poor"}, ""},
		{"places in order, how closely, a struck line", `
Recess P  measured by: Ida 11/2
Widths T/M/B 50 1/8, 50, 50 1/16 | laser ± 1/32
H (L/R) | 71 1/2 | 71 3/8
§Ceiling 90
Ceiling ht 97 1/2 L, 97 3/8 R
Thermostat 60 AFF, 8 from R
`, length.Inch, []string{
			"Recess P; W floor=50.0625 middle=50 top=50.125; H left=71.5 right=71.375; ceiling 97.375; within 0.03125; thermostat 8,60 from right; by Ida 11/2 ",
		}, ""},
		{"a form without a name, stops and loads below it", `
W top 61 3/8 | mid 61 1/4 | floor 61 5/16
H left 88 1/2 | right 88 7/16
Gate 40 | Hall 41 | Den dr 29 x 77 1/2
Loads: A books; B seat 2 persons
`, length.Inch, []string{"; W floor=61.3125 middle=61.25 top=61.375; H left=88.5 right=88.4375"}, ""},
		{"Dutch", `
Nis 2  gemeten door: J.
Breedte boven 1204 | midden 1201 | onder 1203
Hoogte links 2390 | rechts 2394
Diepte 380 | Plafond 2605
Plint 90 x 12 | Stopcontact 300 boven vloer, 150 van links
Vloer nee (+15 eiken)
`, length.Millimetre, []string{
			"Nis 2; W floor=1203 middle=1201 top=1204; H left=2390 right=2394; D =380; ceiling 2605; base 90; x 12; to come floor 15; outlet 150,300; by J. ",
		}, ""},
		{"Swedish list", `
Plats | Mått | Avläsning | Anm
K1 | bredd uppe | 902 |
K1 | bredd nere | 899 | trångt
K1 | höjd vänster | 2210 |
K1 | lod vänster | 4 | utåt upptill
`, length.Millimetre, []string{"K1; W floor=899(trångt) top=902; H left=2210; left 4"}, ""},
		{"the word for the name, and the name in a cell of its own", `
Opening | Alcove
Measured by | T.
W top | 60 3/4
W floor | 60 11/16
H left | 90
Ceiling | 96
Opening | Bay by the window
W top | 30
W floor | 30 1/8
`, length.Inch, []string{
			"Alcove; W floor=60.6875 top=60.75; H left=90; ceiling 96; by T. ",
			"Bay by the window; W floor=30.125 top=30",
		}, ""},
		{"the same in German", `
Öffnung | Nische Flur
Breite oben | 1062
Breite unten | 1061
Höhe links | 2390
Tiefe | 620
`, length.Millimetre, []string{"Nische Flur; W floor=1061 top=1062; H left=2390; D =620"}, ""},
		{"the word for the names, two openings across", `
Opening | Recess A | Recess B
W top | 812 | 640
W bottom | 808 | 642
H left | 2105 | 2101
`, length.Millimetre, []string{
			"Recess A; W floor=808 top=812; H left=2105",
			"Recess B; W floor=642 top=640; H left=2101",
		}, ""},
		{"Polish", `
Wnęka A  data: 4.5
Szerokość góra 1500 | środek 1497 | dół 1502
Wysokość lewa 2300 | prawa 2304
Pion lewa 4 na zewnątrz u góry
Sufit 2610
`, length.Millimetre, []string{
			"Wnęka A; W floor=1502 middle=1497 top=1500; H left=2300 right=2304; left 4; ceiling 2610; by  4.5",
		}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			tab := tabOf(t, c.lines)
			if tab.Kind != "site" && !slices.Contains(tab.Also, "site") || tab.sideUnit != c.unit {
				t.Fatalf("kind %q, unit %v, want site in %v; unread %s", tab.Kind, tab.sideUnit, c.unit, unreadOf(tab))
			}
			var got []string
			for _, o := range tab.Openings {
				got = append(got, sayOpening(o))
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
