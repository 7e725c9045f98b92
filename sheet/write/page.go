package write

import (
	"bytes"
	"fmt"
	"image/png"
	"iter"
	"slices"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"dryfit/sheet/typeset"
)

// Page is a tab while it is made up: cells row by row, and what hangs on them.
type Page struct {
	Name     string
	Rows     [][]Cell
	Later    iter.Seq[[]Cell] // rows behind Rows that are made one at a time; may be nil
	Heights  map[int]float64
	Widths   []float64
	notes    []note
	Links    []Link
	Merges   []string
	Pictures []Picture
	Frozen   int      // rows that stay in sight
	Repeated string   // rows printed on every page, such as 1:3
	Filter   string   // range with filter buttons
	Area     string   // print area
	Wide     bool     // landscape
	OnePage  bool     // printed on one page, however small
	Hidden   [2]int   // columns from..to that are folded away, 1-based; 0 for none
	Folded   [][2]int // rows from..to that are folded away under the row above them, 1-based
	Breaks   []int    // rows that begin a new printed page
	words    string   // range whose cells hold a verdict word that a formula may change
}

// Cell is one cell: a value or a formula with its cached value, and how it looks.
type Cell struct {
	Value   any
	Formula string
	Look    Look
}

type note struct{ at, text string }

// Link leads to a place in the same workbook, or to another file: a path that is relative to
// the folder of this one, escaped as in a URL, with #Tab!A1 behind it.
type Link struct {
	At, To, Tip string
	Outside     bool // To is another file
}

// Picture is a PNG with its upper left corner in a cell, shown Width by Height points. Alt says
// in words what it shows.
type Picture struct {
	At            string
	PNG           []byte
	Width, Height float64
	Alt           string
}

// Text is a cell that holds a text.
func Text(s string, l Look) Cell { return Cell{Value: clean(s), Look: l} }

// Number is a cell that holds a number.
func Number(x float64, l Look) Cell { return Cell{Value: x, Look: l} }

// Date is a cell that holds a moment as its own clock shows it; the look says how much of it is
// seen. The zero time is an empty cell.
func Date(t time.Time, l Look) Cell {
	if t.IsZero() {
		return Text("", l)
	}
	t = time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), 0, time.UTC)
	return Number(t.Sub(spreadsheetDays).Hours()/24, l)
}

// spreadsheetDays is the day from which spreadsheets count: two before 1900, as they take 1900
// for a leap year.
var spreadsheetDays = time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)

// mostUnits is the most UTF-16 units that a cell holds; what is longer would be cut in silence.
const mostUnits = 32767

// clean takes out what a workbook cannot hold: control characters and overlong text.
func clean(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\t' || r == 0xFFFE || r == 0xFFFF {
			return ' '
		}
		return r
	}, s)
	if len(s) > mostUnits {
		s = strings.ToValidUTF8(s[:mostUnits-3], "") + "..."
	}
	return s
}

// Add puts a row at the end and returns its number.
func (p *Page) Add(cells ...Cell) int {
	p.Rows = append(p.Rows, cells)
	return len(p.Rows)
}

// build writes the page into a workbook. Notes, rules and links go in before the rows are
// streamed, because the stream writer closes the tab.
func (p *Page) build(f *excelize.File, styles *styles) error {
	if _, err := f.NewSheet(p.Name); err != nil {
		return fmt.Errorf("tab %q: %w", p.Name, err)
	}
	for _, step := range []func(*excelize.File) error{p.putNotes, p.putLinks, p.putPictures, p.putRules, p.putPage} {
		if err := step(f); err != nil {
			return fmt.Errorf("tab %q: %w", p.Name, err)
		}
	}
	sw, err := f.NewStreamWriter(p.Name)
	if err != nil {
		return err
	}
	if err := p.stream(sw, styles); err != nil {
		return fmt.Errorf("tab %q: %w", p.Name, err)
	}
	return sw.Flush()
}

