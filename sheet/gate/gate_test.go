package gate

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"
)

const (
	mainSpace = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	relSpace  = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	bookText  = `<workbook xmlns="` + mainSpace + `" xmlns:r="` + relSpace + `"><sheets><sheet name="Parts" sheetId="1" r:id="rId1"/></sheets></workbook>`
	sheetHead = `<worksheet xmlns="` + mainSpace + `"><sheetData>`
	sheetTail = `</sheetData></worksheet>`
	sheetName = "xl/worksheets/sheet1.xml"
)

// part is one entry of a package made by hand.
type part struct{ name, text string }

// workbook is a small sound package: two rows, one shared text.
func workbook() []part {
	return []part{
		{"[Content_Types].xml", `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`},
		{"_rels/.rels", `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"/>`},
		{"xl/workbook.xml", bookText},
		{sheetName, sheetHead + `<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1"><v>1.5</v></c></row><row r="2"><c r="A2"><v>2</v></c></row>` + sheetTail},
		{"xl/sharedStrings.xml", `<sst xmlns="` + mainSpace + `"><si><t>mark</t></si></sst>`},
	}
}

// with replaces or adds entries; an entry whose name is there already is replaced.
func with(list []part, more ...part) []part {
next:
	for _, p := range more {
		for i := range list {
			if list[i].name == p.name {
				list[i] = p
				continue next
			}
		}
		list = append(list, p)
	}
	return list
}

func sheet(rows string) []part {
	return with(workbook(), part{sheetName, sheetHead + rows + sheetTail})
}

