package main

import (
	"fmt"
	"math"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// leastContrast is what WCAG 2.2, success criterion 1.4.3 (level AA), asks of text.
const leastContrast = 4.5

// inksAreRead holds the ink of every cell that we write against its fill.
func inksAreRead(t *testing.T, dir string) {
	seen := map[[2]string]string{}
	for _, pattern := range []string{"*.xlsx", "*/*.xlsx"} {
		books, err := filepath.Glob(filepath.Join(dir, pattern))
		if err != nil {
			t.Fatal(err)
		}
		for _, path := range books {
			pairsOf(t, path, seen)
		}
	}
	if len(seen) < 12 {
		t.Errorf("only %d pairs of ink and fill were found", len(seen))
	}
	for pair, at := range seen {
		c, err := contrast(pair[0], pair[1])
		if err != nil {
			t.Errorf("%s: %v", at, err)
		} else if c < leastContrast {
			t.Errorf("%s: ink %s on %s has a contrast of %.2f, want %.1f", at, pair[0], pair[1], c, leastContrast)
		}
	}
}

// pairsOf notes each pair of ink and fill of our cells that hold something, and where it stands.
func pairsOf(t *testing.T, path string, seen map[[2]string]string) {
	t.Helper()
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	fills := fillsOf(t, path)
	for _, tab := range oursIn(f, path) {
		rows, err := f.GetRows(tab)
		if err != nil {
			t.Fatal(err)
		}
		for r, row := range rows {
			for c, text := range row {
				letters, _ := excelize.ColumnNumberToName(c + 1)
				if shown, _ := f.GetColVisible(tab, letters); text == "" || !shown {
					continue
				}
				id, err := f.GetCellStyle(tab, cellName(c+1, r+1))
				if err != nil {
					t.Fatal(err)
				}
				st, err := f.GetStyle(id)
				if err != nil {
					t.Fatal(err)
				}
				seen[[2]string{inkOf(st), fills[id]}] = fmt.Sprintf("%s, %s!%s", filepath.Base(path), tab, cellName(c+1, r+1))
			}
		}
	}
}

func inkOf(st *excelize.Style) string {
	if st.Font == nil || st.Font.Color == "" {
		return "000000"
	}
	return st.Font.Color
}

var (
	fillEntry = regexp.MustCompile(`(?s)<fill>.*?</fill>`)
	fillInk   = regexp.MustCompile(`patternType="solid"[^>]*><fgColor rgb="([^"]*)"`)
	styleList = regexp.MustCompile(`(?s)<cellXfs.*?</cellXfs>`)
	styleFill = regexp.MustCompile(`<xf [^>]*?fillId="(\d+)"`)
)

// fillsOf are the fills of the styles of a workbook, white where there is none, by the number of
// the style. Read by themselves: excelize says no colour where a workbook has no theme.
func fillsOf(t *testing.T, path string) []string {
	t.Helper()
	styles := partsOf(t, path)["xl/styles.xml"]
	var fills, out []string
	for _, entry := range fillEntry.FindAll(styles, -1) {
		fill := "FFFFFF"
		if m := fillInk.FindSubmatch(entry); m != nil {
			fill = string(m[1])
		}
		fills = append(fills, fill)
	}
	for _, m := range styleFill.FindAllSubmatch(styleList.Find(styles), -1) {
		n, err := strconv.Atoi(string(m[1]))
		if err != nil || n >= len(fills) {
			t.Fatalf("%s: fill %s of %d", path, m[1], len(fills))
		}
		out = append(out, fills[n])
	}
	return out
}

// contrast is the contrast ratio of two colours: WCAG 2.2, definitions of contrast ratio and
// relative luminance, https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio (from memory).
func contrast(a, b string) (float64, error) {
	x, err := luminance(a)
	if err != nil {
		return 0, err
	}
	y, err := luminance(b)
	if err != nil {
		return 0, err
	}
	return (max(x, y) + 0.05) / (min(x, y) + 0.05), nil
}

func luminance(colour string) (float64, error) {
	colour = strings.TrimPrefix(colour, "#")
	colour = colour[max(0, len(colour)-6):] // an opacity may stand before
	n, err := strconv.ParseUint(colour, 16, 32)
	if err != nil || len(colour) != 6 {
		return 0, fmt.Errorf("%q is no colour", colour)
	}
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		c := float64(n>>(16-8*i)&255) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum, nil
}

// Black on white is 21 to 1, the most there is; #767676 on white is the lightest grey that
// passes, 4.54 (WebAIM, contrast checker; from memory).
func TestContrast(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want float64
	}{{"000000", "FFFFFF", 21}, {"FF767676", "FFFFFF", 4.54}, {"4A5361", "4A5361", 1}} {
		if got, err := contrast(c.a, c.b); err != nil || math.Abs(got-c.want) > 0.005 {
			t.Errorf("%s on %s: %.3f (%v), want %.2f", c.a, c.b, got, err, c.want)
		}
	}
}
