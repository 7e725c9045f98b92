package read

import (
	"iter"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// partList keeps parts in a small space: the model spends 2.4 kB on a part, most of it on
// names of cells that row and column say as well. A part that does not fit the small form,
// with a range, a doubt or layers, is kept as it is.
type partList struct {
	book, tab string
	rows      []packed
	words     []string // roles, kinds of sizes, hands and reasons, each once; 0 is none
	word      map[string]uint16
}

type packed struct {
	full             *check.Part
	texts            [7]string
	values           [8]packedValue
	casing, room     *check.Text // shared by the rows of a group
	band             *packedBand
	row              int32
	cols             [7]int16 // of the texts, 0 where there is none
	first            int16
	role, size, hand uint16
	unit             int8
	hidden           bool
}

// packedValue is an exact value, or what to ask for where it is missing.
type packedValue struct {
	x            float64
	why          uint16
	col          int16
	known, plain bool
}

const mostWords = 60_000

// index gives the place of a word in the list of words.
func (l *partList) index(s string) (uint16, bool) {
	if l.word == nil {
		l.word = map[string]uint16{"": 0}
		l.words = []string{""}
	}
	i, ok := l.word[s]
	if !ok && len(l.words) < mostWords {
		i, ok = uint16(len(l.words)), true
		l.word[s] = i
		l.words = append(l.words, s)
	}
	return i, ok
}

type packedBand struct {
	on    string // edges parted by commas
	thick float64
	why   string
}

// Len is how many parts the list holds.
func (l *partList) Len() int { return len(l.rows) }

// All gives the parts in their order, each built anew.
func (l *partList) All() iter.Seq[*check.Part] {
	return func(yield func(*check.Part) bool) {
		for i := range l.rows {
			if !yield(l.at(i)) {
				return
			}
		}
	}
}

func (l *partList) at(i int) *check.Part {
	if l.rows[i].full != nil {
		return l.rows[i].full
	}
	return l.unpack(&l.rows[i])
}

// keep adds a part as it is, for one that may still change.
func (l *partList) keep(p *check.Part) { l.rows = append(l.rows, packed{full: p}) }

// add adds a part in the small form if it fits, and reports whether it did: then nobody
// else holds the part.
func (l *partList) add(p *check.Part) bool {
	k, ok := l.pack(p)
	if !ok {
		l.keep(p)
		return false
	}
	l.rows = append(l.rows, k)
	return true
}

// byMark finds a part by its mark, nil if there is none.
func (l *partList) byMark(mark string) *check.Part {
	for i := range l.rows {
		k := &l.rows[i]
		has := k.texts[0]
		if k.full != nil {
			has = k.full.Mark.Text
		}
		if has != "" && strings.EqualFold(has, mark) {
			return l.at(i)
		}
	}
	return nil
}

func textsOf(p *check.Part) [7]*check.Text {
	return [7]*check.Text{&p.Mark, &p.Description, &p.Material, &p.Edges, &p.Finish, &p.Grain, &p.Note}
}

func valuesOf(p *check.Part) [8]*check.Value {
	return [8]*check.Value{&p.Qty, &p.Length, &p.Width, &p.Thickness, &p.CutLength, &p.CutWidth, &p.X, &p.Y}
}

func (l *partList) pack(p *check.Part) (packed, bool) {
	row, first, ok := parseRef([]byte(p.Row.Addr))
	k := packed{row: int32(row), first: int16(first), unit: int8(p.Unit), hidden: p.Hidden}
	var in [3]bool
	k.role, in[0] = l.index(string(p.Role))
	k.size, in[1] = l.index(string(p.Size))
	k.hand, in[2] = l.index(p.Hand)
	if !ok || !in[0] || !in[1] || !in[2] || p.Row.Book != l.book || p.Row.Tab != l.tab || p.Of != "" || p.InTotal || p.Layers != nil || p.Doubts != nil {
		return k, false
	}
	for i, t := range textsOf(p) {
		if t.From == (check.Cell{}) && t.Text == "" {
			continue
		}
		col, here := l.inRow(t.From, row)
		if !here {
			return k, false
		}
		k.texts[i], k.cols[i] = t.Text, col
	}
	for i, v := range valuesOf(p) {
		if *v == (check.Value{}) {
			continue
		}
		if k.values[i], ok = l.packValue(v, row); !ok {
			return k, false
		}
	}
	k.casing, k.room = l.shared(p.Case, true), l.shared(p.Room, false)
	k.band, ok = packBand(p)
	return k, ok
}

// inRow gives the column of a cell that stands in a row of the tab.
func (l *partList) inRow(c check.Cell, row int) (int16, bool) {
	r, col, ok := parseRef([]byte(c.Addr))
	return int16(col), ok && r == row && c.Book == l.book && c.Tab == l.tab
}

func (l *partList) packValue(v *check.Value, row int) (packedValue, bool) {
	if !v.Known {
		col, here := l.inRow(v.Ask.Cell, row)
		same := check.Missing(check.Ask{Cell: v.Ask.Cell, What: v.Ask.What})
		why, ok := l.index(v.Ask.What)
		return packedValue{why: why, col: col}, here && ok && *v == same
	}
	col, here := l.inRow(v.From, row)
	same := check.Exact(v.Nominal).At(v.From)
	same.Plain, same.Why = v.Plain, v.Why
	why, ok := l.index(v.Why)
	return packedValue{x: v.Nominal, why: why, col: col, known: true, plain: v.Plain}, here && ok && *v == same
}

// shared keeps one copy of the case or room of the rows that follow each other.
func (l *partList) shared(t check.Text, casing bool) *check.Text {
	if t == (check.Text{}) {
		return nil
	}
	if n := len(l.rows); n > 0 {
		before := l.rows[n-1].room
		if casing {
			before = l.rows[n-1].casing
		}
		if before != nil && *before == t {
			return before
		}
	}
	return &t
}

func packBand(p *check.Part) (*packedBand, bool) {
	if p.Banded == nil {
		return nil, true
	}
	b := &packedBand{thick: p.Banded[0].Thickness.Nominal, why: p.Banded[0].Thickness.Why}
	var on []string
	for _, e := range p.Banded {
		if e.Thickness != b.value(p.Edges.From) {
			return nil, false
		}
		on = append(on, e.On)
	}
	b.on = strings.Join(on, ",")
	return b, true
}

func (b *packedBand) value(from check.Cell) check.Value {
	if b.why == "" {
		return check.Value{}
	}
	return check.Guess(b.thick, b.thick, b.thick, b.why).At(from)
}

func (l *partList) unpack(k *packed) *check.Part {
	at := func(col int16) check.Cell {
		return check.Cell{Book: l.book, Tab: l.tab, Addr: Address(int(k.row), int(col))}
	}
	p := &check.Part{Row: at(k.first), Unit: length.Unit(k.unit), Hidden: k.hidden,
		Role: check.Role(l.words[k.role]), Size: check.SizeKind(l.words[k.size]), Hand: l.words[k.hand]}
	for i, t := range textsOf(p) {
		if k.cols[i] > 0 {
			*t = check.Text{Text: k.texts[i], From: at(k.cols[i])}
		}
	}
	for i, v := range valuesOf(p) {
		pv := k.values[i]
		switch {
		case pv.col == 0:
		case pv.known:
			*v = check.Exact(pv.x).At(at(pv.col))
			v.Plain, v.Why = pv.plain, l.words[pv.why]
		default:
			*v = check.Missing(check.Ask{Cell: at(pv.col), What: l.words[pv.why]})
		}
	}
	if k.casing != nil {
		p.Case = *k.casing
	}
	if k.room != nil {
		p.Room = *k.room
	}
	if k.band != nil {
		for _, on := range strings.Split(k.band.on, ",") {
			p.Banded = append(p.Banded, check.Edge{On: on, Thickness: k.band.value(p.Edges.From)})
		}
	}
	return p
}
