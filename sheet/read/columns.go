package read

import (
	"slices"
	"strings"

	"dryfit/check/length"
)

const fInCase Field = "quantity in one case" // a column of counts headed by a case

// resolve decides what each column is, by its header word and by what stands in it.
func (t *table) resolve() {
	t.takeInUnlabelled()
	t.sample()
	t.smallLetterIsWidth()
	t.findTwins()
	t.settleThickness()
	t.inchesBesideFeet()
	type claim struct {
		col   *column
		field Field
		score float64
	}
	var claims []claim
	for _, c := range t.cols {
		for i, f := range c.head.fields {
			prior := c.head.sure * (1 - .14*float64(min(i, 4)))
			if len(c.head.fields) == 1 {
				prior += .1
			}
			claims = append(claims, claim{c, f, prior * (.05 + c.prof.fit(f))})
		}
	}
	slices.SortStableFunc(claims, func(a, b claim) int {
		switch {
		case a.score > b.score:
			return -1
		case a.score < b.score:
			return 1
		}
		return 0
	})
	for _, cl := range claims {
		if cl.col.field == fUnknown && t.free(cl.field, cl.col) && cl.col.prof.allows(cl.field) {
			cl.col.field = cl.field
		}
	}
	for _, c := range t.cols {
		if c.field == fUnknown && c.prof.times && c.prof.distinct == 1 {
			c.field = fUnused // the x between two sizes, under a header of its own
		}
	}
	t.countsOfCases()
	t.countsInAll()
	t.rowNumbersAreNoMarks()
	t.caseColumns()
	t.inferUnlabelled()
	t.heightIsThickness()
}

// free reports whether no other column holds the field yet.
func (t *table) free(f Field, col *column) bool {
	switch f {
	case fNote, fUnused, fEdge, fInCase, fInches:
		return true
	}
	for _, c := range t.cols {
		if c != col && c.field == f && c.kind == col.kind {
			return false
		}
	}
	return true
}

// find returns the column of a field, nil if there is none.
func (t *table) find(f Field) *column {
	for _, c := range t.cols {
		if c.field == f {
			return c
		}
	}
	return nil
}

// allows keeps a numeric field from a column of words, and money from counts.
func (p *profile) allows(f Field) bool {
	if p.n == 0 {
		return true
	}
	switch f {
	case fQtyAll, fCases, fQtyPer:
		return p.share(p.counts) >= .5
	case fQty:
		return p.share(p.counts) >= .3
	case fRowNo:
		return p.sequence || p.share(p.counts) > .8
	case fLength, fWidth, fThick, fHeight, fDepth, fX, fY:
		return p.share(p.lengths) >= .2 || p.share(p.lettered) < .5
	case fUnit:
		return p.share(p.units) >= .4
	case fGrain:
		return p.share(p.grains) >= .4
	case fHand:
		return p.share(p.numbers) < .5
	}
	return true
}

// fit says how well the values of a column go with a field, 0 to 1.
func (p *profile) fit(f Field) float64 {
	if p.n == 0 {
		return .4
	}
	varied := float64(p.distinct) / float64(p.n)
	switch f {
	case fQty, fQtyPer, fQtyAll, fCases:
		if p.sequence && p.n >= 3 || varied == 1 && (p.n >= 5 || p.n >= 2 && p.median >= 100) && p.share(p.numbers) > .9 {
			return .2
		}
		return p.share(p.counts)
	case fRowNo:
		if p.sequence {
			return 1
		}
		return 0
	case fMark:
		if p.sequence {
			return .1
		}
		return p.share(p.codes) * varied
	case fName:
		if p.merged || p.coarse && 2*p.n <= p.rows {
			return .4 * p.share(p.worded)
		}
		return p.share(p.worded)
	case fRole:
		return .3*p.share(p.worded) + .6*p.share(p.roles)
	case fCase, fRoom:
		switch {
		case p.share(p.units) > .5:
			return 0
		case p.coarse:
			return 1
		}
		return p.share(max(p.lettered, p.codes)) * (1.1 - varied)
	case fLength, fWidth, fThick, fHeight, fDepth, fX, fY, fStrip:
		return p.share(p.lengths)
	case fSize:
		return min(1, p.share(p.sizes)+.4*p.share(p.lengths))
	case fMatl:
		if varied == 1 && p.n >= 3 && p.share(p.codes) == 1 {
			return .2 // a code of its own on each row: "Board" over marks
		}
		return max(p.share(p.lettered), .3)
	case fEdges, fEdge:
		return .5 + .5*p.share(p.edges)
	case fFinish, fLayers:
		return .5 + .3*p.share(p.lettered)
	case fGrain:
		return p.share(p.grains)
	case fUnit:
		return p.share(p.units)
	}
	return .5
}

