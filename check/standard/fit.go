package standard

// Window is the clearance a joint wants after finish, both sides together.
type Window struct {
	Name             string // "slip", "+1/32"
	Least, Aim, Most float64
	Unit             string // "in" or "mm"
	Entry            Entry  // where it comes from
}

// Fit reads the fit wanted of a joint: snug, slip, loose, hidden, or a clearance such as
// "+1/32" or "0.5 mm". finish is the finish of the parts; a slip fit under paint is wider
// than under a clear finish. An empty text is a slip fit. It returns false for a text that
// is no fit.
func (t *Table) Fit(text string, finish Finish) (Window, bool) {
	name := fold(text)
	if name == "" {
		name = "slip"
	}
	if painted := finish.Kind + "ed " + name; finish.Kind == "paint" {
		if e, ok := t.Find("fit", painted, "clearance"); ok {
			return window(e), true
		}
	}
	e, ok := t.Find("fit", name, "clearance")
	return window(e), ok
}

func window(e Entry) Window {
	return Window{Name: e.Item, Least: e.Low, Aim: e.Nominal, Most: e.High, Unit: e.Unit, Entry: e}
}
