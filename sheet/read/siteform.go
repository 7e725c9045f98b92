package read

import (
	"regexp"
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/sheet/read/phrase"
)

// label is what the words before a number say of it: "W top", "Diag LB-RT", "W2 @1100".
type label struct {
	measure string // width, height, depth, diagonal, plumb, ...; empty if unsaid
	place   string // top, middle, floor, left, ...
	name    string // of the reading as typed: "W1", "LB-RT"
	height  check.Value
	told    string   // the words as typed, for lines that need them whole
	side    string   // last side named in a row of plumb readings
	order   []string // places of the readings to come: "T/M/B"
}

// box is one opening that is being filled in, in its columns of the tab.
type box struct {
	col     int // first column of the box
	opening *check.Opening
	label   label
	last    *check.Reading  // the reading that a remark behind it speaks of
	blank   map[string]bool // "name", "by" or "date" asked for, the answer in the next cell
	surface string          // a finish named, its yes or no still to come
}

// siteForm reads the boxed form: lines of words and readings, in any split over cells.
type siteForm struct {
	tab     *Tab
	unit    length.Unit
	own     length.Unit // of the cell being read, where its column names another
	boxes   []*box
	columns map[int]label // what a header row says of its columns
	signed  bool          // the row plainly speaks of directions
	starts  []*Cell       // of the row, those that name an opening
	boxed   bool          // an opening was named as one: "NICHE A"
	all     []*check.Opening
	places  map[string]bool // cases and rooms of the book's own parts, folded
}

// line reads one row of cells. A cell that says something no reader understands is named in
// the tab.
func (f *siteForm) line(cells []*Cell) {
	if n := f.labelledNames(cells); n > 0 {
		cells = cells[n:]
	} else {
		f.startBoxes(cells)
	}
	f.signed = speaksOfWays(cells)
	if f.leanRow(cells) {
		return
	}
	shared := label{}
	for _, b := range f.boxes {
		b.newRow(f.goesOn(cells, b))
	}
	for _, c := range cells {
		b := f.boxOf(int(c.Col))
		if b == nil {
			if shared.take(phrase.Cut(c.said())) {
				f.tab.Unread = append(f.tab.Unread, wanting(c, "a number before the first opening of the row; expected a word such as width, and the readings below the names", "reading"))
			}
			for _, b := range f.boxes {
				b.label = shared
			}
			continue
		}
		if over, ok := f.columns[int(c.Col)]; ok {
			b.label = b.label.under(over)
		}
		f.cell(b, c)
	}
}

// leanRow reads a row that begins with a side or a surface and says which way that leans, in its
// own words: "LH wall | 1/4 out at top in 7'", "Boden | 6 mm Gefälle nach rechts auf 2 m". Such a
// row holds no other reading.
func (f *siteForm) leanRow(cells []*Cell) bool {
	if len(cells) < 2 || len(f.boxes) != 1 || cells[0].Kind != Words {
		return false
	}
	of := sideNamed(phrase.Cut(cells[0].said()))
	words := ""
	for _, c := range cells[1:] {
		words += " " + c.said()
	}
	kind, speaks := phrase.Plumb, phrase.SpeaksOfLean(words)
	if of == "floor" || of == "top" {
		kind, speaks = phrase.Level, phrase.SpeaksOfSlope(words)
	}
	if pieces := phrase.Cut(words); of == "" || !hasNumber(pieces) || !speaks && !offsetIn(pieces) {
		return false
	}
	b, at := f.boxes[0], cells[1]
	leans := phrase.Leans{Kind: kind, Of: of, Signed: f.signed}
	found, unread := leans.Read(strings.TrimSpace(words), f.unit)
	if len(found) != 1 {
		found, unread = nil, []string{strings.TrimSpace(words)}
	}
	for _, l := range found {
		l.Text.From, l.Offset.From, l.Over.From = at.From(), at.From(), at.From()
		if !l.Over.Known {
			l.Over = check.Missing(check.Ask{Cell: at.From(), What: "the length it was measured over, such as the 48 or 78 of the level"})
		}
		f.current(b, cells[0].From()).Leans = append(b.opening.Leans, l)
	}
	for _, u := range unread {
		f.tab.Unread = append(f.tab.Unread, wanting(at, "\""+u+"\" is no offset; expected one such as 1/4 out at top, or 3/16 low R in 96", "reading"))
	}
	return true
}

