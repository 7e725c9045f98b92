package read

import (
	"cmp"
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
	"dryfit/sheet/read/phrase"
)

// siteKind reads site measures: the boxed form, the list of readings, a row per opening, and
// the poor form of one line.
var siteKind = kind{name: "site", score: scoreSite, read: readSite}

// The columns of a list of readings, beside those that name a thing measured.
const (
	sName    Field = "opening"
	sPoint   Field = "point"
	sReading Field = "reading"
	sAt      Field = "height of the reading"
	sNote    Field = "site note"
	sBy      Field = "measured by"
	sDate    Field = "date"
)

var siteWords = newLexicon([]fieldWords{
	{sName, `opng|opening|openings|niche|loc|location|room|alcove|recess|place|where|case|unit|name|id|mark|nische|offnung|ort|raum|lage|ouverture|emplacement|piece|repere|hueco|nicho|lugar|ubicacion|vano|nicchia|luogo|locale|
		otwor|wneka|miejsce|pomieszczenie|nis|plaats|ruimte|oppning|nisch|rum|plats`},
	{sPoint, `point|pt|dimension|dim|what|measurement|measure point|station|messpunkt|punkt|mass|messstelle|was|point de mesure|cote|mesure de|punto|cota|que|punto di misura|punkt pomiaru|wymiar|meetpunt|maat|matpunkt|matt`},
	{sReading, `reading|readings|size|value|measured|measure|actual|field|field dim|field size|ablesung|wert|messwert|istmass|gemessen|lecture|valeur|mesure|releve|lectura|valor|medida|lettura|valore|misura|odczyt|wartosc|pomiar|zmierzono|aflezing|
		waarde|gemeten|avlasning|varde|matvarde`},
	{sAt, `height of reading|at height|at|hohe der messung|messhohe|a hauteur|a la altura|all altezza|na wysokosci|op hoogte|pa hojd`},
	{sNote, `note|notes|remark|remarks|rmk|comment|comments|bemerkung|bemerkungen|hinweis|remarque|remarques|observacion|observaciones|nota|notas|osservazioni|uwagi|uwaga|opmerking|opmerkingen|anm|anmarkning`},
	{sBy, `by|measured by|who|taken by|gemessen von|von|aufmass|par|releve par|por|medido por|da|rilevato da|mierzyl|zmierzyl|door|gemeten door|av|matt av`},
	{sDate, `date|when|day|datum|fecha|data|dnia|dato`},
})

// siteHeader is a header row of a site tab: columns of a list, or of a row per opening.
type siteHeader struct {
	fields  map[int]Field
	labels  map[int]label
	unit    map[int]length.Unit
	names   map[int]*Cell  // columns that are openings, of a matrix
	unknown []check.Unread // header cells that name no column
}

// readSiteHeader reads a row of words as a header; false if it is none.
func readSiteHeader(cells []*Cell) (h siteHeader, ok bool) {
	h = siteHeader{fields: map[int]Field{}, labels: map[int]label{}, unit: map[int]length.Unit{}, names: map[int]*Cell{}}
	places, measures := 0, 0
	last := ""
	has := map[Field]bool{}
	var unknown []*Cell
	for _, c := range cells {
		pieces := phrase.Cut(c.said())
		if c.Kind != Words || len(pieces) == 0 || len(c.Text()) > maxHeader || hasNumber(pieces) || answers(pieces) || ofParts(c.Text()) {
			return h, false
		}
		h.unit[int(c.Col)] = length.UnitIn(c.Text())
		var l label
		l.take(pieces)
		l.told = c.Text()
		if fs := siteWords.exact(bracketed.ReplaceAllString(c.Text(), " ")); fs != nil && (l.measure == "" || fs[0] == sBy || fs[0] == sDate || fs[0] == sPoint) {
			f := fs[0]
			if f == sPoint && has[sPoint] {
				f = sReading // "Punkt | Maß": beside the point, the dimension is what was read
			}
			h.fields[int(c.Col)], has[f] = f, true
			continue
		}
		switch {
		case l.measure != "":
			measures++
			last = l.measure
			if corners := phrase.Corners(pieces); l.measure == "diagonal" && corners != "" {
				l.name = corners
			}
		case l.place != "":
			if len(fold(l.told)) > 1 {
				places++
			}
			l.measure = last
		default:
			unknown = append(unknown, c)
			continue
		}
		h.labels[int(c.Col)] = l
	}
	switch {
	case has[sReading] && (has[sPoint] || has[sName]):
	case measures >= 2 && (has[sName] || measures+places >= 3):
	case places >= 2 && measures+len(h.fields) <= 2:
	case has[sPoint] && !has[sReading] && len(unknown) > 0:
		for _, c := range unknown {
			h.names[int(c.Col)] = c
		}
	default:
		return h, false
	}
	for _, c := range unknown {
		if h.names[int(c.Col)] == nil {
			h.unknown = append(h.unknown, c.Unread("no header word that is known"))
		}
	}
	return h, true
}

