// Package draft makes a workbook from plain text, as an office would type it: for the demo
// and for tests. It knows how cells are written down and nothing of what they mean.
//
// A line "== Name" begins a tab. Every other line is a row, its cells parted by "|". A cell
// that is a number becomes a number; everything else is text. Marks at the beginning of a
// cell:
//
//	'7      text, though it looks like a number
//	=A1*2   a formula; its value is left to be calculated
//	^       merged with the cell above
//	<       merged with the cell to the left
//	!4-Mar  a date, shown as day and month
//
// and at the beginning of a line:
//
//   - the row is a title or a header: bold
//     ~       the row is struck through
//     -hide-  the row is hidden
package draft

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

// Workbook makes the workbook that a text describes.
func Workbook(text string) ([]byte, error) {
	d := &drafting{f: excelize.NewFile()}
	defer d.f.Close()
	if err := d.makeLooks(); err != nil {
		return nil, err
	}
	for i, line := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		if err := d.line(line); err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
	}
	if d.tab == "" {
		return nil, fmt.Errorf(`no line "== Name" begins a tab`)
	}
	if err := d.finish(); err != nil {
		return nil, err
	}
	if err := d.f.DeleteSheet("Sheet1"); err != nil {
		return nil, err
	}
	buf, err := d.f.WriteToBuffer()
	if err != nil {
		return nil, err
	}
	return buf.Bytes(), nil
}

type drafting struct {
	f                  *excelize.File
	tab                string
	row                int
	widths             map[int]int
	bold, struck, date int
	spans              map[[2]int][2]int // merged cells by where they begin
	began              map[[2]int][2]int // where the merged cell that covers a place begins
}

func (d *drafting) makeLooks() (err error) {
	for _, l := range []struct {
		id *int
		st *excelize.Style
	}{
		{&d.bold, &excelize.Style{Font: &excelize.Font{Bold: true}}},
		{&d.struck, &excelize.Style{Font: &excelize.Font{Strike: true}}},
		{&d.date, &excelize.Style{NumFmt: 16}},
	} {
		if *l.id, err = d.f.NewStyle(l.st); err != nil {
			return err
		}
	}
	return nil
}

func (d *drafting) line(line string) error {
	if name, ok := strings.CutPrefix(line, "== "); ok {
		if err := d.finish(); err != nil {
			return err
		}
		d.tab, d.row = strings.TrimSpace(name), 0
		d.widths, d.spans, d.began = map[int]int{}, map[[2]int][2]int{}, map[[2]int][2]int{}
		_, err := d.f.NewSheet(d.tab)
		return err
	}
	if d.tab == "" {
		return fmt.Errorf(`%q stands before the first "== Name"`, line)
	}
	d.row++
	look := 0
	for mark, id := range map[string]int{"*": d.bold, "~": d.struck} {
		if rest, ok := strings.CutPrefix(line, mark); ok {
			line, look = rest, id
		}
	}
	if rest, ok := strings.CutPrefix(line, "-hide-"); ok {
		line = rest
		if err := d.f.SetRowVisible(d.tab, d.row, false); err != nil {
			return err
		}
	}
	if strings.TrimSpace(line) == "" {
		return nil
	}
	for i, text := range strings.Split(line, "|") {
		if err := d.cell(i+1, strings.TrimSpace(text), look); err != nil {
			return err
		}
	}
	return nil
}

func (d *drafting) cell(col int, text string, look int) error {
	at, err := excelize.CoordinatesToCellName(col, d.row)
	if err != nil || text == "" {
		return err
	}
	if look != 0 {
		if err := d.f.SetCellStyle(d.tab, at, at, look); err != nil {
			return err
		}
	}
	switch {
	case text == "^":
		d.merge(col, d.row, col, d.row-1)
		return nil
	case text == "<":
		d.merge(col, d.row, col-1, d.row)
		return nil
	case text[0] == '=':
		return d.f.SetCellFormula(d.tab, at, text[1:])
	case text[0] == '!':
		day, err := time.Parse("2-Jan", text[1:])
		if err != nil {
			return fmt.Errorf("%q is no date such as !4-Mar: %w", text, err)
		}
		if err := d.f.SetCellValue(d.tab, at, day.AddDate(2024, 0, 0)); err != nil {
			return err
		}
		return d.f.SetCellStyle(d.tab, at, at, d.date)
	case text[0] == '\'':
		text = text[1:]
	default:
		if x, err := strconv.ParseFloat(text, 64); err == nil {
			return d.f.SetCellFloat(d.tab, at, x, -1, 64)
		}
	}
	if d.row > 1 && len([]rune(text)) < 40 {
		d.widths[col] = max(d.widths[col], len([]rune(text)))
	}
	return d.f.SetCellStr(d.tab, at, text)
}

// merge notes that a cell belongs to the merged cell of its neighbour.
func (d *drafting) merge(col, row, nextCol, nextRow int) {
	begin, ok := d.began[[2]int{nextCol, nextRow}]
	if !ok {
		begin = [2]int{nextCol, nextRow}
	}
	d.began[[2]int{col, row}] = begin
	d.spans[begin] = [2]int{max(col, d.spans[begin][0]), max(row, d.spans[begin][1])}
}

// finish merges the cells of the tab and sets its column widths.
func (d *drafting) finish() error {
	if d.tab == "" {
		return nil
	}
	for _, from := range slices.SortedFunc(maps.Keys(d.spans), func(a, b [2]int) int { return slices.Compare(a[:], b[:]) }) {
		to := d.spans[from]
		a, _ := excelize.CoordinatesToCellName(from[0], from[1])
		b, _ := excelize.CoordinatesToCellName(to[0], to[1])
		if err := d.f.MergeCell(d.tab, a, b); err != nil {
			return err
		}
	}
	for col, n := range d.widths {
		name, err := excelize.ColumnNumberToName(col)
		if err != nil {
			return err
		}
		if err := d.f.SetColWidth(d.tab, name, name, float64(max(n+2, 8))); err != nil {
			return err
		}
	}
	return nil
}
