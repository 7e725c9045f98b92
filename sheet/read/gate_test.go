package read

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strings"
	"testing"
)

// pack1 makes a workbook of one tab out of the XML of its sheet, with further or replaced
// parts.
func pack1(tb testing.TB, sheet string, more ...[2]string) []byte {
	tb.Helper()
	parts := [][2]string{
		{"[Content_Types].xml", `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>`},
		{"_rels/.rels", `<Relationships><Relationship Id="r1" Type="http://x/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", `<workbook xmlns:r="r"><sheets><sheet name="S" sheetId="1" r:id="rId1"/></sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships><Relationship Id="rId1" Type="http://x/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="http://x/sharedStrings" Target="sharedStrings.xml"/></Relationships>`},
		{"xl/worksheets/sheet1.xml", sheet},
	}
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, p := range append(parts, more...) {
		f, err := w.Create(p[0])
		if err != nil {
			tb.Fatal(err)
		}
		fmt.Fprint(f, p[1])
	}
	if err := w.Close(); err != nil {
		tb.Fatal(err)
	}
	return out.Bytes()
}

const twoParts = `<worksheet><sheetData>` +
	`<row r="1"><c r="A1" t="inlineStr"><is><t>Part</t></is></c><c r="B1" t="inlineStr"><is><t>Qty</t></is></c><c r="C1" t="inlineStr"><is><t>Length</t></is></c><c r="D1" t="inlineStr"><is><t>Width</t></is></c></row>` +
	`<row r="2"><c r="A2" t="inlineStr"><is><t>Side</t></is></c><c r="B2"><v>2</v></c><c r="C2"><v>30.5</v></c><c r="D2"><v>12</v></c></row>` +
	`<row r="3"><c r="A3" t="inlineStr"><is><t>Shelf</t></is></c><c r="B3"><v>%s</v></c><c r="C3" t="%s"><v>%s</v></c><c r="D3"><v>11</v></c></row>` +
	`</sheetData></worksheet>`

// Each of these files is read by lenient programs as something it is not.
func TestHostileFiles(t *testing.T) {
	sound := fmt.Sprintf(twoParts, "3", "n", "22.25")
	for _, test := range []struct {
		name string
		data []byte
		want string
	}{
		{"empty", nil, "empty"},
		{"a web page", []byte("<html><body>not found</body></html>"), "no .xlsx package"},
		{"encrypted or .xls", []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"), "without a password"},
		{"a cut zip", pack1(t, sound)[:200], "cut off"},
		{"a part twice", pack1(t, sound, [2]string{"xl/worksheets/sheet1.xml", sound}), "twice"},
		{"a part twice but for case", pack1(t, sound, [2]string{"xl/Worksheets/Sheet1.xml", sound}), "twice"},
		{"a part twice by a backslash", pack1(t, sound, [2]string{`xl\worksheets\sheet1.xml`, sound}), "twice"},
		{"shared texts with a document type", pack1(t, sound, [2]string{"xl/sharedStrings.xml", `<!DOCTYPE a [<!ENTITY b "c">]><sst/>`}), "document type"},
		{"nested without end", pack1(t, sound, [2]string{"xl/sharedStrings.xml", "<sst>" + strings.Repeat("<a>", 100)}), "deeper"},
		{"a bomb", pack1(t, sound, [2]string{"xl/sharedStrings.xml", "<sst>" + strings.Repeat(" ", 40<<20) + "</sst>"}), "unpacks"},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := Open("x.xlsx", test.data, nil)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error is %v, want one that says %q", err, test.want)
			}
		})
	}
}

// A tab that cannot be read to its end is not read at all, and says so; the book opens.
func TestCutTab(t *testing.T) {
	sound := fmt.Sprintf(twoParts, "3", "n", "22.25")
	b, err := Open("x.xlsx", pack1(t, sound), nil)
	if err != nil || b.Tabs[0].parts.Len() != 2 {
		t.Fatalf("the sound file: %v, %d parts", err, b.Tabs[0].parts.Len())
	}
	b, err = Open("x.xlsx", pack1(t, sound[:strings.Index(sound, `<c r="C3"`)]), nil)
	if err != nil {
		t.Fatal(err)
	}
	tab := b.Tabs[0]
	if tab.Kind != "ignored" || tab.parts.Len() != 0 || !strings.Contains(tab.Why, "cut off") || len(tab.Unread) != 1 {
		t.Errorf("a tab cut in the middle: kind %s, %d parts, why %q", tab.Kind, tab.parts.Len(), tab.Why)
	}
}

// One bad cell is named, and the other rows are read.
func TestBadCells(t *testing.T) {
	for _, test := range []struct{ name, kind, value, want string }{
		{"an index outside of the shared texts", "s", "77", "damaged"},
		{"not a number", "n", "NaN", "damaged"},
		{"too large a number", "n", "1e999", "damaged"},
		{"an error", "e", "#DIV/0!", "#DIV/0!"},
	} {
		t.Run(test.name, func(t *testing.T) {
			b, err := Open("x.xlsx", pack1(t, fmt.Sprintf(twoParts, "3", test.kind, test.value)), nil)
			if err != nil {
				t.Fatal(err)
			}
			tab := b.Tabs[0]
			if tab.parts.Len() != 2 || tab.parts.at(1).Length.Known {
				t.Fatalf("%d parts, want 2, the second without a length", tab.parts.Len())
			}
			if len(tab.Unread) != 1 || tab.Unread[0].Cell.Addr != "C3" || !strings.Contains(tab.Unread[0].Why, test.want) {
				t.Errorf("unread: %+v, want C3 with %q", tab.Unread, test.want)
			}
		})
	}
}

func FuzzSheet(f *testing.F) {
	f.Add(fmt.Sprintf(twoParts, "3", "n", "22.25"))
	f.Add(`<worksheet><cols><col min="1" max="3" hidden="1"/></cols><sheetData><row><c><f>1+1</f></c><c t="b"><v>1</v></c></row></sheetData><mergeCells><mergeCell ref="A1:B9"/></mergeCells></worksheet>`)
	f.Add(`<x:worksheet><x:sheetData><x:row r="9" hidden="1"><x:c r="ZZ9" t="d"><x:v>2026-03-04</x:v></x:c></x:row></x:sheetData></x:worksheet>`)
	f.Fuzz(func(t *testing.T, sheet string) {
		b, err := Open("x.xlsx", pack1(t, sheet), nil)
		if err != nil {
			return
		}
		var out bytes.Buffer
		Print(&out, []*Book{b})
		if err := JSON(&out, []*Book{b}); err != nil {
			t.Fatal(err)
		}
	})
}