// ofParts reports a header word of parts tables: a quantity, a thickness, a material.
func ofParts(text string) bool {
	fs := partLexicon.exact(text)
	return len(fold(text)) > 2 && len(fs) > 0 && (fs[0] == fQty || fs[0] == fQtyPer || fs[0] == fQtyAll || fs[0] == fThick || fs[0] == fMatl || fs[0] == fEdges)
}

func hasNumber(pieces []phrase.Piece) bool {
	for _, p := range pieces {
		if p.Kind == phrase.Length {
			return true
		}
	}
	return false
}

// answers reports a cell that answers a question: yes, none, O.K.
func answers(pieces []phrase.Piece) bool {
	for i, p := range pieces {
		if p.Kind != phrase.Word {
			continue
		}
		if n := length.Nothing(p.Text); n == length.None || n == length.Unknown && len(p.Word) <= 3 {
			return true
		}
		if _, yes := phrase.Answer(p.Word); yes && i > 0 && len(p.Word) > 1 && p.Word != "in" && p.Word != "open" {
			return true
		}
	}
	return false
}

// scoreSite counts what only a site form says: several readings of one size, diagonals,
// plumb and level, the ceiling, the name of an opening. Columns H, W and D beside a mark say
// none of it: they are those of a parts table.
func scoreSite(g *Grid, shop *standard.Table) int {
	if len(g.Rows) > maxSide || partsIn(g, shop).score() > 0 {
		return 0 // beside a parts table the form is read from what that leaves
	}
	r := readForm(g)
	kinds := map[string]bool{}
	readings, most := 0, 0
	for _, o := range r.tab.Openings {
		for name, n := range map[string]int{"w": len(o.Widths), "h": len(o.Heights), "d": len(o.Depths), "x": len(o.Diagonals), "plumb": len(o.Leans),
			"obstacle": len(o.Obstacles), "finish": len(o.ToCome) + len(o.Settled)} {
			if n > 0 {
				kinds[name] = true
				readings += n
			}
		}
		if o.Ceiling.Known {
			kinds["ceiling"] = true
		}
		most = max(most, min(len(o.Widths), 4), min(len(o.Heights), 4))
	}
	special := kinds["x"] || kinds["plumb"] || kinds["obstacle"] || kinds["finish"] || kinds["ceiling"]
	switch {
	case readings < 2 || !kinds["w"] && !kinds["h"], len(kinds) < 2 && most < 2:
		return 0
	case 3*len(r.tab.Unread) > readings: // most of it is something else
		return 0
	case len(kinds) == 1 && !kinds["w"]: // a column "High" of prices
		return 0
	case r.boxed || most >= 2 && (len(kinds) > 1 || r.placed()):
		return min(100, 45+10*len(kinds)+5*most)
	case special:
		return min(100, 40+10*len(kinds))
	}
	return 0
}

// placed reports whether some opening has readings at two named places.
func (r *siteReader) placed() bool {
	for _, o := range r.tab.Openings {
		for _, rs := range [][]check.Reading{o.Widths, o.Heights} {
			for _, reading := range rs {
				if reading.At != "" && reading.At != rs[0].At && rs[0].At != "" {
					return true
				}
			}
		}
	}
	return false
}

// largestOpening is the largest bare number that may be inches on a site form: 30 ft.
const largestOpening = 360

func readSite(g *Grid, tab *Tab, _ *standard.Table) map[int]bool {
	r := readForm(g)
	tab.adopt(r.tab, r.unit, r.guessed)
	return r.used
}

