package graft

import (
	"fmt"
	"io"
	"strings"
)

// Tabs are result tabs ready to be grafted, in their order.
type Tabs []Tab

// Tab is one of them.
type Tab struct {
	Name  string
	Names []Name // scoped to the tab
	Refs  []Ref  // what the worksheet part refers to

	// Write writes the worksheet part. It is called once for each workbook the tab goes into,
	// and must write the same whenever it is told the same.
	Write func(w io.Writer, in *Place) error
}

// Name is a defined name: print titles, a print area, the range of a filter.
type Name struct {
	Name     string
	RefersTo string // a formula
	Hidden   bool
}

// Ref is one relationship of a part: to another part of ours or, by its URL, to a place
// outside the workbook.
type Ref struct {
	ID      string
	Kind    string // last word of its type, such as "drawing"
	To      *Part
	Outside string
}

// Part is a part behind a tab: notes, a drawing, a picture.
type Part struct {
	Name string // below the folder of the workbook part, such as "media/image1.png"; counted up where it is taken
	Type string // content type
	Text []byte // of the transitional class
	Refs []Ref
}

// Place is what a tab must know of the workbook that it goes into.
type Place struct {
	Main, Rels string // namespaces
	Selected   bool   // the user left the workbook on this tab
	styles     *styles
}

// Format returns the number that a cell format has in the workbook, adding it where there is
// none that looks the same.
func (p *Place) Format(f Format) int { return p.styles.format(f) }

// Rule returns the number of a conditional format, given as a <dxf> element without a prefix.
func (p *Place) Rule(dxf string) int { return p.styles.conditional(dxf) }

func (t Tabs) check() error {
	if len(t) == 0 {
		return fmt.Errorf("no tab to graft")
	}
	seen := map[string]bool{}
	for _, tab := range t {
		name := strings.ToLower(tab.Name)
		if seen[name] || name == "" {
			return fmt.Errorf("tabs: two tabs called %q, or one without a name", tab.Name)
		}
		seen[name] = true
	}
	return nil
}
