package read

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

var subMark = regexp.MustCompile(`^\s*(?:--+|–|—|-\s|•|·|>|→|\*\s|\+\s|└|↳|\.\.)\s*\S`)

// isMadeUp reports whether a part is one that layers below it may belong to.
func (rr *rowReader) isMadeUp(p *check.Part) bool {
	return p.Length.Known || p.Width.Known || p.Thickness.Known
}

// isLayer reports whether a row is a layer of the built-up part above: it is marked as one,
// or it has no mark and its words name a layer.
func (rr *rowReader) isLayer(p *check.Part, b *body) bool {
	if rr.parent == nil || rr.lines {
		return false
	}
	c, _ := rr.cell(b, fName)
	if c == nil {
		return false
	}
	shown := strings.TrimLeft(c.Shown(), " ")
	if shown != "" && !isLetter(rune(shown[0])) && !digit(shown[0]) && subMark.MatchString(shown) {
		return true
	}
	of := rr.parent.Mark.Text
	below := of != "" && len(p.Mark.Text) > len(of) && strings.HasPrefix(p.Mark.Text, of)
	if p.Mark.Text != "" && !below || !rr.parentSaysSo() {
		return false
	}
	if below {
		return true
	}
	if rr.find(fMark) == nil || rr.parent.Mark.Text == "" {
		return layerWord(c.Text()) && p.Thickness.Nominal < rr.parent.Thickness.Nominal || strings.HasPrefix(c.Shown(), "  ")
	}
	return true
}

// parentSaysSo reports whether the part above calls itself made up.
func (rr *rowReader) parentSaysSo() bool {
	text := " " + fold(rr.parent.Description.Text+" "+rr.parent.Material.Text+" "+rr.parent.Note.Text) + " "
	for _, w := range []string{" assy ", " assembly ", " make up ", " made up ", " makeup ", " built up ", " glue up ", " laminated ", " lam ", " of layers ", " see below ",
		" verleimt ", " aus lagen ", " lamelle ", " colle ", " assemble ", " laminado ", " laminato ", " incollato ", " klejony ", " klejona ", " verlijmd ", " limmad ", " sandwich ", " baugruppe ", " zespol ", " conjunto ", " insieme ", " sammansatt ", " samengesteld ", " skladany ", " compuesto ", " composto ", " compose "} {
		if strings.Contains(text, w) {
			return true
		}
	}
	return false
}

var layerWords = set(`skin skins core layer layers face faces nosing lip lipping strip decklage mittellage kern lage lagen anleimer
	ame parement pli alaise capa nucleo canto strato anima bordo warstwa rdzen okladzina laag kern lager karna ytskikt inner outer middle`)

func layerWord(text string) bool {
	for _, w := range strings.Fields(fold(text)) {
		if layerWords[w] {
			return true
		}
	}
	return false
}

var stripNames = set(`nosing lip lipping strip edge edging anleimer umleimer alaise chant canto bordo obrzeze kant kantlist list doklejka`)

// isStrip reports whether a sub-row is a strip along an edge, not a layer.
func isStrip(sub, of *check.Part) bool {
	for _, w := range strings.Fields(fold(sub.Description.Text)) {
		if stripNames[w] {
			return true
		}
	}
	return sub.Width.Known && of.Width.Known && sub.Width.Nominal < .4*of.Width.Nominal
}

// closeGroup hands over a part with the layers below it.
func (rr *rowReader) closeGroup() {
	if len(rr.group) > 1 {
		settle(rr.group[0], rr.group[1:])
	}
	for _, p := range rr.group {
		switch {
		case rr.referring[p]:
			rr.out.keep(p)
		case rr.out.add(p):
			rr.spent = append(rr.spent, p)
		}
	}
	rr.group = rr.group[:0]
}

// refers remembers that a part still waits for another.
func (rr *rowReader) refers(p *check.Part) {
	if rr.referring == nil {
		rr.referring = map[*check.Part]bool{}
	}
	rr.referring[p] = true
}

