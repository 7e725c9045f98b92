package formula

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// evaluator walks the tree of a formula and looks each symbol up by its name, with nothing
// prepared: the plain reading that programs are held against. It gives the number behind a
// symbol.
type evaluator func(name string) (float64, bool)

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

func TestProgramAgreesWithThePlainReading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, err := Parse(drawText(t, 5))
		if err != nil {
			t.Fatal(err)
		}
		names := rapid.Permutation([]string{"a", "b", "c", "d", "unused"}).Draw(t, "names")
		at := make([]float64, len(names))
		for i, name := range names {
			at[i] = rapid.OneOf(rapid.Float64Range(-20, 20), rapid.SampledFrom([]float64{0, 1, 1e300, math.Inf(1)})).Draw(t, name)
		}
		got, err := bound(t, f, names).Eval(at)
		want, wantErr := evaluator(func(name string) (float64, bool) { return at[slices.Index(names, name)], true }).number(f.root)
		if got != want || (err == nil) != (wantErr == nil) {
			t.Fatalf("%s = %v, %v; the plain reading is %v, %v", f, got, err, want, wantErr)
		}
		if err != nil && !strings.HasSuffix(err.Error(), wantErr.Error()) {
			t.Fatalf("%s: %v; the plain reading says %v", f, err, wantErr)
		}
	})
}
