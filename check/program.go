package check

import (
	"fmt"
	"math"

	"dryfit/check/formula"
)

// program is the steps of a check made ready to be worked out over a row of numbers: the
// inputs, then the steps, each at its place.
type program struct {
	formulas []*formula.Formula
	steps    []*formula.Program
	names    []string
	places   map[string]int
}

// program reads and binds the steps once.
func (c *Check) program() (*program, error) {
	c.once.Do(func() { c.fault = c.ready.bind(c) })
	return &c.ready, c.fault
}

func (p *program) bind(c *Check) error {
	for _, in := range c.Inputs {
		p.names = append(p.names, in.Symbol)
	}
	for _, s := range c.Steps {
		f, err := formula.Parse(s.Formula)
		if err != nil {
			return fmt.Errorf("%s, step %s: %w", c.ID, s.Symbol, err)
		}
		bound, err := f.Bind(p.names)
		if err != nil {
			return fmt.Errorf("%s, step %s: %w", c.ID, s.Symbol, err)
		}
		p.formulas, p.steps, p.names = append(p.formulas, f), append(p.steps, bound), append(p.names, s.Symbol)
	}
	p.places = make(map[string]int, len(p.names))
	for i, name := range p.names {
		p.places[name] = i
	}
	return nil
}

// eval works the steps out over the inputs that stand at the head of at, puts each at its
// place and returns the last, which is the margin.
func (p *program) eval(c *Check, at []float64) (float64, error) {
	n := len(at) - len(p.steps)
	for i, step := range p.steps {
		x, err := step.Eval(at)
		if err != nil {
			return math.Inf(-1), fmt.Errorf("%s: step %s: %w", c.ID, c.Steps[i].Symbol, err)
		}
		at[n+i] = x
	}
	return at[len(at)-1], nil
}

// Formula is the parsed formula of the i-th step of a validated check.
func (c *Check) Formula(i int) *formula.Formula {
	p, err := c.program()
	if err != nil {
		panic(err) // Validate refuses such a check
	}
	return p.formulas[i]
}

// Work evaluates the steps at given inputs, and returns inputs and steps. An input that is not
// given is an error where a step comes to use it.
func (c *Check) Work(in map[string]float64) (map[string]float64, error) {
	p, err := c.program()
	if err != nil {
		return nil, err
	}
	at := make([]float64, len(p.names))
	for i, input := range c.Inputs {
		x, given := in[input.Symbol]
		if !given {
			x = math.NaN()
		}
		at[i] = x
	}
	if _, err := p.eval(c, at); err != nil {
		return nil, err
	}
	return p.named(at), nil
}

// named gives the numbers of a working by their symbols.
func (p *program) named(at []float64) map[string]float64 {
	out := make(map[string]float64, len(at))
	for i, name := range p.names {
		out[name] = at[i]
	}
	return out
}
