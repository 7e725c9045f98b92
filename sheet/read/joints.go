package read

import (
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
	"dryfit/sheet/read/phrase"
)

// jointsKind reads joint schedules: a row per kind of joint, or a row per slot of a part.
var jointsKind = kind{name: "joints", score: scoreJoints, read: readJoints}

// jointTables finds the joint schedules of a grid. A header that also says length, thickness
// or material is that of a parts table with columns for fronts and sides.
func jointTables(g *Grid) []*sideTable {
	var tables []*sideTable
	for _, t := range sideTables(g, jointField, isJointHeader) {
		if !saysParts(g, t.heads) {
			tables = append(tables, t)
		}
	}
	return tables
}

func saysParts(g *Grid, heads []int) bool {
	for _, n := range heads {
		row := g.Row(n)
		for i := range row.Cells {
			fs := partLexicon.exact(row.Cells[i].Text())
			if len(fs) > 0 && (fs[0] == fLength || fs[0] == fThick || fs[0] == fMatl) {
				return true
			}
		}
	}
	return false
}

// headsJoints reports whether a row is the header of a joint schedule, so that nobody takes
// the table below it for parts.
func headsJoints(g *Grid, n int) bool {
	for i := range g.Rows {
		if g.Rows[i].N == n {
			cols, heads := headerCols(g, i, jointField)
			return isJointHeader(cols) && !saysParts(g, heads)
		}
	}
	return false
}

func scoreJoints(g *Grid, _ *standard.Table) int {
	if len(g.Rows) > maxSide {
		return 0
	}
	best := 0
	for _, t := range jointTables(g) {
		if len(t.rows) == 0 {
			continue
		}
		score := 50
		for _, c := range t.cols {
			if telling[c.field] {
				score += 10
			}
		}
		best = max(best, min(score, 100))
	}
	return best
}

// largestSlot is the largest bare number that may be inches in a joint schedule: positions
// along a part of 12 ft.
const largestSlot = 144

func readJoints(g *Grid, tab *Tab, _ *standard.Table) map[int]bool {
	used := map[int]bool{}
	t := &Tab{}
	typed, guessed := partsUnit(g, tab, largestSlot)
	for _, table := range jointTables(g) {
		if t.Header == "" {
			t.Header = Address(table.heads[0], table.cols[0].col)
		}
		for _, n := range table.heads {
			used[n] = true
		}
		table.nameHeads(t)
		r := newJointReader(table, t, typed)
		for _, row := range table.rows {
			if r.row(row) {
				used[row.N] = true
			}
		}
		r.group()
	}
	tab.adopt(t, typed, guessed)
	return used
}

// jointReader reads the rows of one joint schedule.
type jointReader struct {
	*sideTable
	tab    *Tab
	unit   length.Unit
	perRow bool // a row is one slot of a part
	joints []*check.Joint
	cells  map[Field]*Cell // the last filled cell of each field, for dittos
}

func newJointReader(table *sideTable, tab *Tab, unit length.Unit) *jointReader {
	r := &jointReader{sideTable: table, tab: tab, unit: unit, cells: map[Field]*Cell{}}
	r.settleMembers()
	r.settleSlots()
	return r
}

// settleMembers gives the columns that only name a part their sense: beside the slotted part
// it goes in, beside the part that goes in it is slotted, alone it is slotted. "Goes in" means
// the place a part goes into, except beside a column of slotted parts: there it is the part.
func (r *jointReader) settleMembers() {
	if r.column(jEnters) == nil {
		seen := false
		for i := range r.cols {
			if c := &r.cols[i]; c.field == jInto {
				if seen {
					c.field = jEnters
					break
				}
				seen = true
			}
		}
	}
	into, enters := r.column(jInto) != nil, r.column(jEnters) != nil
	for i := range r.cols {
		c := &r.cols[i]
		switch {
		case c.field == jDepth && r.column(jDepthIn) == nil:
			c.field = jDepthIn
		case c.field != jMember:
		case !into:
			c.field, into = jInto, true
		case !enters:
			c.field, enters = jEnters, true
		}
	}
}

// settleSlots decides whether a column "Slot" holds the numbers of slots or their widths.
func (r *jointReader) settleSlots() {
	c := r.column(jSlotNo)
	if c == nil {
		return
	}
	if fold(c.text) == "slot" || fold(c.text) == "schlitz" {
		numbered := true
		for _, row := range r.rows {
			if cell := row.At(c.col); cell != nil && (strings.ContainsAny(cell.said(), "./,-½¼¾⅛⅜⅝⅞\"") || cell.Kind == Number && cell.Num > 60) {
				numbered = false
			}
		}
		if !numbered && r.column(jWidth) == nil {
			c.field = jWidth
			return
		}
	}
	r.perRow = true
}

