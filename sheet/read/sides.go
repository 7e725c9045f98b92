package read

import (
	"regexp"
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
	largest, fractions := 0.0, 0
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
					if err == nil && ruled(p.Text) {
						fractions++
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
	if fractions > 1 || largest <= inches {
		votes[length.Inch] += fractions // a lone one beside large numbers is a date: 3/8
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

// ruled reports a fraction whose denominator stands on a rule: 3/8, but not 3/11.
func ruled(text string) bool {
	_, below, _ := strings.Cut(text, "/")
	n, err := strconv.Atoi(strings.Trim(below, " \"'"))
	return err != nil || n&(n-1) == 0
}

// partsUnit is sideUnit for what hangs on the parts, joints and runs, which nobody types in another
// unit than these: where nobody says, millimetres if the parts are.
func partsUnit(g *Grid, tab *Tab, inches float64) (unit length.Unit, guessed bool) {
	unit, guessed = sideUnit(g, inches)
	if guessed && (g.metric || tab.Unit.Metric()) {
		return length.Millimetre, true
	}
	return unit, guessed
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
		t.Notes = append(t.Notes, "no unit is given; bare numbers are taken as "+typed.Word())
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
