package phrase

import (
	"regexp"
	"strconv"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// jointKinds are the ways two parts meet. A notch or slot names one member cut; what else
// the row says of it may make it a lap.
var jointKinds = terms(map[string]string{
	string(check.CrossLap): `part lap, cross lap, cross-lap, crosslap, half lap, half-lap, halflap, lap, lapped, lap joint, egg crate, egg-crate, eggcrate,
		halving, halved, halving joint, cross halving, interlock, uberblattung, uberplattung, kreuzuberblattung, uberblattet, kreuzverband, eckuberblattung,
		verkammung, mi-bois, a mi-bois, mi bois, entaille a mi-bois, assemblage a mi-bois, media madera, a media madera, cruz, mezzo legno, a mezzo legno,
		mezzolegno, incrocio, na zaklad, zaklad, nakladka, na nakladke, polzaklad, halfhout, halfhoutverbinding, kruisverbinding, halvt i halvt, halvt-i-halvt,
		bladning, korsbladning, halv i halv`,
	string(check.NotchedLap): `notched lap, notch lap, lap notched, notched upright, ausgeklinkte uberblattung`,
	string(check.Dado):       `dado, dadoed, dadoes, housing, housed, housing joint, stopped dado, through dado, nut quer, quernut, eingenutet, nutverbindung, einnutung, entaille transversale, rainure transversale, caja, encastre, cajeado, canale trasversale, incastro a canale, wpust poprzeczny, dwarsgroef, tvarspar`,
	string(check.Groove):     `groove, grooved, plough, plow, ploughed, nut, langsnut, nut langs, rainure, ranura, scanalatura, canale, fuga, wpust, rowek, groef, spar, spont, not`,
	string(check.Rabbet):     `rabbet, rabbeted, rebate, rebated, falz, gefalzt, feuillure, rebaje, galce, rebajo, battuta, wreg, felc, sponning, fals`,
	string(check.CleatJoint): `cleat, cleats, on cleat, on cleats, cleated, batten, ledger, leiste, auflageleiste, tragleiste, auf leiste, tasseau, tasseaux, liston, listones, listello, listelli, listwa, listwy, klos, lat, klamp, steunlat, list, barlist, bararlist`,
	string(check.Butt):       `butt, butted, butt joint, dowel, dowels, dowelled, biscuit, biscuits, screwed, screw, pocket screw, stumpf, gestossen, dubel, gedubelt, lamello, a plat, chants, bout a bout, a tope, tope, clavija, clavijas, di testa, spina, spine, na styk, styk, czolowo, kolek, kolki, stomp, koud, deuvel, deuvels, stum, dymling, plugg, trall`,
	string(check.Notch):      `notch, notched, slot, slotted, mortise, mortice, mortised, open slot, ausklinkung, ausgeklinkt, schlitz, geschlitzt, zapfenloch, encoche, mortaise, muesca, escotadura, intaglio, tacca, mortasa, wciecie, wycieciem, wyciecie, inkeping, sleuf, urtag, hak, jack`,
	string(check.Mitre):      `mitre, miter, mitred, mitered, gehrung, onglet, inglete, quartabuono, ucios, verstek, gering`,
})

// JointKind reads how two parts meet. The longest term decides: "half lap dado" is not asked
// for. ok is false for words that name no joint.
func JointKind(text string) (kind check.JointKind, ok bool) {
	pieces := Cut(strings.ReplaceAll(text, "/", " "))
	most := 0
	for i := range pieces {
		if means, n := jointKinds.at(pieces, i); n > most {
			kind, most, ok = check.JointKind(means), n, true
		}
	}
	return kind, ok
}

// dittos are the words and marks that repeat the cell above.
var dittos = set(`do, ditto, dto, ", '', same, as above, same as above, id, idem, wie oben, w o, dito, ebenso, mismo, come sopra, jw, jak wyzej, als boven, zelfde, samma, s o, -"-, ,,, ~"~, v, ↓`)

// Ditto reports whether a cell only repeats the one above it.
func Ditto(text string) bool {
	if strings.TrimSpace(text) == "" {
		return false
	}
	return dittos[Fold(strings.Trim(strings.TrimSpace(text), "()"))] || dittos[strings.Join(strings.Fields(strings.Map(quotes, text)), "")]
}

func quotes(r rune) rune {
	if strings.ContainsRune("”“″„〃", r) {
		return '"'
	}
	return r
}

// screws matches "3 screws #8 x 2 in", "4x #10 x 1 1/2", "2 Schrauben 4,5 x 50",
// "(3) No. 8 x 2".
var screws = regexp.MustCompile(`(?i)^[\s(]*(?:(\d+)\s*\)?\s*(?:pcs|ea|x|×|-|per)?\s*)?` +
	`([\p{L} .,-]*?)\s*(#\s*\d+|no\.?\s*\d+|nr\.?\s*\d+|\d+\s*g\b|ø?\s*\d(?:[.,]\d+)?)\s*[x×*]\s*(\d[^;|]*?)\s*$`)

// screwWords tell a screw from other fasteners in several languages.
var screwWords = set(`screw, screws, wood screw, wood screws, scr, wdscr, schraube, schrauben, holzschrauben, spax, vis, vis a bois, tornillo, tornillos, vite, viti, wkret, wkrety, sruby, wkretow, schroef, schroeven, skruv, skruvar, traskruv, deck screws, trim screws, trim head screws, cabinet screws, pocket screws`)

// Screws reads the screws of a joint, their number at each joint first. The gauge keeps its
// sign: "#8"; a thread in millimetres is the number alone. ok is false for any other fastener.
func Screws(text string, unit length.Unit) (s *check.Screws, ok bool) {
	m := screws.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return nil, false
	}
	word := Fold(m[2])
	gauge := strings.ToLower(strings.ReplaceAll(m[3], " ", ""))
	numbered := !isDigit(gauge[0]) || strings.HasSuffix(gauge, "g")
	if word != "" && !screwWords[word] || word == "" && !numbered {
		return nil, false
	}
	if numbered {
		gauge = "#" + strings.TrimFunc(gauge, func(r rune) bool { return r < '0' || r > '9' })
	} else {
		gauge = strings.ReplaceAll(strings.TrimPrefix(gauge, "ø"), ",", ".")
	}
	v, _, err := Value(strings.TrimSuffix(m[4], " long"), screwUnit(m[4], numbered, unit), "the length of a screw")
	if err != nil {
		return nil, false
	}
	k := length.Convert(1, screwUnit(m[4], numbered, unit), unit)
	s = &check.Screws{Gauge: gauge, Length: v.Scale(k)}
	if n, err := strconv.Atoi(m[1]); err == nil && n > 0 {
		s.Count = check.Exact(float64(n))
	}
	return s, true
}

// screwUnit is the unit of a bare screw length: a metric thread has metric lengths, and a
// number size inches, unless the text says otherwise or the length is a number of
// millimetres beyond any wood screw in inches.
func screwUnit(text string, numbered bool, unit length.Unit) length.Unit {
	switch {
	case length.UnitIn(text) != length.Unsaid:
		return unit
	case !numbered:
		return length.Millimetre
	case unit.Metric() && !strings.Contains(text, "/"):
		return unit
	}
	return length.Inch
}
