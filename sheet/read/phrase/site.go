package phrase

import (
	"regexp"
	"strings"
)

// measures are the things a site form has readings of.
var measures = terms(map[string]string{
	"width": `width, widths, w, wd, wide, clear width, opening width, breite, breiten, lichte breite, lw, largeur, largeurs, larg, ancho, anchos, anchura, larghezza, larghezze,
		szerokosc, szerokosci, szer, breedte, breedtes, bredd, bredder`,
	"height": `height, heights, h, ht, high, tall, hgt, clear height, opening height, hohe, hohen, lichte hohe, lh, hauteur, hauteurs, altura, alturas, altezza, altezze, wysokosc, wysokosci, wys,
		hoogte, hoogtes, hojd, hojder`,
	"depth":    `depth, depths, d, dp, deep, tiefe, tiefen, profondeur, profondeurs, prof, profundidad, profundidades, profondita, glebokosc, gleb, diepte, dieptes, djup`,
	"diagonal": `diagonal, diagonals, diag, diags, diagonale, diagonalen, x, diagonales, diagonali, przekatna, przekatne, przek, diagonalmatt, cross, corner to corner, kreuzmass`,
	"plumb":    `plumb, out of plumb, lot, lotrecht, lotabweichung, aplomb, faux aplomb, plomo, aplomado, a plomo, piombo, a piombo, fuori piombo, pion, w pionie, odchylka od pionu, lood, te lood, uit het lood, lod, lodrat`,
	"level": `level, out of level, waage, waagrecht, waagerecht, in waage, niveau, de niveau, faux niveau, nivel, a nivel, livello, a livello, fuori livello, poziom, w poziomie,
		waterpas, vag, vagrat, i vag`,
	"square":     `square, out of square, corners, corner, winkel, winkligkeit, equerrage, equerre, escuadra, squadro, a squadro, kat, haaks, haaksheid, vinkel, vinkelrat`,
	"ceiling":    `ceiling, clg, ceil, ceiling height, ceiling ht, clg ht, deckenhohe, raumhohe, decke, hauteur sous plafond, plafond, hsp, techo, altura techo, altura de techo, soffitto, altezza soffitto, sufit, wysokosc pomieszczenia, plafondhoogte, tak, takhojd`,
	"base":       `base, baseboard, basebd, skirting, skirting board, sockelleiste, fussleiste, sockel, plinthe, plinthes, rodapie, zocalo, battiscopa, zoccolino, listwa przypodlogowa, cokol, plint, golvlist, socklar`,
	"crown":      `crown, crown moulding, crown molding, crown mldg, cornice, cove, deckenleiste, stuckleiste, corniche, moulure, moldura, cornisa, cornice soffitto, gzyms, kroonlijst, taklist`,
	"outlet":     `outlet, outlets, recept, receptacle, duplex, socket, plug, power point, j-box, steckdose, steckdosen, prise, prises, prise de courant, enchufe, enchufes, toma, presa, presa corrente, gniazdko, gniazdo, stopcontact, wcd, vagguttag, eluttag`,
	"switch":     `switch, switches, light switch, dimmer, schalter, lichtschalter, interrupteur, interruptor, interruttore, wlacznik, lichtschakelaar, schakelaar, strombrytare`,
	"vent":       `vent, vents, grille, diffuser, reg, register, return, return air, supply, luftung, luftungsgitter, luftauslass, bouche d'aeration, aeration, rejilla, bocchetta, griglia, kratka, kratka wentylacyjna, rooster, ventilatierooster, ventil, galler`,
	"thermostat": `thermostat, t-stat, tstat, stat, raumthermostat, termostato, termostat, thermostaat`,
	"radiator":   `radiator, rad, heater, convector, heizkorper, radiateur, convecteur, radiador, radiatore, termosifone, grzejnik, kaloryfer, verwarming, element`,
	"pipe":       `pipe, pipes, riser, chase, rohr, rohre, tuyau, tuyaux, tubo, tuberia, bajante, tubi, rura, rury, leiding, buis, ror`,
	"beam":       `beam, bulkhead, soffit box, boxing, unterzug, balken, poutre, viga, trave, belka, balk`,
	"light":      `sconce, light, fixture, j box, lampe, leuchte, applique, lampara, aplique, lampada, kinkiet, lamp`,
	"window":     `window, sill of window, fenster, fenetre, ventana, finestra, okno, raam, fonster`,
	"within":     `within, tape, laser, accuracy, closely, how closely, genauigkeit, tolerance, precision, precisione, dokladnosc, nauwkeurigheid, noggrannhet`,
	"by":         `by, measured by, meas by, taken by, surveyed by, aufgemessen von, gemessen von, von, aufmass durch, mesure par, releve par, par, medido por, por, misurato da, rilevato da, da, pomiar wykonal, zmierzyl, mierzyl, gemeten door, opgemeten door, door, matt av, uppmatt av, av`,
	"date":       `date, dated, measured on, measured, datum, aufmassdatum, le, date du releve, fecha, data, dnia, gemeten op, den`,
})

