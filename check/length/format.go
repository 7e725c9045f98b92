package length

import (
	"math"
	"strconv"
)

// Figure prints a value as the shop writes it, without the unit: inches and feet as a
// fraction to the nearest 1/64 (2 5/16), millimetres to the nearest 0.1 (58.7), other
// metric units to the same tenth of a millimetre (5.87 cm). A value between two of these
// is rounded to the nearer and carries no sign for it; use [Step] to round to a safe side.
func Figure(value float64, unit Unit) string {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return "?"
	}
	switch unit {
	case Inch, Foot:
		return fraction(value)
	case Millimetre:
		return tenth(value, 1)
	case Centimetre:
		return tenth(value, 2)
	case Decimetre:
		return tenth(value, 3)
	case Metre:
		return tenth(value, 4)
	}
	return plain(value)
}

// Format prints a value with its unit: 2 5/16 in, 58.7 mm. The unit Unsaid prints none.
func Format(value float64, unit Unit) string {
	if unit == Unsaid {
		return Figure(value, unit)
	}
	return Figure(value, unit) + " " + unit.String()
}

// FeetInches prints a value in inches as 7'-6 1/2", to the nearest 1/64.
func FeetInches(inches float64) string {
	if math.IsNaN(inches) || math.Abs(inches) > 1e9 {
		return "?"
	}
	sign := ""
	if inches < 0 {
		sign, inches = "-", -inches
	}
	inches = math.Round(inches*64) / 64
	feet := math.Floor(inches / 12)
	return sign + strconv.FormatFloat(feet, 'f', -1, 64) + "'-" + fraction(inches-12*feet) + `"`
}

// fraction prints to the nearest 1/64, in lowest terms.
func fraction(v float64) string {
	if math.Abs(v) > 1e9 {
		return plain(v)
	}
	parts := int64(math.Round(math.Abs(v) * 64))
	sign := ""
	if v < 0 && parts > 0 {
		sign = "-"
	}
	whole, num, den := parts/64, parts%64, int64(64)
	for num > 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	text := strconv.FormatInt(num, 10) + "/" + strconv.FormatInt(den, 10)
	switch {
	case num == 0:
		return sign + strconv.FormatInt(whole, 10)
	case whole == 0:
		return sign + text
	}
	return sign + strconv.FormatInt(whole, 10) + " " + text
}

// tenth prints with the given decimals, without trailing noughts.
func tenth(v float64, decimals int) string {
	scale := math.Pow10(decimals)
	r := math.Round(v*scale) / scale
	if r == 0 {
		r = 0 // no minus before a nought
	}
	return strconv.FormatFloat(r, 'f', -1, 64)
}