func (p *Page) putNotes(f *excelize.File) error {
	for _, n := range p.notes {
		err := f.AddComment(p.Name, excelize.Comment{Cell: n.at, Author: "dryfit", Width: typeset.NoteWidth, Height: typeset.NoteHeight(n.text),
			Paragraph: []excelize.RichTextRun{{Text: clean(n.text), Font: &excelize.Font{Size: typeset.NoteFace.Size, Family: "Calibri"}}}})
		if err != nil {
			return err
		}
	}
	return nil
}

func (p *Page) putLinks(f *excelize.File) error {
	for _, l := range p.Links {
		tip, kind := l.Tip, "Location"
		if l.Outside {
			kind = "External"
		}
		if err := f.SetCellHyperLink(p.Name, l.At, l.To, kind, excelize.HyperlinkOpts{Tooltip: &tip}); err != nil {
			return err
		}
	}
	return nil
}

func (p *Page) putPictures(f *excelize.File) error {
	const pointsPerPixel = 0.75
	for _, pic := range p.Pictures {
		c, err := png.DecodeConfig(bytes.NewReader(pic.PNG))
		if err != nil {
			return fmt.Errorf("picture at %s: %w", pic.At, err)
		}
		err = f.AddPictureFromBytes(p.Name, pic.At, &excelize.Picture{Extension: ".png", File: pic.PNG,
			Format: &excelize.GraphicOptions{AltText: pic.Alt, Positioning: "oneCell",
				ScaleX: pic.Width / pointsPerPixel / float64(c.Width), ScaleY: pic.Height / pointsPerPixel / float64(c.Height)}})
		if err != nil {
			return err
		}
	}
	return nil
}

// putRules colours the verdict words that formulas may change.
func (p *Page) putRules(f *excelize.File) error {
	if p.words == "" {
		return nil
	}
	var rules []excelize.ConditionalFormatOptions
	for _, v := range verdicts {
		id, err := f.NewConditionalStyle(&excelize.Style{Fill: solid(v.fill), Font: &excelize.Font{Color: v.ink, Bold: true}})
		if err != nil {
			return err
		}
		rules = append(rules, excelize.ConditionalFormatOptions{Type: "cell", Criteria: "==", Format: &id,
			Value: `"` + v.Word() + `"`})
	}
	for _, at := range strings.Fields(p.words) {
		if err := f.SetConditionalFormat(p.Name, at, rules); err != nil {
			return err
		}
	}
	return nil
}

// putPage sets how the tab prints: fit to the width, titles repeated, name and page below.
func (p *Page) putPage(f *excelize.File) error {
	orientation := "portrait"
	if p.Wide {
		orientation = "landscape"
	}
	if p.Filter != "" { // first: excelize drops the sheet properties when it sets a filter
		if err := f.AutoFilter(p.Name, p.Filter, nil); err != nil {
			return err
		}
	}
	for _, row := range p.Breaks {
		if err := f.InsertPageBreak(p.Name, At(1, row)); err != nil {
			return err
		}
	}
	fit, one, high, below := true, 1, 0, false
	if p.OnePage {
		high = 1
	}
	if err := f.SetSheetProps(p.Name, &excelize.SheetPropsOptions{FitToPage: &fit, OutlineSummaryBelow: &below}); err != nil {
		return err
	}
	if err := f.SetPageLayout(p.Name, &excelize.PageLayoutOptions{Orientation: &orientation, FitToWidth: &one, FitToHeight: &high}); err != nil {
		return err
	}
	side, end := marginSide, marginEnd
	if err := f.SetPageMargins(p.Name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &end, Bottom: &end}); err != nil {
		return err
	}
	if err := f.SetHeaderFooter(p.Name, &excelize.HeaderFooterOptions{OddFooter: "&L&F&C&A&R&P / &N"}); err != nil {
		return err
	}
	grid := false
	if err := f.SetSheetView(p.Name, 0, &excelize.ViewOptions{ShowGridLines: &grid}); err != nil {
		return err
	}
	for _, d := range []struct{ name, ref string }{{"_xlnm.Print_Area", p.Area}, {"_xlnm.Print_Titles", p.Repeated}} {
		if d.ref == "" {
			continue
		}
		if err := f.SetDefinedName(&excelize.DefinedName{Name: d.name, RefersTo: absolute(p.Name, d.ref), Scope: p.Name}); err != nil {
			return err
		}
	}
	return nil
}

