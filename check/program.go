package check

import (
	"fmt"
	"math"
	"slices"

	"dryfit/check/formula"
)

// program is the steps of a check made ready to be worked out over a row of numbers: the
// inputs, then the steps, each at its place.
type program struct {
	formulas []*formula.Formula
	steps    []*formula.Program
	names    []string
	places   map[string]int
	all      []int   // the steps, in order
	resting  [][]int // for each input, the steps that rest on it, in order
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
	p.follow(len(c.Inputs))
	return nil
}

// follow finds what rests on what: a step on its symbols, and on what those rest on.
func (p *program) follow(inputs int) {
	for k := range p.steps {
		p.all = append(p.all, k)
	}
	for i := range inputs {
		moved := map[string]bool{p.names[i]: true}
		var steps []int
		for k, f := range p.formulas {
			if slices.ContainsFunc(f.Symbols(), func(s string) bool { return moved[s] }) {
				moved[p.names[inputs+k]] = true
				steps = append(steps, k)
			}
		}
		p.resting = append(p.resting, steps)
	}
}

// eval works some steps out over the inputs that stand at the head of at, puts each at its
// place and returns the margin, which is the last of all steps.
func (p *program) eval(c *Check, at []float64, steps []int) (float64, error) {
	n := len(p.resting)
	for _, k := range steps {
		x, err := p.steps[k].Eval(at)
		if err != nil {
			return math.Inf(-1), fmt.Errorf("%s: step %s: %w", c.ID, c.Steps[k].Symbol, err)
		}
		at[n+k] = x
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
	if _, err := p.eval(c, at, p.all); err != nil {
		return nil, err
	}
	return p.named(at), nil
}

// Margin is the last step at the nominals of some inputs: zero for one that is missing. One that
// is not given at all is an error where a step comes to use it.
func (c *Check) Margin(in map[string]Value) (float64, error) {
	p, err := c.program()
	if err != nil {
		return 0, err
	}
	at := make([]float64, len(p.names))
	for i, input := range c.Inputs {
		at[i] = math.NaN()
		if v, given := in[input.Symbol]; given {
			at[i] = v.Nominal
		}
	}
	return p.eval(c, at, p.all)
}

// named gives the numbers of a working by their symbols.
func (p *program) named(at []float64) map[string]float64 {
	out := make(map[string]float64, len(at))
	for i, name := range p.names {
		out[name] = at[i]
	}
	return out
}