func pack(list []part) []byte {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, p := range list {
		f, err := w.Create(p.name)
		if err == nil {
			_, err = io.WriteString(f, p.text)
		}
		if err != nil {
			panic(err)
		}
	}
	if err := w.Close(); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// patchCentral changes the 32-bit field at the offset in the central entry of a name.
func patchCentral(data []byte, name string, offset int, value uint32) []byte {
	for at := 0; ; {
		i := bytes.Index(data[at:], []byte("PK\x01\x02"))
		if i < 0 {
			panic("no such entry")
		}
		at += i
		if string(data[at+46:at+46+len(name)]) == name {
			binary.LittleEndian.PutUint32(data[at+offset:], value)
			return data
		}
		at += 4
	}
}

// zeros is a bomb: n bytes of blanks inside a comment.
func zeros(n int) string { return "<a><!--" + strings.Repeat(" ", n) + "--></a>" }

// TestHostile makes one file for each row of the table of hostile workbooks.
func TestHostile(t *testing.T) {
	noise := make([]byte, 4<<20)
	r := rand.NewChaCha8([32]byte{1})
	_, _ = r.Read(noise)
	tests := []struct {
		name string
		data func() []byte
		want string // part of the message
	}{
		{"empty file", func() []byte { return nil }, "file is empty"},
		{"web page", func() []byte { return []byte("<!DOCTYPE html><html><body>Sign in</body></html>") }, "web page"},
		{"web page without a type", func() []byte { return []byte("\xef\xbb\xbf <HTML><table>") }, "web page"},
		{"text", func() []byte { return []byte("mark,length\nA1,30\n") }, "not a workbook"},
		{"old form with tags", func() []byte {
			return []byte(`<?xml version="1.0"?><?mso-application progid="Excel.Sheet"?><Workbook/>`)
		}, "text file with tags"},
		{"encrypted or .xls", func() []byte { return []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + strings.Repeat("\x00", 600)) }, "without a password"},
		{"package cut off", func() []byte { d := pack(workbook()); return d[:len(d)/2] }, "damaged"},
		{"too large", func() []byte { return make([]byte, MaxFile+1) }, "more than the 64 MiB"},
		{"other package", func() []byte { return pack([]part{{"readme.txt", "hello"}}) }, "no workbook part"},
		{"other office format", func() []byte {
			return pack([]part{{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"}, {"content.xml", "<a/>"}})
		}, "another kind"},
		{"binary workbook", func() []byte { return pack([]part{{"xl/workbook.bin", "\x83\x01"}}) }, "binary"},
		{"no sheet part", func() []byte { return pack(workbook()[:3]) }, "no tab"},

		{"sheet cut off", func() []byte {
			return pack(with(workbook(), part{sheetName, sheetHead + `<row r="1"><c r="A1"><v>1</v></c></row>`}))
		}, "cut off"},
		{"sheet cut off in a tag", func() []byte { return pack(with(workbook(), part{sheetName, sheetHead + `<row r="1"><c r="A`})) }, "cut off"},
		{"sheet malformed midway", func() []byte { return pack(sheet(`<row r="1"><c r="A1"><v>1</c></v></row>`)) }, "was expected"},
		{"attribute without quotes", func() []byte { return pack(sheet(`<row r=1></row>`)) }, "no quotes"},
		{"attribute twice", func() []byte { return pack(sheet(`<row r="1" r="2"/>`)) }, "twice"},
		{"prefix not declared", func() []byte { return pack(sheet(`<x:row r="1"/>`)) }, "not declared"},
		{"two roots", func() []byte { return pack(with(workbook(), part{sheetName, sheetHead + sheetTail + "<b/>"})) }, "second root"},
		{"stray ampersand", func() []byte { return pack(sheet(`<row r="1"><c r="A1" t="str"><v>a & b</v></c></row>`)) }, "reference"},
		{"control character", func() []byte { return pack(sheet("<row r=\"1\"><c r=\"A1\"><v>\x01</v></c></row>")) }, "control"},
		{"bad UTF-8", func() []byte { return pack(sheet("<row r=\"1\"><c r=\"A1\"><v>\xff</v></c></row>")) }, "UTF-8"},
		{"shared index out of range", func() []byte { return pack(sheet(`<row r="3"><c r="B3" t="s"><v>7</v></c></row>`)) }, "cell B3 points at text 7, and there are 1"},
		{"shared index that is none", func() []byte { return pack(sheet(`<row r="1"><c r="A1" t="s"><v>x</v></c></row>`)) }, "cell A1"},

		{"entry twice", func() []byte { return pack(append(workbook(), part{sheetName, sheetHead + sheetTail})) }, "twice"},
		{"entry twice but for case", func() []byte { return pack(append(workbook(), part{"XL/worksheets/Sheet1.xml", "<a/>"})) }, "twice"},
		{"entry twice but for the slash", func() []byte { return pack(append(workbook(), part{`xl\worksheets\sheet1.xml`, "<a/>"})) }, "twice"},
		{"entry twice but for a leading slash", func() []byte { return pack(append(workbook(), part{"/" + sheetName, "<a/>"})) }, "twice"},
		{"entry that climbs out", func() []byte { return pack(append(workbook(), part{"../../etc/cron.d/x", "x"})) }, "leads out"},
		{"entry that climbs out by backslash", func() []byte { return pack(append(workbook(), part{`xl\..\..\x`, "x"})) }, "leads out"},
		{"entry on a drive", func() []byte { return pack(append(workbook(), part{`C:\x`, "x"})) }, "no name of a part"},
		{"entry with a line break", func() []byte { return pack(append(workbook(), part{"xl/a\nb.xml", "<a/>"})) }, "control character"},

		{"bomb of one part", func() []byte { return pack(with(workbook(), part{"xl/theme.xml", zeros(24 << 20)})) }, "times its size"},
		{"bomb of a part that is no XML", func() []byte { return pack(with(workbook(), part{"xl/media/a.png", strings.Repeat("\x00", 24<<20)})) }, "times its size"},
		{"bomb beside honest bytes", func() []byte {
			return pack(with(workbook(), part{"xl/theme.xml", zeros(32 << 20)}, part{"xl/media/a.png", string(noise[:1<<20])}))
		}, "part xl/theme.xml: unpacks"},
		{"bomb of many parts", func() []byte {
			list := workbook()
			for i := range 40 {
				list = append(list, part{fmt.Sprintf("xl/media/%d.bin", i), strings.Repeat("\x00", 1<<20)})
			}
			return pack(list)
		}, "times its size"},
		{"too much in all", func() []byte {
			list := workbook()
			for i := range 40 { // packs to about a sixteenth, far from a bomb
				list = append(list, part{fmt.Sprintf("xl/media/%d.bin", i), string(noise[:1<<18]) + strings.Repeat("\x00", 7<<19)})
			}
			return pack(list)
		}, "128 MiB"},
		{"size lies, too small", func() []byte { return patchCentral(pack(workbook()), sheetName, 24, 10) }, "not those that were packed"},
		{"size lies, too large", func() []byte { return patchCentral(pack(workbook()), sheetName, 24, 1<<31) }, "not those that were packed"},
		{"packed size lies", func() []byte { return patchCentral(pack(workbook()), sheetName, 20, 1<<30) }, "larger than the whole file"},
		{"checksum lies", func() []byte { return patchCentral(pack(workbook()), sheetName, 16, 7) }, "not those that were packed"},
		{"entries over each other", func() []byte {
			d := pack(with(workbook(), part{"xl/media/1.bin", string(noise[:1000])}, part{"xl/media/2.bin", string(noise[1000:2000])}))
			return patchCentral(d, "xl/media/2.bin", 20, 3000)
		}, "over each other"},
		{"encrypted entry", func() []byte { return patchCentral(pack(workbook()), sheetName, 6, 20|1<<16) }, "password"},
		{"odd packing", func() []byte { return patchCentral(pack(workbook()), sheetName, 8, 12<<16) }, "method 12"},
		{"too many entries", func() []byte {
			list := workbook()
			for i := range MaxEntries {
				list = append(list, part{fmt.Sprintf("xl/media/%d", i), ""})
			}
			return pack(list)
		}, "entries"},

		{"too many shared texts", func() []byte {
			var b strings.Builder
			b.WriteString(`<sst xmlns="` + mainSpace + `">`)
			for i := range MaxStrings + 1 {
				fmt.Fprintf(&b, "<si><t>%d</t></si>", i*7919)
			}
			return pack(with(workbook(), part{"xl/sharedStrings.xml", b.String() + "</sst>"}))
		}, "shared texts"},
		{"nested tags", func() []byte {
			return pack(sheet(strings.Repeat("<row>", 200_000) + strings.Repeat("</row>", 200_000)))
		}, "nest deeper"},
		{"endless tag", func() []byte {
			return pack(sheet(`<row r="` + string(bytes.Repeat([]byte("1234567 "), 1<<18)) + `"/>`))
		}, "one tag takes"},
		{"too many attributes", func() []byte {
			var b strings.Builder
			for i := range MaxAttrs + 1 {
				fmt.Fprintf(&b, ` a%d=""`, i)
			}
			return pack(sheet("<row" + b.String() + "/>"))
		}, "attributes"},
		{"entities", func() []byte {
			return pack(with(workbook(), part{"xl/sharedStrings.xml", `<!DOCTYPE s [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><sst>&b;</sst>`}))
		}, "document type"},
		{"external entity", func() []byte {
			return pack(with(workbook(), part{"docProps/app.xml", `<?xml version="1.0"?><!DOCTYPE s SYSTEM "http://127.0.0.1/x"><s/>`}))
		}, "document type"},

		{"value in the last cell", func() []byte { return pack(sheet(`<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>`)) }, "row 1048576"},
		{"value far right", func() []byte { return pack(sheet(`<row r="1"><c r="SG1"><v>1</v></c></row>`)) }, "column 501"},
		{"value far below", func() []byte {
			return pack(sheet(`<row r="100001"><c r="A100001" t="inlineStr"><is><t>x</t></is></c></row>`))
		}, "row 100001"},
		{"formats over an endless area", func() []byte {
			var b strings.Builder
			for i := 1; i <= 3000; i++ {
				fmt.Fprintf(&b, `<row r="%d"><c r="XFD%d" s="0"/></row>`, i, i)
			}
			return pack(sheet(b.String()))
		}, "area"},
		{"too many empty tabs of full height", func() []byte {
			list := workbook()
			for i := range 20 {
				list = append(list, part{fmt.Sprintf("xl/worksheets/far%d.xml", i), sheetHead + `<row r="1048576"/>` + sheetTail})
			}
			return pack(list)
		}, "area"},
		{"row 2e9", func() []byte { return pack(sheet(`<row r="2000000000"/>`)) }, `"2000000000"`},
		{"row 0", func() []byte { return pack(sheet(`<row r="0"/>`)) }, `"0"`},
		{"cell that is none", func() []byte { return pack(sheet(`<row r="1"><c r="XFE1"/></row>`)) }, `"XFE1"`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			err := Check(test.data())
			var fault *Fault
			if !errors.As(err, &fault) {
				t.Fatalf("got %v, want a fault that says %q", err, test.want)
			}
			if !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %q, want %q in it", err, test.want)
			}
			if fault.Remedy == "" || strings.ContainsAny(err.Error(), "\n\r") {
				t.Errorf("%q is not one line with a way out", err)
			}
		})
	}
}

// TestHarmless holds what some programs write and every library reads.
func TestHarmless(t *testing.T) {
	utf16Sheet := func() string {
		text := strings.Replace(`<?xml version="1.0" encoding="UTF-8"?>`+sheetHead+`<row r="1"><c r="A1" t="inlineStr"><is><t>Büro ½</t></is></c></row>`+sheetTail, "UTF-8", "UTF-16", 1)
		b := []byte{0xff, 0xfe}
		for _, u := range utf16.Encode([]rune(text)) {
			b = binary.LittleEndian.AppendUint16(b, u)
		}
		return string(b)
	}
	tests := []struct {
		name string
		list []part
	}{
		{"plain", workbook()},
		{"dimension of a whole tab", with(workbook(), part{sheetName, `<worksheet xmlns="` + mainSpace + `"><dimension ref="A1:XFD1048576"/><sheetData/></worksheet>`})},
		{"a million empty rows", sheet(strings.Repeat("<row/>", 1_000_000))},
		{"a format in the last cell", sheet(`<row r="1048576"><c r="XFD1048576" s="0"/></row>`)},
		{"a value in the last row and column that are read", sheet(`<row r="100000"><c r="SF100000"><v>1</v></c></row>`)},
		{"rows and cells without numbers", sheet(`<row><c><v>1</v></c><c t="s"><v>0</v></c></row>`)},
		{"an empty shared cell", sheet(`<row r="1"><c r="A1" t="s"><v/></c></row>`)},
		{"UTF-16", with(workbook(), part{sheetName, utf16Sheet()})},
		{"byte order mark", with(workbook(), part{sheetName, "\xef\xbb\xbf" + sheetHead + sheetTail})},
		{"western letters", with(workbook(), part{sheetName, `<?xml version="1.0" encoding="windows-1252"?>` + sheetHead + "<row r=\"1\"><c r=\"A1\" t=\"str\"><v>\xbd</v></c></row>" + sheetTail})},
		{"comment, instruction, CDATA", sheet("<!-- a > b --><?x y?><row r=\"1\"><c r=\"A1\" t=\"str\"><v><![CDATA[<a> & ]] ]]></v></c></row>")},
		{"references", sheet(`<row r="1"><c r="A1" t="str"><v>&lt;&#189;&#x1F600;&quot;</v></c></row>`)},
		{"strict", with(workbook(), part{sheetName, `<x:worksheet xmlns:x="http://purl.oclc.org/ooxml/spreadsheetml/main"><x:sheetData/></x:worksheet>`})},
		{"backslashes", append(workbook(), part{`xl\worksheets\sheet2.xml`, sheetHead + sheetTail})},
		{"a drawing for notes that is no sound XML", append(workbook(), part{"xl/drawings/vmlDrawing1.vml", "<xml><br></xml>"})},
		{"a folder twice", append(workbook(), part{"xl/", ""}, part{"XL/", ""})},
		{"blanks in the last tag and in an end tag", sheet("<row\n r = '1'\t/><row r=\"2\"></row\n>")},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if err := Check(pack(test.list)); err != nil {
				t.Error(err)
			}
		})
	}
}

