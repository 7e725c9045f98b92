package read

import (
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
	"dryfit/sheet/read/phrase"
)

// carryKind reads the way from the shop to the place: a line of stops, or a row for each.
var carryKind = kind{name: "carry", score: scoreCarry, read: readCarry}

const (
	cStop   Field = "stop"
	cWidth  Field = "clear width"
	cHeight Field = "clear height"
	cLength Field = "clear length"
	cTurn   Field = "turn"
	cOrder  Field = "order of the stop"
	cKind   Field = "kind of stop"
	cNote   Field = "carry note"
)

var carryWords = newLexicon([]fieldWords{
	{cStop, `stop|stops|place|where|passage|obstacle|way|path|location|point|station|description|stelle|ort|weg|durchgang|engstelle|etape|lieu|parada|lugar|paso|sitio|tappa|luogo|passaggio|miejsce|przejscie|etap|plek|doorgang|plaats|stopp|stalle|punkt|engpass|acces|acceso|recorrido|percorso|droga|route|transportvag|plats|passage`},
	{cKind, `kind|type|art|genre|tipo|rodzaj|soort|sort`},
	{cWidth, `width|w|wd|clear width|clear w|clr w|wide|breite|lichte breite|b|largeur|larg|passage libre|ancho|ancho libre|larghezza|luce|szerokosc|szer|breedte|bredd`},
	{cHeight, `height|h|ht|clear height|clear h|clr h|headroom|head|high|hohe|lichte hohe|hauteur|haut|altura|alto|altezza|wysokosc|wys|hoogte|hojd`},
	{cLength, `length|l|lg|long|depth|d|length or depth|inside length|lange|tiefe|longueur|profondeur|longitud|largo|fondo|lunghezza|profondita|dlugosc|dl|glebokosc|lengte|diepte|langd|djup`},
	{cTurn, `turn|turns|corner|wendung|gewendelt|virage|tournant|giro|svolta|zakret|bocht|svang`},
	{cOrder, `no|nr|#|order|step|seq|n|lp`},
	{cNote, `note|notes|remark|remarks|comment|comments|bemerkung|remarque|remarques|nota|notas|observaciones|uwagi|opmerking|opmerkingen|anm`},
})

// carryField names the field of a header text of a carry table.
func carryField(text string) Field {
	if len(text) > maxHeader {
		return fUnknown
	}
	if fs := carryWords.exact(strings.TrimSpace(bracketed.ReplaceAllString(text, " "))); fs != nil {
		return fs[0]
	}
	return fUnknown
}

// sizesStops reports header words for the sizes of a table of stops.
func sizesStops(cols []sideCol) bool {
	seen := map[Field]bool{}
	for _, c := range cols {
		seen[c.field] = true
	}
	return seen[cWidth] && (seen[cHeight] || seen[cLength])
}

// stopTables finds the tables of stops: by their header, or, where the word over the names is
// not known, by names that are stops.
func stopTables(g *Grid) []*sideTable {
	var tables []*sideTable
	for _, t := range sideTables(g, carryField, sizesStops) {
		if t.column(cStop) != nil || t.column(cKind) != nil || t.findStops() {
			tables = append(tables, t)
		}
	}
	return tables
}

// findStops takes the leftmost column without a known header for the names of the stops, if
// most of them are.
func (t *sideTable) findStops() bool {
	col, named := 0, 0
	for _, r := range t.rows {
		c := &r.Cells[0]
		if kind, _ := phrase.StopKind(phrase.Cut(c.said())); kind != "" && (col == 0 || int(c.Col) == col) {
			col = int(c.Col)
			named++
		}
	}
	if named < 2 || 2*named < len(t.rows) || slices.ContainsFunc(t.cols, func(c sideCol) bool { return c.col == col }) {
		return false
	}
	t.cols = append([]sideCol{{col: col, field: cStop}}, t.cols...)
	return true
}

func scoreCarry(g *Grid, shop *standard.Table) int {
	if len(g.Rows) > maxSide {
		return 0
	}
	probe := &Tab{}
	readCarry(g, probe, shop)
	if probe.Carry == nil {
		return 0
	}
	kinds := map[string]bool{}
	for _, s := range probe.Carry.Stops {
		kinds[s.Kind] = true
	}
	n := len(probe.Carry.Stops)
	switch {
	case n >= 2 && len(kinds) >= 2:
		return min(100, 50+10*n)
	case n == 0 && probe.Carry.Crew.Known && (probe.Carry.Note.Text != "" || len(probe.Carry.Whole) > 0):
		return 50 // who comes and how it goes up, and no way
	case n >= 1 && probe.Carry.Crew.Known, n == 1 && headsStops(g) && probe.Carry.Stops[0].Width.Known:
		return 55
	}
	return 0
}

