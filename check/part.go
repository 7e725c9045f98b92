package check

import "dryfit/check/length"

// Role is what a part does in its case. It decides which way its sizes run.
type Role string

const (
	Shelf      Role = "shelf"
	Adjustable Role = "adjustable shelf"
	Upright    Role = "upright"
	Side       Role = "side"
	Head       Role = "head" // the top of a case or liner
	Sill       Role = "sill" // the bottom of a case or liner
	Deck       Role = "deck" // top and bottom typed as one row
	Divider    Role = "divider"
	Back       Role = "back"
	Base       Role = "base"
	Ledger     Role = "ledger"
	Cleat      Role = "cleat"
	Scribe     Role = "scribe"
	Filler     Role = "filler"
	Trim       Role = "trim"
	Seat       Role = "seat"
	Front      Role = "front"
	Door       Role = "door"
	Drawer     Role = "drawer"
	NotAPart   Role = "not a part" // hardware, labour, spares, templates
	Unknown    Role = ""
)

// Word is what a person reads. A shop that types BOTTOM or STRETCHER has no sills and decks.
func (r Role) Word() string {
	switch r {
	case Head:
		return "top"
	case Sill:
		return "bottom"
	case Deck:
		return "crosspiece"
	}
	return string(r)
}

// SizeKind says whether sizes are finished or cut.
type SizeKind string

const (
	FinishedSize SizeKind = "finished"
	CutSize      SizeKind = "cut"
	UnsaidSize   SizeKind = "unsaid"
)

// Part is one row of a part schedule. Sizes are as finished where the row says both.
type Part struct {
	Row         Cell // first cell of the row
	Mark        Text
	Description Text
	Role        Role
	Case        Text
	Room        Text
	Qty         Value // for the job in all

	Length, Width, Thickness Value
	CutLength, CutWidth      Value // beside the finished sizes, where the row gives both
	Size                     SizeKind
	Unit                     length.Unit // unit the sizes were read in; the job's unit after In

	Material Text
	Layers   []Layer
	Edges    Text
	Banded   []Edge // edges read out of Edges
	Finish   Text
	Grain    Text
	X, Y     Value // position in the case, from left and from the floor
	Note     Text
	Hand     string // "L", "R" or ""
	Of       string // mark of the built-up part this row is a layer of
	InTotal  bool   // sub-row: the quantity is for all assemblies, not for one
	Hidden   bool   // the row is hidden in the workbook

	Doubts []Doubt
}

// Layer is some equal layers of a built-up part.
type Layer struct {
	Count     Value
	Thickness Value // of one layer, nominal as named
	Material  string
	From      Cell
	Strip     bool // a nosing or strip along an edge, not a layer through the thickness
	Width     Value
	Length    Value
}

// Edge is a strip or band on one edge.
type Edge struct {
	On        string // "front", "back", "left", "right", "top", "bottom"
	Thickness Value
}

// Doubt is a cell that can be read in more than one way. Its value carries the readings
// as a range.
type Doubt struct {
	Field    string // "thickness", "length", ...
	Cell     Cell
	Text     string   // as typed
	Readings []string // as printed: "1 1/2", "2"
	Why      string
}

// Name is what the shop calls the part: its mark, else its description and its case.
func (p *Part) Name() string {
	switch {
	case p.Mark.Text != "":
		return p.Mark.Text
	case p.Description.Text == "":
		return p.Row.String()
	case p.Case.Text != "":
		return p.Description.Text + " (" + p.Case.Text + ")"
	}
	return p.Description.Text
}

// In converts the sizes of the part to the unit of the job.
func (p *Part) In(u length.Unit) {
	k := length.Convert(1, p.Unit, u)
	for _, v := range []*Value{&p.Length, &p.Width, &p.Thickness, &p.CutLength, &p.CutWidth, &p.X, &p.Y} {
		*v = v.Scale(k)
	}
	for i := range p.Layers {
		l := &p.Layers[i]
		l.Thickness, l.Width, l.Length = l.Thickness.Scale(k), l.Width.Scale(k), l.Length.Scale(k)
	}
	for i := range p.Banded {
		p.Banded[i].Thickness = p.Banded[i].Thickness.Scale(k)
	}
	p.Unit = u
}
