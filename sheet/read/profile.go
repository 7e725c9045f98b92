package read

import (
	"math"
	"slices"
	"strings"

	"dryfit/check/length"
)

// profile is what the values of a column look like, over a sample of its rows.
type profile struct {
	rows     int // rows of the sample in which anything stands
	n        int // of them, filled in this column
	numbers  int // bare numbers
	counts   int // quantities
	lengths  int // one length, a number included
	strong   int // lengths that say so: a fraction, a unit, a decimal
	sizes    int // two or three lengths in one cell
	codes    int // short, without a blank: A1, 101, SH-2
	lettered int // with at least one letter
	worded   int // with a word of three letters or more
	grains   int
	edges    int
	roles    int
	units    int // a word of counting or a unit and nothing else
	sequence bool
	distinct int
	times    bool    // the last value is the x between two sizes
	median   float64 // of the numbers and lengths, as typed
	coarse   bool    // a merge runs down the column, or only the first row of each group is filled
	merged   bool    // a merge runs down over rows of the body
}

func (p *profile) share(n int) float64 {
	if p.n == 0 {
		return 0
	}
	return float64(n) / float64(p.n)
}

const sampleRows = 300

// sample profiles the columns of a table over its first rows that hold data.
func (t *table) sample() {
	values := make([][]float64, len(t.cols))
	seen := make([]map[string]bool, len(t.cols))
	inOrder := make([]int, len(t.cols))
	broken := make([]bool, len(t.cols))
	for i := range seen {
		seen[i] = map[string]bool{}
	}
	known := map[string]traits{}
	rows := 0
	for i := range t.g.Rows {
		r := &t.g.Rows[i]
		if r.N <= t.bottom || r.N > t.last || t.filled(r) < 2 && !t.lines || t.isTotal(r) {
			continue
		}
		if rows++; rows > sampleRows {
			break
		}
		for k, col := range t.cols {
			p := &col.prof
			p.rows++
			c := r.At(col.col)
			if c == nil {
				continue
			}
			p.n++
			text := c.Text()
			seen[k][text] = true
			if x, ok := p.add(c, text, known); ok {
				values[k] = append(values[k], x)
				if c.Kind == Number && x == float64(inOrder[k]+1) {
					inOrder[k]++
				} else {
					broken[k] = true
				}
			} else if n, ok := small([]byte(strings.TrimRight(text, ". )"))); ok && n == inOrder[k]+1 {
				inOrder[k]++
			} else {
				broken[k] = true
			}
		}
	}
	for k, col := range t.cols {
		p := &col.prof
		p.distinct = len(seen[k])
		p.sequence = !broken[k] && inOrder[k] == p.n && p.n >= 2
		slices.Sort(values[k])
		if n := len(values[k]); n > 0 {
			p.median = values[k][n/2]
		}
		p.coarse = p.rows >= 3 && float64(p.n) < .7*float64(p.rows)
		for _, m := range t.g.Merges {
			if m.Left <= col.col && col.col <= m.Right && m.Bottom > m.Top && m.Top > t.bottom && m.Top <= t.last {
				p.coarse, p.merged = true, true
			}
		}
	}
}

// filled counts the filled cells of a row inside the table.
func (t *table) filled(r *Row) int {
	n := 0
	for i := range r.Cells {
		if c := int(r.Cells[i].Col); c >= t.left && c <= t.right {
			n++
		}
	}
	return n
}

// add takes one cell into the profile and returns its number or length. Most texts of a schedule
// stand in it many times; known keeps what was found out about each.
func (p *profile) add(c *Cell, text string, known map[string]traits) (float64, bool) {
	if c.Kind == Number {
		p.numbers++
		p.lengths++
		if c.Num == math.Trunc(c.Num) && c.Num >= 0 && c.Num < 1000 && !c.IsDate() {
			p.counts++
		}
		if c.Num != math.Trunc(c.Num) || c.Look.Format.Over > 0 || length.UnitIn(c.Look.Format.Suffix) != length.Unsaid {
			p.strong++
		}
		p.codes++
		if c.IsDate() {
			p.strong++
			return 0, false
		}
		return c.Num, true
	}
	if c.Kind != Words {
		return 0, false
	}
	w, ok := known[text]
	if !ok {
		w.number, w.isNumber = w.says.read(text)
		known[text] = w
	}
	p.times = text == "x" || text == "X" || text == "×" || text == "*" || text == "by"
	p.plus(&w.says)
	return w.number, w.isNumber
}

// traits are what one text adds to the profile of a column, and its number or length.
type traits struct {
	says     profile
	number   float64
	isNumber bool
}

// plus adds what a text says.
func (p *profile) plus(o *profile) {
	p.numbers += o.numbers
	p.counts += o.counts
	p.lengths += o.lengths
	p.strong += o.strong
	p.sizes += o.sizes
	p.codes += o.codes
	p.lettered += o.lettered
	p.worded += o.worded
	p.grains += o.grains
	p.edges += o.edges
	p.roles += o.roles
	p.units += o.units
}

// read takes one text into the profile and returns its number or length.
func (p *profile) read(text string) (float64, bool) {
	letters := letterCount(text)
	if letters > 0 {
		p.lettered++
	}
	if longestWord(text) >= 3 {
		p.worded++
	}
	if isCode(text) {
		p.codes++
	}
	if _, ok := readTally(text); ok {
		p.counts++
	}
	if grainOf(text) != "" {
		p.grains++
	}
	if looksLikeEdges(text) {
		p.edges++
	}
	if unitOnly(text) {
		p.units++
	}
	if r := roleOf(text, nil); r != "" {
		p.roles++
	}
	if !strings.ContainsAny(text, "0123456789½¼¾⅛⅜⅝⅞⅓⅔") || len(text) > 80 {
		return 0, false
	}
	if l, err := length.Parse(text, length.Context{}); err == nil {
		p.lengths++
		if l.Said || l.Nominal != math.Trunc(l.Nominal) || strings.ContainsAny(text, "/'\"") {
			p.strong++
		}
		if letters == 0 && !strings.ContainsAny(text, "/'\" ") {
			p.numbers++
		}
		return l.Nominal, true
	}
	if s, err := length.ParseSize(withTimes(text), length.Context{}); err == nil && (len(s.Axes) >= 2 || len(s.More) > 0) {
		p.sizes++
	}
	return 0, false
}

// isCode reports whether a text is short and made like a mark: A1, SH-2, 101, U.3, AB.
func isCode(text string) bool {
	if len(text) > 12 || strings.Count(text, " ") > 1 || strings.ContainsAny(text, "\n\"/(") {
		return false
	}
	if strings.Contains(text, " ") && longestWord(text) > 3 {
		return false // "2 Side" is a name
	}
	if strings.ContainsAny(text, "0123456789") {
		return true
	}
	return len(text) <= 3 && strings.ToUpper(text) == text
}

func letterCount(s string) int {
	n := 0
	for _, r := range s {
		if isLetter(r) {
			n++
		}
	}
	return n
}

func longestWord(s string) int {
	best, run := 0, 0
	for _, r := range s {
		if isLetter(r) {
			run++
			best = max(best, run)
		} else {
			run = 0
		}
	}
	return best
}

func isLetter(r rune) bool {
	return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r > 0xbf && r != '×' && r != '÷' && r < 0x2000 || r >= 0x3000
}

var unitOnlyWords = set(`ea each pc pcs set sets pr pair lf ft in mm cm m kg lb sf sheet sheets roll box st stk szt pz ud stuks m2 lm`)

func unitOnly(text string) bool { return unitOnlyWords[fold(text)] }