// stopWords are the header words that no table but one of stops begins with.
var stopWords = set("stop stops passage engstelle durchgang etape parada tappa passaggio przejscie doorgang stopp")

// headsStops reports whether the first row is the header of a table of stops: one stop under
// it is a way.
func headsStops(g *Grid) bool {
	r := &g.Rows[0]
	if len(r.Cells) < 2 || !stopWords[fold(r.Cells[0].Text())] {
		return false
	}
	for i := range r.Cells {
		if carryField(r.Cells[i].Text()) == cWidth {
			return true
		}
	}
	return false
}

// largestPassage is the largest bare number that may be inches on a way: a hall of 30 ft.
const largestPassage = 360

func readCarry(g *Grid, tab *Tab, _ *standard.Table) map[int]bool {
	used := map[int]bool{}
	t := &Tab{}
	typed, guessed := sideUnit(g, largestPassage)
	r := &carryReader{tab: t, unit: typed, carry: &check.Carry{}}
	inTable := map[int]bool{}
	for _, table := range stopTables(g) {
		r.header = Address(table.heads[0], table.cols[0].col)
		for _, n := range table.heads {
			inTable[n], used[n] = true, true
		}
		table.nameHeads(t)
		for _, row := range table.rows {
			if r.row(table, row) {
				inTable[row.N], used[row.N] = true, true
				table.nameUnknown(row, t)
			}
		}
	}
	for i := range g.Rows {
		if row := &g.Rows[i]; !inTable[row.N] && !struckOut(row) && r.line(row) {
			used[row.N] = true
		}
	}
	if len(r.carry.Stops) == 0 && !r.carry.Crew.Known && r.carry.Note.Text == "" && len(r.carry.Whole) == 0 {
		return map[int]bool{}
	}
	t.Header = r.header
	t.Carry = r.carry
	tab.adopt(t, typed, guessed)
	return used
}

type carryReader struct {
	tab    *Tab
	unit   length.Unit
	carry  *check.Carry
	header string
}

// line reads a row of free text: stops side by side, the crew, how a case goes up.
func (r *carryReader) line(row *Row) bool {
	read := false
	var others []*Cell
	for i := 0; i < len(row.Cells); i++ {
		c := &row.Cells[i]
		text := c.said()
		joined := []*Cell{c}
		for i+1 < len(row.Cells) && continues(text, &row.Cells[i+1]) {
			i++ // "Crew:" | 2, "Hall" | 38
			text += " " + row.Cells[i].said()
			joined = append(joined, &row.Cells[i])
		}
		way, rest := phrase.Carry(text, r.unit)
		if !r.take(way, joined) {
			others = append(others, c)
			continue
		}
		read = true
		for _, s := range rest {
			r.notStop(c, s)
		}
	}
	for _, c := range others {
		if read {
			r.notStop(c, c.Text())
		}
	}
	return read
}

// notStop names a piece of text that holds a number and is no stop, and sets words aside.
func (r *carryReader) notStop(c *Cell, text string) {
	if !hasNumber(phrase.Cut(text)) {
		r.tab.setAside(c, "\""+text+"\" is no stop")
		return
	}
	r.tab.Unread = append(r.tab.Unread, wanting(c, "\""+text+"\" is no stop that is known; expected one such as hall 38 or front door 35 1/2 x 79 1/2", "stop"))
}

// continues reports whether a cell goes on with what the cell before it began: a number
// behind a word without one.
func continues(text string, next *Cell) bool {
	pieces := phrase.Cut(text)
	if next.Kind != Number && !hasOnlyNumber(next) {
		return false
	}
	kind, _ := phrase.StopKind(pieces)
	crew, _ := phrase.Carry(text+" 2", length.Inch)
	return !hasNumber(pieces) && (kind != "" || crew.Crew.Known) || kind != "" && next.Kind == Number
}

func hasOnlyNumber(c *Cell) bool {
	pieces := phrase.Cut(c.said())
	return len(pieces) > 0 && pieces[0].Kind == phrase.Length
}