// readForm reads a whole tab as a site form, in the unit of its bare numbers.
func readForm(g *Grid) *siteReader {
	typed, guessed := sideUnit(g, largestOpening)
	r := &siteReader{siteForm: siteForm{tab: &Tab{}, unit: typed, places: g.places}, g: g, guessed: guessed, used: map[int]bool{}}
	for i := range g.Rows {
		if !struckOut(&g.Rows[i]) && !chained(&g.Rows[i], typed) {
			r.row(&g.Rows[i])
		}
	}
	for _, o := range r.all {
		finishOpening(o)
		if !emptyOpening(o) {
			r.tab.Openings = append(r.tab.Openings, o)
			continue
		}
		for _, said := range []check.Text{o.Name, o.By, o.When} {
			if said.Text != "" {
				r.tab.Aside = append(r.tab.Aside, check.Unread{Cell: said.From, Text: said.Text, Why: "of an opening without a reading"})
			}
		}
	}
	return r
}

// chained reports a row that holds a chain of parts: what is in it is no reading.
func chained(row *Row, unit length.Unit) bool {
	for i := range row.Cells {
		c := &row.Cells[i]
		if c.Kind != Words || !strings.Contains(c.said(), "+") {
			continue
		}
		if run, _, ok := phrase.ParseRun(c.said(), unit); ok && plausibleRun(run) {
			return true
		}
	}
	return false
}

// siteReader reads the rows of a site tab, by its header where there is one, else as a form.
type siteReader struct {
	siteForm
	g       *Grid
	guessed bool // nobody says the unit
	header  *siteHeader
	used    map[int]bool
	waiting []waitingRow
	byName  map[string]*check.Opening // openings of a list
}

func (r *siteReader) row(row *Row) {
	cells := make([]*Cell, 0, len(row.Cells))
	for i := range row.Cells {
		cells = append(cells, &row.Cells[i])
	}
	if h, ok := readSiteHeader(cells); ok {
		r.startTable(h, row, cells)
		return
	}
	before, unread, aside, opened := r.readings(), len(r.tab.Unread), len(r.tab.Aside), len(r.all)
	switch {
	case r.header != nil && r.isList() && !r.formRow(cells):
		r.listRow(row, cells)
	default:
		if r.header != nil && len(r.header.names) == 0 && len(r.openingCells(cells)) > 0 {
			r.header, r.columns = nil, nil
		}
		r.line(cells)
	}
	fresh := r.readings() > before
	if fresh || len(r.all) > opened || len(r.tab.Unread) > unread && len(r.all) > 0 && speaksOfSite(cells) {
		r.take(row.N)
		if fresh {
			r.tab.Rows++
		}
		return
	}
	if len(r.all) > 0 && len(r.waiting) < 8 {
		r.waiting = append(r.waiting, waitingRow{row.N, slices.Clone(r.tab.Unread[unread:]), slices.Clone(r.tab.Aside[aside:])})
	}
	r.tab.Unread, r.tab.Aside = r.tab.Unread[:unread], r.tab.Aside[:aside]
}

// waitingRow is a row that says nothing of its own. It belongs to the form if readings
// follow, else another reader may know it.
type waitingRow struct {
	n             int
	unread, aside []check.Unread
}

// take claims a row, and those that waited above it.
func (r *siteReader) take(n int) {
	for _, w := range r.waiting {
		r.used[w.n] = true
		r.tab.Unread = append(r.tab.Unread, w.unread...)
		r.tab.Aside = append(r.tab.Aside, w.aside...)
	}
	r.waiting = nil
	r.used[n] = true
	if row := r.g.Row(n); r.tab.Header == "" && row != nil {
		r.tab.Header = row.Cells[0].Addr()
	}
}

// speaksOfSite reports a row that names a thing measured in so many letters.
func speaksOfSite(cells []*Cell) bool {
	for _, c := range cells {
		pieces := phrase.Cut(c.said())
		for i := range pieces {
			if _, n := phrase.Measure(pieces, i); n > 0 && len(pieces[i].Word) > 3 {
				return true
			}
		}
	}
	return false
}

// readings counts everything that was read so far.
func (r *siteReader) readings() int {
	n := 0
	for _, o := range r.all {
		n += len(o.Widths) + len(o.Heights) + len(o.Depths) + len(o.Diagonals) + len(o.Leans) + len(o.ToCome) + len(o.Settled) + len(o.Obstacles)
		for _, known := range []bool{o.Ceiling.Known, o.Base.Known, o.Crown.Known, o.Within.Known, o.By.Text != "", o.When.Text != ""} {
			if known {
				n++
			}
		}
	}
	return n
}