// sideNamed is the side or surface that a cell names and nothing else, a hand before the word for
// a wall; empty for any other cell.
func sideNamed(pieces []phrase.Piece) string {
	of := ""
	for i := 0; i < len(pieces); {
		place, n := phrase.PlaceAt(pieces, i)
		switch {
		case n > 0 && (of == "" || of == "back"):
			of = place
		case n == 0 && !(pieces[i].Kind == phrase.Mark || sideNouns[pieces[i].Word]):
			return ""
		}
		i += max(1, n)
	}
	return of
}

var sideNouns = set(`wall side jamb wand seite mur cote pared lado muro parete lato sciana strona muur zijde kant vagg sida`)

// offsetIn reports the word plumb, level or square behind the first piece.
func offsetIn(pieces []phrase.Piece) bool {
	for i := 1; i < len(pieces); i++ {
		if means, n := phrase.Measure(pieces, i); n > 0 {
			if _, ok := offsetKinds[means]; ok {
				return true
			}
		}
	}
	return false
}

// speaksOfWays reports whether a row plainly says which way things lean.
func speaksOfWays(cells []*Cell) bool {
	var texts []string
	for _, c := range cells {
		texts = append(texts, c.said())
	}
	return phrase.Signed(strings.Join(texts, " | "))
}

// goesOn reports whether a row goes on with what the row above measures: it names no thing
// measured in the columns of a box, and begins there with a place or a number.
func (f *siteForm) goesOn(cells []*Cell, b *box) bool {
	first := true
	for _, c := range cells {
		if f.boxOf(int(c.Col)) != b {
			continue
		}
		pieces := phrase.Cut(c.said())
		for i := range pieces {
			if _, n := phrase.Measure(pieces, i); n > 0 {
				return false
			}
			if _, n := phrase.SurfaceAt(pieces, i); n > 0 && !placed(pieces, i) {
				return false // "sol | parquet à venir 15": a finish, whatever was measured above
			}
		}
		if first && len(pieces) > 0 {
			_, place := phrase.PlaceAt(pieces, 0)
			if place == 0 && pieces[0].Kind != phrase.Length {
				return false
			}
			first = false
		}
	}
	return true
}

func placed(pieces []phrase.Piece, i int) bool {
	_, n := phrase.PlaceAt(pieces, i)
	return n > 0
}

// newRow forgets what the row before said, but for the thing measured where the new row goes
// on with it: "top", "middle", "floor" below the word "Width".
func (b *box) newRow(goesOn bool) {
	keep := ""
	if m := b.label.measure; goesOn && (m == "width" || m == "height" || m == "depth" || m == "diagonal") {
		keep = m
	}
	b.label, b.last = label{measure: keep}, nil
	b.surface = ""
}

// boxOf finds the box a column lies in, nil for the columns left of the first of several.
func (f *siteForm) boxOf(col int) *box {
	var found *box
	for _, b := range f.boxes {
		if b.col <= col {
			found = b
		}
	}
	return found
}

// startBoxes opens a box for each cell of the row that names an opening.
func (f *siteForm) startBoxes(cells []*Cell) {
	starts := f.openingCells(cells)
	f.starts = starts
	switch {
	case len(starts) > 1:
		f.boxes = nil
		for _, c := range starts {
			f.boxes = append(f.boxes, &box{col: int(c.Col)})
		}
	case len(f.boxes) == 0, len(starts) == 1 && !f.boxAt(int(starts[0].Col)):
		f.boxes = []*box{{}}
	}
	if len(starts) > 0 {
		f.columns = nil
	}
}

