package write

import (
	"fmt"
	"io"
	"strings"

	"dryfit/sheet/graft"
	"dryfit/sheet/typeset"
	"dryfit/sheet/write/part"
)

// Assemble makes pages ready to be grafted into a workbook; graft.New makes one of them alone.
func Assemble(pages ...*Page) (graft.Tabs, error) {
	var tabs graft.Tabs
	for _, p := range pages {
		tab, err := p.tab()
		if err != nil {
			return nil, fmt.Errorf("tab %q: %w", p.Name, err)
		}
		tabs = append(tabs, tab)
	}
	return tabs, nil
}

// tab makes the parts behind the page. The rows are written when it is known which numbers
// their looks have in the workbook.
func (p *Page) tab() (graft.Tab, error) {
	t := graft.Tab{Name: p.Name, Names: p.names()}
	tail := part.Tail{Filter: p.Filter, Merges: p.Merges, Landscape: p.Wide, OnePage: p.OnePage,
		Footer: "&L&F&C&A&R&P / &N", Side: marginSide, End: marginEnd, FooterAt: 0.25, Breaks: p.Breaks}
	refer := func(r graft.Ref) string {
		r.ID = part.RelationID(len(t.Refs) + 1)
		t.Refs = append(t.Refs, r)
		return r.ID
	}
	tail.Links = p.links(refer)
	if len(p.Pictures) > 0 {
		drawing, err := p.drawing()
		if err != nil {
			return t, err
		}
		tail.Drawing = refer(graft.Ref{Kind: "drawing", To: drawing})
	}
	if len(p.notes) > 0 {
		texts, shapes, err := p.noteParts()
		if err != nil {
			return t, err
		}
		tail.Notes = refer(graft.Ref{Kind: "vmlDrawing", To: shapes})
		refer(graft.Ref{Kind: "comments", To: texts})
	}
	t.Write = func(w io.Writer, in *graft.Place) error { return p.write(w, in, tail) }
	return t, nil
}

// names are what a spreadsheet program keeps of a tab in names: what is printed, and how.
func (p *Page) names() []graft.Name {
	var out []graft.Name
	for _, n := range []graft.Name{{Name: "_xlnm._FilterDatabase", RefersTo: p.Filter, Hidden: true},
		{Name: "_xlnm.Print_Area", RefersTo: p.Area}, {Name: "_xlnm.Print_Titles", RefersTo: p.Repeated}} {
		if n.RefersTo != "" {
			n.RefersTo = absolute(p.Name, n.RefersTo)
			out = append(out, n)
		}
	}
	return out
}

func (p *Page) links(refer func(graft.Ref) string) []part.Link {
	var out []part.Link
	for _, l := range p.Links {
		link := part.Link{At: l.At, Place: l.To, Tip: cleanTo(l.Tip, mostTip)}
		if l.Outside {
			file, place, _ := strings.Cut(l.To, "#")
			link.ID, link.Place = refer(graft.Ref{Kind: "hyperlink", Outside: file}), place
		}
		out = append(out, link)
	}
	return out
}

const pngBegins = "\x89PNG\r\n\x1a\n"

func (p *Page) drawing() (*graft.Part, error) {
	out := &graft.Part{Name: "drawings/drawing1.xml", Type: "application/vnd.openxmlformats-officedocument.drawing+xml"}
	var list []part.Picture
	for i, pic := range p.Pictures {
		if !strings.HasPrefix(string(pic.PNG[:min(len(pic.PNG), len(pngBegins))]), pngBegins) {
			return nil, fmt.Errorf("the picture at %s is no PNG", pic.At)
		}
		id := part.RelationID(i + 1)
		out.Refs = append(out.Refs, graft.Ref{ID: id, Kind: "image",
			To: &graft.Part{Name: "media/image1.png", Type: "image/png", Text: pic.PNG}})
		list = append(list, part.Picture{At: pic.At, ID: id, Width: pic.Width, Height: pic.Height, Alt: clean(pic.Alt)})
	}
	var err error
	out.Text, err = part.Drawing(list)
	return out, err
}

func (p *Page) noteParts() (texts, shapes *graft.Part, err error) {
	const dot = 0.75 // points
	notes := make([]part.Note, 0, len(p.notes))
	for _, n := range p.notes {
		notes = append(notes, part.Note{At: n.at, Text: clean(n.text), Width: dot * typeset.NoteWidth, Height: dot * float64(typeset.NoteHeight(n.text))})
	}
	texts = &graft.Part{Name: "comments1.xml", Type: "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml",
		Text: part.Notes("dryfit", part.NoteFont{Name: "Calibri", Size: typeset.NoteFace.Size}, notes)}
	shapes = &graft.Part{Name: "drawings/vmlDrawing1.vml", Type: "application/vnd.openxmlformats-officedocument.vmlDrawing"}
	shapes.Text, err = part.NoteShapes(notes, p.grid())
	return texts, shapes, err
}