// Obstacles are the measures that stand for something in the way.
var Obstacles = set("outlet, switch, vent, thermostat, radiator, pipe, beam, light, window")

// Measure finds the thing measured that is named at a piece, and of how many pieces its name
// is; W1, H2, X1 and D3 name it with a number of their own.
func Measure(pieces []Piece, i int) (means string, n int) {
	if at(pieces, i).Kind != Word || i >= len(pieces) {
		return "", 0
	}
	if means, n = measures.at(pieces, i); n > 0 && !leftHand(pieces, i) && !times(pieces, i) {
		return means, n
	}
	if m := numbered.FindStringSubmatch(at(pieces, i).Word); m != nil {
		return map[string]string{"w": "width", "b": "width", "h": "height", "d": "depth", "t": "depth", "x": "diagonal"}[m[1]], 1
	}
	return "", 0
}

// leftHand reports LH beside another word: the left hand, and no clear height (lichte Höhe).
func leftHand(pieces []Piece, i int) bool {
	return pieces[i].Word == "lh" && (i > 0 || at(pieces, i+1).Kind == Word)
}

// times reports an x behind a word and before a number, "5 1/4 tall x 5/8": no diagonal.
func times(pieces []Piece, i int) bool {
	return pieces[i].Word == "x" && i > 1 && pieces[i-1].Kind == Word && pieces[i-2].Kind == Length && !pieces[i].Wide
}

var numbered = regexp.MustCompile(`^([wbhdtx])-?\d$`)

// PlaceAt finds the place named at a piece, and of how many pieces its name is.
func PlaceAt(pieces []Piece, i int) (means string, n int) { return places.at(pieces, i) }

// openings are the words that name a place something is built into.
var openings = set(`niche, opening, opng, openings, alcove, recess, closet, nook, bay, bulkhead opening, r.o., ro, rough opening, wall, room, nische, offnung, wandnische, maueroffnung, schrankoffnung,
	alcove, ouverture, renfoncement, baie, nicho, hueco, abertura, hornacina, nicchia, vano, apertura, wneka, otwor, nisza, nis, opening, sparing, nisch, oppning`)

// IsOpening reports whether a word names a place something is built into.
func IsOpening(word string) bool { return openings[Fold(word)] }

// surfaces are the words of a finish, and what it is on.
var surfaces = terms(map[string]string{
	"floor": `floor, floors, flooring, floor finish, finish floor, fin floor, ff, oak, hardwood, tile floor, carpet, parquet, boden, fussboden, bodenbelag, parkett, estrich, sol, parquet, revetement de sol,
		suelo, solado, parquet, pavimento, podloga, posadzka, parkiet, vloer, vloerafwerking, golv, parkettgolv`,
	"walls": `walls, wall, wall finish, plastered, plaster, plasterer, drywall, drywalled, sheetrock, gyp, gypsum, skim, tile, tiled, tiles, paneling, panelling, verputzt, putz, gipskarton, fliesen,
		platre, enduit, enduits, placo, carrelage, yeso, enlucido, enyesado, azulejo, pladur, intonaco, intonacato, cartongesso, piastrelle, tynk, otynkowane, gladz, plytki, stucwerk, stuc, gestuct, tegels, puts, putsad, gips, kakel`,
	"ceiling": `ceiling finish, ceiling board, ceiling plastered, deckenputz, abgehangte decke`,
})

// SurfaceAt finds the finish named at a piece.
func SurfaceAt(pieces []Piece, i int) (means string, n int) { return surfaces.at(pieces, i) }

