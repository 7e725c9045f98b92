package write

import (
	"slices"
	"testing"
)

// On Letter, landscape, with margins of 0.6 in, 7.3 in are left for rows, 525.6 points; A4 leaves
// 8.27 - 1.2 = 7.07 in, 509 points, which is less. A twentieth is kept: 483.6.
func TestPagesBreakBetweenBlocks(t *testing.T) {
	for _, c := range []struct {
		name   string
		blocks []float64 // heights of blocks of one row
		want   []int
	}{
		{"all go on a page", []float64{240, 240}, nil},
		{"the third does not", []float64{200, 200, 200}, []int{3}},
		{"each on its own", []float64{300, 300, 300}, []int{2, 3}},
		{"one longer than a page stands alone", []float64{100, 500, 100}, []int{2, 3}},
		{"a folded one takes no room", []float64{400, 0, 80}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := &Page{Name: "tab", Wide: true, Widths: []float64{20}, Heights: map[int]float64{}}
			var starts []int
			for i, high := range c.blocks {
				row := p.Add(Text("x", BodyLook))
				p.Heights[row] = max(high, 1)
				if high == 0 {
					p.Folded = append(p.Folded, [2]int{row, row})
				}
				starts = append(starts, i+1)
			}
			p.breakBetween(starts)
			if !slices.Equal(p.Breaks, c.want) {
				t.Errorf("pages begin in rows %v, want %v", p.Breaks, c.want)
			}
		})
	}
}
