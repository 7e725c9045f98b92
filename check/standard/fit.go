package standard

import (
	"strings"

	"dryfit/check/length"
)

// Window is the clearance a joint wants after finish, both sides together.
type Window struct {
	Name             string // "slip", "+1/32"
	Least, Aim, Most float64
	Unit             string // "in" or "mm"
	Entry            Entry  // where it comes from
}

// Fit reads the fit wanted of a joint: snug, slip, loose, hidden, or a clearance such as
// "+1/32" (inches where no unit is typed) or "0.5 mm". finish is the finish of the parts:
// a slip fit under paint is wider than one under a clear finish. An empty text is a slip fit. It returns false for a
// text that is no fit.
func (t *Table) Fit(text string, finish Finish) (Window, bool) {
	fit := fold(text)
	if fit == "" {
		fit = "slip"
	}
	lex := lexicons()["fit"]
	if item, ok := t.item("fit", fit); ok && lex.items[item] == nil {
		e, ok := t.Find("fit", item, "clearance")
		return window(e), ok
	}
	n := lex.whole[strings.Join(words(fit), " ")]
	if n == nil {
		n = lex.find(words(fit), anyName)
	}
	if n == nil {
		return t.typedFit(text)
	}
	if prefix := map[string]string{"paint": "painted ", "clear": "clear "}[finish.Kind]; prefix != "" {
		if e, ok := t.Find("fit", prefix+n.item, "clearance"); ok {
			return window(e), true
		}
	}
	e, ok := t.Find("fit", n.item, "clearance")
	return window(e), ok
}

// typedFit reads a clearance typed as a number.
func (t *Table) typedFit(text string) (Window, bool) {
	l, err := length.Parse(strings.TrimSpace(text), length.Context{Unit: length.Inch, Plain: true})
	if err != nil || l.Nominal < 0 {
		return Window{}, false
	}
	unit := "in"
	if l.Unit.Metric() {
		unit = "mm"
	}
	l = l.In(map[string]length.Unit{"in": length.Inch, "mm": length.Millimetre}[unit])
	either, _ := t.Find("fit", "typed clearance", "either way")
	either, err = either.In(unit)
	if err != nil {
		return Window{}, false
	}
	e := Entry{Group: "fit", Item: strings.TrimSpace(text), Property: "clearance", Unit: unit,
		Low: max(0, l.Low-either.Nominal), Nominal: l.Nominal, High: l.High + either.Nominal,
		Source: "as typed, " + either.Source, Known: KnownShop, From: "typed"}
	return window(e), true
}

func window(e Entry) Window {
	return Window{Name: e.Item, Least: e.Low, Aim: e.Nominal, Most: e.High, Unit: e.Unit, Entry: e}
}

// Load reads what stands on a shelf: "books", "library", "linen", "Sitzbank". It returns
// the item of the load group, and false for a word that is none.
func (t *Table) Load(text string) (item string, ok bool) {
	if item, ok := t.item("load", text); ok {
		return item, true
	}
	lex := lexicons()["load"]
	ws := words(text)
	n := lex.whole[strings.Join(ws, " ")]
	if n == nil {
		n = lex.find(ws, anyName)
	}
	if n == nil {
		return "", false
	}
	return n.item, true
}
