package read

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/sheet/read/phrase"
)

// The tabs beside the part schedule share this file: how a cell is said as a line, the unit
// of a tab, and tables found by a lexicon of their own.

// said is what a cell says to a reader of lines: numbers in full, whatever the format shows,
// with the unit that the format writes behind them; a 3/4 that became a date as 3/4 again.
// A lone mark before three digits is settled by how the tab marks decimals.
func (c *Cell) said() string {
	switch {
	case c.Kind == Fault, c.Kind == Pending:
		return ""
	case c.IsDate():
		month, day := c.MonthDay()
		return strconv.Itoa(month) + "/" + strconv.Itoa(day)
	case c.Kind == Number:
		text := settleMark(c.Raw(), length.Point)
		if unit := strings.TrimSpace(c.Look.Format.Suffix); length.UnitIn("("+unit+")") != length.Unsaid || unit == `"` || unit == "'" {
			return text + " " + unit
		}
		return text
	}
	return settleMark(c.Text(), c.grid.decimal())
}

// decimal is how texts of the grid mark decimals.
func (g *Grid) decimal() length.Mark {
	if g.mark == nil {
		mark := decimalMark(g)
		g.mark = &mark
	}
	return *g.mark
}

// marked finds numbers with marks in them.
var marked = regexp.MustCompile(`\d+(?:[.,]\d+)+`)

// settleMark rewrites the numbers of which nobody could say whether their mark parts
// thousands or decimals, 1.875 and 1,875, once the mark of the decimals is known.
func settleMark(text string, mark length.Mark) string {
	if mark == length.Either || !strings.ContainsAny(text, ".,") {
		return text
	}
	return marked.ReplaceAllStringFunc(text, func(n string) string {
		at := strings.IndexAny(n, ".,")
		if at > 3 || n[0] == '0' || len(n)-at != 4 {
			return n
		}
		if (n[at] == '.') == (mark == length.Point) {
			return n + "0"
		}
		return n[:at] + n[at+1:]
	})
}

// isPlain reports whether the cell holds the number x and nothing else, in the unit of its tab.
func (c *Cell) isPlain(x float64) bool {
	return c.Kind == Number && !c.IsDate() && !c.Look.Format.Percent && c.Num == x
}

// at gives a value read from the cell its origin.
func (c *Cell) at(v check.Value) check.Value {
	if !v.Known {
		return v
	}
	v.From = c.From()
	v.Plain = c.isPlain(v.Nominal) && !v.Guessed
	return v
}

// text is the content of the cell as the model keeps texts.
func (c *Cell) text() check.Text {
	if c == nil {
		return check.Text{}
	}
	return check.Text{Text: c.Text(), From: c.From()}
}

// sideUnit finds the unit of the bare numbers of a tab: the one its titles and headers name,
// else the one its values are typed in, else the likelier by size. inches is the largest
// number that may be inches on such a tab. guessed is true where nobody says.
func sideUnit(g *Grid, inches float64) (unit length.Unit, guessed bool) {
	votes := map[length.Unit]int{}
	largest := 0.0
	for i := range g.Rows {
		for j := range g.Rows[i].Cells {
			c := &g.Rows[i].Cells[j]
			text := c.said()
			pieces := phrase.Cut(text)
			typed := 0
			for _, p := range pieces {
				if p.Kind != phrase.Length {
					continue
				}
				typed++
				switch l, err := length.Parse(p.Text, length.Context{Plain: true}); {
				case err != nil || l.Unit == length.Unsaid && strings.Contains(p.Text, "/"):
					if err == nil {
						votes[length.Inch]++
					}
				case l.Unit == length.Unsaid:
					if c.Look == nil || !c.IsDate() {
						largest = max(largest, l.Nominal)
					}
				case l.Unit.Imperial():
					votes[length.Inch]++
				default:
					votes[l.Unit]++
				}
			}
			if typed == 0 && c.Kind == Words && len(text) > 1 {
				if u := length.UnitIn(text); u != length.Unsaid {
					votes[u] += 1000 // a title or header decides
				}
			}
		}
	}
	best := length.Unsaid
	for _, u := range []length.Unit{length.Inch, length.Foot, length.Millimetre, length.Centimetre, length.Metre} {
		if votes[u] > votes[best] {
			best = u
		}
	}
	switch {
	case best != length.Unsaid:
		return best, false
	case largest > inches:
		return length.Millimetre, true
	}
	return length.Inch, true
}

// modelUnit is the unit of the job model that lengths typed in a unit are kept in.
func modelUnit(u length.Unit) length.Unit {
	if u.Metric() {
		return length.Millimetre
	}
	return length.Inch
}

// maxSide is the number of rows beyond which a tab is no form and no short table.
const maxSide = 1500

