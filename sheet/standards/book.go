package standards

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"dryfit/check/standard"
	"dryfit/sheet/typeset"

	"github.com/xuri/excelize/v2"
)

// book is a workbook in the making. The first error stops all further work.
type book struct {
	f    *excelize.File
	shop string
	look looks
	err  error
}

// looks are the styles, by what a cell is for.
type looks struct {
	title, tells, head, oursHead      int
	name, first, number, words, faint int // built-in cells
	typed, typedNumber, typedDate     int // cells to type in
	typedCenter                       int
	rule, ruleNumber, figure, legend  int
}

func newBook(shop string) (*book, error) {
	b := &book{f: excelize.NewFile(), shop: shop}
	b.makeLooks()
	b.try(b.f.SetSheetName("Sheet1", startTab))
	return b, b.err
}

func (b *book) try(err error) {
	if b.err == nil {
		b.err = err
	}
}

const (
	darkGreen = "31493C"
	brown     = "7A4B1E"
	paleSand  = "FFF3D6"
	hair      = "D5D9D6"
	grey      = "5E6661"
)

func (b *book) makeLooks() {
	fill := func(colour string) excelize.Fill {
		return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}
	}
	lines := []excelize.Border{{Type: "bottom", Color: hair, Style: 1}}
	boxed := []excelize.Border{{Type: "bottom", Color: hair, Style: 1}, {Type: "left", Color: hair, Style: 1}, {Type: "right", Color: hair, Style: 1}}
	wrap := &excelize.Alignment{WrapText: true, Vertical: "top"}
	middle := &excelize.Alignment{WrapText: true, Vertical: "center", Horizontal: "center"}
	right := &excelize.Alignment{Vertical: "top", Horizontal: "right"}
	center := &excelize.Alignment{WrapText: true, Vertical: "center", Horizontal: "center"}
	dates, big := "yyyy-mm-dd", "[>=1000]#,##0;General"
	style := func(s excelize.Style) int {
		if s.Font == nil {
			s.Font = &excelize.Font{}
		}
		if s.Font.Size == 0 {
			s.Font.Size = bodySize
		}
		s.Font.Family = "Calibri"
		id, err := b.f.NewStyle(&s)
		b.try(err)
		return id
	}
	b.look = looks{
		title:       style(excelize.Style{Font: &excelize.Font{Bold: true, Size: 15, Color: darkGreen}}),
		tells:       style(excelize.Style{Font: &excelize.Font{Color: grey}, Alignment: &excelize.Alignment{Vertical: "top"}}),
		head:        style(excelize.Style{Font: &excelize.Font{Bold: true, Color: "FFFFFF"}, Fill: fill(darkGreen), Alignment: middle}),
		oursHead:    style(excelize.Style{Font: &excelize.Font{Bold: true, Color: "FFFFFF"}, Fill: fill(brown), Alignment: middle}),
		name:        style(excelize.Style{Border: lines, Alignment: wrap}),
		first:       style(excelize.Style{Font: &excelize.Font{Bold: true}, Border: lines, Alignment: wrap}),
		number:      style(excelize.Style{Font: &excelize.Font{Color: grey}, Border: lines, Alignment: right, CustomNumFmt: &big}),
		words:       style(excelize.Style{Font: &excelize.Font{Color: grey, Size: smallSize}, Border: lines, Alignment: wrap}),
		faint:       style(excelize.Style{Font: &excelize.Font{Color: "B9BFBB", Size: 8}, Border: lines, Alignment: wrap}),
		typed:       style(excelize.Style{Border: boxed, Fill: fill(paleSand), Alignment: wrap}),
		typedNumber: style(excelize.Style{Font: &excelize.Font{Bold: true}, Border: boxed, Fill: fill(paleSand), Alignment: right, CustomNumFmt: &big}),
		typedCenter: style(excelize.Style{Border: boxed, Fill: fill(paleSand), Alignment: center}),
		typedDate:   style(excelize.Style{Border: boxed, Fill: fill(paleSand), Alignment: right, CustomNumFmt: &dates}),
		rule:        style(excelize.Style{Font: &excelize.Font{Bold: true}, Border: lines, Alignment: &excelize.Alignment{WrapText: true, Vertical: "center"}}),
		ruleNumber:  style(excelize.Style{Border: lines, Alignment: &excelize.Alignment{Horizontal: "center", Vertical: "center"}}),
		figure:      style(excelize.Style{Font: &excelize.Font{Color: darkGreen, Bold: true}, Border: lines, Alignment: &excelize.Alignment{Horizontal: "center"}, CustomNumFmt: ptr("0.0000")}),
		legend:      style(excelize.Style{Border: lines, Alignment: &excelize.Alignment{WrapText: true, Vertical: "center"}}),
	}
}

