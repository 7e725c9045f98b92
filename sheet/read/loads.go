package read

import (
	"slices"
	"strings"
	"unicode"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
	"dryfit/sheet/read/phrase"
)

// loadsKind reads what lies on the shelves: a table, or lines such as "A books; B seat 2 persons".
var loadsKind = kind{name: "loads", score: scoreLoads, read: readLoads}

const (
	lOn     Field = "load on"
	lKind   Field = "kind of load"
	lAmount Field = "amount of load"
	lUnit   Field = "unit of load"
	lNote   Field = "load note"
)

var loadWords = newLexicon([]fieldWords{
	{lOn, `who|wohin|woruber|ou|donde|dove sta|gdzie|on|case|part|mark|mk|where|shelf|shelves|item|unit|bay|location|place|applies to|schrank|korpus|teil|boden|fach|wo|ort|auf|bauteil|meuble|caisson|piece|tablette|etagere|sur|repere|mueble|modulo|pieza|estante|balda|
		mobile|pezzo|ripiano|dove|szafka|mebel|polka|element|gdzie|kast|deel|plank|legplank|waar|skap|del|hylla|var`},
	{lKind, `what goes on it|what goes there|what is on it|quoi|que|cosa|co|wat|vad|kind|type|use|used for|purpose|kind of load|load type|load kind|what|contents|content|stores|holds|art|nutzung|lastart|inhalt|verwendung|was|usage|genre|contenu|type de charge|uso|tipo|contenido|tipo de carga|
		contenuto|tipo di carico|slag|anvands till|rodzaj|zastosowanie|zawartosc|soort|gebruik|inhoud|soort last|anvandning|innehall|sort`},
	{lAmount, `how much|combien|wieviel|wie viel|cuanto|quanto|ile|hoeveel|hur mycket|load|loads|amount|weight|live load|ll|design load|lb ft|lbs ft|plf|psf|kg m|kg m2|n m|lb|lbs|kg|last|belastung|lasten|gewicht|nutzlast|traglast|charge|charges|poids|surcharge|charge utile|carga|cargas|peso|sobrecarga|
		carico|carichi|obciazenie|obciazenia|ciezar|waga|belasting|gewicht|lasten|nyttolast|vikt`},
	{lUnit, `per|unit of load|load unit|units|einheit|unite|unidad|unita|jednostka|eenheid|enhet`},
	{lNote, `note|notes|remark|remarks|comment|bemerkung|remarque|observaciones|nota|note|uwagi|opmerking|anm`},
})

// loadField names the field of a header text of a loads table.
func loadField(text string) Field {
	if len(text) > maxHeader {
		return fUnknown
	}
	outside := strings.TrimSpace(bracketed.ReplaceAllString(text, " "))
	for _, t := range []string{text, outside} {
		if fs := loadWords.exact(t); fs != nil {
			return fs[0]
		}
	}
	if phrase.UnitOfLoad(text) != "" || strings.HasPrefix(fold(text), "load ") {
		return lAmount
	}
	return fUnknown
}

// isLoadHeader reports whether header words are those of a loads table.
func isLoadHeader(cols []sideCol) bool {
	seen := map[Field]bool{}
	tells := false
	for _, c := range cols {
		seen[c.field] = true
		key := fold(c.text)
		tells = tells || c.field == lAmount && (strings.HasPrefix(key, "load") || key == "live load" || key == "ll" || phrase.UnitOfLoad(c.text) != "" ||
			strings.Contains(key, "last") || strings.Contains(key, "charge") || strings.Contains(key, "carg") || strings.Contains(key, "caric") || strings.Contains(key, "obciaz") || strings.Contains(key, "belast"))
		tells = tells || c.field == lKind && (strings.Contains(key, "load") || strings.Contains(key, "last"))
	}
	return tells && (seen[lOn] || seen[lKind]) && (seen[lAmount] || seen[lKind])
}

// isPlainLoadHeader reports header words that may be those of a loads table, "Case | Kind |
// Amount": the values must tell.
func isPlainLoadHeader(cols []sideCol) bool {
	seen := map[Field]bool{}
	for _, c := range cols {
		seen[c.field] = true
	}
	return isLoadHeader(cols) || seen[lOn] && (seen[lAmount] || seen[lKind]) && len(cols) <= 5
}

