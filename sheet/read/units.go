package read

import (
	"math"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// titles are the rows of a tab above and between its tables, and what they say for all.
type titles struct {
	unit   length.Unit
	size   check.SizeKind
	from   string   // the text that said the unit
	forAll []forAll // lines that say what all parts are made of
}

// readTitle takes what a title line says for the whole tab: "ALL SIZES mm", "all sizes
// finished", "Dimensions in inches".
func (ti *titles) readTitle(text string) {
	if len(text) > 200 {
		return
	}
	key := " " + fold(text) + " "
	about := false
	for _, w := range []string{" size", " dim", " all ", " mass", " masse", " maat", " maten", " matt ", " mesure", " cote", " medida", " misure", " wymiar", " unit", " einheit", " unite", " unidad", " length", " in mm ", " in inch", " en mm ", " w mm ", " i mm ", " alles in ", " alle ", " tutte", " toutes", " todas", " wszystkie", " alla "} {
		about = about || strings.Contains(key, w)
	}
	if u := length.UnitIn(text); u != length.Unsaid && (about || len(text) <= 14) && !strings.ContainsAny(text, "0123456789") && ti.unit == length.Unsaid {
		ti.unit, ti.from = u, text
	}
	if ti.size == "" {
		ti.size = sizeKindBeside(strings.Fields(fold(text)))
	}
}

var sizeNouns = set(`size sizes dim dims dimension dimensions mass masse measures maat maten matt mesures cotes medidas
	misure wymiary abmessungen dimensiones dimensioni afmetingen lengths`)

// sizeKindBeside finds the word for finished or cut nearest to the word for sizes: the title
// of a cut list may well say that its sizes are finished.
func sizeKindBeside(words []string) check.SizeKind {
	for i, w := range words {
		if k := sizeKindOf(w); k != "" && len(w) > 8 && (w == "fertigmasse" || w == "zuschnittmasse" || w == "fertigmass" || w == "fardigmatt") {
			return k
		}
		if !sizeNouns[w] {
			continue
		}
		for d := 1; d <= 3; d++ {
			for _, k := range []int{i + d, i - d} {
				if k >= 0 && k < len(words) {
					if kind := sizeKindOf(words[k]); kind != "" {
						return kind
					}
					if d == 1 && words[k] == "fin" { // right beside the sizes it is no paint
						return check.FinishedSize
					}
				}
			}
		}
	}
	return ""
}

// decideUnit gives every column of sizes its unit, and says how the unit of the tab was
// found where nobody says it.
func decideUnit(tables []*table, ti *titles) (tab length.Unit, why string) {
	votes := map[length.Unit]int{}
	unsaid := false
	for _, t := range tables {
		if t.unitsByRow(votes) {
			continue
		}
		for _, c := range t.lengthColumns() {
			if c.unit == length.Unsaid {
				c.unit = formatUnit(t, c)
			}
			if c.unit == length.Unsaid {
				c.unit = ti.unit
			}
			if c.unit != length.Unsaid {
				votes[c.unit] += c.prof.n + 1
			} else {
				unsaid = true
			}
		}
	}
	inferred, reason, typed := inferUnit(tables)
	if unsaid {
		said := length.Unsaid
		for u, n := range votes {
			if said == length.Unsaid || n > votes[said] || n == votes[said] && u < said {
				said = u
			}
		}
		if said != length.Unsaid && (inferred == length.Unsaid || inferred.Metric() == said.Metric()) && !typed {
			inferred, reason = said, "other columns say so"
		}
		for _, t := range tables {
			for _, c := range t.lengthColumns() {
				if c.unit == length.Unsaid {
					c.unit = inferred
					votes[inferred] += c.prof.n
				}
			}
		}
		why = reason
	}
	metric, imperial := 0, 0
	for u, n := range votes {
		if u.Metric() {
			metric += n
		} else if u.Imperial() {
			imperial += n
		}
	}
	tab = length.Inch
	if metric > imperial {
		tab = length.Millimetre
	}
	if !unsaid {
		why = ""
	}
	return tab, why
}

// unitsByRow counts the units that the rows of a table name in a column of their own, and
// reports whether nearly all do.
func (t *table) unitsByRow(votes map[length.Unit]int) bool {
	col := t.find(fUnit)
	if col == nil {
		return false
	}
	found := map[length.Unit]int{}
	n := 0
	for i := range t.g.Rows {
		r := &t.g.Rows[i]
		if r.N <= t.bottom || r.N > t.last || n >= sampleRows {
			continue
		}
		if u := lengthUnit(r.At(col.col)); u != length.Unsaid {
			n++
			found[u]++
		}
	}
	if 3*n < 2*col.prof.rows {
		return false
	}
	for u, k := range found {
		votes[u] += k
	}
	return true
}

func (t *table) lengthColumns() []*column {
	var cols []*column
	for _, c := range t.cols {
		if c.prof.n == 0 && t.matrix == nil {
			continue
		}
		if c.isLength() || c.field == fName && t.nameSized {
			cols = append(cols, c)
		}
	}
	if t.matrix != nil {
		cols = append(cols, t.matrix.cols...)
	}
	return cols
}

// formatUnit finds the unit that the number formats of a column carry, if most do.
func formatUnit(t *table, col *column) length.Unit {
	votes := map[length.Unit]int{}
	n := 0
	for i := range t.g.Rows {
		r := &t.g.Rows[i]
		if r.N <= t.bottom || r.N > t.last {
			continue
		}
		if c := r.At(col.col); c != nil && c.Kind == Number {
			n++
			votes[suffixUnit(c.Look)]++
		}
		if n > sampleRows {
			break
		}
	}
	for u, v := range votes {
		if u != length.Unsaid && 2*v > n {
			return u
		}
	}
	return length.Unsaid
}

// suffixUnit is the unit a number format writes behind the number.
func suffixUnit(l *Look) length.Unit {
	s := strings.TrimSpace(l.Format.Suffix)
	switch s {
	case "":
		return length.Unsaid
	case `"`, "”", "″", "''":
		return length.Inch
	case "'", "’", "′":
		return length.Foot
	}
	return length.UnitIn(s)
}

// inferUnit reads the unit off the values of the whole tab: fractions, foot and inch marks
// mean inches, many whole numbers over 150 millimetres. typed is true where texts in the
// cells say a unit of their own.
func inferUnit(tables []*table) (u length.Unit, why string, typed bool) {
	var f forms
	for _, t := range tables {
		for _, c := range t.lengthColumns() {
			f.take(t, c)
		}
	}
	u, why = f.unit()
	return u, why, f.inch+f.metric > 0
}

// forms counts how sizes are typed.
type forms struct {
	fractions, inch, metric int // texts: a fraction, an inch or foot mark, a metric unit
	metricUnit              map[length.Unit]int
	numbers, whole, eighths int // bare numbers; of them whole, and of the rest in 32nds
	big                     int // bare numbers over 150
	small                   int // thicknesses up to 3
	sheet                   int // thicknesses of 6 to 60, whole or nearly
	decimetre               int // thicknesses such as 1.9 that no inch rule has
}

func (f *forms) take(t *table, col *column) {
	n := 0
	for i := range t.g.Rows {
		r := &t.g.Rows[i]
		if r.N <= t.bottom || r.N > t.last {
			continue
		}
		c := r.At(col.col)
		if c == nil {
			continue
		}
		if n++; n > 2*sampleRows {
			return
		}
		switch c.Kind {
		case Number:
			f.number(c, col)
		case Words:
			f.text(c.Text(), col)
		}
	}
}

func (f *forms) number(c *Cell, col *column) {
	if c.Look.Format.Over > 0 || c.IsDate() {
		f.fractions++
		return
	}
	x := c.Num
	f.bare(x, col.field == fThick)
}

func (f *forms) bare(x float64, thick bool) {
	f.numbers++
	switch {
	case x == math.Trunc(x):
		f.whole++
	case math.Abs(x*32-math.Round(x*32)) < 1e-6 || isThirtySecond(x):
		f.eighths++
	}
	if x > 150 {
		f.big++
	}
	if thick {
		switch {
		case x > 0 && x < 3.2 && math.Abs(x*16-math.Round(x*16)) > 1e-6 && math.Abs(x*10-math.Round(x*10)) < 1e-9 && x > 1:
			f.decimetre++
		case x > 0 && x <= 3.2:
			f.small++
		case x >= 4 && x <= 80:
			f.sheet++
		}
	}
}

// isThirtySecond knows sixteenths and thirty-seconds rounded to two or three decimals.
func isThirtySecond(x float64) bool {
	for _, p := range []float64{100, 1000} {
		n := math.Round(x * 32)
		if math.Abs(math.Round(n/32*p)/p-x) < 1e-9 {
			return true
		}
	}
	return false
}

func (f *forms) text(s string, col *column) {
	s = withTimes(s)
	if col.field == fName && !strings.ContainsAny(s, "xX×*") {
		return
	}
	if size, err := length.ParseSize(s, length.Context{Plain: true}); err == nil {
		for _, a := range size.Axes {
			f.length(s, a.Length, col)
		}
		return
	}
	if l, err := length.Parse(s, length.Context{Plain: true}); err == nil {
		f.length(s, l, col)
	}
}

func (f *forms) length(s string, l length.Length, col *column) {
	switch {
	case l.Said && l.Unit.Imperial():
		f.inch++
	case l.Said && l.Unit.Metric():
		f.metric++
		if f.metricUnit == nil {
			f.metricUnit = map[length.Unit]int{}
		}
		f.metricUnit[l.Unit]++
	case strings.ContainsAny(s, "/½¼¾⅛⅜⅝⅞⅓⅔"):
		f.fractions++
	default:
		f.bare(l.Nominal, col.field == fThick || l.Nominal < 4 && col.field == fSize)
	}
}

func (f *forms) unit() (length.Unit, string) {
	switch {
	case f.fractions > 0 && f.fractions+f.inch >= f.metric && f.big*2 <= f.numbers:
		return length.Inch, "sizes are typed as fractions"
	case f.inch > f.metric:
		return length.Inch, "other sizes carry inch marks"
	case f.metric > 0:
		best := length.Millimetre
		for u, n := range f.metricUnit {
			if n > f.metricUnit[best] || n == f.metricUnit[best] && u < best {
				best = u
			}
		}
		if best != length.Millimetre && 3*f.big > f.numbers {
			return length.Millimetre, "many numbers over 150"
		}
		return best, "other sizes say " + best.String()
	case f.numbers == 0:
		return length.Unsaid, ""
	case f.sheet > 2*f.small && f.sheet > 2*f.decimetre:
		return length.Millimetre, "thicknesses are those of sheets in mm"
	case f.decimetre > f.small && f.big*3 < f.numbers:
		return length.Centimetre, "thicknesses are those of sheets in cm"
	case f.small > 2*f.sheet:
		return length.Inch, "thicknesses are those of sheets in inches"
	case 3*f.big > f.numbers && f.whole > f.eighths:
		return length.Millimetre, "many whole numbers over 150"
	case f.big*5 > f.numbers && 10*f.whole >= 9*f.numbers:
		return length.Millimetre, "whole numbers, some over 150"
	}
	return length.Inch, "the numbers are small"
}