// absolute writes 1:3 or A1:G9 as an absolute reference to a tab.
func absolute(tab, ref string) string {
	var out []string
	for _, part := range strings.Split(ref, ":") {
		letters := strings.TrimRight(part, "0123456789")
		s := ""
		if letters != "" {
			s = "$" + letters
		}
		if digits := part[len(letters):]; digits != "" {
			s += "$" + digits
		}
		out = append(out, s)
	}
	return Quote(tab) + "!" + strings.Join(out, ":")
}

// Quote writes the name of a tab for a formula.
func Quote(tab string) string { return "'" + strings.ReplaceAll(tab, "'", "''") + "'" }

func (p *Page) stream(sw *excelize.StreamWriter, st *styles) error {
	for i, w := range p.Widths {
		if w > 0 {
			if err := sw.SetColWidth(i+1, i+1, w); err != nil {
				return err
			}
		}
	}
	if p.Hidden[0] > 0 {
		if err := sw.SetColVisible(p.Hidden[0], p.Hidden[1], false); err != nil {
			return err
		}
	}
	if p.Frozen > 0 {
		top := fmt.Sprintf("A%d", p.Frozen+1)
		if err := sw.SetPanes(&excelize.Panes{Freeze: true, YSplit: p.Frozen, TopLeftCell: top, ActivePane: "bottomLeft",
			Selection: []excelize.Selection{{SQRef: top, ActiveCell: top, Pane: "bottomLeft"}}}); err != nil {
			return err
		}
	}
	n := 0
	for row := range p.all() {
		n++
		opts := excelize.RowOpts{Height: p.Heights[n]}
		if n > len(p.Rows) {
			opts.Height = p.needs(row, 18)
		}
		if p.folded(n) {
			opts.Hidden, opts.OutlineLevel = true, 1
		}
		if err := streamRow(sw, st, n, row, opts); err != nil {
			return err
		}
	}
	for _, m := range p.Merges {
		ends := strings.Split(m, ":")
		if err := sw.MergeCell(ends[0], ends[1]); err != nil {
			return err
		}
	}
	return nil
}

// all are the rows at hand and the later ones.
func (p *Page) all() iter.Seq[[]Cell] {
	return func(yield func([]Cell) bool) {
		for _, row := range p.Rows {
			if !yield(row) {
				return
			}
		}
		if p.Later != nil {
			p.Later(yield)
		}
	}
}

// folded reports whether a row is folded away.
func (p *Page) folded(row int) bool {
	return slices.ContainsFunc(p.Folded, func(f [2]int) bool { return f[0] <= row && row <= f[1] })
}

func streamRow(sw *excelize.StreamWriter, st *styles, n int, row []Cell, opts excelize.RowOpts) error {
	values := make([]any, len(row))
	for c, x := range row {
		id, err := st.id(x.Look)
		if err != nil {
			return err
		}
		values[c] = excelize.Cell{StyleID: id, Formula: x.Formula, Value: x.Value}
	}
	return sw.SetRow(fmt.Sprintf("A%d", n), values, opts)
}

// At is the address of a cell by column (1-based) and row.
func At(col, row int) string {
	s, err := excelize.CoordinatesToCellName(col, row)
	if err != nil {
		panic(err) // only a column or row of ours below 1
	}
	return s
}

// NewPage begins a tab with its title and a line that says what it is for.
func NewPage(name, title, purpose string) *Page {
	p := &Page{Name: name, Heights: map[int]float64{1: 26, 2: 15}}
	p.Add(Text(title, TitleLook))
	p.Add(Text(purpose, Look{Ink: Faint, Size: 9}))
	p.Add()
	return p
}
