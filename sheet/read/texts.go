package read

import "fmt"

// Texts are the contents of the cells of a workbook as they are stored, without a thought of
// what they mean. No tab is unpacked before it is asked for.
type Texts struct{ src *source }

// OpenTexts opens a workbook from its bytes.
func OpenTexts(data []byte) (*Texts, error) {
	src, err := openSource("", data)
	if err != nil {
		return nil, err
	}
	return &Texts{src}, nil
}

// Tabs are the names of the tabs, in their order.
func (t *Texts) Tabs() []string {
	var names []string
	for _, ref := range t.src.tabs {
		names = append(names, ref.name)
	}
	return names
}

// lastRow is the last that a tab can have.
const lastRow = 1 << 20

// Rows calls each for every row of a tab that holds anything, from the first on, with what
// Cell.Raw gives for its cells from A on. The slice is used again for the next row, so that a
// tab of any length takes no more room than a row.
func (t *Texts) Rows(tab string, each func(row []string)) error {
	for _, ref := range t.src.tabs {
		if ref.name != tab || ref.part == "" {
			continue
		}
		var row []string
		stream := tabStream{source: t.src, g: &Grid{date1904: t.src.date1904}, most: lastRow}
		stream.take = func(_ int, cells []Cell) {
			row = row[:0]
			for i := range cells {
				for len(row) < int(cells[i].Col) {
					row = append(row, "")
				}
				row[cells[i].Col-1] = cells[i].Raw()
			}
			each(row)
		}
		return stream.readPart(ref)
	}
	return fmt.Errorf("no tab %q", tab)
}
