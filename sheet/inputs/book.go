package inputs

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"

	"dryfit/sheet/graft"
	"dryfit/sheet/typeset"
)

// book is the workbook in the making. The first error stops all further work.
type book struct {
	f      *excelize.File
	job    string
	metric bool
	look   looks
	err    error
}

func (b *book) try(err error) {
	if b.err == nil {
		b.err = err
	}
}

// at is the address of a cell by column and row, from 1.
func at(col, row int) string {
	s, err := excelize.CoordinatesToCellName(col, row)
	if err != nil {
		panic(err) // our own numbers
	}
	return s
}

func letter(col int) string {
	s, err := excelize.ColumnNumberToName(col)
	if err != nil {
		panic(err) // our own numbers
	}
	return s
}

func (b *book) put(tab, cell, text string, style int) {
	if text != "" {
		b.try(b.f.SetCellStr(tab, cell, text))
	}
	b.try(b.f.SetCellStyle(tab, cell, cell, style))
}

// add writes a tab.
func (b *book) add(t *tab) {
	if b.err != nil {
		return
	}
	if _, err := b.f.NewSheet(t.name); err != nil {
		b.try(err)
		return
	}
	b.put(t.name, "A1", t.title, b.look.title)
	b.try(b.f.SetRowHeight(t.name, 1, 24))
	n := 1
	for _, s := range t.tells {
		n++
		b.put(t.name, at(1, n), s, b.look.tells)
	}
	for _, l := range t.above {
		n++
		b.line(t.name, n, l)
	}
	n += 2
	b.header(t, n)
	for i, r := range t.rows {
		b.row(t, n+1+i, r)
	}
	last := n + len(t.rows)
	for i := range t.spare {
		b.row(t, last+1+i, row{cells: spareCells(t.columns)})
	}
	b.lists(t, n+1, last+t.spare)
	b.page(t, n, last+t.spare)
}

func spareCells(columns []column) []cell {
	cells := make([]cell, len(columns))
	for i, c := range columns {
		cells[i].part = c.spare
	}
	return cells
}

// line writes a question with its box.
func (b *book) line(tab string, n int, l line) {
	b.put(tab, at(1, n), l.label, b.look.label)
	b.put(tab, at(2, n), "", b.look.parts[l.part])
	if l.hint != "" {
		b.put(tab, at(3, n), l.hint, b.look.tells)
	}
	b.try(b.f.SetRowHeight(tab, n, boxHeight))
	b.choose(tab, at(2, n), l.list)
}

func (b *book) header(t *tab, n int) {
	lines := 1
	for i, c := range t.columns {
		b.put(t.name, at(i+1, n), c.head, b.look.head)
		b.try(b.f.SetColWidth(t.name, letter(i+1), letter(i+1), c.width))
		b.try(b.f.SetColVisible(t.name, letter(i+1), !c.hidden))
		b.remark(t.name, at(i+1, n), c.note)
		if !c.hidden {
			lines = max(lines, wraps(c.head, c.width-1))
		}
	}
	b.try(b.f.SetRowHeight(t.name, n, rowHeight(lines)))
	corner := at(1, n+1)
	b.try(b.f.SetPanes(t.name, &excelize.Panes{Freeze: true, YSplit: n, TopLeftCell: corner, ActivePane: "bottomLeft",
		Selection: []excelize.Selection{{SQRef: corner, ActiveCell: corner, Pane: "bottomLeft"}}}))
}

func (b *book) remark(tab, cell, note string) {
	if note == "" {
		return
	}
	b.try(b.f.AddComment(tab, excelize.Comment{Cell: cell, Author: "dryfit", Width: typeset.NoteWidth, Height: typeset.NoteHeight(note),
		Paragraph: []excelize.RichTextRun{{Text: note, Font: &excelize.Font{Size: typeset.NoteFace.Size, Family: "Calibri"}}}}))
}

// boxHeight is high enough to write in by hand, in points.
const boxHeight = 22

