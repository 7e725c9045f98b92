package read

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// grid streams one tab into its filled cells.
func (s *source) grid(ref tabRef) (*Grid, error) {
	g := &Grid{Book: s.path, Tab: ref.name, Hidden: ref.hidden, date1904: s.date1904}
	if ref.part == "" {
		return g, nil // a chart, or a tab whose part is gone
	}
	if err := (&tabStream{source: s, g: g, most: maxRow}).readPart(ref); err != nil {
		return nil, err
	}
	g.finish()
	return g, nil
}

// tabStream is the reading of one tab under way.
type tabStream struct {
	*source
	x    *xmlScanner
	g    *Grid
	row  int
	full []Cell // cells of the row under way

	texts map[string]string // texts that stood in cells, each once

	most int                       // rows that are read
	take func(n int, cells []Cell) // gets each row, in place of the grid; may be nil
}

func (t *tabStream) readPart(ref tabRef) error {
	r, err := t.open(ref.part)
	if err != nil {
		return err
	}
	defer r.Close()
	t.x, t.texts = newScanner(r), map[string]string{}
	err = t.read()
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF):
		err = errors.New("the tab is cut off in the middle")
		fallthrough
	case err != nil:
		return fmt.Errorf("tab %q, near row %d: %w", ref.name, t.row, err)
	}
	return nil
}

func (t *tabStream) read() error {
	return eachStart(t.x, func(x *xmlScanner) error {
		switch string(x.name) {
		case "col":
			if isTrue(x.attrBytes("hidden")) {
				from, _ := strconv.Atoi(x.attr("min"))
				to, _ := strconv.Atoi(x.attr("max"))
				t.g.HiddenCols = append(t.g.HiddenCols, Span{Left: from, Right: to})
			}
		case "row":
			return t.readRow()
		case "mergeCell":
			if sp, ok := parseSpan(x.attrBytes("ref")); ok && len(t.g.Merges) < maxRow {
				t.g.Merges = append(t.g.Merges, sp)
			}
		}
		return nil
	})
}

func parseSpan(b []byte) (Span, bool) {
	from, to, found := bytes.Cut(b, []byte(":"))
	r1, c1, ok1 := parseRef(from)
	r2, c2, ok2 := parseRef(to)
	return Span{r1, c1, r2, c2}, found && ok1 && ok2 && r1 <= r2 && c1 <= c2
}

func (t *tabStream) readRow() error {
	n := t.row + 1
	if v := t.x.attrBytes("r"); v != nil {
		var err error
		if n, err = strconv.Atoi(string(v)); err != nil || n < 1 || n > 1<<20 {
			return fmt.Errorf("a row is numbered %q", v)
		}
	}
	t.row = n
	hidden := isTrue(t.x.attrBytes("hidden"))
	if n > t.most {
		if t.g.CutAt == 0 {
			t.g.CutAt = t.most
		}
		return t.x.skip()
	}
	t.full = t.full[:0]
	col := 0
	for {
		k, err := t.x.next()
		if err != nil {
			return err
		}
		if k == endTag && string(t.x.name) == "row" {
			break
		}
		if k != startTag {
			continue
		}
		if string(t.x.name) != "c" {
			if err := t.x.skip(); err != nil {
				return err
			}
			continue
		}
		col++
		if ref := t.x.attrBytes("r"); ref != nil {
			_, c, ok := parseRef(ref)
			if !ok {
				return fmt.Errorf("a cell is named %q", ref)
			}
			col = c
		}
		if err := t.readCell(n, col); err != nil {
			return err
		}
	}
	t.keep(Row{N: n, Hidden: hidden})
	return nil
}

// keep adds the row under way to the grid, in order, one row a number.
func (t *tabStream) keep(r Row) {
	if len(t.full) == 0 {
		return
	}
	if t.take != nil {
		t.take(r.N, t.full)
		return
	}
	r.Cells = append(make([]Cell, 0, len(t.full)), t.full...)
	t.g.Rows = append(t.g.Rows, r)
}

