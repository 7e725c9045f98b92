package standards

import (
	"fmt"
	"strings"

	"dryfit/check/standard"

	"github.com/xuri/excelize/v2"
)

const measureTells = "Measure what you make. From ten readings on they replace the built-in range of their value; until then they are only kept."

// The rows of the calibration tab. Each column from B on is one quantity.
const (
	quantityRow = headerRow + iota
	unitRow
	stepRow
	countedRow
	meanRow
	scatterRow
	runRow
	firstReading
)

const (
	readingRows   = 30
	leastMeasured = 8 // columns
)

// between separates group, item and property in the name of a quantity.
const between = " / "

// offered are the quantities that pay most: they decide most joints.
var offered = []Readings{
	{Group: "finish", Item: "paint", Property: "film", Unit: "mil", Step: 0.1},
	{Group: "finish", Item: "clear", Property: "film", Unit: "mil", Step: 0.1},
	{Group: "thickness", Item: "hardwood plywood", Property: "3/4 in", Unit: "in", Step: 0.001},
	{Group: "thickness", Item: "MDF", Property: "3/4 in", Unit: "in", Step: 0.001},
	{Group: "build", Item: "glue line", Property: "thickness", Unit: "in", Step: 0.001},
	{Group: "spread", Item: "slot width", Property: "CNC, 2 sigma", Unit: "in", Step: 0.001},
	{Group: "spread", Item: "slot pitch", Property: "CNC, 1 sigma", Unit: "in", Step: 0.001},
	{Group: "spread", Item: "part cut to size", Property: "CNC, 2 sigma", Unit: "in", Step: 0.001},
}

func (r Readings) name() string { return strings.Join([]string{r.Group, r.Item, r.Property}, between) }

// rowHeads are the words at the left of the calibration tab, and their notes.
var rowHeads = []struct {
	row        int
	head, note string
}{
	{quantityRow, "quantity", "Kind, item and what, with / between, as they stand on the other tabs. For a spread type readings of one size, or each reading less its nominal."},
	{unitRow, "unit", "Unit of the readings."},
	{stepRow, "read to", "The smallest step your tool shows, in the same unit."},
	{countedRow, "counted", "Ten are wanted."},
	{meanRow, "mean", "The new value, from ten readings on."},
	{scatterRow, "spread", "One standard deviation. The new range is wider, since a few readings do not show all there is."},
	{runRow, "run", "The readings in the order they were typed: a slope means that something wears or drifts."},
}

// calibration writes the tab of readings.
func (b *book) calibration(given []Readings) {
	b.open(measureTab, measureTells)
	columns := withOffered(given)
	for _, h := range rowHeads {
		cell := address(1, h.row)
		b.set(measureTab, cell, h.head)
		b.style(measureTab, cell, cell, b.look.head)
		b.remark(measureTab, cell, h.note)
	}
	for i := range readingRows {
		cell := address(1, firstReading+i)
		b.set(measureTab, cell, i+1)
		b.style(measureTab, cell, cell, b.look.ruleNumber)
	}
	for i, r := range columns {
		b.readings(i+2, r)
	}
	last, err := excelize.ColumnNumberToName(len(columns) + 1)
	b.try(err)
	b.try(b.f.SetColWidth(measureTab, "A", "A", 11))
	b.try(b.f.SetColWidth(measureTab, "B", last, 17))
	b.try(b.f.SetRowHeight(measureTab, quantityRow, 44))
	b.try(b.f.SetRowHeight(measureTab, runRow, 34))
	b.chooseIn(measureTab, address(2, unitRow)+":"+address(len(columns)+1, unitRow), standard.Units(), "A unit of the list, please.")
	corner := address(2, firstReading)
	b.try(b.f.SetPanes(measureTab, &excelize.Panes{Freeze: true, XSplit: 1, YSplit: firstReading - 1, TopLeftCell: corner, ActivePane: "bottomRight",
		Selection: []excelize.Selection{{SQRef: corner, ActiveCell: corner, Pane: "bottomRight"}}}))
	b.try(b.f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: measureTab,
		RefersTo: fmt.Sprintf("'%s'!$A:$A,'%s'!$%d:$%d", measureTab, measureTab, quantityRow, stepRow)}))
	b.printArea(measureTab, len(columns)+1, firstReading+readingRows-1)
	b.onePage(measureTab)
}

// withOffered adds the quantities that nobody measured yet, as empty columns.
func withOffered(given []Readings) []Readings {
	columns := append([]Readings{}, given...)
	for _, o := range offered {
		taken := false
		for _, g := range given {
			taken = taken || g.name() == o.name()
		}
		if !taken {
			columns = append(columns, o)
		}
	}
	for len(columns) < leastMeasured {
		columns = append(columns, Readings{})
	}
	return columns
}

// readings writes one column: what it is, what the sheet reckons of it, and the readings.
func (b *book) readings(col int, r Readings) {
	cell := func(row int) string { return address(col, row) }
	if r.Item != "" {
		b.set(measureTab, cell(quantityRow), r.name())
		b.set(measureTab, cell(unitRow), r.Unit)
		b.set(measureTab, cell(stepRow), r.Step)
	}
	for i, v := range r.Values {
		b.set(measureTab, cell(firstReading+i), v)
	}
	b.style(measureTab, cell(quantityRow), cell(stepRow), b.look.typedCenter)
	b.style(measureTab, cell(countedRow), cell(runRow), b.look.figure)
	b.style(measureTab, cell(countedRow), cell(countedRow), b.look.ruleNumber)
	b.style(measureTab, cell(firstReading), cell(firstReading+readingRows-1), b.look.typedNumber)
	all := cell(firstReading) + ":" + cell(firstReading+readingRows-1)
	b.try(b.f.SetCellFormula(measureTab, cell(countedRow), "COUNT("+all+")"))
	b.try(b.f.SetCellFormula(measureTab, cell(meanRow), fmt.Sprintf(`IF(COUNT(%s)>0,AVERAGE(%s),"")`, all, all)))
	b.try(b.f.SetCellFormula(measureTab, cell(scatterRow), fmt.Sprintf(`IF(COUNT(%s)>1,STDEV(%s),"")`, all, all)))
	b.try(b.f.AddSparkline(measureTab, &excelize.SparklineOptions{Location: []string{cell(runRow)},
		Range: []string{fmt.Sprintf("'%s'!%s", measureTab, all)}, Type: "column", SeriesColor: "#" + brown}))
}
