package graft

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"testing"

	"github.com/xuri/excelize/v2"
)

// sampleNames are the tabs of sampleBook: one streamed, one written cell by cell.
var sampleNames = []string{"dryfit", "dryfit rows"}

// must stops the test on an error.
func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// sampleBook makes result tabs with all that a result tab may hold.
func sampleBook(t testing.TB, note string) *excelize.File {
	t.Helper()
	f := excelize.NewFile()
	must(t, f.SetSheetName("Sheet1", sampleNames[0]))
	_, err := f.NewSheet(sampleNames[1])
	must(t, err)
	for _, tab := range sampleNames {
		decorate(t, f, tab, note)
	}
	styles := sampleStyles(t, f)
	sw, err := f.NewStreamWriter(sampleNames[0])
	must(t, err)
	must(t, sw.SetColWidth(1, 2, 24))
	must(t, sw.SetColStyle(7, 8, styles[3]))
	must(t, sw.SetPanes(&excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}))
	must(t, sw.SetRow("A1", []any{excelize.Cell{StyleID: styles[0], Value: "verdict <&>"}, excelize.Cell{StyleID: styles[0], Value: "value"}}))
	for r := 2; r <= 12; r++ {
		must(t, sw.SetRow(fmt.Sprintf("A%d", r), []any{fmt.Sprintf("row %d", r),
			excelize.Cell{StyleID: styles[1], Value: float64(r) / 8},
			excelize.Cell{StyleID: styles[2], Formula: fmt.Sprintf("B%d*2", r), Value: float64(r) / 4}}))
	}
	must(t, sw.SetRow("A14", []any{"total", 0.5}, excelize.RowOpts{StyleID: styles[2]}))
	must(t, sw.Flush())
	must(t, f.SetCellValue(sampleNames[1], "A1", "shared text"))
	must(t, f.SetCellRichText(sampleNames[1], "A2", []excelize.RichTextRun{{Text: "rich ", Font: &excelize.Font{Bold: true}}, {Text: "text"}}))
	must(t, f.SetCellStyle(sampleNames[1], "A1", "B1", styles[0]))
	must(t, f.SetCellValue(sampleNames[1], "B5", 0.25))
	must(t, f.SetCellStyle(sampleNames[1], "B5", "B5", styles[1]))
	must(t, f.SetPanes(sampleNames[1], &excelize.Panes{Freeze: true, XSplit: 1, YSplit: 1, TopLeftCell: "B2", ActivePane: "bottomRight"}))
	return f
}

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

func picture(t testing.TB) []byte {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, 12, 8))
	for i := range 12 {
		img.SetGray(i, i%8, color.Gray{Y: 200})
	}
	var b bytes.Buffer
	must(t, png.Encode(&b, img))
	return b.Bytes()
}

// sampleStyles are a header, a length, a formula cell to be typed over and a weight.
func sampleStyles(t testing.TB, f *excelize.File) []int {
	t.Helper()
	inches, pounds := `0.000" in"`, `0.0" lb"`
	var ids []int
	for _, s := range []*excelize.Style{
		{Font: &excelize.Font{Bold: true, Color: "#20303A", Size: 12, Family: "Calibri"}, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"#D8E2DC"}},
			Alignment: &excelize.Alignment{Horizontal: "center", WrapText: true}, Border: []excelize.Border{{Type: "bottom", Style: 2, Color: "#20303A"}}},
		{CustomNumFmt: &inches},
		{NumFmt: 2, Protection: &excelize.Protection{Locked: false}, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"#FFF6D6"}}},
		{CustomNumFmt: &pounds, Font: &excelize.Font{Italic: true}},
	} {
		id, err := f.NewStyle(s)
		must(t, err)
		ids = append(ids, id)
	}
	return ids
}

func sampleTabs(t testing.TB) Tabs {
	t.Helper()
	f := sampleBook(t, "a note")
	tabs, err := Take(f, sampleNames...)
	must(t, err)
	must(t, f.Close())
	return tabs
}
