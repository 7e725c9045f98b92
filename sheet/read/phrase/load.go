package phrase

import (
	"regexp"
	"strconv"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

// Load is one load as typed: what lies where, and how much of it in the unit it was typed in.
type Load struct {
	On     string // case or part; empty for the whole job
	Kind   string // a kind of load of the standards: books, linen, ...; empty if only a number is given
	Amount check.Value
	Unit   string // of the amount, one of standard.Units; empty for persons
	Per    check.LoadPer
}

// In gives the amount in the units of a job: lb per inch or N per mm of shelf, psi or MPa,
// lb or N. Persons stay a number. One pound or kilogram presses with its own weight under
// standard gravity.
func (l Load) In(system length.Unit) (check.Value, error) {
	to := map[check.LoadPer]check.Unit{
		check.PerLength: check.LineLoad, check.PerArea: check.Pressure, check.InAll: check.Force,
	}[l.Per]
	if to == "" {
		return l.Amount, nil
	}
	e, err := standard.Entry{Item: "load", Property: "amount", Nominal: 1, Unit: l.Unit}.In(to.In(system))
	if err != nil {
		return check.Value{}, err
	}
	return l.Amount.Scale(e.Nominal), nil
}

// loadKinds are the words for what lies on a shelf.
var loadKinds = terms(map[string]string{
	"books": `books, book, cookbooks, cook books, picture books, law books, bookshelves, bokhylla, boekenkast, library, bookcase, bookshelf, reference books, bucher, buch, bibliothek, bucherregal, livres, livre, bibliotheque, libros, libro, biblioteca,
		libri, libreria, ksiazki, ksiazka, biblioteka, boeken, boek, bibliotheek, bocker, bok, bibliotek`,
	"paper":     `paper, office, documents, mappen, files, file, binders, binder, archive, magazines, akten, ordner, aktenordner, papier, dossiers, classeurs, archivo, carpetas, archivio, faldoni, akta, segregatory, ordners, archief, parmar, arkiv`,
	"records":   `records, record, vinyl, lp, lps, albums, schallplatten, platten, vinyles, disques, discos, vinilos, vinili, dischi, plyty, winyle, lp's, platen, skivor`,
	"dishes":    `dishes, dish, hutch, china, plates, glasses, glassware, crockery, geschirr, teller, glaser, vaisselle, vajilla, platos, stoviglie, piatti, naczynia, talerze, servies, borden, porslin, tallrikar`,
	"pantry":    `pantry, cans, canned goods, food, groceries, larder, vorrate, speisekammer, garde-manger, conserves, despensa, conservas, dispensa, spizarnia, voorraad, voorraadkast, skafferi`,
	"wine":      `wine, bottles, wine rack, wein, flaschen, bouteilles, vino, botellas, bottiglie, wino, butelki, wijn, flessen, flaskor`,
	"clothes":   `clothes, hanging clothes, clothes on rod, coats, coat, garments, garderobe, mantel, penderie, manteaux, abrigos, cappotti, plaszcze, jassen, rockar`,
	"shoes":     `shoes, boots, shoe, schuhe, chaussures, zapatos, scarpe, buty, schoenen, skor`,
	"toys":      `toys, games, toy, spielzeug, jouets, juguetes, giocattoli, zabawki, speelgoed, leksaker`,
	"equipment": `equipment, materiel, telewizor, sprzet, apparatuur, utrustning, av, media, tv, television, stereo, electronics, printer, gerate, fernseher, televiseur, equipo, televisor, apparecchi, televisore`,
	"general":   `general, utility, lager, deposito, schowek, ogolne, opslag, berging, forvaring, diverse, storage, misc, miscellaneous, household, allgemein, stauraum, rangement, divers, almacenaje, varios, ripostiglio, algemeen`,
	"display": `display, decor, deco, decorazione, decorative, pictures, photos, ornaments, knick-knacks, deko, dekoration, vitrine, decoration, decoratif, exposicion, exposition, adornos, decoracion, ausstellung, vases, knick knacks, plants, prydnad, prydnader,
		esposizione, soprammobili, ozdoby, dekoracje, ekspozycja, decoratie, sier, pynt, dekor`,
	"linen": `linen, linens, handtucher, draps, serviettes, toallas, handdoeken, handdukar, linnengoed, garderob, folded clothes, clothing, wardrobe, towels, bedding, sweaters, wasche, kleidung, kleider, textilien, linge, vetements, ropa, ropa blanca, biancheria,
		vestiti, posciel, ubrania, bielizna, linnen, kleding, wasgoed, linne, klader, tvatt`,
	"seat": `seat, bench, window seat, seating, sit, sitz, sitzbank, bank, siege, banc, banquette, assise, asiento, banco, seduta, panca, siedzisko, lawka,
		zitting, zitbank, bankje, sits, sittbank`,
	"none": `none, inget, ingenting, niets, nada, niente, nic, nichts, puste, no load, empty, nothing, dust, unloaded, leer, ohne, keine, vide, aucune, rien, vacio, ninguna, sin carga, vuoto, nessuno, pusty, brak, leeg, geen, tom, ingen`,
})

// amount matches a number or range with a unit of load.
var amount = regexp.MustCompile(`(?i)(~?\d+(?:[.,]\d+)?)(?:\s*(?:-|–|to|bis)\s*(\d+(?:[.,]\d+)?))?\s*` +
	`(lbs?\b\.?|pounds?|#|kgs?\b|kilos?|kilogramm|kn\b|n\b|newtons?|psf|plf|psi|kpa|pa\b|` +
	`persons?|people|adults?|men|personen|person|personnes?|personas?|persone|osoby|osob|osoba|os[oó]b|mensen|personer|erwachsene)` +
	`(?:\s*(?:/|\bper\b|\bje\b|\bpro\b|\bpar\b|\bpor\b|\bal\b|\bna\b|\ba\b|\bthe\b)\s*` +
	`(?:lin\.?|lineal|linear|run\.?|running|lfd\.?|laufende[rnm]?|m[eè]tre lin[eé]aire|metro)?\s*` +
	`(sq\.?\s*ft|sq\.?\s*foot|square foot|square feet|sf\b|ft2|ft²|sq\.?\s*m|m2|m²|qm|mq|in2|mm2|mm²|ft\b|foot|feet|lf\b|in\b|inch|mm\b|m\b|lfm\b|ml\b|meter|metre|m[eè]tre|metro|metr)?)?`)

// perUnits maps the unit below the stroke to what it counts by.
var perUnits = map[string]string{
	"sqft": "ft2", "sqfoot": "ft2", "squarefoot": "ft2", "squarefeet": "ft2", "sf": "ft2", "ft2": "ft2", "sqm": "m2", "m2": "m2", "qm": "m2", "mq": "m2",
	"in2": "in2", "mm2": "mm2", "ft": "ft", "foot": "ft", "feet": "ft", "lf": "ft", "in": "in", "inch": "in", "mm": "mm",
	"m": "m", "lfm": "m", "ml": "m", "meter": "m", "metre": "m", "metro": "m", "metr": "m",
}

// loadUnits maps a force and what stands below the stroke to a unit of the standards and
// how many of it one is.
var loadUnits = map[string]struct {
	unit  string
	times float64
	per   check.LoadPer
}{
	"lb": {"lb", 1, check.InAll}, "kg": {"kg", 1, check.InAll}, "n": {"N", 1, check.InAll}, "kn": {"kN", 1, check.InAll},
	"lb/ft": {"lb/ft", 1, check.PerLength}, "lb/in": {"lb/in", 1, check.PerLength}, "plf": {"lb/ft", 1, check.PerLength},
	"kg/m": {"kg/m", 1, check.PerLength}, "n/m": {"N/m", 1, check.PerLength}, "n/mm": {"N/mm", 1, check.PerLength}, "kn/m": {"N/mm", 1, check.PerLength},
	"lb/ft2": {"psf", 1, check.PerArea}, "psf": {"psf", 1, check.PerArea}, "psi": {"psi", 1, check.PerArea}, "lb/in2": {"psi", 1, check.PerArea},
	"kg/m2": {"kg/m2", 1, check.PerArea}, "n/m2": {"kPa", 1e-3, check.PerArea}, "pa": {"kPa", 1e-3, check.PerArea},
	"kn/m2": {"kPa", 1, check.PerArea}, "kpa": {"kPa", 1, check.PerArea}, "n/mm2": {"N/mm2", 1, check.PerArea},
	"kg/ft": {"kg", 1, ""}, "kg/ft2": {"kg", 1, ""}, "lb/m": {"lb", 1, ""}, "lb/m2": {"lb", 1, ""}, // mixed systems: refused
}

// Loads reads a line such as "A books; B seat 2 persons; W linen" or one cell of a loads
// tab, "25 lb/ft". unit is that of a bare number, from a header such as "Load (lb/ft)";
// empty if it says none. What says no load comes back in rest.
func Loads(text, unit string) (loads []Load, rest []string) {
	for _, part := range loadParts(text) {
		if l, ok := oneLoad(part, unit); ok {
			loads = append(loads, l)
		} else {
			rest = append(rest, part)
		}
	}
	return loads, rest
}

// loneName reports one word that is no load: in "A, B books" the first of two names.
func loneName(text string) bool {
	_, ok := oneLoad(text, "")
	last := text[strings.LastIndex(text, ",")+1:]
	return !ok && len(strings.Fields(last)) == 1
}

// loadParts parts a line at semicolons, bars and line breaks, and at the commas behind which
// a new load begins with a name of its own.
func loadParts(text string) []string {
	var parts []string
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '|' || r == '\n' }) {
		first := true
		for _, piece := range strings.Split(part, ", ") {
			l, ok := oneLoad(piece, "")
			if !first && (!ok || l.On == "" || loneName(parts[len(parts)-1])) {
				parts[len(parts)-1] += ", " + piece
				continue
			}
			parts = append(parts, piece)
			first = false
		}
	}
	kept := parts[:0]
	for _, p := range parts {
		if p = strings.TrimSpace(p); p != "" {
			kept = append(kept, p)
		}
	}
	return kept
}

