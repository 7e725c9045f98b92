package read

import (
	"regexp"
	"strings"
)

var dittoWords = map[string]bool{
	"do": true, "ditto": true, "dto": true, "dito": true, "idem": true, "id": true, "same": true, "as above": true, "same as above": true,
	"see above": true, "wie oben": true, "w o": true, "wie vor": true, "desgl": true, "dgl": true, "detto": true, "come sopra": true, "c s": true, "jw": true, "j w": true,
	"jak wyzej": true, "als boven": true, "zie boven": true, "som ovan": true, "s o": true, "d o": true, "ibid": true, "igual": true, "lo mismo": true,
	"comme ci dessus": true, "same above": true, "repeat": true, "a a": true, "idem anterior": true,
}

var dittoSigns = map[string]bool{
	`"`: true, "〃": true, "''": true, ",,": true, `-"-`: true, "”": true, "“": true, "„": true, `" "`: true, `-''-`: true,
	`"""`: true, "″": true, `""`: true, "-„-": true, "-”-": true, "–„–": true, `–"–`: true, "’’": true, "&quot;": true, "״": true, "ˮ": true, "^": true, "↑": true, "↓": true,
}

// isDitto reports whether a cell repeats the one above it.
func isDitto(text string) bool {
	return dittoSigns[strings.TrimSpace(text)] || len(text) < 24 && dittoWords[fold(text)]
}

// endsInDitto finds "Uprights ditto": the words before it are the cell's own.
func endsInDitto(text string) bool {
	words := strings.Fields(fold(text))
	if len(words) < 2 {
		return false
	}
	last := words[len(words)-1]
	return last == "ditto" || last == "dito" || last == "dto" || last == "do" || last == "idem" || strings.HasSuffix(strings.TrimSpace(text), "〃")
}

var sameAs = regexp.MustCompile(`(?i)(?:^|[\s,;(])(?:same\s+as|sim\.?\s+to|similar\s+to|identical\s+to|like|as\s+per|as|wie|comme|pareil\s+à|come|igual\s+(?:que|a)|jak|som|(?:zelfde\s+)?als|lika\s+som|idem)\s+(?:part\s+|mark\s+|item\s+|teil\s+|pos\.?\s+)?([A-Za-z]{0,4}[-.]?\d{1,4}[A-Za-z]?(?:[-.]\d+)?|[A-Za-z]{1,3}-[A-Za-z0-9]{1,5})\b`)

// sameAsMark finds the mark a text refers to: "same as A3".
func sameAsMark(text string) string {
	if len(text) < 5 || !strings.ContainsAny(text, "0123456789-") || !strings.Contains(text, " ") {
		return ""
	}
	if m := sameAs.FindStringSubmatch(text); m != nil {
		return m[1]
	}
	return ""
}

var totalWords = set(`total totals subtotal subtotals sum gesamt gesamtsumme summe zwischensumme endsumme somme sous razem suma lacznie
	totale totali totaux totaal subtotaal eindtotaal summa delsumma totalt ttl tot subtot grand sumar ogolem insgesamt zusammen totales
	parziale somma wszystkich samtliga tillsammans`)

// totalText reports whether a cell begins as a total does.
func totalText(text string) bool {
	if len(text) > 60 || !strings.Contains(text, " ") && len(text) < 8 && strings.ContainsAny(text, "0123456789") {
		return false
	}
	if strings.HasPrefix(text, "Σ") || strings.HasPrefix(text, "∑") {
		return true
	}
	words := strings.Fields(fold(text))
	if len(words) == 0 {
		return false
	}
	if totalWords[words[0]] && (words[0] != "grand" || len(words) > 1 && totalWords[words[1]]) &&
		(words[0] != "sous" || len(words) > 1 && words[1] == "total") {
		return true
	}
	last := words[len(words)-1]
	return len(words) > 1 && (words[0] == "sub" && words[1] == "total" || (last == "total" || last == "subtotal") && len(words) <= 4)
}

var voidWords = set(`void voided deleted delete del omit omitted cancelled canceled cancel removed dropped scrapped superseded obsolete
	entfallt entfaellt storniert gestrichen gestr supprime supprimee annule annulee anulado anulada eliminado eliminada suprimido annullato annullata
	eliminato usuniete usuniety anulowane anulowany skreslone vervallen vervalt geschrapt utgar struken borttagen stricken scratch`)

