package part

import (
	"bytes"
	"errors"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"dryfit/sheet/graft/splice"
)

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// full is a worksheet with all that one can hold.
func full(t testing.TB) []byte {
	var b bytes.Buffer
	s := NewSheet(&b, Head{Main: Main, Rels: Rels, Range: "A1:C3", Selected: true, Frozen: 2, Folds: true,
		Columns: []Column{{Width: 9.5}, {}, {Width: 3, Hidden: true}, {Hidden: true}}})
	s.Row(0, Open)
	s.Text(1, "a & b")
	s.Skip()
	s.Number(0, 0.1)
	s.Row(24, Folder)
	s.Formula(2, `IF(A1<"x",1,2)`, 2.5)
	s.Formula(0, `A1&"<"`, "a & b<")
	s.Formula(0, "A1=B1", true)
	s.Formula(0, "1/0", math.Inf(1))
	s.Formula(0, "B9", nil)
	s.Row(0, Folded)
	s.Blank(3)
	s.Number(4, math.NaN())
	s.Truth(0, true)
	must(t, s.Close(Tail{Filter: "A1:C3", Merges: []string{"A1:B1"}, Landscape: true, Footer: "&L&F", Side: 0.5, End: 1, FooterAt: 0.25,
		Rules:  []Rules{{Ranges: []string{"A1", "B2:B3"}, Equal: []Equal{{"HOLD", 7}, {`"so"`, 8}}}},
		Links:  []Link{{At: "A1", Place: "'T'!A1", Tip: `the "cell"`}, {At: "A2", ID: "rId1", Place: "'U'!B2"}},
		Breaks: []int{3}, Drawing: "rId2", Notes: "rId3"}))
	return b.Bytes()
}

// TestOrderOfElements is that of CT_Worksheet (ECMA-376 Part 1, 18.3.1.99).
func TestOrderOfElements(t *testing.T) {
	order := []string{"sheetPr", "dimension", "sheetViews", "sheetFormatPr", "cols", "sheetData", "autoFilter", "mergeCells",
		"conditionalFormatting", "hyperlinks", "pageMargins", "pageSetup", "headerFooter", "rowBreaks", "drawing", "legacyDrawing"}
	tree, err := splice.Parse(full(t))
	must(t, err)
	var got []string
	for e := range tree.Root().Children() {
		got = append(got, e.Name())
	}
	if !slices.Equal(got, order) {
		t.Errorf("elements are %v", got)
	}
}

// TestCells holds the cells as the format spells them (ECMA-376 Part 1, 18.3.1.4).
func TestCells(t *testing.T) {
	text := string(full(t))
	for _, want := range []string{
		`<cols><col min="1" max="1" width="9.5" customWidth="1"/><col min="3" max="3" width="3" customWidth="1" hidden="1"/><col min="4" max="4" hidden="1"/></cols>`,
		`<row r="1"><c r="A1" s="1" t="inlineStr"><is><t>a &amp; b</t></is></c><c r="C1"><v>0.1</v></c></row>`,
		`<row r="2" ht="24" customHeight="1" collapsed="1"><c r="A2" s="2"><f>IF(A1&lt;"x",1,2)</f><v>2.5</v></c>`,
		`<c r="B2" t="str"><f>A1&amp;"&lt;"</f><v>a &amp; b&lt;</v></c>`,
		`<c r="C2" t="b"><f>A1=B1</f><v>1</v></c><c r="D2"><f>1/0</f></c><c r="E2"><f>B9</f></c></row>`,
		`<row r="3" hidden="1" outlineLevel="1"><c r="A3" s="3"/><c r="B3" s="4"/><c r="C3" t="b"><v>1</v></c></row>`,
		`<pane ySplit="2" topLeftCell="A3" activePane="bottomLeft" state="frozen"/><selection pane="bottomLeft" activeCell="A3" sqref="A3"/>`,
		`<conditionalFormatting sqref="A1 B2:B3"><cfRule type="cellIs" dxfId="7" priority="1" operator="equal"><formula>"HOLD"</formula></cfRule><cfRule type="cellIs" dxfId="8" priority="2" operator="equal"><formula>"""so"""</formula></cfRule>`,
		`<hyperlink ref="A1" location="'T'!A1" tooltip="the &quot;cell&quot;"/><hyperlink ref="A2" r:id="rId1" location="'U'!B2"/>`,
		`<sheetPr><outlinePr summaryBelow="0"/><pageSetUpPr fitToPage="1"/></sheetPr>`,
		`<sheetFormatPr defaultRowHeight="15" outlineLevelRow="1"/>`,
		`<rowBreaks count="1" manualBreakCount="1"><brk id="2" max="16383" man="1"/></rowBreaks>`,
		`<oddFooter>&amp;L&amp;F</oddFooter>`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s in %s", want, text)
		}
	}
}

// TestManyRanges keeps what one rule names short, and no two rules share a priority.
func TestManyRanges(t *testing.T) {
	var b bytes.Buffer
	s := NewSheet(&b, Head{Main: Main, Rels: Rels})
	var ranges []string
	for n := range 2*mostRanges + 1 {
		ranges = append(ranges, Cell(1, n+1))
	}
	must(t, s.Close(Tail{Rules: []Rules{{Ranges: ranges, Equal: []Equal{{"a", 0}}}}}))
	tree, err := splice.Parse(b.Bytes())
	must(t, err)
	named := 0
	seen := map[string]bool{}
	for c := range tree.Root().Named("conditionalFormatting") {
		at, _ := c.Attr("sqref")
		named += len(strings.Fields(at))
		p, _ := c.Child("cfRule").Attr("priority")
		seen[p] = true
	}
	if named != len(ranges) || len(seen) != 3 {
		t.Errorf("%d ranges under %d priorities", named, len(seen))
	}
}

