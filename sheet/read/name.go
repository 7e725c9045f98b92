package read

import (
	"regexp"
	"strings"

	"dryfit/check/length"
	"dryfit/check/standard"
)

// nameReader finds in the words of a part what other offices give a column of its own: the
// size, the material, the finish, how many. It remembers what it has seen, because offices
// type the same words on every row.
type nameReader struct {
	shop      *standard.Table
	sizes     map[string]*sizeFound
	materials map[string]string
	finishes  map[string]string
	marks     map[string]string // marks that texts refer to
	decimal   length.Mark
	wordMemory
}

type sizeFound struct {
	size length.Size
	ok   bool
}

func newNameReader(shop *standard.Table, decimal length.Mark) *nameReader {
	return &nameReader{shop: shop, decimal: decimal, sizes: map[string]*sizeFound{}, materials: map[string]string{}, finishes: map[string]string{}, marks: map[string]string{},
		wordMemory: newWordMemory(shop, decimal)}
}

// bySlashes is a size typed as 720/560/19: with two bars it is no fraction.
var bySlashes = regexp.MustCompile(`^\s*\d+(?:[.,]\d+)?\s*/\s*\d+(?:[.,]\d+)?\s*/\s*\d+(?:[.,]\d+)?\s*(?:mm|cm)?\s*$`)

// withTimes puts an x for the bars between three sizes. It keeps the number of bytes, so that
// places in the text hold.
func withTimes(text string) string {
	if !bySlashes.MatchString(text) {
		return text
	}
	return strings.ReplaceAll(text, "/", "x")
}

const remembered = 20_000 // texts

// size finds the size in a cell of words.
func (n *nameReader) size(c *Cell, unit length.Unit) (length.Size, bool) {
	if c == nil || c.Kind != Words {
		return length.Size{}, false
	}
	text := c.Text()
	if len(text) > 200 || !strings.ContainsAny(text, "0123456789½¼¾⅛⅜⅝⅞⅓⅔") {
		return length.Size{}, false
	}
	key := unit.String() + "|" + text
	if f, seen := n.sizes[key]; seen {
		return f.size, f.ok
	}
	text = withTimes(text)
	ctx := length.Context{Unit: unit, Decimal: n.decimal, What: "a size"}
	s, err := length.ParseSize(text, ctx)
	if said := saidFor(s, unit); said != length.Unsaid {
		ctx.Unit = said
		s, err = length.ParseSize(text, ctx)
	}
	f := &sizeFound{s, err == nil}
	if len(n.sizes) < remembered {
		n.sizes[key] = f
	}
	return f.size, f.ok
}

// saidFor is the unit that one number of a size says for the others: "16mm 610x930" among
// inches. It is Unsaid where that changes nothing.
func saidFor(s length.Size, unit length.Unit) length.Unit {
	said, bare := length.Unsaid, false
	for _, a := range s.Axes {
		switch {
		case !a.Said:
			bare = true
		case said != length.Unsaid && said.Metric() != a.Unit.Metric():
			return length.Unsaid
		default:
			said = a.Unit
		}
	}
	if !bare || said == length.Unsaid || unit == length.Unsaid || said.Metric() == unit.Metric() {
		return length.Unsaid
	}
	return said
}

// sameAs finds the mark that a text refers to: "same as A3".
func (n *nameReader) sameAs(text string) string {
	if m, seen := n.marks[text]; seen {
		return m
	}
	m := sameAsMark(text)
	if len(n.marks) < remembered {
		n.marks[text] = m
	}
	return m
}

// material finds the material named in the words of a part: "Back, 1/4 ply" is of 1/4 ply.
func (n *nameReader) material(text string) string {
	if n.shop == nil || text == "" {
		return ""
	}
	if m, seen := n.materials[text]; seen {
		return m
	}
	m := n.findMaterial(text)
	if len(n.materials) < remembered {
		n.materials[text] = m
	}
	return m
}

var pieceBreak = regexp.MustCompile(`[,;()\[\]–]|\s-\s|\n`)

