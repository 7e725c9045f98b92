package typeset

import (
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// crosextra is where the package fonts-crosextra-carlito puts the font.
const crosextra = "/usr/share/fonts/truetype/crosextra"

// The table of widths holds what the font itself says.
func TestWidthsAreThoseOfTheFont(t *testing.T) {
	for i, name := range []string{"Carlito-Regular.ttf", "Carlito-Bold.ttf"} {
		f := load(t, name)
		var buf sfnt.Buffer
		for at, w := range widths {
			r := rune(at)
			if w == [2]uint16{} {
				continue
			}
			glyph, err := f.GlyphIndex(&buf, r)
			if err != nil || glyph == 0 {
				t.Fatalf("%s has no %q (%v)", name, r, err)
			}
			got, err := f.GlyphAdvance(&buf, glyph, fixed.I(perEm), font.HintingNone)
			if err != nil {
				t.Fatal(err)
			}
			if got.Round() != int(w[i]) {
				t.Errorf("%s: %q is %d wide, the table says %d", name, r, got.Round(), w[i])
			}
		}
	}
}

// The lines are as far apart as the font wants them.
func TestLinesAreThoseOfTheFont(t *testing.T) {
	f := load(t, "Carlito-Regular.ttf")
	var buf sfnt.Buffer
	m, err := f.Metrics(&buf, fixed.I(perEm), font.HintingNone)
	if err != nil {
		t.Fatal(err)
	}
	if m.Height.Round() != lineUnits {
		t.Errorf("the font wants %d, we set %d", m.Height.Round(), lineUnits)
	}
}

func load(t *testing.T, name string) *sfnt.Font {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(crosextra, name))
	if os.IsNotExist(err) {
		if os.Getenv("DRYFIT_REQUIRE_EXTERNAL") == "1" {
			t.Fatalf("%s (fonts-crosextra-carlito) is not installed, and DRYFIT_REQUIRE_EXTERNAL=1 demands it", name)
		}
		t.Skipf("%s (fonts-crosextra-carlito) is not installed", name)
	}
	if err != nil {
		t.Fatal(err)
	}
	f, err := sfnt.Parse(data)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestLines(t *testing.T) {
	ten := Face{Size: 10}
	digits := 1038. / 2048 * 10 * hinted // a digit, by the table
	for _, c := range []struct {
		name, text string
		width      float64
		want       int
	}{
		{"four digits go into four", "1111", 4 * digits, 1},
		{"and break in less", "1111", 3.9 * digits, 2},
		{"a line end counts", "1\n1", 100, 2},
		{"words break at blanks", "11 11 11", 4.9 * digits, 2},
		{"a word that no line holds breaks anywhere", "111111111", 4 * digits, 3},
		{"nothing is one line", "", 10, 1},
	} {
		if got := ten.Lines(c.text, c.width); got != c.want {
			t.Errorf("%s: %d lines, want %d", c.name, got, c.want)
		}
	}
}

// 10 points times 2500/2048 are 12.2 points, in whole dots of 0.75 points 12.75.
func TestLineHeight(t *testing.T) {
	if got := (Face{Size: 10}).LineHeight(); got != 12.75 {
		t.Errorf("a line of 10 points is %v high, want 12.75", got)
	}
}

// ECMA-376 part 1, 18.3.1.13: a column of 8.43 characters is 64 dots wide in Calibri 11, stored
// as 9.140625; 64 dots at 96 an inch are 48 points.
func TestColumn(t *testing.T) {
	if got := Column(9.140625); got != 48 {
		t.Errorf("9.140625 units are %v points, want 48", got)
	}
}

// A letter the font lacks is drawn by another one: it counts as a square.
func TestALetterThatTheFontLacks(t *testing.T) {
	if got, want := (Face{Size: 10}).Width("■"), 10*hinted; got != want {
		t.Errorf("■ is %v wide, want %v", got, want)
	}
}
