package read

import (
	"regexp"
	"strings"

	"dryfit/check/length"
	"dryfit/sheet/read/phrase"
)

// The fields of a joint schedule. A member is a part of which the header does not say
// whether it is slotted or goes in.
const (
	jMark    Field = "joint mark"
	jMember  Field = "member"
	jInto    Field = "slotted part"
	jEnters  Field = "part that goes in"
	jKind    Field = "kind of joint"
	jCount   Field = "number of joints"
	jSlotNo  Field = "slot number"
	jWidth   Field = "slot width"
	jDepth   Field = "depth"
	jDepthIn Field = "depth in the slotted part"
	jDepthOf Field = "depth in the part that goes in"
	jFrom    Field = "end"
	jAt      Field = "positions"
	jSide    Field = "side notch"
	jFront   Field = "front notch"
	jFit     Field = "fit"
	jFast    Field = "fastener"
	jNote    Field = "joint note"
)

// jointWords are the header words of joint schedules, as fold leaves them.
var jointWords = newLexicon([]fieldWords{
	{jMark, `what|verb nr|jt|jt no|jnt|jnt no|joint|joint no|joint mark|joint id|joint ref|mark|mk|ref|verbindung|verbindung nr|verb|verb nr|verbindungs nr|assemblage|assemblage no|
		repere|union|junta|ensamble|ens|giunto|giunto n|giunzione|polaczenie|zlacze|polaczenie nr|verbinding|verbinding nr|verb|fog|fog nr|forband|forband nr`},
	{jInto, `in|into|slotted pc|slotted piece|notched pc|let into|im bauteil|in das teil|dans la piece|dans l element|en la pieza|nel pezzo|nell elemento|w element|in het deel|in onderdeel|i delen|slotted part|slotted|slotted in|slot in|notched|notched part|cut in|cut into|in part|goes into|goes in|fits into|fits in|receiver|receiving|receiving part|rcvr|recv part|host|part a|member a|a|housing part|part slotted|slotted member|notched member|part notched|part cut|part with slot|part a slotted|female|member 1|part 1|piece 1|first part|carrier|crossing member|through part|
		im teil|in teil|teil a|geschlitzt|geschlitztes teil|aufnehmend|aufnehmendes teil|in bauteil|geht in|dans|dans piece|piece a|piece entaillee|entaillee|entre dans|en|en pieza|pieza a|pieza ranurada|entra en|
		in pezzo|pezzo a|pezzo intagliato|entra in|w elemencie|element a|w czesci|wchodzi w|in deel|deel a|ingekeept deel|gaat in|i del|del a|urtagen del|gar in i`},
	{jEnters, `goes in it|what goes in|rcvs|was geht rein|ce qui entre|recvs|receives|takes|accepts|enters|part b|member b|b|part in|part going in|incoming|incoming part|mating part|other part|guest|male|member 2|part 2|piece 2|second part|part entering|part that goes in|goes in part|insert|inserted|inserted part|entering|entering part|
		nimmt auf|nimmt|teil b|eingestecktes teil|einsteckteil|eingesteckt|recoit|piece b|piece qui entre|recibe|pieza b|pieza que entra|riceve|pezzo b|pezzo che entra|przyjmuje|element b|
		wchodzacy|element wchodzacy|ontvangt|neemt|deel b|ingestoken deel|tar emot|tar|del b|instickande del`},
	{jMember, `part|member|piece|upright|uprights|upr|shelf|shelves|teil|bauteil|stander|mittelwand|boden|fachboden|piece|montant|tablette|etagere|pieza|montante|estante|balda|
		pezzo|montante|ripiano|element|czesc|przegroda|polka|onderdeel|deel|staander|legplank|plank|del|detalj|stolpe|hylla`},
	{jKind, `type|kind|joint type|type of joint|joint kind|kind of joint|connection|joinery|how|art|verbindungsart|typ|art der verbindung|type assemblage|type d assemblage|genre|tipo|tipo de union|tipo union|tipo di giunto|tipo giunto|rodzaj|
		rodzaj polaczenia|typ polaczenia|soort|soort verbinding|type verbinding|sort|typ av fog|fogtyp`},
	{jCount, `aant|ant|anz|nbre|cdad|no|no off|number|qty|quantity|count|how many|pcs|crossings|no of crossings|total|nr|anzahl|stk|stuck|menge|kreuzungen|nombre|nb|qte|quantite|croisements|cantidad|cant|numero|cruces|quantita|q ta|n|pz|incroci|
		ilosc|szt|sztuk|aantal|st|antal|stuks|mangd`},
	{jSlotNo, `slot|slot no|slot nr|slot #|notch no|no of slot|schlitz|schlitz nr|nut nr|encoche|encoche no|no encoche|ranura|ranura no|no ranura|muesca|intaglio|intaglio n|incastro n|wciecie|wciecie nr|nr wciecia|sleuf|sleuf nr|inkeping|urtag|urtag nr|spar nr`},
	{jWidth, `wide|broad|how wide|slot w|nut b|schlitz breite|nut breite|larg rainure|largeur de rainure|largh scanalatura|larghezza scanalatura|largh|ancho de ranura|szer rowka|szerokosc rowka|groefbreedte|notbredd|sparbr|slot width|slot wd|slot|width|w|wd|dado w|dado width|groove width|notch width|cut width|width cut|width as cut|w cut|slot size|notch height|schlitzbreite|nutbreite|breite|schlitz b|b|schlitzmass|largeur|larg|largeur encoche|largeur rainure|
		ancho|ancho ranura|ancho muesca|larghezza|larghezza intaglio|larg|szerokosc|szer|szerokosc wciecia|szer wciecia|breedte|sleufbreedte|breedte sleuf|bredd|sparbredd|urtagsbredd`},
	{jDepthIn, `dp in a|depth in a|depth a|dp a|d in a|d a|deep a|depth in slotted part|depth 1|dp 1|d1|depth cut a|cut a|depth in 1|depth slotted part|tiefe a|tiefe in a|t a|prof a|profondeur a|profondeur en a|prof en a|profundidad a|prof en a|profundidad en a|profondita a|profondita in a|gleb a|glebokosc a|glebokosc w a|
		diepte a|diepte in a|djup a|djup i a`},
	{jDepthOf, `dp in b|depth in b|depth 2|dp 2|d2|depth cut b|cut b|depth in 2|depth in other|depth other part|depth in part that goes in|depth in mating part|depth in entering part|depth in part in|depth b|dp b|d in b|d b|deep b|tiefe b|tiefe in b|t b|prof b|profondeur b|profondeur en b|prof en b|profundidad b|profundidad en b|profondita b|profondita in b|gleb b|glebokosc b|glebokosc w b|diepte b|diepte in b|djup b|djup i b`},
	{jDepth, `how deep|depth|nut tiefe|nut t|prof rainure|prof ranura|prof scanalatura|gleb rowka|glebokosc rowka|groefdiepte|notdjup|dp|d|deep|slot d|slot dp|slot depth|dado depth|depth cut|cut depth|notch depth|tiefe|schlitztiefe|nuttiefe|profondeur|prof|profundidad|profondita|glebokosc|gleb|diepte|sleufdiepte|djup|urtagsdjup|spardjup`},
	{jFrom, `from|end|from end|datum|measured from|meas from|ref end|ab|von|bezug|bezugskante|gemessen ab|gemessen von|depuis|a partir de|origine|desde|a partir|origen|da|partenza|od|od ktorej|mierzone od|vanaf|gemeten vanaf|fran|matt fran`},
	{jAt, `up|hohe von unten|hohen von unten|hauteur du bas|altura desde abajo|quote dal basso|wysokosc od dolu|hoogte vanaf onder|hojd fran botten|ctrs|ctr|centers|centres|center lines|centre lines|c l|cl|positions|position|pos|at|location|locations|loc|heights|height|spacing|stations|layout|positionen|lage|hohen|achsmass|achsmasse|achsen|position|positions|hauteurs|entraxes|axes|posiciones|posicion|alturas|ejes|
		posizioni|posizione|quote|altezze|interassi|assi|pozycje|pozycja|wysokosci|osie|rozmieszczenie|posities|positie|hoogtes|hartmaten|lagen|positioner|lage|hojder|c c`},
	{jSide, `side notch|side notches|notch side|notch at side|notch sides|sides|side|n side|notch each side|seite|ausklinkung seite|ausklinkung seitlich|seitlich|encoche cote|encoche laterale|cote|laterale|muesca lateral|lateral|
		intaglio laterale|wciecie boczne|bok|inkeping zij|zij|inkeping zijkant|urtag sida|sidourtag|sida`},
	{jFront, `front notch|notch front|notch at front|front|n front|vorn|ausklinkung vorn|ausklinkung vorne|encoche avant|avant|muesca frontal|frontal|frente|intaglio frontale|frontale|fronte|wciecie przod|wciecie przednie|przod|inkeping voor|voor|inkeping voorkant|urtag fram|fram|framurtag`},
	{jFit, `fit|clearance|clearance wanted|spiel|jeu|holgura|gioco|speling|spelrum|luz|fit wanted|class of fit|passung|passsitz|sitz|ajustement|ajuste|accoppiamento|pasowanie|passing|passning`},
	{jFast, `fastener|fasteners|fastening|fixing|fixings|fixed with|screws|screw|hardware|befestigung|schrauben|verschraubung|fixation|fixations|vis|fijacion|tornillos|herraje|fissaggio|viti|mocowanie|wkrety|laczniki|bevestiging|schroeven|infastning|skruv|fast`},
	{jNote, `note|notes|remark|remarks|rmk|rmks|comment|comments|bemerkung|bemerkungen|hinweis|remarque|remarques|observaciones|nota|notas|note|uwagi|uwaga|opmerking|opmerkingen|anm|anmarkning`},
})