func oneLoad(text, unit string) (Load, bool) {
	l := Load{}
	rest := text
	if m := amount.FindStringSubmatchIndex(text); m != nil && l.amount(text, m) {
		rest = text[:m[0]] + " ; " + text[m[1]:]
	} else if n, err := number(strings.TrimSpace(text)); err == nil && unit != "" {
		if u, ok := loadUnits[UnitOfLoad(unit)]; ok && u.per != "" {
			l.Amount, l.Unit, l.Per = check.Exact(n*u.times), u.unit, u.per
			return l, true
		}
	}
	pieces := Cut(rest)
	kind, at := loadKinds.find(pieces)
	if at >= 0 {
		l.Kind = kind
	}
	if l.Per == "" {
		l.Per = check.ByKind
	}
	l.On = name(rest, pieces)
	return l, l.Kind != "" || l.Amount.Known
}

// name takes the words before the first kind or amount: the case or part the load is on.
func name(text string, pieces []Piece) string {
	for i, p := range pieces {
		_, n := loadKinds.at(pieces, i)
		if i == 0 && n > 0 && len(pieces) > 1 { // "books on A", "seat B"
			return behind(text, pieces[n:])
		}
		if n > 0 || p.Is(";") || p.Is(":") || p.Is("=") || p.Is("-") && i > 0 && !spans(pieces[i+1:]) {
			return strings.TrimSpace(text[:p.From])
		}
	}
	return ""
}

