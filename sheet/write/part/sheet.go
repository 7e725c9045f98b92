package part

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// Head is what stands before the rows of a worksheet.
type Head struct {
	Main, Rels string // namespaces of the host
	Range      string // cells in use; "" where that is not known yet
	Selected   bool   // the tab is in front
	Frozen     int    // rows that stay in sight
	Folds      bool   // some rows are folded away under the row above them
	Columns    []Column
}

// Column is one column, the first is A.
type Column struct {
	Width  float64 // in digits of the default font; 0 for the default
	Hidden bool
}

// Tail is what stands behind the rows.
type Tail struct {
	Filter         string // range with filter buttons
	Merges         []string
	Rules          []Rules
	Links          []Link
	Landscape      bool
	OnePage        bool   // fit one page; else as wide as a page
	Footer         string // in the codes of ECMA-376 Part 1, 18.3.1.46
	Side, End      float64
	FooterAt       float64 // margins: left and right, top and bottom, footer from the edge; inches
	Breaks         []int   // rows that begin a new printed page
	Drawing, Notes string  // ids of the relationships; "" for none
}

// Rules are the conditional formats of some ranges: a cell with a text gets the format.
type Rules struct {
	Ranges []string
	Equal  []Equal
}

// Equal is the format of a cell that holds just a text.
type Equal struct {
	Text   string
	Format int // number of a dxf
}

// Link leads from a cell to a place in the workbook or, by the id of a relationship, outside.
type Link struct{ At, ID, Place, Tip string }

// Sheet writes a worksheet part: rows in order, and in each the cells from A on. What stays
// the same between two flushes is kept, so that a cell costs no allocation. The first error
// stops all further writing; Close returns it.
type Sheet struct {
	w        io.Writer
	err      error
	buf      []byte
	row      int
	rowText  []byte
	column   int
	letters  []string
	opened   bool // a row is
	priority int
}

// flushAt is how much is gathered before it goes to the writer.
const flushAt = 64 << 10

// NewSheet begins a worksheet. The order of its elements is that of CT_Worksheet (ECMA-376
// Part 1, 18.3.1.99).
func NewSheet(w io.Writer, h Head) *Sheet {
	s := &Sheet{w: w, buf: make([]byte, 0, flushAt+8<<10)}
	s.put(declaration, `<worksheet xmlns="`, h.Main, `" xmlns:r="`, h.Rels, `">`)
	s.put(`<sheetPr>`)
	if h.Folds {
		s.put(`<outlinePr summaryBelow="0"/>`)
	}
	s.put(`<pageSetUpPr fitToPage="1"/></sheetPr>`)
	if h.Range != "" {
		s.put(`<dimension ref="`, h.Range, `"/>`)
	}
	s.put(`<sheetViews><sheetView showGridLines="0"`)
	if h.Selected {
		s.put(` tabSelected="1"`)
	}
	s.put(` workbookViewId="0"`)
	if h.Frozen > 0 {
		top := Cell(1, h.Frozen+1)
		s.put(`><pane ySplit="`, strconv.Itoa(h.Frozen), `" topLeftCell="`, top, `" activePane="bottomLeft" state="frozen"/>`,
			`<selection pane="bottomLeft" activeCell="`, top, `" sqref="`, top, `"/></sheetView>`)
	} else {
		s.put(`/>`)
	}
	s.put(`</sheetViews><sheetFormatPr defaultRowHeight="15"`)
	if h.Folds {
		s.put(` outlineLevelRow="1"`)
	}
	s.put(`/>`)
	s.columns(h.Columns)
	s.put(`<sheetData>`)
	return s
}

func (s *Sheet) columns(list []Column) {
	open := false
	for i, c := range list {
		if c == (Column{}) {
			continue
		}
		if !open {
			s.put(`<cols>`)
			open = true
		}
		n := strconv.Itoa(i + 1)
		s.put(`<col min="`, n, `" max="`, n, `"`)
		if c.Width > 0 {
			s.put(` width="`)
			s.number(c.Width)
			s.put(`" customWidth="1"`)
		}
		if c.Hidden {
			s.put(` hidden="1"`)
		}
		s.put(`/>`)
	}
	if open {
		s.put(`</cols>`)
	}
}

