package standard

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Finish is what a finish on a schedule does to the size of a part.
type Finish struct {
	Name   string // "paint", "clear", "prime", "none", ..., or the shop's code "P1"
	Kind   string // paint, clear, prime, oil, laminate, prefinished, none
	Film   Entry  // dry build on one coated face, in mil
	Coats  Entry  // coats in all
	Cheeks Entry  // share of the face's build that lands on the cheek of a slot: 0 when masked
	Faces  Entry  // coated faces of a part that goes into a slot: 2, 1 or 0
	Masked bool   // the text says that the slot cheeks are masked
	Open   bool   // the text says that they are not
	From   string // where the reading comes from: "built in", "shop standards, finishes!A5"
}

// Finish reads the finish of a part as typed, in the shop's own words first: "P1",
// "paint", "ptd", "clear", "CL", "PF", "none", "prime", "primer 2 + top 2, slots masked".
// Counted coats are added up from the film of one coat, less what is sanded off between
// them. ok is false for an unknown finish and for an empty text; nearest then holds known
// names spelled almost like it.
func (t *Table) Finish(text string) (f Finish, ok bool, nearest []string) {
	f.Name, f.From = strings.TrimSpace(text), "built in"
	said := strings.ToLower(text)
	if w, own := t.spoken["finish "+fold(text)]; own {
		said, f.From = strings.ToLower(w.Means), w.From
	}
	lex := lexicons()["finish"]
	n := lex.finish(said)
	code, own := t.ownFinish(text)
	switch {
	case own && n == nil:
		f.Kind = "paint"
	case n == nil:
		return Finish{}, false, lex.nearest(words(said), t.kept("finish"))
	default:
		f.Kind = n.item
	}
	if f.Name == "" {
		return Finish{}, false, nil
	}
	t.fill(&f, f.Kind)
	if f.Kind == "paint" || f.Kind == "clear" || f.Kind == "prime" {
		t.count(&f, said)
	}
	f.mask(said)
	if own {
		t.fill(&f, code)
		f.From = f.Film.From
	}
	return f, true, nil
}

// paintCode is a finish code that says paint and no more, until the shop says which coats.
var paintCode = regexp.MustCompile(`^pa?i?n?t?[ -]?\d{1,2}[a-z]?$`)

func (x *lexicon) finish(said string) *name {
	if said != "" && strings.Trim(said, "-–— ") == "" {
		return x.items["none"]
	}
	uncounted := slices.DeleteFunc(words(said), func(w string) bool { return len(w) == 1 && '0' <= w[0] && w[0] <= '9' })
	if n := x.whole[strings.Join(uncounted, " ")]; n != nil {
		return n
	}
	if paintCode.MatchString(strings.TrimSpace(said)) {
		return x.items["paint"]
	}
	if n := x.find(words(said), anyName); n != nil {
		if n.item == "prime" && topCoats.MatchString(said) && !primedOnly.MatchString(said) {
			return x.items["paint"]
		}
		return n
	}
	if topCoats.MatchString(said) {
		return x.items["paint"]
	}
	return nil
}

// ownFinish finds a finish that the shop added to the list under a code of its own.
func (t *Table) ownFinish(text string) (string, bool) {
	item, ok := t.item("finish", text)
	return item, ok && lexicons()["finish"].items[item] == nil
}

// fill takes the values kept under an item, where there are any.
func (t *Table) fill(f *Finish, item string) {
	for property, to := range map[string]*Entry{
		"film": &f.Film, "coats": &f.Coats, "cheek share": &f.Cheeks, "faces": &f.Faces,
	} {
		if e, ok := t.Find("finish", item, property); ok {
			*to = e
		}
	}
}

var (
	primedOnly = regexp.MustCompile(`\bprim(ed|er|e)\s+only\b`)
	topCoats   = regexp.MustCompile(`\b(top|tops|topcoats?|top\s?coats?|finish coats?|color coats?|colour coats?|decklack)\b`)
	coatWord   = `(primers?|prime|undercoats?|sealers?|grundierung|top\s?coats?|topcoats?|tops?|finish coats?|coats?|clear|lacquer|enamel|cv|varnish|paint)`
	wordCount  = regexp.MustCompile(`\b` + coatWord + `\s*[x*]?\s*(\d)\b`)
	countWord  = regexp.MustCompile(`\b(\d)\s*[x*]?\s*(?:coats?\s+(?:of\s+)?)?` + coatWord + `\b`)
	notMasked  = regexp.MustCompile(`\b(not|no|un)[ -]?mask`)
	masked     = regexp.MustCompile(`\bmask|slots? (bare|raw|unpainted|unfinished)|abgeklebt|masqu`)
	oneFace    = regexp.MustCompile(`\b(one|1|single|exposed|front|show|good) (face|side)s?( only)?\b`)
	noFace     = regexp.MustCompile(`\b(edges?|front edge) only\b`)
)

// count works the film out of the coats the text counts, if it counts any.
func (t *Table) count(f *Finish, said string) {
	coats, matches := map[string]float64{}, [][2]string{}
	counted := countWord.FindAllStringSubmatch(said, -1)
	if typed := wordCount.FindAllStringSubmatch(said, -1); len(typed) >= len(counted) {
		for _, m := range typed {
			matches = append(matches, [2]string{m[1], m[2]})
		}
	} else {
		for _, m := range counted {
			matches = append(matches, [2]string{m[2], m[1]})
		}
	}
	total := 0.0
	for _, m := range matches {
		n, _ := strconv.ParseFloat(m[1], 64)
		coats[filmOf(m[0], f.Kind)] += n
		total += n
	}
	if total == 0 {
		return
	}
	sanded, _ := t.Find("film", "sanding between coats", "removed per coat")
	between := total - 1
	film := Entry{Group: "finish", Item: f.Name, Property: "film", Unit: "mil",
		Low: -between * sanded.High, Nominal: -between * sanded.Nominal, High: -between * sanded.Low,
		Source: "coats as said, less sanding between them, from the film rows", Known: sanded.Known, From: f.From}
	for item, n := range coats {
		one, ok := t.Find("film", item, "dry per coat")
		if !ok {
			return
		}
		film.Low, film.Nominal, film.High = film.Low+n*one.Low, film.Nominal+n*one.Nominal, film.High+n*one.High
	}
	film.Low = max(0, film.Low)
	f.Film = film
	f.Coats = Entry{Group: "finish", Item: f.Name, Property: "coats", Unit: "1", Low: total, Nominal: total, High: total,
		Source: "as said", Known: KnownShop, From: f.From}
}

// filmOf names the film rows that a kind of coat is counted from.
func filmOf(coat, kind string) string {
	switch {
	case strings.HasPrefix(coat, "prim"), strings.HasPrefix(coat, "under"), strings.HasPrefix(coat, "grund"):
		return "primer"
	case coat == "cv":
		return "conversion varnish"
	case kind == "clear":
		return "clear"
	case kind == "prime":
		return "primer"
	}
	return "enamel"
}

// mask reads what the text says of slot cheeks and faces.
func (f *Finish) mask(said string) {
	exact := func(e Entry, x float64) Entry {
		e.Low, e.Nominal, e.High, e.From = x, x, x, f.From
		e.Source, e.Known = "as said", KnownShop
		return e
	}
	switch {
	case notMasked.MatchString(said):
		f.Open = true
	case masked.MatchString(said):
		f.Masked = true
		f.Cheeks = exact(f.Cheeks, 0)
	}
	switch {
	case noFace.MatchString(said):
		f.Faces = exact(f.Faces, 0)
	case oneFace.MatchString(said):
		f.Faces = exact(f.Faces, 1)
	}
}
