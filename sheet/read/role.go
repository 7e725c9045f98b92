package read

import (
	"strings"

	"dryfit/check"
	"dryfit/check/standard"
)

// roleWords hold what parts are called, folded. Longer words are tried before shorter ones,
// so that "adjustable shelf" is no fixed shelf and "drawer front" no front.
var roleWords = []struct {
	role  check.Role
	words string
}{
	{check.NotAPart, `hardware|hinge|hinges|pull|pulls|knob|knobs|handle|handles|screw|screws|pin|pins|shelf pin|shelf pins|glide|glides|slide|slides|drawer slide|drawer slides|bolt|bolts|nail|nails|bracket|brackets|
		labor|labour|install|installation|freight|delivery|shipping|spare|spares|template|templates|rod|closet rod|hanging rod|glue|paint labor|finishing labor|magnet|catch|latch|lock|led|light|lights|grommet|levelers hardware|hardware kit|dowel|dowels|biscuit|biscuits|fastener|fasteners|cam|cams|support pins|shelf supports|cabinet hardware|touch up kit|sandpaper|packing|assembly labor|shop drawings|measure|delivery charge|
		beschlag|beschlage|scharnier|scharniere|griff|griffe|schraube|schrauben|bodentrager|lohn|arbeitszeit|montage|lieferung|kleiderstange|schablone|leim|topfband|auszug|auszuge|stellfuss|
		quincaillerie|charniere|charnieres|poignee|poignees|vis|main d oeuvre|livraison|pose|gabarit|tringle|taquet|taquets|coulisse|coulisses|
		herraje|herrajes|bisagra|bisagras|tirador|tiradores|tornillo|tornillos|mano de obra|transporte|instalacion|plantilla|barra|guias|
		ferramenta|cerniera|cerniere|maniglia|maniglie|vite|viti|manodopera|trasporto|dima|reggipiano|reggipiani|guide|
		okucia|zawias|zawiasy|uchwyt|uchwyty|wkret|wkrety|robocizna|transport|szablon|drazek|prowadnice|podporki|
		beslag|scharnieren|handgreep|schroef|schroeven|arbeid|sjabloon|roede|plankdragers|
		gangjarn|handtag|skruv|skruvar|arbete|frakt|mall|kladstang|hyllbarare`},
	{check.Adjustable, `pin shelf|pin shelves|adjustable shelf|adj shelf|adj shelves|adj sh|adj|adjustable shelves|adjustable|loose shelf|as|adj shlf|adjust shelf|movable shelf|moveable shelf|
		einlegeboden|fachboden verstellbar|verstellbarer boden|einlegeboden verstellbar|einlegeboeden|tablette amovible|tablette reglable|tablette mobile|estante movil|estante regulable|balda movil|balda regulable|
		ripiano mobile|ripiano regolabile|polka ruchoma|polka przestawna|polki ruchome|losse plank|verstelbare plank|flyttbar hylla|flyttbart hyllplan|losa hyllor|flyttbara hyllplan|baldas moviles|estantes moviles|ripiani mobili|tablettes mobiles|tablettes amovibles|einlegeboden lose|losse legplank|verstelbare legplank`},
	{check.Shelf, `shelf|shelves|sh|shlf|shf|lam shelf|fixed shelf|fs|fix shelf|horizontal|plank|fixed sh|shelf assy|shelf lam|
		fachboden|boden fest|fester boden|regalboden|fachboeden|regalboeden|konstruktionsboden|tablette|tablettes|etagere|etageres|rayon|tablette fixe|estante|estantes|balda|baldas|repisa|entrepano|
		ripiano|ripiani|mensola|mensole|ripiano fisso|polka|polki|polka stala|plank|planken|legplank|legplanken|schap|hylla|hyllor|hyllplan|hyllplan fast|fast hylla`},
	{check.Upright, `upright|uprights|upr|standard|vertical|verticals|post|posts|upright assy|stile assy|
		stander|pfosten|regalseite|montant|montants|montante|montanti|montantes|pionier|slupek|slupki|staander|staanders|stijl|stolpe|stander|staende`},
	{check.Divider, `divider|dividers|div|partition|partitions|ptn|vertical divider|center panel|center partition|centre panel|mid panel|middle panel|center stile|
		mittelwand|trennwand|mittelseite|zwischenwand|mittelwande|trennwande|mittelseiten|separation|separations|separateur|cloison|division|divisiones|divisorio|divisori|tramezzo|divisor|
		przegroda|przegrody|tussenwand|tussenschot|middenwand|scheidingswand|tussenschotten|mellanvagg|mellansida|mellanvaggar|mellansidor|fianco centrale|fianco intermedio`},
	{check.Side, `side|sides|gable|gables|end|ends|end panel|case side|side panel|liner side|left side|right side|lh side|rh side|finished end|fin end|jamb|jambs|end panels|l side|r side|side l|side r|side left|side right|
		seite|seiten|seitenwand|seitenwande|wange|seite links|seite rechts|seitenteil|korpusseite|aussenseite|cote|cotes|joue|joues|cote gauche|cote droit|flanc|flancs|lateral|laterales|costado|costados|lado|
		fianco|fianchi|spalla|spalle|laterale|bok|boki|sciana boczna|bok lewy|bok prawy|zijkant|zijde|zijwand|zijpaneel|zijwanden|zijden|zijkanten|zijpanelen|sida|sidor|gavel|gavlar|sidostycke|sidostycken|gavelsida`},
	{check.Deck, `deck|decks|top bottom|top btm|top and bottom|tops bottoms|top bot|t b|stretcher|stretchers|case top btm|rail|rails|nailer|hanging rail|horizontals|top and btm|tops and bottoms|top bottom panel|
		ober unterboden|boden deckel|ober und unterboden|traverse|traverses|dessus dessous|travesano|travesanos|techo suelo|techo y base|traversa|traverse|cielo fondo|listwa|wieniec|wience|
		boven onder|boven en onderblad|regel|topp botten|topp och botten|rail dessus`},
	{check.Head, `head|top|soffit|case top|liner head|lid top|top panel|cabinet top|header|tops|cap|
		oberboden|deckel|kopfstuck|deckelplatte|oberbod|dessus|haut|plafond|traverse haute|panneau superieur|superior|techo|tapa|tapa superior|panel superior|
		cielo|cappello|top superiore|coperchio|wieniec gorny|gora|gorny|bovenblad|bovenkant|bovenpaneel|bovenbodem|bovenplaat|topp|ovre|tak|overstycke|topplatta|toppskiva|ovandel|overdel`},
	{check.Sill, `sill|bottom|btm|bot|case bottom|liner sill|case btm|floor|bottom panel|cabinet bottom|bottoms|btms|
		unterboden|boden|bodenplatte|dessous|bas|plancher|traverse basse|panneau inferieur|fond bas|inferior|suelo|base inferior|piso|panel inferior|
		fondo|base inferiore|wieniec dolny|dol|dno|dolny|onderblad|bodem|onderkant|onderpaneel|onderbodem|onderplaat|bodemplaat|botten|nedre|bottenplatta|bottenskiva|underdel|bottenstycke`},
	{check.Back, `back|backs|bk|rear panel|back panel|rear|case back|
		ruckwand|rueckwand|ruckwande|ruckseite|dos|fond|fonds|panneau arriere|arriere|trasera|traseras|fondo trasero|espalda|respaldo|schienale|schienali|retro|tyl|plecy|
		sciana tylna|achterwand|rug|achterwanden|achterkant|rugwand|achterpaneel|rygg|ryggstycke|bakstycke|ryggar|baksida`},
	{check.Base, `base|plinth|toe kick|toekick|tk|toe|kick|kickboard|ladder base|sleeper|sleepers|feet|leveler|levelers|base frame|plinth front|runner|runners|toe space|recessed base|
		sockel|sockelblende|sockelleiste|sockelrahmen|socle|plinthe|zocalo|rodapie|zoccolo|zoccoli|cokol|plint|sokkel|sockellist|sarg|sockelfront`},
	{check.Ledger, `ledger|ledgers|ledger strip|wall ledger|auflageleiste|tasseau mural|trageleiste`},
	{check.Cleat, `cleat|cleats|batten|battens|hang strip|hanging strip|support strip|french cleat|
		leiste|leisten|auflager|tragleiste|tasseau|tasseaux|liston|listones|listello|listelli|listwa podporowa|liston de apoyo|klamp|lat|latten|draaglat|regelverk|barlist|bararregel`},
	{check.Scribe, `scribe|scribes|scr|scribe strip|scribe mould|scribe molding|passleiste|passstuck|anpassleiste|listel|bande de rive|ajuste|tira de ajuste|listello di aggiustaggio|listwa maskujaca|passtuk|paslat|passbit`},
	{check.Filler, `filler|fillers|fill|closure|closures|filler strip|filler panel|blende|passblende|fileur|fileurs|remplissage|bandeau|relleno|tamponamento|fascia|blenda|maskownica|wypelnienie|vulstuk|opvulstuk|passtycke|fyllnad|fyllnadsbit`},
	{check.Trim, `crown|trim|casing|apron|nosing|bead|stop|cornice|moulding|molding|base moulding|baseboard|base molding|cap molding|shoe|quarter round|face frame|rail trim|light rail|valance|
		zierleiste|abschlussleiste|kranz|kranzleiste|profilleiste|moulure|corniche|moldura|cornisa|cornice|modanatura|profilo|gzyms|profil|listwa ozdobna|sierlijst|kroonlijst|taklist|kronlist|list|dekorlist|lijst`},
	{check.Seat, `seat|seat top|seat lid|lid|lids|bench top|bench seat|seat board|sitz|sitzflache|sitzplatte|klappe|assise|abattant|asiento|seduta|siedzisko|siedzenie|zitting|zitvlak|sits|sittbrada|sitslock|klapp|klep|ribalta`},
	{check.Drawer, `drawer|drawers|drw|drawer front|df|drawer box|drawer side|drawer back|drawer bottom|drawer fronts|dwr|drw front|drawer sides|drw side|
		schublade|schubladen|schubkasten|schubladenfront|schubladenblende|schubkastenseite|tiroir|tiroirs|face de tiroir|facade de tiroir|cajon|cajones|frente de cajon|cassetto|cassetti|frontale cassetto|szuflada|szuflady|front szuflady|lade|laden|ladefront|schuiflade|ladfront|lada|lador|byralada`},
	{check.Door, `door|doors|dr|drs|pair of doors|door leaf|cabinet door|door panel|tur|turen|tuer|tueren|schranktur|tuerblatt|drehtur|porte|portes|vantail|vantaux|puerta|puertas|anta|ante|porta|porte|sportello|sportelli|drzwi|drzwiczki|deur|deuren|deurtje|kastdeur|dorr|dorrar|lucka|luckor|skapdorr`},
	{check.Front, `front|fronts|riser|seat front|front panel|face panel|face|vorderstuck|frontblende|facade|frente|frontale|frontali|przod|voorkant|voorpaneel|framsida|framstycke|frontstycke`},
}

