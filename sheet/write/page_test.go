package write

import (
	"archive/zip"
	"bytes"
	"image"
	"image/png"
	"io"
	"math"
	"path"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	_ "dryfit/check/steady"
	"dryfit/sheet/graft"
	"dryfit/sheet/graft/splice"
)

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// fullPage has all that a page can have.
func fullPage(t testing.TB) *Page {
	t.Helper()
	p := NewPage("A 'full' page", "Title & all", "what it is for")
	p.Wide, p.Frozen, p.Repeated, p.Filter, p.Area = true, 4, "4:4", "A4:C6", "A1:C6"
	p.Widths, p.Hidden = []float64{20, 0, 12}, [2]int{4, 4}
	p.Add(Text("Head", HeadLook), Text("", HeadLook), Text("Day", HeadLook))
	p.Add(Text(" kept\nblank ", BodyLook), Number(1.5, Look{Format: "0.0000"}), Date(time.Date(2031, 3, 14, 12, 0, 0, 0, time.UTC), Look{Format: "d mmm yyyy"}))
	p.Add(Cell{Value: "■ HOLD", Formula: `IF(B5>1,"■ HOLD","● CLEAR")`, Look: Look{Bold: true}}, Cell{Value: 3.0, Formula: "B5*2", Look: Look{Format: "0.00"}},
		Cell{Value: math.Inf(1), Formula: "1/0"}, Text("hidden", PlainLook))
	p.Heights[5] = 30
	p.Merges = []string{"A1:C1"}
	p.words = "A6"
	p.notes = []note{{"A5", " a note\nof two lines"}}
	p.Links = []Link{{At: "A4", To: "'A ''full'' page'!A6", Tip: "down"}, {At: "C4", To: "job%201/list.xlsx#'Parts'!E14", Tip: "out", Outside: true}}
	var b bytes.Buffer
	must(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 8, 4))))
	p.Pictures = []Picture{{At: "B8", PNG: b.Bytes(), Width: 72, Height: 36, Alt: "a shelf"}}
	return p
}

func workbook(t testing.TB, pages ...*Page) []byte {
	t.Helper()
	tabs, err := Assemble(pages...)
	must(t, err)
	data, err := graft.New(tabs)
	must(t, err)
	return data
}

// partOf is one part of a workbook.
func partOf(t testing.TB, data []byte, name string) string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	must(t, err)
	r, err := z.Open(name)
	must(t, err)
	defer r.Close()
	text, err := io.ReadAll(r)
	must(t, err)
	return string(text)
}