func (n *nameReader) findMaterial(text string) string {
	for _, piece := range pieceBreak.Split(text, -1) {
		words := strings.Fields(piece)
		for size := 1; size <= min(3, len(words)); size++ {
			for from := 0; from+size <= len(words); from++ {
				if n.isMaterial(strings.Join(words[from:from+size], " ")) {
					return n.widen(words, from, from+size)
				}
			}
		}
	}
	return ""
}

// widen takes along what belongs to the material that was found: its thickness, its layers,
// its species.
func (n *nameReader) widen(words []string, from, to int) string {
	for from > 0 && n.goesWith(words[from-1]) && n.isMaterial(strings.Join(words[from-1:to], " ")) {
		from--
	}
	for to < len(words) && n.goesWith(words[to]) && n.isMaterial(strings.Join(words[from:to+1], " ")) {
		to++
	}
	return strings.Join(words[from:to], " ")
}

// goesWith reports whether a word may stand beside a material: a number, layers, or a word
// that is a material itself.
func (n *nameReader) goesWith(word string) bool {
	key := fold(word)
	if startsNumeric(word) || layerCountWords[key] {
		return true
	}
	return n.isMaterial(word)
}

var layerCountWords = set("lyr lyrs layer layers ply plies lam x")

// isMaterial asks the standards, but not for words that name a part or hold no letters.
func (n *nameReader) isMaterial(text string) bool {
	if longestWord(text) < 2 || roleOf(text, nil) != "" && !strings.Contains(fold(text), "ply") {
		return false
	}
	words := strings.Fields(fold(text))
	first, last := words[0], words[len(words)-1]
	if notMaterial[first] || notMaterial[last] {
		return false
	}
	_, ok, _ := n.shop.Material(text)
	return ok
}

var notMaterial = set("x site cut painted paint clear rip to fit of the and w with fin end")

var finishCue = set(`painted paint ptd primed prime clear lacquer lacquered varnish varnished oiled oil prefinished pf unfinished stain stained gloss satin
	lackiert lasiert geolt grundiert peint laque vernis pintado lacado barnizado verniciato laccato malowany lakierowany gelakt geschilderd malad lackerad`)

// finish finds the finish named in the words of a part: "Top & bottom, painted".
func (n *nameReader) finish(text string) string {
	if f, seen := n.finishes[text]; seen {
		return f
	}
	f := n.findFinish(text)
	if len(n.finishes) < remembered {
		n.finishes[text] = f
	}
	return f
}

func (n *nameReader) findFinish(text string) string {
	for _, w := range strings.Fields(text) {
		bare := strings.Trim(w, ",.;:()[]")
		if !finishCue[fold(bare)] {
			continue
		}
		if _, ok, _ := n.shop.Finish(bare); ok {
			return bare
		}
	}
	return ""
}

var (
	countBefore = regexp.MustCompile(`^\s*(?:[(\[]\s*(\d{1,3})\s*[)\]]|(\d{1,3})\s*(?:x|×|ea\.?|pcs\.?|no\.?|off|stk\.?|szt\.?)\s+|(\d{1,3})\s*-\s+)`)
	countBehind = regexp.MustCompile(`(?i)(?:[(\[]\s*(?:x|×|qty:?)?\s*(\d{1,3})\s*(?:x|×|ea\.?|pcs\.?|off|req'?d|no\.?|pieces|stk\.?|szt\.?|st\.?)?\s*[)\]]|\b(?:x|×|qty:?)\s*(\d{1,3})|(?:[-–,]\s*)?\b(\d{1,3})\s*(?:ea\.?|pcs\.?|off|req'?d|thus|pieces|stk\.?|szt\.?|stuks))\s*$`)
)

// count finds how many in the words of a part: "(4) Shelf", "Divider, 2 pcs". Behind the
// words the text without the size must be given, or "x 12" of a size would count.
func (n *nameReader) count(text, rest string) (int, bool) {
	m := countBefore.FindStringSubmatch(text)
	if m == nil {
		m = countBehind.FindStringSubmatch(rest)
	}
	if m == nil {
		return 0, false
	}
	digits := strings.Join(m[1:], "")
	k, ok := small([]byte(digits))
	return k, ok && k > 0
}