// numberedPosition matches "Pos 2", "c/l 3", "@4": one position a column.
var numberedPosition = regexp.MustCompile(`^(pos|position|positie|pozycja|posicion|posizione|c l|cl|ctr|achse|axe|at|@|slot|shelf|boden)? ?#?[1-9][0-9]?$`)

// jointField names the field of a header text of a joint schedule.
func jointField(text string) Field {
	if len(text) > maxHeader {
		return fUnknown
	}
	outside := strings.TrimSpace(bracketed.ReplaceAllString(text, " "))
	for _, t := range []string{text, outside, withoutUnits(outside)} {
		if fs := jointWords.exact(t); fs != nil {
			return fs[0]
		}
	}
	key := fold(text)
	var p phrase.Positions
	p.Header(text)
	switch {
	case numberedPosition.MatchString(key):
		return jAt
	case p.Centres || p.Far || p.Edges || p.Bays != nil:
		return jAt
	}
	words := strings.Fields(fold(outside))
	if f := jointPhrase(words); f != fUnknown {
		return f
	}
	if len(words) > 1 && phrase.End(text) != "" { // "Positions from bottom"
		if fs := jointWords.exact(words[0]); fs != nil && fs[0] == jAt {
			return jAt
		}
	}
	if fs := jointWords.near(outside); fs != nil {
		return fs[0]
	}
	return fUnknown
}