func (s *Sheet) put(list ...string) {
	for _, text := range list {
		s.buf = append(s.buf, text...)
	}
}

func (s *Sheet) number(x float64) { s.buf = strconv.AppendFloat(s.buf, x, 'g', -1, 64) }

func (s *Sheet) flush() {
	if s.err == nil {
		_, s.err = s.w.Write(s.buf)
	}
	s.buf = s.buf[:0]
}

// Fold is what folding does to a row.
type Fold int

// A row stands for itself, is folded away, or is the one under which the next ones are.
const (
	Open Fold = iota
	Folded
	Folder
)

// Row begins the next row; height is in points, 0 for the default.
func (s *Sheet) Row(height float64, fold Fold) {
	s.endRow()
	if len(s.buf) >= flushAt {
		s.flush()
	}
	if s.row == MostRows && s.err == nil {
		s.err = fmt.Errorf("more than %d rows", MostRows)
	}
	s.row++
	s.column = 0
	s.opened = true
	s.rowText = strconv.AppendInt(s.rowText[:0], int64(s.row), 10)
	s.buf = append(append(append(s.buf, `<row r="`...), s.rowText...), '"')
	if height > 0 {
		s.buf = append(s.buf, ` ht="`...)
		s.number(min(height, MostHeight))
		s.buf = append(s.buf, `" customHeight="1"`...)
	}
	switch fold {
	case Folded:
		s.buf = append(s.buf, ` hidden="1" outlineLevel="1"`...)
	case Folder:
		s.buf = append(s.buf, ` collapsed="1"`...)
	}
	s.buf = append(s.buf, '>')
}

func (s *Sheet) endRow() {
	if s.opened {
		s.buf = append(s.buf, `</row>`...)
	}
	s.opened = false
}

// begin writes the tag of the next cell up to its style.
func (s *Sheet) begin(style int) {
	s.Skip()
	s.buf = append(append(append(s.buf, `<c r="`...), s.letters[s.column-1]...), s.rowText...)
	if style != 0 {
		s.buf = strconv.AppendInt(append(s.buf, `" s="`...), int64(style), 10)
	}
	s.buf = append(s.buf, '"')
}

// Skip leaves a cell out.
func (s *Sheet) Skip() {
	s.column++
	if s.column > len(s.letters) {
		s.letters = append(s.letters, string(AppendColumn(nil, s.column)))
		if s.column > MostColumns && s.err == nil {
			s.err = fmt.Errorf("more than %d columns", MostColumns)
		}
	}
}

// Blank writes a cell that only has a style.
func (s *Sheet) Blank(style int) {
	s.begin(style)
	s.buf = append(s.buf, `/>`...)
}

// Text writes a cell with a text of its own.
func (s *Sheet) Text(style int, text string) {
	s.begin(style)
	s.buf = append(s.buf, ` t="inlineStr"><is>`...)
	s.buf = append(appendT(s.buf, text), `</is></c>`...)
}

// Number writes a cell with a number; one that is not finite is blank.
func (s *Sheet) Number(style int, x float64) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		s.Blank(style)
		return
	}
	s.begin(style)
	s.buf = append(s.buf, `><v>`...)
	s.number(x)
	s.buf = append(s.buf, `</v></c>`...)
}

// Truth writes a cell that is true or false.
func (s *Sheet) Truth(style int, b bool) {
	s.begin(style)
	s.put(` t="b"><v>`, truth[b], `</v></c>`)
}

var truth = map[bool]string{true: "1", false: "0"}

// Formula writes a cell with a formula and what it came to: a float64, string or bool, nil if
// nobody knows. A number that is not finite counts as not known.
func (s *Sheet) Formula(style int, formula string, value any) {
	s.begin(style)
	switch v := value.(type) {
	case string:
		s.formula(` t="str"`, formula)
		s.buf = append(AppendText(append(s.buf, `<v>`...), v), `</v></c>`...)
	case bool:
		s.formula(` t="b"`, formula)
		s.put(`<v>`, truth[v], `</v></c>`)
	case float64:
		s.formula("", formula)
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			s.buf = append(s.buf, `<v>`...)
			s.number(v)
			s.buf = append(s.buf, `</v>`...)
		}
		s.buf = append(s.buf, `</c>`...)
	default:
		s.formula("", formula)
		s.buf = append(s.buf, `</c>`...)
		if value != nil && s.err == nil {
			s.err = fmt.Errorf("the value of %q is a %T", formula, value)
		}
	}
}

