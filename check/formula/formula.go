// Package formula reads, works out and prints the text of one step of a working. The text is
// the part of a formula that a spreadsheet and we understand alike, so that the number Go
// decides by and the number the reader sees recalculated on the tab come from one spelling.
//
// It knows numbers, symbols and the spreadsheet's rules of arithmetic. It knows no unit, no
// check, no cell and no workbook: who prints a formula says what stands for each symbol.
//
// The grammar, loosest first:
//
//	= <> < <= > >=     once only: a<b<c is refused
//	+ -                from the left
//	* /                from the left
//	^                  from the left: 2^3^2 is 64
//	- before a value   tightest, and refused before the base of a power
//	numbers, symbols, "text", ( ), and the functions MIN MAX SQRT ABS IF ROUND ROUNDUP
//	ROUNDDOWN PI AND OR NOT, in capitals
//
// A symbol is a letter or underscore followed by letters, digits and underscores; capitals
// count; t1 is a symbol and never a cell. Kinds are settled when the text is read: a
// comparison is no number and a text is only what IF chooses or the whole formula, because
// spreadsheets differ on everything else one might do with them.
package formula

import "fmt"

// Kind is what a formula yields.
type Kind int

const (
	Number Kind = iota // a finite number
	Truth              // the outcome of a comparison, AND, OR or NOT
	Text               // a word chosen by IF
)

func (k Kind) String() string {
	return [...]string{"a number", "a comparison", "a text"}[k]
}

// Formula is a text that was read and found sound. It is immutable and safe for concurrent use.
type Formula struct {
	source  string
	root    node
	symbols []string
}

// Value is the outcome of a formula. Number is 1 or 0 for a Truth.
type Value struct {
	Kind   Kind
	Number float64
	Text   string
}

// Parse reads the text of a formula, without a leading equals sign. The error quotes the text
// and says at which column what was read and what was expected.
func Parse(text string) (*Formula, error) {
	p := parser{text: text}
	root, err := p.parse()
	if err != nil {
		return nil, fmt.Errorf("formula %q: %w", text, err)
	}
	return &Formula{source: text, root: root, symbols: p.symbols}, nil
}

// String gives the text as it was read.
func (f *Formula) String() string { return f.source }

// Kind tells what the formula yields, whatever the values of its symbols.
func (f *Formula) Kind() Kind { return f.root.kind() }

// Symbols lists every symbol once, in the order of first use.
func (f *Formula) Symbols() []string { return append([]string(nil), f.symbols...) }

// Print writes the formula for a spreadsheet, without a leading equals sign. ref gives what
// stands for a symbol: a cell address such as E14 or 'Parts'!E14, or a name; nothing that
// would need parentheses of its own. Parentheses are written only where leaving them out
// would change the order of the arithmetic, and around a minus in a power.
func (f *Formula) Print(ref func(name string) string) string {
	return printer(ref).node(f.root)
}