// loadTables finds the tables of loads: by their header, or by a plain header over values
// that are loads.
func loadTables(g *Grid) []*sideTable {
	var tables []*sideTable
	for _, t := range sideTables(g, loadField, isPlainLoadHeader) {
		if isLoadHeader(t.cols) || holdsLoads(t) {
			tables = append(tables, t)
		}
	}
	return tables
}

// holdsLoads reports whether most rows of a table name a load in so many words or units.
func holdsLoads(t *sideTable) bool {
	rows, loads := 0, 0
	for _, row := range t.rows {
		found := false
		for _, f := range []Field{lKind, lAmount} {
			if c := t.cell(row, f); c != nil {
				said, rest := phrase.Loads(c.said(), "")
				found = found || len(said) == 1 && len(rest) == 0 && said[0].On == ""
			}
		}
		rows++
		if found {
			loads++
		}
	}
	return loads > 0 && 3*loads >= 2*rows
}

func scoreLoads(g *Grid, shop *standard.Table) int {
	if len(g.Rows) > maxSide {
		return 0
	}
	probe := &Tab{}
	used := readLoads(g, probe, shop)
	if len(probe.Loads) == 0 || len(used) == 0 {
		return 0
	}
	switch {
	case probe.Header != "":
		return min(100, 60+10*len(probe.Loads))
	case slices.ContainsFunc(g.Rows, beginsLoads):
		return 60
	case len(probe.Loads) >= 2 && 2*len(probe.Loads) >= len(g.Rows):
		return 50
	}
	return 0
}

// beginsLoads reports a row with the title of a line of loads.
func beginsLoads(row Row) bool {
	for i := range row.Cells {
		if _, ok := titleOf(row.Cells[i].Text()); ok {
			return true
		}
	}
	return false
}

func readLoads(g *Grid, tab *Tab, _ *standard.Table) map[int]bool {
	used := map[int]bool{}
	t := &Tab{}
	r := &loadReader{tab: t, last: map[Field]*Cell{}}
	tables := loadTables(g)
	inTable := map[int]bool{}
	for _, table := range tables {
		if t.Header == "" {
			t.Header = Address(table.heads[0], table.cols[0].col)
		}
		for _, n := range table.heads {
			used[n], inTable[n] = true, true
		}
		table.nameHeads(t)
		for _, row := range table.rows {
			inTable[row.N] = true
			if r.row(table, row) {
				used[row.N] = true
			}
		}
	}
	for i := range g.Rows {
		if row := &g.Rows[i]; !inTable[row.N] && !struckOut(row) && r.line(row) {
			used[row.N] = true
		}
	}
	tab.adopt(t, r.settle(), false)
	return used
}

// loadReader collects loads as typed; they are brought into one system at the end.
type loadReader struct {
	tab    *Tab
	last   map[Field]*Cell // the last filled cell of each field, for dittos
	titled bool            // a title "Loads" stands above
	found  []foundLoad
}

// cell gives the cell of a field in a row, the one above it where it only says ditto.
func (r *loadReader) cell(table *sideTable, row *Row, f Field) *Cell {
	c := table.cell(row, f)
	if c == nil {
		return nil
	}
	if phrase.Ditto(c.said()) {
		return r.last[f]
	}
	r.last[f] = c
	return c
}

type foundLoad struct {
	load   phrase.Load
	row    check.Cell
	on     check.Text
	kind   check.Text
	amount check.Cell
}

// row reads a row of a loads table.
func (r *loadReader) row(table *sideTable, row *Row) bool {
	on, kind, amount, unit := r.cell(table, row, lOn), r.cell(table, row, lKind), r.cell(table, row, lAmount), r.cell(table, row, lUnit)
	if kind == nil && amount == nil || isTotalRow(row) {
		return false
	}
	table.nameUnknown(row, r.tab)
	if note := table.cell(row, lNote); note != nil {
		r.tab.setAside(note, "a note")
	}
	f := foundLoad{row: row.Cells[0].From(), on: on.text()}
	f.load.Per = check.ByKind
	known := kind == nil || r.kind(&f, kind)
	if amount != nil && length.Nothing(amount.said()) != length.None {
		r.amount(&f, amount, unit, table.column(lAmount))
	}
	if !known {
		r.other(&f, kind)
	}
	if f.load.Kind == "" && !f.load.Amount.Known { // what stands there is named as unread
		if on != nil && hasNumber(phrase.Cut(on.said())) {
			r.tab.Unread = append(r.tab.Unread, wanting(on, "stands beside no load", "load"))
		}
		return true
	}
	r.found = append(r.found, f)
	return true
}

