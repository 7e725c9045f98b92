package read

import (
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/length"
)

// lines of a job as somebody types them who never saw a form; each was read by hand first.
func TestTabsInPlainSpeech(t *testing.T) {
	const parts = "== tab Parts\nMark | Part | Case | Qty | L | W | T\nA1 | Side | Den | 2 | 80 | 12 | 3/4\nA2 | Top | Den | 2 | 30 | 12 | 3/4\nA3 | Shelf | Den | 3 | 30 | 11 | 3/4\n== tab Other\n"
	for _, c := range []struct{ name, rows, want string }{
		{"a survey", `
Den | | by Ro | 11/20
wide @ top | 31 7/8
wide @ floor | 31 3/4
tall LH | 81 1/4
tall RH | 81 3/8
LH wall | 3/8 out at top in 7'
RH wall | 1/8 out at top over 72
floor | drops 1/8 to the right over 30
baseboard | 5 1/2 tall x 5/8 thick
`, "site Den; W floor=31.75 top=31.875; H left=81.25 right=81.375; left 0.375/84; right 0.125/72; floor 0.125/30; base 5.5; x 0.625; by Ro"},
		{"chains are no readings", `
Will it go?
Den width: A1 + A3 + A1 + 1/4 scribe ea side = alcove
height: A2 + A1 + A2 = 84 less 1/2 clr
`, "runs Den width: A1 + A3 + A1 + 2x0.25 = alcove; runs  height: A2 + A1 + A2 = 84 less 0.5"},
		{"loads under a question", `
What goes on it
A3 - cookbooks
Den - dishes 36 lb/ft2
`, "loads A3: books kind; loads Den: dishes area 0.25"},
		{"a French table, and the rest", `
Où | Quoi | Combien
A3 | livres | 24 lb/ft
le reste | rien |
`, "loads A3: books length 2; loads : none kind"},
		{"dadoes", `
What | Cut in | Takes | How | How many | Wide | Deep | Up from btm
a | A1 | A3 | dado | 6 | 25/32 | 1/4 | 20, 40, 60
`, "joints a; A3>A1; dado; n 6; w 0.78125; in 0.25; edge bottom: 20 40 60"},
		{"German dadoes", `
Verb. | Bauteil | nimmt auf | Art | Stk. | Nutbreite | Nuttiefe | Höhe von unten
V1 | A1 | A3 | Quernut | 6 | 25/32 | 1/4 | 20, 40, 60
`, "joints V1; A3>A1; dado; n 6; w 0.78125; in 0.25; edge bottom: 20 40 60"},
		{"Italian dadoes", `
Giunto | Nel pezzo | Riceve | Tipo | N. | Largh. scanalatura | Prof. | Quote dal basso
G1 | A1 | A3 | scanalatura | 6 | 25/32 | 1/4 | 20; 40; 60
`, "joints G1; A3>A1; groove; n 6; w 0.78125; in 0.25; edge bottom: 20 40 60"},
		{"a finish is no depth", `
Den
width top | 31 7/8
width floor | 31 3/4
depth | 16
floor | oak to come 5/8
`, "site Den; W floor=31.75 top=31.875; D =16"},
		{"two guys", "front dr 35 1/2 x 79\nrm dr 29 1/2 x 78\ntwo guys", "carry crew 2"},
	} {
		j := severalJob(t, parts+strings.Trim(c.rows, "\n"))
		kind := j.Books[0].Tabs[1].Kind + " "
		var got []string
		for _, o := range j.Openings {
			got = append(got, kind+strings.TrimSpace(sayOpening(o)))
		}
		for _, r := range j.Runs {
			got = append(got, kind+sayRun(r))
		}
		for _, l := range j.Loads {
			got = append(got, kind+sayLoad(l))
		}
		for _, jt := range j.Joints {
			got = append(got, kind+sayJoint(jt))
		}
		if j.Carry != nil {
			got = append(got, kind+"crew "+num(j.Carry.Crew))
		}
		if g := strings.Join(got, "; "); g != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, g, c.want)
		}
	}
}

// "5 mm aus dem Lot auf 2 m" names no width and no height.
func TestLeanInPlainGerman(t *testing.T) {
	tab := tabOf(t, "Nische 7\nBreite oben | 1204\nBreite unten | 1201\nHöhe li | 2450\nWand links | 5 mm aus dem Lot auf 2 m\nBoden | 6 mm Gefälle auf 2 m")
	if len(tab.Openings) != 1 || len(tab.Openings[0].Leans) != 2 || len(tab.Openings[0].Widths) != 2 || len(tab.Openings[0].Heights) != 1 {
		t.Fatalf("read as %v; unread %s", len(tab.Openings), unreadOf(tab))
	}
	for i, want := range []check.Lean{{Of: "left", Offset: check.Exact(5), Over: check.Exact(2000)}, {Of: "floor", Offset: check.Exact(6), Over: check.Exact(2000)}} {
		if l := tab.Openings[0].Leans[i]; l.Of != want.Of || l.Offset.High != want.Offset.High || l.Over.Nominal != want.Over.Nominal {
			t.Errorf("%+v, want %+v", l, want)
		}
	}
}

// Small bare numbers of joints and runs beside parts in millimetres are millimetres.
func TestUnitOfWhatHangsOnTheParts(t *testing.T) {
	const parts = "== tab Teile\nNr | Teil | Korpus | Stk | Länge | Breite | Dicke\nM1 | Seite | K | 2 | 2100 | 400 | 19\nM2 | Boden | K | 3 | 862 | 380 | 19\n"
	j := severalJob(t, parts+"== tab A\nRichtung | Teile | Passt in\nBreite | M1 + M2 + M1 + 2x3 | Nische\n"+
		"== tab B\nVerb. | Im Teil | nimmt auf | Art | Anzahl | Breite | Tiefe\nV1 | M1 | M2 | Quernut | 6 | 19.5 | 8\n")
	if len(j.Runs) != 1 || len(j.Joints) != 1 {
		t.Fatalf("%d runs and %d joints", len(j.Runs), len(j.Joints))
	}
	if got := sayRun(j.Runs[0]) + "; " + sayJoint(j.Joints[0]); got != " width: M1 + M2 + M1 + 2x3 = Nische; V1; M2>M1; dado; n 6; w 19.5; in 8" {
		t.Errorf("read as %s", got)
	}
}

// "alto izq" is a height, and the date 3/11 makes no inches of 905.
func TestSpanishSurvey(t *testing.T) {
	for _, date := range []string{"3/11", "3/8"} {
		tab := tabOf(t, "Hueco 4, medido por Ana el "+date+"\nancho arriba | 905\nancho abajo | 903\nalto izq | 2108\nalto dcha | 2110")
		if len(tab.Openings) != 1 {
			t.Fatalf("%d openings; unread %s", len(tab.Openings), unreadOf(tab))
		}
		if got := sayOpening(tab.Openings[0]); !strings.Contains(got, "W floor=903 top=905; H left=2108 right=2110") || tab.sideUnit != length.Millimetre {
			t.Errorf("%s: read as %s in %v", date, got, tab.sideUnit)
		}
	}
}
