package formula

import (
	"fmt"
	"math"
	"slices"
)

// Program is a formula whose symbols are bound to places in a row of numbers. It is immutable,
// safe for concurrent use, and takes no memory to work out.
type Program struct {
	source string
	kind   Kind
	work   worker
	texts  []string // what IF may choose, in a formula that yields a text
}

// worker works a part of a formula out over a row of numbers.
type worker func(at []float64) (float64, error)

// Bind finds the place of each symbol of the formula among some names. The error names a
// symbol that is none of them.
func (f *Formula) Bind(names []string) (*Program, error) {
	b := binder{names: names}
	p := &Program{source: f.source, kind: f.Kind(), work: b.node(f.root)}
	p.texts = b.texts
	if b.err != nil {
		return nil, fmt.Errorf("formula %q: %w", f.source, b.err)
	}
	return p, nil
}

// Eval works the formula out over the numbers at the places of the names it was bound to. A
// Truth counts 1 or 0. Errors: a symbol without a finite value, NaN standing for none; a
// division by zero, the square root or a broken power of a negative number, zero to the power
// zero, a result too large, or a formula that yields a text.
func (p *Program) Eval(at []float64) (float64, error) {
	if p.kind == Text {
		return 0, fmt.Errorf("formula %q: yields a text, expected a number", p.source)
	}
	x, err := p.work(at)
	if err != nil {
		return 0, fmt.Errorf("formula %q: %w", p.source, err)
	}
	return x, nil
}

// Value works the formula out as Eval does, and also where it yields a text.
func (p *Program) Value(at []float64) (Value, error) {
	x, err := p.work(at)
	if err != nil {
		return Value{}, fmt.Errorf("formula %q: %w", p.source, err)
	}
	if p.kind == Text {
		return Value{Kind: Text, Text: p.texts[int(x)]}, nil
	}
	return Value{Kind: p.kind, Number: x}, nil
}

// binder turns the tree of a formula into workers.
type binder struct {
	names []string
	texts []string
	err   error // the first symbol without a place
}

func (b *binder) node(n node) worker {
	switch n := n.(type) {
	case literal:
		return constant(float64(n))
	case quoted: // known by its place among the texts
		b.texts = append(b.texts, string(n))
		return constant(float64(len(b.texts) - 1))
	case symbol:
		return b.symbol(string(n))
	case negated:
		of := b.node(n.of)
		return func(at []float64) (float64, error) {
			x, err := of(at)
			return -x, err
		}
	case binary:
		return b.binary(n)
	}
	return b.call(n.(call))
}

func constant(x float64) worker {
	return func([]float64) (float64, error) { return x, nil }
}

func (b *binder) symbol(name string) worker {
	place := slices.Index(b.names, name)
	if place < 0 && b.err == nil {
		b.err = fmt.Errorf("no place for %s", name)
	}
	return func(at []float64) (float64, error) {
		x := at[place]
		if x-x != 0 { // neither NaN nor an infinity is its own difference
			return 0, notFinite(name, x)
		}
		return x, nil
	}
}

func notFinite(name string, x float64) error {
	if math.IsNaN(x) {
		return fmt.Errorf("no value for %s", name)
	}
	return fmt.Errorf("%s is %v; expected a finite number", name, x)
}

func (b *binder) binary(n binary) worker {
	left, right, operate := b.node(n.left), b.node(n.right), operators[n.op]
	return func(at []float64) (float64, error) {
		x, err := left(at)
		if err != nil {
			return 0, err
		}
		y, err := right(at)
		if err != nil {
			return 0, err
		}
		result, err := operate(x, y)
		if err == nil && math.IsInf(result, 0) {
			err = errTooLarge
		}
		if err != nil {
			return 0, fmt.Errorf("%s with %v and %v: %w", plain(n), x, y, err)
		}
		return result, nil
	}
}

func (b *binder) call(c call) worker {
	args := make([]worker, len(c.args))
	for i, arg := range c.args {
		args[i] = b.node(arg)
	}
	switch c.name {
	case "PI":
		return constant(math.Pi)
	case "IF":
		return chosen(args[0], args[1], args[2])
	case "MIN", "AND":
		return folded(args, math.Min)
	case "MAX", "OR":
		return folded(args, math.Max)
	case "ROUND", "ROUNDUP", "ROUNDDOWN":
		return rounded(c, args[0], args[1])
	}
	return single(c, args[0])
}

// chosen works out the branch that IF takes and never the other.
func chosen(condition, then, otherwise worker) worker {
	return func(at []float64) (float64, error) {
		truth, err := condition(at)
		switch {
		case err != nil:
			return 0, err
		case truth != 0:
			return then(at)
		}
		return otherwise(at)
	}
}

// folded works all arguments out and joins them two by two.
func folded(args []worker, join func(x, y float64) float64) worker {
	return func(at []float64) (float64, error) {
		result, err := args[0](at)
		if err != nil {
			return 0, err
		}
		for _, arg := range args[1:] {
			x, err := arg(at)
			if err != nil {
				return 0, err
			}
			result = join(result, x)
		}
		return result, nil
	}
}

func rounded(c call, size, places worker) worker {
	whole := roundings[c.name]
	return func(at []float64) (float64, error) {
		x, err := size(at)
		if err != nil {
			return 0, err
		}
		n, err := places(at)
		if err != nil {
			return 0, err
		}
		result, err := round(x, n, whole)
		if err != nil {
			return 0, fmt.Errorf("%s: %w", plain(c), err)
		}
		return result, nil
	}
}

func single(c call, arg worker) worker {
	of := functions[c.name]
	return func(at []float64) (float64, error) {
		x, err := arg(at)
		if err != nil {
			return 0, err
		}
		result, err := of(x)
		if err != nil {
			return 0, fmt.Errorf("%s: %w", plain(c), err)
		}
		return result, nil
	}
}
