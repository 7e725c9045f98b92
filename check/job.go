package check

import (
	"slices"

	"dryfit/check/length"
	"dryfit/check/standard"
)

// Job is everything that was read about one job, with the cell behind every value.
type Job struct {
	Name  string // name of the folder
	Path  string
	Unit  length.Unit // length.Inch or length.Millimetre: the unit of every length below
	Stage Stage
	Shop  *standard.Table // job over shop over built-in values

	Parts    []*Part
	Joints   []*Joint
	Openings []*Opening
	Loads    []*Load
	Runs     []*Run
	Carry    *Carry // nil when no carry path is given

	Totals []Total // counts that the office typed under its rows
	Old    []*Part // rows of tabs that were set aside as a copy or an old version

	Books  []Book   // what was found, for the report
	Unread []Unread // cells that hold something nobody could read
	Notes  []string // what was inferred or left out, in a sentence each

	kept *kept // see Once
}

// Book is one workbook and what its tabs were taken for.
type Book struct {
	Path string `json:"path"`
	Tabs []Tab  `json:"tabs"`
}

// Tab is one tab of a workbook and what it was taken for.
type Tab struct {
	Name   string `json:"name"`
	Kind   string `json:"kind"` // parts, joints, site, loads, runs, carry, standards or ignored
	Header string `json:"header,omitempty"`
	Rows   int    `json:"rows"`
	Why    string `json:"why,omitempty"` // why it was ignored

	Also []string `json:"also,omitempty"` // further kinds of tables in the same tab
}

// Unread is a cell that holds something, and why it was not understood.
type Unread struct {
	Cell  Cell
	Text  string
	Why   string
	Mark  string // the part whose row it stands in, if any
	Wants string // what the column wants: "thickness", "quantity", ...

	Formula bool // a formula that shows an error, or that was never calculated
}

// Total is a count of pieces or sheets that the office typed under its rows.
type Total struct {
	From   Cell
	Case   Text  // of the section it closes, if it stands in one
	Pieces Value // missing if it counts no pieces
	Sheets Value // missing if it counts no sheets
	Rows   int   // rows of parts read above it in its table
}

// Has reports whether the job has anything of a kind of tab.
func (j *Job) Has(kind string) bool {
	for _, b := range j.Books {
		for _, t := range b.Tabs {
			if t.Kind == kind || slices.Contains(t.Also, kind) {
				return true
			}
		}
	}
	return false
}

// Len prints a length in the job's unit as the shop writes it.
func (j *Job) Len(x float64) string { return length.Format(x, j.Unit) }

// Size is one of the three sizes of a part, by name.
type Size struct {
	Field string // "length", "width", "thickness"
	Value Value
}

// Sizes are the three sizes of the part.
func (p *Part) Sizes() []Size {
	return []Size{{"length", p.Length}, {"width", p.Width}, {"thickness", p.Thickness}}
}

// FitOnSite reports whether the part is made too big on purpose and cut on site.
func (p *Part) FitOnSite() bool { return p.Role == Scribe || p.Role == Filler || p.Role == Trim }

// PerInch is the job's unit in an inch: 1, or 25.4.
func (j *Job) PerInch() float64 { return length.Convert(1, length.Inch, j.Unit) }