// voided reports whether a cell says that its row no longer counts.
func voided(text string) bool {
	if len(text) > 40 {
		return false
	}
	words := strings.Fields(fold(text))
	if len(words) == 0 {
		return false
	}
	key := strings.Join(words, " ")
	if key == "not used" || key == "n i c" || key == "do not make" || key == "do not cut" || strings.HasPrefix(key, "not req") {
		return true
	}
	if len(words) == 1 {
		return voidWords[words[0]] && words[0] != "del" || text == "DEL"
	}
	return voidWords[words[0]] && words[0] != "scratch" && words[0] != "del" && words[0] != "delete" || len(words) <= 3 && words[0] == "row" && voidWords[words[1]]
}

var noteStarts = set(`note notes nb nota remarque remarques hinweis anmerkung achtung uwaga uwagi opmerking obs anm attention important see
	all check verify legend key drawn date rev revised by checked printed page sheet`)

// noteLike reports whether a lone text is a remark, not a heading.
func noteLike(text string) bool {
	if text == "" {
		return false
	}
	if strings.HasPrefix(text, "*") || strings.HasPrefix(text, "#") || strings.HasPrefix(text, "(") && strings.HasSuffix(text, ")") {
		return true
	}
	words := strings.Fields(fold(text))
	if len(words) == 0 {
		return true
	}
	return noteStarts[words[0]] || len(words) > 9 || strings.HasSuffix(text, ".") && len(words) > 4
}

var caseWords = set(`case cab cabinet unit bay section sect elev elevation niche seat bench wardrobe closet bookcase shelf tower base wall
	schrank korpus element regal nische bank meuble caisson module ensemble bibliotheque niche armoire mueble armario modulo estanteria librero
	mobile armadio modulo libreria szafa szafka regal kast boekenkast skap hylla stomme bokhylla vitrine hutch desk window console library built
	kommode sideboard credenza tv island vanity pantry garderobe`)

var roomWords = set(`room den hall hallway foyer kitchen bath bathroom bedroom living dining office study library pantry laundry mudroom
	entry porch attic basement loft nursery parlor parlour suite lobby corridor mezzanine stairs stair landing playroom family guest master
	zimmer raum kuche bad flur diele wohnzimmer schlafzimmer buro arbeitszimmer kinderzimmer keller gaste esszimmer
	chambre salon cuisine bureau entree couloir salle sejour habitacion sala cocina dormitorio despacho comedor pasillo bano salon
	stanza soggiorno cucina camera studio ingresso bagno corridoio salotto pokoj kuchnia sypialnia salon gabinet lazienka korytarz przedpokoj
	kamer woonkamer keuken slaapkamer gang badkamer kantoor studeerkamer rum kok sovrum vardagsrum hall kontor badrum floor 1st 2nd level etage`)

// isRoom tells a room from a case by the words of a heading.
func isRoom(text string) bool {
	for _, w := range strings.Fields(fold(text)) {
		if caseWords[w] && w != "library" {
			return false
		}
	}
	for _, w := range strings.Fields(fold(text)) {
		if roomWords[w] {
			return true
		}
	}
	return false
}

var timesHeading = regexp.MustCompile(`(?i)(?:[(\[,–-]\s*|\s)(?:(?:make|qty\.?:?|x|×|anzahl:?|antal:?|aantal:?|qt[eé]:?|cant\.?:?)\s*(\d{1,3})|(\d{1,3})\s*(?:off|thus|x|×|req'?d|units?|cases?|ea\.?|each|mal|pcs|stk\.?|szt\.?|fois|stuks|st\.?|st(?:ü|ue|u)ck|sztuki?|pi[eè]ces?|piezas?|uds?\.?|pezzi|pz\.?|stycken|veces|volte|razy|keer|gånger))\s*[)\]]?\s*$`)

// headingTimes finds how many times the parts under a heading are made: "CASE B (2 off)".
func headingTimes(text string) int {
	m := timesHeading.FindStringSubmatch(text)
	if m == nil {
		return 1
	}
	n, _ := small([]byte(m[1] + m[2]))
	return max(n, 1)
}