func ptr(s string) *string { return &s }

// name makes a cell address.
func address(col, row int) string {
	a, err := excelize.CoordinatesToCellName(col, row)
	if err != nil {
		panic(err) // our own numbers
	}
	return a
}

func (b *book) set(tab, cell string, v any) {
	if v != nil {
		b.try(b.f.SetCellValue(tab, cell, v))
	}
}

func (b *book) style(tab, from, to string, id int) { b.try(b.f.SetCellStyle(tab, from, to, id)) }

// open adds a tab with its title and sentence.
func (b *book) open(name, tells string) {
	if name != startTab {
		_, err := b.f.NewSheet(name)
		b.try(err)
	}
	b.set(name, "A1", strings.ToUpper(name[:1])+name[1:])
	b.style(name, "A1", "A1", b.look.title)
	b.set(name, "A2", tells)
	b.style(name, "A2", "A2", b.look.tells)
	b.try(b.f.SetRowHeight(name, 1, 24))
	b.try(b.f.SetSheetView(name, 0, &excelize.ViewOptions{ShowGridLines: new(bool)}))
	size, one, all, landscape := 1, 1, 0, "landscape"
	b.try(b.f.SetPageLayout(name, &excelize.PageLayoutOptions{Size: &size, Orientation: &landscape, FitToWidth: &one, FitToHeight: &all}))
	b.fit(name)
	side, top, edge := 0.4, 0.75, 0.35 // inches
	b.try(b.f.SetPageMargins(name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &top, Bottom: &top, Header: &edge, Footer: &edge}))
	shop := strings.ReplaceAll(b.shop, "&", "&&")
	b.try(b.f.SetHeaderFooter(name, &excelize.HeaderFooterOptions{
		OddHeader: "&L&9 " + shop + "&C&9Shop standards&R&9&A",
		OddFooter: "&L&9Supports a person's judgement and replaces none&R&9page &P of &N",
	}))
}

// fit makes the print as wide as a page.
func (b *book) fit(tab string) {
	fit := true
	b.try(b.f.SetSheetProps(tab, &excelize.SheetPropsOptions{FitToPage: &fit}))
}

// onePage makes the print fit one page.
func (b *book) onePage(tab string) {
	one := 1
	b.try(b.f.SetPageLayout(tab, &excelize.PageLayoutOptions{FitToHeight: &one}))
}

// header writes the header words with their notes, freezes them and repeats them in print.
func (b *book) header(tab string, columns []column, frozen int) {
	for i, c := range columns {
		cell := address(i+1, headerRow)
		b.set(tab, cell, c.head)
		look := b.look.head
		if c.typed {
			look = b.look.oursHead
		}
		b.style(tab, cell, cell, look)
		letter, err := excelize.ColumnNumberToName(i + 1)
		b.try(err)
		b.try(b.f.SetColWidth(tab, letter, letter, c.width))
		if c.hidden {
			b.try(b.f.SetColVisible(tab, letter, false))
		}
		b.remark(tab, cell, c.note)
	}
	b.try(b.f.SetRowHeight(tab, headerRow, 30))
	b.freeze(tab, frozen)
	b.printTitles(tab)
}

func (b *book) remark(tab, cell, note string) {
	b.try(b.f.AddComment(tab, excelize.Comment{Cell: cell, Author: "dryfit", Width: typeset.NoteWidth, Height: typeset.NoteHeight(note),
		Paragraph: []excelize.RichTextRun{{Text: note, Font: &excelize.Font{Size: typeset.NoteFace.Size, Family: "Calibri"}}}}))
}

func (b *book) freeze(tab string, columns int) {
	corner := address(columns+1, headerRow+1)
	b.try(b.f.SetPanes(tab, &excelize.Panes{Freeze: true, XSplit: columns, YSplit: headerRow, TopLeftCell: corner, ActivePane: "bottomRight",
		Selection: []excelize.Selection{{SQRef: corner, ActiveCell: corner, Pane: "bottomRight"}}}))
}

func (b *book) printTitles(tab string) {
	b.try(b.f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: tab,
		RefersTo: fmt.Sprintf("'%s'!$%d:$%d", tab, headerRow, headerRow)}))
}

