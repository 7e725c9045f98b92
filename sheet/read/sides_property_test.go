package read

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"dryfit/check"
	"dryfit/sheet/read/phrase"
)

// sideRows are rows as offices type them beside a schedule, and some that nobody should.
var sideRows = []string{
	"NICHE A  by: K. | FLOOR IN N (+5/8 cork)", "W top 61 3/8 | mid 61 1/4 | floor 61 5/16", "H left 88 1/2 | right 88 7/16", "Diag LB-RT 107 1/2 | RB-LT 107 3/8",
	"Plumb L 3/16 out at top, R 1/4 in | Level floor 1/8 low L in 6'", "Ceiling 101 1/2 | Base 4 1/4 x 1/2 | Crown none", "Outlet 15 AFF, 20 from L", "Plumb O.K.",
	"alcove 30 x 40 x 12 +/-", "Loc | Point | Reading | Note", "B | W1 (sill) | 1742 | bow", "B | back wall | 7/1800 | leans in", "Opng | W1 | W2 | H1 | H2 | Remarks",
	"North | 52 1/2 | 52 3/8 | 80 | 80 1/8 | VIF", "Jt | In | Rcvs | Type | No. | Slot W | Dp in A | From | Ctrs", "J1 | U4 | S7 | part lap | 15 | 1-9/16 | 4-3/4 | btm | 14-1/2, 29, 43-1/2",
	"J2 | U4 | S8 | dado | do | 3/4 | - | top | see dwg", "Loads: A books; B seat 2 persons", "C | 24 lb/ft | 7", "Case | Load | Remark", "W: side + shelf + side + scr 5/16 ea = niche",
	"Direction | Parts in order | Must fit | Clearance", "Width | L1 + B2 + L1 | Alcove N | 1/8 ea", "Van 9' bed | Hall 40 | Den dr 29 x 77 1/2", "Crew: 3", "assembled lying, stood up",
	"Stop | Clear width | Clear height | Note", "Stair | 36 | 80 | turn", "12 | 14 | 16", "Total | 3", "hello | 5 o'clock", "=1/0 | #REF! | 7", "((( | 1/0 | ½ | -5", "W | H | D | X", "top | mid | floor",
}

// TestNoSideCellIsLost makes tabs of such rows and demands that every cell with a number in
// a row that a side reader claims is the origin of some value or text, or is named.
func TestNoSideCellIsLost(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := excelize.NewFile()
		defer f.Close()
		rows := rapid.SliceOfN(rapid.SampledFrom(sideRows), 1, 14).Draw(rt, "rows")
		for r, line := range rows {
			for c, text := range strings.Split(line, "|") {
				if text = strings.TrimSpace(text); text != "" {
					f.SetCellStr("Sheet1", Address(r+1, c+1), text)
				}
			}
		}
		var b bytes.Buffer
		if err := f.Write(&b); err != nil {
			rt.Fatal(err)
		}
		book, err := Open("random.xlsx", b.Bytes(), nil)
		if err != nil {
			rt.Fatal(err)
		}
		tab := book.Tabs[0]
		if tab.Kind == "ignored" || tab.parts.Len() > 0 {
			return
		}
		known := originsOf(tab)
		for _, row := range tab.grid.Rows {
			word := tab.roles[row.N].word
			if word == "" {
				rt.Fatalf("row %d is lost in silence", row.N)
			}
			if !slices.Contains([]string{"joints", "site", "loads", "runs", "carry"}, word) {
				continue
			}
			for i := range row.Cells {
				c := &row.Cells[i]
				if hasNumber(phrase.Cut(c.said())) && !known[c.Addr()] && !namedWithRow(tab, c) {
					rt.Fatalf("%s (%q) is lost in silence among %q", c.Addr(), c.Text(), rows)
				}
			}
		}
	})
}

// namedWithRow reports a cell whose whole row is named as unread, or that repeats the name
// of an opening above it.
func namedWithRow(t *Tab, c *Cell) bool {
	for _, o := range t.Openings {
		if o.Name.Text == c.Text() {
			return true
		}
	}
	for _, u := range append(t.Unread, t.Aside...) {
		if u.Text == c.Text() && u.Why == "of an opening without a reading" {
			return true
		}
		row, _, _ := parseRef([]byte(u.Cell.Addr))
		if row == int(c.Row) && strings.Contains(u.Text, " | ") && strings.Contains(u.Text, c.Text()) {
			return true
		}
	}
	return false
}

// originsOf lists the cells that some value, text, or list of unread cells points to.
func originsOf(t *Tab) map[string]bool {
	known := map[string]bool{}
	value := func(values ...check.Value) {
		for _, v := range values {
			known[v.From.Addr], known[v.Ask.Cell.Addr] = true, true
		}
	}
	text := func(texts ...check.Text) {
		for _, x := range texts {
			known[x.From.Addr] = true
		}
	}
	for _, list := range [][]check.Unread{t.Unread, t.Aside} {
		for _, u := range list {
			known[u.Cell.Addr] = true
		}
	}
	for _, j := range t.Joints {
		value(j.Count, j.Width, j.DepthIn, j.DepthOf, j.Side, j.Front)
		value(append(j.At, j.Bays...)...)
		text(j.Mark, j.Into, j.Enters, j.Fit, j.Fastener)
	}
	for _, o := range t.Openings {
		for _, rs := range [][]check.Reading{o.Widths, o.Heights, o.Depths, o.Diagonals} {
			for _, r := range rs {
				value(r.Value, r.Place)
				text(r.Word)
			}
		}
		for _, l := range o.Leans {
			value(l.Offset, l.Over)
		}
		for _, c := range o.ToCome {
			value(c.Thickness)
			text(c.Text)
		}
		for _, b := range o.Obstacles {
			text(b.Text)
		}
		value(o.Ceiling, o.Base, o.BaseThick, o.Crown, o.CrownThick, o.Within)
		text(o.Name, o.By, o.When)
	}
	for _, l := range t.Loads {
		value(l.Amount)
		text(l.On, l.Kind)
	}
	for _, r := range t.Runs {
		value(r.Clearance)
		text(r.Fits, r.Case)
		for _, i := range r.Items {
			value(i.Count, i.Plain)
		}
	}
	if t.Carry != nil {
		value(t.Carry.Crew)
		text(t.Carry.Note)
		for _, s := range t.Carry.Stops {
			value(s.Width, s.Height, s.Length)
			text(s.Name)
		}
	}
	return known
}