// spans reports whether a dash stands between the first and the last of a row of marks: S1 - S4.
func spans(behind []Piece) bool {
	return len(behind) > 0 && strings.ContainsAny(behind[0].Text, "0123456789")
}

// behind takes the name behind "on" or "for": books on A, Bücher auf B.
func behind(text string, pieces []Piece) string {
	for i, p := range pieces {
		if onWords[p.Word] && i+1 < len(pieces) {
			end := len(text)
			for _, q := range pieces[i+1:] {
				if q.Is(";") || q.Is(",") {
					end = q.From
					break
				}
			}
			return strings.TrimSpace(text[pieces[i+1].From:end])
		}
	}
	return ""
}

var onWords = set("on, for, in, at, auf, fur, sur, pour, dans, en, sobre, para, su, per, na, dla, op, voor, pa, for, i")

// amount reads the number and unit that the expression found; false if the two make no load.
func (l *Load) amount(text string, m []int) bool {
	group := func(i int) string {
		if m[2*i] < 0 {
			return ""
		}
		return strings.TrimSpace(text[m[2*i]:m[2*i+1]])
	}
	if m[0] > 0 && !strings.ContainsRune(" \t:=,;(", rune(text[m[0]-1])) { // B2 lb: a mark
		return false
	}
	low, err := number(strings.TrimSpace(strings.TrimPrefix(group(1), "~")))
	high := low
	if group(2) != "" {
		high, err = number(group(2))
	}
	if err != nil || high < low {
		return false
	}
	v := check.Between(low, (low+high)/2, high)
	force := forceOf(group(3))
	if force == "" {
		l.Amount, l.Per = v, check.Persons
		return true
	}
	if below := strings.ReplaceAll(strings.ReplaceAll(Fold(group(4)), " ", ""), "²", "2"); below != "" {
		force += "/" + perUnits[below]
	}
	u, ok := loadUnits[force]
	if !ok || u.per == "" {
		return false
	}
	l.Amount, l.Unit, l.Per = v.Scale(u.times), u.unit, u.per
	return true
}

// forceOf is the short form of a unit of weight or force, empty for persons.
func forceOf(word string) string {
	switch w := Fold(word); w {
	case "lb", "lbs", "pound", "pounds", "#":
		return "lb"
	case "kg", "kgs", "kilo", "kilos", "kilogramm":
		return "kg"
	case "n", "newton", "newtons":
		return "n"
	case "kn", "psf", "plf", "psi", "kpa", "pa":
		return w
	}
	return ""
}

// UnitOfLoad finds the unit of load that a header names: "Load (lb/ft)", "kg/m²". Empty if
// it names none.
func UnitOfLoad(header string) string {
	m := amount.FindStringSubmatch("1 " + strings.TrimSpace(inBrackets(header)))
	if m == nil {
		return ""
	}
	force := forceOf(m[3])
	if below := strings.ReplaceAll(strings.ReplaceAll(Fold(m[4]), " ", ""), "²", "2"); below != "" && force != "" {
		force += "/" + perUnits[below]
	}
	return force
}

// inBrackets gives the text in the last brackets, or the last word behind a comma or blank.
func inBrackets(text string) string {
	if from, to := strings.LastIndexAny(text, "(["), strings.LastIndexAny(text, ")]"); from >= 0 && to > from {
		return text[from+1 : to]
	}
	fields := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == '\n' })
	if len(fields) == 0 {
		return ""
	}
	return fields[len(fields)-1]
}

func number(text string) (float64, error) {
	return strconv.ParseFloat(strings.ReplaceAll(text, ",", "."), 64)
}