// labelledNames opens the openings of a row such as "Opening | Alcove", "Location | Study |
// Date | 3/11" or "Opening | Niche A | Niche B", and says how many cells it was; 0 where the
// row does not begin with the word for a name alone.
func (f *siteForm) labelledNames(cells []*Cell) int {
	if len(cells) < 2 || !f.labelsName(cells[0]) {
		return 0
	}
	n := 1
	for n < len(cells) && namesOpening(cells[n]) {
		n++
	}
	if n == 1 {
		return 0
	}
	f.columns, f.starts, f.boxed = nil, nil, true
	f.boxes = nil
	for _, c := range cells[1:n] {
		b := &box{col: int(c.Col)}
		if n == 2 {
			b.col = 0
		}
		f.open(b, c.text(), c.From())
		f.boxes = append(f.boxes, b)
	}
	return n
}

// labelsName reports a cell that holds nothing but the word behind which the name of an opening
// stands. Behind readings a word such as "name" asks for somebody else's.
func (f *siteForm) labelsName(c *Cell) bool {
	fs := siteWords.exact(strings.TrimRight(c.said(), " :"))
	if c.Kind != Words || len(fs) == 0 || fs[0] != sName {
		return false
	}
	return len(f.all) == 0 || phrase.IsOpening(fold(c.said())) || nameWords[fold(c.said())]
}

var nameWords = set(`opening location loc place room where ort raum lage offnung emplacement ouverture lugar ubicacion luogo locale miejsce pomieszczenie plaats ruimte oppning plats rum`)

// namesOpening reports a cell that can be the name of an opening: short words that say nothing
// measured.
func namesOpening(c *Cell) bool {
	pieces := phrase.Cut(c.said())
	if c.Kind != Words || len(pieces) == 0 || len(pieces) > 6 || answers(pieces) {
		return false
	}
	words := 0
	for i, p := range pieces {
		switch {
		case p.Kind == phrase.Word:
			words++
			if means, n := phrase.Measure(pieces, i); n > 0 && (len(p.Word) > 1 || i == 0 && len(pieces) > 1) && means != "window" && !(i > 0 && (phrase.Obstacles[means] || means == "by" && i+1 < len(pieces))) {
				return false
			}
		case p.Kind == phrase.Length && strings.ContainsFunc(p.Text, func(r rune) bool { return r < '0' || r > '9' }):
			return false
		}
	}
	return words > 0
}

// openingCells lists the cells of a row that name an opening. Behind a number a name is what
// something fits, and no opening of its own.
func (f *siteForm) openingCells(cells []*Cell) []*Cell {
	if f.areNames(cells) {
		return cells
	}
	if len(cells) > 1 && f.isName(cells[0]) && !slices.ContainsFunc(cells[1:], plainReading) {
		return cells[:1] // "Study | by K.", "Study | 61 3/8 x 84"
	}
	var starts []*Cell
	for _, c := range cells {
		pieces := phrase.Cut(c.said())
		if _, ok := startsOpening(pieces); ok {
			starts = append(starts, c)
		} else if hasNumber(pieces) && len(starts) == 0 {
			return nil
		}
	}
	return starts
}

// plainReading reports a cell with a number that is no size of a whole opening.
func plainReading(c *Cell) bool {
	pieces := phrase.Cut(c.said())
	_, n := phrase.Measure(pieces, 0)
	return hasNumber(pieces) && n == 0 && !shortDate.MatchString(c.said()) && !slices.ContainsFunc(pieces, func(p phrase.Piece) bool { return p.Is("x") })
}

// shortDate matches 11/20 and 12.3.2026: beside a name no reading.
var shortDate = regexp.MustCompile(`^\s*\d{1,2}[/.]\d{1,2}([/.](\d{2,4})?)?\s*$`)

