package phrase

import (
	"fmt"
	"regexp"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// Positions are the places of slots along a part, as typed in one cell or in its header.
type Positions struct {
	From    string        // the end they count from: "bottom", "top", "left", ...; empty if unsaid
	At      []check.Value // in the order typed
	Bays    []check.Value // clear bays instead; a missing value shares what is left, one alone means equal bays
	Centres bool          // centre lines
	Edges   bool          // lower or left edges, said in so many words
	Far     bool          // upper or right edges
}

// ends are the ends positions count from. A shelf's front is an end too.
var ends = terms(map[string]string{
	"bottom": `bottom, btm, bot, b, floor, flr, base, sill, foot, aff, up, unten, boden, unterkante, uk, bas, du bas, sol, abajo, suelo,
		basso, sotto, dal basso, dol, od dolu, dolu, onder, onderkant, vloer, nerifran, nedifran, botten, golv, underkant`,
	"top": `top, t, head, down, oben, oberkante, ok, haut, du haut, arriba, alto, dall'alto, gora, od gory, gory, boven, bovenkant,
		uppifran, overkant, topp`,
	"left":  `left, l, lh, links, li, gauche, izquierda, izq, sinistra, sx, lewa, lewej, od lewej, vanster, fran vanster`,
	"right": `right, r, rh, rechts, re, droite, derecha, dcha, destra, dx, prawa, prawej, od prawej, hoger, fran hoger`,
	"front": `front, f, vorn, vorne, avant, delante, frente, davanti, przod, voor, voorkant, fram, framkant`,
	"back":  `back, rear, hinten, arriere, atras, dietro, tyl, achter, achterkant, bak, bakkant`,
})

// End reads the name of the end that positions count from; empty for anything else.
func End(text string) string {
	pieces := Cut(text)
	if means, n := ends.at(pieces, 0); n > 0 && n == len(pieces) {
		return means
	}
	if means := endAfter(pieces); means != "" {
		return means
	}
	means, at := ends.find(pieces)
	if at >= 0 && len(pieces[at].Word) > 2 {
		return means
	}
	return ""
}

// endAfter finds the end named behind "from" or its like: "up from the bottom".
func endAfter(pieces []Piece) string {
	for i, p := range pieces {
		if p.Kind != Word || !startsEnd[p.Word] || i+1 == len(pieces) {
			continue
		}
		if means, n := ends.at(pieces, i+1); n > 0 {
			return means
		}
		if i+2 < len(pieces) { // "from the bottom", "ab Unterkante der Seite"
			if means, n := ends.at(pieces, i+2); n > 0 {
				return means
			}
		}
	}
	return ""
}

// startsEnd are the words before the end that positions count from.
var startsEnd = set("from, fr, off, ab, von, vom, depuis, de, du, desde, da, dal, dalla, od, vanaf, van, fran")

// The ways a line says what its positions are.
var (
	centreWords = terms(map[string]string{"centre": `c/l, cl, c-l, ctr, ctrs, centre, centres, center, centers, centre line, center line,
		centreline, centerline, centrelines, centerlines, o/c, oc, on centre, on center, on centers, on centres, mitte, mittig, achse, achsen, achsmass,
		achsmasse, axe, axes, entraxe, entraxes, eje, ejes, a ejes, asse, assi, interasse, os, osie, w osiach, hart, hart op hart,
		hoh, hartmaat, hartmaten, hartlijn, centrum, c-c, cc, cl's`})
	bayWords = terms(map[string]string{"bay": `clear, clr, clear bays, bays, bay, clear openings, openings, opngs, opng, clear between, clear opening, spaces, space,
		lichte, lichtes mass, lichtmasse, lichte masse, licht, fach, facher, fachhohen, luce, luci, luce libera, jour, jours, entre tablettes,
		vide, vides, libre, libres, huecos, hueco, swiatlo, w swietle, swiatla, dagmaat, dagmaten, vakken, fri, fria, fack, fackhojd, innermatt`})
	farWords = terms(map[string]string{"far": `to top of shelf, top of shelf, to top, top edge, top edges, to top edge, tops, to t/shelf, t/shelf, tos, to top face,
		oberkante, ok boden, oberkante boden, ok, dessus, dessus de tablette, au dessus, cara superior, borde superior, canto superior, bordo superiore,
		filo superiore, gorna krawedz, bovenkant plank, bovenkant, ovankant, overkant, ovankant hylla`})
	nearWords = terms(map[string]string{"near": `to bottom of shelf, bottom of shelf, underside, u/s, us, u/side, to underside, bottom edge, bottom edges, bottom of slot,
		lower edge, edge, edges, to edge, near edge, left edge, left edges, unterkante, uk, uk boden, kante, dessous, sous-face, chant, bord, canto, borde,
		borde inferior, bordo, filo, bordo inferiore, filo inferiore, krawedz, dolna krawedz, onderkant, onderkant plank, kant, rand, underkant, undersida`})
	equalWords = terms(map[string]string{"equal": `eq, equal, eq sp, eq spaces, equal spaces, equally spaced, eq bays, equal bays, evenly, even, evenly spaced,
		gleich, gleichmassig, egal, egales, a intervalles egaux, igual, iguales, uguali, uguale, equidistanti, rowno, rowne, gelijk, gelijke vakken,
		lika, jamnt`})
	balanceWords = terms(map[string]string{"rest": `bal, balance, rest, rem, remainder, remaining, what is left, reste, le reste, resto, reszta, restant, aterstod`})
)

// Header takes what a column header says about its positions: "c/l up from bottom",
// "to top of shelf", "clear bays".
func (p *Positions) Header(text string) {
	pieces := Cut(text)
	p.said(pieces)
	p.end(text, pieces)
}

// end takes the end the positions count from. Beside words that say which edge is meant,
// only an end behind "from" is one: "to top of shelf" counts from nowhere yet.
func (p *Positions) end(text string, pieces []Piece) {
	if p.From != "" {
		return
	}
	p.From = endAfter(pieces)
	if p.From == "" && !p.Far && !p.Edges {
		p.From = End(text)
	}
}

func (p *Positions) said(pieces []Piece) {
	_, far := farWords.find(pieces)
	_, near := nearWords.find(pieces)
	_, centre := centreWords.find(pieces)
	_, bay := bayWords.find(pieces)
	switch {
	case bay >= 0:
		p.set(false, false, false)
		p.Bays = []check.Value{}
	case centre >= 0:
		p.set(true, false, false)
	case far >= 0:
		p.set(false, true, false)
	case near >= 0:
		p.set(false, false, true)
	}
}

// set says what the positions are; words in a cell overrule those of its header.
func (p *Positions) set(centres, far, edges bool) {
	p.Centres, p.Far, p.Edges = centres, far, edges
	if len(p.Bays) == 0 {
		p.Bays = nil
	}
}

// listed matches numbers parted by commas without blanks, three or more: 18,36,54. Two
// such numbers are one with a decimal comma.
var listed = regexp.MustCompile(`^\s*\d+(,\d+){2,}\s*$`)

// steps matches repeats of one spacing: 3 @ 12 1/2, 4 x 320.
var steps = regexp.MustCompile(`^\s*(\d{1,2})\s*(?:@|x|X|×|à|at)\s*(\S.*)$`)

// Read adds the positions of a cell: "18, 36-3/4, 55-1/2", "16, 16, 16, bal.", "EQ",
// "6, then 4 @ 12". An item with a plus counts from the one before it. It returns an error
// that names the item which is no position.
func (p *Positions) Read(text string, unit length.Unit) error {
	if listed.MatchString(text) {
		text = strings.ReplaceAll(text, ",", ";")
	}
	for _, item := range items(text) {
		if err := p.item(item, unit); err != nil {
			return err
		}
	}
	if pieces := Cut(text); len(lengths(pieces)) == 1 && has(words(pieces), "oc", "o/c", "on center", "on centers", "on centre") && len(p.At) == 1 {
		p.At = nil
		return fmt.Errorf("read %s, a spacing; expected positions such as 16, 32, 48, or the first before the spacing: 6, 3 @ 16", check.Typed(text))
	}
	return nil
}

// items parts a list at semicolons, line breaks, strokes and bars, at "and" and "then", and
// at commas that are no decimal commas.
func items(text string) []string {
	var list []string
	from := 0
	cut := func(at, next int) {
		if s := strings.TrimSpace(text[from:at]); s != "" {
			list = append(list, s)
		}
		from = next
	}
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case c == ';' || c == '\n' || c == '|' || c == '&':
			cut(i, i+1)
		case c == ',' && !(i > 0 && i+1 < len(text) && isDigit(text[i-1]) && isDigit(text[i+1])):
			cut(i, i+1)
		case c == '/' && i > 0 && i+1 < len(text) && text[i-1] == ' ' && text[i+1] == ' ':
			cut(i, i+1)
		case c == ' ':
			for _, w := range []string{" and ", " then ", " und ", " dann ", " et ", " y ", " e ", " i ", " en ", " och ", " puis "} {
				if strings.HasPrefix(strings.ToLower(text[i:]), w) {
					cut(i, i+len(w))
					break
				}
			}
		}
	}
	cut(len(text), len(text))
	return list
}