// settle gives a built-up part its layers, and finds out whether the quantities of the
// sub-rows are for one assembly or for all: the reading whose thicknesses add up to that of
// the part counts.
func settle(of *check.Part, subs []*check.Part) {
	each, all := 0., 0.
	divides, known := true, true
	n := of.Qty.Nominal
	for _, s := range subs {
		if !s.Qty.Known {
			known = false
			continue
		}
		divides = divides && n > 0 && math.Mod(s.Qty.Nominal, n) == 0
		if !isStrip(s, of) {
			t := length.Convert(s.Thickness.Nominal, s.Unit, of.Unit)
			each += s.Qty.Nominal * t
			all += s.Qty.Nominal / max(n, 1) * t
		}
	}
	inTotal := divides && n > 1
	switch {
	case near(all, of.Thickness) && !near(each, of.Thickness):
		inTotal = true
	case near(each, of.Thickness) && !near(all, of.Thickness):
		inTotal = false
	}
	of.Layers = nil
	for _, s := range subs {
		s.InTotal = inTotal
		l := check.Layer{Count: s.Qty, Thickness: s.Thickness.Scale(length.Convert(1, s.Unit, of.Unit)), Material: s.Material.Text, From: s.Row,
			Strip: isStrip(s, of), Width: s.Width.Scale(length.Convert(1, s.Unit, of.Unit)), Length: s.Length.Scale(length.Convert(1, s.Unit, of.Unit))}
		if inTotal && known && n > 0 {
			l.Count = s.Qty.Scale(1 / n)
		}
		of.Layers = append(of.Layers, l)
	}
}

var layerText = regexp.MustCompile(`(?i)\b(\d{1,2})\s*(?:x|×|\*)\s*((?:\d+[- ])?\d+/\d+|\d*[.,]?\d+)?\s*("|mm|in\b)?` +
	`|\b(?:(\d{1,2})\s*-?\s*(?:lyrs?|layers?|(ply|plies)|lagen?|lagig|couches?|plis|capas?|strati|warstw\w*|laags|skikt|lager)|(double|dbl|triple))\b` +
	`(?:\s*(?:of|à|de|di|z|av|von|van|@)?\s*((?:\d+[- ])?\d+/\d+|\d*[.,]?\d+)\s*("|mm|in\b)?)?` +
	`|\b(?:lam)\s*(\d)\b`)

// layersIn reads a build-up typed in words: "3 x 5/8 MDF", "3 lyr MDF", "2x3/4 ply", "3 ply".
func (rr *rowReader) layersIn(p *check.Part) {
	texts := []check.Text{p.Material}
	for _, col := range rr.cols {
		if col.field == fLayers && rr.last != p {
			texts = append([]check.Text{rr.layersCell(p, col)}, texts...)
		}
	}
	if rr.find(fMatl) == nil && !rr.anyLayers(p.Material.Text) {
		texts = append(texts, p.Description)
	}
	for _, t := range texts {
		if t.Text == "" || !strings.ContainsAny(t.Text, "0123456789") {
			continue
		}
		if l, ok := rr.layerIn(t, p); ok {
			if len(p.Layers) == 1 && p.Layers[0].Thickness.Known { // typed in the thickness itself
				l.Thickness = p.Layers[0].Thickness
			}
			p.Layers = []check.Layer{l}
			return
		}
	}
}

func (rr *rowReader) anyLayers(text string) bool { return layerText.MatchString(text) }

func (rr *rowReader) layersCell(p *check.Part, col *column) check.Text {
	row, _, _ := rr.g.locate(p.Row.Addr)
	if c := rr.g.At(row, col.col); c != nil {
		return check.Text{Text: c.Text(), From: c.From()}
	}
	return check.Text{}
}

