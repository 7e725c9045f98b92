package graft

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"
)

// Hosts are workbooks that stand for those of an office: what programs write, and the odd
// forms the format allows.

// entryText is one entry of a package written by hand. A name that ends in a slash is a
// folder; stored entries are not compressed.
type entryText struct {
	name, text string
	stored     bool
}

func pack(t testing.TB, list []entryText) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	must(t, w.SetComment("made by hand"))
	for _, e := range list {
		fh := &zip.FileHeader{Name: e.name, Method: zip.Deflate}
		if e.stored || strings.HasSuffix(e.name, "/") {
			fh.Method = zip.Store
		}
		f, err := w.CreateHeader(fh)
		must(t, err)
		_, err = io.WriteString(f, e.text)
		must(t, err)
	}
	must(t, w.Close())
	return b.Bytes()
}

// unpackAll reads a package back into a map of names to texts.
func unpackAll(t testing.TB, data []byte) map[string]string {
	t.Helper()
	zr, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	must(t, err)
	parts := map[string]string{}
	for _, f := range zr.File {
		if strings.HasSuffix(f.Name, "/") {
			continue
		}
		text, err := unpack(f)
		must(t, err)
		parts[f.Name] = string(text)
	}
	return parts
}

// repack writes a package again with some parts changed, as a foreign program would.
func repack(t testing.TB, data []byte, change map[string]func(string) string) []byte {
	t.Helper()
	zr, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	must(t, err)
	var list []entryText
	for _, f := range zr.File {
		text, err := unpack(f)
		must(t, err)
		e := entryText{name: f.Name, text: string(text)}
		if fn := change[f.Name]; fn != nil {
			if e.text = fn(e.text); e.text == "" {
				continue
			}
		}
		list = append(list, e)
	}
	for name, fn := range change {
		if _, ok := unpackAll(t, data)[name]; !ok {
			list = append(list, entryText{name: name, text: fn("")})
		}
	}
	return pack(t, list)
}

// shape is how a workbook is written by hand.
type shape struct {
	space, rels  string // namespaces; transitional when empty
	x            string // prefix of the workbook and styles parts, with its colon
	r            string // prefix of the relationships namespace, with its colon
	base         string // folder of the workbook part with its slash
	absolute     bool   // targets from the root
	backslash    bool   // entry names with backslashes
	noStyles     bool
	emptyStyles  bool
	lateRels     bool // the relationship prefix is declared on each sheet element only
	extraBook    string
	extraRels    string
	extraRoot    string
	extraContent string
	extraParts   []entryText
}

