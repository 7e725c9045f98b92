package read

import (
	"regexp"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// matrix is a table of parts by cases: parts down and cases across, or the other way round.
type matrix struct {
	names   int       // column of the row labels
	cols    []*column // one for each case, or for each part when turned
	turned  bool      // cases down, parts across
	corner  *Cell
	headRow *Row
}

// findMatrix looks for a matrix of sizes in the grid: a row of words over at least two
// columns in which most cells hold a size, with or without a count before it.
func findMatrix(g *Grid, hs *headers, names *nameReader, taken func(row int) bool) *table {
	for i := range g.Rows {
		r := &g.Rows[i]
		if taken(r.N) || len(r.Cells) < 2 || !wordyLabels(r) {
			continue
		}
		t := matrixAt(g, i, names)
		if t == nil {
			continue
		}
		known := 0
		for _, c := range t.matrix.cols {
			if h := hs.read(c.head.text, false); h.known() && h.sure >= .9 {
				known++
			}
		}
		if 2*known > len(t.matrix.cols) {
			continue
		}
		return t
	}
	return nil
}

// wordyLabels reports whether a row could head a matrix: words, or short numbers of cases.
func wordyLabels(r *Row) bool {
	words := 0
	for i := range r.Cells {
		c := &r.Cells[i]
		if c.Kind == Words && len(c.raw) <= maxHeader {
			words++
		}
	}
	return words >= 2 && words == len(r.Cells)
}

// matrixAt tries the row as the head of a matrix.
func matrixAt(g *Grid, i int, names *nameReader) *table {
	r := &g.Rows[i]
	labels := int(r.Cells[0].Col)
	from := 1
	if i+1 < len(g.Rows) && len(g.Rows[i+1].Cells) > 0 && int(g.Rows[i+1].Cells[0].Col) < labels {
		labels, from = int(g.Rows[i+1].Cells[0].Col), 0 // the corner is blank
	}
	t := &table{g: g, top: r.N, bottom: r.N, left: labels, right: int(r.Cells[len(r.Cells)-1].Col)}
	m := &matrix{names: labels, headRow: r}
	if from == 1 {
		m.corner = &r.Cells[0]
	}
	sized := map[int]int{}
	t.last = r.N
	filled, sizes := 0, 0
	for k := i + 1; k < len(g.Rows) && g.Rows[k].N <= t.last+2; k++ {
		row := &g.Rows[k]
		label := row.At(labels)
		if label == nil || label.Kind != Words {
			break
		}
		for j := range row.Cells {
			c := &row.Cells[j]
			if int(c.Col) == labels || int(c.Col) > t.right {
				continue
			}
			filled++
			if s, ok := names.size(c, length.Unsaid); ok && len(s.Axes) >= 2 && letterCount(s.Rest(c.Text())) <= 3 {
				sizes++
				sized[int(c.Col)]++
			}
		}
		t.last = row.N
	}
	for j := from; j < len(r.Cells); j++ {
		c := &r.Cells[j]
		m.cols = append(m.cols, &column{col: int(c.Col), index: j - from, head: heading{text: c.Text()}})
	}
	if len(m.cols) < 2 || len(sized) < 2 || sizes < 4 || 5*sizes < 2*filled {
		return nil
	}
	m.turned = rolesAcross(m, g, t)
	t.matrix = m
	return t
}

// rolesAcross reports whether the heads of the columns name parts and the rows cases.
func rolesAcross(m *matrix, g *Grid, t *table) bool {
	across, down, rows := 0, 0, 0
	for _, c := range m.cols {
		if roleOf(c.head.text, nil) != "" {
			across++
		}
	}
	for i := range g.Rows {
		r := &g.Rows[i]
		if r.N <= t.bottom || r.N > t.last {
			continue
		}
		rows++
		if c := r.At(m.names); c != nil && roleOf(c.Text(), nil) != "" {
			down++
		}
	}
	return 2*across > len(m.cols) && 2*down < rows
}

var labelTail = regexp.MustCompile(`(?i)[\s,(]*(?:qty\.?|quantity|no\.?|pcs\.?|anzahl|stk\.?|st\.?|qté|nb|cant\.?|uds?\.?|pz\.?|n\.|szt\.?|ilość|aantal|antal)?\s*[/&+]?\s*(?:sizes?|dims?|dimensions?|maße?|cotes|medidas|misure|wymiary|maten|mått|qty\.?|pcs\.?)\s*\)?\s*$`)

// readMatrix turns each cell of the matrix that holds a size into a part.
func (rr *rowReader) readMatrix() {
	m := rr.matrix
	rr.above = map[int]*Cell{}
	unit := rr.unit
	counts := map[string]map[int]*Cell{}
	for i := range rr.g.Rows {
		r := &rr.g.Rows[i]
		if r.N <= rr.bottom || r.N > rr.table.last {
			continue
		}
		label := r.At(m.names)
		if label == nil {
			rr.setUnread(r, "a row of the matrix without a label")
			continue
		}
		if rr.isTotal(r) {
			rr.setAside(r, "total", "a total, not a part")
			continue
		}
		parts := 0
		name := strings.TrimSpace(labelTail.ReplaceAllString(label.Text(), ""))
		for _, col := range m.cols {
			c := r.At(col.col)
			if c == nil {
				continue
			}
			if p := rr.matrixPart(c, col, label, name, counts[fold(name)], unit); p != nil {
				rr.out.add(p)
				rr.partsRead++
				parts++
			}
		}
		if parts > 0 {
			rr.setRole(r, "part", "")
			rr.nameMatrixRest(r)
			continue
		}
		if counts[fold(name)] == nil {
			counts[fold(name)] = map[int]*Cell{}
		}
		for _, col := range m.cols {
			if c := r.At(col.col); c != nil {
				counts[fold(name)][col.col] = c
			}
		}
		rr.setAside(r, "note", "says something of the cases, not a part")
	}
}

// nameMatrixRest names the cells of a row of parts that hold something else.
func (rr *rowReader) nameMatrixRest(r *Row) {
	for _, col := range rr.matrix.cols {
		c := r.At(col.col)
		if c == nil || length.Nothing(c.Text()) == length.None {
			continue
		}
		if s, ok := rr.names.size(c, rr.unit); !ok || len(s.Axes) < 2 {
			rr.cannot(c, "size", "", "no size can be read in it")
		}
	}
}

var numberBehind = regexp.MustCompile(`\s(\d{1,2}(?:[.,]\d)?)\s*$`)

// labelThickness reads the thickness behind the label of a row: "Back 1/4", "Rückwand 8".
func (rr *rowReader) labelThickness(label *Cell, name string, unit length.Unit) (length.Length, bool) {
	if in, ok := rr.names.size(label, unit); ok && len(in.Axes) == 1 {
		return in.Axes[0].Length, true
	}
	m := numberBehind.FindStringSubmatch(name)
	if m == nil {
		return length.Length{}, false
	}
	l, err := length.Parse(m[1], length.Context{Unit: unit, Decimal: rr.decimal})
	return l, err == nil && unit == length.Millimetre
}

func (rr *rowReader) matrixPart(c *Cell, col *column, label *Cell, name string, counts map[int]*Cell, unit length.Unit) *check.Part {
	s, ok := rr.names.size(c, unit)
	if !ok || len(s.Axes) < 2 {
		return nil
	}
	p := &check.Part{Row: c.From(), Size: check.UnsaidSize}
	if rr.table.size != "" {
		p.Size = rr.table.size
	}
	other := check.Text{Text: col.head.text, From: rr.g.Place(rr.bottom, col.col)}
	p.Description, p.Case = check.Text{Text: name, From: label.From()}, other
	if rr.matrix.turned {
		p.Description, p.Case = other, check.Text{Text: label.Text(), From: label.From()}
	}
	p.Role = roleOf(p.Description.Text, rr.shop)
	pl := rr.planFrom(p, s, c, c.From(), "", nil, false)
	if !pl.has.thickness {
		if l, ok := rr.labelThickness(label, name, unit); ok {
			pl.setThickness(measure{Length: l, cell: label, from: label.From()})
		}
	}
	p.Unit = rowUnit(unit, []measure{pl.length, pl.width})
	rr.setSizes(p, &body{row: rr.g.Row(int(c.Row)), cells: make([]*Cell, len(rr.cols))}, pl)
	switch {
	case s.Count > 0:
		p.Qty = check.Exact(float64(s.Count)).At(c.From())
	case counts[col.col] != nil:
		if t, ok := rr.tallyOf(counts[col.col]); ok {
			p.Qty = check.Exact(t.n).At(counts[col.col].From())
		}
	case fold(name) != "" && !rr.matrix.turned:
		p.Qty = check.Guess(1, 1, 1, "one in each case: no quantity stands before the size").At(c.From())
	}
	rr.fromName(p)
	return p
}