// readCell reads the cell that was just opened, to its end.
func (t *tabStream) readCell(row, col int) error {
	x := t.x
	if col > maxCol {
		return x.skip()
	}
	c := Cell{Row: int32(row), Col: int16(col), Look: plain, grid: t.g}
	if v := x.attrBytes("s"); v != nil {
		if i, ok := small(v); ok && i < len(t.looks) {
			c.Look = t.looks[i]
		}
	}
	kind := cellType(x.attrBytes("t"))
	var value []byte
	var hasValue, struck bool
	for depth := 1; depth > 0; {
		k, err := x.next()
		if err != nil {
			return err
		}
		switch k {
		case endOfPart:
			return io.ErrUnexpectedEOF
		case endTag:
			depth--
		case charData:
			if depth == 2 && hasValue {
				value = append(value, x.text...)
			}
		case startTag:
			switch string(x.name) {
			case "v":
				depth++
				hasValue = true
			case "f":
				c.Formula = true
				text, err := x.content()
				if err != nil {
					return err
				}
				c.raw = text
			case "is":
				in, err := x.richText()
				if err != nil {
					return err
				}
				value, struck, hasValue = append(value[:0], in.text...), in.struck, true
			default:
				if err := x.skip(); err != nil {
					return err
				}
			}
		}
	}
	if !t.fillCell(&c, kind, value, hasValue, struck) {
		return nil
	}
	t.full = append(t.full, c)
	return nil
}

// cellType makes the t attribute one byte: n, s, S (str), i, b, e, d.
func cellType(t []byte) byte {
	switch string(t) {
	case "", "n":
		return 'n'
	case "str":
		return 'S'
	case "inlineStr":
		return 'i'
	}
	return t[0]
}

// fillCell puts the stored value into the cell; false means the cell is blank.
func (t *tabStream) fillCell(c *Cell, kind byte, value []byte, hasValue, struck bool) bool {
	if len(bytes.TrimSpace(value)) == 0 {
		if c.Formula && (kind != 'S' || !hasValue) {
			c.Kind = Pending
			return true
		}
		return false
	}
	switch kind {
	case 's':
		i, ok := small(bytes.TrimSpace(value))
		if !ok || i >= len(t.strings) {
			c.Kind, c.raw = Fault, "text "+string(value)+" is not in the workbook"
			return true
		}
		c.raw, struck = t.strings[i].text, t.strings[i].struck
	case 'b':
		c.Kind = Truth
		if isTrue(bytes.TrimSpace(value)) {
			c.Num = 1
		}
		return true
	case 'e':
		c.Kind, c.raw = Fault, string(value)
		return true
	case 'n':
		x, err := strconv.ParseFloat(string(bytes.TrimSpace(value)), 64)
		if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
			c.Kind, c.raw = Fault, string(value)
			return true
		}
		c.Kind, c.Num, c.raw = Number, x, ""
		return true
	case 'd':
		if x, ok := isoDay(string(value), t.date1904); ok {
			look := *c.Look
			if !look.Format.Date {
				look.Format = parseFormat("d-mmm")
				c.Look = &look
			}
			c.Kind, c.Num, c.raw = Number, x, ""
			return true
		}
		c.raw = string(value)
	default:
		c.raw = t.intern(value)
		if kind == 'S' {
			c.raw = unescapeUnits(c.raw)
		}
	}
	if struck {
		look := *c.Look
		look.Struck = true
		c.Look = &look
	}
	c.Kind = Words
	return strings.TrimSpace(c.raw) != "" && Tidy(c.raw) != ""
}

// intern keeps one copy of a short text: programs that write every text into its cell write
// the same ones on every row.
func (t *tabStream) intern(b []byte) string {
	if len(b) > 40 {
		return string(b)
	}
	if s, ok := t.texts[string(b)]; ok {
		return s
	}
	s := string(b)
	if len(t.texts) < remembered {
		t.texts[s] = s
	}
	return s
}

func small(b []byte) (int, bool) {
	if len(b) == 0 || len(b) > 9 {
		return 0, false
	}
	n := 0
	for _, d := range b {
		if d < '0' || d > '9' {
			return 0, false
		}
		n = n*10 + int(d-'0')
	}
	return n, true
}

// finish puts rows and cells in order and indexes the merged ranges.
func (g *Grid) finish() {
	sortRows(g)
	g.merged = map[place]int{}
	const most = 200_000 // covered places that are indexed; beyond it nobody merged by hand
	for i, m := range g.Merges {
		if m.Bottom > maxRow || (m.Bottom-m.Top+1)*(m.Right-m.Left+1)+len(g.merged) > most {
			continue
		}
		for r := m.Top; r <= m.Bottom; r++ {
			for c := m.Left; c <= m.Right; c++ {
				g.merged[place{int32(r), int32(c)}] = i
			}
		}
	}
}
