package graft

import (
	"fmt"
	"strings"
	"testing"

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
	if n := length(after.Child("numFmts")); n != 1 {
		t.Errorf("%d number formats; the host has ours already", n)
	}
	if got, want := length(after.Child("cellXfs"))-length(before.Child("cellXfs")), 3; got != want {
		t.Errorf("%d formats added, want %d", got, want)
	}
	for _, list := range []string{"fonts", "fills", "borders", "cellXfs", "dxfs"} {
		l := after.Child(list)
		if count, _ := l.Attr("count"); count != fmt.Sprint(length(l)) {
			t.Errorf("%s: count is %s of %d", list, count, length(l))
		}
	}
	respelled := repack(t, out, map[string]func(string) string{"xl/styles.xml": func(s string) string {
		s = strings.ReplaceAll(s, `<b val="1"/>`, `<b/>`)
		s = strings.ReplaceAll(s, `rgb="FF`, `rgb="00`)
		s = strings.ReplaceAll(s, ` applyFill="1"`, ` applyFill="1" pivotButton="0"`)
		return strings.ReplaceAll(s, ` wrapText="1"`, ` vertical="bottom" wrapText="true"`)
	}})
	again := grafted(t, respelled, sampleTabs(t))
	if unpackAll(t, again)["xl/styles.xml"] != unpackAll(t, respelled)["xl/styles.xml"] {
		t.Error("formats were added again after a save that spells them otherwise")
	}
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
