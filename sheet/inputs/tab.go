package inputs

import "strings"

// tab is one tab of the workbook while it is made up.
type tab struct {
	name    string
	title   string
	tells   []string // sentences below the title
	above   []line   // questions between the sentences and the header
	columns []column
	rows    []row
	spare   int // empty rows to type in, below the last
}

// line is one question with its box, outside the table.
type line struct {
	label, hint string
	part        part
	list        []string
}

// column is one column of a tab.
type column struct {
	head   string
	width  float64
	note   string   // on the header
	list   []string // words to choose from
	spare  part     // what its cells in the spare rows are
	hidden bool
	key    bool // names, with the other keys, what a row is about
}

// row is one row of a table. Rows with the same key are one thing: they are added together,
// and not again once the tab has the key.
type row struct {
	key    string
	cells  []cell
	breaks bool // a new page begins with it
}

// cell is one cell: its text, and what it is to the reader of the tab.
type cell struct {
	text string
	part part
}

// part is what a cell is.
type part int

const (
	told   part = iota // written by dryfit, not to be typed in
	wanted             // blank, to be filled
	maybe              // blank, to be filled where it applies
	found              // filled in by dryfit, a guess until confirmed
	off                // nothing belongs here
	call               // a turning value
)

// Confirmed is the header word of the column in which a guess is confirmed.
const Confirmed = "confirmed"

// The columns that say what a filled-in row rests on. The stamp repeats what was filled in, so
// that a cell typed over is seen.
const (
	headReason = "where it comes from"
	headStamp  = "stamp"
)

var confirming = []column{
	{head: Confirmed, width: 10, list: []string{"yes"}, spare: off, note: "yes: the cells in slanting print are right, and count as typed. " +
		"Until then they are a guess and count as one. Typing over one of them counts as yes."},
	{head: headReason, width: 22, spare: off, note: "Why dryfit thinks so."},
	{head: headStamp, width: 8, spare: off, hidden: true, note: "What dryfit filled in, to see whether it was typed over. Leave it."},
}

// confirmable appends the confirming cells to the cells of a row that holds guesses.
func confirmable(cells []cell, reason string) []cell {
	stamp := stampOf(cells)
	if stamp == "" {
		return append(cells, cell{part: off}, cell{text: reason, part: told}, cell{part: off})
	}
	return append(cells, cell{part: wanted}, cell{text: reason, part: told}, cell{text: stamp, part: told})
}

// stampOf repeats the guesses of a row.
func stampOf(cells []cell) string {
	var texts []string
	for _, c := range cells {
		if c.part == found {
			texts = append(texts, c.text)
		}
	}
	return joined(texts)
}

// keyOf is the key of a row as it stands in a workbook.
func (t *tab) keyOf(cells []string) string {
	var parts []string
	for i, c := range t.columns {
		if c.key {
			parts = append(parts, strings.TrimSpace(textAt(cells, i)))
		}
	}
	return strings.Join(parts, "|")
}
