package length

import (
	"math"
)

// gathering collects the terms of one size, and of the sizes before it in a list.
type gathering struct {
	*finder
	sizes  []Size
	terms  []term
	again  map[int][]term // second statements, by the term they repeat
	chain  bool           // an x stands among the terms
	dashed bool           // a dash does
}

// assemble makes one Size, or a list of them, from the chains.
func (f *finder) assemble() (Size, bool) {
	g := &gathering{finder: f, again: map[int][]term{}}
	for _, c := range f.chains {
		if len(c.terms) == 1 && c.terms[0].weak && c.link != linkOther {
			continue // a bare number among words
		}
		g.add(c)
		for _, t := range c.terms {
			f.mark(t)
		}
	}
	g.flush()
	if len(g.sizes) == 0 {
		return Size{}, false
	}
	first := g.sizes[0]
	first.More = g.sizes[1:]
	if first.Count == 0 {
		first.Count = f.count
	}
	return first, true
}

// add puts a chain to the size at hand, or begins the next with it. A size has four numbers
// at most: a section, its wall and its length.
func (g *gathering) add(c chain) {
	if c.link == linkOther && (layersOf(c, g.terms) || g.repeats(c)) {
		return
	}
	if g.chain && len(c.terms) > 1 || len(g.terms)+len(c.terms) > 4 {
		g.flush()
	}
	g.dashed = g.dashed || c.link == linkDash && len(g.terms) > 0
	g.chain = g.chain || len(c.terms) > 1
	g.terms = append(g.terms, c.terms...)
}

// flush settles the size at hand.
func (g *gathering) flush() {
	if n := len(g.terms); n > 0 {
		size := g.settle(g.terms, g.again)
		lettered := g.terms[0].letter != 0 && g.terms[n-1].letter != 0
		if n > 1 && !g.chain && !lettered {
			size.Doubt = join(size.Doubt, "its numbers stand apart, with no x between them")
		}
		if g.dashed {
			size.Doubt = join(size.Doubt, "a dash stands among its numbers")
		}
		g.sizes = append(g.sizes, size)
	}
	g.terms, g.again, g.chain, g.dashed = nil, map[int][]term{}, false, false
}

// layersOf keeps 1-7/8 (3 x 5/8), the layers that make the length, as its note.
func layersOf(c chain, current []term) bool {
	if len(c.terms) != 2 || len(current) != 1 || !isCount(c.terms[0], 50) {
		return false
	}
	n, layer := c.terms[0], c.terms[1]
	if math.Abs(n.value*layer.value-current[0].value) > 1e-9 {
		return false
	}
	current[0].note = n.typed + " of " + layer.typed
	return true
}

// repeats takes a chain for a second statement of the terms before it, if it can be one.
func (g *gathering) repeats(c chain) bool {
	n := len(c.terms)
	if n == 1 && c.terms[0].whole && !c.terms[0].said {
		return true // a bare number in brackets is a note
	}
	if n > len(g.terms) {
		return false
	}
	for i, t := range c.terms {
		at := len(g.terms) - n + i
		if t.letter != 0 && g.terms[at].letter == 0 {
			g.terms[at].letter = t.letter // 0.190 (3/16) thick
		}
		if !t.said {
			t.unit, t.said = lastUnit(c.terms[i:])
		}
		g.again[at] = append(g.again[at], t)
	}
	return true
}

// settle gives the terms of one size their units and looks for counts, nominal sections
// and sheets.
func (f *finder) settle(terms []term, again map[int][]term) Size {
	terms = allNear(terms)
	size := f.axes(terms)
	for i, t := range terms {
		axis := &size.Axes[i]
		axis.Note = t.note
		for _, second := range append(again[i], t.again...) {
			axis.Length = f.compare(axis.Length, terms, i, second)
		}
	}
	germanDepth(&size)
	if !f.ctx.Plain && (section(&size, terms, f.sheetNamed()) || sheet(&size, terms)) {
		return size
	}
	return f.countIn(size, terms)
}

// sheetNamed reports whether the text names a board that comes in sheets.
func (f *finder) sheetNamed() bool {
	for _, t := range f.tokens {
		if t.kind == word && sheetWords[t.text] {
			return true
		}
	}
	return false
}

// compare puts the second statement of a length beside the first.
func (f *finder) compare(l Length, terms []term, i int, second term) Length {
	ctx := Context{Unit: f.unitOf(terms, i), Plain: true}
	first := terms[i]
	if !first.said {
		first.unit = ctx.Unit
	}
	if !second.said {
		second = second.swapped(first, f.ctx)
	}
	return agree(first, l, second, second.length(ctx))
}

// axes settles the units of the terms.
func (f *finder) axes(terms []term) Size {
	var size Size
	for i, t := range terms {
		unit := f.unitOf(terms, i)
		ctx := f.ctx
		ctx.Unit = unit
		l := t.length(ctx)
		if !t.said {
			f.doubtUnit(&l, t, unit, terms, i)
		}
		size.Axes = append(size.Axes, Axis{t.letter, l})
	}
	return size
}

// allNear spreads an "about" before or a +/- behind a size over all of it, and a lone ±1/16
// behind it.
func allNear(terms []term) []term {
	n := len(terms)
	alone := true
	for _, t := range terms[:n-1] {
		alone = alone && t.above == nil && t.below == nil
	}
	for i := range terms[:n-1] {
		if alone && terms[n-1].below != nil {
			terms[i].above, terms[i].below = terms[n-1].above, terms[n-1].below
		}
	}
	if terms[0].near || terms[len(terms)-1].near {
		for i := range terms {
			terms[i].near = true
		}
	}
	return terms
}

// germanDepth reads T as depth (Tiefe) beside H where it is too much for a thickness: people
// who write B x H x T mean it so.
func germanDepth(size *Size) {
	if _, deep := size.By('D'); deep {
		return
	}
	if _, high := size.By('H'); !high {
		return
	}
	const thickest = 3 // inches
	for i, a := range size.Axes {
		thick := Convert(a.Nominal, a.Unit, Inch) <= thickest
		if a.Unit == Unsaid {
			thick = a.Nominal <= 25.4*thickest
		}
		if a.Letter == 'T' && !thick {
			size.Axes[i].Letter = 'D'
		}
	}
}