// roleOf finds what a part does, out of the words of its description, name or note.
func roleOf(text string, shop *standard.Table) check.Role {
	r, _ := findRole(text, shop)
	return r
}

// findRole also says whether the word was the first of the text or the whole of it.
func findRole(text string, shop *standard.Table) (check.Role, bool) {
	if text == "" {
		return check.Unknown, false
	}
	if shop != nil {
		if means, ok := shop.Word("role", text); ok {
			if r, ok := roleIndex[fold(means)]; ok {
				return r, true
			}
			return check.Role(strings.ToLower(means)), true
		}
	}
	words := strings.Fields(fold(text))
	if len(words) > 24 {
		words = words[:24]
	}
	if len(words) > 0 && leadingSpare[words[0]] {
		return check.NotAPart, true
	}
	best, at, size := check.Unknown, len(words), 0
	for i := range words {
		for n := min(3, len(words)-i); n > 0; n-- {
			r, ok := roleIndex[strings.Join(words[i:i+n], " ")]
			if !ok {
				r, ok = roleIndex[strings.TrimSuffix(strings.Join(words[i:i+n], " "), "s")]
			}
			if !ok || n == 1 && i > 0 && len(words[i]) < 3 && !short(words, i) {
				continue
			}
			if better(r, best, n, size) {
				best, at, size = r, i, n
			}
			break
		}
	}
	if best == check.Shelf && anyIn(words, looseWords) {
		best = check.Adjustable
	}
	if (best == check.Head || best == check.Sill) && topAndBottom(words) {
		best = check.Deck
	}
	return best, at == 0
}