// smallLetterIsWidth tells L from l where both head columns: longueur and largeur, lunghezza
// and larghezza.
func (t *table) smallLetterIsWidth() {
	var small []*column
	capital := false
	for _, c := range t.cols {
		switch strings.Trim(bracketed.ReplaceAllString(c.head.text, ""), " .") {
		case "L":
			capital = true
		case "l":
			small = append(small, c)
		}
	}
	if capital && len(small) == 1 {
		small[0].head.fields = []Field{fWidth}
	}
}

// inchesBesideFeet knows a length in two columns, feet and inches, under the same word.
func (t *table) inchesBesideFeet() {
	for i := 1; i < len(t.cols); i++ {
		a, b := t.cols[i-1], t.cols[i]
		if a.unit == length.Foot && b.unit == length.Inch && a.head.known() && b.head.known() && a.head.fields[0] == b.head.fields[0] {
			b.head.fields = []Field{fInches}
		}
	}
}

// settleThickness decides D, T and S, which mean a thickness in one language and a depth in
// another, by how small the values are.
func (t *table) settleThickness() {
	sure := false
	for _, c := range t.cols {
		if c.head.has(fThick) && !c.head.has(fDepth) {
			sure = true
		}
	}
	for _, c := range t.cols {
		if !c.head.has(fThick) || !c.head.has(fDepth) {
			continue
		}
		if !sure && t.smallest(c) {
			c.head.fields = []Field{fThick}
		} else {
			c.head.fields = []Field{fDepth}
		}
	}
}

// smallest reports whether the values of a column are far smaller than those of the other
// columns of sizes.
func (t *table) smallest(c *column) bool {
	others := 0
	for _, o := range t.cols {
		if o == c || o.prof.median == 0 || !(o.head.has(fLength) || o.head.has(fWidth) || o.head.has(fHeight) || o.head.has(fDepth)) {
			continue
		}
		if c.prof.median > .35*o.prof.median {
			return false
		}
		others++
	}
	return others > 0 || c.prof.median > 0 && c.prof.median <= 4
}

// heightIsThickness takes the small one of three sizes for the thickness where the header
// names none: length, width, height of a board.
func (t *table) heightIsThickness() {
	if t.find(fThick) != nil {
		return
	}
	var plan int
	for _, f := range []Field{fLength, fWidth, fHeight, fDepth} {
		if t.find(f) != nil {
			plan++
		}
	}
	if plan < 3 {
		return
	}
	for _, f := range []Field{fHeight, fDepth} {
		if c := t.find(f); c != nil && t.smallest(c) {
			c.field = fThick
			return
		}
	}
}

// rowNumbersAreNoMarks takes the mark off a column that only counts the rows, under a header
// that could mean either.
func (t *table) rowNumbersAreNoMarks() {
	for _, c := range t.cols {
		if c.field == fMark && c.prof.sequence && c.head.has(fRowNo) {
			c.field = fRowNo
		}
	}
}

// countsOfCases takes "Units" beside "Qty/Unit" for the number of cases.
func (t *table) countsOfCases() {
	if c := t.find(fQty); c != nil && c.head.has(fCases) && t.find(fQtyPer) != nil && t.find(fCases) == nil {
		c.field = fCases
	}
}

// countsInAll takes "Qty" beside "Per case" and "Cases" for what the two make.
func (t *table) countsInAll() {
	if c := t.find(fQty); c != nil && t.find(fQtyPer) != nil && t.find(fCases) != nil && t.find(fQtyAll) == nil {
		c.field = fQtyAll
	}
}

// caseColumns takes columns of counts headed by cases, or by nothing known, for the counts
// of each case, where the table has no column for the quantity.
func (t *table) caseColumns() {
	if t.find(fQty) != nil || t.find(fQtyPer) != nil || t.find(fQtyAll) != nil {
		return
	}
	for _, c := range t.cols {
		if c.field != fUnknown || c.blank || c.prof.share(c.prof.counts) < .6 || c.prof.strong > 0 {
			continue
		}
		c.field, c.casing = fInCase, c.head.text
	}
}

// takeInUnlabelled adds the columns that hold data without a header word, inside the table
// and right beside it.
func (t *table) takeInUnlabelled() {
	counts := map[int]int{}
	rows := 0
	for i := range t.g.Rows {
		r := &t.g.Rows[i]
		if r.N <= t.bottom || r.N > t.last || t.filled(r) < 2 {
			continue
		}
		rows++
		for j := range r.Cells {
			if c := int(r.Cells[j].Col); c >= t.left-1 && c <= t.right+2 {
				counts[c]++
			}
		}
		if rows > sampleRows {
			break
		}
	}
	has := map[int]bool{}
	for _, c := range t.cols {
		has[c.col] = true
	}
	for c := max(1, t.left-1); c <= t.right+2; c++ {
		n := counts[c]
		outside := c < t.left || c > t.right
		if has[c] || n == 0 || outside && (2*n < rows || t.neighbour(c)) {
			continue
		}
		t.cols = append(t.cols, &column{col: c, blank: true})
	}
	slices.SortFunc(t.cols, func(a, b *column) int { return a.col - b.col })
	for i, c := range t.cols {
		c.index = i
	}
	t.left, t.right = t.cols[0].col, t.cols[len(t.cols)-1].col
	t.takeInHeadings()
}

