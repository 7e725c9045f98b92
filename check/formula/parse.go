package formula

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

const (
	maxLength = 8192 // characters a spreadsheet takes in a cell's formula
	maxCalls  = 60   // a spreadsheet nests 64 functions
)

// parser climbs by precedence, one token ahead.
type parser struct {
	text    string
	pos     int // offset behind tok
	tok     token
	calls   int // functions open around tok
	symbols []string
}

func (p *parser) fault(at int, read, expected string) error {
	return fmt.Errorf("column %d: read %s; expected %s", at+1, read, expected)
}

func (p *parser) parse() (node, error) {
	if len(p.text) > maxLength {
		return nil, fmt.Errorf("%d characters; a spreadsheet takes %d at most", len(p.text), maxLength)
	}
	if err := p.next(); err != nil {
		return nil, err
	}
	if p.tok.text == "=" {
		return nil, p.fault(p.tok.at, `"="`, "the formula without a leading equals sign")
	}
	root, err := p.expression(0)
	if err != nil {
		return nil, err
	}
	if p.tok.kind != tokenEnd {
		return nil, p.fault(p.tok.at, p.tok.String(), "an operator or the end")
	}
	return root, nil
}

// expression reads operators that bind tighter than the given strength.
func (p *parser) expression(above int) (node, error) {
	left, err := p.operand()
	if err != nil {
		return nil, err
	}
	for p.tok.kind == tokenSign && precedence[p.tok.text] > above {
		op := p.tok
		if err := p.next(); err != nil {
			return nil, err
		}
		right, err := p.expression(precedence[op.text])
		if err != nil {
			return nil, err
		}
		for _, side := range []node{left, right} {
			if side.kind() != Number {
				return nil, p.fault(op.at, side.kind().String()+" beside "+op.String(), "numbers; choose one with IF(...)")
			}
		}
		left = binary{op.text, left, right}
	}
	return left, nil
}

func (p *parser) operand() (node, error) {
	tok := p.tok
	if tok.kind == tokenEnd || tok.kind == tokenSign && tok.text != "(" && tok.text != "-" {
		return nil, p.fault(tok.at, tok.String(), "a number, a symbol, a function or (")
	}
	if err := p.next(); err != nil {
		return nil, err
	}
	switch tok.kind {
	case tokenNumber:
		return literal(tok.number), nil
	case tokenText:
		return quoted(tok.text), nil
	case tokenName:
		return p.named(tok)
	}
	if tok.text == "-" {
		return p.negative(tok)
	}
	inner, err := p.expression(0)
	if err != nil {
		return nil, err
	}
	return inner, p.expect(")")
}

func (p *parser) expect(sign string) error {
	if p.tok.kind != tokenSign || p.tok.text != sign {
		return p.fault(p.tok.at, p.tok.String(), strconv.Quote(sign))
	}
	return p.next()
}

// negative reads a minus before a value. Before the base of a power it is refused: -2^2 is 4
// in a spreadsheet and -4 on paper.
func (p *parser) negative(minus token) (node, error) {
	of, err := p.operand()
	if err != nil {
		return nil, err
	}
	if of.kind() != Number {
		return nil, p.fault(minus.at, of.kind().String()+` behind "-"`, "a number")
	}
	if p.tok.kind == tokenSign && p.tok.text == "^" {
		base := p.text[minus.at+1 : p.tok.at]
		return nil, p.fault(minus.at, strconv.Quote("-"+base+"^"),
			fmt.Sprintf("0-%[1]s^... or (-%[1]s)^..., a minus before a power is ambiguous", strings.TrimSpace(base)))
	}
	return negated{of}, nil
}

func (p *parser) named(name token) (node, error) {
	limits, isFunction := arity[name.text]
	called := p.tok.kind == tokenSign && p.tok.text == "("
	switch {
	case isFunction && called:
		return p.call(name, limits)
	case isFunction:
		return nil, p.fault(p.tok.at, p.tok.String(), `"(" behind `+name.text)
	case called:
		return nil, p.fault(name.at, strconv.Quote(name.text+"("), "one of "+functionNames()+", in capitals")
	case strings.Contains(name.text, "."):
		return nil, p.fault(name.at, name.String(), "a symbol of letters, digits and underscores")
	case strings.EqualFold(name.text, "TRUE") || strings.EqualFold(name.text, "FALSE"):
		return nil, p.fault(name.at, name.String(), "a comparison; TRUE and FALSE are no symbols")
	}
	if !slices.Contains(p.symbols, name.text) {
		p.symbols = append(p.symbols, name.text)
	}
	return symbol(name.text), nil
}

func (p *parser) call(name token, limits [2]int) (node, error) {
	if p.calls++; p.calls > maxCalls {
		return nil, fmt.Errorf("column %d: functions nested deeper than %d", name.at+1, maxCalls)
	}
	defer func() { p.calls-- }()
	if err := p.next(); err != nil {
		return nil, err
	}
	c := call{name: name.text}
	for p.tok.kind != tokenSign || p.tok.text != ")" {
		if len(c.args) > 0 {
			if err := p.expect(","); err != nil {
				return nil, err
			}
		}
		arg, err := p.expression(0)
		if err != nil {
			return nil, err
		}
		c.args = append(c.args, arg)
	}
	if len(c.args) < limits[0] || len(c.args) > limits[1] {
		return nil, fmt.Errorf("column %d: %s has %d arguments; expected %d to %d",
			name.at+1, c.name, len(c.args), limits[0], limits[1])
	}
	if err := c.check(); err != nil {
		return nil, fmt.Errorf("column %d: %w", name.at+1, err)
	}
	return c, p.next()
}

// check refuses arguments of a kind that spreadsheets treat differently.
func (c call) check() error {
	for i, arg := range c.args {
		want, got := Number, arg.kind()
		switch {
		case c.name == "IF" && i == 1:
			continue
		case c.name == "IF" && i == 2:
			want = c.args[1].kind()
		case c.kind() == Truth && c.name != "IF" || c.name == "IF":
			want = Truth
		}
		if got != want {
			return fmt.Errorf("argument %d of %s is %v; expected %v", i+1, c.name, got, want)
		}
	}
	return nil
}

func functionNames() string {
	names := make([]string, 0, len(arity))
	for name := range arity {
		names = append(names, name)
	}
	slices.Sort(names)
	return strings.Join(names, " ")
}
