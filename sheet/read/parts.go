package read

import (
	"fmt"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

var partsKind = kind{
	name: "parts",
	score: func(g *Grid, shop *standard.Table) int {
		return partsIn(g, shop).score()
	},
	read: func(g *Grid, t *Tab, shop *standard.Table) map[int]bool {
		return partsIn(g, shop).read(t)
	},
}

// partsFound are the tables of parts of one grid.
type partsFound struct {
	g      *Grid
	shop   *standard.Table
	hs     *headers
	names  *nameReader
	tables []*table
	turned []*turned // tables with the fields down and the parts across
	titles titles
}

// partsIn finds the tables once and remembers them on the grid.
func partsIn(g *Grid, shop *standard.Table) *partsFound {
	if g.parts == nil || g.parts.shop != shop {
		g.parts = findParts(g, shop)
	}
	return g.parts
}

func findParts(g *Grid, shop *standard.Table) *partsFound {
	f := &partsFound{g: g, shop: shop, hs: newHeaders(shop)}
	f.names = newNameReader(shop, decimalMark(g))
	all := findTables(g, f.hs)
	f.trimToLeads(all)
	for _, t := range all {
		t.resolve()
		if t.real(f.names) && !t.hardware(f.names) && !headsJoints(g, t.top) {
			f.tables = append(f.tables, t)
		}
	}
	if m := findMatrix(g, f.hs, f.names, f.covered); m != nil {
		f.tables = append(f.tables, m)
	}
	if len(f.tables) == 0 {
		f.findTurned()
	}
	if len(f.tables) == 0 && len(f.turned) == 0 {
		if t := f.headless(); t != nil {
			f.tables = append(f.tables, t)
		}
	}
	return f
}

func (f *partsFound) covered(row int) bool {
	for _, t := range f.tables {
		if t.top <= row && row <= t.last && !(t.headless && row == t.top) {
			return true
		}
	}
	for _, t := range f.turned {
		if t.top <= row && row <= t.bottom {
			return true
		}
	}
	return false
}

// decimalMark finds how texts of the grid mark decimals: by comma where some do and none
// uses a point.
func decimalMark(g *Grid) length.Mark {
	comma, point := 0, 0
	for i := range g.Rows {
		if i > sampleRows {
			break
		}
		for j := range g.Rows[i].Cells {
			c := &g.Rows[i].Cells[j]
			if c.Kind != Words || len(c.raw) > 40 {
				continue
			}
			for k := 1; k+1 < len(c.raw); k++ {
				if !digit(c.raw[k-1]) || !digit(c.raw[k+1]) {
					continue
				}
				switch c.raw[k] {
				case ',':
					comma++
				case '.':
					point++
				}
			}
		}
	}
	switch {
	case comma > 0 && point == 0:
		return length.Comma
	case point > 0 && comma == 0:
		return length.Point
	}
	return length.Either
}

func digit(b byte) bool { return b >= '0' && b <= '9' }

// trimToLeads gives the lone words right above a header to the table below it.
func (f *partsFound) trimToLeads(all []*table) {
	for k, t := range all {
		if k == 0 {
			continue
		}
		up := t.top
		for steps := 0; steps < 4; steps++ {
			i := rowBefore(f.g, up)
			if i < 0 || up-f.g.Rows[i].N > 2 {
				break
			}
			r := &f.g.Rows[i]
			if t.filled(r) == 0 || !loneWords(r, t) {
				break
			}
			up = r.N
		}
		t.lead = up
		for _, before := range all[:k] {
			if before.top < up && before.last >= up && before.left <= t.right && t.left <= before.right {
				before.last = up - 1
			}
		}
	}
}

func loneWords(r *Row, t *table) bool {
	n := 0
	for i := range r.Cells {
		c := &r.Cells[i]
		if int(c.Col) < t.left || int(c.Col) > t.right {
			continue
		}
		if c.Kind != Words || totalText(c.Text()) {
			return false
		}
		n++
	}
	return n == 1 || n == 2
}

func rowBefore(g *Grid, n int) int {
	for i := len(g.Rows) - 1; i >= 0; i-- {
		if g.Rows[i].N < n {
			return i
		}
	}
	return -1
}

// real reports whether the table holds sized parts: header words alone make none.
func (t *table) real(names *nameReader) bool {
	good, dims := 0, 0
	for _, c := range t.cols {
		switch c.field {
		case fLength, fWidth, fThick, fHeight, fDepth:
			if c.prof.n > 0 && c.prof.share(c.prof.lengths) >= .4 {
				dims++
			}
		case fSize:
			if c.prof.share(c.prof.sizes) >= .3 {
				good += 2
			} else if c.prof.share(c.prof.lengths) >= .5 && c.prof.strong > 0 {
				dims++
			}
		case fName, fMark, fRole:
			if t.sizesIn(c, names) {
				t.nameSized = true
				good += 2
			}
		}
	}
	named := t.find(fName) != nil || t.find(fMark) != nil || t.find(fRole) != nil || t.find(fCase) != nil
	counted := t.find(fQty) != nil || t.find(fQtyPer) != nil || t.find(fQtyAll) != nil || named && t.find(fInCase) != nil
	made := t.find(fMatl) != nil || t.find(fThick) != nil || t.find(fEdges) != nil || t.find(fGrain) != nil
	switch {
	case good >= 2 && (counted || named):
		return true
	case dims >= 2 && counted && (named || made || t.find(fNote) != nil):
		return true
	case dims >= 3 && named && made:
		return true
	case dims >= 2 && named && made && t.find(fMatl) != nil:
		return true
	case dims >= 2 && named && t.rolesIn():
		return true
	case dims == 1 && counted && named && t.find(fMatl) != nil && t.find(fUnused) == nil:
		return true
	}
	return false
}

// rolesIn reports whether a good part of the names say what a part of a case does.
func (t *table) rolesIn() bool {
	for _, f := range []Field{fName, fRole} {
		if c := t.find(f); c != nil && c.prof.n > 1 && 5*c.prof.roles >= 2*c.prof.n {
			return true
		}
	}
	return false
}

// hardware reports whether nearly all rows of a table name hardware, labour or the like.
func (t *table) hardware(names *nameReader) bool {
	col := t.find(fName)
	if col == nil {
		return false
	}
	rows, not := 0, 0
	for i := range t.g.Rows {
		r := &t.g.Rows[i]
		if r.N <= t.bottom || r.N > t.last {
			continue
		}
		if c := r.At(col.col); c != nil && c.Kind == Words && t.filled(r) > 1 {
			rows++
			if names.roles.of(c.Text()) == check.NotAPart {
				not++
			}
		}
		if rows >= sampleRows {
			break
		}
	}
	return rows > 0 && 4*not >= 3*rows
}

// sizesIn reports whether a good part of the names in a column hold a size.
func (t *table) sizesIn(col *column, names *nameReader) bool {
	rows, sized := 0, 0
	for i := range t.g.Rows {
		r := &t.g.Rows[i]
		if r.N <= t.bottom || r.N > t.last {
			continue
		}
		c := r.At(col.col)
		if c == nil || c.Kind != Words {
			continue
		}
		rows++
		if s, ok := names.size(c, length.Unsaid); ok && len(s.Axes) >= 2 && boardLike(s) {
			sized++
		}
		if rows >= sampleRows {
			break
		}
	}
	return sized >= 2 && 5*sized >= 2*rows || sized == 1 && rows <= 2
}

// boardLike keeps bolts and packages from passing as boards: one size at least is over 50 mm
// or 2 in.
func boardLike(s length.Size) bool {
	for _, a := range s.Axes {
		u := a.Unit
		if u == length.Unsaid {
			u = length.Inch
		}
		if length.Convert(a.Nominal, u, length.Millimetre) > 50 {
			return true
		}
	}
	return false
}

// score says how surely the grid holds parts.
func (f *partsFound) score() int {
	best := 0
	for _, t := range f.turned {
		best = max(best, t.score())
	}
	for _, t := range f.tables {
		if t.matrix != nil {
			best = max(best, 70)
			continue
		}
		if t.headless {
			best = max(best, certain+2) // anything with words of its own comes first
			continue
		}
		s := 50
		for _, fl := range []Field{fQty, fMark, fName, fMatl, fThick, fLength, fSize} {
			if t.find(fl) != nil {
				s += 7
			}
		}
		best = max(best, min(s, 99))
	}
	return best
}

// read turns the tables into parts.
func (f *partsFound) read(tab *Tab) map[int]bool {
	if tab.roles == nil {
		tab.roles = map[int]rowRole{}
	}
	if len(f.turned) > 0 {
		return f.readTurned(tab)
	}
	f.readTitles(tab)
	unit, why := decideUnit(f.tables, &f.titles)
	tab.Unit = unit
	if why != "" {
		tab.Notes = append(tab.Notes, fmt.Sprintf("no unit is said: sizes are taken as %s, because %s", unit.Word(), why))
	}
	used := map[int]bool{}
	tab.parts = partList{book: f.g.Book, tab: f.g.Tab}
	var pending []sameRef
	var before *rowReader
	for k, t := range f.tables {
		if t.size == "" {
			t.size = f.titles.size
		}
		t.unit = unit
		rr := &rowReader{table: t, tab: tab, shop: f.shop, unit: unit, decimal: f.names.decimal, names: f.names, out: &tab.parts}
		rr.forAll = f.titles.forAll
		f.lead(rr, k, before)
		for r := t.top; r <= t.bottom && !t.headless; r++ {
			tab.roles[r] = rowRole{word: "header"}
			used[r] = true
		}
		if len(f.tables) == 1 && len(f.g.Rows) >= longTab {
			rr.done = func(r *Row) {
				f.nameBesideRow(tab, r)
				r.Cells = nil
			}
		}
		if t.matrix != nil {
			rr.readMatrix()
		} else {
			rr.read()
		}
		f.nameUnusedColumns(rr)
		pending = append(pending, rr.pending...)
		before = rr
	}
	f.nameBeside(tab)
	fillReferences(tab, pending)
	if len(f.tables) > 0 && !f.tables[0].headless {
		tab.Header = Address(f.tables[0].top, f.tables[0].left)
	}
	for n := range tab.roles {
		used[n] = true
	}
	tab.tables = f.tables
	return used
}

// nameBeside names the cells that stand beside a table, in a row of it.
func (f *partsFound) nameBeside(tab *Tab) {
	for i := range f.g.Rows {
		if r := &f.g.Rows[i]; f.covered(r.N) {
			f.nameBesideRow(tab, r)
		}
	}
}

func (f *partsFound) nameBesideRow(tab *Tab, r *Row) {
	for j := range r.Cells {
		c := &r.Cells[j]
		if f.inTable(r.N, int(c.Col)) {
			continue
		}
		tab.Aside = append(tab.Aside, c.Unread("stands beside the table, in no column of it"))
		if _, known := tab.roles[r.N]; !known {
			tab.roles[r.N] = rowRole{word: "note", why: "stands beside the table"}
		}
	}
}

func (f *partsFound) inTable(row, col int) bool {
	for _, t := range f.tables {
		if row < t.top || row > t.last || col < t.left || col > t.right {
			continue
		}
		if t.matrix != nil || row <= t.bottom {
			return true
		}
		for _, c := range t.cols {
			if c.col == col {
				return true
			}
		}
	}
	return false
}

// nameUnusedColumns names each column that holds something no field reads.
func (f *partsFound) nameUnusedColumns(rr *rowReader) {
	for _, c := range rr.cols {
		if c.prof.n == 0 || c.field != fUnknown && c.field != fUnused && c.field != fRowNo {
			continue
		}
		u := check.Unread{Cell: rr.g.Place(rr.top, c.col), Text: c.headText()}
		switch {
		case c.field == fUnused:
			u.Why = fmt.Sprintf("no check uses this column; %d cells below it are not used", c.prof.n)
		case c.field == fRowNo:
			u.Why = "counts the rows; no marks"
		case len(c.head.fields) > 0:
			u.Why = fmt.Sprintf("another column is taken for the %s already, or these cells are none; %d cells below it are not used", c.head.fields[0], c.prof.n)
		default:
			u.Why = fmt.Sprintf("the header word is not known; %d cells below it are not used", c.prof.n)
		}
		rr.tab.Aside = append(rr.tab.Aside, u)
	}
}

var titleWords = set(`job project client customer schedule list cut cutlist cutting parts part bom bill date rev revision sheet page drawing dwg prepared by
	all sizes size dimensions dims order auftrag kunde projekt projet chantier proyecto obra cliente progetto commessa zlecenie klant kund liste lista
	stuckliste zuschnittliste nomenclature legend scale note notes unit units architect contractor address phone drawn checked material materials finish shop
	werkstatt masse fertigmasse alle debit commande pedido distinta wykaz zaaglijst stuklijst kaplista stycklista version title subject estimate quote`)

// titleLike reports whether a lone text is a title of the tab and no case.
func titleLike(text string) bool {
	words := strings.Fields(fold(text))
	if len(words) == 0 || len(words) > 8 {
		return true
	}
	if titleWords[words[0]] || titleWords[words[len(words)-1]] {
		return true
	}
	for _, w := range words {
		switch w {
		case "schedule", "list", "cutlist", "job", "project", "stuckliste", "liste", "sizes", "bom", "dimensions", "lista", "nomenclature":
			return true
		}
	}
	return false
}

// readTitles takes the rows above the first table, and what they say for all.
func (f *partsFound) readTitles(tab *Tab) {
	for i := range f.g.Rows {
		r := &f.g.Rows[i]
		lone := len(r.Cells) <= 2
		if f.covered(r.N) && !lone {
			continue
		}
		for j := range r.Cells {
			c := &r.Cells[j]
			if c.Kind != Words {
				continue
			}
			if !f.covered(r.N) {
				f.titles.readTitle(c.Text())
			}
			f.readForAll(c)
		}
	}
	for _, t := range f.tables {
		if t.matrix != nil && t.matrix.corner != nil {
			if u := length.UnitIn(t.matrix.corner.Text()); u != length.Unsaid {
				for _, c := range t.matrix.cols {
					c.unit = u
				}
			}
		}
	}
}

// lead reads the lines above the header of a table: the case or the room of its parts.
func (f *partsFound) lead(rr *rowReader, k int, before *rowReader) {
	t := rr.table
	rr.times = 1
	top := t.lead
	if k == 0 || top == 0 {
		top = 1
	}
	found := false
	for i := range f.g.Rows {
		r := &f.g.Rows[i]
		if r.N < top || r.N >= t.top+btoi(t.headless) || f.covered(r.N) {
			continue
		}
		if _, done := rr.tab.roles[r.N]; done {
			found = f.leadBeside(rr, k, r) || found
			continue
		}
		if label, ok := labelled(r); ok {
			found = rr.takeLabel(label) || found
			rr.setTitle(r)
			continue
		}
		lone := t.firstWords(r)
		near := t.top-r.N <= 2
		text := ""
		if lone != nil {
			text = lone.Text()
		}
		if lone == nil || !near || titleLike(text) || noteLike(text) || k == 0 && len(f.tables) == 1 && !namesPlace(text) {
			rr.setTitle(r)
			continue
		}
		rr.setRole(r, "heading", "")
		rr.takeHeading(lone)
		found = true
	}
	if !found && before != nil && before.sameShape(t) {
		rr.room, rr.casing, rr.times = before.room, before.casing, before.times
	}
	rr.depth = 0
}

// leadBeside takes a heading in a row that a table on the left has taken its own from.
func (f *partsFound) leadBeside(rr *rowReader, k int, r *Row) bool {
	t := rr.table
	lone := t.firstWords(r)
	if lone == nil || t.top-r.N > 2 || titleLike(lone.Text()) || noteLike(lone.Text()) {
		return false
	}
	for _, o := range f.tables[:k] {
		if o.left <= int(lone.Col) && int(lone.Col) <= o.right {
			return false
		}
	}
	rr.takeHeading(lone)
	return true
}

// namesPlace reports whether the line above the only table of a tab is the name of a room or
// a case and not a title: "Master bedroom", "Case B", but not "Joinery for the mezzanine".
func namesPlace(text string) bool {
	words := strings.Fields(fold(text))
	if len(words) == 0 || len(words) > 3 {
		return false
	}
	return caseWords[words[0]] || isRoom(text)
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// sameShape reports whether a table goes on with the columns of the one before: its header
// was only repeated, as on a new page.
func (rr *rowReader) sameShape(t *table) bool {
	if rr.left != t.left || len(rr.cols) != len(t.cols) || t.top-rr.table.last > 3 {
		return false
	}
	for i, c := range rr.cols {
		if fold(c.head.text) != fold(t.cols[i].head.text) {
			return false
		}
	}
	return true
}

// firstWords is the one text of a row over the table, nil if there are more than two.
func (t *table) firstWords(r *Row) *Cell {
	var lone *Cell
	n := 0
	for i := range r.Cells {
		c := &r.Cells[i]
		if int(c.Col) < t.left || int(c.Col) > t.right {
			continue
		}
		n++
		if c.Kind != Words {
			return nil
		}
		if lone == nil {
			lone = c
		}
	}
	if n != 1 {
		return nil
	}
	return lone
}

// titleLabel is a line such as "Room: Den" or "Case:" | "W1".
type titleLabel struct {
	field Field
	text  check.Text
}

func labelled(r *Row) (titleLabel, bool) {
	for i := range r.Cells {
		c := &r.Cells[i]
		if c.Kind != Words {
			continue
		}
		key, value, has := strings.Cut(c.Text(), ":")
		from := c
		if !has {
			continue
		}
		value = strings.TrimSpace(value)
		if value == "" && i+1 < len(r.Cells) {
			from = &r.Cells[i+1]
			value = from.Text()
		}
		if value == "" {
			continue
		}
		for _, f := range partLexicon.exact(key) {
			if f == fRoom || f == fCase {
				return titleLabel{f, check.Text{Text: value, From: from.From()}}, true
			}
		}
	}
	return titleLabel{}, false
}

func (rr *rowReader) takeLabel(l titleLabel) bool {
	if l.field == fRoom {
		rr.room = l.text
	} else {
		rr.casing = l.text
	}
	return true
}

// setTitle names a row above a table as its title.
func (rr *rowReader) setTitle(r *Row) {
	rr.setRole(r, "title", "")
	u := check.Unread{Cell: r.Cells[0].From(), Why: "stands above a table: a title"}
	var parts []string
	for i := range r.Cells {
		parts = append(parts, r.Cells[i].Text())
	}
	u.Text = strings.Join(parts, " | ")
	rr.tab.Aside = append(rr.tab.Aside, u)
}

// fillReferences gives "same as A3" what A3 says and the own row leaves open.
func fillReferences(tab *Tab, pending []sameRef) {
	for _, ref := range pending {
		of := tab.parts.byMark(ref.mark)
		if of == nil || of == ref.part {
			if ref.part.Length.Known && ref.part.Width.Known {
				continue
			}
			u := ref.cell.Unread(fmt.Sprintf("no part is marked %s", ref.mark))
			u.Mark, u.Wants = ref.part.Mark.Text, "mark"
			tab.Unread = append(tab.Unread, u)
			continue
		}
		takeFrom(ref.part, of)
	}
}
