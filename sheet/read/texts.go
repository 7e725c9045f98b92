package read

import (
	"fmt"
	"slices"
)

// Texts gives the contents of some tabs as Cell.Raw does, a slice for each row from the first
// on, without the blank cells at its end. A tab that the workbook has not got is absent. No
// other tab is unpacked.
func Texts(data []byte, tabs ...string) (map[string][][]string, error) {
	src, err := openSource("", data)
	if err != nil {
		return nil, err
	}
	out := map[string][][]string{}
	for _, ref := range src.tabs {
		if !slices.Contains(tabs, ref.name) {
			continue
		}
		g, err := src.grid(ref)
		if err != nil {
			return nil, err
		}
		if g.CutAt > 0 {
			return nil, fmt.Errorf("tab %q: more than %d rows", ref.name, g.CutAt)
		}
		out[ref.name] = g.texts()
	}
	return out, nil
}

func (g *Grid) texts() [][]string {
	if len(g.Rows) == 0 {
		return nil
	}
	rows := make([][]string, g.Rows[len(g.Rows)-1].N)
	for _, r := range g.Rows {
		row := make([]string, r.Cells[len(r.Cells)-1].Col)
		for i := range r.Cells {
			row[r.Cells[i].Col-1] = r.Cells[i].Raw()
		}
		rows[r.N-1] = row
	}
	return rows
}
