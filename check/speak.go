package check

import (
	"fmt"
	"math"
	"strings"

	"dryfit/check/length"
)

// tabWanted says, for each kind of tab, what is missing and what to type there.
var tabWanted = map[string][2]string{
	"site":   {"No site measure", "add a tab with the opening as measured: widths, heights, depths, each where it was read"},
	"joints": {"No joint schedule", "add a tab with a row a joint: the part slotted, the part that goes in, slot width, depths"},
	"loads":  {"No loads", "add a tab with what stands on each case or shelf: books, linen, or a number"},
	"runs":   {"No runs", "add a tab that names the parts side by side and what they must fit"},
	"carry":  {"No carry path", "add a tab with the doors, halls and stairs on the way in"},
}

// speak writes the sentence and the way out of a finding, for the worst of its results.
func (r *Result) speak(f *Finding) {
	switch {
	case r.Broken != nil:
		f.Text = fmt.Sprintf("%s: the working broke: %v", f.subject(), r.Broken)
		f.Fix = "look at the cells named; the rest of the job is checked"
	case r.missingTab() != "":
		r.speakTab(f)
	case r.Verdict == NotChecked:
		ask := r.Row.In[r.Decides].Ask
		says := ask.Says
		if says == "" {
			says = r.Check.Named(r.Decides) + " is not given"
		}
		f.Text = f.subject() + ": " + says
		f.Fix = strings.TrimSpace("type " + ask.What + at(ask.Cell))
	default:
		f.Text = f.subject() + ": " + r.Check.Says(r)
		f.Fix = r.wayOut()
		r.headline(f)
	}
}

func (r *Result) speakTab(f *Finding) {
	tab := r.missingTab()
	w := tabWanted[tab]
	asleep := map[string]bool{}
	for _, each := range f.Results {
		asleep[each.Check.ID] = true
	}
	f.Text = fmt.Sprintf("%s: %s asleep", w[0], plural(len(asleep), "check"))
	f.Fix = w[1]
	if ask, partly := partOfTab(f.Results); partly {
		f.Text = fmt.Sprintf("%s: %s asleep", ask.Says, plural(len(asleep), "check"))
		f.Fix = "type " + ask.What
	}
	f.Case, f.Also, f.Cells = "", append(f.Cells, f.Also...), nil // a missing tab is no fault of any cell
	f.Key = "job|no " + tab
}

// partOfTab is what is missing where the tab is there and only a part of it is wanted: every
// result says so in words of its own, and the first speaks.
func partOfTab(all []*Result) (first Ask, partly bool) {
	for i, each := range all {
		for _, s := range each.Absent {
			a := each.Row.In[s].Ask
			if a.Tab != "" && a.Says == "" {
				return a, false
			}
			if i == 0 && a.Tab != "" && first.Says == "" {
				first = a
			}
		}
	}
	return first, first.Says != ""
}

// Typed puts quotes around what somebody typed. Where that bears inch marks of its own, the
// quotes are curled, so that nothing must be escaped.
func Typed(text string) string {
	if strings.Contains(text, "\"") {
		return "\u201c" + text + "\u201d"
	}
	return "\"" + text + "\""
}

func at(c Cell) string {
	if c == (Cell{}) {
		return ""
	}
	return " in " + c.String()
}

// wayOut is the proven change of a HOLD, or what must be measured for a VERIFY.
func (r *Result) wayOut() string {
	if way := r.Check.Ways[r.Decides]; way != "" && r.Verdict == Verify {
		return way
	}
	if r.Check.Way != nil {
		if s := r.Check.Way(r); s != "" {
			return s
		}
	}
	if t := r.Turns; t != nil && t.Alone {
		return r.holdsIf()
	}
	switch {
	case r.Fix != nil && r.Fix.Measure != "":
		return r.Fix.Text + ", and " + r.Fix.Measure
	case r.Fix != nil && r.Fix.Leaves != "":
		return r.Fix.Text + "; still open then: " + r.Fix.Leaves
	case r.Fix != nil:
		return r.Fix.Text
	case r.Turns != nil && r.Check.NoMend == "":
		return r.holdsIf() + ", all else as typed"
	}
	return r.Check.NoMend
}

// holdsIf says where the deciding input turns the verdict, rounded to the safe side.
func (r *Result) holdsIf() string {
	t := r.Turns
	u := r.Check.UnitOf(t.Symbol)
	side := "at most"
	if t.Least {
		side = "at least"
	}
	v := r.Row.In[t.Symbol]
	how := "typed"
	if v.Unmeasured() {
		how = "taken as"
	}
	turns, now := u.Print(r.safe(t), r.Job.Unit), u.Print(v.Nominal, r.Job.Unit)
	if turns == now {
		return fmt.Sprintf("rests on the %s: %s, and that is where it turns", t.Input, now)
	}
	return fmt.Sprintf("holds if the %s is %s %s; %s %s", t.Input, side, turns, how, now)
}

// safe rounds the turning value of a length to the shop's step, away from failing.
func (r *Result) safe(t *Turn) float64 {
	if r.Check.UnitOf(t.Symbol) != Length {
		return t.At
	}
	step := 1.0 / 64
	if r.Job.Unit == length.Millimetre {
		step = 0.1
	}
	if t.Least {
		return math.Ceil(t.At/step-1e-6) * step
	}
	return math.Floor(t.At/step+1e-6) * step
}

// headline sets the number of the check, what it is held against, and the turning value.
func (r *Result) headline(f *Finding) {
	value := r.Values[r.Check.Value]
	f.Value, f.Unit = &value, r.Check.UnitOf(r.Check.Value).In(r.Job.Unit)
	for _, s := range r.Check.Against {
		limit := r.Values[s]
		if f.Limit == nil || math.Abs(value-limit) < math.Abs(value-*f.Limit) {
			f.Limit = &limit
		}
	}
	for _, s := range r.Check.Steps {
		if s.Unit == Share {
			share := r.Values[s.Symbol]
			f.Share = &share
		}
	}
	if t := r.Turns; t != nil {
		f.Turns = &Turning{Input: t.Input, At: t.At, Unit: r.Check.UnitOf(t.Symbol).In(r.Job.Unit)}
	}
}

// mostNamed is how many rows a sentence names before it says how many more there are.
const mostNamed = 3

// subject names what a finding speaks of: "Slot J3 (12 of them)", "A2, A3, A5 and 7 more".
func (f *Finding) subject() string {
	type thing struct {
		name string
		cell Cell
	}
	var names []string
	counted := map[thing]bool{}
	n := 0
	for _, r := range f.Results {
		t := thing{name: r.Row.Name}
		if r.Row.Count > 0 && len(r.Row.Cells) > 0 {
			t.cell = r.Row.Cells[0]
		}
		if !counted[t] { // a second question about one thing is no second thing
			n += r.Row.count()
		}
		counted[t] = true
		names = addAll(names, []string{r.Row.Name})
	}
	kept, left := Names(names, mostNamed)
	more := ""
	if left > 0 {
		more = fmt.Sprintf(" and %d more", left)
	} else if n > len(names) {
		more = fmt.Sprintf(" (%d of them)", n)
	}
	return strings.Join(kept, ", ") + more
}

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// Print writes the nominal of an input or a step as the shop reads it, for a sentence.
func (r *Result) Print(symbol string) string {
	return r.Check.UnitOf(symbol).Print(r.Values[symbol], r.Job.Unit)
}

// PrintSize is Print without a sign.
func (r *Result) PrintSize(symbol string) string {
	return r.Check.UnitOf(symbol).Print(math.Abs(r.Values[symbol]), r.Job.Unit)
}