func (b *book) printArea(tab string, columns, rows int) {
	b.try(b.f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", Scope: tab,
		RefersTo: fmt.Sprintf("'%s'!$A$1:%s", tab, absolute(columns, rows))}))
}

func absolute(col, row int) string {
	a, err := excelize.CoordinatesToCellName(col, row, true)
	if err != nil {
		panic(err) // our own numbers
	}
	return a
}

// choose gives cells of a column a drop-down. A text outside the list is questioned, not refused.
func (b *book) choose(tab string, col, from, to int, list []string, ask string) {
	b.chooseIn(tab, address(col, from)+":"+address(col, to), list, ask)
}

func (b *book) chooseIn(tab, cells string, list []string, ask string) {
	v := excelize.NewDataValidation(true)
	v.Sqref = cells
	b.try(v.SetDropList(list))
	v.SetError(excelize.DataValidationErrorStyleWarning, "Not on the list", ask)
	b.try(b.f.AddDataValidation(tab, v))
}

const (
	spareRows  = 30  // coloured rows below the values, for rows of the shop's own
	choiceRows = 400 // further rows that have the drop-downs
)

// values writes a value tab.
func (b *book) values(v valueTab, rows []row) {
	b.open(v.name, v.tells+" Type only in the coloured columns: what stands there rules. New rows go below the last.")
	b.header(v.name, valueColumns, at(valueColumns, "unit"))
	last := headerRow + len(rows)
	for i, r := range rows {
		cells := r.cells()
		for c, cell := range cells {
			b.set(v.name, address(c+1, headerRow+1+i), cell)
		}
		b.try(b.f.SetRowHeight(v.name, headerRow+1+i, heightOf(cells)))
	}
	b.dress(v.name, headerRow+1, last)
	b.nameItems(v.name, rows)
	b.dressSpare(v.name, last+1, last+spareRows)
	b.valueChoices(v, headerRow+1, last+choiceRows)
	b.printArea(v.name, at(valueColumns, "stamp"), last)
	b.try(b.f.AutoFilter(v.name, fmt.Sprintf("A%d:%s", headerRow, address(len(valueColumns), max(last, headerRow+1))), nil))
	b.fit(v.name) // the filter drops it
}

func (b *book) valueChoices(v valueTab, from, to int) {
	b.choose(v.name, at(valueColumns, "kind")+1, from, to, v.groups, "This tab holds: "+strings.Join(v.groups, ", "))
	for _, id := range []string{"unit", "our unit"} {
		b.choose(v.name, at(valueColumns, id)+1, from, to, v.units(), "A unit of the list, please.")
	}
	b.choose(v.name, at(valueColumns, "how")+1, from, to, []string{standard.KnownShop, standard.KnownMeasured}, "shop: decided here. measured: read from real pieces.")
}

// heightOf is the height in points at which a row of values shows all its texts.
func heightOf(cells []any) float64 {
	high := 0.0
	for i, c := range valueColumns {
		if t, ok := cells[i].(string); ok && !c.hidden {
			high = max(high, typeset.Face{Size: sizeOf(c.id), Bold: c.id == "item"}.Height(t, typeset.Room(typeset.Column(c.width), 0)))
		}
	}
	return 3 + max(high, typeset.Face{Size: bodySize}.LineHeight())
}

// Sizes of the type, points.
const (
	bodySize  = 10
	smallSize = 9
)

func sizeOf(column string) float64 {
	if small[column] {
		return smallSize
	}
	return bodySize
}

// small are the columns of a value tab in small print.
var small = map[string]bool{"source": true, "known": true, "note": true, "unit": true}

// dress styles rows that hold built-in values.
func (b *book) dress(tab string, from, to int) {
	if to < from {
		return
	}
	for i, c := range valueColumns {
		look := b.look.name
		switch c.id {
		case "low", "value", "high":
			look = b.look.number
		case "our low", "our value", "our high":
			look = b.look.typedNumber
		case "our unit", "why", "how":
			look = b.look.typed
		case "source", "known", "note", "unit":
			look = b.look.words
		case "stamp":
			look = b.look.faint
		}
		b.style(tab, address(i+1, from), address(i+1, to), look)
	}
}

