package write

import (
	"slices"
	"testing"
)

// Rows that are folded away stay so in the workbook, under the row above them, and a page
// begins where it was said to.
func TestFoldsAndBreaks(t *testing.T) {
	p := NewPage("tab", "Title", "purpose")
	for range 7 {
		p.Add(Text("x", BodyLook))
	}
	p.Folded, p.Breaks = [][2]int{{5, 6}}, []int{8}
	f, _, err := Build(p)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var hidden []int
	for row := 1; row <= len(p.Rows); row++ {
		seen, err := f.GetRowVisible("tab", row)
		if err != nil {
			t.Fatal(err)
		}
		level, err := f.GetRowOutlineLevel("tab", row)
		if err != nil {
			t.Fatal(err)
		}
		if seen == (level == 1) {
			t.Errorf("row %d: seen %v at level %d", row, seen, level)
		}
		if !seen {
			hidden = append(hidden, row)
		}
	}
	if !slices.Equal(hidden, []int{5, 6}) {
		t.Errorf("folded rows %v, want 5 and 6", hidden)
	}
	if breaks := breaksOf(t, f, "xl/worksheets/sheet1.xml"); !slices.Equal(breaks, []int{7}) {
		t.Errorf("pages break below rows %v, want 7", breaks) // ECMA-376 part 1, 18.3.1.3: id is the row above
	}
}
