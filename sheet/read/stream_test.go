package read

import (
	"testing"
)

func gridOf(t *testing.T, sheet string, more ...[2]string) *Grid {
	t.Helper()
	s, err := openSource("x.xlsx", pack1(t, sheet, more...))
	if err != nil {
		t.Fatal(err)
	}
	g, err := s.grid(s.tabs[0])
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// The forms in which programs store one cell (ECMA-376 part 1, 18.3.1.4 and 18.18.11).
func TestCellForms(t *testing.T) {
	shared := [2]string{"xl/sharedStrings.xml", `<sst><si><t>plain</t></si>` +
		`<si><r><rPr><strike/></rPr><t>93 7/8</t></r><r><t xml:space="preserve"> 94</t></r></si>` +
		`<si><r><rPr><strike/></rPr><t>gone</t></r></si>` +
		`<si><r><rPr><strike val="0"/></rPr><t>kept</t></r><rPh sb="0" eb="1"><t>sound</t></rPh></si>` +
		`<si><t>two_x000D_lines &amp; more</t></si></sst>`}
	for _, test := range []struct {
		name, cell, want string
		kind             Kind
		struck           bool
	}{
		{"number", `<c r="A1"><v>0.75</v></c>`, "0.75", Number, false},
		{"number with an exponent", `<c r="A1"><v>1.5E2</v></c>`, "150", Number, false},
		{"shared text", `<c r="A1" t="s"><v>0</v></c>`, "plain", Words, false},
		{"struck run beside the new size", `<c r="A1" t="s"><v>1</v></c>`, "94", Words, false},
		{"all runs struck", `<c r="A1" t="s"><v>2</v></c>`, "gone", Words, true},
		{"a strike switched off, and how it sounds", `<c r="A1" t="s"><v>3</v></c>`, "kept", Words, false},
		{"escaped characters", `<c r="A1" t="s"><v>4</v></c>`, "twolines & more", Words, false},
		{"inline text", `<c r="A1" t="inlineStr"><is><t>in the cell</t></is></c>`, "in the cell", Words, false},
		{"text of a formula", `<c r="A1" t="str"><f>A2</f><v>ply</v></c>`, "ply", Words, false},
		{"truth", `<c r="A1" t="b"><v>1</v></c>`, "TRUE", Truth, false},
		{"error", `<c r="A1" t="e"><v>#N/A</v></c>`, "#N/A", Fault, false},
		{"a day of the strict form", `<c r="A1" t="d"><v>2026-03-04</v></c>`, "4-Mar", Number, false},
		{"a formula nobody calculated", `<c r="A1"><f>B1*2</f></c>`, "=B1*2", Pending, false},
		{"a formula with an empty value", `<c r="A1"><f>B1*2</f><v></v></c>`, "=B1*2", Pending, false},
		{"no address", `<c><v>7</v></c>`, "7", Number, false},
		{"no-break and figure spaces", `<c r="A1" t="inlineStr"><is><t>` + "\u00a01\u20071/2\u200b " + `</t></is></c>`, "1 1/2", Words, false},
	} {
		t.Run(test.name, func(t *testing.T) {
			g := gridOf(t, `<worksheet><sheetData><row r="1">`+test.cell+`</row></sheetData></worksheet>`, shared)
			c := g.At(1, 1)
			if c == nil {
				t.Fatal("the cell is blank")
			}
			if c.Text() != test.want || c.Kind != test.kind || c.Look.Struck != test.struck {
				t.Errorf("%q of kind %d, struck %v; want %q, %d, %v", c.Text(), c.Kind, c.Look.Struck, test.want, test.kind, test.struck)
			}
		})
	}
}

// Cells that show nothing are not in the grid.
func TestBlankCells(t *testing.T) {
	for _, cell := range []string{`<c r="A1"/>`, `<c r="A1" s="3"></c>`, `<c r="A1" t="str"><f>""</f><v></v></c>`,
		`<c r="A1" t="inlineStr"><is><t> </t></is></c>`, `<c r="XFD1"><v>5</v></c>`} {
		if g := gridOf(t, `<worksheet><sheetData><row r="1">`+cell+`</row></sheetData></worksheet>`); len(g.Rows) != 0 {
			t.Errorf("%s: a filled cell was read", cell)
		}
	}
}

func TestOutOfOrder(t *testing.T) {
	g := gridOf(t, `<worksheet><cols><col min="2" max="3" hidden="1"/></cols><sheetData>`+
		`<row r="5" hidden="1"><c r="C5"><v>3</v></c><c r="A5"><v>1</v></c></row>`+
		`<row r="2"><c r="B2"><v>2</v></c></row><row r="5"><c r="B5"><v>2</v></c></row>`+
		`</sheetData><mergeCells><mergeCell ref="A5:A7"/></mergeCells></worksheet>`)
	if len(g.Rows) != 2 || g.Rows[0].N != 2 || g.Rows[1].N != 5 || len(g.Rows[1].Cells) != 3 || !g.Rows[1].Hidden {
		t.Fatalf("rows are %+v", g.Rows)
	}
	if c := g.Anchor(7, 1); c == nil || c.Addr() != "A5" {
		t.Errorf("A7 shows %v, want the cell it is merged with", c)
	}
	if g.ColHidden(1) || !g.ColHidden(2) || !g.ColHidden(3) {
		t.Error("columns B and C are the hidden ones")
	}
}

// What a format shows (ECMA-376 part 1, 18.8.30 and 18.8.31).
func TestFormats(t *testing.T) {
	for _, test := range []struct {
		code string
		x    float64
		want string
	}{
		{"General", .75, "0.75"}, {"General", 95.5, "95.5"}, {"General", 1e15, "1E+15"}, {"0.00", .75, "0.75"}, {"0", 101, "101"},
		{"# ?/?", 1.875, "1 7/8"}, {"# ?/?", .75, "3/4"}, {"# ?/?", 12, "12"}, {"# ??/16", 2.3125, "2 5/16"}, {"#\\ ?/8", 2.5, "2 4/8"},
		{`0" mm"`, 19, "19 mm"}, {`0.0\"`, 11.25, `11.2"`}, {`"ca. "0`, 30, "ca. 30"}, {"d-mmm", 46085, "4-Mar"}, {"m/d/yyyy", 37989, "1/3/2004"},
		{"0%", .5, "50%"}, {"000", 7, "007"}, {"0;[Red]-0", 5, "5"},
	} {
		f := parseFormat(test.code)
		if got := f.show(test.x, false); got != test.want {
			t.Errorf("%v as %s is %q, want %q", test.x, test.code, got, test.want)
		}
	}
}
