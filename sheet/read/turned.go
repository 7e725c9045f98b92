package read

// turned is a table of parts that stands on its side: the fields down, the parts across. It is
// read as a grid whose rows are the columns of the tab.
type turned struct {
	*partsFound
	top, bottom int // rows of the tab
}

// Limits of a table on its side.
const (
	turnedRows   = 500 // rows of a tab that are looked at
	turnedFields = 40  // fields of a part
	turnedLabels = 3   // columns in which the words of the fields may stand
)

// findTurned finds blocks of rows whose first cells are header words.
func (f *partsFound) findTurned() {
	if f.g.turned || len(f.g.Rows) < 4 || len(f.g.Rows) > turnedRows {
		return
	}
	for i := 0; i < len(f.g.Rows); i++ {
		n, col := f.fieldsDown(i)
		if n < 4 {
			continue
		}
		top, bottom := f.g.Rows[i].N, f.g.Rows[i+n-1].N
		found := findParts(f.g.turn(top, bottom, col), f.shop)
		i += n - 1
		if len(found.tables) == 1 && found.tables[0].matrix == nil && !found.tables[0].headless && found.tables[0].top == col {
			f.turned = append(f.turned, &turned{found, top, bottom})
		}
	}
}

// fieldsDown counts the rows from the i-th on that begin with words in one column and hold at
// least two cells behind it; 0 where those words are not mostly those of a header.
func (f *partsFound) fieldsDown(i int) (n, col int) {
	col = int(f.g.Rows[i].Cells[0].Col)
	if col > turnedLabels {
		return 0, 0
	}
	wide := 0
	heads := map[int]heading{}
	for k := i; k < len(f.g.Rows); k++ {
		r := &f.g.Rows[k]
		if k > i && r.N != f.g.Rows[k-1].N+1 {
			break
		}
		c := &r.Cells[0]
		if int(c.Col) != col || c.Kind != Words || len(r.Cells) < 2 {
			break
		}
		if h := f.hs.read(c.Text(), false); h.known() {
			heads[n] = h
		}
		if len(r.Cells) >= 3 {
			wide++
		}
		n++
	}
	if known := len(heads); n > turnedFields || known < 4 || 5*known < 3*n || wide < 4 || !qualifies(heads) {
		return 0, 0
	}
	return n, col
}

// turn is a block of rows on its side, from a column on.
func (g *Grid) turn(top, bottom, left int) *Grid {
	out := &Grid{Book: g.Book, Tab: g.Tab, Hidden: g.Hidden, date1904: g.date1904, turned: true, merged: map[place]int{}}
	right := left
	for i := range g.Rows {
		if r := &g.Rows[i]; r.N >= top && r.N <= bottom {
			right = max(right, int(r.Cells[len(r.Cells)-1].Col))
		}
	}
	for col := left; col <= right; col++ {
		row := Row{N: col, Hidden: g.ColHidden(col)}
		for n := top; n <= bottom; n++ {
			if c := g.At(n, col); c != nil {
				cell := *c
				cell.Row, cell.Col, cell.grid = int32(col), int16(n), out
				row.Cells = append(row.Cells, cell)
			}
		}
		if len(row.Cells) > 0 {
			out.Rows = append(out.Rows, row)
		}
	}
	for _, m := range g.Merges {
		if m.Top < top || m.Bottom > bottom || m.Left < left {
			continue
		}
		for r := m.Top; r <= m.Bottom; r++ {
			for c := m.Left; c <= min(m.Right, right); c++ {
				out.merged[place{int32(c), int32(r)}] = len(out.Merges)
			}
		}
		out.Merges = append(out.Merges, Span{Top: m.Left, Left: m.Top, Bottom: m.Right, Right: m.Bottom})
	}
	return out
}

// readTurned reads the tables on their side, and names the rows they stand in.
func (f *partsFound) readTurned(tab *Tab) map[int]bool {
	f.readTitles(tab)
	tab.parts = partList{book: f.g.Book, tab: f.g.Tab}
	used := map[int]bool{}
	for _, t := range f.turned {
		side := &Tab{Name: tab.Name}
		t.titles = f.titles
		t.read(side)
		if tab.Header == "" {
			tab.Header, tab.Unit = Address(t.top, t.tables[0].top), side.Unit
		}
		for p := range side.parts.All() {
			kept := *p
			tab.parts.add(&kept)
		}
		tab.Notes = append(tab.Notes, side.Notes...)
		tab.Unread = append(tab.Unread, side.Unread...)
		tab.Aside = append(tab.Aside, side.Aside...)
		tab.Totals = append(tab.Totals, side.Totals...)
		tab.turned = append(tab.turned, side.tables...)
		for n := t.top; n <= t.bottom; n++ {
			used[n] = true
			tab.roles[n] = rowRole{word: "field", why: "a field of the parts that stand across"}
		}
	}
	f.nameTitles(tab, used)
	return used
}

// nameTitles names the rows above the first table on its side.
func (f *partsFound) nameTitles(tab *Tab, used map[int]bool) {
	rr := &rowReader{tab: tab, table: &table{}}
	for i := range f.g.Rows {
		if r := &f.g.Rows[i]; r.N < f.turned[0].top {
			rr.setTitle(r)
			used[r.N] = true
		}
	}
}