// adopt takes over what a side reader found in a tab whose bare numbers are of the unit
// typed, in the unit of the model, and notes a unit that nobody said.
func (t *Tab) adopt(found *Tab, typed length.Unit, guessed bool) {
	found.sideUnit = typed
	to := t.sideUnit
	if to == length.Unsaid {
		to = modelUnit(typed)
		t.sideUnit = to
	}
	if t.Unit == length.Unsaid {
		t.Unit = to
	}
	if t.Header == "" {
		t.Header = found.Header
	}
	found.sidesIn(to)
	t.Joints = append(t.Joints, found.Joints...)
	t.Openings = append(t.Openings, found.Openings...)
	t.Loads = append(t.Loads, found.Loads...)
	t.Runs = append(t.Runs, found.Runs...)
	if t.Carry == nil {
		t.Carry = found.Carry
	}
	t.Unread = append(t.Unread, found.Unread...)
	t.Aside = append(t.Aside, found.Aside...)
	t.Notes = append(t.Notes, found.Notes...)
	if guessed {
		t.Notes = append(t.Notes, "no unit is given; bare numbers are taken as "+typed.String())
	}
}

// sidesIn expresses joints, openings, runs and the carry path in the unit u. Loads are kept
// in the system of u: lb per inch and psi with inches, N per mm and MPa with millimetres.
func (t *Tab) sidesIn(u length.Unit) {
	from := t.sideUnit
	if from == length.Unsaid || from == u {
		t.sideUnit = u
		return
	}
	k := length.Convert(1, from, u)
	scale := func(values ...*check.Value) {
		for _, v := range values {
			*v = v.Scale(k)
		}
	}
	for _, j := range t.Joints {
		scaleJoint(j, scale)
	}
	for _, o := range t.Openings {
		scaleOpening(o, scale)
	}
	for _, r := range t.Runs {
		scale(&r.Clearance)
		for i := range r.Items {
			scale(&r.Items[i].Plain)
		}
	}
	if t.Carry != nil {
		for i := range t.Carry.Stops {
			s := &t.Carry.Stops[i]
			scale(&s.Width, &s.Height, &s.Length)
		}
	}
	for _, l := range t.Loads {
		loadIn(l, modelUnit(from), modelUnit(u))
	}
	t.sideUnit = u
}

func scaleJoint(j *check.Joint, scale func(...*check.Value)) {
	scale(&j.Width, &j.DepthIn, &j.DepthOf, &j.Side, &j.Front)
	for i := range j.At {
		scale(&j.At[i])
	}
	for i := range j.Bays {
		scale(&j.Bays[i])
	}
	if j.Screws != nil {
		scale(&j.Screws.Length)
	}
}

func scaleOpening(o *check.Opening, scale func(...*check.Value)) {
	for _, rs := range [][]check.Reading{o.Widths, o.Heights, o.Depths, o.Diagonals} {
		for i := range rs {
			scale(&rs[i].Place, &rs[i].Value)
		}
	}
	for i := range o.Leans {
		l := &o.Leans[i]
		scale(&l.Offset, &l.Over)
	}
	for i := range o.ToCome {
		scale(&o.ToCome[i].Thickness)
	}
	for i := range o.Obstacles {
		b := &o.Obstacles[i]
		scale(&b.X, &b.Y, &b.Width, &b.Height)
	}
	scale(&o.Ceiling, &o.Base, &o.BaseThick, &o.Crown, &o.CrownThick, &o.Within)
}

// sideTable is a table of one of the tabs beside the part schedule.
type sideTable struct {
	g     *Grid
	heads []int // rows of the header
	cols  []sideCol
	rows  []*Row // below the header, to the next header or the end
}

// sideCol is a column whose header word a lexicon knows.
type sideCol struct {
	col   int
	field Field
	text  string // of the header
	unit  length.Unit
}

// column gives the first column of a field, nil if there is none.
func (t *sideTable) column(f Field) *sideCol {
	for i := range t.cols {
		if t.cols[i].field == f {
			return &t.cols[i]
		}
	}
	return nil
}

// cell gives the cell of a field in a row, the one a merge shows included; nil if it is blank.
func (t *sideTable) cell(r *Row, f Field) *Cell {
	c := t.column(f)
	if c == nil {
		return nil
	}
	if a := t.g.Anchor(r.N, c.col); a != nil && a.said() != "" {
		return a
	}
	return nil
}

// place names the place of a field in a row, blank or not.
func (t *sideTable) place(r *Row, f Field) check.Cell {
	if c := t.column(f); c != nil {
		return t.g.Place(r.N, c.col)
	}
	return check.Cell{}
}

