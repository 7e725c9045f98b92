package formula

import (
	"errors"
	"fmt"
	"math"
	"strconv"
)

// evaluator gives the number behind a symbol.
type evaluator func(name string) (float64, bool)

var errTooLarge = errors.New("result too large for a number")

func (e evaluator) text(n node) (string, error) {
	if c, ok := n.(call); ok {
		chosen, err := e.chosen(c)
		if err != nil {
			return "", err
		}
		return e.text(chosen)
	}
	return string(n.(quoted)), nil
}

// chosen is the branch that IF takes; the other is never worked out.
func (e evaluator) chosen(c call) (node, error) {
	truth, err := e.number(c.args[0])
	if truth != 0 {
		return c.args[1], err
	}
	return c.args[2], err
}

func (e evaluator) number(n node) (float64, error) {
	switch n := n.(type) {
	case literal:
		return float64(n), nil
	case symbol:
		x, known := e(string(n))
		if !known {
			return 0, fmt.Errorf("no value for %s", string(n))
		}
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return 0, fmt.Errorf("%s is %v; expected a finite number", string(n), x)
		}
		return x, nil
	case negated:
		x, err := e.number(n.of)
		return -x, err
	case binary:
		return e.binary(n)
	}
	return e.call(n.(call))
}

func (e evaluator) binary(b binary) (float64, error) {
	x, err := e.number(b.left)
	if err != nil {
		return 0, err
	}
	y, err := e.number(b.right)
	if err != nil {
		return 0, err
	}
	result, err := operate(b.op, x, y)
	if err == nil && math.IsInf(result, 0) {
		err = errTooLarge
	}
	if err != nil {
		return 0, fmt.Errorf("%s with %v and %v: %w", plain(b), x, y, err)
	}
	return result, nil
}

func operate(op string, x, y float64) (float64, error) {
	switch op {
	case "+":
		return sum(x, y), nil
	case "-":
		return sum(x, -y), nil
	case "*":
		return x * y, nil
	case "/":
		if y == 0 {
			return 0, errors.New("divided by zero")
		}
		return x / y, nil
	case "^":
		return power(x, y)
	case "=":
		return truth(same(x, y)), nil
	case "<>":
		return truth(!same(x, y)), nil
	case "<":
		return truth(x < y && !same(x, y)), nil
	case "<=":
		return truth(x < y || same(x, y)), nil
	case ">":
		return truth(x > y && !same(x, y)), nil
	}
	return truth(x > y || same(x, y)), nil
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

func (e evaluator) call(c call) (float64, error) {
	if c.name == "IF" {
		chosen, err := e.chosen(c)
		if err != nil {
			return 0, err
		}
		return e.number(chosen)
	}
	args := make([]float64, len(c.args))
	for i, arg := range c.args {
		var err error
		if args[i], err = e.number(arg); err != nil {
			return 0, err
		}
	}
	result, err := apply(c.name, args)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", plain(c), err)
	}
	return result, nil
}

func apply(name string, args []float64) (float64, error) {
	switch name {
	case "PI":
		return math.Pi, nil
	case "ABS":
		return math.Abs(args[0]), nil
	case "NOT":
		return 1 - args[0], nil
	case "SQRT":
		if args[0] < 0 {
			return 0, fmt.Errorf("square root of %v", args[0])
		}
		return math.Sqrt(args[0]), nil
	case "ROUND":
		return round(args[0], args[1], func(x float64) float64 { return math.Floor(x + 0.5) })
	case "ROUNDUP":
		return round(args[0], args[1], math.Ceil)
	case "ROUNDDOWN":
		return round(args[0], args[1], math.Floor)
	}
	least, most := args[0], args[0]
	for _, x := range args[1:] {
		least, most = min(least, x), max(most, x)
	}
	if name == "MIN" || name == "AND" {
		return least, nil
	}
	return most, nil // MAX and OR
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
