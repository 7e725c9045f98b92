package read

import (
	"regexp"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

// heading is what one header cell says.
type heading struct {
	text   string
	fields []Field        // the likelier first; none if the word is not known
	sure   float64        // 1 for a known word, less for a near or partly known one
	kind   check.SizeKind // finished or cut, where the word says so
	unit   length.Unit    // where the word says so
	axes   string         // of a size: the letters in order, such as WDT
	edge   string         // of one edge among several columns: L1, front, ...
	group  bool           // the word stands over other header words: "Finished", "Cut size"
	pair   bool           // the cells hold a count before the size: "qty / size"
}

func (h heading) known() bool { return len(h.fields) > 0 }

func (h heading) has(f Field) bool {
	for _, g := range h.fields {
		if g == f {
			return true
		}
	}
	return false
}

// sized reports whether the cells below hold one size of a part.
func (h heading) sized() bool {
	for _, f := range []Field{fLength, fWidth, fThick, fHeight, fDepth, fSize} {
		if h.has(f) {
			return true
		}
	}
	return false
}

// headers reads header cells; it remembers texts it has seen.
type headers struct {
	shop *standard.Table
	seen map[string]heading
}

func newHeaders(shop *standard.Table) *headers {
	return &headers{shop: shop, seen: map[string]heading{}}
}

const maxHeader = 60 // letters of a header cell; longer ones are notes

// read says what a header cell means. Misspelt words are tried only when near is true.
func (hs *headers) read(text string, near bool) heading {
	if len(text) > maxHeader || text == "" {
		return heading{text: text}
	}
	key := text
	if near {
		key = "~" + text
	}
	if h, ok := hs.seen[key]; ok {
		return h
	}
	h := hs.work(text, near)
	h.text = text
	if len(hs.seen) < 5000 {
		hs.seen[key] = h
	}
	return h
}

var (
	bracketed = regexp.MustCompile(`[(\[{]([^)\]}]*)[)\]}]?`)
	axesForm  = regexp.MustCompile(`^[\s(\[]*([LWHDTBESlwhdtbesPpGgÉéAa])\s*[x×X*/]\s*([LWHDTBESlwhdtbesPpGgÉéAa])(?:\s*[x×X*/]\s*([LWHDTBESlwhdtbesPpGgÉéAa]))?[\s)\]]*$`)
)

func (hs *headers) work(text string, near bool) heading {
	if hs.shop != nil {
		if means, ok := hs.shop.Word("header", text); ok {
			if f := fieldNamed(means); f != fUnknown {
				return heading{fields: []Field{f}, sure: 1, unit: length.UnitIn(text)}
			}
		}
	}
	h := heading{unit: length.UnitIn(text)}
	main := text
	if in := bracketed.FindStringSubmatch(text); in != nil {
		if axes := axesOf(in[1]); axes != "" {
			h.axes = axes
		} else if u := length.UnitIn(in[1]); u != length.Unsaid {
			h.unit = u
		}
		if outside := strings.TrimSpace(bracketed.ReplaceAllString(text, " ")); outside != "" && fold(outside) != "" {
			main = outside
			if h.axes == "" {
				h.kind = sizeKindOf(in[1])
			}
		}
	}
	if axes := axesOf(main); axes != "" {
		h.axes, h.fields, h.sure = axes, []Field{fSize}, 1
		return h
	}
	hs.words(&h, main, near)
	if h.axes != "" && !h.has(fSize) {
		if h.has(fName) { // "Part (W x D x T)": the size stands in the name
			h.fields = []Field{fName}
		} else {
			h.fields, h.sure = []Field{fSize}, 1
		}
	}
	return h
}

// words finds the field of a header text without its brackets.
func (hs *headers) words(h *heading, main string, near bool) {
	if fs := partLexicon.exact(main); fs != nil {
		h.fields, h.sure = fs, 1
		h.group = h.has(fSize) || groupWords[fold(main)]
		return
	}
	if edge := edgeHeader(main); edge != "" {
		h.fields, h.edge, h.sure = []Field{fEdge}, edge, 1
		return
	}
	if word := fold(main); !strings.Contains(word, " ") {
		if kind := sizeKindOf(word); kind != "" { // "Corte" over length and width
			h.kind, h.group = kind, true
			return
		}
	}
	bare, kind := stripWords(main)
	if kind != "" {
		h.kind = kind
	}
	if bare == "" {
		h.group = h.kind != ""
		return
	}
	if fs := partLexicon.exact(bare); fs != nil {
		h.fields, h.sure = fs, 1
		h.group = h.has(fSize)
		return
	}
	if axes := axesOf(bare); axes != "" {
		h.axes, h.fields, h.sure = axes, []Field{fSize}, 1
		return
	}
	if hs.either(h, main) || hs.partly(h, bare) {
		return
	}
	if near {
		if fs := partLexicon.near(bare); fs != nil {
			h.fields, h.sure = fs, .7
			h.group = h.has(fSize)
		}
	}
}

// either reads "Desc / Role" and "Mat'l & finish": the first word that is known counts, and a
// count before a size is noted.
func (hs *headers) either(h *heading, main string) bool {
	parts := strings.FieldsFunc(main, func(r rune) bool { return strings.ContainsRune("/&,+;|\n", r) })
	if len(parts) < 2 {
		return false
	}
	var found []Field
	for _, p := range parts {
		bare, kind := stripWords(p)
		fs := partLexicon.exact(bare)
		if fs == nil {
			continue
		}
		if kind != "" && h.kind == "" {
			h.kind = kind
		}
		found = append(found, fs[0])
	}
	if len(found) == 0 {
		return false
	}
	if len(found) > 1 && found[len(found)-1] == fSize {
		if found[0] == fQty {
			h.pair = true
			h.fields, h.sure = []Field{fSize}, .9
			return true
		}
	}
	h.fields, h.sure = found, .8
	return true
}

// partly reads "Board material" by its last word and "Longueur du panneau" by its first.
func (hs *headers) partly(h *heading, bare string) bool {
	words := strings.Fields(bare)
	if len(words) < 2 || len(words) > 6 {
		return false
	}
	if caseWords[words[0]] && len(words) == 2 && len(words[1]) <= 2 {
		return false // "Case A" names a case, it heads no column of cases
	}
	order := []int{len(words) - 1, 0}
	if generic[words[len(words)-1]] {
		order = []int{0, len(words) - 1}
	}
	for _, i := range order {
		if len(words[i]) < 3 {
			continue
		}
		if fs := partLexicon.fields[words[i]]; fs != nil && !(fs[0] == fUnused && i == 0) {
			h.fields = append(h.fields, fs...)
		}
	}
	h.sure = .6
	return len(h.fields) > 0
}

// generic words say little of what a column holds: of "Board code" the first word counts.
var generic = set(`code codes type name description nr no num number id ref info spec kind`)

var groupWords = set(`size sizes edges edge banding dimensions dims quantity qty kanten masse abmessungen chants cotes
	cantos medidas bordi misure wymiary obrzeza maten kanter matt finished cut edge banding`)

var (
	finishedWords = set(`fin finished net netto fertig fertigmass fertigmasse fini finie finis finies finito finita finiti
		finite terminado terminada terminados acabado acabada final finale gotowe gotowy gotowa gotowo na gereed afgewerkt
		fardig fardigt fardiga fs oa overall actual nett neto neta finales fertigmaß`)
	cutWords = set(`cut rough blank saw sawn gross raw zuschnitt zuschnitts zuschnittmass zuschnittmasse roh rohmass
		rohmasse brutto debit coupe brut brute bruts corte bruto bruta taglio grezzo grezza grezzi ciecie ciecia ciety
		rozkroj surowy surowe zaag zaagmaat kap kapmatt ramatt rs unedged brutt sag sagmatt blanks cutting`)
	fillers = set(`the of for in mm cm m ft inch inches ins foot feet zoll po pouces pulgadas pollici cale mtr dm
		millimeter millimetre millimetres millimeters millimetri milimetros millimetres cal duim tum each
		approx total part parts each nom nominal req reqd required du de la le des der die das en van`)
	compounds = []struct {
		prefix string
		kind   check.SizeKind
	}{
		{"fertig", check.FinishedSize}, {"netto", check.FinishedSize}, {"fardig", check.FinishedSize},
		{"zuschnitts", check.CutSize}, {"zuschnitt", check.CutSize}, {"roh", check.CutSize},
		{"brutto", check.CutSize}, {"zaag", check.CutSize}, {"kap", check.CutSize}, {"bruto", check.CutSize},
	}
)

// stripWords takes units, fillers and the words for finished and cut off a header.
func stripWords(text string) (bare string, kind check.SizeKind) {
	words := strings.Fields(fold(strings.ReplaceAll(text, `"`, " ")))
	var kept []string
	for _, w := range words {
		switch {
		case finishedWords[w] && len(words) > 1 || w == "finished" || w == "net" || w == "netto" || w == "fertigmass":
			kind = check.FinishedSize
		case cutWords[w] && len(words) > 1 || w == "cut" || w == "rough" || w == "zuschnitt" || w == "brutto":
			kind = check.CutSize
		case fillers[w] && len(words) > 1:
		default:
			kept = append(kept, w)
		}
	}
	if len(kept) == 1 && kind == "" {
		for _, c := range compounds {
			rest, ok := strings.CutPrefix(kept[0], c.prefix)
			if ok && len(rest) > 3 && partLexicon.fields[rest] != nil {
				return rest, c.kind
			}
		}
	}
	return strings.Join(kept, " "), kind
}

// sizeKindOf finds the words for finished or cut in a title or group text.
func sizeKindOf(text string) check.SizeKind {
	kind := check.SizeKind("")
	for _, w := range strings.Fields(fold(text)) {
		switch {
		case finishedWords[w] && w != "fin" && w != "na" && w != "final" && w != "actual":
			if kind == check.CutSize {
				return ""
			}
			kind = check.FinishedSize
		case cutWords[w] && w != "sag":
			if kind == check.FinishedSize {
				return ""
			}
			kind = check.CutSize
		}
	}
	return kind
}

// axesOf reads "W x D x T" into WDT; empty for anything else. B is a width; with it D means
// thickness (Dicke, dikte) when it stands last; of "L x l x e" the small l is the width.
func axesOf(text string) string {
	m := axesForm.FindStringSubmatch(text)
	if m == nil {
		return ""
	}
	french := strings.Contains(strings.Join(m[1:], ""), "l") && strings.Contains(strings.Join(m[1:], ""), "L")
	var b strings.Builder
	hasWidth := false
	for _, l := range m[1:] {
		switch {
		case l == "":
		case french && l == "l", l == "B" || l == "b", l == "A" || l == "a":
			b.WriteByte('W')
			hasWidth = true
		case strings.ContainsAny(l, "eEéÉsSgG"):
			b.WriteByte('T')
		case strings.ContainsAny(l, "pP"):
			b.WriteByte('D')
		default:
			b.WriteString(strings.ToUpper(l))
		}
	}
	axes := b.String()
	if hasWidth && strings.HasSuffix(axes, "D") && strings.HasPrefix(axes, "L") {
		axes = axes[:len(axes)-1] + "T"
	}
	if hasWidth && !strings.Contains(axes, "L") {
		switch { // Höhe, Breite, Tiefe: T is a depth, and D beside it the Dicke
		case strings.Contains(axes, "T") && strings.Contains(axes, "D"):
			axes = strings.NewReplacer("T", "D", "D", "T").Replace(axes)
		case strings.Contains(axes, "H") && strings.Contains(axes, "T"):
			axes = strings.Replace(axes, "T", "D", 1)
		}
	}
	return axes
}

var edgeNames = map[string]string{
	"f": "front", "front": "front", "fr": "front", "vorn": "front", "vorne": "front", "avant": "front", "frente": "front",
	"davanti": "front", "przod": "front", "voor": "front", "fram": "front", "anteriore": "front", "frontal": "front",
	"b": "back", "back": "back", "bk": "back", "rear": "back", "hinten": "back", "arriere": "back", "atras": "back",
	"dietro": "back", "tyl": "back", "achter": "back", "bak": "back",
	"l": "left", "left": "left", "links": "left", "gauche": "left", "izq": "left", "izquierda": "left", "sinistra": "left",
	"lewa": "left", "lewy": "left", "sx": "left", "vanster": "left",
	"r": "right", "right": "right", "rechts": "right", "droite": "right", "der": "right", "derecha": "right",
	"destra": "right", "prawa": "right", "prawy": "right", "dx": "right", "hoger": "right",
	"t": "top", "top": "top", "oben": "top", "haut": "top", "arriba": "top", "sopra": "top", "gora": "top", "boven": "top",
	"bot": "bottom", "btm": "bottom", "bottom": "bottom", "unten": "bottom", "bas": "bottom", "abajo": "bottom",
	"sotto": "bottom", "dol": "bottom", "onder": "bottom", "nere": "bottom",
	"l1": "L1", "l2": "L2", "w1": "W1", "w2": "W2", "s1": "W1", "s2": "W2", "b1": "W1", "b2": "W2", "k1": "K1", "k2": "K2",
	"k3": "K3", "k4": "K4", "e1": "E1", "e2": "E2", "e3": "E3", "e4": "E4", "1": "E1", "2": "E2", "3": "E3", "4": "E4",
	"h1": "L1", "h2": "L2", "long": "L", "short": "W", "d1": "L1", "d2": "L2", "a1": "W1", "a2": "W2",
	"long 1": "L1", "long 2": "L2", "short 1": "W1", "short 2": "W2", "length 1": "L1", "length 2": "L2",
	"width 1": "W1", "width 2": "W2", "lange 1": "L1", "lange 2": "L2", "breite 1": "W1", "breite 2": "W2",
}

var edgeWords = set(`e eb edge band edgeband banding tape kante kanten chant canto bordo obrzeze kant kantlist edges lip edging`)

// edgeHeader reads the header of one edge: "E-L1", "Edge front", "Kante vorne".
func edgeHeader(text string) string {
	words := strings.Fields(fold(text))
	if len(words) < 2 {
		return ""
	}
	if edgeWords[words[0]] {
		return edgeNames[strings.Join(words[1:], " ")]
	}
	if edgeWords[words[len(words)-1]] && words[len(words)-1] != "e" {
		return edgeNames[strings.Join(words[:len(words)-1], " ")]
	}
	return ""
}

func set(words string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}

// fieldNamed finds the field that a shop's standing word for a header names.
func fieldNamed(name string) Field {
	for _, f := range partWords {
		if string(f.field) == fold(name) {
			return f.field
		}
	}
	if fs := partLexicon.exact(name); fs != nil {
		return fs[0]
	}
	return fUnknown
}
