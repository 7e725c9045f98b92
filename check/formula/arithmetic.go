package formula

import (
	"errors"
	"fmt"
	"math"
	"strconv"
)

var errTooLarge = errors.New("result too large for a number")

// operators work on two numbers. A comparison yields 1 or 0.
var operators = map[string]func(x, y float64) (float64, error){
	"+": func(x, y float64) (float64, error) { return sum(x, y), nil },
	"-": func(x, y float64) (float64, error) { return sum(x, -y), nil },
	"*": func(x, y float64) (float64, error) { return x * y, nil },
	"/": quotient,
	"^": power,

	"=":  func(x, y float64) (float64, error) { return truth(same(x, y)), nil },
	"<>": func(x, y float64) (float64, error) { return truth(!same(x, y)), nil },
	"<":  func(x, y float64) (float64, error) { return truth(x < y && !same(x, y)), nil },
	"<=": func(x, y float64) (float64, error) { return truth(x < y || same(x, y)), nil },
	">":  func(x, y float64) (float64, error) { return truth(x > y && !same(x, y)), nil },
	">=": func(x, y float64) (float64, error) { return truth(x > y || same(x, y)), nil },
}

// functions work on one number.
var functions = map[string]func(x float64) (float64, error){
	"ABS":  func(x float64) (float64, error) { return math.Abs(x), nil },
	"NOT":  func(x float64) (float64, error) { return 1 - x, nil },
	"SQRT": root,
}

// roundings make a size at or above zero whole.
var roundings = map[string]func(x float64) float64{
	"ROUND":     func(x float64) float64 { return math.Floor(x + 0.5) },
	"ROUNDUP":   math.Ceil,
	"ROUNDDOWN": math.Floor,
}

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// same holds for numbers that differ by less than 2^-48 of either, about the 15 digits a
// spreadsheet shows: there .1+.2 is .3, and it must be here.
func same(x, y float64) bool {
	const part = 1.0 / (1 << 48)
	d := math.Abs(x - y)
	return x == y || d < math.Abs(x)*part && d < math.Abs(y)*part
}

// sum is zero where the terms cancel but for rounding, as in a spreadsheet: .3-.1-.2 is 0.
func sum(x, y float64) float64 {
	if same(x, -y) {
		return 0
	}
	return x + y
}

func power(x, y float64) (float64, error) {
	switch {
	case x == 0 && y == 0:
		return 0, errors.New("zero to the power zero")
	case x == 0 && y < 0:
		return 0, errors.New("divided by zero")
	case x < 0 && y != math.Trunc(y):
		return 0, errors.New("broken power of a negative number")
	}
	return math.Pow(x, y), nil
}

func quotient(x, y float64) (float64, error) {
	if y == 0 {
		return 0, errors.New("divided by zero")
	}
	return x / y, nil
}

func root(x float64) (float64, error) {
	if x < 0 {
		return 0, fmt.Errorf("square root of %v", x)
	}
	return math.Sqrt(x), nil
}

// round cuts the size of x, whatever its sign, to whole steps of 10^-places. Sizes are taken
// to 15 digits first, as spreadsheets do: 1.005 to 2 places is 1.01 although the binary number
// lies below it.
func round(x, places float64, whole func(float64) float64) (float64, error) {
	const most = 15
	if places != math.Trunc(places) || math.Abs(places) > most {
		return 0, fmt.Errorf("%v places; expected a whole number from -%d to %d", places, most, most)
	}
	scale := math.Pow10(int(math.Abs(places)))
	size := math.Abs(x) * scale
	if places < 0 {
		size = math.Abs(x) / scale
	}
	if size >= 1e15 {
		return x, nil
	}
	digits, err := strconv.ParseFloat(strconv.FormatFloat(size, 'e', 14, 64), 64)
	if err != nil {
		return 0, err
	}
	result := whole(digits) / scale
	if places < 0 {
		result = whole(digits) * scale
	}
	if math.IsInf(result, 0) {
		return 0, errTooLarge
	}
	return math.Copysign(result, x), nil
}
