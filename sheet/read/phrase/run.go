package phrase

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// Run is a chain of parts as typed: "W: side + shelf + side + scr 5/16 ea = niche".
type Run struct {
	Case      string // the case named before the direction: "A width: ..."
	Direction string // "width", "height" or "depth"; empty if unsaid
	Items     []check.RunItem
	Fits      string
	Clearance check.Value // over the whole run
}

var directions = terms(map[string]string{
	"width":  `w, wd, width, wide, across, l-r, left to right, horizontal, b, br, breite, in der breite, largeur, larg, ancho, larghezza, szerokosc, szer, breedte, bredd`,
	"height": `h, ht, height, high, up, vertical, floor to ceiling, hohe, in der hohe, hauteur, alto, altura, altezza, wysokosc, wys, hoogte, hojd`,
	"depth":  `d, dp, depth, deep, front to back, f-b, t, tiefe, in der tiefe, profondeur, prof, fondo, profundidad, profondita, glebokosc, gleb, diepte, djup`,
})

// directionOf reads the direction of a run, empty for anything else.
func directionOf(text string) string { return directions[Fold(text)] }

var (
	clearanceWords = set(`clr, clearance, clear, gap, play, tolerance, luft, spiel, fuge, jeu, holgura, gioco, luz, tolleranza, luft, szczelina, speling, ruimte, spelrum, springa`)
	eachWords      = terms(map[string]string{"each": `ea, each, ea side, each side, each end, both sides, both ends, es, b/s, l & r, l+r, je, je seite, beidseitig, beidseits,
		de chaque cote, chaque cote, cada lado, ambos lados, per lato, per parte, na strone, z kazdej strony, obustronnie, elk, per kant, aan beide zijden, per sida, vardera sidan`})
	lessWords = set("less, minus, -, abzuglich, moins, menos, meno, bez, min, minus")
)

// ParseRun reads a chain of parts. ok is false for a line that is none: without a plus, or
// without two items.
func ParseRun(text string, unit length.Unit) (r Run, rest []string, ok bool) {
	chain, fits, found := cutFits(text)
	chain = r.head(chain)
	items := plusParts(unfold(chain))
	if len(items) < 2 {
		return Run{}, nil, false
	}
	for _, item := range items {
		if !r.Item(item, unit) {
			rest = append(rest, item)
		}
	}
	if found {
		rest = append(rest, r.fits(fits, unit)...)
	}
	return r, rest, len(r.Items) > 0
}

// cutFits parts the chain from what it must fit.
func cutFits(text string) (chain, fits string, found bool) {
	for _, sign := range []string{"<=", "=<", "≤", "=", "→", "->", " fits in ", " fits ", " into "} {
		if chain, fits, found = strings.Cut(text, sign); found {
			return chain, strings.TrimSpace(strings.TrimLeft(fits, "> =<")), true
		}
	}
	return text, "", false
}

// head takes the direction, and a case before it, off the front of a chain.
func (r *Run) head(chain string) string {
	head, tail, found := strings.Cut(chain, ":")
	if !found {
		pieces := Cut(chain)
		if len(pieces) > 1 && len(pieces[0].Word) > 2 && directionOf(pieces[0].Text) != "" {
			r.Direction = directionOf(pieces[0].Text)
			return chain[pieces[1].From:]
		}
		return chain
	}
	r.Named(head)
	return tail
}

// Named takes the case and the direction from the text before a chain.
func (r *Run) Named(head string) {
	pieces := Cut(head)
	for i := len(pieces) - 1; i >= 0 && r.Direction == ""; i-- {
		if means, n := directions.at(pieces, i); n > 0 && i+n == len(pieces) {
			r.Direction = means
			head = head[:pieces[i].From]
		}
	}
	r.Case = strings.Trim(head, " ,-/()")
}

var (
	timesGroup = regexp.MustCompile(`(\d{1,2})\s*[x×*]?\s*\(([^()]*\+[^()]*)\)`)
	groupTimes = regexp.MustCompile(`\(([^()]*\+[^()]*)\)\s*[x×*]\s*(\d{1,2})\b`)
	loneGroup  = regexp.MustCompile(`\(([^()]*\+[^()]*)\)`)
)

// unfold writes out what is repeated in brackets: "2 x (side + shelf)", "(K1 + K2) x 3".
func unfold(chain string) string {
	if !strings.Contains(chain, "(") {
		return chain
	}
	repeat := func(group, times string) string {
		n, _ := strconv.Atoi(times)
		return strings.Join(slices.Repeat([]string{group}, max(n, 1)), " + ")
	}
	chain = groupTimes.ReplaceAllStringFunc(chain, func(s string) string {
		m := groupTimes.FindStringSubmatch(s)
		return repeat(m[1], m[2])
	})
	chain = timesGroup.ReplaceAllStringFunc(chain, func(s string) string {
		m := timesGroup.FindStringSubmatch(s)
		return repeat(m[2], m[1])
	})
	return loneGroup.ReplaceAllString(chain, "$1")
}

