package write

import (
	"fmt"
	"math"
	"strings"

	"github.com/xuri/excelize/v2"
)

// page is a tab while it is made up: cells row by row, and what hangs on them.
type page struct {
	name     string
	rows     [][]cell
	heights  map[int]float64
	widths   []float64
	notes    []note
	links    []link
	merges   []string
	frozen   int    // rows that stay in sight
	repeated string // rows printed on every page, such as 1:3
	filter   string // range with filter buttons
	area     string // print area
	wide     bool   // landscape
	hidden   [2]int // columns from..to that are folded away, 1-based; 0 for none
	words    string // range whose cells hold a verdict word that a formula may change
}

// cell is one cell: a value or a formula with its cached value, and how it looks.
type cell struct {
	value   any
	formula string
	look    look
}

type note struct{ at, text string }

// link leads to a place in the same workbook.
type link struct{ at, to, tip string }

func text(s string, l look) cell    { return cell{value: clean(s), look: l} }
func number(x float64, l look) cell { return cell{value: x, look: l} }

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
	s = strings.ReplaceAll(s, "_x", "_x005F_x")
	if len(s) > mostUnits {
		s = strings.ToValidUTF8(s[:mostUnits-3], "") + "..."
	}
	return s
}

// add puts a row at the end and returns its number.
func (p *page) add(cells ...cell) int {
	p.rows = append(p.rows, cells)
	return len(p.rows)
}

// tall sets the height of a row so that wrapped texts of the given widths (in characters)
// are seen whole.
func (p *page) tall(row int, least float64) {
	lines := 1
	for i, c := range p.rows[row-1] {
		s, ok := c.value.(string)
		if !ok || i >= len(p.widths) || p.widths[i] == 0 || !c.look.wrap {
			continue
		}
		lines = max(lines, wrapped(s, p.widths[i]*charsPerWidth-2))
	}
	p.heights[row] = math.Max(math.Max(least, 18), float64(lines)*lineHeight+5)
}

const (
	lineHeight = 13.5 // points, of the 10 point face the tabs are set in

	// charsPerWidth is how many letters of that face go into one unit of column width, which
	// is a digit of the 11 point face; measured over English text, and rounded down.
	charsPerWidth = 1.12
)

// wrapped counts the lines a text takes in a column so many characters wide.
func wrapped(s string, width float64) int {
	lines := 0
	for _, para := range strings.Split(s, "\n") {
		at := 0.0
		lines++
		for _, w := range strings.Fields(para) {
			l := float64(len([]rune(w)))
			if at > 0 && at+1+l > width-1 {
				lines++
				at = 0
			}
			at += l + 1
			for at > width {
				lines++
				at -= width
			}
		}
	}
	return lines
}

// build writes the page into a workbook. Notes, rules and links go in before the rows are
// streamed, because the stream writer closes the tab.
func (p *page) build(f *excelize.File, styles *styles) error {
	if _, err := f.NewSheet(p.name); err != nil {
		return fmt.Errorf("tab %q: %w", p.name, err)
	}
	for _, step := range []func(*excelize.File) error{p.putNotes, p.putLinks, p.putRules, p.putPage} {
		if err := step(f); err != nil {
			return fmt.Errorf("tab %q: %w", p.name, err)
		}
	}
	sw, err := f.NewStreamWriter(p.name)
	if err != nil {
		return err
	}
	if err := p.stream(sw, styles); err != nil {
		return fmt.Errorf("tab %q: %w", p.name, err)
	}
	return sw.Flush()
}

func (p *page) putNotes(f *excelize.File) error {
	for _, n := range p.notes {
		lines := wrapped(n.text, 46)
		err := f.AddComment(p.name, excelize.Comment{Cell: n.at, Author: "dryfit", Width: 320,
			Height:    uint(24 + 17*lines),
			Paragraph: []excelize.RichTextRun{{Text: clean(n.text)}}})
		if err != nil {
			return err
		}
	}
	return nil
}

func (p *page) putLinks(f *excelize.File) error {
	for _, l := range p.links {
		tip := l.tip
		if err := f.SetCellHyperLink(p.name, l.at, l.to, "Location", excelize.HyperlinkOpts{Tooltip: &tip}); err != nil {
			return err
		}
	}
	return nil
}