// nameItems prints the name of an item bold where its rows begin.
func (b *book) nameItems(tab string, rows []row) {
	item := at(valueColumns, "item")
	last := ""
	for i, r := range rows {
		name := r.group() + " " + cmp.Or(r.built.Item, r.ours.Item)
		if name != last {
			cell := address(item+1, headerRow+1+i)
			b.style(tab, cell, cell, b.look.first)
		}
		last = name
	}
}

// dressSpare styles the empty rows below, where the shop names a value of its own.
func (b *book) dressSpare(tab string, from, to int) {
	b.dress(tab, from, to)
	for _, id := range []string{"kind", "item", "what", "unit", "note"} {
		col := at(valueColumns, id) + 1
		b.style(tab, address(col, from), address(col, to), b.look.typed)
	}
}

// list writes a list tab.
func (b *book) list(t table, rows [][]any) {
	b.open(t.name, t.tells)
	b.header(t.name, t.columns, 1)
	last := headerRow + len(rows) + t.blank
	for i, r := range rows {
		for c, cell := range r {
			b.set(t.name, address(c+1, headerRow+1+i), cell)
		}
	}
	for i, c := range t.columns {
		look := b.look.typed
		switch {
		case c.id == "cut" || c.id == "ship":
			look = b.look.typedDate
		case slices.Contains([]string{"our low", "our value", "our high"}, c.id):
			look = b.look.typedNumber
		}
		b.style(t.name, address(i+1, headerRow+1), address(i+1, last), look)
		if list := t.choices[c.id]; list != nil {
			b.choose(t.name, i+1, headerRow+1, last+choiceRows, list, "One of: "+strings.Join(list, ", "))
		}
	}
	b.printArea(t.name, len(t.columns), headerRow+max(len(rows)+8, 12))
}

// start writes the first tab: what to do, and where things stand.
func (b *book) start() {
	b.open(startTab, "What this shop goes by. dryfit reads this workbook before every run.")
	title := "Shop standards"
	if b.shop != "" {
		title = b.shop + ": shop standards"
	}
	b.set(startTab, "A1", title)
	lines := [][2]string{
		{"Type here", "Coloured cells are yours. An empty one leaves the built-in value in force; a filled one rules over it in every job, and the working names the cell."},
		{"One number or three", "A lone value counts as exact. Low and high beside it give the range it could have, and a part that only just fits is then told to be verified."},
		{"Units", "Each row names its unit. 3/4, 0.75 and 19 mm are understood where a length is wanted; choose another unit beside your value if that is how you know it."},
		{"Start with", "cutting, finish list, fits, crew and vehicles. Then measure: ten readings on the calibration tab replace a guess."},
		{"A job may differ", "A standards tab with the same header words in a job's own folder rules over this one for that job."},
		{"Check", "dryfit standards --check names every cell that makes no sense. --update adds rows of a newer version and leaves alone what you typed."},
		{"Caution", "The values support a person's judgement and replace none. Where people could be hurt or a code applies, ask a licensed engineer; local codes govern."},
	}
	r := headerRow
	for _, line := range lines {
		b.set(startTab, address(1, r), line[0])
		b.set(startTab, address(2, r), line[1])
		b.style(startTab, address(1, r), address(1, r), b.look.rule)
		b.style(startTab, address(2, r), address(2, r), b.look.legend)
		b.try(b.f.SetRowHeight(startTab, r, 32))
		r++
	}
	r++
	b.set(startTab, address(1, r), "Tabs")
	b.style(startTab, address(1, r), address(2, r), b.look.head)
	for _, tab := range tabNames() {
		r++
		b.set(startTab, address(1, r), tab[0])
		b.set(startTab, address(2, r), tab[1])
		b.style(startTab, address(1, r), address(1, r), b.look.rule)
		b.style(startTab, address(2, r), address(2, r), b.look.legend)
		b.try(b.f.SetCellHyperLink(startTab, address(1, r), fmt.Sprintf("'%s'!A1", tab[0]), "Location"))
	}
	b.try(b.f.SetColWidth(startTab, "A", "A", 24))
	b.try(b.f.SetColWidth(startTab, "B", "B", 110))
	b.printArea(startTab, 2, r)
	b.onePage(startTab)
}

func tabNames() [][2]string {
	var names [][2]string
	for _, v := range valueTabs {
		names = append(names, [2]string{v.name, v.tells})
	}
	for _, t := range []table{finishTable, wordTable, jobTable} {
		names = append(names, [2]string{t.name, t.tells})
	}
	return append(names, [2]string{measureTab, measureTells})
}