// plusParts parts a chain at its plus signs, but not at those of "+/-".
func plusParts(chain string) []string {
	var parts []string
	from := 0
	for i := 0; i < len(chain); i++ {
		if chain[i] != '+' || signEnd(chain[i:]) > 0 {
			continue
		}
		parts = append(parts, chain[from:i])
		from = i + 1
	}
	parts = append(parts, chain[from:])
	kept := parts[:0]
	for _, p := range parts {
		if p = strings.TrimSpace(p); p != "" {
			kept = append(kept, p)
		}
	}
	return kept
}

// Item adds one item: a mark or a role, "2 x K4", "3 shelves", a plain length, "scr 5/16 ea".
func (r *Run) Item(text string, unit length.Unit) bool {
	item, ok := parseItem(text, unit)
	if !ok {
		return false
	}
	if isClearance(Cut(text)) {
		r.addClearance(item)
		return true
	}
	r.Items = append(r.Items, item)
	return true
}

func isClearance(pieces []Piece) bool {
	for _, p := range pieces {
		if clearanceWords[p.Word] {
			return true
		}
	}
	return false
}

func (r *Run) addClearance(item check.RunItem) {
	if !item.Plain.Known {
		return
	}
	v := item.Plain
	n := item.Count.Nominal
	v = check.Value{Low: v.Low * n, Nominal: v.Nominal * n, High: v.High * n, Known: true, Guessed: v.Guessed, Why: v.Why}
	if r.Clearance.Known {
		v = sum(r.Clearance, v)
	}
	r.Clearance = v
}

func parseItem(text string, unit length.Unit) (check.RunItem, bool) {
	item := check.RunItem{Text: text, Count: check.Exact(1)}
	pieces := Cut(text)
	if _, i := eachWords.find(pieces); i > 0 {
		item.Count = check.Exact(2)
		pieces = pieces[:i]
	}
	if n, k := leadingCount(pieces); k > 0 {
		item.Count = check.Exact(float64(n) * item.Count.Nominal)
		pieces = pieces[k:]
	} else if n, k := trailingCount(pieces); k > 0 {
		item.Count = check.Exact(float64(n) * item.Count.Nominal)
		pieces = pieces[:len(pieces)-k]
	}
	if len(pieces) == 0 {
		return item, false
	}
	numbers := lengths(pieces)
	switch len(numbers) {
	case 0:
		item.Mark = strings.Trim(text[pieces[0].From:pieces[len(pieces)-1].End()], " ()[],.")
		return item, item.Mark != "" && strings.Count(item.Mark, "(") == strings.Count(item.Mark, ")")
	case 1:
		for i, p := range pieces {
			if p.Kind == Length {
				item.Plain = measured(pieces, i, unit)
			}
		}
		return item, item.Plain.Known
	}
	return item, false
}

// leadingCount reads "2 x", "2x" and the 3 of "3 shelves": a small whole number before a
// word. A number before a unit or alone is a length.
func leadingCount(pieces []Piece) (n, used int) {
	if len(pieces) < 2 || pieces[0].Kind != Length {
		return 0, 0
	}
	if _, err := fmt.Sscanf(pieces[0].Text, "%d", &n); err != nil || fmt.Sprint(n) != pieces[0].Text || n < 1 || n > 60 {
		return 0, 0
	}
	switch next := pieces[1]; {
	case next.Is("x") || next.Is("@"):
		return n, 2
	case next.Kind == Word && !clearanceWords[next.Word] && next.Word != "in" && next.Word != "m":
		if _, each := eachWords[next.Word]; !each {
			return n, 1
		}
	}
	return 0, 0
}

// trailingCount reads the "x 2" and "(2)" behind a mark.
func trailingCount(pieces []Piece) (n, used int) {
	k := len(pieces)
	if k >= 3 && pieces[k-2].Is("x") && pieces[k-3].Kind == Word {
		used = 2
	}
	if k >= 4 && pieces[k-1].Is(")") && pieces[k-3].Is("(") {
		used, k = 3, k-1
	}
	if used == 0 {
		return 0, 0
	}
	if _, err := fmt.Sscanf(pieces[k-1].Text, "%d", &n); err != nil || fmt.Sprint(n) != pieces[k-1].Text || n < 1 || n > 60 {
		return 0, 0
	}
	return n, used
}

// fits takes what the run must fit, and a clearance named beside it: "niche less 1/4 clr".
func (r *Run) fits(text string, unit length.Unit) (rest []string) {
	pieces := Cut(text)
	for i, p := range pieces {
		if i == 0 || !(lessWords[p.Word] || p.Is(",") || p.Is("(")) {
			continue
		}
		tail := text[p.From:]
		numbers := lengths(pieces[i:])
		if len(numbers) == 1 && (lessWords[p.Word] || isClearance(pieces[i:])) {
			if item, ok := parseItem(strings.Trim(tail[len(p.Text):], " ()"), unit); ok && item.Plain.Known {
				r.addClearance(item)
				text = text[:p.From]
				break
			}
		}
		if len(numbers) > 0 {
			rest = append(rest, tail)
			text = text[:p.From]
			break
		}
	}
	r.Fits = strings.Trim(text, " ,;")
	return rest
}