// looseWords say of a shelf that it only lies there.
var looseWords = set("los lose loser losse losa lost verstellbar verstellbarer amovible reglable movil regulable mobile regolabile ruchoma przestawna verstelbaar verstelbare flyttbar flyttbart stallbar stallbart")

// saysLoose reports whether the whole of a note says of a shelf that it only lies there.
func saysLoose(note string) bool {
	words := strings.Fields(fold(note))
	switch len(words) {
	case 1:
		return looseWords[words[0]] || adjustWords[words[0]]
	case 2, 3:
		return words[0] != "los" && looseWords[words[0]] || adjustWords[words[0]]
	}
	return false
}

var adjustWords = set("adj adjustable movable moveable")

func anyIn(words []string, of map[string]bool) bool {
	for _, w := range words {
		if of[w] {
			return true
		}
	}
	return false
}

var (
	topWords    = set("top oben ober haut dessus superior arriba sopra superiore gora gorny boven bovenste topp overst")
	bottomWords = set("bottom btm bot unten unter bas dessous inferior abajo sotto inferiore dol dolny onder onderste botten nederst")
	andWords    = set("and und et y e i en och")
)

// topAndBottom reports whether two words next to each other name both ends: "Boden oben/unten".
func topAndBottom(words []string) bool {
	last := ""
	for _, w := range words {
		if andWords[w] {
			continue
		}
		if topWords[last] && bottomWords[w] || bottomWords[last] && topWords[w] {
			return true
		}
		last = w
	}
	return false
}

