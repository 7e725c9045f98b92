package graft

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"dryfit/sheet/graft/splice"
)

func root(t testing.TB, text string) splice.Elem {
	t.Helper()
	tree, err := splice.Parse([]byte(text))
	must(t, err)
	return tree.Root()
}

// TestMeaning holds spellings of one thing, as programs write them, and of different things.
// The defaults are those of ECMA-376 Part 1, 18.8.
func TestMeaning(t *testing.T) {
	tests := []struct {
		name, a, b string
		of         func(splice.Elem) string
		same       bool
	}{
		{"bold by default", `<font><b/></font>`, `<font><b val="1"/></font>`, meaning, true},
		{"bold as a word", `<font><b/></font>`, `<font><b val="true"/></font>`, meaning, true},
		{"not bold", `<font/>`, `<font><b val="0"/></font>`, meaning, true},
		{"bold or not", `<font><b/></font>`, `<font/>`, meaning, false},
		{"order of children", `<font><sz val="11"/><b/></font>`, `<font><b/><sz val="11"/></font>`, meaning, true},
		{"size with a point", `<font><sz val="11"/></font>`, `<font><sz val="11.0"/></font>`, meaning, true},
		{"size", `<font><sz val="11"/></font>`, `<font><sz val="12"/></font>`, meaning, false},
		{"name that is a number", `<font><name val="11"/></font>`, `<font><name val="11.0"/></font>`, meaning, false},
		{"single underline", `<font><u/></font>`, `<font><u val="single"/></font>`, meaning, true},
		{"double underline", `<font><u/></font>`, `<font><u val="double"/></font>`, meaning, false},
		{"baseline", `<font/>`, `<font><vertAlign val="baseline"/></font>`, meaning, true},
		{"colour without alpha", `<font><color rgb="FFA1B2C3"/></font>`, `<font><color rgb="00a1b2c3"/></font>`, meaning, true},
		{"colour", `<font><color rgb="FFA1B2C3"/></font>`, `<font><color rgb="FFA1B2C4"/></font>`, meaning, false},
		{"colour that names none", `<font><color/><i/></font>`, `<font><i/></font>`, meaning, true},
		{"theme colour or not", `<font><color theme="1"/></font>`, `<font><color indexed="1"/></font>`, meaning, false},
		{"no lines", `<border><left/><right/><top/><bottom/><diagonal/></border>`, `<border/>`, meaning, true},
		{"line of no style with a colour", `<border><left style="none"><color rgb="FF000000"/></left></border>`, `<border/>`, meaning, true},
		{"line", `<border><left style="thin"/></border>`, `<border><right style="thin"/></border>`, meaning, false},
		{"outline", `<border outline="1"/>`, `<border/>`, meaning, true},
		{"general alignment", `<xf><alignment horizontal="general" vertical="bottom" wrapText="0" textRotation="0" indent="0" shrinkToFit="0"/></xf>`, `<xf/>`, meaning, true},
		{"wrapped", `<xf><alignment wrapText="true"/></xf>`, `<xf><alignment wrapText="1" vertical="bottom"/></xf>`, meaning, true},
		{"wrapped or not", `<xf><alignment wrapText="1"/></xf>`, `<xf/>`, meaning, false},
		{"locked", `<xf><protection locked="1" hidden="0"/></xf>`, `<xf/>`, meaning, true},
		{"unlocked", `<xf><protection locked="0"/></xf>`, `<xf/>`, meaning, false},
		{"solid with a background", `<fill><patternFill patternType="solid"><fgColor rgb="FF00FF00"/><bgColor indexed="64"/></patternFill></fill>`,
			`<fill><patternFill patternType="solid"><fgColor rgb="FF00FF00"/></patternFill></fill>`, fillMeaning, true},
		{"gray with a background", `<fill><patternFill patternType="gray125"><bgColor indexed="64"/></patternFill></fill>`,
			`<fill><patternFill patternType="gray125"/></fill>`, fillMeaning, false},
		{"rule with a background", `<dxf><fill><patternFill patternType="solid"><bgColor rgb="FF00FF00"/></patternFill></fill></dxf>`,
			`<dxf><fill><patternFill><bgColor rgb="FF00FF00"/></patternFill></fill></dxf>`, dxfMeaning, true},
		{"rules with other backgrounds", `<dxf><fill><patternFill><bgColor rgb="FF00FF00"/></patternFill></fill></dxf>`,
			`<dxf><fill><patternFill><bgColor rgb="FF00FF01"/></patternFill></fill></dxf>`, dxfMeaning, false},
		{"rule with a number format of another number", `<dxf><numFmt numFmtId="164" formatCode="0.0"/></dxf>`, `<dxf><numFmt numFmtId="170" formatCode="0.0"/></dxf>`, dxfMeaning, true},
		{"gradient stops", `<fill><gradientFill><stop position="0"/><stop position="1"/></gradientFill></fill>`, `<fill><gradientFill><stop position="1"/><stop position="0"/></gradientFill></fill>`, fillMeaning, false},
		{"prefix", `<x:font xmlns:x="u"><x:b/></x:font>`, `<font><b/></font>`, meaning, true},
	}
	for _, test := range tests {
		a, b := test.of(root(t, test.a)), test.of(root(t, test.b))
		if (a == b) != test.same {
			t.Errorf("%s: %s and %s", test.name, a, b)
		}
	}
}

