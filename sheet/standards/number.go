package standards

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dryfit/check/length"
	"dryfit/check/standard"
)

// lengthUnits are the units in which a length may be typed as a shop types it: 3/4, 6'-8".
var lengthUnits = map[string]length.Unit{
	"in": length.Inch, "ft": length.Foot, "mm": length.Millimetre, "cm": length.Centimetre, "m": length.Metre,
}

// number reads a value: 0.75, 0,75, 3/4, 19 mm, 25 lb/ft, 60 %. unit is that of a bare
// number; typed is the unit that the value is in. The error says what was wanted.
func number(text, unit string) (value float64, typed string, err error) {
	text = strings.TrimSpace(text)
	bare, typed := cutUnit(text, unit)
	if v, err := strconv.ParseFloat(strings.Replace(bare, ",", ".", 1), 64); err == nil && finite(v) {
		return v, typed, nil
	}
	u, isLength := lengthUnits[typed]
	if !isLength {
		return 0, "", fmt.Errorf("a number wanted, in %s unless it names its unit", unit)
	}
	l, lengthErr := length.Parse(text, length.Context{Unit: u, Plain: true})
	switch {
	case lengthErr != nil:
		return 0, "", fmt.Errorf("a number or a length wanted, such as 0.75, 3/4 or 19 mm, in %s unless it names its unit", unit)
	case l.Doubt != "":
		return 0, "", fmt.Errorf("one reading wanted: %s", l.Doubt)
	}
	return l.In(u).Nominal, typed, nil
}

// cutUnit takes a unit of ours off the end of a text.
func cutUnit(text, unit string) (bare, typed string) {
	units := standard.Units()
	slices.SortFunc(units, func(a, b string) int { return len(b) - len(a) })
	for _, u := range units {
		if u == "1" {
			continue
		}
		if rest, ok := strings.CutSuffix(text, u); ok && rest != "" {
			return strings.TrimSpace(rest), u
		}
	}
	return text, unit
}

// unitOf reads a unit as typed: capitals do not matter where they mean nothing.
func unitOf(text string) (string, bool) {
	text = strings.TrimSpace(text)
	if _, ok := standard.Measures(text); ok {
		return text, true
	}
	for _, u := range standard.Units() {
		if strings.EqualFold(u, text) {
			return u, true
		}
	}
	alias, ok := map[string]string{
		`"`: "in", "inch": "in", "inches": "in", "'": "ft", "lbs": "lb", "pounds": "lb", "mils": "mil", "thou": "mil",
		"lb/ft2": "psf", "lbs/ft": "lb/ft", "plf": "lb/ft", "pcf": "lb/ft3", "percent": "%", "kg/m³": "kg/m3", "lb/ft³": "lb/ft3",
		"n/mm²": "N/mm2", "kg/m²": "kg/m2", "share": "1", "count": "1", "-": "1",
	}[strings.ToLower(text)]
	return alias, ok
}
