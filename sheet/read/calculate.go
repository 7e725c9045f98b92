package read

import (
	"bytes"
	"math"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

// Limits of calculating formulas whose value nobody saved.
const (
	maxFormula   = 8192 // characters, the most a spreadsheet takes
	maxCalculate = 5000 // cells of one workbook
	calculateFor = 10 * time.Second
)

// calculate fills in the formulas that were saved without a value. What cannot be
// calculated stays Pending.
func calculate(data []byte, grids []*Grid) {
	var todo []*Cell
	for _, g := range grids {
		if g == nil {
			continue // a tab of ours, or one that cannot be read
		}
		for i := range g.Rows {
			for j := range g.Rows[i].Cells {
				if c := &g.Rows[i].Cells[j]; c.Kind == Pending && len(c.raw) <= maxFormula {
					todo = append(todo, c)
				}
			}
		}
	}
	if len(todo) == 0 || len(todo) > maxCalculate {
		return
	}
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{
		RawCellValue: true, UnzipSizeLimit: 128 << 20, UnzipXMLSizeLimit: 16 << 20,
	})
	if err != nil {
		return
	}
	defer f.Close()
	until := time.Now().Add(calculateFor)
	for _, c := range todo {
		if time.Now().After(until) {
			return
		}
		text, err := f.CalcCellValue(c.grid.Tab, c.Addr(), excelize.Options{RawCellValue: true})
		if err != nil {
			switch {
			case strings.HasPrefix(text, "#"):
				c.Kind, c.raw = Fault, text
			case strings.Contains(c.raw, "#REF!"):
				c.Kind, c.raw = Fault, "#REF!"
			}
			continue
		}
		c.settle(text)
	}
}

// settle gives a formula the value that was calculated for it.
func (c *Cell) settle(text string) {
	switch x, err := strconv.ParseFloat(text, 64); {
	case err == nil && !math.IsNaN(x) && !math.IsInf(x, 0):
		c.Kind, c.Num, c.raw = Number, x, ""
	case strings.HasPrefix(text, "#"):
		c.Kind, c.raw = Fault, text
	case text == "TRUE" || text == "FALSE":
		c.Kind = Truth
		if text == "TRUE" {
			c.Num = 1
		}
	default:
		c.Kind, c.raw = Words, text
	}
}