// nameUnknown names the cells of a row that stand under no known header, and the formulas
// without a value.
func (t *sideTable) nameUnknown(row *Row, tab *Tab) {
	for i := range row.Cells {
		c := &row.Cells[i]
		switch c.Kind {
		case Fault:
			tab.Unread = append(tab.Unread, c.Unread("a formula error"))
			continue
		case Pending:
			tab.Unread = append(tab.Unread, c.Unread("the formula was never calculated, and cannot be calculated here"))
			continue
		}
		if !slices.ContainsFunc(t.cols, func(k sideCol) bool { return k.col == int(c.Col) }) {
			tab.Unread = append(tab.Unread, c.Unread("no header word that is known stands over the cell"))
		}
	}
}

// nameHeads sets the words of the header that name no column aside.
func (t *sideTable) nameHeads(tab *Tab) {
	for _, n := range t.heads {
		row := t.g.Row(n)
		for i := range row.Cells {
			c := &row.Cells[i]
			if !slices.ContainsFunc(t.cols, func(k sideCol) bool { return k.col == int(c.Col) }) {
				tab.setAside(c, "no header word that is known")
			}
		}
	}
}

// struckOut reports a row of which every cell is struck through: it no longer counts.
func struckOut(row *Row) bool {
	for i := range row.Cells {
		if !row.Cells[i].Look.Struck {
			return false
		}
	}
	return len(row.Cells) > 0
}

// rowText is all a row says, for a message about the whole row.
func rowText(row *Row) string {
	var words []string
	for i := range row.Cells {
		words = append(words, row.Cells[i].Text())
	}
	return strings.Join(words, " | ")
}

// setAside keeps a cell that was understood to say nothing a check could use.
func (t *Tab) setAside(c *Cell, why string) {
	t.Aside = append(t.Aside, c.Unread(why))
}

// sideTables finds the tables whose header says enough to a reader. It is asked with the
// columns of a row, and of a row with the group row above it.
func sideTables(g *Grid, name func(text string) Field, enough func(cols []sideCol) bool) []*sideTable {
	var tables []*sideTable
	for i := 0; i < len(g.Rows); i++ {
		r := &g.Rows[i]
		if struckOut(r) {
			continue
		}
		if !wordy(r) {
			if n := len(tables); n > 0 {
				tables[n-1].rows = append(tables[n-1].rows, r)
			}
			continue
		}
		cols, heads := headerCols(g, i, name)
		if enough(cols) {
			tables = append(tables, &sideTable{g: g, heads: heads, cols: cols})
			i += len(heads) - 1
			continue
		}
		if n := len(tables); n > 0 {
			tables[n-1].rows = append(tables[n-1].rows, r)
		}
	}
	return tables
}

// headerCols reads a row as a header, with the row below it as its second line where that
// says more.
func headerCols(g *Grid, i int, name func(string) Field) ([]sideCol, []int) {
	r := &g.Rows[i]
	one := colsOf(g, name, r, nil)
	if i+1 < len(g.Rows) && g.Rows[i+1].N == r.N+1 && wordy(&g.Rows[i+1]) {
		below := &g.Rows[i+1]
		alone := max(fieldCount(one), fieldCount(colsOf(g, name, below, nil)))
		if two := colsOf(g, name, r, below); fieldCount(two) > alone {
			return two, []int{r.N, below.N}
		}
	}
	return one, []int{r.N}
}

func fieldCount(cols []sideCol) int {
	var seen []Field
	for _, c := range cols {
		if !slices.Contains(seen, c.field) {
			seen = append(seen, c.field)
		}
	}
	return len(seen)
}

func colsOf(g *Grid, name func(string) Field, upper, lower *Row) []sideCol {
	var cols []sideCol
	add := func(col int, texts ...string) {
		for _, text := range texts {
			if f := name(text); f != fUnknown {
				cols = append(cols, sideCol{col: col, field: f, text: text, unit: length.UnitIn(text)})
				return
			}
		}
	}
	if lower == nil {
		for i := range upper.Cells {
			if c := &upper.Cells[i]; c.Kind == Words {
				add(int(c.Col), c.Text())
			}
		}
		return cols
	}
	for i := range lower.Cells {
		c := &lower.Cells[i]
		group := groupText(g, upper, int(c.Col))
		add(int(c.Col), strings.TrimSpace(group+" "+c.Text()), c.Text(), group)
	}
	for i := range upper.Cells {
		if c := &upper.Cells[i]; lower.At(int(c.Col)) == nil {
			add(int(c.Col), c.Text())
		}
	}
	slices.SortFunc(cols, func(a, b sideCol) int { return a.col - b.col })
	return cols
}

// groupText is the group word over a column: in it, merged over it, or to the left of it
// with blanks between.
func groupText(g *Grid, upper *Row, col int) string {
	if c := g.Anchor(upper.N, col); c != nil {
		return c.Text()
	}
	for c := col - 1; c > 0 && c > col-5; c-- {
		if over := upper.At(c); over != nil {
			return over.Text()
		}
	}
	return ""
}