// areNames reports a row of nothing but names: of cases and rooms of the job, or that end with the
// word for a place, "Lamp bay".
func (f *siteForm) areNames(cells []*Cell) bool {
	for _, c := range cells {
		if !f.isName(c) {
			return false
		}
	}
	return len(cells) > 0
}

func (f *siteForm) isName(c *Cell) bool {
	pieces := phrase.Cut(c.said())
	if c.Kind != Words || len(pieces) == 0 {
		return false
	}
	if f.places[fold(c.Text())] {
		means, measured := phrase.Measure(pieces, 0)
		_, placed := phrase.PlaceAt(pieces, 0)
		aside := means == "by" || means == "date" || phrase.Obstacles[means] // "Den" is Swedish before a date
		return (measured < len(pieces) || aside) && placed < len(pieces)
	}
	last := pieces[len(pieces)-1].Word
	if len(pieces) < 2 || len(pieces) > 3 || !recesses[last] {
		return false
	}
	for i, p := range pieces {
		means, n := phrase.Measure(pieces, i)
		if p.Kind != phrase.Word || formWords[p.Word] || n > 0 && !phrase.Obstacles[means] {
			return false
		}
	}
	return true
}

// recesses end the name of a place that begins with what it is for: "Lamp bay", "TV nook".
var recesses = set(`niche bay alcove nook recess closet nische wandnische renfoncement nicho hornacina nicchia wneka nisza nis nisch`)

func (f *siteForm) boxAt(col int) bool {
	for _, b := range f.boxes {
		if b.col == col {
			return true
		}
	}
	return false
}

// startsOpening reports whether a cell begins with the name of an opening, behind the word
// for a site measure or without: "NICHE A", "Aufmaß Nische 4", but not "wall 3 out". It gives
// the piece where the name begins.
func startsOpening(pieces []phrase.Piece) (from int, ok bool) {
	for from < len(pieces)-1 && pieces[from].Kind == phrase.Word && formWords[pieces[from].Word] {
		from++
	}
	rest := pieces[from:]
	if len(rest) == 0 || rest[0].Kind != phrase.Word {
		return 0, false
	}
	n := 1
	if len(rest) > 1 && rest[1].Kind == phrase.Word && phrase.IsOpening(rest[0].Word+" "+rest[1].Word) {
		n = 2
	} else if !phrase.IsOpening(rest[0].Word) {
		return 0, false
	}
	if rest[0].Word != "wall" && rest[0].Word != "room" {
		_, measured := phrase.Measure(rest, n)
		return from, measured == 0
	}
	named := len(rest) > 1 && (rest[1].Is(":") || rest[1].Kind == phrase.Word && len(rest[1].Word) <= 2 && phrase.Place(rest[1].Word) == "")
	return from, named
}

// formWords stand before the name of an opening in the title of a form.
var formWords = set(`site field measure measurement measurements survey form aufmass messblatt aufnahme releve mesures cotes rilievo misure pomiar
	wymiary inmeten opmeting maten matt matning medicion medidas toma of de des der du di`)

// open begins a new opening in a box.
func (f *siteForm) open(b *box, name check.Text, row check.Cell) {
	b.opening = &check.Opening{Row: row, Name: name}
	f.all = append(f.all, b.opening)
}

// named is the opening of that name that was begun before, nil if there is none.
func (f *siteForm) named(name string) *check.Opening {
	for _, o := range f.all {
		if fold(o.Name.Text) == fold(name) {
			return o
		}
	}
	return nil
}

// current is the opening of a box, begun without a name if the form names none.
func (f *siteForm) current(b *box, row check.Cell) *check.Opening {
	if b.opening == nil {
		f.open(b, check.Text{}, row)
	}
	return b.opening
}

// under lays the label of a column over that of a row: what the column leaves open stays.
func (l label) under(col label) label {
	if col.measure != "" {
		l.measure = col.measure
	}
	if col.place != "" {
		l.place, l.side = col.place, ""
	}
	if col.name != "" {
		l.name = col.name
	}
	if col.told != "" {
		l.told = strings.TrimSpace(l.told + " " + col.told)
	}
	return l
}

