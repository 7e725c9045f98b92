package length

import "strings"

// Unit is a unit of length.
type Unit int

// The units that are read. Unsaid is the unit of a bare number of which nobody said one.
const (
	Unsaid Unit = iota
	Inch
	Foot
	Millimetre
	Centimetre
	Decimetre
	Metre
)

// String gives the short form that is printed beside a number: in, ft, mm, cm, dm, m, or
// nothing for Unsaid.
func (u Unit) String() string {
	switch u {
	case Inch:
		return "in"
	case Foot:
		return "ft"
	case Millimetre:
		return "mm"
	case Centimetre:
		return "cm"
	case Decimetre:
		return "dm"
	case Metre:
		return "m"
	}
	return ""
}

// Word spells the unit out, for a sentence: "inches" where "in" would be read as a word.
func (u Unit) Word() string {
	switch u {
	case Inch:
		return "inches"
	case Foot:
		return "feet"
	case Millimetre:
		return "millimetres"
	case Centimetre:
		return "centimetres"
	case Decimetre:
		return "decimetres"
	case Metre:
		return "metres"
	}
	return ""
}

// Metric reports whether u is one of the metric units.
func (u Unit) Metric() bool { return u >= Millimetre && u <= Metre }

// Imperial reports whether u is the inch or the foot.
func (u Unit) Imperial() bool { return u == Inch || u == Foot }

// tenths is the unit in tenths of a millimetre, a whole number for each (the inch is
// 25.4 mm exactly), so that 8 ft become 96 in without a rounding.
func (u Unit) tenths() float64 {
	switch u {
	case Inch:
		return 254
	case Foot:
		return 3048
	case Millimetre:
		return 10
	case Centimetre:
		return 100
	case Decimetre:
		return 1000
	}
	return 10000
}

// Convert expresses a value given in one unit in another. A value of unit Unsaid, or one
// wanted in it, comes back as it is.
func Convert(value float64, from, to Unit) float64 {
	if from == to || from == Unsaid || to == Unsaid {
		return value
	}
	return value * from.tenths() / to.tenths()
}

// unitWords holds the words of each unit, lower case and without full stops, in English,
// German, French (of Québec too), Spanish, Italian, Polish, Dutch and Swedish.
var unitWords = index(map[Unit]string{
	Inch: `in ins inch inches zoll pouce pouces po pulgada pulgadas pulg pollice pollici
		cal cale cali duim tum`,
	Foot: `ft foot feet fuß fuss pied pieds pi pie pies piede piedi stopa stopy stóp
		voet fot lf`,
	Millimetre: `mm millimeter millimeters millimetre millimetres millimètre millimètres
		milimetro milimetros milímetro milímetros millimetro millimetri milimetr milimetry
		milimetrów`,
	Centimetre: `cm centimeter centimeters centimetre centimetres zentimeter centimètre
		centimètres centimetro centimetros centímetro centímetros centimetri centymetr
		centymetry centymetrów`,
	Decimetre: `dm decimeter decimeters decimetre decimetres dezimeter`,
	Metre: `m mt mts mtr mtrs meter meters metre metres mètre mètres metro metros metri
		metr metry metrów lfm lm ml`,
})

func index[K comparable](words map[K]string) map[string]K {
	found := map[string]K{}
	for key, list := range words {
		for _, word := range strings.Fields(list) {
			found[word] = key
		}
	}
	return found
}

// UnitIn finds the one unit that a header, a title or a number format names: "Length (mm)",
// "all sizes in inches", `0" mm"`, "Size (in x in)". It returns Unsaid where none stands, or
// where two disagree. A lone "in" or "m" counts only in brackets, after a comma or slash,
// or as the whole text, because "Qty in case" names no unit.
func UnitIn(text string) Unit {
	tokens := scan(text)
	found := Unsaid
	for i := range tokens {
		unit := namedBy(tokens, i)
		switch {
		case unit == Unsaid:
		case found != Unsaid && found != unit:
			return Unsaid
		default:
			found = unit
		}
	}
	return found
}

func namedBy(tokens []token, i int) Unit {
	t := tokens[i]
	switch {
	case t.kind == inchMark && len(tokens) == 1:
		return Inch
	case t.kind != word:
		return Unsaid
	}
	unit, ok := unitWords[t.text]
	if !ok {
		return Unsaid
	}
	if len(t.text) > 2 || t.text == "mm" || t.text == "cm" || t.text == "ft" {
		return unit
	}
	if len(tokens) == 1 || fenced(tokens, i) {
		return unit
	}
	return Unsaid
}

// fenced reports whether the word stands between marks, not between other words.
func fenced(tokens []token, i int) bool {
	apart := func(t token) bool { return t.kind != word && t.kind != digits }
	before := i == 0 || apart(tokens[i-1])
	after := i+1 == len(tokens) || apart(tokens[i+1])
	return before && after
}