// kind reads the cell of the kind: a word, or a word with an amount. It reports whether the
// word is known.
func (r *loadReader) kind(f *foundLoad, c *Cell) bool {
	loads, _ := phrase.Loads(c.said(), "")
	if len(loads) != 1 {
		return false
	}
	f.load.Kind = loads[0].Kind
	f.kind = c.text()
	if loads[0].Amount.Known {
		f.take(loads[0], c)
	}
	return true
}

// other takes a word that is no kind of load. With an amount beside it the word is only what
// the load is called; without one nobody knows what stands there.
func (r *loadReader) other(f *foundLoad, c *Cell) {
	if f.load.Amount.Known {
		f.kind = c.text()
		return
	}
	r.tab.Unread = append(r.tab.Unread, wanting(c, "no kind of load that is known, and no amount beside it; expected books, display, linen, seat or none, or a number with its unit", "load"))
}

func (f *foundLoad) take(l phrase.Load, c *Cell) {
	f.load.Amount, f.load.Unit, f.load.Per = l.Amount, l.Unit, l.Per
	f.amount = c.From()
	if f.load.Kind == "" && l.Kind != "" {
		f.load.Kind, f.kind = l.Kind, c.text()
	}
}

func (r *loadReader) amount(f *foundLoad, c, unit *Cell, col *sideCol) {
	text := c.said()
	if c.Kind == Number && strings.TrimSpace(c.Look.Format.Suffix) != "" {
		text = c.Text()
	}
	if unit != nil {
		text += " " + unit.said()
	}
	header := phrase.UnitOfLoad(col.text)
	if header == "" {
		header = col.text
	}
	loads, _ := phrase.Loads(text, header)
	if len(loads) != 1 || !loads[0].Amount.Known && loads[0].Kind == "" {
		r.tab.Unread = append(r.tab.Unread, wanting(c, "no load with a unit that is known; expected one such as 25 lb/ft, 20 lb/ft2, 60 kg/m2, 2 persons or books", "load"))
		return
	}
	f.take(loads[0], c)
}

// titled are the words a line of loads, or the title over such lines, begins with.
var titled = set(`load loads loading last lasten belastung belastungen charge charges carga cargas carico carichi obciazenie obciazenia
	belasting belastingen lastar`)

// asks are titles over lines of loads that ask for them.
var asks = phraseSet(`what goes on it|what goes where|what goes in|what goes on them|what stands where|what stands on it|what sits on it|what is on it|contents|
	was steht drauf|was kommt rein|was steht wo|ce qu on met dessus|que lleva|cosa ci va|co na polkach|wat komt erop|vad ska sta dar`, "")

// titleOf gives the text behind the title of a line of loads: "Loads: A books".
func titleOf(text string) (rest string, ok bool) {
	head, rest, found := strings.Cut(text, ":")
	words := strings.Fields(fold(head))
	if asks[fold(head)] {
		return strings.TrimSpace(rest), found || rest == ""
	}
	if len(words) == 0 || len(words) > 4 || !titled[words[0]] {
		return text, false
	}
	return strings.TrimSpace(rest), found || rest == ""
}

// line reads a row outside a table: "A books; B seat 2 persons; W linen". Under no title of
// loads only lines that begin with a mark or case are read: "2417 Library" is a job.
func (r *loadReader) line(row *Row) bool {
	read := false
	var rest []*Cell
	for i := range row.Cells {
		c := &row.Cells[i]
		text, title := titleOf(c.said())
		r.titled = r.titled || title
		if title && text == "" {
			read = true
			continue
		}
		var left *Cell
		if n := len(rest); n > 0 && r.titled {
			left = rest[n-1]
		}
		if !r.loads(c, left, text, title) {
			rest = append(rest, c)
			continue
		}
		if left != nil {
			rest = rest[:len(rest)-1]
		}
		read = true
	}
	for _, c := range rest {
		if read {
			r.tab.setAside(c, "no load")
		}
	}
	return read
}

