package graft

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"strings"
	"testing"

	"dryfit/sheet/graft/splice"
)

// sampleNames are the tabs of sampleTabs.
var sampleNames = []string{"dryfit", "dryfit rows"}

// must stops the test on an error.
func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// Formats of the sample: a header, a length, a formula cell to be typed over and a weight. The
// fill and the number format of two are those of a host made by hand.
var (
	headFormat = Format{Font: `<font><b/><sz val="12"/><color rgb="FF20303A"/><name val="Calibri"/><family val="2"/></font>`,
		Fill:    `<fill><patternFill patternType="solid"><fgColor rgb="FFD8E2DC"/></patternFill></fill>`,
		Border:  `<border><left/><right/><top/><bottom style="medium"><color rgb="FF20303A"/></bottom><diagonal/></border>`,
		Details: `<alignment horizontal="center" wrapText="1"/>`}
	lengthFormat = Format{Code: `0.000" in"`}
	typedFormat  = Format{Code: "0.00", Details: `<protection locked="0"/>`,
		Fill: `<fill><patternFill patternType="solid"><fgColor rgb="FFFFF6D6"/></patternFill></fill>`}
	weightFormat = Format{Code: `0.0" lb"`, Font: `<font><i/><color/><family val="2"/></font>`}
)

const badRule = `<dxf><font><color rgb="FF7A1020"/></font><fill><patternFill patternType="solid"><bgColor rgb="FFF3D9C4"/></patternFill></fill></dxf>`

// sampleTabs are result tabs with all that a result tab may hold.
func sampleTabs(t testing.TB) Tabs { return notedTabs(t, "a note") }

func notedTabs(t testing.TB, note string) Tabs {
	t.Helper()
	tabs := plainTabs(sampleNames...)
	for i := range tabs {
		refer(t, &tabs[i], note)
	}
	tabs[0].Write = sampleSheet(`<pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/><selection pane="bottomLeft" activeCell="A2" sqref="A2"/>`, streamedRows)
	tabs[1].Write = sampleSheet(`<pane xSplit="1" ySplit="1" topLeftCell="B2" activePane="bottomRight" state="frozen"/><selection pane="bottomRight" activeCell="B2" sqref="B2"/>`, func(in *Place) string {
		return fmt.Sprintf(`<row r="1"><c r="A1" s="%d" t="inlineStr"><is><t>text</t></is></c><c r="B1" s="%[1]d"/></row>`+
			`<row r="2"><c r="A2" t="inlineStr"><is><r><rPr><b/></rPr><t xml:space="preserve">rich </t></r><r><t>text</t></r></is></c></row>`+
			`<row r="5"><c r="B5" s="%d"><v>0.25</v></c></row>`, in.Format(headFormat), in.Format(lengthFormat))
	})
	return tabs
}

// plainTabs are tabs without anything on them.
func plainTabs(names ...string) Tabs {
	var tabs Tabs
	for _, name := range names {
		tabs = append(tabs, Tab{Name: name, Write: func(w io.Writer, in *Place) error {
			_, err := fmt.Fprintf(w, `<worksheet xmlns="%s"><sheetData/></worksheet>`, in.Main)
			return err
		}})
	}
	return tabs
}