// TestFormatsReused finds our formats in a host that has them in another spelling, and adds
// each that is missing once.
func TestFormatsReused(t *testing.T) {
	host := handmade(t, shape{base: "xl/"})
	out := grafted(t, host, sampleTabs(t))
	before, after := partRoot(t, host, "xl/styles.xml"), partRoot(t, out, "xl/styles.xml")
	if n := length(after.Child("numFmts")); n != 2 {
		t.Errorf("%d number formats, want that of the host, which is one of ours, and our other", n)
	}
	if got, want := length(after.Child("cellXfs"))-length(before.Child("cellXfs")), 4; got != want {
		t.Errorf("%d formats added, want %d", got, want)
	}
	for _, list := range []string{"fonts", "fills", "borders", "cellXfs", "dxfs"} {
		l := after.Child(list)
		if count, _ := l.Attr("count"); count != fmt.Sprint(length(l)) {
			t.Errorf("%s: count is %s of %d", list, count, length(l))
		}
	}
	respelled := repack(t, out, map[string]func(string) string{"xl/styles.xml": func(s string) string {
		s = strings.ReplaceAll(s, `<b/>`, `<b val="1"/>`)
		s = strings.ReplaceAll(s, `rgb="FF`, `rgb="00`)
		s = strings.ReplaceAll(s, ` applyFill="1"`, ` applyFill="1" pivotButton="0"`)
		return strings.ReplaceAll(s, ` wrapText="1"`, ` vertical="bottom" wrapText="true"`)
	}})
	again := grafted(t, respelled, sampleTabs(t))
	if unpackAll(t, again)["xl/styles.xml"] != unpackAll(t, respelled)["xl/styles.xml"] {
		t.Error("formats were added again after a save that spells them otherwise")
	}
}

// TestStylesSeeded begins lists that are missing with the entries a workbook must have.
func TestStylesSeeded(t *testing.T) {
	for _, s := range []shape{{base: "xl/", emptyStyles: true}, {base: "xl/", noStyles: true}} {
		styles := partRoot(t, grafted(t, handmade(t, s), sampleTabs(t)), "xl/styles.xml")
		var kinds, lists []string
		for f := range styles.Child("fills").Named("fill") {
			kind, _ := f.Child("patternFill").Attr("patternType")
			kinds = append(kinds, kind)
		}
		if diff := cmp.Diff([]string{"none", "gray125", "solid", "solid"}, kinds); diff != "" {
			t.Error(diff)
		}
		for l := range styles.Children() {
			lists = append(lists, l.Name())
		}
		if diff := cmp.Diff([]string{"numFmts", "fonts", "fills", "borders", "cellXfs", "dxfs"}, lists); diff != "" {
			t.Error(diff)
		}
		for xf := range styles.Child("cellXfs").Named("xf") {
			if _, ok := xf.Attr("xfId"); ok {
				t.Errorf("%s points at a parent, and there is none", xf.Outer())
			}
		}
	}
}

// TestEmptyColour leaves out the colour that the library writes where none was asked for; some
// programs save it as black, and the format would come again at every run.
func TestEmptyColour(t *testing.T) {
	if s := unpackAll(t, grafted(t, handmade(t, shape{base: "xl/"}), sampleTabs(t)))["xl/styles.xml"]; !strings.Contains(s, `<font><i/><family val="2"/></font>`) {
		t.Errorf("the italic font has a colour, or is missing: %s", s)
	}
}

// TestListInserted puts a list that is missing where the schema wants it.
func TestListInserted(t *testing.T) {
	host := repack(t, handmade(t, shape{base: "xl/"}), map[string]func(string) string{"xl/styles.xml": func(s string) string {
		from, to := strings.Index(s, "<numFmts"), strings.Index(s, "<fonts")
		return s[:from] + s[to:]
	}})
	first := ""
	for l := range partRoot(t, grafted(t, host, sampleTabs(t)), "xl/styles.xml").Children() {
		first = l.Name()
		break
	}
	if first != "numFmts" {
		t.Errorf("the first list is %s", first)
	}
}