// takeInHeadings moves the left side of the table out to headings that stand in a column of
// their own before it.
func (t *table) takeInHeadings() {
	left := t.left
	for i := range t.g.Rows {
		r := &t.g.Rows[i]
		if r.N <= t.bottom || r.N > t.last || len(r.Cells) > 2 || len(r.Cells) == 0 {
			continue
		}
		if c := &r.Cells[0]; c.Kind == Words && int(c.Col) < t.left && int(c.Col) >= t.left-2 && !t.neighbour(int(c.Col)) && (len(r.Cells) == 1 || totalText(c.Text())) {
			left = min(left, int(c.Col))
		}
	}
	t.left = left
}

// neighbour reports whether a column outside belongs to something else: text stands in it
// on the header row.
func (t *table) neighbour(col int) bool {
	for r := t.top; r <= t.bottom; r++ {
		if t.g.At(r, col) != nil {
			return true
		}
	}
	return false
}

// inferUnlabelled gives columns without a header word the field their values ask for.
func (t *table) inferUnlabelled() {
	for _, c := range t.cols {
		if !c.blank || c.field != fUnknown {
			continue
		}
		c.field = t.inferField(c)
	}
	t.firstColumnIsMark()
}

// firstColumnIsMark takes the first column that says nothing else for the marks, whatever word
// stands over it, where each row has a short code of its own there and no column has the marks:
// "Pc" over L1, L2, "Name" beside "Description".
func (t *table) firstColumnIsMark() {
	if t.find(fMark) != nil {
		return
	}
	for _, c := range t.cols {
		switch p := &c.prof; {
		case c.field == fRowNo || c.field == fCase || c.field == fRoom:
			continue
		case c.field != fUnknown || p.n < 2 || p.distinct != p.n:
		case p.share(p.worded) > .5:
			if t.find(fName) == nil && t.find(fRole) == nil {
				c.field = fName
			}
		case p.share(p.codes) > .8 && (p.lettered > 0 || c.head.has(fQty) && p.median >= 100):
			c.field = fMark
		}
		return
	}
}

func (t *table) inferField(c *column) Field {
	p := &c.prof
	lacks := func(fs ...Field) bool {
		for _, f := range fs {
			if t.find(f) != nil {
				return false
			}
		}
		return true
	}
	switch {
	case p.n == 0:
		return fUnknown
	case p.distinct == 1 && p.times:
		return fUnused // the x between the sizes
	case p.sequence && c.col <= t.cols[0].col+1:
		return fRowNo
	case p.share(p.sizes) > .5 && lacks(fSize):
		return fSize
	case p.share(p.lengths) > .8 && p.strong > 0 && lacks(fSize):
		return t.missingSize(c)
	case p.share(p.counts) > .8 && lacks(fQty, fQtyPer, fQtyAll, fInCase):
		return fQty
	case p.share(p.lengths) > .8 && lacks(fSize) && t.missingSize(c) != fUnknown:
		return t.missingSize(c)
	case p.share(p.units) > .6:
		return fUnit
	case p.share(p.codes) > .8 && p.distinct == p.n && p.lettered > 0 && lacks(fMark):
		return fMark
	case p.share(p.worded) > .6 && p.share(p.roles) > .4 && lacks(fName, fRole):
		return fName
	case p.share(p.worded) > .6 && p.distinct*2 > p.n && lacks(fName):
		return fName
	case p.share(p.lettered) > .6 && p.n*2 > p.rows && lacks(fMatl) && p.distinct*2 <= p.n:
		return fMatl
	case p.lettered > 0:
		return fNote
	}
	return fUnknown
}

// missingSize is the one size a table lacks, if the values are of its order.
func (t *table) missingSize(c *column) Field {
	l, w, th := t.find(fLength), t.find(fWidth), t.find(fThick)
	if l == nil && t.find(fHeight) == nil && w != nil && c.prof.median > w.prof.median {
		return fLength
	}
	if th == nil && w != nil && c.prof.median < .35*w.prof.median {
		return fThick
	}
	if w == nil && l != nil && t.find(fDepth) == nil && c.prof.median <= l.prof.median {
		return fWidth
	}
	return fUnknown
}

// headText is the header of a column as a person would name it.
func (c *column) headText() string {
	if c.blank {
		return "column " + ColName(c.col) + " (no header)"
	}
	return strings.Join(strings.Fields(c.head.text), " ")
}

// isLength reports whether the cells of the column are lengths.
func (c *column) isLength() bool {
	switch c.field {
	case fLength, fWidth, fThick, fHeight, fDepth, fSize, fX, fY, fStrip:
		return true
	}
	return false
}

// unitOr is the unit of bare numbers in the column.
func (c *column) unitOr(u length.Unit) length.Unit {
	if c.unit != length.Unsaid {
		return c.unit
	}
	return u
}
