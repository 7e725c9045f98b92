package part

import (
	"fmt"
	"math"
	"strconv"
)

// Picture is one picture of a drawing, its upper left corner in that of a cell.
type Picture struct {
	At            string
	ID            string  // of the relationship to the media part
	Width, Height float64 // points
	Alt           string  // what it shows, in words
}

// emuPerPoint is how many English Metric Units a point has (ECMA-376 Part 1, 20.1.2.1).
const emuPerPoint = 12700

const (
	drawingSpaces = `<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing" xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" xmlns:r="` + Rels + `">`
	onePicture    = `<xdr:oneCellAnchor><xdr:from><xdr:col>%[1]d</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>%[2]d</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:ext cx="%[3]d" cy="%[4]d"/>` +
		`<xdr:pic><xdr:nvPicPr><xdr:cNvPr id="%[5]d" name="Picture %[6]d" descr="%[7]s"/><xdr:cNvPicPr><a:picLocks noChangeAspect="1"/></xdr:cNvPicPr></xdr:nvPicPr>` +
		`<xdr:blipFill><a:blip r:embed="%[8]s"/><a:stretch><a:fillRect/></a:stretch></xdr:blipFill>` +
		`<xdr:spPr><a:xfrm><a:off x="0" y="0"/><a:ext cx="%[3]d" cy="%[4]d"/></a:xfrm><a:prstGeom prst="rect"><a:avLst/></a:prstGeom></xdr:spPr></xdr:pic><xdr:clientData/></xdr:oneCellAnchor>`
)

// Drawing writes the drawing of a tab (ECMA-376 Part 1, 20.5). It fails on a picture that is
// at no cell or has no size.
func Drawing(pictures []Picture) ([]byte, error) {
	b := append([]byte(declaration), drawingSpaces...)
	for i, p := range pictures {
		column, row, ok := ParseCell(p.At)
		if !ok {
			return nil, fmt.Errorf("a picture at %q, which is no cell", p.At)
		}
		if !(p.Width > 0 && p.Height > 0) {
			return nil, fmt.Errorf("the picture at %s is %g by %g points large", p.At, p.Width, p.Height)
		}
		b = fmt.Appendf(b, onePicture, column-1, row-1, emu(p.Width), emu(p.Height), i+2, i+1, AppendValue(nil, p.Alt), AppendValue(nil, p.ID))
	}
	return append(b, `</xdr:wsDr>`...), nil
}

func emu(points float64) int64 { return int64(math.Round(points * emuPerPoint)) }

// RelationID is the id of the nth relationship of a part.
func RelationID(n int) string { return "rId" + strconv.Itoa(n) }