// TestNotReused keeps away from formats of the host that look like ours and are not: of
// another parent, with a quote prefix, locked.
func TestNotReused(t *testing.T) {
	tabs := plainTabs("dryfit")
	write := tabs[0].Write
	tabs[0].Write = func(w io.Writer, in *Place) error {
		in.Format(Format{Code: "0.00"}) // number 2 of those built in
		return write(w, in)
	}
	for _, test := range []struct {
		xf    string
		reuse bool
	}{
		{`<xf numFmtId="2" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/>`, true},
		{`<xf numFmtId="2" fontId="0" fillId="0" borderId="0"><alignment horizontal="general"/></xf>`, true},
		{`<xf numFmtId="2" fontId="0" fillId="0" borderId="0" xfId="1"/>`, false},
		{`<xf numFmtId="2" fontId="0" fillId="0" borderId="0" xfId="0" quotePrefix="1"/>`, false},
		{`<xf numFmtId="2" fontId="0" fillId="0" borderId="0" xfId="0"><protection locked="0"/></xf>`, false},
		{`<xf numFmtId="2" fontId="1" fillId="0" borderId="0" xfId="0"/>`, false},
		{`<xf numFmtId="4" fontId="0" fillId="0" borderId="0" xfId="0"/>`, false},
	} {
		host := repack(t, handmade(t, shape{base: "xl/"}), map[string]func(string) string{"xl/styles.xml": swap(t, "<cellXfs",
			`<cellStyleXfs count="2"><xf/><xf/></cellStyleXfs><cellXfs`)})
		host = edit(t, host, "xl/styles.xml", "</cellXfs>", test.xf+"</cellXfs>")
		n := length(partRoot(t, grafted(t, host, tabs), "xl/styles.xml").Child("cellXfs"))
		if (n == 3) != test.reuse {
			t.Errorf("%s: %d formats afterwards", test.xf, n)
		}
	}
}

// TestFormatsAsBuilt compares every format in our tabs with those in a workbook that was empty,
// as the library reads both: of cells, rows, columns and rules.
func TestFormatsAsBuilt(t *testing.T) {
	var empty bytes.Buffer
	must(t, excelize.NewFile().Write(&empty))
	built, err := excelize.OpenReader(bytes.NewReader(grafted(t, empty.Bytes(), sampleTabs(t))))
	must(t, err)
	defer built.Close()
	now, err := excelize.OpenReader(bytes.NewReader(grafted(t, officeBook(t), sampleTabs(t))))
	must(t, err)
	defer now.Close()
	moved := 0
	same := func(where string, a, b int, read func(*excelize.File, int) (*excelize.Style, error)) {
		t.Helper()
		want, err := read(built, a)
		must(t, err)
		got, err := read(now, b)
		must(t, err)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: %s", where, diff)
		}
		if a != b {
			moved++
		}
	}
	for _, tab := range sampleNames {
		for cell := range 15 * 8 {
			name, err := excelize.CoordinatesToCellName(cell%8+1, cell/8+1)
			must(t, err)
			a, err := built.GetCellStyle(tab, name)
			must(t, err)
			b, err := now.GetCellStyle(tab, name)
			must(t, err)
			same(tab+"!"+name, a, b, (*excelize.File).GetStyle)
		}
		a, err := built.GetColStyle(tab, "G")
		must(t, err)
		b, err := now.GetColStyle(tab, "G")
		must(t, err)
		same(tab+"!G", a, b, (*excelize.File).GetStyle)
		rules, err := built.GetConditionalFormats(tab)
		must(t, err)
		rulesNow, err := now.GetConditionalFormats(tab)
		must(t, err)
		for where, list := range rules {
			for i, rule := range list {
				if rule.Format != nil {
					same(tab+"!"+where, *rule.Format, *rulesNow[where][i].Format, (*excelize.File).GetConditionalStyle)
				}
			}
		}
	}
	if moved == 0 {
		t.Error("all numbers are the same in both: this test shows nothing")
	}
	want, got := rowStyles(t, built), rowStyles(t, now)
	for r := range want {
		same(fmt.Sprintf("row %d", r+1), want[r], got[r], (*excelize.File).GetStyle)
	}
}

func rowStyles(t *testing.T, f *excelize.File) []int {
	t.Helper()
	rows, err := f.Rows("dryfit")
	must(t, err)
	defer rows.Close()
	var ids []int
	for rows.Next() {
		ids = append(ids, rows.GetRowOpts().StyleID)
		_, err := rows.Columns()
		must(t, err)
	}
	return ids
}

func partRoot(t testing.TB, data []byte, name string) splice.Elem {
	t.Helper()
	return root(t, unpackAll(t, data)[name])
}

func length(e splice.Elem) int {
	n := 0
	for range e.Children() {
		n++
	}
	return n
}