// jointPhrase names the field of a header of several words by the words that tell: "notch
// depth at the sides", "width of slot as cut".
func jointPhrase(words []string) Field {
	if len(words) < 2 {
		return fUnknown
	}
	says := func(list string) bool {
		for _, w := range words {
			if strings.Contains(" "+list+" ", " "+w+" ") {
				return true
			}
		}
		return false
	}
	cut := says("slot slots dado groove notch notches cut schlitz nut encoche ranura muesca intaglio wciecia sleuf urtag")
	deep := says("depth dp deep tiefe profondeur profundidad profondita glebokosc diepte djup")
	switch {
	case says("notch notches neck ausklinkung") && says("side sides seite seiten seitlich"):
		return jSide
	case says("notch notches ausklinkung") && says("front vorn vorne"):
		return jFront
	case deep && says("b 2 other second mating entering goes enters receives"):
		return jDepthOf
	case deep && says("a 1 first slotted notched"):
		return jDepthIn
	case deep && cut:
		return jDepth
	case cut && says("width w wd wide breite largeur ancho larghezza szerokosc breedte bredd"):
		return jWidth
	case says("slotted notched dadoed grooved geschlitzt geschlitzte entaillee ranurada intagliato"):
		return jInto
	case says("enters entering inserted incoming inserting eingesteckte"):
		return jEnters
	case says("screw screws fastener fasteners schrauben"):
		return jFast
	}
	return fUnknown
}

// withoutUnits takes the unit off a header such as "slot width mm".
func withoutUnits(text string) string {
	var kept []string
	for _, w := range strings.Fields(text) {
		if len(kept) == 0 || length.UnitIn("("+w+")") == length.Unsaid {
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, " ")
}

// plainWord reports whether a header is a word of its own but for the unit behind it: a
// "Width (mm)" says no more of slots than a width does.
func plainWord(text string) bool {
	outside := strings.TrimSpace(bracketed.ReplaceAllString(text, " "))
	return jointWords.exact(text) != nil || jointWords.exact(withoutUnits(outside)) != nil
}

// telling are the fields that no parts table has.
var telling = map[Field]bool{
	jInto: true, jEnters: true, jDepthIn: true, jDepthOf: true, jAt: true, jSide: true, jFront: true, jFit: true, jSlotNo: true, jFrom: true,
}

// isJointHeader reports whether header words are those of a joint schedule: a part, and
// enough that only such a schedule says.
func isJointHeader(cols []sideCol) bool {
	seen := map[Field]bool{}
	tells := 0
	for _, c := range cols {
		if telling[c.field] && !seen[c.field] {
			tells++
		}
		seen[c.field] = true
		if c.field == jWidth && !plainWord(c.text) || strings.Contains(fold(c.text), "slot") {
			tells++
		}
		if c.field == jMark && strings.HasPrefix(fold(c.text), "j") {
			tells++
		}
	}
	parts := seen[jInto] || seen[jEnters] || seen[jMember]
	cut := seen[jWidth] || seen[jKind] || seen[jAt] || seen[jDepth] || seen[jDepthIn]
	return parts && cut && tells >= 2 && fieldCount(cols) >= 4
}