// startTable takes a header row: a list, a row per opening, or a matrix of openings.
func (r *siteReader) startTable(h siteHeader, row *Row, cells []*Cell) {
	r.header = &h
	r.columns = h.labels
	r.waiting = append(r.waiting, waitingRow{n: row.N, aside: h.unknown})
	if len(h.names) == 0 {
		if len(r.openingCells(cells[:1])) > 0 { // "Niche 3 | top | middle | floor"
			r.boxes, r.starts = []*box{{}}, cells[:1]
			r.cell(r.boxes[0], cells[0])
		}
		return
	}
	r.boxes, r.columns = nil, nil
	for _, c := range cells {
		if h.names[int(c.Col)] == nil {
			continue
		}
		b := &box{col: int(c.Col)}
		r.open(b, c.text(), c.From())
		r.boxes = append(r.boxes, b)
	}
}

// isList reports whether the rows below the header name their opening in a column.
func (r *siteReader) isList() bool {
	for _, f := range r.header.fields {
		if f == sName || f == sReading {
			return true
		}
	}
	return false
}

// formRow reports a row of the boxed form below a table: it begins with the name of an
// opening in a column that is not for names, or with words and a number of its own.
func (r *siteReader) formRow(cells []*Cell) bool {
	if len(cells) == 0 {
		return false
	}
	pieces := phrase.Cut(cells[0].said())
	if len(cells) == 1 && r.isName(cells[0]) {
		return true
	}
	if _, opens := startsOpening(pieces); opens {
		sized := slices.ContainsFunc(pieces, func(p phrase.Piece) bool { return p.Is("x") })
		return sized || r.header.fields[int(cells[0].Col)] != sName
	}
	_, n := phrase.Measure(pieces, 0)
	return n > 0 && hasNumber(pieces)
}

// listRow reads a row of a list of readings, or of a table with a row per opening.
func (r *siteReader) listRow(row *Row, cells []*Cell) {
	b := r.listBox(row, cells)
	var point, reading, note *Cell
	for _, c := range cells {
		switch r.header.fields[int(c.Col)] {
		case sPoint:
			point = c
		case sReading:
			reading = c
		case sNote:
			note = c
		}
	}
	b.label, b.last, b.surface = label{}, nil, ""
	r.signed = speaksOfWays(cells)
	if r.leaning(b, point, reading, note) {
		return
	}
	if point != nil {
		r.cell(b, point)
	}
	for _, c := range cells {
		over, measured := r.header.labels[int(c.Col)]
		switch r.header.fields[int(c.Col)] {
		case sAt:
			r.heightOf(b, c)
		case sReading:
			r.inUnit(c, func() { r.cell(b, c) })
		case sBy:
			r.current(b, c.From()).By = c.text()
		case sDate:
			r.current(b, c.From()).When = c.text()
		default:
			switch {
			case measured:
				b.label = over
				b.last = nil
				r.inUnit(c, func() { r.cell(b, c) })
			case r.header.fields[int(c.Col)] == fUnknown && hasNumber(phrase.Cut(c.said())):
				r.tab.Unread = append(r.tab.Unread, c.Unread("no header word that is known stands over the cell"))
			}
		}
	}
	if note != nil {
		r.note(b, note, reading != nil)
	}
}

// listBox finds the opening a row speaks of: the one its name column names, the one above
// where it names none.
func (r *siteReader) listBox(row *Row, cells []*Cell) *box {
	if len(r.boxes) != 1 {
		r.boxes = []*box{{}}
	}
	b := r.boxes[0]
	for col, f := range r.header.fields {
		if f != sName {
			continue
		}
		c := r.g.Anchor(row.N, col)
		if c == nil || phrase.Ditto(c.said()) {
			continue
		}
		if r.byName == nil {
			r.byName = map[string]*check.Opening{}
		}
		key := fold(c.Text())
		if o := r.byName[key]; o != nil && r.hasPoints() {
			b.opening = o
			continue
		}
		r.open(b, c.text(), cells[0].From())
		r.byName[key] = b.opening
	}
	r.current(b, cells[0].From())
	return b
}

// hasPoints reports a list in which many rows speak of one opening.
func (r *siteReader) hasPoints() bool {
	for _, f := range r.header.fields {
		if f == sPoint || f == sReading {
			return true
		}
	}
	return false
}

