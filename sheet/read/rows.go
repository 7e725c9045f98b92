package read

import (
	"fmt"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

// rowReader turns the rows of one table into parts, top to bottom.
type rowReader struct {
	*table
	tab     *Tab
	shop    *standard.Table
	unit    length.Unit // of the tab
	decimal length.Mark
	names   *nameReader

	room, casing check.Text // carried from headings
	stock        check.Text // material carried from a heading
	forAll       []forAll   // what lines of the tab say of all parts
	times        int        // how many times the parts under the heading are made
	depth        int        // headings seen since the last part
	above        map[int]*Cell
	last         *check.Part // the row above, for ditto
	parent       *check.Part // the built-up part that sub-rows belong to
	pending      []sameRef
	greyDrops    bool          // a grey row in this table means a dropped one
	out          *partList     // where finished parts go
	group        []*check.Part // a part and the layers below it, not finished yet
	unseen       []string      // hidden rows that hold parts
	said         length.Unit   // unit that the row names in a column of its own
	spent        []*check.Part // parts that were packed away; their memory serves again
	partsRead    int           // so far
	done         func(*Row)    // gives up the cells of a row that was read, in a long tab
	referring    map[*check.Part]bool
	merges       []Span // merges that reach over more than one row of the body
}

// sameRef is a part that takes what it lacks from another: "same as A3".
type sameRef struct {
	part *check.Part
	mark string
	cell *Cell
}

// body is what the cells of one row say, by field.
type body struct {
	row   *Row
	cells []*Cell // by the index of the column; nil where blank
	own   int     // cells of the row inside the table
}

func (b *body) at(col *column) *Cell { return b.cells[col.index] }

// typed is the cell of a column if it stands in this row, not in a merge from above.
func (b *body) typed(col *column) *Cell {
	if c := b.cells[col.index]; c != nil && int(c.Row) == b.row.N {
		return c
	}
	return nil
}

func (rr *rowReader) read() {
	rr.above = map[int]*Cell{}
	rr.times = 1
	rr.greyDrops = rr.greyMeansDropped()
	for _, m := range rr.g.Merges {
		if m.Bottom > m.Top && m.Bottom > rr.bottom && m.Top <= rr.table.last {
			rr.merges = append(rr.merges, m)
		}
	}
	for i := range rr.g.Rows {
		r := &rr.g.Rows[i]
		if r.N <= rr.bottom || r.N > rr.table.last {
			continue
		}
		rr.row(i, r)
		if rr.done != nil {
			rr.done(r)
		}
	}
	rr.closeGroup()
	if n := len(rr.unseen); n > 0 {
		list := strings.Join(rr.unseen[:min(n, 12)], ", ")
		if n > 12 {
			list += fmt.Sprintf(" and %d more", n-12)
		}
		rr.tab.Notes = append(rr.tab.Notes, "hidden rows hold parts, and are read: "+list)
	}
}

func (rr *rowReader) row(i int, r *Row) {
	own := rr.filled(r)
	if own == 0 {
		return
	}
	b := &body{row: r, cells: make([]*Cell, len(rr.cols)), own: own}
	for _, col := range rr.cols {
		b.cells[col.index] = rr.cellOf(r, col)
	}
	if why := rr.dropped(b); why != "" {
		rr.setAside(r, "dropped", why)
		rr.tab.Notes = append(rr.tab.Notes, fmt.Sprintf("row %d (%s) is left out: %s", r.N, rr.label(b), why))
		return
	}
	switch rr.classify(i, b) {
	case "total":
		rr.total(b)
	case "heading":
		rr.heading(b)
	case "note":
		rr.setAside(r, "note", "a remark, not a part")
	case "remark":
		rr.noteUnder(b)
	case "facts":
		rr.setAside(r, "note", "says something of the case, not a part")
	case "foreign":
		rr.table.last = r.N - 1
	case "part":
		rr.part(b)
	default:
		rr.setUnread(r, "neither a part nor a heading: no size and no quantity can be read in this row")
	}
}

// cellOf is the cell of a row in a column: its own, or, where a group is merged down over
// its parts, the one that group shows.
func (rr *rowReader) cellOf(r *Row, col *column) *Cell {
	if c := r.At(col.col); c != nil {
		return c
	}
	for _, m := range rr.merges {
		if m.Left == col.col && m.Top < r.N && r.N <= m.Bottom && m.Top > rr.bottom {
			return rr.g.At(m.Top, m.Left)
		}
	}
	return nil
}

// label names a row by its mark or first words, for a note.
func (rr *rowReader) label(b *body) string {
	for _, f := range []Field{fMark, fName, fSize} {
		if c := rr.text(b, f); c != "" {
			return c
		}
	}
	for i := range b.row.Cells {
		if c := &b.row.Cells[i]; c.Kind == Words {
			return c.Text()
		}
	}
	return b.row.Cells[0].Text()
}

// cell returns the cell of a field in the row.
func (rr *rowReader) cell(b *body, f Field) (*Cell, *column) {
	for _, col := range rr.cols {
		if col.field == f {
			if c := b.at(col); c != nil {
				return c, col
			}
		}
	}
	return nil, nil
}

func (rr *rowReader) text(b *body, f Field) string {
	if c, _ := rr.cell(b, f); c != nil {
		return c.Text()
	}
	return ""
}

// dropped says why a row no longer counts: struck through, marked void, or greyed out.
func (rr *rowReader) dropped(b *body) string {
	struck, grey, filled := 0, 0, 0
	for i := range b.row.Cells {
		c := &b.row.Cells[i]
		if int(c.Col) < rr.left || int(c.Col) > rr.right {
			continue
		}
		filled++
		if c.Look.Struck {
			struck++
		}
		if c.Look.Grey {
			grey++
		}
	}
	switch {
	case struck > 0 && 2*struck >= filled:
		return "the row is struck through"
	case rr.greyDrops && grey == filled && filled > 1:
		return "the row is greyed out"
	}
	for _, f := range []Field{fQty, fQtyAll, fNote, fMark, fName, fHand, fUnused} {
		for _, col := range rr.cols {
			if c := b.typed(col); col.field == f && c != nil && c.Kind == Words && rr.names.voided(c.Text()) {
				return "it says " + check.Typed(c.Text())
			}
		}
	}
	return ""
}

// greyMeansDropped reports whether grey rows are the odd ones out: few, and not every
// second one as in a banded table.
func (rr *rowReader) greyMeansDropped() bool {
	grey, rows, runs, before := 0, 0, 0, false
	for i := range rr.g.Rows {
		r := &rr.g.Rows[i]
		if r.N <= rr.bottom || r.N > rr.table.last || rr.filled(r) < 3 || rr.isTotal(r) {
			continue
		}
		rows++
		all := true
		for j := range r.Cells {
			all = all && r.Cells[j].Look.Grey
		}
		if all {
			grey++
			if !before {
				runs++
			}
		}
		before = all
	}
	return grey > 0 && 4*grey <= rows+1
}

// classify says what a row is: part, heading, total, note, facts, foreign, or nothing known.
func (rr *rowReader) classify(i int, b *body) string {
	if rr.isTotal(b.row) {
		return "total"
	}
	if rr.remark(b) {
		return "remark"
	}
	hasQty := rr.hasQty(b)
	sizes := rr.countSizes(b)
	name := rr.text(b, fName) + rr.text(b, fRole)
	mark, _ := rr.cell(b, fMark)
	ownMark := mark != nil && int(mark.Row) == b.row.N
	if b.own <= 2 && !hasQty && sizes == 0 {
		if kind := rr.lone(i, b); kind != "" {
			return kind
		}
	}
	switch {
	case sizes > 0 && (hasQty || ownMark || name != "" || sizes > 1 || rr.last != nil):
		return "part"
	case hasQty && (ownMark || name != "" || rr.text(b, fCase) != "" || rr.text(b, fNote) != ""):
		return "part"
	case ownMark && name != "":
		return "part"
	case rr.foreign(b):
		return "foreign"
	case rr.last != nil && (name != "" || ownMark) && sameAsMark(name+" "+rr.text(b, fNote)) != "":
		return "part"
	case hasQty && rr.onlyField(b, fQty, fQtyAll, fQtyPer, fCases) && rr.last != nil:
		return "total"
	}
	return ""
}

// lone reads a row of one or two words: a heading if parts follow, else a note.
func (rr *rowReader) lone(i int, b *body) string {
	text := ""
	for j := range b.row.Cells {
		c := &b.row.Cells[j]
		if int(c.Col) < rr.left || int(c.Col) > rr.right {
			continue
		}
		if c.Kind != Words {
			return ""
		}
		if text == "" {
			text = c.Text()
		}
	}
	if mark, _ := rr.cell(b, fMark); b.own == 2 && mark != nil && rr.text(b, fName) != "" && !rr.headingWords(text) && !rr.prefixesNext(i, mark.Text()) {
		return ""
	}
	follows := false
	for k := i + 1; k < len(rr.g.Rows) && rr.g.Rows[k].N <= rr.table.last; k++ {
		if n := rr.filled(&rr.g.Rows[k]); (n > 2 || n > 0 && rr.lines) && !rr.isTotal(&rr.g.Rows[k]) {
			follows = true
			break
		}
	}
	switch {
	case noteLike(text) || !follows:
		return "note"
	case strings.Contains(text, ":") && !rr.headingWords(text) && b.own == 1 && len(text) > 40:
		return "note"
	}
	return "heading"
}

// remark reports whether a row holds nothing but words under the name of the part right above
// it, in a table that names sizes, counts and marks in columns of their own.
func (rr *rowReader) remark(b *body) bool {
	name := rr.find(fName)
	if b.own != 1 || name == nil || rr.last == nil || len(rr.group) == 0 || rr.find(fMark) == nil || rr.find(fQty) == nil || !rr.anySizeColumn() || rr.nameSized {
		return false
	}
	c := b.typed(name)
	if c == nil || c.Kind != Words || name.col == rr.left || rr.tab.roles[b.row.N-1].word != "part" {
		return false
	}
	text := c.Text()
	return text != "" && (text[0] >= 'a' && text[0] <= 'z' || digit(text[0]) || text[0] == '(')
}

// noteUnder adds the words of a row to the note of the part above it.
func (rr *rowReader) noteUnder(b *body) {
	c := b.typed(rr.find(fName))
	n := &rr.last.Note
	if n.Text == "" {
		n.Text, n.From = c.Text(), c.From()
	} else {
		n.Text += "; " + c.Text()
	}
	rr.setRole(b.row, "note", "a remark on the part above")
	rr.tab.Aside = append(rr.tab.Aside, rr.rowText(b.row, "a remark on the part above"))
}

// prefixesNext reports whether the mark of the next row begins with a text: A over A1.
func (rr *rowReader) prefixesNext(i int, text string) bool {
	col := rr.find(fMark)
	if col == nil || i+1 >= len(rr.g.Rows) {
		return false
	}
	next := rr.g.Rows[i+1].At(col.col)
	return next != nil && len(next.Text()) > len(text) && strings.HasPrefix(next.Text(), text)
}

// headingWords reports whether a text speaks of a case or a room.
func (rr *rowReader) headingWords(text string) bool {
	words := strings.Fields(fold(text))
	return len(words) > 0 && (caseWords[words[0]] || roomWords[words[0]])
}

// foreign reports a row of words under columns of numbers: the header of another table.
func (rr *rowReader) foreign(b *body) bool {
	words, numbers := 0, 0
	for _, col := range rr.cols {
		c := b.typed(col)
		if c == nil {
			continue
		}
		numeric := col.field == fQty || col.isLength() && col.field != fSize
		switch {
		case c.Kind != Words:
			numbers++
		case numeric && !strings.ContainsAny(c.Text(), "0123456789") && longestWord(c.Text()) >= 2 && length.Nothing(c.Text()) == length.Something:
			words++
		}
	}
	return numbers == 0 && words >= 2
}

func (rr *rowReader) onlyField(b *body, fs ...Field) bool {
	for _, col := range rr.cols {
		c := b.typed(col)
		if c == nil {
			continue
		}
		ok := false
		for _, f := range fs {
			ok = ok || col.field == f
		}
		if !ok && col.field != fUnused && col.field != fUnknown {
			return false
		}
	}
	return true
}

func (rr *rowReader) hasQty(b *body) bool {
	for _, f := range []Field{fQty, fQtyAll, fQtyPer, fInCase} {
		for _, col := range rr.cols {
			c := b.typed(col)
			if col.field != f || c == nil {
				continue
			}
			switch c.Kind {
			case Number, Fault, Pending:
				return true
			case Words:
				if _, ok := readTally(c.Text()); ok || rr.names.isDitto(c.Text()) {
					return true
				}
			}
		}
	}
	return false
}

// countSizes counts the cells of a row in which a size can be read.
func (rr *rowReader) countSizes(b *body) int {
	n := 0
	for _, col := range rr.cols {
		c := b.typed(col)
		if c == nil {
			continue
		}
		switch col.field {
		case fLength, fWidth, fThick, fHeight, fDepth:
			if c.Kind == Number || c.Kind == Pending {
				n++
			} else if c.Kind == Words && (strings.ContainsAny(c.Text(), "0123456789½¼¾⅛⅜⅝⅞") || rr.names.isDitto(c.Text())) {
				if rr.names.lengths.of(lengthAsked{c.Text(), col.unitOr(rr.unit)}).err == nil || rr.names.isDitto(c.Text()) {
					n++
				}
			}
		case fSize:
			if s, ok := rr.names.size(c, length.Unsaid); ok && len(s.Axes) > 0 || rr.names.isDitto(c.Text()) {
				n += 2
			}
		case fName, fRole, fNote, fMark:
			if col.field == fNote && n == 0 || col.field == fMark && rr.find(fName) != nil {
				continue
			}
			if s, ok := rr.names.size(c, length.Unsaid); ok && len(s.Axes) > 1 {
				n++
			}
		}
	}
	return n
}

func (t *table) isTotal(r *Row) bool {
	for i := range r.Cells {
		c := &r.Cells[i]
		if int(c.Col) < t.left || int(c.Col) > t.right || c.Kind != Words {
			continue
		}
		return totalText(c.Text())
	}
	return false
}

// total keeps a count of pieces the office typed, so that it can be held against the rows.
func (rr *rowReader) total(b *body) {
	rr.setAside(b.row, "total", "a total, not a part")
	tot := Total{From: rr.g.Place(b.row.N, rr.left), Case: rr.casing, Rows: rr.partsRead}
	for _, col := range rr.cols {
		c := b.typed(col)
		if c == nil {
			continue
		}
		switch col.field {
		case fQty, fQtyAll, fQtyPer:
			if t, ok := rr.tallyOf(c); ok {
				tot.Pieces = check.Exact(t.n).At(c.From())
			}
		}
		if c.Kind == Words {
			tot.read(c)
		}
	}
	if tot.Pieces.Known || tot.Sheets.Known {
		rr.tab.Totals = append(rr.tab.Totals, tot)
	}
}

// heading takes a row of words as the case or the room of the rows below.
func (rr *rowReader) heading(b *body) {
	var c *Cell
	for i := range b.row.Cells {
		if x := &b.row.Cells[i]; int(x.Col) >= rr.left && int(x.Col) <= rr.right && c == nil {
			c = x
		}
	}
	rr.setRole(b.row, "heading", "")
	rr.takeHeading(c)
	if name, _ := rr.cell(b, fName); name != nil && name != c && b.own == 2 {
		rr.casing.Text += " " + name.Text()
	}
}

func (rr *rowReader) takeHeading(c *Cell) {
	text := check.Text{Text: strings.TrimRight(c.Text(), " :"), From: c.From()}
	switch {
	case rr.stockHeading(text.Text):
		rr.stock = text
		rr.times = 1
		rr.markHeading(c, text.Text)
		return
	case isRoom(text.Text):
		rr.room, rr.casing = text, check.Text{}
	case rr.depth > 0 && rr.room.Text == "" && rr.casing.Text != "":
		rr.room, rr.casing = rr.casing, text
	default:
		rr.casing = text
	}
	rr.markHeading(c, text.Text)
	rr.depth++
	rr.times = headingTimes(text.Text)
	rr.parent = nil
}

// markHeading keeps the words of a heading for the picture.
func (rr *rowReader) markHeading(c *Cell, text string) {
	if role := rr.tab.roles[int(c.Row)]; role.word == "heading" {
		role.text = text
		rr.tab.roles[int(c.Row)] = role
	}
}

// stockHeading reports whether a heading names the material of the rows below, in a table
// without a column for it: offices sort a list for the saw by its sheets.
func (rr *rowReader) stockHeading(text string) bool {
	if rr.find(fMatl) != nil || rr.matrix != nil {
		return false
	}
	for _, w := range strings.Fields(fold(text)) {
		if caseWords[w] || roomWords[w] {
			return false
		}
	}
	return rr.names.isMaterial(text)
}

// setRole remembers what a row was taken for, for the picture.
func (rr *rowReader) setRole(r *Row, word, why string) {
	if rr.tab.roles == nil {
		rr.tab.roles = map[int]rowRole{}
	}
	if old, ok := rr.tab.roles[r.N]; ok && (old.word == "part" || old.word == "layer") {
		return
	}
	rr.tab.roles[r.N] = rowRole{word: word, why: why}
}

// setAside names a row that was understood and is no part.
func (rr *rowReader) setAside(r *Row, word, why string) {
	rr.setRole(r, word, why)
	rr.tab.Aside = append(rr.tab.Aside, rr.rowText(r, why))
}

func (rr *rowReader) setUnread(r *Row, why string) {
	rr.setRole(r, "unread", why)
	rr.tab.Unread = append(rr.tab.Unread, rr.rowText(r, why))
}

// rowText is a row as one text, at its first cell.
func (rr *rowReader) rowText(r *Row, why string) check.Unread {
	u := check.Unread{Why: why}
	var parts []string
	for i := range r.Cells {
		c := &r.Cells[i]
		if int(c.Col) < rr.left || int(c.Col) > rr.right {
			continue
		}
		if u.Cell.Addr == "" {
			u.Cell = c.From()
		}
		parts = append(parts, c.Text())
	}
	u.Text = strings.Join(parts, " | ")
	return u
}