// short lets a short word such as "sh" or "dr" count when it is the last of the text.
func short(words []string, i int) bool { return i == len(words)-1 && len(words) <= 3 }

// better prefers the longer phrase, then the word that names a kind more narrowly: a
// "case side" is a side, a "seat front" a front, "shelf, adj." an adjustable shelf, and
// a "cleat for shelf" a cleat because it stands first.
func better(r, best check.Role, n, size int) bool {
	switch {
	case best == check.Unknown:
		return true
	case best == check.Shelf && r == check.Adjustable:
		return true
	case best == check.Head && r == check.Sill, best == check.Sill && r == check.Head:
		return false
	case best == check.Base && (r == check.Side || r == check.Front || r == check.Back):
		return false
	case best == check.Seat && (r == check.Front || r == check.Divider || r == check.Side || r == check.Back || r == check.Sill || r == check.Cleat || r == check.Scribe || r == check.Filler || r == check.Shelf || r == check.Trim):
		return true
	case best == check.Shelf && (r == check.Cleat || r == check.NotAPart || r == check.Trim || r == check.Ledger):
		return true
	case best == check.Door && r == check.NotAPart, best == check.Drawer && r == check.NotAPart, best == check.Side && r == check.Scribe:
		return true
	case best == check.Adjustable && r == check.NotAPart:
		return true
	}
	return n > size && size < 2 && best != check.NotAPart
}

var leadingSpare = set("spare spares template templates hardware labor labour freight")

// roleIndex maps each folded word to its role; where two roles share a word the first of
// the list keeps it.
var roleIndex = func() map[string]check.Role {
	m := map[string]check.Role{}
	for _, rw := range roleWords {
		for _, w := range strings.Split(rw.words, "|") {
			key := fold(w)
			if _, taken := m[key]; !taken && key != "" {
				m[key] = rw.role
			}
		}
	}
	return m
}()

// hardwareWord reports whether a folded word by itself means hardware, labour or the like.
func hardwareWord(word string) bool { return roleIndex[word] == check.NotAPart }

// lies reports whether a part lies in its case, so that its width in the room is its length.
func lies(r check.Role) bool {
	switch r {
	case check.Shelf, check.Adjustable, check.Head, check.Sill, check.Deck, check.Seat, check.Base,
		check.Ledger, check.Cleat, check.Drawer, check.Trim:
		return true
	}
	return false
}

// handed says whether words speak of a left or a right part.
type handed struct{ left, right bool }

func (h handed) and(o handed) handed { return handed{h.left || o.left, h.right || o.right} }

// letter is L or R, or nothing where both or neither stand.
func (h handed) letter() string {
	switch {
	case h.left && !h.right:
		return "L"
	case h.right && !h.left:
		return "R"
	}
	return ""
}

func handsIn(text string) handed {
	var h handed
	if text == "" {
		return h
	}
	words := strings.Fields(fold(text))
	for i, w := range words {
		last := i > 0 && i == len(words)-1 // "Seite re", but not "re: hinges"
		h.left = h.left || leftWords[w] || last && w == "li"
		h.right = h.right || rightWords[w] || last && w == "re"
	}
	return h
}

var (
	leftWords  = set("l lh left links gauche izq izquierda izquierdo sinistra sinistro sx lewy lewa linker vanster")
	rightWords = set("r rh right rechts droite droit der derecha derecho destra destro dx prawy prawa rechter hoger")
)