func (b *book) row(t *tab, n int, r row) {
	lines := 1
	for i, c := range r.cells {
		b.put(t.name, at(i+1, n), c.text, b.look.parts[c.part])
		if !t.columns[i].hidden {
			lines = max(lines, wraps(c.text, t.columns[i].width))
		}
	}
	b.try(b.f.SetRowHeight(t.name, n, max(boxHeight, rowHeight(lines))))
	if r.breaks {
		b.try(b.f.InsertPageBreak(t.name, at(1, n)))
	}
}

// boxFace is the largest type in any cell below the titles.
var boxFace = typeset.Face{Size: 11}

// wraps counts the lines that a text takes in a column so many units wide.
func wraps(text string, width float64) int {
	return boxFace.Lines(text, typeset.Room(typeset.Column(width), 1))
}

// rowHeight is the height in points of a row of so many lines.
func rowHeight(lines int) float64 { return 4 + boxFace.LineHeight()*float64(lines) }

// lists gives the cells of some rows their drop-downs.
func (b *book) lists(t *tab, from, to int) {
	for i, c := range t.columns {
		b.choose(t.name, at(i+1, from)+":"+at(i+1, to), c.list)
	}
}

// choose gives cells a drop-down. A text outside the list is questioned, not refused.
func (b *book) choose(tab, cells string, list []string) {
	if len(list) == 0 {
		return
	}
	v := excelize.NewDataValidation(true)
	v.Sqref = cells
	b.try(v.SetDropList(list))
	v.SetError(excelize.DataValidationErrorStyleWarning, "Not on the list", "One of: "+strings.Join(list, ", "))
	b.try(b.f.AddDataValidation(tab, v))
}

// page makes the tab print upright, as wide as a page, the header on each.
func (b *book) page(t *tab, header, last int) {
	size, upright, one, all := 1, "portrait", 1, 0
	if b.metric {
		size = 9 // A4
	}
	fit, grid := true, false
	b.try(b.f.SetSheetProps(t.name, &excelize.SheetPropsOptions{FitToPage: &fit}))
	b.try(b.f.SetPageLayout(t.name, &excelize.PageLayoutOptions{Size: &size, Orientation: &upright, FitToWidth: &one, FitToHeight: &all}))
	side, end, edge := 0.45, 0.7, 0.35 // inches
	b.try(b.f.SetPageMargins(t.name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &end, Bottom: &end, Header: &edge, Footer: &edge}))
	b.try(b.f.SetHeaderFooter(t.name, &excelize.HeaderFooterOptions{
		OddHeader: "&L&9 " + strings.ReplaceAll(b.job, "&", "&&") + "&R&9&A",
		OddFooter: "&L&9Supports a person's judgement and replaces none&R&9page &P of &N",
	}))
	b.try(b.f.SetSheetView(t.name, 0, &excelize.ViewOptions{ShowGridLines: &grid}))
	shown := 0
	for i, c := range t.columns {
		if !c.hidden {
			shown = i + 1
		}
	}
	b.name("_xlnm.Print_Area", t.name, fmt.Sprintf("'%s'!$A$1:$%s$%d", t.name, letter(shown), last))
	if header > 0 {
		b.name("_xlnm.Print_Titles", t.name, fmt.Sprintf("'%s'!$%d:$%d", t.name, header, header))
	}
}

func (b *book) name(name, tab, refers string) {
	b.try(b.f.SetDefinedName(&excelize.DefinedName{Name: name, Scope: tab, RefersTo: refers}))
}

// passOver marks a tab as written by dryfit, so that the reader takes nothing from it.
func (b *book) passOver(tab string) {
	b.name(graft.Mark, tab, `"`+tab+`"`)
}

// bytes ends the workbook.
func (b *book) bytes() ([]byte, error) {
	if b.err != nil {
		return nil, b.err
	}
	var out bytes.Buffer
	if err := b.f.Write(&out); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