// loads takes the loads of one cell; false if it holds none. The cell left of it names the
// case where it does not itself: "C | 24 lb/ft" under the title.
func (r *loadReader) loads(c, left *Cell, text string, title bool) bool {
	loads, unread := phrase.Loads(text, "")
	read := false
	for _, l := range loads {
		f := foundLoad{load: l, row: c.From(), on: check.Text{Text: l.On, From: c.From()}, amount: c.From()}
		if l.On == "" && left != nil {
			f.on = left.text()
		}
		if !title && (f.on.Text == "" || !r.titled && !markLike(f.on.Text)) {
			continue
		}
		if l.Kind != "" {
			f.kind = check.Text{Text: l.Kind, From: c.From()}
		}
		r.found = append(r.found, f)
		read = true
	}
	if !read && !(title || r.titled && hasNumber(phrase.Cut(text))) {
		return false
	}
	for _, s := range unread {
		r.tab.Unread = append(r.tab.Unread, wanting(c, "\""+s+"\" is no load that is known; expected one such as A books, B seat 2 persons or C 25 lb/ft", "load"))
	}
	return true
}

// markLike reports a short code, or the word for a case with one: A, B2, SH-4, Case A.
func markLike(on string) bool {
	if names := strings.FieldsFunc(on, func(r rune) bool { return strings.ContainsRune(",;&+/", r) }); len(names) > 1 {
		return !slices.ContainsFunc(names, func(n string) bool { return !markLike(strings.TrimSpace(n)) })
	}
	words := strings.Fields(on)
	if len(words) == 2 && caseNouns[fold(words[0])] {
		words = words[1:]
	}
	return len(words) == 1 && len(words[0]) <= 6 && strings.ContainsFunc(words[0], unicode.IsLetter) &&
		strings.ToUpper(words[0]) == words[0]
}

var caseNouns = set(`case unit cab bay schrank korpus element meuble caisson mueble modulo mobile szafka kast skap`)

// settle brings the loads into the system most of them are typed in, which it returns, and
// hands them to the tab.
func (r *loadReader) settle() length.Unit {
	metric, imperial := 0, 0
	for _, f := range r.found {
		switch {
		case f.load.Unit == "":
		case strings.ContainsAny(f.load.Unit, "gN") || strings.Contains(f.load.Unit, "Pa"):
			metric++
		default:
			imperial++
		}
	}
	system := length.Inch
	if metric > imperial {
		system = length.Millimetre
	}
	for _, f := range r.found {
		v, err := f.load.In(system)
		if err != nil {
			r.tab.Unread = append(r.tab.Unread, check.Unread{Cell: f.amount, Text: f.load.Unit, Why: err.Error(), Wants: "load"})
			continue
		}
		if v.Known {
			v.From = f.amount
		}
		kind := f.kind
		if f.load.Kind != "" {
			kind.Text = f.load.Kind
		}
		if wholeJob[fold(f.on.Text)] {
			f.on.Text = ""
		}
		r.tab.Loads = append(r.tab.Loads, &check.Load{Row: f.row, On: f.on, Kind: kind, Amount: v, Per: f.load.Per})
		r.tab.Rows++
	}
	return system
}

// wholeJob are the words for every case of a job, folded.
var wholeJob = phraseSet(`the rest|rest|rest of it|all the rest|everything else|all else|all others|others|other shelves|der rest|alles andere|alles ubrige|ubrige|le reste|tout le reste|el resto|lo demas|il resto|reszta|pozostale|de rest|overige|resten|ovriga|ovrigt`, `all everything everywhere job overall alle alles uberall tout tous toutes partout todo todos todas tutto tutti tutte wszystko wszystkie alle allt alla overallt`)

// phraseSet is a set of texts parted by bars, and of words, folded.
func phraseSet(texts, words string) map[string]bool {
	m := set(words)
	for _, t := range strings.Split(texts, "|") {
		m[fold(t)] = true
	}
	return m
}

// loadIn brings the amount of a load from one system into the other: lb per inch, psi and lb
// with inches; N per mm, MPa and N with millimetres.
func loadIn(l *check.Load, from, to length.Unit) {
	unit := map[check.LoadPer]check.Unit{
		check.PerLength: check.LineLoad, check.PerArea: check.Pressure, check.InAll: check.Force,
	}[l.Per]
	if unit == "" || from == to || !l.Amount.Known {
		return
	}
	e, err := standard.Entry{Nominal: 1, Unit: unit.In(from)}.In(unit.In(to))
	if err != nil {
		panic("load: " + err.Error()) // both units are ours
	}
	l.Amount = l.Amount.Scale(e.Nominal)
}
