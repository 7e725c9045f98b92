package phrase

import (
	"regexp"
	"strings"
	"unicode"

	"dryfit/check"
	"dryfit/check/length"
)

// SlotRule is a standing rule for the slots of a job or a part: "ALL SHELF SLOTS 1-15/16 x
// 5-5/8 DP, HALF FRONT / HALF BACK, U.N.O."
type SlotRule struct {
	Of    string      // whose slots: "shelf", "upright"; empty for all
	Width check.Value // as cut
	Over  check.Value // more than the part that goes in, where the rule gives no width
	Depth check.Value
	Half  bool // half of the member from each side
	All   bool // the rule says "all" or "typical": it speaks beyond its own row
}

var slotWords = set(`slot, slots, slotted, dado, dados, dadoes, notch, notches, groove, grooves, lap slots, laps, schlitz, schlitze, schlitzbreite, nut, nuten,
	nutbreite, ausklinkung, ausklinkungen, encoche, encoches, rainure, rainures, entaille, entailles, ranura, ranuras, muesca, muescas, incastro, incastri, scanalatura,
	scanalature, intagli, fessure, wciecie, wciecia, wpust, wpusty, rowek, rowki, sleuf, sleuven, groef, groeven, inkepingen, inkeping, urtag, spar, slits, slitsar`)

var slotOf = terms(map[string]string{
	"shelf": `shelf, shelves, sh, boden, fachboden, facherboden, regalboden, boden-, tablette, tablettes, etagere, etageres, estante, estantes, balda,
		baldas, ripiano, ripiani, mensola, mensole, polka, polki, polek, legplank, legplanken, plank, planken, hylla, hyllor, hyllplan`,
	"upright": `upright, uprights, divider, dividers, standard, standards, vertical, verticals, partition, partitions, mittelwand, mittelwande,
		stander, montant, montants, montante, montanti, divisorio, divisori, przegroda, przegrody, pion, staander, staanders, tussenwand, staende, mellanvagg, mellanvaggar`,
})

var (
	depthWords = set(`dp, deep, depth, d, tief, tiefe, prof, profond, profondeur, de prof, profundo, profundidad, fondo, profondita, prof-, gl, glebokosc, glebokie, diep, diepte, djup, djupt`)
	widthWords = set(`w, wide, width, wd, breit, breite, br, large, largeur, larg, ancho, larghezza, largo, szer, szerokosc, szerokie, breed, breedte, bred, bredd`)
	allWords   = set(`all, typ, typical, uno, unless, alle, tous, toutes, todos, todas, tutti, tutte, wszystkie, alla, samtliga`)
	halfWords  = set(`half, 1/2, halb, halbe, halber, moitie, demi, mitad, meta, polowa, polowe, helft, halv, halva, half-depth`)
)

// slotSizes matches what stands between the slot words and the sizes of a rule; anything
// else makes the line a remark and no rule.
var slotSizes = regexp.MustCompile(`(?i)^[\s:=,.\-–]*(?:are|to be|is|cut|a|à|de|mit|von|con|di|da|van|med|na|of|t|thk|thickness|part|stock|finished|width|wide|w|breite|largeur|ancho|larghezza|szer\w*|breedte|bredd|full|[\s:=,.])*[\s:=,.]*$`)

// Slots finds a slot rule in a title line or in the note of a part: "slots 1-15/16",
// "slots +1/16", "Schlitze 49,2 breit, 150 tief". It returns false where slots are only
// spoken of ("2 slots", "slots by CNC", "see slot detail 3").
func Slots(text string, unit length.Unit) (rule SlotRule, ok bool) {
	pieces := Cut(text)
	at := -1
	for i, p := range pieces {
		if p.Kind != Word {
			continue
		}
		if slotWords[p.Word] && at < 0 {
			at = i
		}
		if means, n := slotOf.at(pieces, i); n > 0 && rule.Of == "" && (at < 0 || i < at+4) {
			rule.Of = means
		}
		rule.All = rule.All || allWords[p.Word]
	}
	if at < 0 {
		return SlotRule{}, false
	}
	from := pieces[at].End()
	rest := pieces[at+1:]
	for i, p := range rest {
		if p.Kind != Length {
			continue
		}
		if !slotSizes.MatchString(strings.TrimSuffix(strings.TrimSpace(text[from:p.From]), "+")) {
			return SlotRule{}, false
		}
		return rule.sizes(rest[i:], i > 0 && rest[i-1].Is("+"), unit)
	}
	return SlotRule{}, false
}

// sizes reads "1-15/16 x 5-5/8 DP, HALF FRONT" from its first length on.
func (r SlotRule) sizes(pieces []Piece, plus bool, unit length.Unit) (SlotRule, bool) {
	v := pieces[0].bare(unit)
	if !v.Known || v.Low <= 0 {
		return SlotRule{}, false
	}
	over := plus
	for i, p := range pieces[1:] {
		next := Piece{}
		if i+2 < len(pieces) {
			next = pieces[i+2]
		}
		switch {
		case p.Kind == Word && (p.Word == "over" || p.Word == "oversize" || p.Word == "loose" || p.Word == "clearance" || p.Word == "luft") && i == 0:
			over = true
		case p.Kind == Length && !r.Depth.Known && (depthWords[next.Word] || pieces[i].Is("x")):
			r.Depth = p.bare(unit)
		case p.Kind == Length && depthWords[pieces[i].Word]:
			r.Depth = p.bare(unit)
		}
	}
	all := words(pieces)
	for _, w := range strings.Fields(all) {
		r.Half = r.Half || halfWords[w]
	}
	if depthWords[at(pieces, 1).Word] && !plus { // "slots 5-5/8 dp": a depth alone
		r.Depth = v
		return r, true
	}
	if over {
		r.Over = v
		return r, true
	}
	r.Width = v
	count := !strings.ContainsAny(pieces[0].Text, `./⁄½¼¾⅛⅜⅝⅞,"'`) && !strings.ContainsFunc(pieces[0].Text, unicode.IsLetter) && v.Nominal <= 12
	said := r.Depth.Known || widthWords[at(pieces, 1).Word] // "slots 4": four of them
	return r, said || !count
}

func at(pieces []Piece, i int) Piece {
	if i < len(pieces) {
		return pieces[i]
	}
	return Piece{}
}
