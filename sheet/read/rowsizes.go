package read

import (
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// sizes reads the sizes of a part: the finished ones where the row gives finished and cut.
func (rr *rowReader) sizes(p *check.Part, b *body) {
	main, mainKind := rr.planOf(p, b, check.FinishedSize, "", check.UnsaidSize)
	var cut plan
	if rr.cutColumns() {
		c, _ := rr.planOf(p, b, check.CutSize)
		if main.has.length || main.has.width {
			cut = c
		} else {
			if main.has.thickness && !c.has.thickness {
				c.setThickness(main.thickness)
			}
			main, mainKind = c, check.CutSize
		}
	}
	if !main.has.thickness && cut.has.thickness {
		main.setThickness(cut.thickness)
	}
	rr.sizeInName(p, b, &main)
	var all []measure
	for _, m := range []measure{main.length, main.width, main.thickness} {
		if m.cell != nil {
			all = append(all, m)
		}
	}
	p.Unit = rowUnit(rr.unit, all)
	rr.setSizes(p, b, main)
	if cut.has.length {
		p.CutLength, _ = rr.value(cut.length, p.Unit, "cut length")
	}
	if cut.has.width {
		p.CutWidth, _ = rr.value(cut.width, p.Unit, "cut width")
	}
	p.Size = mainKind
	switch {
	case mainKind == check.FinishedSize || mainKind == check.CutSize:
	case rr.table.size != "":
		p.Size = rr.table.size
	default:
		p.Size = check.UnsaidSize
	}
	for _, m := range main.over {
		rr.cannot(m.cell, "size", p.Mark.Text, "one size more than length, width and thickness")
	}
}

func (rr *rowReader) setSizes(p *check.Part, b *body, main plan) {
	for _, s := range []struct {
		has   bool
		m     measure
		to    *check.Value
		field string
		want  string
	}{
		{main.has.length, main.length, &p.Length, "length", "such as 34 1/2"},
		{main.has.width, main.width, &p.Width, "width", "such as 11 1/4"},
		{main.has.thickness, main.thickness, &p.Thickness, "thickness", "such as 3/4"},
	} {
		if s.has {
			v, d := rr.value(s.m, p.Unit, s.field)
			*s.to = v
			if d != nil {
				p.Doubts = append(p.Doubts, *d)
			}
			continue
		}
		*s.to = check.Missing(check.Ask{Cell: rr.emptyCell(b, s.field), What: "the " + s.field + ", " + s.want})
	}
}

// emptyCell is where a missing size would be typed.
func (rr *rowReader) emptyCell(b *body, field string) check.Cell {
	for _, f := range []Field{Field(field), fSize, fName} {
		if col := rr.find(f); col != nil {
			return rr.g.Place(b.row.N, col.col)
		}
	}
	return rr.firstCell(b)
}

// cutColumns reports whether some columns hold cut sizes.
func (rr *rowReader) cutColumns() bool {
	for _, c := range rr.cols {
		if c.kind == check.CutSize && c.isLength() {
			return true
		}
	}
	return false
}

// planOf reads the columns of sizes of some kinds and lays them by the role.
func (rr *rowReader) planOf(p *check.Part, b *body, kinds ...check.SizeKind) (plan, check.SizeKind) {
	found := axes{}
	kind := check.UnsaidSize
	absent := false
	for _, f := range []struct {
		field  Field
		letter byte
	}{{fLength, 'L'}, {fWidth, 'W'}, {fHeight, 'H'}, {fDepth, 'D'}, {fThick, 'T'}} {
		for _, k := range kinds {
			col := rr.sizedExactly(f.field, k)
			if col == nil {
				continue
			}
			if _, taken := found[f.letter]; taken {
				continue
			}
			m, ok := rr.columnMeasure(p, b, col, string(f.field))
			m, ok = rr.besideTwin(p, b, col, m, ok)
			absent = absent || m.absent
			if ok {
				found[f.letter] = m
				if k != "" && k != check.UnsaidSize && f.field != fThick {
					kind = k
				}
			}
		}
	}
	section := rr.sizedExactly(fLength, "") != nil || len(found) > 0 && found.has('L')
	for _, k := range kinds {
		col := rr.sizedExactly(fSize, k)
		if col == nil {
			continue
		}
		if pl, ok := rr.sizeCell(p, b, col, found, section); ok {
			if k != "" && k != check.UnsaidSize {
				kind = k
			}
			return pl, kind
		}
	}
	return lay(found, p.Role), kind
}

func (a axes) has(l byte) bool { _, ok := a[l]; return ok }

func (rr *rowReader) sizedExactly(f Field, k check.SizeKind) *column {
	for _, c := range rr.cols {
		if c.field == f && c.kind == k {
			return c
		}
	}
	return nil
}

// columnMeasure reads a cell of a column of lengths, also behind a ditto mark, and names it
// where it cannot be read.
func (rr *rowReader) columnMeasure(p *check.Part, b *body, col *column, what string) (measure, bool) {
	c, ditto := rr.seen(b, col)
	if c == nil || !ditto && int(c.Row) != b.row.N && !rr.mergedDown(c) {
		return measure{}, false
	}
	if col.field == fThick && c.Kind == Words {
		made := measure{cell: c, from: rr.g.Place(b.row.N, col.col)}
		if made, ok := rr.madeOf(p, made, col); ok {
			return made, made.Nominal > 0
		}
	}
	m, ok, why := rr.measureOf(c, col, "a "+what)
	m.from = rr.g.Place(b.row.N, col.col)
	m.plain = m.plain && !ditto && int(c.Row) == b.row.N
	if ok {
		return rr.withInches(p, b, col, m), true
	}
	if m.absent || length.Nothing(c.Text()) == length.Blank || sameAsMark(c.Text()) != "" {
		return m, false
	}
	rr.cannot(c, what, p.Mark.Text, why)
	return m, false
}

// madeOf reads a thickness typed as a build-up: "3 x 5/8" is 1 7/8 in three layers. Of
// "3 lyr" the layers are known and the thickness is not.
func (rr *rowReader) madeOf(p *check.Part, m measure, col *column) (measure, bool) {
	text := m.cell.Text()
	if !strings.ContainsAny(text, "xX×*lpLP") {
		return m, false
	}
	l, ok := layerCountIn(text, rr.unitOf(col))
	if !ok {
		return m, false
	}
	p.Layers = []check.Layer{{Count: check.Exact(float64(l.count)).At(m.from), From: m.from}}
	if !l.known {
		return m, true
	}
	m.Length = length.Exact(float64(l.count)*l.each.Nominal, l.each.Unit)
	p.Layers[0].Thickness = check.Exact(l.each.In(rr.unit).Nominal).At(m.from)
	return m, true
}

// withInches adds the inches that stand in the next column to feet.
func (rr *rowReader) withInches(p *check.Part, b *body, col *column, m measure) measure {
	if col.index+1 >= len(rr.cols) || rr.cols[col.index+1].field != fInches {
		return m
	}
	next := rr.cols[col.index+1]
	c := b.typed(next)
	if c == nil {
		return m
	}
	more, ok, why := rr.measureOf(c, next, "the inches beside the feet")
	if !ok {
		if !more.absent {
			rr.cannot(c, "length", p.Mark.Text, why)
		}
		return m
	}
	sum, add := m.Length.In(length.Inch), more.Length.In(length.Inch)
	sum.Low, sum.Nominal, sum.High = sum.Low+add.Low, sum.Nominal+add.Nominal, sum.High+add.High
	if sum.Doubt == "" {
		sum.Doubt, sum.Other = add.Doubt, add.Other
	}
	m.Length, m.plain = sum, false
	return m
}

func (rr *rowReader) mergedDown(c *Cell) bool {
	s, ok := rr.g.Merge(int(c.Row), int(c.Col))
	return ok && s.Bottom > s.Top
}

// sizeCell reads a cell that holds the whole size, beside what stands in columns of its own.
func (rr *rowReader) sizeCell(p *check.Part, b *body, col *column, beside axes, section bool) (plan, bool) {
	c, ditto := rr.seen(b, col)
	if c == nil || c.Kind == Fault || c.Kind == Pending {
		if c != nil {
			rr.cannot(c, "size", p.Mark.Text, rr.why(c))
		}
		return plan{}, false
	}
	if c.Kind == Number {
		m, ok, _ := rr.measureOf(c, col, "a size")
		if !ok {
			return plan{}, false
		}
		pl := layUnlettered([]measure{m}, false)
		mergePlan(&pl, lay(beside, p.Role))
		return pl, true
	}
	s, ok := rr.names.size(c, rr.unitOf(col))
	if !ok || len(s.Axes) == 0 {
		rr.noSize(p, c, b, col)
		return plan{}, false
	}
	pl := rr.planFrom(p, s, c, rr.g.Place(b.row.N, col.col), col.head.axes, beside, section && !ditto)
	if s.Count > 0 && !p.Qty.Known && (col.head.pair || rr.find(fQty) == nil) {
		p.Qty = check.Exact(float64(s.Count)).At(rr.g.Place(b.row.N, col.col))
	}
	if rest := s.Rest(c.Text()); letterCount(rest) > 2 && p.Note.Text == "" {
		p.Note = check.Text{Text: strings.Trim(rest, "() "), From: rr.g.Place(b.row.N, col.col)}
	}
	return pl, true
}

func (rr *rowReader) noSize(p *check.Part, c *Cell, b *body, col *column) {
	text := c.Text()
	if length.Nothing(text) == length.None || sameAsMark(text) != "" {
		return
	}
	_, err := length.ParseSize(text, length.Context{Unit: rr.unitOf(col), What: "a size"})
	why := "no size can be read in it"
	if e, ok := err.(*length.Error); ok {
		why = e.Why + "; " + e.Want
	}
	rr.cannot(c, "size", p.Mark.Text, why)
}

// planFrom lays a size that was typed in one cell.
func (rr *rowReader) planFrom(p *check.Part, s length.Size, c *Cell, from check.Cell, heads string, beside axes, section bool) plan {
	ms := make([]measure, 0, len(s.Axes))
	lettered := axes{}
	anyLetter := false
	for _, a := range s.Axes {
		anyLetter = anyLetter || a.Letter != 0
	}
	for i, a := range s.Axes {
		m := measure{Length: a.Length, cell: c, from: from}
		if s.Doubt != "" && m.Doubt == "" {
			m.Doubt = s.Doubt
			for _, o := range s.Other {
				if i < len(o.Axes) {
					m.Other = append(m.Other, o.Axes[i].Length)
				}
			}
		}
		ms = append(ms, m)
		letter := a.Letter
		if !anyLetter && i < len(heads) && len(s.Axes) > 1 {
			letter = heads[i]
		}
		if letter != 0 && !lettered.has(letter) {
			lettered[letter] = m
		}
	}
	if len(lettered) == len(ms) {
		for l, m := range beside {
			if !lettered.has(l) {
				lettered[l] = m
			}
		}
		return lay(lettered, p.Role)
	}
	pl := layUnlettered(ms, section)
	for l, m := range lettered { // one letter among bare numbers
		if l == 'T' {
			pl.setThickness(m)
		}
	}
	mergePlan(&pl, lay(beside, p.Role))
	return pl
}

// mergePlan fills what a plan lacks from another.
func mergePlan(to *plan, from plan) {
	if !to.has.length && from.has.length {
		to.setLength(from.length)
	}
	if !to.has.width && from.has.width {
		to.setWidth(from.width)
	}
	if !to.has.thickness && from.has.thickness {
		to.setThickness(from.thickness)
	}
}

// sizeInName takes the size out of the words of the part, where no column has it, and the
// thickness out of "Back, 1/4 ply".
func (rr *rowReader) sizeInName(p *check.Part, b *body, pl *plan) {
	if pl.has.length && pl.has.width && pl.has.thickness {
		return
	}
	for _, f := range []Field{fName, fRole, fMark, fNote} {
		c, col := rr.cell(b, f)
		if c == nil || f == fMark && rr.find(fName) != nil || f == fNote && (pl.has.length || pl.has.width) {
			continue
		}
		s, ok := rr.names.size(c, rr.unitOf(col))
		if !ok || len(s.Axes) == 0 {
			continue
		}
		if len(s.Axes) == 1 {
			if f == fName || f == fRole {
				rr.loneLength(p, s, c, pl)
			}
			continue
		}
		if pl.has.length && (pl.has.width || len(s.Axes) != 2) || f == fNote && len(s.Axes) < 3 && rr.find(fSize) != nil {
			continue
		}
		if f == fNote && rr.anySizeColumn() {
			continue
		}
		section := rr.find(fLength) != nil
		found := rr.planFrom(p, s, c, c.From(), col.head.axes, nil, section)
		mergePlan(pl, found)
		if s.Count > 0 && !p.Qty.Known {
			p.Qty = check.Exact(float64(s.Count)).At(c.From())
		}
	}
	if !pl.has.thickness {
		rr.thicknessOfMaterial(p, b, pl)
	}
}

func (rr *rowReader) anySizeColumn() bool {
	return rr.find(fLength) != nil || rr.find(fSize) != nil || rr.find(fWidth) != nil || rr.find(fHeight) != nil
}

// loneLength takes one length among the words for the thickness, if it is one of a board and
// the row lacks that: "Back, 1/4 ply".
func (rr *rowReader) loneLength(p *check.Part, s length.Size, c *Cell, pl *plan) {
	a := s.Axes[0]
	m := measure{Length: a.Length, cell: c, from: c.From()}
	if a.Unit == length.Unsaid {
		m.Unit = rr.unit
	}
	switch {
	case !pl.has.thickness && mm(m) <= 64 && mm(m) > 0 && (a.Letter == 'T' || a.Letter == 0):
		if rr.names.material(c.Text()) == "" && a.Letter != 'T' {
			return
		}
		pl.setThickness(m)
	case !pl.has.length && mm(m) > 64 && !rr.anySizeColumn():
		pl.setLength(m)
	}
}

// thicknessOfMaterial reads the thickness out of "3/4 birch ply" or "MDF 19" where no column
// gives one. It is what the board is called, so it counts as inferred.
func (rr *rowReader) thicknessOfMaterial(p *check.Part, b *body, pl *plan) {
	c, _ := rr.cell(b, fMatl)
	if c == nil || rr.shop == nil {
		return
	}
	for _, col := range rr.cols {
		if col.field == fThick {
			if t := b.typed(col); t != nil && length.Nothing(t.Text()) != length.None {
				return // something stands there that could not be read: it is named
			}
		}
	}
	l, ok := rr.namedThickness(c.Text())
	if !ok {
		return
	}
	pl.setThickness(measure{Length: l, cell: c, from: rr.g.Place(b.row.N, int(c.Col))})
}

// namedThickness is the thickness that a material is called by: 3/4 of "3/4 birch ply".
func (rr *rowReader) namedThickness(material string) (length.Length, bool) {
	m, ok, _ := rr.shop.Material(material)
	if !ok || m.Layers > 1 || m.Typed == "" {
		return length.Length{}, false
	}
	if len(m.Said) > 0 {
		switch m.Said[0].Actual.Unit {
		case "in":
			return length.Exact(m.Said[0].Named, length.Inch), true
		case "mm":
			return length.Exact(m.Said[0].Named, length.Millimetre), true
		}
	}
	l, err := length.Parse(m.Typed, length.Context{Unit: rr.unit, Plain: true})
	return l, err == nil
}