// leaning reads a row of a list about plumb or level: "back wall | 9/2000 | leans in".
func (r *siteReader) leaning(b *box, point, reading, note *Cell) bool {
	if point == nil || reading == nil {
		return false
	}
	pieces := phrase.Cut(point.said())
	var l label
	l.take(pieces)
	words := point.said() + " " + reading.said()
	if note != nil {
		words += " " + note.said()
	}
	kind, isOffset := offsetKinds[l.measure]
	if !isOffset && (l.measure != "" || l.place == "" || !phrase.SpeaksOfLean(words)) {
		return false
	}
	leans := phrase.Leans{Kind: kind, Signed: r.signed}
	found, rest := leans.Read(words, r.unit)
	if len(found) == 0 {
		for _, u := range rest {
			r.tab.Unread = append(r.tab.Unread, wanting(reading, "\""+u+"\" is no offset; expected one such as 1/4 out at top, or 3/16 low R in 96", "reading"))
		}
		return len(rest) > 0
	}
	o := r.current(b, reading.From())
	for _, lean := range found {
		lean.Text.From, lean.Offset.From, lean.Over.From = reading.From(), reading.From(), reading.From()
		if !lean.Over.Known {
			lean.Over = check.Missing(check.Ask{Cell: reading.From(), What: "the length it was measured over, such as the 48 or 78 of the level"})
		}
		o.Leans = append(o.Leans, lean)
	}
	return true
}

// heightOf reads the column with the height a reading was taken at.
func (r *siteReader) heightOf(b *box, c *Cell) {
	if v, _, err := phrase.Value(c.said(), r.unit, "the height of the reading"); err == nil {
		b.label.height = c.at(v)
		return
	}
	r.tab.Unread = append(r.tab.Unread, wanting(c, "no length; expected the height of the reading", "height"))
}

// inUnit reads a cell in the unit of its column, where the header names another than the tab.
func (r *siteReader) inUnit(c *Cell, read func()) {
	own := r.header.unit[int(c.Col)]
	if own == length.Unsaid || own == r.unit {
		read()
		return
	}
	r.own = own
	read()
	r.own = length.Unsaid
}

// note keeps what a note says of the reading of its row, or of the opening.
func (r *siteReader) note(b *box, c *Cell, ofReading bool) {
	if ofReading && b.last != nil {
		b.last.Word = check.Text{Text: strings.TrimSpace(b.last.Word.Text + " " + c.Text()), From: c.From()}
		return
	}
	o := r.current(b, c.From())
	for _, p := range phrase.Cut(c.said()) {
		if p.Kind == phrase.Word && phrase.IsRemark(p.Word) {
			remarkAll(o, c.text())
			return
		}
	}
	b.label, b.last = label{}, nil
	r.cell(b, c)
}

// remarkAll puts a remark on an opening to every reading of it.
func remarkAll(o *check.Opening, word check.Text) {
	for _, rs := range [][]check.Reading{o.Widths, o.Heights, o.Depths, o.Diagonals} {
		for i := range rs {
			if rs[i].Word.Text == "" {
				rs[i].Word = word
			}
		}
	}
}

// finishOpening puts the readings in order, floor and left first, and marks the poor form.
func finishOpening(o *check.Opening) {
	order := map[string]int{"floor": 0, "middle": 2, "top": 4, "left": 0, "right": 4, "front": 0, "back": 4}
	for _, rs := range [][]check.Reading{o.Widths, o.Heights, o.Depths} {
		slices.SortStableFunc(rs, func(a, b check.Reading) int {
			if a.Place.Known && b.Place.Known {
				return cmp.Compare(a.Place.Nominal, b.Place.Nominal)
			}
			return cmp.Compare(rank(order, a.At), rank(order, b.At))
		})
	}
	o.Poor = o.Poor || len(o.Widths) <= 1 && len(o.Heights) <= 1 && len(o.Depths) <= 1
	if slices.ContainsFunc(o.Settled, func(s string) bool { return s == "walls" }) {
		o.ToCome = slices.DeleteFunc(o.ToCome, func(t check.ToCome) bool { return t.On == "walls" && !t.Thickness.Known })
	}
}

// rank puts readings without a known place in the middle.
func rank(order map[string]int, at string) int {
	if n, ok := order[at]; ok {
		return n
	}
	return 2
}

// emptyOpening reports an opening of which nothing was read but its name.
func emptyOpening(o *check.Opening) bool {
	return len(o.Widths)+len(o.Heights)+len(o.Depths)+len(o.Diagonals)+len(o.Leans)+len(o.Obstacles)+len(o.ToCome)+len(o.Settled) == 0 &&
		!o.Ceiling.Known && !o.Base.Known && !o.Crown.Known
}