// TestLimits end the sheet with an error instead of a part that no program opens.
func TestLimits(t *testing.T) {
	s := NewSheet(io.Discard, Head{})
	for range MostRows + 1 {
		s.Row(0, Open)
	}
	if s.Close(Tail{}) == nil {
		t.Error("more rows than there are pass")
	}
	s = NewSheet(io.Discard, Head{})
	s.Row(0, Open)
	for range MostColumns + 1 {
		s.Blank(1)
	}
	if s.Close(Tail{}) == nil {
		t.Error("more columns than there are pass")
	}
	s = NewSheet(io.Discard, Head{})
	s.Row(0, Open)
	s.Formula(0, "A1", 3)
	if s.Close(Tail{}) == nil {
		t.Error("a value of another type passes")
	}
}

// TestPieces flushes long sheets piece by piece, and an error of the writer comes out.
func TestPieces(t *testing.T) {
	w := &counting{}
	s := NewSheet(w, Head{})
	for range 20_000 {
		s.Row(0, Open)
		s.Text(1, "a text of some letters")
	}
	must(t, s.Close(Tail{}))
	if w.calls < 10 || w.most > 2*flushAt {
		t.Errorf("%d pieces, the largest of %d bytes", w.calls, w.most)
	}
	s = NewSheet(noRoom{}, Head{})
	if err := s.Close(Tail{}); !errors.Is(err, errFull) {
		t.Errorf("got %v", err)
	}
}

type counting struct{ calls, most int }

func (c *counting) Write(b []byte) (int, error) {
	c.calls++
	c.most = max(c.most, len(b))
	return len(b), nil
}

var errFull = errors.New("full")

type noRoom struct{}

func (noRoom) Write([]byte) (int, error) { return 0, errFull }

// TestNoAllocation for a cell.
func TestNoAllocation(t *testing.T) {
	s := NewSheet(io.Discard, Head{})
	row := func() {
		s.Row(20, Open)
		s.Text(1, "a text & more")
		s.Number(2, 1.0/3)
		s.Formula(3, "A1*2", nil)
		s.Blank(4)
	}
	row()
	if n := testing.AllocsPerRun(1000, row); n > 0 {
		t.Errorf("%g allocations a row", n)
	}
}

// TestNotes are boxes beside their cells that end where their size says (ECMA-376 Part 4,
// 19.4.2.1, the anchor: column, pixels into it, row, pixels, twice).
func TestNotes(t *testing.T) {
	notes := []Note{{At: "B3", Text: " lead & end", Width: 96, Height: 45}}
	grid := Grid{Column: func(int) float64 { return 48 }, Row: func(int) float64 { return 15 }}
	shapes, err := NoteShapes(notes, grid)
	must(t, err)
	// By hand: from column 2 (C) 15 pixels in; 15 + 96/0.75 = 143 pixels are two columns of 64
	// and 15 more. 45 points are three rows.
	if want := `<x:Anchor>2, 15, 2, 0, 4, 15, 5, 0</x:Anchor>`; !strings.Contains(string(shapes), want) {
		t.Errorf("no %s in %s", want, shapes)
	}
	for _, text := range [][]byte{shapes, Notes("a < b", NoteFont{"Calibri", 9}, notes)} {
		if _, err := splice.Parse(text); err != nil {
			t.Errorf("%v in %s", err, text)
		}
	}
	if _, err := NoteShapes([]Note{{At: "3B"}}, grid); err == nil {
		t.Error("a note at no cell passes")
	}
	many, err := NoteShapes(manyNotes(2100), grid)
	must(t, err)
	if !strings.Contains(string(many), `data="1,2,3"`) || !strings.Contains(string(many), `id="_x0000_s3124"`) {
		t.Error("the id map does not cover the shapes")
	}
}

func manyNotes(n int) []Note {
	out := make([]Note, n)
	for i := range out {
		out[i] = Note{At: Cell(1, i+1), Width: 10, Height: 10}
	}
	return out
}

// TestDrawing is 12,700 English Metric Units a point (ECMA-376 Part 1, 20.1.2.1).
func TestDrawing(t *testing.T) {
	text, err := Drawing([]Picture{{At: "E2", ID: "rId1", Width: 72, Height: 36.5, Alt: `a "shelf" & more`}})
	must(t, err)
	for _, want := range []string{`<xdr:col>4</xdr:col>`, `<xdr:row>1</xdr:row>`, `<xdr:ext cx="914400" cy="463550"/>`, `descr="a &quot;shelf&quot; &amp; more"`, `r:embed="rId1"`} {
		if !strings.Contains(string(text), want) {
			t.Errorf("no %s in %s", want, text)
		}
	}
	if _, err := splice.Parse(text); err != nil {
		t.Error(err)
	}
	for _, bad := range []Picture{{At: "", Width: 1, Height: 1}, {At: "A1", Height: 1}, {At: "A1", Width: math.NaN(), Height: 1}} {
		if _, err := Drawing([]Picture{bad}); err == nil {
			t.Errorf("%v passes", bad)
		}
	}
}

// BenchmarkSheet writes 10,000 cells.
func BenchmarkSheet(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		s := NewSheet(io.Discard, Head{})
		for range 1000 {
			s.Row(18, Open)
			for range 5 {
				s.Text(12, "a text of some letters")
				s.Number(13, 0.15625)
			}
		}
		must(b, s.Close(Tail{}))
	}
}
