package read

import (
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// table is one table of a tab: its header rows, its columns, and where its body ends.
type table struct {
	g           *Grid
	top, bottom int // header rows; equal for a plain header, 0 for a table without one
	last        int // last row that may belong to it
	left, right int // columns from the first header cell to the last, and data beside them
	cols        []*column
	size        check.SizeKind // said for the whole table by a title
	unit        length.Unit    // of the parts, decided for the whole tab
	matrix      *matrix        // set when parts stand across cases
	lines       bool           // it is a list of lines, a part in one cell
	headless    bool           // it has no header; its columns are known by their values
	nameSized   bool           // the names hold sizes
	lead        int            // first of the lines right above the header, 0 if there are none
}

// column is one column of a table.
type column struct {
	col    int
	index  int // in the list of columns
	head   heading
	field  Field
	kind   check.SizeKind
	unit   length.Unit // of bare numbers; Unsaid until the tab decides
	prof   profile
	blank  bool    // no header word: the field was inferred from the values
	casing string  // header of a column of counts for one case
	twin   *column // gives the same size in the other unit
}

// headerBlock is one or two rows that make a header over some columns.
type headerBlock struct {
	top, bottom int
	heads       map[int]heading
	left, right int
}

// findTables finds every header in the grid and the tables below them, top to bottom.
func findTables(g *Grid, hs *headers) []*table {
	var blocks []headerBlock
	for i := 0; i < len(g.Rows); i++ {
		b, ok := bestHeader(g, hs, i)
		if !ok {
			continue
		}
		blocks = append(blocks, splitSide(g, b)...)
		for i+1 < len(g.Rows) && g.Rows[i+1].N <= b.bottom {
			i++
		}
	}
	var tables []*table
	for i, b := range blocks {
		t := &table{g: g, top: b.top, bottom: b.bottom, left: b.left, right: b.right}
		t.last = 0
		if n := len(g.Rows); n > 0 {
			t.last = g.Rows[n-1].N
		}
		for _, later := range blocks[i+1:] {
			if later.top > b.bottom && later.left <= b.right && b.left <= later.right {
				t.last = min(t.last, later.top-1)
			}
		}
		for c := b.left; c <= b.right; c++ {
			h, ok := b.heads[c]
			if ok {
				t.cols = append(t.cols, &column{col: c, head: h, kind: h.kind, unit: h.unit})
			}
		}
		tables = append(tables, t)
	}
	return tables
}

// headerRows is how far down a header may stand whose words are all misspelt.
const headerRows = 40

// bestHeader takes the row and, where that says more, the row below it as a header.
func bestHeader(g *Grid, hs *headers, i int) (headerBlock, bool) {
	r := &g.Rows[i]
	if !wordy(r) {
		return headerBlock{}, false
	}
	one, points := oneRow(hs, r)
	if i+1 < len(g.Rows) && g.Rows[i+1].N == r.N+1 && wordy(&g.Rows[i+1]) {
		below, pointsBelow := oneRow(hs, &g.Rows[i+1])
		two, pointsTwo := twoRows(g, hs, r, &g.Rows[i+1])
		if titleOver(r, &g.Rows[i+1]) && qualifies(below.heads) {
			return headerBlock{}, false
		}
		if pointsTwo > points && pointsTwo > pointsBelow && qualifies(two.heads) {
			return withUnitRow(g, i+1, two), true
		}
		if pointsBelow > points && qualifies(below.heads) && points < 4 {
			return headerBlock{}, false
		}
	}
	if !qualifies(one.heads) || !mostlyKnown(r, one) {
		return headerBlock{}, false
	}
	return withUnitRow(g, i, one), true
}

// titleOver reports whether a row is one lone text at the left edge of the row below, such as
// "all sizes finished in mm": a title, and no group over some of the columns.
func titleOver(r, below *Row) bool {
	return len(r.Cells) == 1 && len(below.Cells) > 2 && r.Cells[0].Col <= below.Cells[0].Col
}

// wordy reports whether a row could be a header: short words, no measured numbers.
func wordy(r *Row) bool {
	words, numbers := 0, 0
	for i := range r.Cells {
		c := &r.Cells[i]
		switch {
		case c.Kind == Number && !c.Formula, c.Kind == Truth, c.Kind == Fault:
			numbers++
		case c.Kind == Words && startsNumeric(c.raw):
			numbers++
		case c.Kind == Words && len(c.raw) <= maxHeader:
			words++
		}
	}
	return words > 0 && (numbers == 0 || words >= 4*numbers)
}

func startsNumeric(s string) bool {
	s = strings.TrimLeft(s, " \u00a0(~.,+-")
	return s != "" && s[0] >= '0' && s[0] <= '9'
}

func oneRow(hs *headers, r *Row) (headerBlock, int) {
	b := headerBlock{top: r.N, bottom: r.N, heads: map[int]heading{}}
	known := 0
	for pass := 0; pass < 2; pass++ {
		near := pass == 1
		if near && known < 2 && (len(r.Cells) < 4 || r.N > headerRows) {
			break // a row with nothing known is no header with slips in it
		}
		for i := range r.Cells {
			c := &r.Cells[i]
			if c.Kind != Words || b.heads[int(c.Col)].known() {
				continue
			}
			h := hs.read(c.Text(), near)
			b.heads[int(c.Col)] = h
			if h.known() {
				known++
			}
		}
	}
	b.bounds()
	return b, b.points()
}

func (b *headerBlock) bounds() {
	b.left, b.right = 0, 0
	for c := range b.heads {
		if b.left == 0 || c < b.left {
			b.left = c
		}
		b.right = max(b.right, c)
	}
}

// points counts the different things a header says.
func (b *headerBlock) points() int {
	type said struct {
		f Field
		k check.SizeKind
	}
	seen := map[said]bool{}
	for _, h := range b.heads {
		if h.known() {
			f := said{h.fields[0], h.kind}
			if h.edge != "" {
				f.f += Field(h.edge)
			}
			seen[f] = true
		}
	}
	return 2 * len(seen)
}

// twoRows joins a row of groups with the row of words under it.
func twoRows(g *Grid, hs *headers, upper, lower *Row) (headerBlock, int) {
	top, _ := oneRow(hs, upper)
	low, _ := oneRow(hs, lower)
	b := headerBlock{top: upper.N, bottom: lower.N, heads: map[int]heading{}}
	for c, h := range top.heads {
		b.heads[c] = h
	}
	under, ofItself := 0, 0
	for c, h := range low.heads {
		if h.known() || edgeNames[fold(h.text)] != "" {
			ofItself++
		}
		over, have := groupOver(g, upper, lower, top.heads, c)
		if !have {
			b.heads[c] = h
			continue
		}
		joined := hs.under(over, h)
		b.heads[c] = joined
		if joined.known() {
			under++
		}
	}
	// A group's own column keeps its word only if nothing stands under it; there it was
	// replaced above. A group whose span is all replaced must not count twice.
	b.bounds()
	points := b.points()
	if under == 0 || ofItself < 2 {
		points = 0
	}
	return b, points
}

// groupOver finds the group cell over a column: in the column, or to the left of it with
// blanks or a merge between.
func groupOver(g *Grid, upper, lower *Row, heads map[int]heading, col int) (heading, bool) {
	if h, ok := heads[col]; ok {
		return h, true
	}
	if s, ok := g.Merge(upper.N, col); ok {
		h, ok := heads[s.Left]
		return h, ok
	}
	for c := col - 1; c > 0 && c > col-8; c-- {
		if h, ok := heads[c]; ok {
			if _, merged := g.Merge(upper.N, c); merged || lower.At(c) == nil {
				return heading{}, false
			}
			return h, h.group || h.unit != length.Unsaid || h.has(fEdges)
		}
	}
	return heading{}, false
}

// under reads a header word in the light of the group over it.
func (hs *headers) under(group, h heading) heading {
	kind := group.kind
	if kind == "" && fold(group.text) == "fin" {
		kind = check.FinishedSize
	}
	if kind == "" && h.sized() { // "Acabado" alone is the finish, over length and width the finished size
		kind = sizeKindOf(group.text)
	}
	out := h
	if out.kind == "" {
		out.kind = kind
	}
	if out.unit == length.Unsaid {
		out.unit = group.unit
	}
	if group.has(fEdges) && len(fold(h.text)) <= 8 {
		if edge := edgeNames[fold(h.text)]; edge != "" {
			out.fields, out.edge, out.sure = []Field{fEdge}, edge, 1
			return out
		}
	}
	if group.has(fQty) {
		if both := hs.read(group.text+" "+h.text, false); both.known() && both.sure > .7 {
			both.text = group.text + " " + h.text
			return both
		}
	}
	if !out.known() {
		if both := hs.read(group.text+" "+h.text, false); both.known() {
			both.text = group.text + " " + h.text
			if both.unit == length.Unsaid {
				both.unit = group.unit
			}
			return both
		}
		if group.known() && length.UnitIn(h.text) != length.Unsaid {
			group.unit = length.UnitIn(h.text)
			return group
		}
	}
	if group.text != "" {
		out.text = group.text + " " + h.text
	}
	return out
}

// withUnitRow takes in a row below the header that holds only units, or only the numbers of
// the columns.
func withUnitRow(g *Grid, i int, b headerBlock) headerBlock {
	if i+1 >= len(g.Rows) || g.Rows[i+1].N != b.bottom+1 {
		return b
	}
	r := &g.Rows[i+1]
	units, others, counting := 0, 0, len(r.Cells) > 2
	for j := range r.Cells {
		c := &r.Cells[j]
		if c.Kind != Number || c.Num != float64(j+1) {
			counting = false
		}
		text := strings.Trim(c.Text(), "()[] ")
		switch {
		case c.Kind == Words && length.UnitIn(text) != length.Unsaid && len(text) < 12:
			units++
		case c.Kind == Words && unitish[fold(text)]:
		default:
			others++
		}
	}
	if counting {
		b.bottom = r.N
		return b
	}
	if units == 0 || others > 0 {
		return b
	}
	for j := range r.Cells {
		c := &r.Cells[j]
		u := length.UnitIn(strings.Trim(c.Text(), "()[] "))
		if u == length.Unsaid {
			continue
		}
		if h, ok := b.heads[int(c.Col)]; ok {
			h.unit = u
			b.heads[int(c.Col)] = h
		} else if before, ok := b.heads[int(c.Col)-1]; ok && before.unit == length.Foot && u == length.Inch {
			b.heads[int(c.Col)] = heading{text: c.Text(), fields: []Field{fInches}, sure: 1, unit: u}
		}
	}
	b.bottom = r.N
	return b
}

var unitish = set("ea pcs pc each st stk stck szt pz ud uds nr no n st text code kg lb")

// qualifies reports whether header words are those of a parts table: a name or mark or
// quantity beside a size, or a name with a quantity.
func qualifies(heads map[int]heading) bool {
	var named, counted bool
	dims, size, known := map[Field]bool{}, false, 0
	for _, h := range heads {
		if !h.known() {
			continue
		}
		known++
		named = named || h.has(fName) || h.has(fMark) || h.has(fRole) || h.has(fCase)
		counted = counted || h.fields[0] == fQty || h.fields[0] == fQtyPer || h.fields[0] == fQtyAll || h.has(fQty) && h.sure == 1
		size = size || h.fields[0] == fSize
		for _, f := range []Field{fLength, fWidth, fThick, fHeight, fDepth} {
			if h.fields[0] == f {
				dims[f] = true
			}
		}
	}
	switch {
	case len(dims) >= 2 && (named || counted || known >= 4):
		return true
	case size && known >= 2 && (named || counted):
		return true
	case len(dims) == 1 && named && counted:
		return true
	}
	return named && counted && known >= 2
}

// mostlyKnown keeps sentences and rows of data from passing as headers.
func mostlyKnown(r *Row, b headerBlock) bool {
	known, words := 0, 0
	for _, h := range b.heads {
		words++
		if h.known() {
			known++
		}
	}
	return known >= 3 || 2*known >= words
}

// splitSide parts a header over two tables side by side: at a blank column with a whole
// header on both sides, or where the words begin again.
func splitSide(g *Grid, b headerBlock) []headerBlock {
	for c := b.left + 1; c < b.right; c++ {
		_, here := b.heads[c]
		again := here && c-b.left >= 2 && b.repeatsAt(c)
		if here && !again {
			continue
		}
		l, r := b.cut(c)
		if !qualifies(l.heads) || !qualifies(r.heads) {
			continue
		}
		if !again && (!g.blankBelow(b.bottom, c) || l.points()+r.points() < b.points()+4) {
			continue
		}
		return append([]headerBlock{l}, splitSide(g, r)...)
	}
	return []headerBlock{b}
}

// repeatsAt reports whether the header words from column c on are those from the left again.
func (b *headerBlock) repeatsAt(c int) bool {
	n := 0
	for i := 0; b.left+i < c; i++ {
		left, ok1 := b.heads[b.left+i]
		right, ok2 := b.heads[c+i]
		if ok1 != ok2 || ok1 && fold(left.text) != fold(right.text) {
			return false
		}
		if ok1 {
			n++
		}
	}
	return n >= 2
}

// cut parts a header before column c.
func (b *headerBlock) cut(c int) (l, r headerBlock) {
	l = headerBlock{top: b.top, bottom: b.bottom, heads: map[int]heading{}}
	r = headerBlock{top: b.top, bottom: b.bottom, heads: map[int]heading{}}
	for col, h := range b.heads {
		if col < c {
			l.heads[col] = h
		} else {
			r.heads[col] = h
		}
	}
	l.bounds()
	r.bounds()
	return l, r
}

// blankBelow reports whether a column is blank for the rows under a header.
func (g *Grid) blankBelow(row, col int) bool {
	for i := range g.Rows {
		if r := &g.Rows[i]; r.N > row && r.N <= row+40 && r.At(col) != nil {
			return false
		}
	}
	return true
}