// row reads one row; it returns false for a row that holds no joint.
func (r *jointReader) row(row *Row) bool {
	filled, tells := 0, false
	for i := range row.Cells {
		for _, c := range r.cols {
			if c.col == int(row.Cells[i].Col) {
				filled++
				tells = tells || c.field != jMark && c.field != jInto && c.field != jNote
			}
		}
	}
	if filled < 2 || !tells || isTotalRow(row) {
		return false
	}
	j := &check.Joint{Row: row.Cells[0].From()}
	j.Mark = r.label(row, jMark)
	j.Into = r.label(row, jInto)
	j.Enters = r.label(row, jEnters)
	if j.Into.Text == "" && j.Enters.Text == "" {
		u := wanting(&row.Cells[0], "no part is named in the row; type which part is slotted, and which goes in", "part")
		u.Text = rowText(row)
		r.tab.Unread = append(r.tab.Unread, u)
		return true
	}
	r.kind(row, j)
	j.Count = r.count(row)
	j.Width = r.length(row, jWidth, "the width of the slot as cut", j)
	j.DepthIn = r.length(row, jDepthIn, "the depth cut into the slotted part", j)
	j.DepthOf = r.length(row, jDepthOf, "the depth cut into the part that goes in", j)
	j.Side = r.length(row, jSide, "the depth of the notch at each side", j)
	j.Front = r.length(row, jFront, "the depth of the notch at the front", j)
	r.positions(row, j)
	r.words(row, j)
	r.settleKind(j)
	r.nameUnknown(row, r.tab)
	r.joints = append(r.joints, j)
	return true
}

// filledCell gives the cell of a field, the one above it where it only says ditto; nil where
// nothing or "none" stands.
func (r *jointReader) filledCell(row *Row, f Field) *Cell {
	c := r.cell(row, f)
	if c == nil {
		return nil
	}
	if phrase.Ditto(c.said()) {
		return r.cells[f]
	}
	r.cells[f] = c
	if length.Nothing(c.said()) == length.None {
		return nil
	}
	return c
}

// label reads a mark. In a table of slots a blank part is that of the row above.
func (r *jointReader) label(row *Row, f Field) check.Text {
	if r.perRow && (f == jInto || f == jEnters) && r.cell(row, f) == nil {
		return r.cells[f].text()
	}
	return r.filledCell(row, f).text()
}

func (r *jointReader) kind(row *Row, j *check.Joint) {
	c := r.filledCell(row, jKind)
	if c == nil {
		return
	}
	kind, ok := phrase.JointKind(c.Text())
	if !ok {
		r.cellUnread(c, j, "no kind of joint that is known; type one such as cross lap, dado, rabbet, cleat or butt", "kind of joint")
		return
	}
	j.Kind = kind
}

func (r *jointReader) count(row *Row) check.Value {
	ask := check.Ask{Cell: r.place(row, jCount), What: "the number of crossings in all, such as 12"}
	if ask.Cell == (check.Cell{}) {
		ask.Tab = "joints"
	}
	c := r.filledCell(row, jCount)
	if c == nil {
		return check.Missing(ask)
	}
	n, ok := wholeNumber(c)
	if !ok {
		r.tab.Unread = append(r.tab.Unread, wanting(c, "no whole number; expected the number of crossings in all, such as 12", "quantity"))
		return check.Missing(ask)
	}
	return c.at(check.Exact(n))
}

func wholeNumber(c *Cell) (float64, bool) {
	t, ok := readTally(c.said())
	return t.n, ok && t.n > 0
}

func wanting(c *Cell, why, wants string) check.Unread {
	u := c.Unread(why)
	u.Wants = wants
	return u
}

// length reads one length of the row.
func (r *jointReader) length(row *Row, f Field, what string, j *check.Joint) check.Value {
	col := r.column(f)
	missing := check.Missing(check.Ask{Cell: r.place(row, f), What: what + r.example()})
	if col == nil {
		return check.Value{}
	}
	c := r.filledCell(row, f)
	if c == nil {
		return missing
	}
	v, _, err := phrase.Value(c.said(), r.bare(col), what)
	if err != nil {
		r.cellUnread(c, j, err.Error(), string(f))
		return missing
	}
	return c.at(v.Scale(length.Convert(1, r.bare(col), r.unit)))
}

// bare is the unit of the bare numbers of a column.
func (r *jointReader) bare(col *sideCol) length.Unit {
	if col.unit != length.Unsaid {
		return col.unit
	}
	return r.unit
}

func (r *jointReader) example() string {
	if r.unit.Metric() {
		return ", such as 32.5"
	}
	return ", such as 1 9/16"
}