// TestPageIsReadBack reads every feature of a page with a library that did not write it, out of
// a workbook of its own and out of one that it was grafted into.
func TestPageIsReadBack(t *testing.T) {
	const tab = "A 'full' page"
	tabs, err := Assemble(fullPage(t))
	must(t, err)
	var other bytes.Buffer
	must(t, excelize.NewFile().Write(&other))
	into, err := graft.Graft(other.Bytes(), tabs)
	must(t, err)
	must(t, graft.Verify(other.Bytes(), into))
	for name, data := range map[string][]byte{"alone": workbook(t, fullPage(t)), "grafted": into} {
		t.Run(name, func(t *testing.T) {
			f, err := excelize.OpenReader(bytes.NewReader(data))
			must(t, err)
			defer f.Close()
			said := map[string]any{}
			say := func(what string, v any, err error) {
				t.Helper()
				must(t, err)
				said[what] = v
			}
			for _, at := range []string{"A1", "A5", "B5", "C5", "A6", "B6", "C6"} {
				v, err := f.GetCellValue(tab, at)
				say(at, v, err)
			}
			for _, at := range []string{"A6", "B6"} {
				v, err := f.GetCellFormula(tab, at)
				say("="+at, v, err)
			}
			kind, err := f.GetCellType(tab, "A6")
			say("type A6", kind, err)
			kind, err = f.GetCellType(tab, "B6")
			say("type B6", kind, err)
			wide, err := f.GetColWidth(tab, "A")
			say("width A", wide, err)
			high, err := f.GetRowHeight(tab, 5)
			say("height 5", high, err)
			shown, err := f.GetColVisible(tab, "D")
			say("shown D", shown, err)
			merged, err := f.GetMergeCells(tab)
			must(t, err)
			said["merged"] = merged[0].GetStartAxis() + ":" + merged[0].GetEndAxis()
			notes, err := f.GetComments(tab)
			must(t, err)
			said["note"] = notes[0].Cell + notes[0].Paragraph[0].Text
			_, inside, err := f.GetCellHyperLink(tab, "A4")
			say("link", inside, err)
			_, outside, err := f.GetCellHyperLink(tab, "C4")
			say("link outside", outside, err)
			pictures, err := f.GetPictures(tab, "B8")
			must(t, err)
			said["picture"] = pictures[0].Format.AltText
			rules, err := f.GetConditionalFormats(tab)
			must(t, err)
			said["rules"] = len(rules["A6"])
			panes, err := f.GetPanes(tab)
			must(t, err)
			said["frozen"], said["selection"] = panes.YSplit, panes.Selection[0].SQRef
			layout, err := f.GetPageLayout(tab)
			must(t, err)
			said["print"] = *layout.Orientation
			names := map[string]string{}
			for _, n := range f.GetDefinedName() {
				if n.Scope == tab {
					names[n.Name] = n.RefersTo
				}
			}
			want := map[string]any{"A1": "Title & all", "A5": " kept\nblank ", "B5": "1.5000", "C5": "14 Mar 2031", "A6": "■ HOLD", "B6": "3.00", "C6": "",
				"=A6": `IF(B5>1,"■ HOLD","● CLEAR")`, "=B6": "B5*2", "type A6": excelize.CellTypeFormula, "type B6": excelize.CellTypeUnset,
				"width A": 20.0, "height 5": 30.0, "shown D": false, "merged": "A1:C1", "note": "A5 a note\nof two lines",
				"link": "'A ''full'' page'!A6", "link outside": "job%201/list.xlsx", "picture": "a shelf", "rules": 4,
				"frozen": 4, "selection": "A5", "print": "landscape"}
			if diff := cmp.Diff(want, said); diff != "" {
				t.Error(diff)
			}
			if diff := cmp.Diff(map[string]string{"_dryfit_tab": `"A 'full' page"`, "_xlnm._FilterDatabase": `'A ''full'' page'!$A$4:$C$6`,
				"_xlnm.Print_Area": `'A ''full'' page'!$A$1:$C$6`, "_xlnm.Print_Titles": `'A ''full'' page'!$4:$4`}, names); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// TestEveryPartIsSoundXML, with every prefix declared.
func TestEveryPartIsSoundXML(t *testing.T) {
	data := workbook(t, fullPage(t))
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	must(t, err)
	read := 0
	for _, f := range z.File {
		if path.Ext(f.Name) == ".png" {
			continue
		}
		if _, err := splice.Parse([]byte(partOf(t, data, f.Name))); err != nil {
			t.Errorf("%s: %v", f.Name, err)
		}
		read++
	}
	if read < 11 {
		t.Errorf("only %d parts", read)
	}
}

// Rows that are folded away stay so in the workbook, under the row above them, and a page
// begins where it was said to.
func TestFoldsAndBreaks(t *testing.T) {
	p := NewPage("tab", "Title", "purpose")
	for range 7 {
		p.Add(Text("x", BodyLook))
	}
	p.Folded, p.Breaks = [][2]int{{5, 6}}, []int{8}
	data := workbook(t, p)
	f, err := excelize.OpenReader(bytes.NewReader(data))
	must(t, err)
	defer f.Close()
	var hidden []int
	for row := 1; row <= len(p.Rows); row++ {
		seen, err := f.GetRowVisible("tab", row)
		must(t, err)
		level, err := f.GetRowOutlineLevel("tab", row)
		must(t, err)
		if seen == (level == 1) {
			t.Errorf("row %d: seen %v at level %d", row, seen, level)
		}
		if !seen {
			hidden = append(hidden, row)
		}
	}
	if !slices.Equal(hidden, []int{5, 6}) {
		t.Errorf("folded rows %v, want 5 and 6", hidden)
	}
	// ECMA-376 part 1, 18.3.1.3: id is the row above.
	if text := partOf(t, data, "xl/worksheets/sheet1.xml"); !strings.Contains(text, `<brk id="7" `) {
		t.Errorf("no page breaks below row 7: %s", text)
	}
}

// TestLooksAreReadBack in the formats of a workbook that has a theme.
func TestLooksAreReadBack(t *testing.T) {
	p := NewPage("looks", "t", "p")
	looks := []Look{HeadLook, TypeLook, LinkLook, {Centre: true, Line: true, Format: "0.0%"}, {Right: true, Under: true}, {Upward: true, Centre: true}, Shown(0).Look()}
	var cells []Cell
	for _, l := range looks {
		cells = append(cells, Text("x", l))
	}
	p.Add(cells...)
	tabs, err := Assemble(p)
	must(t, err)
	var other bytes.Buffer
	must(t, excelize.NewFile().Write(&other))
	data, err := graft.Graft(other.Bytes(), tabs)
	must(t, err)
	f, err := excelize.OpenReader(bytes.NewReader(data))
	must(t, err)
	defer f.Close()
	for i, l := range looks {
		id, err := f.GetCellStyle("looks", At(i+1, 4))
		must(t, err)
		s, err := f.GetStyle(id)
		must(t, err)
		got := Look{Ink: s.Font.Color, Bold: s.Font.Bold, Wrap: s.Alignment.WrapText, Right: s.Alignment.Horizontal == "right", Centre: s.Alignment.Horizontal == "center",
			Line: len(s.Border) == 4, Under: len(s.Border) == 1, Link: s.Font.Underline == "single", Upward: s.Alignment.TextRotation == 90, Typed: l.Typed}
		if s.Font.Size != 10 {
			got.Size = s.Font.Size
		}
		if s.Fill.Pattern == 1 {
			got.Fill = s.Fill.Color[0]
		}
		if s.CustomNumFmt != nil {
			got.Format = *s.CustomNumFmt
		}
		if got != l {
			t.Errorf("%+v is read as %+v", l, got)
		}
	}
}

// TestTextSurvives whatever its letters are, save those that a workbook cannot hold: what the
// library reads in a cell is what clean left.
func TestTextSurvives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "text")
		if rapid.Bool().Draw(t, "odd") {
			s += rapid.SampledFrom([]string{"_x000D_", "\r\n", "\a", " ", "\t", "]]>", "🪵", "\xff", "\uFFFE", "=1+1", "'", "_x0041\a"}).Draw(t, "tail")
		}
		p := &Page{Name: "t", Rows: [][]Cell{{Text(s, Look{})}}}
		tabs, err := Assemble(p)
		if err != nil {
			t.Fatal(err)
		}
		data, err := graft.New(tabs)
		if err != nil {
			t.Fatal(err)
		}
		f, err := excelize.OpenReader(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		got, err := f.GetCellValue("t", "A1")
		if err != nil {
			t.Fatal(err)
		}
		if want := strings.ToValidUTF8(clean(s), "\uFFFD"); got != want {
			t.Fatalf("%q is read as %q, want %q", s, got, want)
		}
	})
}

// TestLongText is cut between letters at what a cell holds: 32,767 UTF-16 units (the limit that
// spreadsheet programs name, from memory).
func TestLongText(t *testing.T) {
	for name, test := range map[string]struct {
		text string
		cut  bool
	}{
		"just fits":            {strings.Repeat("a", 32767), false},
		"one more":             {strings.Repeat("a", 32768), true},
		"three bytes a letter": {strings.Repeat("木", 32767), false},
		"two units a letter":   {strings.Repeat("🪵", 16384), true},
		"pairs that fit":       {strings.Repeat("🪵", 16383), false},
		"cut inside a pair":    {"a" + strings.Repeat("🪵", 20000), true},
	} {
		got := clean(test.text)
		units := len(utf16.Encode([]rune(got)))
		if units > 32767 || (got != test.text) != test.cut || strings.HasSuffix(got, "...") != test.cut || strings.Contains(got, "\uFFFD") {
			t.Errorf("%s: %d units, cut %v", name, units, got != test.text)
		}
		if test.cut && units < 32765 {
			t.Errorf("%s: cut to %d units, more would fit", name, units)
		}
	}
}

// TestLongTip is cut: it may be the path of a workbook.
func TestLongTip(t *testing.T) {
	p := fullPage(t)
	p.Links[1].Tip = strings.Repeat("folder/", 60)
	tree, err := splice.Parse([]byte(partOf(t, workbook(t, p), "xl/worksheets/sheet1.xml")))
	must(t, err)
	for l := range tree.Root().Child("hyperlinks").Named("hyperlink") {
		if tip, _ := l.Attr("tooltip"); len(tip) > 255 {
			t.Errorf("a tip of %d letters", len(tip))
		}
	}
}

// TestLaterRows stand behind those at hand, each as high as its text wants.
func TestLaterRows(t *testing.T) {
	p := NewPage("later", "t", "p")
	p.Widths = []float64{10}
	p.Later = func(yield func([]Cell) bool) {
		for _, s := range []string{"short", strings.Repeat("a long text ", 20)} {
			if !yield([]Cell{Text(s, BodyLook)}) {
				return
			}
		}
	}
	f, err := excelize.OpenReader(bytes.NewReader(workbook(t, p)))
	must(t, err)
	defer f.Close()
	short, err := f.GetRowHeight("later", 4)
	must(t, err)
	long, err := f.GetRowHeight("later", 5)
	must(t, err)
	if text, err := f.GetCellValue("later", "A5"); err != nil || !strings.HasPrefix(text, "a long text") || short != leastHeight || long < 5*short {
		t.Errorf("rows %g and %g high, the last holds %q, %v", short, long, text, err)
	}
}

// TestWhatCannotBeWritten is an error that names the place.
func TestWhatCannotBeWritten(t *testing.T) {
	for name, test := range map[string]struct {
		change func(*Page)
		says   string
	}{
		"a picture that is none":     {func(p *Page) { p.Pictures = []Picture{{At: "B2", PNG: []byte("GIF89a"), Width: 1, Height: 1}} }, "B2"},
		"a picture without a size":   {func(p *Page) { p.Pictures[0].Width = 0 }, "B8"},
		"a note beside the tab":      {func(p *Page) { p.notes[0].at = "5A" }, "5A"},
		"a value that no cell holds": {func(p *Page) { p.Rows[3] = []Cell{{}, {Value: time.Second}} }, "B4"},
		"two pages of one name":      {nil, "called"},
	} {
		p := fullPage(t)
		pages := []*Page{p, fullPage(t)}
		if test.change != nil {
			pages = pages[:1]
			test.change(p)
		}
		tabs, err := Assemble(pages...)
		if err == nil {
			_, err = graft.New(tabs)
		}
		if err == nil || !strings.Contains(err.Error(), test.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
