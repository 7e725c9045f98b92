package read

import (
	"slices"
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/length"
)

// Fixtures of our own; what each row says was worked out by hand.
func TestJointTabs(t *testing.T) {
	for _, c := range []struct {
		name, lines string
		unit        length.Unit
		want        []string
		unread      string
	}{
		{"table with heads in short words", `
Job 31 Attic study ||||||||||
Jt | In | Rcvs | Type | No. | Slot W | Dp in A | Dp in B | From | Ctrs
J1 | U4 | S7 | part lap | 15 | 1-9/16 | 4-3/4 | 4-3/4 | btm | 14-1/2, 29, 43-1/2
J2 | G1 | S7 | cleat | 10 | - | - | - | btm | do
`, length.Inch, []string{
			"J1; S7>U4; cross lap; n 15; w 1.5625; in 4.75; of 4.75; c/l bottom: 14.5 29 43.5",
			"J2; S7>G1; cleat; n 10; c/l bottom: 14.5 29 43.5",
		}, ""},
		{"goes in beside the slotted part is the part that goes in", `
Joint | Slotted | Goes in | Kind | No. | Slot width | Depth | Fit
D1 | P2 | P3 | dado | 2 | 13/16 | 1/4 | hidden
`, length.Inch, []string{"D1; P3>P2; dado; n 2; w 0.8125; in 0.25; fit hidden"}, ""},
		{"a row for each slot, millimetres, part only on its first row", `
Upright | Slot | c/l up from bottom | width | front notch | side notch | fit
T1 | 1 | 412 | 38.4 | 30 | 9 | slip
 | 2 | 824.5 | 38.4 | 30 | 9 | slip
 | 3 | 1240 | 41 | 30 | 9 | slip
T2 | 1 | 412 | 38.4 | 30 | 9 | snug
`, length.Millimetre, []string{
			"; >T1; notched lap; w 38.4; side 9; front 30; c/l bottom: 412 824.5; fit slip",
			"; >T1; notched lap; w 41; side 9; front 30; c/l bottom: 1240; fit slip",
			"; >T2; notched lap; w 38.4; side 9; front 30; c/l bottom: 412; fit snug",
		}, ""},
		{"clear bays and edges", `
Joint | Slotted part | Receives | Kind | Qty | Slot width | Depth | Positions | Fit
a | M1 | P2 | dado | 6 | 25/32 | 3/8 | 13 1/2, 13 1/2, bal. from btm | loose
b | M1 | P3 | dado | 4 | 25/32 | 3/8 | to top of shelf 20, 40 | +1/32
c | M1 | P4 | groove | 2 | 17/64 | 1/4 | EQ |
`, length.Inch, []string{
			"a; P2>M1; dado; n 6; w 0.78125; in 0.375; bays bottom: 13.5 13.5 -; fit loose",
			"b; P3>M1; dado; n 4; w 0.78125; in 0.375; far: 20 40; fit +1/32",
			"c; P4>M1; groove; n 2; w 0.265625; in 0.25; bays: -",
		}, ""},
		{"German, decimal commas as text, header in two rows", `
Verb. | Im Teil | nimmt auf | Art | Anzahl | Breite | Tiefe || Von | Achsmaße
||||||in A|in B||
V1 | MW 1 | FB 2 | Überblattung | 9 | '32,4 | 140 | 140 | unten | '380; 760; 1140
V2 | S 1 | FB 2 | Quernut | 6 | '19,3 | 8 | | unten | wie oben
`, length.Millimetre, []string{
			"V1; FB 2>MW 1; cross lap; n 9; w 32.4; in 140; of 140; c/l bottom: 380 760 1140",
			"V2; FB 2>S 1; dado; n 6; w 19.3; in 8; c/l bottom: 380 760 1140",
		}, ""},
		{"French, centimetres in the header", `
Assemblage | Pièce entaillée | Reçoit | Type d'assemblage | Nb | Largeur (cm) | Prof. A (cm) | Prof. B (cm) | Entraxes depuis le bas (cm) | Ajustement
E1 | M3 | T5 | mi-bois | 12 | '3,85 | 14 | 14 | '38; 76 | glissant
`, length.Millimetre, []string{
			"E1; T5>M3; cross lap; n 12; w 38.5; in 140; of 140; c/l bottom: 380 760; fit glissant",
		}, ""},
		{"cleats with their screws, one position a column", `
Jt no. | Part | Goes into | Joint type | Total | Fastener | Pos 1 | Pos 2 | Pos 3 | Remarks
1 | C2 | D1 | cleat | 6 | 3 screws #8 x 1 1/4 in | 12 | 24 3/4 | 37 1/2 | glued too
2 | C3 | D1 | cleat | 2 | (2) #6 x 1 | 4 1/2 | | |
`, length.Inch, []string{
			"1; C2>D1; cleat; n 6; edge: 12 24.75 37.5; screws 3 #8 1.25",
			"2; C3>D1; cleat; n 2; edge: 4.5; screws 2 #6 1",
		}, ""},
		{"cells nobody can read are named", `
Jt | In | Rcvs | Type | No. | Slot W | Dp in A | Ctrs
J1 | Q1 | R1 | magic | a few | about right | 4 | see dwg
J2 | | | dado | 4 | 3/4 | 3/8 | 10
`, length.Inch, []string{
			"J1; R1>Q1; notch; in 4",
		}, "D2 magic | E2 a few | F2 about right | H2 see dwg | A3 J2 | dado | 4 | 3/4 | 3/8 | 10"},
		{"headers in so many words, numbers shown as fractions", `
Mark | Part slotted | Part in | Kind | Number | Width of slot as cut | Depth cut in slotted part | Positions from bottom | Clearance wanted
K1 | N4 | N2 | dado | 12 | {# ?/?}0.78125 | {0.00}0.375 | 17, 34 | snug
K2 | N5 | N2 | rebate | 4 | .765 | 3/8 | 5'-6 1/2" |
`, length.Inch, []string{
			"K1; N2>N4; dado; n 12; w 0.78125; in 0.375; edge bottom: 17 34; fit snug",
			"K2; N2>N5; rabbet; n 4; w 0.765; in 0.375; edge bottom: 66.5",
		}, ""},
		{"formulas: one to work out, one without a value; a struck row", `
Jt | In | Rcvs | Type | No. | Slot W | Dp in A
K1 | N4 | N2 | dado | =2*6 | =3/4+1/32 | #REF!
§K2 | §N5 | §N2 | §dado | §4 | §3/4 | §3/8
`, length.Inch, []string{"K1; N2>N4; dado; n 12; w 0.78125"}, "G2 #REF!"},
		{"below a table of parts in the same tab", `
Mark | Part | Qty | L | W | T
N2 | Shelf | 4 | 70 | 11 | 3/4
N4 | Side | 2 | 80 | 11 1/4 | 3/4

Joint | In | Receives | Type | Qty | Slot width | Depth
K1 | N4 | N2 | housing | 8 | 25/32 | 1/4
`, length.Inch, []string{"K1; N2>N4; dado; n 8; w 0.78125; in 0.25"}, ""},
		{"Dutch", `
Verbinding | In deel | Ontvangt | Soort | Aantal | Sleufbreedte mm | Diepte in A | Diepte in B | Vanaf | Hartmaten | Passing
V1 | W2 | P3 | halfhout | 6 | 36.125 | 150 | 150 | onderkant | 400, 800 | schuivend
`, length.Millimetre, []string{"V1; P3>W2; cross lap; n 6; w 36.125; in 150; of 150; c/l bottom: 400 800; fit schuivend"}, ""},
		{"Spanish with totals below", `
Unión | Pieza ranurada | Recibe | Tipo de unión | Cantidad | Ancho ranura mm | Profundidad mm | Desde | Posiciones
U1 | L1 | E1 | cajeado | 8 | 16.4 | 8 | abajo | 350, 700
Total | | | | 8 | | | |
`, length.Millimetre, []string{
			"U1; E1>L1; dado; n 8; w 16.4; in 8; edge bottom: 350 700",
		}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			tab := tabOf(t, c.lines)
			if tab.Kind != "joints" && !slices.Contains(tab.Also, "joints") || tab.sideUnit != c.unit {
				t.Fatalf("kind %q, unit %v, want joints in %v; unread %s", tab.Kind, tab.sideUnit, c.unit, unreadOf(tab))
			}
			var got []string
			for _, j := range tab.Joints {
				got = append(got, sayJoint(j))
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

// A value carries its cell, is plain only where the cell is that very number, and a missing
// one names the cell to fill.
func TestJointCells(t *testing.T) {
	tab := tabOf(t, `
Jt | In | Rcvs | Type | No. | Slot W | Dp in A | Dp in B | From | Ctrs
J1 | U4 | S7 | lap | 15 | 1.5625 | 4-3/4 | | btm | 14.5
J2 | U5 | S7 | lap | do | do | 4 | 4 | btm | 14.5
`)
	if len(tab.Joints) != 2 {
		t.Fatalf("%d joints, unread %s", len(tab.Joints), unreadOf(tab))
	}
	a, b := tab.Joints[0], tab.Joints[1]
	if a.Width.From.Addr != "F2" || !a.Width.Plain || a.DepthIn.Plain || a.DepthIn.From.Addr != "G2" || !a.At[0].Plain || a.At[0].From.Addr != "J2" {
		t.Errorf("cells of J1: width %+v, depth %+v, at %+v", a.Width, a.DepthIn, a.At)
	}
	if a.DepthOf.Known || a.DepthOf.Ask.Cell.Addr != "H2" || a.DepthOf.Ask.What == "" {
		t.Errorf("the missing depth asks %+v, want H2", a.DepthOf.Ask)
	}
	if b.Width.From.Addr != "F2" || b.Count.Nominal != 15 || b.Count.From.Addr != "E2" {
		t.Errorf("dittos of J2 point to %v and %v, want F2 and E2", b.Width.From, b.Count.From)
	}
	job := &check.Job{Unit: length.Millimetre}
	tab.addOthers(job)
	if w := job.Joints[0].Width; w.Nominal != 39.6875 || w.Plain { // 1 9/16 x 25.4
		t.Errorf("in a metric job the slot is %v, plain %v; want 39.6875 and not plain", w.Nominal, w.Plain)
	}
}
