package formula

import (
	"math"
	"strconv"
	"strings"
)

// printer gives what stands for a symbol.
type printer func(name string) string

// plain prints a part of a formula for a message.
func plain(n node) string {
	return printer(func(name string) string { return name }).node(n)
}

func (p printer) node(n node) string {
	switch n := n.(type) {
	case literal:
		return spelled(float64(n))
	case quoted:
		return `"` + strings.ReplaceAll(string(n), `"`, `""`) + `"`
	case symbol:
		return p(string(n))
	case negated:
		return "-" + p.within(n.of, raising, true)
	case binary:
		strength := precedence[n.op]
		return p.within(n.left, strength, false) + n.op + p.within(n.right, strength, true)
	}
	c := n.(call)
	args := make([]string, len(c.args))
	for i, arg := range c.args {
		args[i] = p.node(arg)
	}
	return c.name + "(" + strings.Join(args, ",") + ")"
}

// within prints an operand of an operator of the given strength. Everything groups from the
// left, so an equal operator on the right keeps its parentheses.
func (p printer) within(n node, strength int, right bool) string {
	loose := false
	switch n := n.(type) {
	case binary:
		own := precedence[n.op]
		loose = own < strength || right && own == strength
	case negated:
		loose = strength == raising || right
	}
	if loose {
		return "(" + p.node(n) + ")"
	}
	return p.node(n)
}

// spelled writes a number so that every spreadsheet reads the same: plain digits, or one digit
// before the point and a capital E, the only exponent form that all readers take.
func spelled(x float64) string {
	if size := math.Abs(x); x == 0 || size >= 1e-6 && size < 1e15 {
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
	return strconv.FormatFloat(x, 'E', -1, 64)
}