// TestWindow moves a tag, a reference and a letter over the edge of the window byte by byte.
func TestWindow(t *testing.T) {
	body := `<row r="1"><c r="A1" t="str"><v>½ &amp; &#x1F600; ½½</v></c></row><row r="2"/><!-- x --><row r="3"/>`
	for shift := range 140 {
		pad := strings.Repeat("a", 64<<10-len(sheetHead)-60-shift)
		data := pack(sheet(`<row r="1"><c r="A1" t="str"><v>` + pad + `</v></c></row>` + body))
		if err := Check(data); err != nil {
			t.Fatalf("shifted by %d: %v", shift, err)
		}
		if err := Check(pack(sheet(pad + body + "</c>"))); err == nil {
			t.Fatalf("shifted by %d: a stray end tag passes", shift)
		}
	}
}

// benchBook is a schedule of n rows as a spreadsheet program would save it.
func benchBook(b *testing.B, n int) []byte {
	f := excelize.NewFile()
	for r := 1; r <= n; r++ {
		row := []any{fmt.Sprintf("A-SH%d", r), "adjustable shelf", r % 7, 30.5, 11.25, 0.75, "birch ply", "front edge", "two coats"}
		if err := f.SetSheetRow("Sheet1", fmt.Sprintf("A%d", r), &row); err != nil {
			b.Fatal(err)
		}
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		b.Fatal(err)
	}
	return out.Bytes()
}

func BenchmarkCheck(b *testing.B) {
	for _, rows := range []int{300, 5000, 50000} {
		data := benchBook(b, rows)
		b.Run(fmt.Sprintf("gate/%d", rows), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := Check(data); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(fmt.Sprintf("read/%d", rows), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				read(b, data)
			}
		})
	}
}

// read opens and streams through the first tab with the library, for comparison.
func read(b *testing.B, data []byte) {
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	rows, err := f.Rows("Sheet1")
	if err != nil {
		b.Fatal(err)
	}
	for rows.Next() {
		if _, err := rows.Columns(excelize.Options{RawCellValue: true}); err != nil {
			b.Fatal(err)
		}
	}
}