// putRules colours the verdict words that formulas may change.
func (p *page) putRules(f *excelize.File) error {
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
			Value: `"` + v.word() + `"`})
	}
	for _, at := range strings.Fields(p.words) {
		if err := f.SetConditionalFormat(p.name, at, rules); err != nil {
			return err
		}
	}
	return nil
}

// putPage sets how the tab prints: fit to the width, titles repeated, name and page below.
func (p *page) putPage(f *excelize.File) error {
	orientation := "portrait"
	if p.wide {
		orientation = "landscape"
	}
	if p.filter != "" { // first: excelize drops the sheet properties when it sets a filter
		if err := f.AutoFilter(p.name, p.filter, nil); err != nil {
			return err
		}
	}
	fit, one, none := true, 1, 0
	if err := f.SetSheetProps(p.name, &excelize.SheetPropsOptions{FitToPage: &fit}); err != nil {
		return err
	}
	if err := f.SetPageLayout(p.name, &excelize.PageLayoutOptions{Orientation: &orientation, FitToWidth: &one, FitToHeight: &none}); err != nil {
		return err
	}
	side, end := 0.45, 0.6
	if err := f.SetPageMargins(p.name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &end, Bottom: &end}); err != nil {
		return err
	}
	if err := f.SetHeaderFooter(p.name, &excelize.HeaderFooterOptions{OddFooter: "&L&F&C&A&R&P / &N"}); err != nil {
		return err
	}
	grid := false
	if err := f.SetSheetView(p.name, 0, &excelize.ViewOptions{ShowGridLines: &grid}); err != nil {
		return err
	}
	for _, d := range []struct{ name, ref string }{{"_xlnm.Print_Area", p.area}, {"_xlnm.Print_Titles", p.repeated}} {
		if d.ref == "" {
			continue
		}
		if err := f.SetDefinedName(&excelize.DefinedName{Name: d.name, RefersTo: absolute(p.name, d.ref), Scope: p.name}); err != nil {
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
	return quote(tab) + "!" + strings.Join(out, ":")
}

// quote writes the name of a tab for a formula.
func quote(tab string) string { return "'" + strings.ReplaceAll(tab, "'", "''") + "'" }

func (p *page) stream(sw *excelize.StreamWriter, st *styles) error {
	for i, w := range p.widths {
		if w > 0 {
			if err := sw.SetColWidth(i+1, i+1, w); err != nil {
				return err
			}
		}
	}
	if p.hidden[0] > 0 {
		if err := sw.SetColVisible(p.hidden[0], p.hidden[1], false); err != nil {
			return err
		}
	}
	if p.frozen > 0 {
		top := fmt.Sprintf("A%d", p.frozen+1)
		if err := sw.SetPanes(&excelize.Panes{Freeze: true, YSplit: p.frozen, TopLeftCell: top, ActivePane: "bottomLeft",
			Selection: []excelize.Selection{{SQRef: top, ActiveCell: top, Pane: "bottomLeft"}}}); err != nil {
			return err
		}
	}
	for i, row := range p.rows {
		values := make([]any, len(row))
		for c, x := range row {
			id, err := st.id(x.look)
			if err != nil {
				return err
			}
			values[c] = excelize.Cell{StyleID: id, Formula: x.formula, Value: x.value}
		}
		var opts []excelize.RowOpts
		if h := p.heights[i+1]; h > 0 {
			opts = append(opts, excelize.RowOpts{Height: h})
		}
		if err := sw.SetRow(fmt.Sprintf("A%d", i+1), values, opts...); err != nil {
			return err
		}
	}
	for _, m := range p.merges {
		ends := strings.Split(m, ":")
		if err := sw.MergeCell(ends[0], ends[1]); err != nil {
			return err
		}
	}
	return nil
}

// at is the address of a cell by column (1-based) and row.
func at(col, row int) string {
	s, err := excelize.CoordinatesToCellName(col, row)
	if err != nil {
		panic(err) // only a column or row of ours below 1
	}
	return s
}

// newPage begins a tab with its title and a line that says what it is for.
func newPage(name, title, purpose string) *page {
	p := &page{name: name, heights: map[int]float64{1: 26, 2: 15}}
	p.add(text(title, titleLook))
	p.add(text(purpose, look{ink: faint, size: 9}))
	p.add()
	return p
}
