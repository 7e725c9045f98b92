package read

import (
	"fmt"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// part builds the part of a row.
func (rr *rowReader) part(b *body) {
	rr.setRole(b.row, "part", "")
	p := rr.blankPart()
	rr.said = rr.unitSaid(b)
	p.Row, p.Hidden = rr.firstCell(b), b.row.Hidden
	rr.words(p, b)
	rr.place(p, b)
	rr.roleFor(p, b)
	rr.sizes(p, b)
	rr.quantity(p, b)
	rr.fromName(p)
	rr.boardNotHardware(p)
	rr.edges(p, b)
	rr.unknownCells(p, b)
	rr.reference(p, b)
	rr.layersIn(p)
	rr.add(p, b)
	rr.remember(b)
}

// blankPart is a new part, in the memory of one that was packed away if there is any.
func (rr *rowReader) blankPart() *check.Part {
	n := len(rr.spent)
	if n == 0 {
		return &check.Part{}
	}
	p := rr.spent[n-1]
	rr.spent = rr.spent[:n-1]
	*p = check.Part{}
	return p
}

// add puts the part in its list: as a layer under the built-up part, or by itself.
func (rr *rowReader) add(p *check.Part, b *body) {
	if rr.isLayer(p, b) {
		rr.group = append(rr.group, p)
		p.Of = rr.parent.Name()
		if p.Role != check.Trim {
			p.Role = check.Unknown
		}
		rr.setLayer(b.row)
	} else {
		rr.closeGroup()
		rr.group = append(rr.group, p)
		rr.parent = nil
		if rr.isMadeUp(p) {
			rr.parent = p
		}
	}
	if p.Hidden {
		rr.unseen = append(rr.unseen, fmt.Sprintf("%d (%s)", b.row.N, p.Name()))
	}
	rr.partsRead++
	rr.last = p
	rr.depth = 0
}

func (rr *rowReader) setLayer(r *Row) {
	rr.tab.roles[r.N] = rowRole{word: "layer"}
}

func (rr *rowReader) firstCell(b *body) check.Cell {
	for i := range b.row.Cells {
		if c := &b.row.Cells[i]; int(c.Col) >= rr.left && int(c.Col) <= rr.right {
			return c.From()
		}
	}
	return rr.g.Place(b.row.N, rr.left)
}

// seen is the cell that counts in a column of the row: behind a ditto mark the one above.
func (rr *rowReader) seen(b *body, col *column) (c *Cell, ditto bool) {
	c = b.at(col)
	if c == nil || c.Kind != Words || !rr.names.isDitto(c.Text()) || int(c.Row) != b.row.N {
		return c, false
	}
	if col.field == fEdges && fold(c.Text()) == "do" {
		return rr.above[col.col], true
	}
	return rr.above[col.col], true
}

// remember keeps the cells of the row for the ditto marks below.
func (rr *rowReader) remember(b *body) {
	for _, col := range rr.cols {
		if c := b.at(col); c != nil && !(c.Kind == Words && rr.names.isDitto(c.Text())) {
			rr.above[col.col] = c
		}
	}
}

// text reads a field of words; From is the row's own cell, also behind a ditto mark.
func (rr *rowReader) textOf(b *body, f Field) check.Text {
	for _, col := range rr.cols {
		if col.field != f {
			continue
		}
		if c, _ := rr.seen(b, col); c != nil {
			if c.Kind == Fault || c.Kind == Pending {
				rr.cannot(c, string(f), "", rr.why(c))
				continue
			}
			return check.Text{Text: c.Text(), From: rr.g.Place(b.row.N, col.col)}
		}
	}
	return check.Text{}
}

func (rr *rowReader) why(c *Cell) string { return c.fault() }

// cannot names a cell that holds something nobody could read.
func (rr *rowReader) cannot(c *Cell, wants, mark, why string) {
	u := c.Unread(why)
	u.Wants, u.Mark = wants, mark
	rr.tab.Unread = append(rr.tab.Unread, u)
}

// words reads the fields of a part that are words.
func (rr *rowReader) words(p *check.Part, b *body) {
	p.Mark = rr.textOf(b, fMark)
	if col := rr.find(fMark); col != nil {
		if c := b.at(col); c != nil && int(c.Row) != b.row.N || length.Nothing(p.Mark.Text) == length.None {
			p.Mark = check.Text{}
		}
	}
	p.Description = rr.textOf(b, fName)
	if p.Description.Text == "" {
		p.Description = rr.textOf(b, fRole)
	}
	p.Material = none(rr.textOf(b, fMatl))
	p.Finish = none(rr.textOf(b, fFinish))
	p.Grain = rr.textOf(b, fGrain)
	var notes []string
	for _, col := range rr.cols {
		if col.field != fNote {
			continue
		}
		if c, _ := rr.seen(b, col); c != nil && length.Nothing(c.Text()) != length.None {
			if p.Note.Text == "" {
				p.Note.From = rr.g.Place(b.row.N, col.col)
			}
			notes = append(notes, c.Text())
			p.Note.Text = strings.Join(notes, "; ")
		}
	}
	if p.Description.Text == "" && rr.find(fName) == nil && rr.find(fRole) == nil && p.Note.Text != "" && rr.names.roles.of(p.Note.Text) != "" {
		p.Description = p.Note
	}
	if h := rr.textOf(b, fHand); h.Text != "" {
		p.Hand = rr.names.hand(h.Text, "")
	} else {
		p.Hand = rr.names.hand(p.Description.Text, p.Note.Text)
	}
	for _, f := range []struct {
		field Field
		to    *check.Value
	}{{fX, &p.X}, {fY, &p.Y}} {
		if c, col := rr.cell(b, f.field); c != nil {
			if m, ok, why := rr.measureOf(c, col, "a position"); ok {
				*f.to, _ = rr.value(m, rr.unit, string(f.field))
			} else if !m.absent {
				rr.cannot(c, string(f.field), p.Mark.Text, why)
			}
		}
	}
}

// none empties a text that says there is nothing.
func none(t check.Text) check.Text {
	if strings.Trim(t.Text, "-–—. ") == "" {
		return check.Text{}
	}
	return t
}

// roleFor finds what the part does: by its role, its name, its note, the group it stands in.
func (rr *rowReader) roleFor(p *check.Part, b *body) {
	group := ""
	if rr.find(fCase) != nil {
		group = p.Case.Text
	}
	if p.Description.Text == "" && rr.find(fName) == nil && rr.find(fRole) == nil && rr.names.roles.of(group) != "" {
		p.Description = p.Case
	}
	for _, text := range []string{rr.textOf(b, fRole).Text, p.Description.Text, p.Note.Text, group} {
		if text == p.Note.Text && p.Description.Text != "" && p.Description != p.Note && rr.find(fName) != nil {
			continue
		}
		if p.Role = rr.names.roles.of(text); p.Role != check.Unknown {
			rr.roleInGroup(p, group)
			if p.Role == check.Shelf && saysLoose(p.Note.Text) {
				p.Role = check.Adjustable
			}
			return
		}
	}
	if rr.find(fName) == nil && rr.find(fRole) == nil {
		p.Role = rr.names.roles.of(p.Mark.Text)
	}
}

// boardNotHardware takes a row with three sizes and a material for a part although a word of
// its name means hardware: a bracket panel, a light pelmet. The last word of a name is what
// the thing is, so a drawer slide stays hardware.
func (rr *rowReader) boardNotHardware(p *check.Part) {
	if p.Role != check.NotAPart || p.Material.Text == "" || !p.Length.Known || !p.Width.Known || !p.Thickness.Known {
		return
	}
	words := strings.Fields(fold(p.Description.Text))
	if len(words) < 2 || leadingSpare[words[0]] || hardwareWord(words[len(words)-1]) {
		return
	}
	var rest []string
	for _, w := range words {
		if leadingSpare[w] {
			return
		}
		if !hardwareWord(w) {
			rest = append(rest, w)
		}
	}
	if len(rest) < len(words) {
		p.Role = rr.names.roles.of(strings.Join(rest, " "))
	}
}

// roleInGroup keeps the front of a plinth from passing as a front.
func (rr *rowReader) roleInGroup(p *check.Part, group string) {
	if group == "" || rr.find(fName) != nil || rr.find(fRole) != nil {
		return
	}
	if whole, first := findRole(group, rr.shop); first && whole == check.Base {
		p.Role = whole
	}
}

// place says which case and room the part belongs to.
func (rr *rowReader) place(p *check.Part, b *body) {
	p.Case, p.Room = rr.casing, rr.room
	for _, col := range rr.cols {
		if col.field != fCase && col.field != fRoom {
			continue
		}
		c, _ := rr.seen(b, col)
		if c == nil && col.prof.coarse {
			c = rr.above[col.col] // the group is named on its first row only
			if c != nil && rr.last != nil && int(c.Row) < rr.headingRow() {
				c = nil
			}
		}
		if c == nil || length.Nothing(c.Text()) == length.None {
			continue
		}
		t := check.Text{Text: c.Text(), From: c.From()}
		if col.field == fCase {
			p.Case = t
		} else {
			p.Room = t
		}
	}
	if p.Case.Text == "" && p.Room.Text == "" {
		p.Room = rr.roomOfTab()
	}
}

// roomOfTab is the name of the tab, where that is a room: the parts of a tab called Kitchen
// stand there if nothing else is said.
func (rr *rowReader) roomOfTab() check.Text {
	if !isRoom(rr.g.Tab) {
		return check.Text{}
	}
	return check.Text{Text: rr.g.Tab, From: check.Cell{Book: rr.g.Book, Tab: rr.g.Tab}}
}

// headingRow is the row of the heading that rules, 0 if there is none.
func (rr *rowReader) headingRow() int {
	row := 0
	for _, t := range []check.Text{rr.casing, rr.room} {
		if r, _, ok := rr.g.locate(t.From.Addr); ok {
			row = max(row, r)
		}
	}
	return row
}

// quantity reads how many of the part the job needs in all.
func (rr *rowReader) quantity(p *check.Part, b *body) {
	all, allOK := rr.count(p, b, fQtyAll)
	one, oneOK := rr.count(p, b, fQtyPer)
	if !oneOK {
		one, oneOK = rr.count(p, b, fQty)
	}
	cases, casesOK := rr.count(p, b, fCases)
	switch {
	case allOK && oneOK && casesOK && all.v.Nominal != one.v.Nominal*cases.v.Nominal && !all.cell.Formula:
		n := one.v.Nominal * cases.v.Nominal
		p.Qty = check.Between(min(n, all.v.Nominal), all.v.Nominal, max(n, all.v.Nominal)).At(all.v.From)
		p.Qty.Guessed = true
		p.Doubts = append(p.Doubts, check.Doubt{Field: "quantity", Cell: all.v.From, Text: all.cell.Text(),
			Readings: []string{general(all.v.Nominal), general(n)},
			Why:      fmt.Sprintf("%s times %s is not %s", general(one.v.Nominal), general(cases.v.Nominal), general(all.v.Nominal))})
	case allOK:
		p.Qty = all.v
	case oneOK:
		p.Qty = one.v
		k := float64(rr.times)
		if casesOK {
			k = cases.v.Nominal
		}
		if k > 1 {
			p.Qty = one.v.Scale(k)
			p.Qty.Why = fmt.Sprintf("%s times %s", general(one.v.Nominal), general(k))
		}
	default:
		rr.countsByCase(p, b)
	}
	if p.Qty.Known {
		return
	}
	col := rr.find(fQty)
	if all := rr.find(fQtyAll); col == nil && all != nil {
		col = all
	}
	if col != nil {
		p.Qty = check.Missing(check.Ask{Cell: rr.g.Place(b.row.N, col.col), What: "the quantity, such as 2"})
	} else {
		p.Qty = check.Missing(check.Ask{Cell: p.Row, What: "the quantity, such as 2"})
	}
}

type countFound struct {
	v    check.Value
	cell *Cell
}

func (rr *rowReader) count(p *check.Part, b *body, f Field) (countFound, bool) {
	for _, col := range rr.cols {
		if col.field != f {
			continue
		}
		c, ditto := rr.seen(b, col)
		if c == nil || !ditto && int(c.Row) != b.row.N && f != fCases {
			continue
		}
		from := rr.g.Place(b.row.N, col.col)
		t, ok := rr.tallyOf(c)
		if !ok {
			rr.badCount(p, c)
			continue
		}
		v := check.Between(t.low, t.n, t.high).At(from)
		v.Plain = c.Kind == Number && !ditto
		if t.doubt != "" {
			v.Guessed = true
			d := check.Doubt{Field: "quantity", Cell: from, Text: c.Text(), Why: t.doubt, Readings: []string{general(t.low)}}
			if t.high > t.low {
				d.Readings = append(d.Readings, general(t.high))
			}
			p.Doubts = append(p.Doubts, d)
		}
		if t.spare > 0 {
			v.Why = fmt.Sprintf("%s, and %s spare", general(t.n), general(t.spare))
		}
		return countFound{v, c}, true
	}
	return countFound{}, false
}

func (rr *rowReader) badCount(p *check.Part, c *Cell) {
	switch {
	case c.Kind == Fault || c.Kind == Pending:
		rr.cannot(c, "quantity", p.Mark.Text, rr.why(c))
	case length.Nothing(c.Text()) == length.None:
	default:
		rr.cannot(c, "quantity", p.Mark.Text, "no quantity such as 2, 2 ea. or 1 pr")
	}
}

// tallyOf reads a cell as a quantity. Halves of a piece are none.
func (rr *rowReader) tallyOf(c *Cell) (tally, bool) {
	switch c.Kind {
	case Number:
		if c.IsDate() || c.Num != float64(int(c.Num)) || c.Num < 0 {
			return tally{}, false
		}
		return tally{n: c.Num, low: c.Num, high: c.Num}, true
	case Words:
		return readTally(c.Text())
	}
	return tally{}, false
}

// countsByCase adds up the columns that count a part for each case.
func (rr *rowReader) countsByCase(p *check.Part, b *body) {
	var in []string
	sum, any := 0., false
	var from check.Cell
	for _, col := range rr.cols {
		c := b.typed(col)
		if col.field != fInCase || c == nil {
			continue
		}
		t, ok := rr.tallyOf(c)
		if !ok {
			rr.badCount(p, c)
			continue
		}
		if !any {
			from = c.From()
		}
		any = true
		sum += t.n
		if t.n > 0 {
			in = append(in, general(t.n)+" in "+col.casing)
		}
	}
	if !any {
		return
	}
	p.Qty = check.Exact(sum).At(from)
	p.Qty.Why = strings.Join(in, ", ")
	if len(in) == 1 && p.Case.Text == "" {
		_, name, _ := strings.Cut(in[0], " in ")
		p.Case = check.Text{Text: name, From: from}
	}
}

// unknownCells names what stands in columns that read numbers but holds words, and the like:
// every filled cell of the row is used by a field, or named.
func (rr *rowReader) unknownCells(p *check.Part, b *body) {
	for _, col := range rr.cols {
		c := b.typed(col)
		if c == nil || col.field != fUnit {
			continue
		}
		if u := fold(c.Text()); u == "pr" || u == "pair" || u == "paar" || u == "paire" {
			if p.Qty.Known {
				p.Qty = p.Qty.Scale(2)
				p.Qty.Why = "counted in pairs"
			}
		}
	}
}

// reference notes that a part takes from another what its own row leaves open.
func (rr *rowReader) reference(p *check.Part, b *body) {
	for _, col := range rr.cols {
		c := b.typed(col)
		if c == nil || c.Kind != Words || len(c.raw) < 5 {
			continue
		}
		if mark := rr.names.sameAs(c.Text()); mark != "" {
			rr.pending = append(rr.pending, sameRef{p, mark, c})
			rr.refers(p)
			return
		}
	}
}