func (s *Sheet) formula(kind, formula string) {
	s.buf = append(append(s.buf, kind...), `><f>`...)
	s.buf = append(AppendText(s.buf, formula), `</f>`...)
}

// Close ends the rows and writes what stands behind them.
func (s *Sheet) Close(t Tail) error {
	s.endRow()
	s.put(`</sheetData>`)
	if t.Filter != "" {
		s.put(`<autoFilter ref="`, t.Filter, `"/>`)
	}
	if len(t.Merges) > 0 {
		s.put(`<mergeCells count="`, strconv.Itoa(len(t.Merges)), `">`)
		for _, m := range t.Merges {
			s.put(`<mergeCell ref="`, m, `"/>`)
		}
		s.put(`</mergeCells>`)
	}
	for _, r := range t.Rules {
		s.rules(r)
	}
	s.links(t.Links)
	s.page(t)
	if len(t.Breaks) > 0 {
		n := strconv.Itoa(len(t.Breaks))
		s.put(`<rowBreaks count="`, n, `" manualBreakCount="`, n, `">`)
		for _, row := range t.Breaks {
			s.put(`<brk id="`, strconv.Itoa(row-1), `" max="16383" man="1"/>`)
		}
		s.put(`</rowBreaks>`)
	}
	if t.Drawing != "" {
		s.put(`<drawing r:id="`, t.Drawing, `"/>`)
	}
	if t.Notes != "" {
		s.put(`<legacyDrawing r:id="`, t.Notes, `"/>`)
	}
	s.put(`</worksheet>`)
	s.flush()
	return s.err
}

// mostRanges is how many ranges one conditional format names.
const mostRanges = 64

func (s *Sheet) rules(r Rules) {
	for from := 0; from < len(r.Ranges); from += mostRanges {
		some := r.Ranges[from:min(from+mostRanges, len(r.Ranges))]
		s.put(`<conditionalFormatting sqref="`, strings.Join(some, " "), `">`)
		for _, e := range r.Equal {
			s.priority++
			s.put(`<cfRule type="cellIs" dxfId="`, strconv.Itoa(e.Format), `" priority="`, strconv.Itoa(s.priority), `" operator="equal"><formula>"`)
			s.buf = AppendText(s.buf, strings.ReplaceAll(e.Text, `"`, `""`))
			s.put(`"</formula></cfRule>`)
		}
		s.put(`</conditionalFormatting>`)
	}
}

func (s *Sheet) links(list []Link) {
	if len(list) == 0 {
		return
	}
	s.put(`<hyperlinks>`)
	for _, l := range list {
		s.put(`<hyperlink ref="`, l.At, `"`)
		for _, a := range [3][2]string{{` r:id="`, l.ID}, {` location="`, l.Place}, {` tooltip="`, l.Tip}} {
			if a[1] != "" {
				s.put(a[0])
				s.buf = append(AppendValue(s.buf, a[1]), '"')
			}
		}
		s.put(`/>`)
		if len(s.buf) >= flushAt {
			s.flush()
		}
	}
	s.put(`</hyperlinks>`)
}

// page writes how the tab prints.
func (s *Sheet) page(t Tail) {
	s.put(`<pageMargins`)
	for _, m := range []struct {
		name string
		x    float64
	}{{"left", t.Side}, {"right", t.Side}, {"top", t.End}, {"bottom", t.End}, {"header", t.FooterAt}, {"footer", t.FooterAt}} {
		s.put(` `, m.name, `="`)
		s.number(m.x)
		s.put(`"`)
	}
	s.put(`/><pageSetup`)
	if !t.OnePage {
		s.put(` fitToHeight="0"`)
	}
	if t.Landscape {
		s.put(` orientation="landscape"/>`)
	} else {
		s.put(` orientation="portrait"/>`)
	}
	if t.Footer != "" {
		s.put(`<headerFooter><oddFooter>`)
		s.buf = AppendText(s.buf, t.Footer)
		s.put(`</oddFooter></headerFooter>`)
	}
}
