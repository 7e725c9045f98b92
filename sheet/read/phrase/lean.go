package phrase

import (
	"strconv"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

var (
	outWords = terms(map[string]string{"out": `out, outward, outwards, away, leans out, aussen, nach aussen, raus, hinaus, dehors, en dehors, vers l'exterieur, exterieur,
		fuera, hacia fuera, afuera, fuori, in fuori, verso l'esterno, esterno, na zewnatrz, zewnatrz, naar buiten, buiten, uit, utat, ut`})
	inWords = terms(map[string]string{"in": `in, inward, inwards, into, leans in, innen, nach innen, rein, herein, hinein, dedans, en dedans, vers l'interieur, interieur,
		dentro, hacia dentro, adentro, in dentro, verso l'interno, interno, do wewnatrz, do srodka, wewnatrz, naar binnen, binnen, inat`})
	lowWords = terms(map[string]string{"low": `low, lower, down, falls, drops, falls to, down to, slopes, drops to, tief, tiefer, fallt, fallt nach, abfallend, gefalle, gefalle nach, hangt, bas, plus bas, descend, bajo, mas bajo, baja,
		cae, basso, piu basso, scende, nisko, nizej, opada, laag, lager, loopt af, lag, lagre, lutar`})
	highWords = terms(map[string]string{"high": `high, higher, up, rises, rises to, hoch, hoher, steigt, haut, plus haut, monte, alto, mas alto, sube, piu alto, sale,
		wysoko, wyzej, hoog, hoger, hog, hogre, stiger`})
	overWords = set(`in, over, per, on, to, auf, je, auf einer lange von, sur, par, en, su, per, na, op, over, pa, in a, /`)
)

// LeanKind tells a reading of plumb, level or square.
type LeanKind int

// The kinds of offset readings.
const (
	Plumb LeanKind = iota
	Level
	Square
)

// Leans is what a line about plumb, level or square says.
type Leans struct {
	Kind   LeanKind
	Of     string // the side or surface last named; carries on to the next cell
	Signed bool   // the row plainly speaks of directions, so that a lone "in" is one and no inch
}

// Signed reports whether a text plainly speaks of directions: it says both in and out, or
// where the offset was read, or that something leans.
func Signed(text string) bool {
	pieces := Cut(text)
	var out, in, placed bool
	for i, p := range pieces {
		if _, n := outWords.at(pieces, i); n > 0 && at(pieces, i+1).Word != "of" {
			out = true
		}
		if _, n := inWords.at(pieces, i); n > 0 && at(pieces, i+1).Kind != Length {
			in = true
		}
		behind := i > 0 && pieces[i-1].Word == "at"
		placed = placed || behind && Place(p.Word) != "" || strings.HasPrefix(p.Word, "lean") || p.Word == "oben" || p.Word == "unten"
	}
	return placed || in && out
}

// Read takes the offsets of one cell: "L 1/4 out at top, R 1/8 in", "floor 3/16 low R in 8'",
// "back wall 9/2000 leans in". Text that is no offset comes back in rest.
func (l *Leans) Read(text string, unit length.Unit) (found []check.Lean, rest []string) {
	l.Signed = l.Signed || Signed(text) || unit.Metric()
	for _, pieces := range l.segments(Cut(text)) {
		lean, ok := l.segment(text, pieces, unit)
		if ok {
			found = append(found, lean)
			continue
		}
		if n := len(pieces); n > 0 {
			if len(lengths(pieces)) > 0 || saysGood(pieces) {
				rest = append(rest, text[pieces[0].From:pieces[n-1].End()])
			}
		}
	}
	return found, rest
}

// saysGood reports words that stand for a reading nobody took, such as O.K.
func saysGood(pieces []Piece) bool {
	for _, p := range pieces {
		if p.Kind == Word && length.Nothing(p.Text) == length.Unknown {
			return true
		}
	}
	return false
}

// segments parts a line at commas and bars, and where a side is named behind a whole reading.
func (l *Leans) segments(pieces []Piece) [][]Piece {
	var all [][]Piece
	var seg []Piece
	cut := func() {
		if len(seg) > 0 {
			all = append(all, seg)
		}
		seg = nil
	}
	for i, p := range pieces {
		if p.Is(",") || p.Is("|") || p.Is(";") || p.Is("\n") || p.Is("&") {
			cut()
			continue
		}
		side := p.Kind == Word && Place(p.Word) != "" && i+1 < len(pieces) && pieces[i+1].Kind == Length
		if side && len(lengths(seg)) > 0 && !overWords[seg[len(seg)-1].Word] {
			cut()
		}
		seg = append(seg, p)
	}
	cut()
	return all
}

// way is what the words of one reading say of its direction.
type way struct {
	out, in, low, high bool
	side               string // left, right, front or back: where it is low or high, or leans to
	at                 string // top or floor: where the offset was read
	leans              bool   // a side named behind this is the way it leans
}

func (l *Leans) segment(text string, pieces []Piece, unit length.Unit) (check.Lean, bool) {
	lean := check.Lean{Text: check.Text{Text: text[pieces[0].From:pieces[len(pieces)-1].End()]}}
	var w way
	numbers := 0
	for i := 0; i < len(pieces); i++ {
		p := pieces[i]
		switch {
		case p.Kind == Length && numbers == 0:
			numbers++
			offset, over, ok := ratio(p.Text)
			if ok {
				lean.Offset, lean.Over = offset, over
				numbers++
				continue
			}
			lean.Offset = p.bare(unit)
		case p.Kind == Length && numbers == 1:
			numbers++
			lean.Over = measured(pieces, i, unit)
		case p.Kind == Length:
			return lean, false
		case p.Kind == Word || overWords[p.Word]:
			i += l.word(&w, pieces, i, numbers) - 1
		}
	}
	if numbers == 0 || !lean.Offset.Known {
		return lean, false
	}
	if l.Of == "" && l.Kind == Plumb && (w.side == "left" || w.side == "right") {
		l.Of, w.side = w.side, ""
	}
	lean.Of = l.surface()
	l.sign(&lean, w)
	return lean, true
}

// ratio reads 9/2000: an offset of 9 over 2000. A denominator of a rule is a fraction.
func ratio(text string) (offset, over check.Value, ok bool) {
	top, bottom, found := strings.Cut(text, "/")
	n, err1 := strconv.ParseFloat(top, 64)
	d, err2 := strconv.ParseFloat(bottom, 64)
	if !found || err1 != nil || err2 != nil || d <= 128 {
		return offset, over, false
	}
	return check.Exact(n), check.Exact(d), true
}

// surface is what the offset is of: a side for plumb, floor or head for level.
func (l *Leans) surface() string {
	of := l.Of
	switch l.Kind {
	case Level:
		switch of {
		case "top":
			of = "head"
		case "head", "ceiling":
		default:
			of = "floor"
		}
	case Square:
		if of == "left" || of == "right" {
			of += " corner"
		}
	}
	return of
}

// word takes what stands at a piece, and says how many pieces it was.
func (l *Leans) word(w *way, pieces []Piece, i, numbers int) int {
	p := pieces[i]
	beforeLength := i+1 < len(pieces) && pieces[i+1].Kind == Length
	if beforeLength && numbers > 0 && overWords[p.Word] {
		return 1
	}
	if p.Word == "of" || p.Word == "out" && at(pieces, i+1).Word == "of" { // out of plumb: no direction
		return 1
	}
	for _, c := range []struct {
		lex lexicon
		to  *bool
	}{{outWords, &w.out}, {lowWords, &w.low}, {highWords, &w.high}} {
		if _, n := c.lex.at(pieces, i); n > 0 && (l.Kind == Level) == (c.to != &w.out) {
			*c.to = true
			return n
		}
	}
	if place, n := places.at(pieces, i); n > 1 {
		l.named(w, place, numbers)
		return n
	}
	w.leans = w.leans || strings.HasPrefix(p.Word, "lean")
	if _, n := inWords.at(pieces, i); n > 0 && l.Kind == Plumb {
		w.in = true
		return n
	}
	place, n := places.at(pieces, i)
	if n == 0 {
		return 1
	}
	l.named(w, place, numbers)
	return n
}

// named takes the name of a place: which side the reading is of, or where it was read.
func (l *Leans) named(w *way, place string, numbers int) {
	side := place == "left" || place == "right"
	switch {
	case l.Kind == Level && (place == "floor" || place == "top") && numbers == 0:
		l.Of = place
	case l.Kind == Level:
		w.side = place
	case side && w.leans:
		w.side = place
	case numbers == 0 && (side || place == "back"):
		l.Of = place
	case place == "top" || place == "floor":
		w.at = place
	case side || place == "front" || place == "back":
		w.side = place
	}
}

// sign turns the words of direction into the sign of the offset. Where they leave it open
// the value is a range over both ways, and a guess.
func (l *Leans) sign(lean *check.Lean, w way) {
	if lean.Offset.Nominal == 0 {
		return
	}
	switch l.Kind {
	case Plumb:
		l.signPlumb(lean, w)
	case Level:
		l.signLevel(lean, w)
	default:
		open(lean, "nobody says whether the corner opens or closes", 0)
	}
}

func (l *Leans) signPlumb(lean *check.Lean, w way) {
	out := 0.0
	switch {
	case w.out && !w.in:
		out = 1
	case w.in && !w.out:
		out = -1
	case w.side != "" && (lean.Of == "left" || lean.Of == "right"):
		out = 1
		if w.side != lean.Of {
			out = -1
		}
	case w.side != "" && lean.Of == "back":
		out = 1
		if w.side == "front" {
			out = -1
		}
	}
	if out != 0 && w.at == "floor" {
		out = -out
	}
	switch {
	case out == 0:
		open(lean, "nobody says which way it leans", 0)
	case w.in && !l.Signed && w.at == "":
		open(lean, `"in" may be inches or a lean into the opening`, -1)
	case w.out && !l.Signed && w.at == "" && !lean.Over.Known && !strings.Contains(Fold(lean.Text.Text), "lean"):
		open(lean, `"out" may be a lean away from the opening or only out of plumb`, 1)
	case out < 0:
		lean.Offset = negative(lean.Offset)
	}
}

func (l *Leans) signLevel(lean *check.Lean, w way) {
	down := 0.0
	switch {
	case w.low && !w.high:
		down = 1
	case w.high && !w.low:
		down = -1
	}
	switch w.side {
	case "left":
		down = -down
	case "front", "back":
		lean.Of += ", front to back"
		if w.side == "back" {
			down = -down
		}
	case "right":
	default:
		down = 0
	}
	switch {
	case down == 0:
		open(lean, "nobody says which end is low", 0)
	case down < 0:
		lean.Offset = negative(lean.Offset)
	}
}

func negative(v check.Value) check.Value {
	v.Low, v.Nominal, v.High = -v.High, -v.Nominal, -v.Low
	return v
}

// open makes the direction of an offset unknown: likely is 1, -1 or 0 where neither way is.
func open(lean *check.Lean, why string, likely float64) {
	v := lean.Offset
	x := max(v.High, -v.Low)
	v.Low, v.Nominal, v.High = -x, likely*v.Nominal, x
	v.Guessed, v.Why = true, why
	lean.Offset = v
}

// SpeaksOfSlope reports whether a line says that something is low or high, or falls.
func SpeaksOfSlope(line string) bool {
	pieces := Cut(line)
	for i := range pieces {
		_, low := lowWords.at(pieces, i)
		_, high := highWords.at(pieces, i)
		if low > 0 || high > 0 {
			return true
		}
	}
	return false
}

// SpeaksOfLean reports whether a line says that something leans, or gives an offset over a
// length, without the word plumb: "back wall 9/2000 leans in".
func SpeaksOfLean(line string) bool {
	pieces := Cut(line)
	for i, p := range pieces {
		if p.Kind == Length {
			if _, _, ok := ratio(p.Text); ok {
				return true
			}
			continue
		}
		_, out := outWords.at(pieces, i)
		if out > 0 || strings.HasPrefix(p.Word, "lean") || strings.HasPrefix(p.Word, "neig") {
			return true
		}
	}
	return false
}
