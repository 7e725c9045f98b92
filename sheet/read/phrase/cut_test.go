package phrase

import (
	"strings"
	"testing"
)

// shape prints pieces: words as they are folded, lengths in brackets, marks bare.
func shape(line string) string {
	var out []string
	for _, p := range Cut(line) {
		switch p.Kind {
		case Length:
			out = append(out, "["+p.Text+"]")
		default:
			out = append(out, p.Word)
		}
	}
	return strings.Join(out, " ")
}

func TestCut(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{"W top 88 3/8", "w top [88 3/8]"},
		{"R 1/8 in", "r [1/8] in"},
		{"1/8in deep", "[1/8in] deep"},
		{`Level floor 5/16 low L in 6'`, "level floor [5/16] low l in [6']"},
		{`8'-2 1/2" and 7' 6"`, `[8'-2 1/2"] and [7' 6"]`},
		{"8' 12 oak", "[8'] [12] oak"},
		{"Diag LB-RT 121 1/16", "diag lb-rt [121 1/16]"},
		{"W2 @1100 1742 bow", "w2 @ [1100] [1742] bow"},
		{"7/1800 leans in", "[7/1800] leans in"},
		{"2 x K4", "[2] x k4"},
		{"Reg. floor 4x10", "reg floor [4] x [10]"},
		{"4x10, 26 from L", "[4] x [10] , [26] from l"},
		{"sill 60⅞ +/- 1/8", "sill [60⅞ +/- 1/8]"},
		{"ca. 60 +/-", "ca [60] ±"},
		{"Breite 1 742,5 mm", "breite [1] [742,5 mm]"}, // plain blank: two numbers
		{"Breite 1\u00a0742 mm", "breite [1\u00a0742 mm]"},
		{"#8 x 1 1/2", "#8 x [1 1/2]"},
		{"2-5/16", "[2-5/16]"},
		{"60 kg/m2", "[60] kg/m2"},
		{"1st shelf", "1st shelf"},
		{"12 mm/m", "[12 mm] / m"},
		{"Höhe links", "hohe links"},
		{"szerokość górą", "szerokosc gora"},
		{"", ""},
	} {
		if got := shape(c.line); got != c.want {
			t.Errorf("%q: cut into %q, want %q", c.line, got, c.want)
		}
	}
}

// FuzzCut holds that pieces follow one another in the line and lose no letter or digit.
func FuzzCut(f *testing.F) {
	for _, s := range []string{"W top 88 3/8 | mid", `8'-2 1/2"`, "½½/3", "2 x x 4", "±", "~3", "\xff 1/", "3/4/5"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, line string) {
		at := 0
		for _, p := range Cut(line) {
			if p.From < at || p.Text == "" || line[p.From:p.End()] != p.Text {
				t.Fatalf("%q: piece %q at %d, after %d", line, p.Text, p.From, at)
			}
			if strings.ContainsFunc(line[at:p.From], func(r rune) bool { return r > ' ' && r < 0x7f }) {
				t.Fatalf("%q: %q is in no piece", line, line[at:p.From])
			}
			at = p.End()
		}
	})
}
