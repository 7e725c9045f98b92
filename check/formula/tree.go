package formula

// node is one operation or operand of a formula.
type node interface{ kind() Kind }

type (
	literal float64
	quoted  string
	symbol  string
	negated struct{ of node }
	binary  struct {
		op          string
		left, right node
	}
	call struct {
		name string
		args []node
	}
)

func (literal) kind() Kind { return Number }
func (quoted) kind() Kind  { return Text }
func (symbol) kind() Kind  { return Number }
func (negated) kind() Kind { return Number }

func (b binary) kind() Kind {
	if precedence[b.op] == comparing {
		return Truth
	}
	return Number
}

func (c call) kind() Kind {
	switch c.name {
	case "AND", "OR", "NOT":
		return Truth
	case "IF":
		return c.args[1].kind()
	}
	return Number
}

// The strength with which an operator binds; a sign binds tighter than any.
const (
	comparing = iota + 1
	adding
	multiplying
	raising
)

var precedence = map[string]int{
	"=": comparing, "<>": comparing, "<": comparing, "<=": comparing, ">": comparing, ">=": comparing,
	"+": adding, "-": adding,
	"*": multiplying, "/": multiplying,
	"^": raising,
}

// arity is the least and most arguments a function takes. A spreadsheet takes at most 255.
var arity = map[string][2]int{
	"MIN": {1, 255}, "MAX": {1, 255}, "SQRT": {1, 1}, "ABS": {1, 1}, "IF": {3, 3},
	"ROUND": {2, 2}, "ROUNDUP": {2, 2}, "ROUNDDOWN": {2, 2}, "PI": {0, 0},
	"AND": {1, 255}, "OR": {1, 255}, "NOT": {1, 1},
}