func (p *Positions) item(item string, unit length.Unit) error {
	pieces := Cut(item)
	p.said(pieces)
	p.end(item, pieces)
	if _, at := balanceWords.find(pieces); at >= 0 {
		p.Bays = append(p.toBays(), check.Value{})
		return nil
	}
	if _, at := equalWords.find(pieces); at >= 0 {
		return p.equal(pieces)
	}
	if m := steps.FindStringSubmatch(item); m != nil {
		return p.repeat(m[1], m[2], unit)
	}
	numbers := lengths(pieces)
	if len(numbers) == 0 {
		if _, n := known(pieces); n == len(pieces) {
			return nil
		}
		return fmt.Errorf("read %s, expected a position such as 18 or 36-3/4", check.Typed(item))
	}
	for i, n := range numbers {
		v, _, err := Value(n.Text, unit, "a position")
		if err != nil {
			return err
		}
		p.add(v, i == 0 && pieces[0].Is("+"))
	}
	return nil
}

// known counts the leading pieces that say something about positions.
func known(pieces []Piece) (string, int) {
	for i := 0; i < len(pieces); {
		step := 0
		if startsEnd[pieces[i].Word] || pieces[i].Is(":") || pieces[i].Is("=") {
			step = 1
		}
		for _, l := range []lexicon{ends, centreWords, bayWords, farWords, nearWords} {
			if _, n := l.at(pieces, i); n > step {
				step = n
			}
		}
		if step == 0 {
			return "", i
		}
		i += step
	}
	return "", len(pieces)
}

