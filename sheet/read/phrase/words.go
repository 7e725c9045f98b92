package phrase

import "strings"

// lexicon maps folded words and phrases to what they mean.
type lexicon map[string]string

// terms builds a lexicon from lists parted by commas, in English, German, French, Spanish,
// Italian, Polish, Dutch and Swedish.
func terms(lists map[string]string) lexicon {
	found := lexicon{}
	for means, list := range lists {
		for _, w := range strings.Split(list, ",") {
			found[Fold(w)] = means
		}
	}
	return found
}

// longest is the most words a term has.
const longestTerm = 4

// at finds the longest term that begins at a piece, and of how many pieces it is.
func (l lexicon) at(pieces []Piece, i int) (means string, n int) {
	for n = min(longestTerm, len(pieces)-i); n > 0; n-- {
		if m, ok := l[words(pieces[i:i+n])]; ok {
			return m, n
		}
	}
	return "", 0
}

// find gives the first term among the pieces.
func (l lexicon) find(pieces []Piece) (means string, at int) {
	for i := range pieces {
		if m, n := l.at(pieces, i); n > 0 {
			return m, i
		}
	}
	return "", -1
}

// places are the named places of an opening or part.
var places = terms(map[string]string{
	"top": `top, t, head, upper, up top, at top, at the top, lintel, oben, sturz, kopf, haut, en haut, linteau,
		arriba, superior, dintel, sopra, in alto, alto, architrave, gora, u gory, nadproze, boven, bovenkant, bovendorpel,
		upptill, uppe, topp, overkant, tete`,
	"middle": `middle, mid, m, center, centre, ctr, mid height, midway, mitte, mittig, milieu, medio, en medio, centro,
		mezzo, meta, srodek, posrodku, midden, mitt, mitten, mittel`,
	"floor": `floor, bottom, btm, bot, b, sill, lower, flr, at floor, at bottom, at the bottom, at the floor, unten, boden, bas,
		en bas, sol, seuil, abajo, inferior, suelo, solera, basso, in basso, sotto, pavimento, soglia, dol, na dole,
		u dolu, podloga, onder, onderkant, vloer, onderdorpel, nertill, nere, golv, botten, fussboden, base`,
	"left": `left, l, lh, left side, left wall, left jamb, links, li, linke, linke seite, linke wand, gauche, g, a gauche, izquierda,
		izq, izquierdo, sinistra, sx, sinistro, lewa, lewo, lewy, z lewej, vanster, linkerkant, linkerwand`,
	"right": `right, r, rh, right side, right wall, right jamb, rechts, re, rechte, rechte seite, rechte wand, droite, a droite, derecha,
		dcha, derecho, destra, dx, destro, prawa, prawo, prawy, z prawej, hoger, rechterkant, rechterwand`,
	"front": `front, f, frt, vorn, vorne, avant, devant, delante, frente, davanti, przod, z przodu, voor, voorkant, fram, framkant`,
	"back": `back, rear, bk, back wall, rear wall, wall, hinten, ruckwand, ruckseite, arriere, fond, au fond, atras, detras, dietro,
		retro, tyl, z tylu, achter, achterwand, bak, bakkant, bakvagg, mur du fond`,
})

// Place reads the name of a place: "top", "middle", "floor", "left", "right", "front",
// "back"; empty for anything else.
func Place(word string) string { return places[Fold(word)] }
