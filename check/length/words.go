package length

import "strings"

// axisWords maps what people write for an axis to its letter.
var axisWords = index(map[byte]string{
	'L': `l lg long length len länge lang longueur largo longitud lunghezza długość dług lengte längd`,
	'W': `w wd wide width b br breite breit breadth largeur larg ancho larghezza szerokość szer breedte bredd`,
	'H': `h ht hgt high height tall höhe hoch hauteur haut alto altura altezza wysokość wys hoogte höjd`,
	'D': `d dp deep depth tiefe tief profondeur prof fondo profundidad profondità głębokość głęb gł diepte djup`,
	'T': `t th thk thick thickness dick dicke stärke épaisseur ép ep spessore sp espesor grubość gr dikte tjocklek tj`,
})

func isAxis(text string) bool { _, ok := axisWords[text]; return ok }

// adjectives are the axis words that always stand behind their number.
var adjectives = set("long wide high tall deep thick lang breit hoch tief dick")

// sheetWords name stock that comes in sheets, sold by the foot in North America.
var sheetWords = set(`sheet sheets sht panel mdf hdf mdo hdo ply plywood pb particleboard osb hardboard
	melamine laminate mel`)

// noteWords may stand beside one length and are kept as its note.
var noteWords = set(`net clr clear finished fin fs typ typical oc ctrs c-c aff hold ro oa od id cl cut rough gross
	overall inside outside long each uno nts sim eq only exactly exact each or equal nominal nom actual act
	* site field measured meas top btm bottom mid middle left right l r lh rh o at to of face flush tight
	licht lichte fertig netto brutto roh rohmaß fertigmaß`)

// fieldWords say that the value is still to be measured.
var fieldWords = set("vif verify tbc tbd tba xx check confirm ?")

// boundWords say that the number is a limit, not a size.
var boundWords = set("min minimum max maximum mini maxi least most")

// isLimit reports whether a token makes the number beside it a limit.
func isLimit(t token) bool {
	return t.kind == word && boundWords[t.text] || t.kind == other && strings.Contains("<>≤≥", t.text)
}

// otherThings names what a number with one of these words is.
var otherThings = index(map[string]string{
	"a weight":         "kg kgs lb lbs g gr oz pound pounds kilo kilos t tons",
	"a count":          "pcs pc pce pieces piece ea each pr pair pairs set sets szt st stk stück pz off no nr x doz dozen",
	"layers":           "lyr lyrs layer layers ply plies lagen lagig",
	"an angle":         "deg degree degrees grad",
	"a gauge":          "ga gauge gage",
	"thousandths":      "mil mils thou",
	"an area":          "sq sqft sqm sf m2 ft2 qm",
	"a volume or time": "bf bdft cf h hr hrs min mins cuft",
})

// Absence is what a cell without a length says.
type Absence int

const (
	Something Absence = iota // not one of the words below: try Parse
	Blank                    // empty, or spaces only
	None                     // there is none: "-", "n/a", "none"
	Unknown                  // there is one that nobody has written down: "?", "TBD", "O.K."
)

// String gives the word used in messages.
func (a Absence) String() string {
	return [...]string{"something", "blank", "none", "unknown"}[a]
}

var absences = map[Absence]map[string]bool{
	None: phrases(`n/a | n.a | na | n/r | nr | none | no | nil | null | not applicable | not appl | not req'd |
		not required | w/o | without | omit | omitted | deleted | void | not used | n.i.c | nic |
		keine | kein | entfällt | aucun | aucune | sans | néant | ninguno | ninguna | sin | nessuno | nessuna |
		brak | nie dotyczy | geen | n.v.t | nvt | ingen | inga`),
	Unknown: phrases(`tbd | t.b.d | tba | tbc | t.b.c | vif | v.i.f | verify | verify in field | field verify |
		to be determined | to be confirmed | to be measured | tbm | field measure | measure | unknown | unk |
		ok | o.k | okay | good | see dwg | see drawing | per dwg | per drawing | n.t.s | later | pending | ask | hold |
		by others | b.o | by owner | site | varies | var | various | as req'd | as required | to suit | suit |
		xx | xxx | eq | equal | bal | balance | #n/a |
		offen | unbekannt | fehlt | à définir | a définir | à voir | por definir | da definire | do ustalenia |
		nieznane | onbekend | okänd`),
}

func phrases(text string) map[string]bool {
	found := map[string]bool{}
	for _, phrase := range strings.Split(text, "|") {
		found[strings.Join(strings.Fields(phrase), " ")] = true
	}
	return found
}

// Nothing says whether a cell says that it holds no length, and of which kind that is.
func Nothing(text string) Absence {
	t := strings.ToLower(strings.Join(strings.Fields(strings.Map(visible, text)), " "))
	if t == "" {
		return Blank
	}
	if strings.Trim(t, "?¿!… .") == "" {
		return Unknown
	}
	if strings.Trim(t, "-–—−‐_./\\ ") == "" {
		return None
	}
	t = strings.ReplaceAll(strings.Trim(t, " .?!()[]*<>:"), "’", "'")
	for _, kind := range []Absence{None, Unknown} {
		if absences[kind][t] {
			return kind
		}
	}
	return Something
}

func visible(r rune) rune {
	if strings.ContainsRune(unseen, r) {
		return -1
	}
	return r
}
