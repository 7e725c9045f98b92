package check

// Finding is one line for the lead: one cause, with all that follows from it.
type Finding struct {
	ID      string      `json:"id"`
	Verdict Verdict     `json:"verdict"`
	Key     string      `json:"key"` // stable while the cause is the same
	Case    string      `json:"case,omitempty"`
	Marks   []string    `json:"marks"`
	Cells   []Cell      `json:"cells"`
	Text    string      `json:"text"`
	Fix     string      `json:"fix"`
	Value   *float64    `json:"value,omitempty"`
	Limit   *float64    `json:"limit,omitempty"`
	Unit    string      `json:"unit,omitempty"`
	Share   *float64    `json:"share,omitempty"`
	Turns   *Turning    `json:"turns,omitempty"`
	Steps   []Line      `json:"steps,omitempty"`
	Source  string      `json:"source"`
	Accept  *Acceptance `json:"accepted,omitempty"`
	Also    []Cell      `json:"also,omitempty"` // cells folded under it

	Results []*Result `json:"-"` // what was folded, the worst first
	Margin  float64   `json:"-"`
	Shared  bool      `json:"-"` // the lead's reason does not count: it was given for another finding too
}

// Turning is the value at which the deciding input turns the verdict.
type Turning struct {
	Input string  `json:"input"`
	At    float64 `json:"at"`
	Unit  string  `json:"unit"`
}

// Line is one line of a working: an input with the cell it came from, or a step with its
// formula. Value is the nominal.
type Line struct {
	Symbol  string  `json:"symbol"`
	Name    string  `json:"name"`
	Formula string  `json:"formula,omitempty"`
	Value   float64 `json:"value"`
	Unit    string  `json:"unit"`
	From    string  `json:"from,omitempty"`

	Input Value `json:"-"` // the input with its range; zero for a step
	Kind  Unit  `json:"-"`
}

// Acceptance is the lead's word beside a finding.
type Acceptance struct {
	By     string  `json:"by"`
	Why    string  `json:"why"`
	On     string  `json:"on,omitempty"`
	Ask    bool    `json:"ask,omitempty"` // a question to By, not an acceptance
	Margin float64 `json:"-"`             // the margin that was accepted
	Worst  Verdict `json:"-"`             // the verdict that was accepted
	Fresh  bool    `json:"-"`             // typed since the last run: it accepts what is there now
}

// Covered is the verdict of one check on one mark.
type Covered struct {
	Mark    string  `json:"mark"`
	ID      string  `json:"id"`
	Verdict Verdict `json:"verdict"`
	Row     Cell    `json:"-"`
	Why     string  `json:"-"` // for NOT CHECKED: what is missing
}

// Counts is how many rows-times-checks ended in each verdict.
type Counts struct {
	Hold       int `json:"HOLD"`
	Verify     int `json:"VERIFY"`
	Clear      int `json:"CLEAR"`
	NotChecked int `json:"NOT CHECKED"`
	Accepted   int `json:"ACCEPTED"`
}

// Report is what the checks say of a job.
type Report struct {
	Job      *Job
	Verdict  Verdict
	Counts   Counts
	Findings []*Finding
	Clear    []*Result // every CLEAR result, for the working of those who ask
	Results  []*Result // every result, those too that are folded under another check's finding
	Coverage []Covered
}

// Lines is the working of a result: the inputs, then the steps.
func (r *Result) Lines() []Line {
	var out []Line
	for _, in := range r.Check.Inputs {
		v := r.Row.In[in.Symbol]
		if !v.Known {
			continue
		}
		out = append(out, Line{Symbol: in.Symbol, Name: in.Name, Value: v.Nominal, Unit: in.Unit.In(r.Job.Unit),
			From: v.origin(), Input: v, Kind: in.Unit})
	}
	for _, s := range r.Check.Steps {
		x, ok := r.Values[s.Symbol]
		if !ok {
			break
		}
		out = append(out, Line{Symbol: s.Symbol, Name: s.Name, Formula: s.Formula, Value: x,
			Unit: s.Unit.In(r.Job.Unit), Kind: s.Unit})
	}
	return out
}
