package read

import (
	"math"
	"regexp"
	"strings"

	"dryfit/check"
)

// forAll is a line of a tab that says what all of its parts are made of, or all that do one
// thing: "All parts 3/4 MDF U.N.O.", "All 3/4 birch ply, clear", "All backs 1/4 ply".
type forAll struct {
	material, finish check.Text
	role             check.Role // of the parts it speaks of; Unknown for all
}

var (
	allWords = set(`all alle alles tous toutes tout todo todos todas tutti tutte tutto wszystkie wszystko alla allt samtliga material materials matl stock
		werkstoff materiau materiale materiaal`)
	wholeWords = set(`part parts piece pieces panel panels member members teile bauteile pieces piezas pezzi elementy delen onderdelen delar detaljer`)
)

// readForAll takes a lone line that speaks of all parts.
func (f *partsFound) readForAll(c *Cell) {
	for _, piece := range linePieces.Split(c.Text(), -1) {
		f.readForAllPiece(c, piece)
	}
}

// linePieces part a title into what it says: "Bookcase - sizes in mm - all 3/4 ply".
var linePieces = regexp.MustCompile(`\s[-–—|]\s|;\s|\n|\.\s`)

func (f *partsFound) readForAllPiece(c *Cell, text string) {
	words := strings.Fields(fold(text))
	if len(words) < 3 || len(words) > 14 || !allWords[words[0]] {
		return
	}
	var a forAll
	if m := f.names.material(text); m != "" {
		a.material = check.Text{Text: m, From: c.From()}
	}
	if fin := f.names.finish(text); fin != "" {
		a.finish = check.Text{Text: fin, From: c.From()}
	}
	if !wholeWords[words[1]] {
		a.role = f.names.roles.of(words[1])
	}
	if a.material.Text != "" || a.finish.Text != "" {
		f.titles.forAll = append(f.titles.forAll, a)
	}
}

// saidOfAll finds what the lines of the tab say of a part of some role: a line about its
// role comes before one about all.
func (rr *rowReader) saidOfAll(role check.Role, text func(forAll) check.Text) check.Text {
	var all check.Text
	for _, a := range rr.forAll {
		switch t := text(a); {
		case t.Text == "":
		case a.role != check.Unknown && a.role == role:
			return t
		case a.role == check.Unknown && all.Text == "":
			all = t
		}
	}
	return all
}

// takeStock gives a part the material of the heading or the line above it, and the thickness
// that the material is called by, where its row says none; and its finish.
func (rr *rowReader) takeStock(p *check.Part) {
	if p.Role == check.NotAPart {
		return
	}
	if p.Finish.Text == "" {
		p.Finish = rr.saidOfAll(p.Role, func(a forAll) check.Text { return a.finish })
	}
	stock := rr.stock
	if stock.Text == "" {
		stock = rr.saidOfAll(p.Role, func(a forAll) check.Text { return a.material })
	}
	if p.Material.Text != "" || stock.Text == "" {
		return
	}
	p.Material = stock
	if rr.shop == nil {
		return
	}
	l, ok := rr.namedThickness(stock.Text)
	if !ok {
		return
	}
	x := l.In(p.Unit).Nominal
	switch {
	case !p.Thickness.Known && rr.blankThickness(p):
		p.Thickness = check.Exact(x).At(stock.From)
		p.Thickness.Why = "the material is called " + stock.Text
	case p.Thickness.Known && math.Abs(p.Thickness.Nominal-x) > .05*x: // of the same kind, another board
		p.Material.Text = strings.TrimSpace(stock.Text[len(leadingNumber.FindString(stock.Text)):])
	}
}

// blankThickness reports whether the row says nothing of the thickness, not even what nobody
// could read.
func (rr *rowReader) blankThickness(p *check.Part) bool {
	col := rr.find(fThick)
	if col == nil {
		return true
	}
	row, _, ok := rr.g.locate(p.Row.Addr)
	return ok && rr.g.At(row, col.col) == nil
}