// take adds what a line over some cells said; false if it said nothing.
func (r *carryReader) take(w phrase.Way, cells []*Cell) bool {
	c := cells[0]
	if r.carry.Row == (check.Cell{}) {
		r.carry.Row = c.From()
	}
	for _, s := range w.Stops {
		s.Row, s.Name.From = c.From(), c.From()
		for _, v := range []*check.Value{&s.Width, &s.Height, &s.Length} {
			*v = r.origin(*v, cells)
		}
		r.carry.Stops = append(r.carry.Stops, s)
		r.tab.Rows++
	}
	switch {
	case w.Crew.Known && r.carry.Crew.Known:
		r.tab.Unread = append(r.tab.Unread, wanting(c, "the crew was named before; type one crew", "crew"))
	case w.Crew.Known:
		r.carry.Crew = r.origin(w.Crew, cells)
	}
	if w.Note != "" {
		r.carry.Note = check.Text{Text: strings.TrimLeft(r.carry.Note.Text+"; "+w.Note, "; "), From: c.From()}
	}
	r.carry.Whole = append(r.carry.Whole, w.Whole...)
	return len(w.Stops)+len(w.Whole) > 0 || w.Crew.Known || w.Note != ""
}

// origin finds the cell of a line over several cells that holds a value.
func (r *carryReader) origin(v check.Value, cells []*Cell) check.Value {
	for _, c := range cells[1:] {
		if own, _, err := phrase.Value(c.said(), r.unit, ""); v.Known && err == nil && own.Nominal == v.Nominal {
			return c.at(v)
		}
	}
	if v.Known {
		v.From = cells[0].From()
	}
	return v
}

// row reads a row of a table of stops.
func (r *carryReader) row(table *sideTable, row *Row) bool {
	name := table.cell(row, cStop)
	if name == nil {
		name = table.cell(row, cKind)
	}
	if name == nil {
		return false
	}
	if kind, _ := phrase.StopKind(phrase.Cut(name.said())); kind == "" && r.line(row) {
		return true // the crew, or how it goes up, below the stops
	}
	sizes := 0
	s := check.Stop{Row: row.Cells[0].From(), Name: name.text()}
	for f, to := range map[Field]*check.Value{cWidth: &s.Width, cHeight: &s.Height, cLength: &s.Length} {
		c := table.cell(row, f)
		if c == nil {
			*to = check.Missing(check.Ask{Cell: table.place(row, f), What: "the " + string(f) + " of the stop"})
			continue
		}
		if n := length.Nothing(c.said()); n != length.Something {
			*to = check.Missing(check.Ask{Cell: c.From(), What: "the " + string(f) + " of the stop"})
			continue
		}
		unit := r.unit
		if own := table.column(f).unit; own != length.Unsaid {
			unit = own
		}
		v, _, err := phrase.Value(c.said(), unit, "the "+string(f))
		if err != nil {
			r.tab.Unread = append(r.tab.Unread, wanting(c, err.Error(), string(f)))
			continue
		}
		*to = c.at(v.Scale(length.Convert(1, unit, r.unit)))
		sizes++
	}
	if sizes == 0 {
		return false
	}
	s.Kind = stopKind(table, row, name)
	if s.Kind == "" {
		u := wanting(name, "no stop that is known; expected a truck, door, hall, corner, stair or lift", "stop")
		u.Text = rowText(row)
		r.tab.Unread = append(r.tab.Unread, u)
		return true
	}
	if c := table.cell(row, cTurn); c != nil && length.Nothing(c.said()) != length.None {
		yes, ok := phrase.Answer(c.said())
		s.Turn = yes || !ok
	}
	if c := table.cell(row, cNote); c != nil {
		r.note(&s, c)
	}
	r.carry.Stops = append(r.carry.Stops, s)
	if r.carry.Row == (check.Cell{}) {
		r.carry.Row = s.Row
	}
	r.tab.Rows++
	return true
}

// stopKind takes the kind from its column, else from the name.
func stopKind(table *sideTable, row *Row, name *Cell) string {
	if c := table.cell(row, cKind); c != nil {
		if kind, _ := phrase.StopKind(phrase.Cut(c.said())); kind != "" {
			return kind
		}
	}
	kind, _ := phrase.StopKind(phrase.Cut(name.said()))
	return kind
}

// note takes a turn out of the note of a stop, and how the case goes up.
func (r *carryReader) note(s *check.Stop, c *Cell) {
	with, ok := phrase.ParseStop("stair 0, "+c.said(), r.unit)
	s.Turn = s.Turn || ok && with.Turn
	way, _ := phrase.Carry(c.said(), r.unit)
	way.Stops = nil
	if !r.take(way, []*Cell{c}) && !s.Turn {
		r.tab.setAside(c, "a note")
	}
}