// grid is how wide and high the cells are, points.
func (p *Page) grid() part.Grid {
	const width, height = 48, 15 // where nothing is said
	return part.Grid{
		Column: func(n int) float64 {
			if n >= p.Hidden[0] && n <= p.Hidden[1] {
				return 0
			}
			if w := p.column(n); w > 0 {
				return w
			}
			return width
		},
		Row: func(n int) float64 {
			if h := p.Heights[n]; h > 0 {
				return h
			}
			return height
		},
	}
}

// write writes the worksheet.
func (p *Page) write(w io.Writer, in *graft.Place, tail part.Tail) error {
	s := part.NewSheet(w, part.Head{Main: in.Main, Rels: in.Rels, Selected: in.Selected, Range: p.inUse(), Frozen: p.Frozen,
		Folds: len(p.Folded) > 0, Columns: p.columns()})
	styles := styles{in: in, at: map[Look]int{}}
	n := 0
	for row := range p.all() {
		n++
		height := p.Heights[n]
		if n > len(p.Rows) {
			height = p.needs(row, leastHeight)
		}
		s.Row(height, p.fold(n))
		for i := range row {
			if err := putCell(s, &row[i], styles.id(i, &row[i].Look)); err != nil {
				return fmt.Errorf("%s: %w", At(i+1, n), err)
			}
		}
	}
	if p.words != "" {
		tail.Rules = []part.Rules{{Ranges: strings.Fields(p.words), Equal: wordRules(in)}}
	}
	return s.Close(tail)
}

// putCell writes a cell: a text, a number, a truth, or nothing.
func putCell(s *part.Sheet, c *Cell, style int) error {
	value := c.Value
	if n, ok := value.(int); ok {
		value = float64(n)
	}
	switch v := value.(type) {
	case nil, string, float64, bool:
		if c.Formula != "" {
			s.Formula(style, c.Formula, v)
			return nil
		}
	default:
		return fmt.Errorf("a cell holds %v, a %T", v, v)
	}
	switch v := value.(type) {
	case float64:
		s.Number(style, v)
		return nil
	case bool:
		s.Truth(style, v)
		return nil
	case string:
		if v != "" {
			s.Text(style, v)
			return nil
		}
	}
	if style == 0 {
		s.Skip()
		return nil
	}
	s.Blank(style)
	return nil
}

// wordRules colour the verdict words that formulas may change.
func wordRules(in *graft.Place) []part.Equal {
	var out []part.Equal
	for _, m := range verdicts {
		out = append(out, part.Equal{Text: m.Word(), Format: in.Rule(m.rule())})
	}
	return out
}

// inUse is the range of the cells, "" where later rows may be any number.
func (p *Page) inUse() string {
	columns := 1
	for _, row := range p.Rows {
		columns = max(columns, len(row))
	}
	if p.Later != nil || len(p.Rows) == 0 {
		return ""
	}
	return "A1:" + At(columns, len(p.Rows))
}

func (p *Page) columns() []part.Column {
	out := make([]part.Column, max(len(p.Widths), p.Hidden[1]))
	for i := range out {
		if i < len(p.Widths) {
			out[i].Width = p.Widths[i]
		}
		out[i].Hidden = i+1 >= p.Hidden[0] && i < p.Hidden[1]
	}
	return out
}

// styles knows the numbers of looks in a workbook. Cells of one column mostly look like one of
// the last two above, and comparing looks is faster than finding one.
type styles struct {
	in    *graft.Place
	at    map[Look]int
	above [][2]styled // by column, the last one first
}

type styled struct {
	look Look
	id   int
}

func (s *styles) id(column int, l *Look) int {
	for column >= len(s.above) {
		s.above = append(s.above, [2]styled{})
	}
	above := &s.above[column]
	if above[0].look == *l {
		return above[0].id
	}
	above[0], above[1] = above[1], above[0]
	if above[0].look != *l {
		above[0] = styled{*l, s.find(*l)}
	}
	return above[0].id
}

func (s *styles) find(l Look) int {
	id, ok := s.at[l]
	if !ok && l != (Look{}) {
		id = s.in.Format(l.format())
		s.at[l] = id
	}
	return id
}