func handmade(t testing.TB, s shape) []byte {
	t.Helper()
	if s.space == "" {
		s.space = nsMain
	}
	if s.rels == "" {
		s.rels = nsRels
	}
	if s.r == "" {
		s.r = "r:"
	}
	target := func(name string) string {
		if s.absolute {
			return "/" + s.base + name
		}
		return name
	}
	x, xmlns := s.x, `xmlns="`+s.space+`"`
	if x != "" {
		xmlns = `xmlns:` + strings.TrimSuffix(x, ":") + `="` + s.space + `"`
	}
	declare := ` xmlns:` + strings.TrimSuffix(s.r, ":") + `="` + s.rels + `"`
	onRoot, onSheet := declare, ""
	if s.lateRels {
		onRoot, onSheet = "", declare
	}
	book := fmt.Sprintf(`<?xml version="1.0" encoding="UTF-8"?><%[1]sworkbook %[2]s%[3]s><%[1]sbookViews><%[1]sworkbookView activeTab="1"/></%[1]sbookViews>`+
		`<%[1]ssheets><%[1]ssheet name="Parts"%[4]s sheetId="1" %[5]sid="rId1"/><%[1]ssheet name="Site"%[4]s sheetId="7" %[5]sid="rId2"/></%[1]ssheets>%[6]s</%[1]sworkbook>`,
		x, xmlns, onRoot, onSheet, s.r, s.extraBook)
	sheet := func(selected string) string {
		return `<?xml version="1.0"?><worksheet xmlns="` + s.space + `"><sheetViews><sheetView` + selected + ` workbookViewId="0"/></sheetViews>` +
			`<sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>mark</t></is></c><c r="B1"><f>1+1</f><v>2</v></c></row></sheetData></worksheet>`
	}
	rel := func(id, kind, to string) string {
		return `<Relationship Id="` + id + `" Type="` + s.rels + `/` + kind + `" Target="` + to + `"/>`
	}
	rels := `<Relationships xmlns="` + nsPackage + `">` + rel("rId1", "worksheet", target("worksheets/sheet1.xml")) + rel("rId2", "worksheet", target("worksheets/sheet2.xml"))
	override := func(name, kind string) string {
		return `<Override PartName="/` + s.base + name + `" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.` + kind + `+xml"/>`
	}
	content := `<Types xmlns="` + nsContent + `"><Default Extension="rels" ContentType="` + typeRels + `"/><Default Extension="xml" ContentType="application/xml"/>` +
		override("workbook.xml", "sheet.main") + override("worksheets/sheet1.xml", "worksheet") + override("worksheets/sheet2.xml", "worksheet")
	list := []entryText{
		{name: contentTypes}, {name: "_rels/", text: ""},
		{name: "_rels/.rels", text: `<Relationships xmlns="` + nsPackage + `">` + rel("rId1", "officeDocument", "/"+s.base+"workbook.xml") + s.extraRoot + `</Relationships>`},
		{name: s.base + "workbook.xml", text: book},
		{name: s.base + "worksheets/sheet1.xml", text: sheet(""), stored: true},
		{name: s.base + "worksheets/sheet2.xml", text: sheet(` tabSelected="1"`)},
	}
	if !s.noStyles {
		rels += rel("rId3", "styles", target("styles.xml"))
		content += override("styles.xml", "styles")
		list = append(list, entryText{name: s.base + "styles.xml", text: handStyles(x, xmlns, s.emptyStyles)})
	}
	list[0].text = content + s.extraContent + `</Types>`
	list = append(list, entryText{name: s.base + "_rels/workbook.xml.rels", text: rels + s.extraRels + `</Relationships>`})
	list = append(list, s.extraParts...)
	if s.backslash {
		for i := range list {
			list[i].name = strings.ReplaceAll(list[i].name, "/", `\`)
		}
	}
	return pack(t, list)
}

func handStyles(x, xmlns string, empty bool) string {
	text := `<%[1]sstyleSheet %[2]s><%[1]snumFmts count="1"><%[1]snumFmt numFmtId="171" formatCode="0.000&quot; in&quot;"/></%[1]snumFmts>` +
		`<%[1]sfonts count="2"><%[1]sfont><%[1]ssz val="10"/><%[1]sname val="Arial"/></%[1]sfont><%[1]sfont><%[1]sb/></%[1]sfont></%[1]sfonts>` +
		`<%[1]sfills count="2"><%[1]sfill><%[1]spatternFill patternType="none"/></%[1]sfill><%[1]sfill><%[1]spatternFill patternType="gray125"/></%[1]sfill></%[1]sfills>` +
		`<%[1]sborders count="1"><%[1]sborder><%[1]sleft/></%[1]sborder></%[1]sborders>` +
		`<%[1]scellXfs count="2"><%[1]sxf numFmtId="0" fontId="0" fillId="0" borderId="0"/><%[1]sxf numFmtId="14" fontId="1" fillId="0" borderId="0"/></%[1]scellXfs>` +
		`<%[1]sdxfs count="0"/></%[1]sstyleSheet>`
	if empty {
		text = `<%[1]sstyleSheet %[2]s/>`
	}
	return fmt.Sprintf(text, x, xmlns)
}

func toUTF16(s string) string {
	b := []byte{0xff, 0xfe}
	for _, u := range utf16.Encode([]rune(strings.Replace(s, `"UTF-8"`, `"UTF-16"`, 1))) {
		b = binary.LittleEndian.AppendUint16(b, u)
	}
	return string(b)
}

// officeBook is a workbook with all that an office may keep in one.
func officeBook(t testing.TB) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	must(t, f.SetSheetName("Sheet1", "Parts"))
	_, err := f.NewSheet("Site notes")
	must(t, err)
	_, err = f.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Italic: true}})
	must(t, err)
	bold, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"#AACCEE"}}})
	must(t, err)
	must(t, f.SetSheetRow("Parts", "A1", &[]any{"mark", "qty", "length"}))
	for r := 2; r < 20; r++ {
		must(t, f.SetSheetRow("Parts", fmt.Sprintf("A%d", r), &[]any{fmt.Sprintf("B-SH%d", r), r, 28.5}))
	}
	must(t, f.SetCellStyle("Parts", "A1", "C1", bold))
	must(t, f.SetCellFormula("Parts", "D2", "B2*C2"))
	must(t, f.AddTable("Parts", &excelize.Table{Range: "A1:C19", Name: "schedule"}))
	must(t, f.AddChart("Site notes", "E1", &excelize.Chart{Type: excelize.Col, Series: []excelize.ChartSeries{{Name: "Parts!$B$1", Categories: "Parts!$A$2:$A$5", Values: "Parts!$B$2:$B$5"}}}))
	decorate(t, f, "Site notes", "the user's own note")
	must(t, f.SetDefinedName(&excelize.DefinedName{Name: "lengths", RefersTo: "Parts!$C$2:$C$19"}))
	f.SetActiveSheet(1)
	var b bytes.Buffer
	must(t, f.Write(&b))
	return b.Bytes()
}

// decorate puts onto a tab of the office what one can hold.
func decorate(t testing.TB, f *excelize.File, tab, note string) {
	t.Helper()
	bad, err := f.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Color: "#7A1020"},
		Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"#F3D9C4"}}})
	must(t, err)
	must(t, f.AddComment(tab, excelize.Comment{Cell: "B2", Author: "dryfit", Paragraph: []excelize.RichTextRun{{Text: note}}}))
	must(t, f.SetConditionalFormat(tab, "B2:B12", []excelize.ConditionalFormatOptions{{Type: "cell", Criteria: ">", Format: &bad, Value: "1"}}))
	must(t, f.SetConditionalFormat(tab, "C2:C12", []excelize.ConditionalFormatOptions{{Type: "data_bar", Criteria: "=",
		MinType: "min", MaxType: "max", BarColor: "#4F7A8C", BarSolid: true}}))
	must(t, f.SetCellHyperLink(tab, "A3", "https://example.org/page?a=1&b=2", "External"))
	must(t, f.SetCellHyperLink(tab, "A4", "'dryfit rows'!A1", "Location"))
	must(t, f.AddPictureFromBytes(tab, "E2", &excelize.Picture{Extension: ".png", File: picture(t)}))
	list := excelize.NewDataValidation(true)
	list.Sqref = "D2:D12"
	must(t, list.SetDropList([]string{"accept", "ask"}))
	must(t, f.AddDataValidation(tab, list))
	must(t, f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: "'" + tab + "'!$1:$1", Scope: tab}))
	must(t, f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", RefersTo: "'" + tab + "'!$A$1:$E$12", Scope: tab}))
	must(t, f.AutoFilter(tab, "A1:C12", nil))
}

// namedHost is a host with what Graft must make of it: "" for written, else part of the reason.
type namedHost struct {
	name   string
	data   []byte
	reason string
}

func hosts(t testing.TB) []namedHost {
	t.Helper()
	rel := func(kind, to string) string {
		return `<Relationship Id="rId9" Type="` + kind + `" Target="` + to + `"/>`
	}
	var empty bytes.Buffer
	must(t, excelize.NewFile().Write(&empty))
	plain := handmade(t, shape{base: "xl/"})
	return []namedHost{
		{"office", officeBook(t), ""},
		{"empty workbook", empty.Bytes(), ""},
		{"by hand", plain, ""},
		{"other prefix", handmade(t, shape{base: "xl/", x: "x:"}), ""},
		{"other prefix for relationships", handmade(t, shape{base: "xl/", r: "q:"}), ""},
		{"prefix declared on each tab", handmade(t, shape{base: "xl/", x: "x:", lateRels: true}), ""},
		{"prefix r for something else", handmade(t, shape{base: "xl/", r: "q:", lateRels: true, extraBook: `<calcPr xmlns:r="urn:other"/>`}), ""},
		{"workbook in the root", handmade(t, shape{}), ""},
		{"workbook in another folder", handmade(t, shape{base: "office/book/"}), ""},
		{"absolute targets", handmade(t, shape{base: "xl/", absolute: true}), ""},
		{"backslashes", handmade(t, shape{base: "xl/", backslash: true}), ""},
		{"no styles part", handmade(t, shape{base: "xl/", noStyles: true}), ""},
		{"no styles part, another prefix", handmade(t, shape{base: "xl/", noStyles: true, x: "x:"}), ""},
		{"styles relation without its part", handmade(t, shape{base: "xl/", noStyles: true, extraRels: rel(nsRels+"/styles", "styles.xml")}), ""},
		{"styles part without lists", handmade(t, shape{base: "xl/", emptyStyles: true, x: "x:"}), ""},
		{"strict", handmade(t, shape{base: "xl/", space: strictMain, rels: strictRels}), ""},
		{"names and links", handmade(t, shape{base: "xl/", extraBook: `<functionGroups/><definedNames><definedName name="a">Parts!$A$1</definedName></definedNames><calcPr calcId="1"/>`}), ""},
		{"no names yet, but calculation settings", handmade(t, shape{base: "xl/", extraBook: `<calcPr calcId="1"/><extLst><ext uri="u"/></extLst>`}), ""},
		{"UTF-16", repack(t, plain, map[string]func(string) string{"xl/workbook.xml": toUTF16, "xl/styles.xml": toUTF16}), ""},
		{"western letters", repack(t, plain, map[string]func(string) string{"xl/workbook.xml": func(s string) string {
			return strings.Replace(strings.Replace(s, "UTF-8", "windows-1252", 1), `"Site"`, "\"B\xfcro\"", 1)
		}}), ""},
		{"leftovers in the content types", handmade(t, shape{base: "xl/", extraContent: `<Override PartName="/xl/worksheets/sheet3.xml" ContentType="application/xml"/><Override PartName="/xl/comments1.xml" ContentType="text/xml"/>`}), ""},
		{"a folder with content", handmade(t, shape{base: "xl/", extraParts: []entryText{{name: "xl/", text: ""}}}), ""},

		{"empty file", nil, "no whole workbook"},
		{"cut off", plain[:len(plain)-40], "no whole workbook"},
		{"no workbook part", repack(t, plain, map[string]func(string) string{"xl/workbook.xml": func(string) string { return "" }}), "no workbook part"},
		{"entry twice", handmade(t, shape{base: "xl/", extraParts: []entryText{{name: "XL/Styles.xml", text: "<a/>"}}}), "two entries"},
		{"signed", handmade(t, shape{base: "xl/", extraRoot: rel("http://schemas.openxmlformats.org/package/2006/relationships/digital-signature/origin", "_xmlsignatures/origin.sigs")}), "signed"},
		{"locked structure", handmade(t, shape{base: "xl/", extraBook: `<workbookProtection lockStructure="true"/>`}), "locked"},
		{"locked for tracked changes", handmade(t, shape{base: "xl/", extraBook: `<workbookProtection lockRevision="1"/>`}), "tracked changes"},
		{"password to change", handmade(t, shape{base: "xl/", extraBook: `<fileSharing userName="office" reservationPassword="CC1A"/>`}), "password"},
		{"revision log", handmade(t, shape{base: "xl/", extraRels: rel(nsRels+"/revisionHeaders", "revisions/revisionHeaders.xml")}), "revision log"},
		{"document type", repack(t, plain, map[string]func(string) string{"xl/workbook.xml": func(s string) string {
			return strings.Replace(s, "?>", `?><!DOCTYPE workbook [<!ENTITY a "a">]>`, 1)
		}}), "document type"},
		{"undeclared prefix", repack(t, plain, map[string]func(string) string{"xl/styles.xml": func(s string) string {
			return strings.Replace(s, "<cellXfs", `<cellXfs z:a="1"`, 1)
		}}), "not declared"},
		{"a tab of that name", repack(t, plain, map[string]func(string) string{"xl/workbook.xml": func(s string) string {
			return strings.Replace(s, `"Site"`, `"DRYFIT rows"`, 1)
		}}), `a tab "DRYFIT rows" that is not ours`},
		{"binary workbook", repack(t, plain, map[string]func(string) string{contentTypes: func(s string) string {
			return strings.Replace(s, "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml", "application/vnd.ms-excel.sheet.binary.macroEnabled.main", 1)
		}}), "binary"},
	}
}
