package read

import (
	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

// kind is one kind of table a tab can hold. It is known by its words, never by the name or
// the place of the tab.
type kind struct {
	name string

	// score says how surely the grid holds such a table: 0 for none, 100 for every word of a
	// full header. The kind with the highest score of at least 40 reads the grid; what it
	// leaves over is offered to the others.
	score func(g *Grid, shop *standard.Table) int

	// read puts what it finds into the tab and returns the rows it used. Whatever it saw in
	// those rows and did not understand it names in t.Unread.
	read func(g *Grid, t *Tab, shop *standard.Table) (used map[int]bool)
}

// kinds is the one list of what can be read. Parts come first: they win a draw.
var kinds = []kind{
	partsKind, jointsKind, siteKind, loadsKind, runsKind, carryKind,
}

// Tab is one tab as it was understood.
type Tab struct {
	Name   string
	Kind   string         // parts, joints, site, loads, runs, carry, standards or ignored
	Also   []string       // further kinds found in the same tab
	Header string         // address of the first header cell
	Unit   length.Unit    // unit of the lengths below
	Rows   int            // rows that became a part, a joint, a reading, ...
	Why    string         // why it was ignored
	Notes  []string       // what was inferred, a sentence each
	Unread []check.Unread // cells that hold something nobody could read
	Aside  []check.Unread // cells and rows that were understood and are no part: totals, notes
	Totals []Total

	Joints   []*check.Joint
	Openings []*check.Opening
	Loads    []*check.Load
	Runs     []*check.Run
	Carry    *check.Carry

	sideUnit length.Unit // of joints, openings, runs and stops; inches or millimetres say the system of the loads

	parts  partList
	old    bool // its parts are superseded
	hidden bool
	grid   *Grid // not kept for a long tab
	tables []*table
	turned []*table        // with the fields down and the parts across
	roles  map[int]rowRole // what each row was taken for, for the picture
}

// rowRole says what a row was taken for.
type rowRole struct {
	word string // header, part, layer, heading, total, title, note, blank, dropped, unread
	why  string
	text string // of a heading: its words
}