// Answer reads yes or no as forms are filled in; ok is false for anything else.
func Answer(word string) (yes, ok bool) {
	switch Fold(word) {
	case "y", "yes", "ja", "j", "oui", "o", "si", "s", "tak", "t", "x", "✓", "✔", "done", "in", "fertig", "fait", "hecho", "fatto", "klar":
		return true, true
	case "n", "no", "nein", "non", "nie", "nee", "nej", "not", "not yet", "open", "offen", "noch nicht", "to come", "pending", "jeszcze nie":
		return false, true
	}
	return false, false
}

// remarks are the words that say something of the surface between readings.
var remarks = set(`tight, tightest, smallest, min, bow, bowed, belly, hump, hollow, dip, crown, wave, wavy, bulge, proud, vif, v i f, verify, check, approx, fat, skinny, heavy, light, strong, scant, full,
	shy, bare, lean, leans, out, in, bauch, bauchig, hohl, wellig, eng, engste, knapp, gut, ventre, bombe, creux, serre, panza, barriga, hundido, justo, pancia, spanciato, stretto, brzuch, wkleslosc, ciasno,
	buik, bol, hol, krap, buktig, kupig, trang`)

// IsRemark reports whether a word says something of a reading or of the surface behind it.
func IsRemark(word string) bool { return remarks[Fold(word)] }

// modifiers are the words that stand behind a reading and widen it: they belong to it.
var modifiers = set("heavy, light, strong, scant, fat, skinny, full, shy, approx, approximately, about, ca, +/-, ±")

// Extent gives the text of the length at piece i with the words behind it that widen it:
// "94 1/4 heavy 1/16", and says how many pieces it was.
func Extent(line string, pieces []Piece, i int) (text string, n int) {
	n = 1
	if j := i + n; j < len(pieces) && (modifiers[pieces[j].Word]) {
		n++
		if k := i + n; k < len(pieces) && pieces[k].Kind == Length && strings.Contains(pieces[k].Text, "/") && !strings.Contains(pieces[k].Text, " ") {
			n++
		}
	} else if j < len(pieces) && (pieces[j].Word == "in" || pieces[j].Word == "m") && !followed(pieces, j) {
		n++
	}
	last := pieces[i+n-1]
	return line[pieces[i].From:last.End()], n
}

// followed reports whether a length stands behind a piece: "3/16 in 8'".
func followed(pieces []Piece, i int) bool { return at(pieces, i+1).Kind == Length }

// Corners reads the ends of a diagonal, such as LB-RT or "bottom left to top right", as
// LB-RT or RB-LT. It is empty where the text names none.
func Corners(pieces []Piece) string {
	var letters []string
	for _, p := range pieces {
		if p.Kind != Word {
			continue
		}
		for _, word := range strings.FieldsFunc(p.Word, func(r rune) bool { return r == '-' || r == '/' || r == ' ' }) {
			letters = append(letters, cornerLetters(word)...)
		}
	}
	if len(letters) < 4 {
		return ""
	}
	var side, end string // of the first corner
	for _, l := range letters[:2] {
		if l == "L" || l == "R" {
			side = l
		} else {
			end = l
		}
	}
	var side2, end2 string
	for _, l := range letters[2:4] {
		if l == "L" || l == "R" {
			side2 = l
		} else {
			end2 = l
		}
	}
	if side == side2 || end == end2 || side == "" || end == "" || side2 == "" || end2 == "" {
		return ""
	}
	if end == "B" {
		return side + "B-" + side2 + "T"
	}
	return side2 + "B-" + side + "T"
}

// cornerLetters turns "lb", "bl", "bottom" or "links" into L, R, T and B.
func cornerLetters(word string) []string {
	letters := map[string]string{"left": "L", "right": "R", "top": "T", "floor": "B"}
	if l := letters[places[word]]; l != "" {
		return []string{l}
	}
	if len(word) != 2 {
		return nil
	}
	var found []string
	for _, r := range word {
		l := map[rune]string{'l': "L", 'r': "R", 't': "T", 'b': "B", 'u': "B", 'o': "T"}[r]
		if l == "" {
			return nil
		}
		found = append(found, l)
	}
	if (found[0] == "L" || found[0] == "R") == (found[1] == "L" || found[1] == "R") {
		return nil
	}
	return found
}