func (p *Positions) toBays() []check.Value {
	if p.Bays == nil {
		p.Bays, p.At = append([]check.Value{}, p.At...), nil
		p.set(false, false, false)
	}
	return p.Bays
}

// add puts a position behind the others; with a plus it counts from the last of them.
func (p *Positions) add(v check.Value, plus bool) {
	if p.Bays != nil {
		p.Bays = append(p.Bays, v)
		return
	}
	if n := len(p.At); plus && n > 0 {
		v = sum(p.At[n-1], v)
	}
	p.At = append(p.At, v)
}

func sum(a, b check.Value) check.Value {
	v := check.Between(a.Low+b.Low, a.Nominal+b.Nominal, a.High+b.High)
	v.Guessed = a.Guessed || b.Guessed
	return v
}

// repeat reads "4 @ 12": four more, each 12 from the one before.
func (p *Positions) repeat(count, spacing string, unit length.Unit) error {
	pieces := Cut(spacing)
	p.said(pieces)
	numbers := lengths(pieces)
	if len(numbers) != 1 {
		return fmt.Errorf("read %s, expected a spacing such as 4 @ 12", check.Typed(count+" @ "+spacing))
	}
	v, _, err := Value(numbers[0].Text, unit, "a spacing")
	if err != nil {
		return err
	}
	if p.Bays == nil && len(p.At) == 0 {
		return fmt.Errorf("read %s, expected the first position before the spacing, such as 6, 4 @ 12", check.Typed(count+" @ "+spacing))
	}
	n := 0
	fmt.Sscan(count, &n)
	for range n {
		p.add(v, true)
	}
	return nil
}

// equal reads "EQ", "4 EQ", "EQ, EQ, EQ": equal clear bays that share the length.
func (p *Positions) equal(pieces []Piece) error {
	n := 1
	counted := lengths(pieces)
	if len(counted) > 0 {
		typed := counted[0].Text
		if _, err := fmt.Sscan(typed, &n); err != nil || n < 1 || n > 60 || strings.ContainsAny(typed, "./,") {
			return fmt.Errorf("read %s, expected a number of equal bays such as 4 EQ", check.Typed(typed))
		}
	}
	for range n {
		p.Bays = append(p.toBays(), check.Value{})
	}
	return nil
}

func lengths(pieces []Piece) []Piece {
	var found []Piece
	for _, p := range pieces {
		if p.Kind == Length {
			found = append(found, p)
		}
	}
	return found
}
