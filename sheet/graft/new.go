package graft

import (
	"archive/zip"
	"bytes"
	"sync"
)

// New makes a workbook that holds the tabs and nothing else. The same tabs give the same bytes.
func New(tabs Tabs) ([]byte, error) {
	h, err := openHost(emptyBook())
	if err != nil {
		return nil, err
	}
	return h.graft(tabs)
}

// emptyBook is a workbook without a tab, to be grafted into. A program wants one that has tabs.
var emptyBook = sync.OnceValue(func() []byte {
	const head = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
	const typePrefix = "application/vnd.openxmlformats-officedocument.spreadsheetml."
	var b bytes.Buffer
	zw := zip.NewWriter(&b)
	for _, p := range [][2]string{
		{contentTypes, `<Types xmlns="` + nsContent + `"><Default Extension="rels" ContentType="` + typeRels + `"/><Default Extension="xml" ContentType="application/xml"/>` +
			`<Override PartName="/xl/workbook.xml" ContentType="` + typePrefix + `sheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="` + typeStyles + `"/></Types>`},
		{"_rels/.rels", `<Relationships xmlns="` + nsPackage + `"><Relationship Id="rId1" Type="` + nsRels + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", `<workbook xmlns="` + nsMain + `" xmlns:r="` + nsRels + `"><bookViews><workbookView xWindow="0" yWindow="0" windowWidth="24000" windowHeight="12000"/></bookViews><sheets></sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships xmlns="` + nsPackage + `"><Relationship Id="rId1" Type="` + nsRels + `/styles" Target="styles.xml"/></Relationships>`},
		{"xl/styles.xml", `<styleSheet xmlns="` + nsMain + `"><fonts count="1">` + seeds["fonts"][0] + `</fonts><fills count="2">` + seeds["fills"][0] + seeds["fills"][1] + `</fills>` +
			`<borders count="1">` + seeds["borders"][0] + `</borders><cellStyleXfs count="1">` + seeds["cellXfs"][0] + `</cellStyleXfs>` +
			`<cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs>` +
			`<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles><dxfs count="0"></dxfs></styleSheet>`},
	} {
		w, err := zw.CreateHeader(&zip.FileHeader{Name: p[0], Method: zip.Deflate})
		if err == nil {
			_, err = w.Write([]byte(head + p[1]))
		}
		if err != nil {
			panic(err) // only a buffer that cannot be written
		}
	}
	if err := zw.Close(); err != nil {
		panic(err)
	}
	return b.Bytes()
})
