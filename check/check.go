package check

import (
	"errors"
	"fmt"
	"regexp"
	"sync"
)

// Check is one question asked of a job: what it asks, the inputs, the steps that lead to a
// margin, and the rows it applies to. It holds no verdict; Judge makes that from ranges.
type Check struct {
	ID      string // stable: room.name
	Asks    string // the question, in the shop's words
	Costs   string // what it costs on site when nobody asks
	Applies string // the rows it is asked of
	Inputs  []Input
	Steps   []Step // the last step is the margin: at or above zero passes
	Mends   []Mend // what could be changed to clear it, cheapest first
	NoMend  string // what to do where no mend clears it
	Source  []Source
	Limits  string   // what the check does not see
	Until   Stage    // last stage at which mending is cheap
	Grave   bool     // people could be hurt: to be accepted it wants a reason of its own
	Root    bool     // a fault it finds explains what other checks say of the same cell
	Under   string   // ID of the check under whose finding on the same marks this one's is folded
	Quiet   string   // symbol of a step: at or above zero with every input at its nominal, a VERIFY is CLEAR
	Value   string   // symbol of the headline quantity
	Against []string // symbols it is held against: for a window, both sides
	Spread  string   // symbol of the input by which the headline quantity differs among equal things, one sigma; may be empty
	Fails   string   // one row that fails, for the page
	Mended  string   // the same row mended

	// Ways says what settles a VERIFY that rests on an input, by its symbol, where no number
	// anybody could measure does.
	Ways map[string]string

	Rows func(*Job) []Row
	Says func(*Result) string // one sentence, with numbers, for a HOLD or a VERIFY
	Way  func(*Result) string // what clears it in the words of the check; nil or "" takes the usual words

	once  sync.Once
	ready program // see program
	fault error
}

// Input is one number a check needs.
type Input struct {
	Symbol, Name string
	Unit         Unit
	Measure      string // how it would be measured: "caliper the part"; empty: "measure the " and the name
}

// Step is one line of a working. The formula is the only place where the equation stands: Go
// evaluates it and the tab shows it.
type Step struct {
	Symbol, Name, Formula string
	Unit                  Unit
	Aside                 bool // shown for the reader; the margin does not rest on it
}

// Mend is one input that could be changed, and the order the shop would be given.
type Mend struct {
	Symbol string
	Order  string  // "cut the slot {}", where {} is the new value
	Step   float64 // in inches for a length; 0 takes the cutting step of the shop, or 1 for a count
	StepMM float64 // the same in millimetres
	Reach  int     // steps tried each way; 0 takes 64
	Least  float64 // no value below this is offered
	Share  float64 // nor one below this share of the value as it is
	Up     bool    // only larger values
	Down   bool    // only smaller values
}

// Source is where an equation or a limit comes from.
type Source struct {
	Title string // title, edition, section
	How   string // "read", "read, second hand", "memory", "common practice", "house rule"
}

// String writes the source with how it is known: "NDS 3.10.4 (from memory, not read again)".
func (s Source) String() string {
	how := s.How
	if how == "memory" {
		how = "from memory, not read again"
	}
	return s.Title + " (" + how + ")"
}

// Row is one question of a check to one thing: a part, a joint, an opening.
type Row struct {
	Case   string
	Marks  []string
	Name   string // what the shop calls it: "Slot J3"
	Count  int    // how many things the row stands for; 0 counts as 1
	Cells  []Cell // where it is mended, the best place first
	In     map[string]Value
	Terms  []Term            // what single cells add to the inputs that are sums
	Words  map[string]string // texts the sentence needs, such as a material
	Most   Verdict           // the loudest verdict this row may end in; zero means HOLD
	Cause  string            // tells apart two rows of one mark, for the key
	Folds  string            // rows of a check with the same words are one VERIFY, whatever input decides
	Holds  string            // rows of a check with the same words are one HOLD: one place that is too tight
	Rests  string            // as Folds, over all checks: one thing that nobody measured, on which they all rest
	Speaks bool              // of rows that rest on one thing this one names it
	Under  string            // as Check.Under, where it differs from row to row

	Beside []Beside // rows that a change offered for this one must leave CLEAR
}

// Term is what a part adds to an input that is a sum over parts: without the part, the input
// would be less by Share.
type Term struct {
	Symbol string
	From   []Cell // the cells the share was worked out from
	Share  Value
}

func (r Row) most() Verdict {
	if r.Most == Clear {
		return Hold
	}
	return r.Most
}

func (r Row) count() int { return max(r.Count, 1) }

var idForm = regexp.MustCompile(`^(schedule|fit|structure|opening)\.[a-z]+(-[a-z]+)*$`)

// Validate refuses a malformed or repeated ID, an empty field of the page, a symbol that is
// not defined or never used, and a formula that does not parse.
func Validate(list []*Check) error {
	var errs []error
	seen := map[string]bool{}
	for _, c := range list {
		if !idForm.MatchString(c.ID) || seen[c.ID] {
			errs = append(errs, fmt.Errorf("ID %q is malformed or repeated", c.ID))
		}
		seen[c.ID] = true
		errs = append(errs, c.validatePage(), c.validateSymbols())
	}
	return errors.Join(errs...)
}

func (c *Check) validatePage() error {
	fields := map[string]string{"Asks": c.Asks, "Costs": c.Costs, "Applies": c.Applies,
		"Limits": c.Limits, "Value": c.Value, "Fails": c.Fails, "Mended": c.Mended}
	for _, name := range []string{"Asks", "Costs", "Applies", "Limits", "Value", "Fails", "Mended"} {
		if fields[name] == "" {
			return fmt.Errorf("%s: %s is empty", c.ID, name)
		}
	}
	if len(c.Source) == 0 || len(c.Steps) == 0 || c.Rows == nil || c.Says == nil {
		return fmt.Errorf("%s: no source, steps, rows or sentence", c.ID)
	}
	return nil
}

func (c *Check) validateSymbols() error {
	p, err := c.program()
	if err != nil {
		return err
	}
	known, used := map[string]bool{}, map[string]bool{}
	for _, in := range c.Inputs {
		known[in.Symbol] = true
	}
	for i, s := range c.Steps {
		for _, sym := range p.formulas[i].Symbols() {
			used[sym] = true
		}
		if known[s.Symbol] {
			return fmt.Errorf("%s: symbol %s is defined twice", c.ID, s.Symbol)
		}
		known[s.Symbol] = true
		used[s.Symbol] = s.Aside
	}
	used[c.Steps[len(c.Steps)-1].Symbol] = true
	for sym := range known {
		if !used[sym] {
			return fmt.Errorf("%s: symbol %s is never used", c.ID, sym)
		}
	}
	for _, m := range c.Mends {
		if i, ok := p.places[m.Symbol]; !ok || i >= len(c.Inputs) {
			return fmt.Errorf("%s: mend %s is no input", c.ID, m.Symbol)
		}
	}
	named := append([]string{c.Value}, c.Against...)
	for sym := range c.Ways {
		named = append(named, sym)
	}
	for _, s := range []string{c.Quiet, c.Spread} {
		if s != "" {
			named = append(named, s)
		}
	}
	for _, sym := range named {
		if !known[sym] {
			return fmt.Errorf("%s: headline %s is not defined", c.ID, sym)
		}
	}
	return nil
}