// layerIn reads one build-up. A size such as 34 x 11 is none: a layer is no thicker than the
// part, and there are two to nine of them.
func (rr *rowReader) layerIn(t check.Text, p *check.Part) (check.Layer, bool) {
	found, ok := layerCountIn(t.Text, rr.unit)
	if n, bare := small([]byte(strings.TrimSpace(t.Text))); bare && t.Text != p.Material.Text {
		found, ok = layering{count: n}, n > 1 && n <= 9
	}
	if !ok && rr.shop != nil && t.Text == p.Material.Text {
		m, known, _ := rr.shop.Material(t.Text)
		found, ok = layering{count: m.Layers}, known && m.Layers > 1 && m.Layers <= 9
	}
	if !ok {
		return check.Layer{}, false
	}
	l := check.Layer{Count: check.Exact(float64(found.count)).At(t.From), Material: t.Text, From: t.From}
	n := float64(found.count)
	if !found.known {
		if p.Thickness.Known {
			if rr.namedPly(found, t.Text, p) {
				return check.Layer{}, false
			}
			each := p.Thickness.Scale(1 / n)
			l.Thickness = check.Guess(each.Low, each.Nominal, each.High, fmt.Sprintf("%d equal layers", found.count)).At(t.From)
		}
		return l, true
	}
	each := found.each.In(p.Unit).Nominal
	if p.Thickness.Known && each > 1.05*p.Thickness.Nominal || found.ply && !near(n*each, p.Thickness) {
		return check.Layer{}, false
	}
	l.Thickness = check.Exact(each).At(t.From)
	if !p.Thickness.Known {
		x := n * each
		p.Thickness = check.Guess(x, x, x, "made up as "+t.Text).At(t.From)
	}
	return l, true
}

// near reports whether a thickness is x, give or take a tenth.
func near(x float64, v check.Value) bool { return v.Known && math.Abs(x-v.Nominal) <= .1*v.Nominal }

// namedPly reports whether the plies are those of one board: "3/4 3-ply birch" that is 3/4
// thick is bought so.
func (rr *rowReader) namedPly(found layering, text string, p *check.Part) bool {
	if !found.ply {
		return false
	}
	l, err := length.Parse(leadingNumber.FindString(text), length.Context{Unit: rr.unit, Plain: true})
	return err == nil && near(l.In(p.Unit).Nominal, p.Thickness)
}

var leadingNumber = regexp.MustCompile(`^\s*(?:\d+[- ])?\d+(?:[./,]\d+)?\s*(?:"|mm\b|in\b)?`)

// layering is a count of layers and the thickness of one, if it is named.
type layering struct {
	count int
	each  length.Length
	known bool
	ply   bool // counted as plies, which may be those of a board
}

// layerCountIn finds "3 x 5/8", "2x3/4 ply", "3 lyr", "2 lyr 3/4" or "3-ply" in a text.
func layerCountIn(text string, unit length.Unit) (layering, bool) {
	for _, m := range layerText.FindAllStringSubmatch(text, -1) {
		var l layering
		typed := ""
		switch {
		case m[1] != "" && m[2] != "":
			l.count, _ = smallNumber(m[1])
			typed = m[2] + m[3]
		case m[4] != "" && !fractionBefore(text, m[0]):
			l.count, _ = smallNumber(m[4])
			l.ply, typed = m[5] != "", m[7]+m[8]
		case m[6] != "":
			l.count, typed = 2, m[7]+m[8]
			if strings.EqualFold(m[6], "triple") {
				l.count = 3
			}
			if typed == "" {
				continue // "double doors"
			}
		case m[9] != "":
			l.count, _ = smallNumber(m[9])
		}
		if typed != "" {
			each, err := length.Parse(typed, length.Context{Unit: unit, Plain: true})
			l.each, l.known = each, err == nil
			if !l.known || length.Convert(each.Nominal, each.Unit, length.Millimetre) > 60 {
				continue
			}
		}
		if l.count > 1 && l.count <= 9 {
			return l, true
		}
	}
	return layering{}, false
}

// fractionBefore keeps the 4 of "1/4 ply" and "3-ply" apart: behind a bar or a point it counts no layers.
func fractionBefore(text, match string) bool {
	at := strings.Index(text, match)
	return at > 0 && strings.ContainsRune("/.,⁄", rune(text[at-1]))
}

// smallNumber reads a whole number of a few digits.
func smallNumber(s string) (int, bool) { return small([]byte(s)) }