// take reads the words of a label, and reports a number that is no part of it.
func (l *label) take(pieces []phrase.Piece) (stray bool) {
	for i := 0; i < len(pieces); {
		n := l.word(pieces, i)
		stray = stray || n == 0 && pieces[i].Kind == phrase.Length
		i += max(1, n)
	}
	return stray
}

// word takes what a label says at a piece, and of how many pieces it was; 0 for nothing.
func (l *label) word(pieces []phrase.Piece, i int) int {
	if pieces[i].Kind == phrase.Mark {
		return 0
	}
	if m := lettered(pieces, i); m != "" {
		l.set(m, pieces[i].Text)
		return 1
	}
	if means, n := phrase.Measure(pieces, i); n > 0 && !(means == "base" && l.measure == "width" && i > 0) {
		l.set(means, pieces[i].Text)
		return n
	}
	if place, n := phrase.PlaceAt(pieces, i); n > 0 {
		l.place = place
		return n
	}
	if order := placesInOrder(pieces[i].Word); order != nil {
		l.order = order
		return 1
	}
	return 0
}

// placesInOrder reads T/M/B and L/R: the places of the readings that follow.
func placesInOrder(word string) []string {
	var order []string
	for _, w := range strings.Split(word, "/") {
		place := phrase.Place(w)
		if place == "" {
			return nil
		}
		order = append(order, place)
	}
	return order
}

func (l *label) set(measure, text string) {
	if l.measure != measure {
		l.place, l.height, l.order = "", check.Value{}, nil
	}
	l.measure, l.name = measure, ""
	if strings.ContainsAny(text, "123456789") {
		l.name = text
	}
}

// lettered settles letters that mean one thing before a place and another alone: B and L
// are widths (Breite, largeur) before top or bottom, T a depth (Tiefe) before left or right.
func lettered(pieces []phrase.Piece, i int) string {
	if i+1 >= len(pieces) || pieces[i+1].Kind != phrase.Word || len(pieces[i+1].Word) < 3 {
		return ""
	}
	place := phrase.Place(pieces[i+1].Word)
	upright := place == "top" || place == "middle" || place == "floor"
	switch pieces[i].Word {
	case "b", "l":
		if upright {
			return "width"
		}
	case "t":
		if place == "left" || place == "right" {
			return "depth"
		}
	case "alto": // Spanish for high, Italian for above
		if place == "left" || place == "right" {
			return "height"
		}
	}
	return ""
}

// cell reads one cell of a box.
func (f *siteForm) cell(b *box, c *Cell) {
	text := c.said()
	pieces := phrase.Cut(text)
	if len(pieces) == 0 {
		if c.Kind == Fault || c.Kind == Pending {
			f.tab.Unread = append(f.tab.Unread, c.Unread("a formula without a value"))
		}
		return
	}
	if f.filledIn(b, c, text, pieces) {
		return
	}
	p := &cellParse{form: f, box: b, cell: c, text: text, pieces: pieces}
	p.run()
}

// filledIn takes a cell that answers the words of the cell before it: a name, a date, a yes.
func (f *siteForm) filledIn(b *box, c *Cell, text string, pieces []phrase.Piece) bool {
	for _, what := range []string{"name", "by", "date"} {
		if !b.blank[what] {
			continue
		}
		delete(b.blank, what)
		o := f.current(b, c.From())
		switch what {
		case "name":
			o.Name = c.text()
		case "by":
			o.By = c.text()
		default:
			o.When = c.text()
		}
		return true
	}
	if b.surface != "" {
		yes, ok := phrase.Answer(pieces[0].Word)
		if ok {
			p := &cellParse{form: f, box: b, cell: c, text: text, pieces: pieces}
			p.answered(b.surface, yes, 1)
			b.surface = ""
			return true
		}
	}
	return false
}