// positions reads every column of positions of a row, and what their headers say.
func (r *jointReader) positions(row *Row, j *check.Joint) {
	var p phrase.Positions
	var cells []*Cell // of each position
	for i := range r.cols {
		col := &r.cols[i]
		if col.field != jAt {
			continue
		}
		c := r.g.Anchor(row.N, col.col)
		if c != nil && phrase.Ditto(c.said()) {
			c = r.cells[jAt]
		}
		if c == nil || length.Nothing(c.said()) == length.None {
			continue
		}
		r.cells[jAt] = c
		p.Header(col.text)
		before := p
		if err := p.Read(c.said(), r.bare(col)); err != nil {
			p = before
			r.cellUnread(c, j, err.Error(), "positions")
			continue
		}
		for len(cells) < len(p.At)+len(p.Bays) {
			cells = append(cells, c)
		}
	}
	j.From = p.From
	if c := r.filledCell(row, jFrom); c != nil {
		if end := phrase.End(c.Text()); end != "" {
			j.From = end
		} else {
			r.cellUnread(c, j, "no end of a part that is known; type one such as bottom, top, left or front", "end")
		}
	}
	j.Centres, j.Far = p.Centres, p.Far
	if col := r.column(jAt); col != nil && !p.Centres && !p.Far && !p.Edges && p.Bays == nil {
		j.Centres = fold(col.text) == "ctrs"
	}
	j.At, j.Bays = p.At, p.Bays
	for i := range j.At {
		j.At[i] = cells[i].at(j.At[i])
	}
	for i := range j.Bays {
		if j.Bays[i].From = cells[i].From(); j.Bays[i].Known {
			j.Bays[i] = cells[i].at(j.Bays[i])
		}
	}
}

// words reads fit, fastener and note.
func (r *jointReader) words(row *Row, j *check.Joint) {
	j.Fit = r.filledCell(row, jFit).text()
	j.Fastener = r.filledCell(row, jFast).text()
	if s, ok := phrase.Screws(j.Fastener.Text, r.unit); ok {
		s.Length.From, s.Count.From = j.Fastener.From, j.Fastener.From
		j.Screws = s
	}
	note := r.filledCell(row, jNote)
	if note == nil {
		return
	}
	if s, ok := phrase.Screws(note.Text(), r.unit); ok && j.Screws == nil {
		s.Length.From, s.Count.From = note.From(), note.From()
		j.Screws, j.Fastener = s, note.text()
	}
	if rule, ok := phrase.Slots(note.Text(), r.unit); ok && !j.Width.Known && rule.Width.Known {
		j.Width = note.at(rule.Width)
		return
	}
	if j.Screws == nil || j.Fastener.From != note.From() {
		r.tab.setAside(note, "a note")
	}
}

// settleKind names the kind from what is cut: notches at side or front make a notched lap,
// depths in both parts a cross lap, where the row says less.
func (r *jointReader) settleKind(j *check.Joint) {
	open := j.Kind == "" || j.Kind == check.Notch
	switch {
	case !open:
	case j.Side.Known || j.Front.Known:
		j.Kind = check.NotchedLap
	case j.DepthIn.Known && j.DepthOf.Known && j.DepthOf.Nominal > 0:
		j.Kind = check.CrossLap
	case j.Kind == "" && (j.Width.Known || j.DepthIn.Known):
		j.Kind = check.Notch
	}
	if j.Kind == check.Dado && j.DepthOf.Known && j.DepthOf.Nominal == 0 {
		j.DepthOf = check.Value{}
	}
}

func (r *jointReader) cellUnread(c *Cell, j *check.Joint, why, wants string) {
	u := wanting(c, why, wants)
	u.Mark = j.Into.Text
	r.tab.Unread = append(r.tab.Unread, u)
}

// group joins the rows of a table of slots that differ only in their position into one joint
// each, and hands all joints to the tab.
func (r *jointReader) group() {
	for _, j := range r.joints {
		r.tab.Rows++
		if twin := r.twin(j); twin != nil {
			twin.At = append(twin.At, j.At...)
			if j.Mark.Text != "" {
				twin.Mark.Text += ", " + j.Mark.Text
			}
			continue
		}
		r.tab.Joints = append(r.tab.Joints, j)
	}
}

func (r *jointReader) twin(j *check.Joint) *check.Joint {
	if !r.perRow || len(j.At) != 1 || j.Count.Known {
		return nil
	}
	for _, k := range r.tab.Joints {
		same := k.Into.Text == j.Into.Text && k.Enters.Text == j.Enters.Text && k.Kind == j.Kind && k.Fit.Text == j.Fit.Text &&
			k.Fastener.Text == j.Fastener.Text && k.From == j.From && k.Centres == j.Centres && k.Far == j.Far && len(k.At) > 0
		if same && equalValue(k.Width, j.Width) && equalValue(k.DepthIn, j.DepthIn) && equalValue(k.DepthOf, j.DepthOf) &&
			equalValue(k.Side, j.Side) && equalValue(k.Front, j.Front) {
			return k
		}
	}
	return nil
}

func equalValue(a, b check.Value) bool {
	return a.Known == b.Known && a.Low == b.Low && a.Nominal == b.Nominal && a.High == b.High
}

// isTotalRow reports a row that only adds up the rows above it.
func isTotalRow(row *Row) bool {
	for i := range row.Cells {
		if c := &row.Cells[i]; c.Kind == Words {
			return totalText(c.Text())
		}
	}
	return false
}