// refer gives a tab names, a note, a picture and a link.
func refer(t testing.TB, tab *Tab, note string) {
	tab.Names = []Name{
		{Name: "_xlnm._FilterDatabase", RefersTo: "'" + tab.Name + "'!$A$1:$C$12", Hidden: true},
		{Name: "_xlnm.Print_Area", RefersTo: "'" + tab.Name + "'!$A$1:$E$12"},
		{Name: "_xlnm.Print_Titles", RefersTo: "'" + tab.Name + "'!$1:$1"}}
	texts := &Part{Name: "comments1.xml", Type: "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml",
		Text: []byte(`<comments xmlns="` + nsMain + `"><authors><author>dryfit</author></authors><commentList><comment ref="B2" authorId="0"><text><r><t xml:space="preserve">` + note + `</t></r></text></comment></commentList></comments>`)}
	shapes := &Part{Name: "drawings/vmlDrawing1.vml", Type: "application/vnd.openxmlformats-officedocument.vmlDrawing",
		Text: []byte(`<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel"><v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe"/>` +
			`<v:shape id="_x0000_s1025" type="#_x0000_t202" style="visibility:hidden"><x:ClientData ObjectType="Note"><x:Anchor>2, 15, 1, 0, 5, 0, 5, 0</x:Anchor><x:Row>1</x:Row><x:Column>1</x:Column></x:ClientData></v:shape></xml>`)}
	image := &Part{Name: "media/image1.png", Type: "image/png", Text: picture(t)}
	drawing := &Part{Name: "drawings/drawing1.xml", Type: "application/vnd.openxmlformats-officedocument.drawing+xml",
		Refs: []Ref{{ID: "rId1", Kind: "image", To: image}},
		Text: []byte(`<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing" xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" xmlns:r="` + nsRels + `"><xdr:oneCellAnchor><xdr:from><xdr:col>4</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>1</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:ext cx="114300" cy="76200"/>` +
			`<xdr:pic><xdr:nvPicPr><xdr:cNvPr id="2" name="Picture 1"/><xdr:cNvPicPr/></xdr:nvPicPr><xdr:blipFill><a:blip r:embed="rId1"/><a:stretch><a:fillRect/></a:stretch></xdr:blipFill><xdr:spPr><a:prstGeom prst="rect"><a:avLst/></a:prstGeom></xdr:spPr></xdr:pic><xdr:clientData/></xdr:oneCellAnchor></xdr:wsDr>`)}
	tab.Refs = []Ref{{ID: "rId1", Kind: "vmlDrawing", To: shapes}, {ID: "rId2", Kind: "comments", To: texts},
		{ID: "rId3", Kind: "hyperlink", Outside: "https://example.org/page?a=1&b=2"}, {ID: "rId4", Kind: "drawing", To: drawing}}
}

func streamedRows(in *Place) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<row r="1"><c r="A1" s="%d" t="inlineStr"><is><t>verdict &lt;&amp;&gt;</t></is></c><c r="B1" s="%[1]d" t="inlineStr"><is><t>value</t></is></c></row>`, in.Format(headFormat))
	for r := 2; r <= 12; r++ {
		fmt.Fprintf(&b, `<row r="%d"><c r="A%[1]d" t="inlineStr"><is><t>row %[1]d</t></is></c><c r="B%[1]d" s="%[2]d"><v>%[3]g</v></c><c r="C%[1]d" s="%[4]d"><f>B%[1]d*2</f><v>%[5]g</v></c></row>`,
			r, in.Format(lengthFormat), float64(r)/8, in.Format(typedFormat), float64(r)/4)
	}
	fmt.Fprintf(&b, `<row r="14" s="%d" customFormat="1"><c r="A14" t="inlineStr"><is><t>total</t></is></c><c r="B14"><v>0.5</v></c></row>`, in.Format(typedFormat))
	return b.String()
}

// sampleSheet writes a worksheet around some rows.
func sampleSheet(pane string, rows func(*Place) string) func(io.Writer, *Place) error {
	return func(w io.Writer, in *Place) error {
		selected := ""
		if in.Selected {
			selected = ` tabSelected="1"`
		}
		text := rows(in)
		_, err := fmt.Fprintf(w, `<worksheet xmlns="%s" xmlns:r="%s"><sheetViews><sheetView%s workbookViewId="0">%s</sheetView></sheetViews>`+
			`<cols><col min="1" max="2" width="24" customWidth="1"/><col min="7" max="8" width="9" style="%d"/></cols><sheetData>%s</sheetData><autoFilter ref="A1:C12"/>`+
			`<conditionalFormatting sqref="B2:B12"><cfRule type="cellIs" dxfId="%d" priority="1" operator="greaterThan"><formula>1</formula></cfRule></conditionalFormatting>`+
			`<conditionalFormatting sqref="C2:C12"><cfRule type="dataBar" priority="2"><dataBar><cfvo type="min"/><cfvo type="max"/><color rgb="FF4F7A8C"/></dataBar></cfRule></conditionalFormatting>`+
			`<dataValidations count="1"><dataValidation type="list" sqref="D2:D12"><formula1>"accept,ask"</formula1></dataValidation></dataValidations>`+
			`<hyperlinks><hyperlink ref="A3" r:id="rId3"/><hyperlink ref="A4" location="%s"/></hyperlinks><drawing r:id="rId4"/><legacyDrawing r:id="rId1"/></worksheet>`,
			in.Main, in.Rels, selected, pane, in.Format(weightFormat), text, in.Rule(badRule), splice.Escape("'dryfit rows'!A1"))
		return err
	}
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
