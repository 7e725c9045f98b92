package read

import (
	"regexp"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
	"dryfit/sheet/read/phrase"
)

// jointsKind reads joint schedules: a row per kind of joint, or a row per slot of a part.
var jointsKind = kind{name: "joints", score: scoreJoints, read: readJoints}

// The fields of a joint schedule. A member is a part of which the header does not say
// whether it is slotted or goes in.
const (
	jMark    Field = "joint mark"
	jMember  Field = "member"
	jInto    Field = "slotted part"
	jEnters  Field = "part that goes in"
	jKind    Field = "kind of joint"
	jCount   Field = "number of joints"
	jSlotNo  Field = "slot number"
	jWidth   Field = "slot width"
	jDepth   Field = "depth"
	jDepthIn Field = "depth in the slotted part"
	jDepthOf Field = "depth in the part that goes in"
	jFrom    Field = "end"
	jAt      Field = "positions"
	jSide    Field = "side notch"
	jFront   Field = "front notch"
	jFit     Field = "fit"
	jFast    Field = "fastener"
	jNote    Field = "joint note"
)

// jointWords are the header words of joint schedules, as fold leaves them.
var jointWords = newLexicon([]fieldWords{
	{jMark, `jt|jt no|jnt|jnt no|joint|joint no|joint mark|joint id|joint ref|mark|mk|ref|verbindung|verbindung nr|verb|verb nr|verbindungs nr|assemblage|assemblage no|
		repere|union|junta|ensamble|ens|giunto|giunto n|giunzione|polaczenie|zlacze|polaczenie nr|verbinding|verbinding nr|verb|fog|fog nr|forband|forband nr`},
	{jInto, `in|into|slotted part|slotted|slotted in|slot in|notched|notched part|cut in|cut into|in part|goes into|goes in|fits into|fits in|receiver|receiving|receiving part|rcvr|recv part|host|part a|member a|a|housing part|part slotted|slotted member|notched member|part notched|part cut|part with slot|part a slotted|female|member 1|part 1|piece 1|first part|carrier|crossing member|through part|
		im teil|in teil|teil a|geschlitzt|geschlitztes teil|aufnehmend|aufnehmendes teil|in bauteil|geht in|dans|dans piece|piece a|piece entaillee|entaillee|entre dans|en|en pieza|pieza a|pieza ranurada|entra en|
		in pezzo|pezzo a|pezzo intagliato|entra in|w elemencie|element a|w czesci|wchodzi w|in deel|deel a|ingekeept deel|gaat in|i del|del a|urtagen del|gar in i`},
	{jEnters, `rcvs|recvs|receives|takes|accepts|enters|part b|member b|b|part in|part going in|incoming|incoming part|mating part|other part|guest|male|member 2|part 2|piece 2|second part|part entering|part that goes in|goes in part|insert|inserted|inserted part|entering|entering part|
		nimmt auf|nimmt|teil b|eingestecktes teil|einsteckteil|eingesteckt|recoit|piece b|piece qui entre|recibe|pieza b|pieza que entra|riceve|pezzo b|pezzo che entra|przyjmuje|element b|
		wchodzacy|element wchodzacy|ontvangt|neemt|deel b|ingestoken deel|tar emot|tar|del b|instickande del`},
	{jMember, `part|member|piece|upright|uprights|upr|shelf|shelves|teil|bauteil|stander|mittelwand|boden|fachboden|piece|montant|tablette|etagere|pieza|montante|estante|balda|
		pezzo|montante|ripiano|element|czesc|przegroda|polka|onderdeel|deel|staander|legplank|plank|del|detalj|stolpe|hylla`},
	{jKind, `type|kind|joint type|type of joint|joint kind|kind of joint|connection|joinery|how|art|verbindungsart|typ|art der verbindung|type assemblage|type d assemblage|genre|tipo|tipo de union|tipo union|tipo di giunto|tipo giunto|rodzaj|
		rodzaj polaczenia|typ polaczenia|soort|soort verbinding|type verbinding|sort|typ av fog|fogtyp`},
	{jCount, `no|no off|number|qty|quantity|count|how many|pcs|crossings|no of crossings|total|nr|anzahl|stk|stuck|menge|kreuzungen|nombre|nb|qte|quantite|croisements|cantidad|cant|numero|cruces|quantita|q ta|n|pz|incroci|
		ilosc|szt|sztuk|aantal|st|antal|stuks|mangd`},
	{jSlotNo, `slot|slot no|slot nr|slot #|notch no|no of slot|schlitz|schlitz nr|nut nr|encoche|encoche no|no encoche|ranura|ranura no|no ranura|muesca|intaglio|intaglio n|incastro n|wciecie|wciecie nr|nr wciecia|sleuf|sleuf nr|inkeping|urtag|urtag nr|spar nr`},
	{jWidth, `slot w|slot width|slot wd|slot|width|w|wd|dado w|dado width|groove width|notch width|cut width|width cut|width as cut|w cut|slot size|notch height|schlitzbreite|nutbreite|breite|schlitz b|b|schlitzmass|largeur|larg|largeur encoche|largeur rainure|
		ancho|ancho ranura|ancho muesca|larghezza|larghezza intaglio|larg|szerokosc|szer|szerokosc wciecia|szer wciecia|breedte|sleufbreedte|breedte sleuf|bredd|sparbredd|urtagsbredd`},
	{jDepthIn, `dp in a|depth in a|depth a|dp a|d in a|d a|deep a|depth in slotted part|depth 1|dp 1|d1|depth cut a|cut a|depth in 1|depth slotted part|tiefe a|tiefe in a|t a|prof a|profondeur a|profondeur en a|prof en a|profundidad a|prof en a|profundidad en a|profondita a|profondita in a|gleb a|glebokosc a|glebokosc w a|
		diepte a|diepte in a|djup a|djup i a`},
	{jDepthOf, `dp in b|depth in b|depth 2|dp 2|d2|depth cut b|cut b|depth in 2|depth in other|depth other part|depth in part that goes in|depth in mating part|depth in entering part|depth in part in|depth b|dp b|d in b|d b|deep b|tiefe b|tiefe in b|t b|prof b|profondeur b|profondeur en b|prof en b|profundidad b|profundidad en b|profondita b|profondita in b|gleb b|glebokosc b|glebokosc w b|diepte b|diepte in b|djup b|djup i b`},
	{jDepth, `depth|dp|d|deep|slot d|slot dp|slot depth|dado depth|depth cut|cut depth|notch depth|tiefe|schlitztiefe|nuttiefe|profondeur|prof|profundidad|profondita|glebokosc|gleb|diepte|sleufdiepte|djup|urtagsdjup|spardjup`},
	{jFrom, `from|end|from end|datum|measured from|meas from|ref end|ab|von|bezug|bezugskante|gemessen ab|gemessen von|depuis|a partir de|origine|desde|a partir|origen|da|partenza|od|od ktorej|mierzone od|vanaf|gemeten vanaf|fran|matt fran`},
	{jAt, `ctrs|ctr|centers|centres|center lines|centre lines|c l|cl|positions|position|pos|at|location|locations|loc|heights|height|spacing|stations|layout|positionen|lage|hohen|achsmass|achsmasse|achsen|position|positions|hauteurs|entraxes|axes|posiciones|posicion|alturas|ejes|
		posizioni|posizione|quote|altezze|interassi|assi|pozycje|pozycja|wysokosci|osie|rozmieszczenie|posities|positie|hoogtes|hartmaten|lagen|positioner|lage|hojder|c c`},
	{jSide, `side notch|side notches|notch side|notch at side|notch sides|sides|side|n side|notch each side|seite|ausklinkung seite|ausklinkung seitlich|seitlich|encoche cote|encoche laterale|cote|laterale|muesca lateral|lateral|
		intaglio laterale|wciecie boczne|bok|inkeping zij|zij|inkeping zijkant|urtag sida|sidourtag|sida`},
	{jFront, `front notch|notch front|notch at front|front|n front|vorn|ausklinkung vorn|ausklinkung vorne|encoche avant|avant|muesca frontal|frontal|frente|intaglio frontale|frontale|fronte|wciecie przod|wciecie przednie|przod|inkeping voor|voor|inkeping voorkant|urtag fram|fram|framurtag`},
	{jFit, `fit|clearance|clearance wanted|spiel|jeu|holgura|gioco|speling|spelrum|luz|fit wanted|class of fit|passung|passsitz|sitz|ajustement|ajuste|accoppiamento|pasowanie|passing|passning`},
	{jFast, `fastener|fasteners|fastening|fixing|fixings|fixed with|screws|screw|hardware|befestigung|schrauben|verschraubung|fixation|fixations|vis|fijacion|tornillos|herraje|fissaggio|viti|mocowanie|wkrety|laczniki|bevestiging|schroeven|infastning|skruv|fast`},
	{jNote, `note|notes|remark|remarks|rmk|rmks|comment|comments|bemerkung|bemerkungen|hinweis|remarque|remarques|observaciones|nota|notas|note|uwagi|uwaga|opmerking|opmerkingen|anm|anmarkning`},
})

// numberedPosition matches "Pos 2", "c/l 3", "@4": one position a column.
var numberedPosition = regexp.MustCompile(`^(pos|position|positie|pozycja|posicion|posizione|c l|cl|ctr|achse|axe|at|@|slot|shelf|boden)? ?#?[1-9][0-9]?$`)

// jointField names the field of a header text of a joint schedule.
func jointField(text string) Field {
	if len(text) > maxHeader {
		return fUnknown
	}
	outside := strings.TrimSpace(bracketed.ReplaceAllString(text, " "))
	for _, t := range []string{text, outside, withoutUnits(outside)} {
		if fs := jointWords.exact(t); fs != nil {
			return fs[0]
		}
	}
	key := fold(text)
	var p phrase.Positions
	p.Header(text)
	switch {
	case numberedPosition.MatchString(key):
		return jAt
	case p.Centres || p.Far || p.Edges || p.Bays != nil:
		return jAt
	}
	words := strings.Fields(fold(outside))
	if f := jointPhrase(words); f != fUnknown {
		return f
	}
	if len(words) > 1 && phrase.End(text) != "" { // "Positions from bottom"
		if fs := jointWords.exact(words[0]); fs != nil && fs[0] == jAt {
			return jAt
		}
	}
	if fs := jointWords.near(outside); fs != nil {
		return fs[0]
	}
	return fUnknown
}

// jointPhrase names the field of a header of several words by the words that tell: "notch
// depth at the sides", "width of slot as cut".
func jointPhrase(words []string) Field {
	if len(words) < 2 {
		return fUnknown
	}
	says := func(list string) bool {
		for _, w := range words {
			if strings.Contains(" "+list+" ", " "+w+" ") {
				return true
			}
		}
		return false
	}
	cut := says("slot slots dado groove notch notches cut schlitz nut encoche ranura muesca intaglio wciecia sleuf urtag")
	deep := says("depth dp deep tiefe profondeur profundidad profondita glebokosc diepte djup")
	switch {
	case says("notch notches neck ausklinkung") && says("side sides seite seiten seitlich"):
		return jSide
	case says("notch notches ausklinkung") && says("front vorn vorne"):
		return jFront
	case deep && says("b 2 other second mating entering goes enters receives"):
		return jDepthOf
	case deep && says("a 1 first slotted notched"):
		return jDepthIn
	case deep && cut:
		return jDepth
	case cut && says("width w wd wide breite largeur ancho larghezza szerokosc breedte bredd"):
		return jWidth
	case says("slotted notched dadoed grooved geschlitzt geschlitzte entaillee ranurada intagliato"):
		return jInto
	case says("enters entering inserted incoming inserting eingesteckte"):
		return jEnters
	case says("screw screws fastener fasteners schrauben"):
		return jFast
	}
	return fUnknown
}

// withoutUnits takes the unit off a header such as "slot width mm".
func withoutUnits(text string) string {
	var kept []string
	for _, w := range strings.Fields(text) {
		if len(kept) == 0 || length.UnitIn("("+w+")") == length.Unsaid {
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, " ")
}

// telling are the fields that no parts table has.
var telling = map[Field]bool{
	jInto: true, jEnters: true, jDepthIn: true, jDepthOf: true, jAt: true, jSide: true, jFront: true, jFit: true, jSlotNo: true, jFrom: true,
}

// isJointHeader reports whether header words are those of a joint schedule: a part, and
// enough that only such a schedule says.
func isJointHeader(cols []sideCol) bool {
	seen := map[Field]bool{}
	tells := 0
	for _, c := range cols {
		if telling[c.field] && !seen[c.field] {
			tells++
		}
		seen[c.field] = true
		if c.field == jWidth && jointWords.exact(c.text) == nil || strings.Contains(fold(c.text), "slot") {
			tells++
		}
		if c.field == jMark && strings.HasPrefix(fold(c.text), "j") {
			tells++
		}
	}
	parts := seen[jInto] || seen[jEnters] || seen[jMember]
	cut := seen[jWidth] || seen[jKind] || seen[jAt] || seen[jDepth] || seen[jDepthIn]
	return parts && cut && tells >= 2 && fieldCount(cols) >= 4
}

// jointTables finds the joint schedules of a grid. A header that also says length, thickness
// or material is that of a parts table with columns for fronts and sides.
func jointTables(g *Grid) []*sideTable {
	var tables []*sideTable
	for _, t := range sideTables(g, jointField, isJointHeader) {
		if !saysParts(g, t.heads) {
			tables = append(tables, t)
		}
	}
	return tables
}

func saysParts(g *Grid, heads []int) bool {
	for _, n := range heads {
		row := g.Row(n)
		for i := range row.Cells {
			fs := partLexicon.exact(row.Cells[i].Text())
			if len(fs) > 0 && (fs[0] == fLength || fs[0] == fThick || fs[0] == fMatl) {
				return true
			}
		}
	}
	return false
}

// headsJoints reports whether a row is the header of a joint schedule, so that nobody takes
// the table below it for parts.
func headsJoints(g *Grid, n int) bool {
	for i := range g.Rows {
		if g.Rows[i].N == n {
			cols, heads := headerCols(g, i, jointField)
			return isJointHeader(cols) && !saysParts(g, heads)
		}
	}
	return false
}

func scoreJoints(g *Grid, _ *standard.Table) int {
	if len(g.Rows) > maxSide {
		return 0
	}
	best := 0
	for _, t := range jointTables(g) {
		if len(t.rows) == 0 {
			continue
		}
		score := 50
		for _, c := range t.cols {
			if telling[c.field] {
				score += 10
			}
		}
		best = max(best, min(score, 100))
	}
	return best
}

// largestSlot is the largest bare number that may be inches in a joint schedule: positions
// along a part of 12 ft.
const largestSlot = 144

func readJoints(g *Grid, tab *Tab, _ *standard.Table) map[int]bool {
	used := map[int]bool{}
	t := &Tab{}
	typed, guessed := sideUnit(g, largestSlot)
	for _, table := range jointTables(g) {
		if t.Header == "" {
			t.Header = Address(table.heads[0], table.cols[0].col)
		}
		for _, n := range table.heads {
			used[n] = true
		}
		table.nameHeads(t)
		r := newJointReader(table, t, typed)
		for _, row := range table.rows {
			if r.row(row) {
				used[row.N] = true
			}
		}
		r.group()
	}
	tab.adopt(t, typed, guessed)
	return used
}

// jointReader reads the rows of one joint schedule.
type jointReader struct {
	*sideTable
	tab    *Tab
	unit   length.Unit
	perRow bool // a row is one slot of a part
	joints []*check.Joint
	cells  map[Field]*Cell // the last filled cell of each field, for dittos
}

func newJointReader(table *sideTable, tab *Tab, unit length.Unit) *jointReader {
	r := &jointReader{sideTable: table, tab: tab, unit: unit, cells: map[Field]*Cell{}}
	r.settleMembers()
	r.settleSlots()
	return r
}

// settleMembers gives the columns that only name a part their sense: beside the slotted part
// it goes in, beside the part that goes in it is slotted, alone it is slotted.
func (r *jointReader) settleMembers() {
	into, enters := r.column(jInto) != nil, r.column(jEnters) != nil
	for i := range r.cols {
		c := &r.cols[i]
		switch {
		case c.field == jDepth && r.column(jDepthIn) == nil:
			c.field = jDepthIn
		case c.field != jMember:
		case !into:
			c.field, into = jInto, true
		case !enters:
			c.field, enters = jEnters, true
		}
	}
}

// settleSlots decides whether a column "Slot" holds the numbers of slots or their widths.
func (r *jointReader) settleSlots() {
	c := r.column(jSlotNo)
	if c == nil {
		return
	}
	if fold(c.text) == "slot" || fold(c.text) == "schlitz" {
		numbered := true
		for _, row := range r.rows {
			if cell := row.At(c.col); cell != nil && (strings.ContainsAny(cell.said(), "./,-½¼¾⅛⅜⅝⅞\"") || cell.Kind == Number && cell.Num > 60) {
				numbered = false
			}
		}
		if !numbered && r.column(jWidth) == nil {
			c.field = jWidth
			return
		}
	}
	r.perRow = true
}

// row reads one row; it returns false for a row that holds no joint.
func (r *jointReader) row(row *Row) bool {
	filled, tells := 0, false
	for i := range row.Cells {
		for _, c := range r.cols {
			if c.col == int(row.Cells[i].Col) {
				filled++
				tells = tells || c.field != jMark && c.field != jInto && c.field != jNote
			}
		}
	}
	if filled < 2 || !tells || isTotalRow(row) {
		return false
	}
	j := &check.Joint{Row: row.Cells[0].From()}
	j.Mark = r.label(row, jMark)
	j.Into = r.label(row, jInto)
	j.Enters = r.label(row, jEnters)
	if j.Into.Text == "" && j.Enters.Text == "" {
		u := wanting(&row.Cells[0], "no part is named in the row; type which part is slotted, and which goes in", "part")
		u.Text = rowText(row)
		r.tab.Unread = append(r.tab.Unread, u)
		return true
	}
	r.kind(row, j)
	j.Count = r.count(row)
	j.Width = r.length(row, jWidth, "the width of the slot as cut", j)
	j.DepthIn = r.length(row, jDepthIn, "the depth cut into the slotted part", j)
	j.DepthOf = r.length(row, jDepthOf, "the depth cut into the part that goes in", j)
	j.Side = r.length(row, jSide, "the depth of the notch at each side", j)
	j.Front = r.length(row, jFront, "the depth of the notch at the front", j)
	r.positions(row, j)
	r.words(row, j)
	r.settleKind(j)
	r.nameUnknown(row, r.tab)
	r.joints = append(r.joints, j)
	return true
}

// filledCell gives the cell of a field, the one above it where it only says ditto; nil where
// nothing or "none" stands.
func (r *jointReader) filledCell(row *Row, f Field) *Cell {
	c := r.cell(row, f)
	if c == nil {
		return nil
	}
	if phrase.Ditto(c.said()) {
		return r.cells[f]
	}
	r.cells[f] = c
	if length.Nothing(c.said()) == length.None {
		return nil
	}
	return c
}

// label reads a mark. In a table of slots a blank part is that of the row above.
func (r *jointReader) label(row *Row, f Field) check.Text {
	if r.perRow && (f == jInto || f == jEnters) && r.cell(row, f) == nil {
		return r.cells[f].text()
	}
	return r.filledCell(row, f).text()
}

func (r *jointReader) kind(row *Row, j *check.Joint) {
	c := r.filledCell(row, jKind)
	if c == nil {
		return
	}
	kind, ok := phrase.JointKind(c.Text())
	if !ok {
		r.cellUnread(c, j, "no kind of joint that is known; type one such as cross lap, dado, rabbet, cleat or butt", "kind of joint")
		return
	}
	j.Kind = kind
}

func (r *jointReader) count(row *Row) check.Value {
	ask := check.Ask{Cell: r.place(row, jCount), What: "the number of crossings in all, such as 12"}
	if ask.Cell == (check.Cell{}) {
		ask.Tab = "joints"
	}
	c := r.filledCell(row, jCount)
	if c == nil {
		return check.Missing(ask)
	}
	n, ok := wholeNumber(c)
	if !ok {
		r.tab.Unread = append(r.tab.Unread, wanting(c, "no whole number; expected the number of crossings in all, such as 12", "quantity"))
		return check.Missing(ask)
	}
	return c.at(check.Exact(n))
}

func wholeNumber(c *Cell) (float64, bool) {
	t, ok := readTally(c.said())
	return t.n, ok && t.n > 0
}

func wanting(c *Cell, why, wants string) check.Unread {
	u := c.Unread(why)
	u.Wants = wants
	return u
}

// length reads one length of the row.
func (r *jointReader) length(row *Row, f Field, what string, j *check.Joint) check.Value {
	col := r.column(f)
	missing := check.Missing(check.Ask{Cell: r.place(row, f), What: what + r.example()})
	if col == nil {
		return check.Value{}
	}
	c := r.filledCell(row, f)
	if c == nil {
		return missing
	}
	v, _, err := phrase.Value(c.said(), r.bare(col), what)
	if err != nil {
		r.cellUnread(c, j, err.Error(), string(f))
		return missing
	}
	return c.at(v.Scale(length.Convert(1, r.bare(col), r.unit)))
}

// bare is the unit of the bare numbers of a column.
func (r *jointReader) bare(col *sideCol) length.Unit {
	if col.unit != length.Unsaid {
		return col.unit
	}
	return r.unit
}

func (r *jointReader) example() string {
	if r.unit.Metric() {
		return ", such as 32.5"
	}
	return ", such as 1 9/16"
}

// positions reads every column of positions of a row, and what their headers say.
func (r *jointReader) positions(row *Row, j *check.Joint) {
	var p phrase.Positions
	var cells []*Cell // of each position
	for i := range r.cols {
		col := &r.cols[i]
		if col.field != jAt {
			continue
		}
		c := r.g.Anchor(row.N, col.col)
		if c != nil && phrase.Ditto(c.said()) {
			c = r.cells[jAt]
		}
		if c == nil || length.Nothing(c.said()) == length.None {
			continue
		}
		r.cells[jAt] = c
		p.Header(col.text)
		before := p
		if err := p.Read(c.said(), r.bare(col)); err != nil {
			p = before
			r.cellUnread(c, j, err.Error(), "positions")
			continue
		}
		for len(cells) < len(p.At)+len(p.Bays) {
			cells = append(cells, c)
		}
	}
	j.From = p.From
	if c := r.filledCell(row, jFrom); c != nil {
		if end := phrase.End(c.Text()); end != "" {
			j.From = end
		} else {
			r.cellUnread(c, j, "no end of a part that is known; type one such as bottom, top, left or front", "end")
		}
	}
	j.Centres, j.Far = p.Centres, p.Far
	if col := r.column(jAt); col != nil && !p.Centres && !p.Far && !p.Edges && p.Bays == nil {
		j.Centres = fold(col.text) == "ctrs"
	}
	j.At, j.Bays = p.At, p.Bays
	for i := range j.At {
		j.At[i] = cells[i].at(j.At[i])
	}
	for i := range j.Bays {
		if j.Bays[i].From = cells[i].From(); j.Bays[i].Known {
			j.Bays[i] = cells[i].at(j.Bays[i])
		}
	}
}

// words reads fit, fastener and note.
func (r *jointReader) words(row *Row, j *check.Joint) {
	j.Fit = r.filledCell(row, jFit).text()
	j.Fastener = r.filledCell(row, jFast).text()
	if s, ok := phrase.Screws(j.Fastener.Text, r.unit); ok {
		s.Length.From, s.Count.From = j.Fastener.From, j.Fastener.From
		j.Screws = s
	}
	note := r.filledCell(row, jNote)
	if note == nil {
		return
	}
	if s, ok := phrase.Screws(note.Text(), r.unit); ok && j.Screws == nil {
		s.Length.From, s.Count.From = note.From(), note.From()
		j.Screws, j.Fastener = s, note.text()
	}
	if rule, ok := phrase.Slots(note.Text(), r.unit); ok && !j.Width.Known && rule.Width.Known {
		j.Width = note.at(rule.Width)
		return
	}
	if j.Screws == nil || j.Fastener.From != note.From() {
		r.tab.setAside(note, "a note")
	}
}

// settleKind names the kind from what is cut: notches at side or front make a notched lap,
// depths in both parts a cross lap, where the row says less.
func (r *jointReader) settleKind(j *check.Joint) {
	open := j.Kind == "" || j.Kind == check.Notch
	switch {
	case !open:
	case j.Side.Known || j.Front.Known:
		j.Kind = check.NotchedLap
	case j.DepthIn.Known && j.DepthOf.Known && j.DepthOf.Nominal > 0:
		j.Kind = check.CrossLap
	case j.Kind == "" && (j.Width.Known || j.DepthIn.Known):
		j.Kind = check.Notch
	}
	if j.Kind == check.Dado && j.DepthOf.Known && j.DepthOf.Nominal == 0 {
		j.DepthOf = check.Value{}
	}
}

func (r *jointReader) cellUnread(c *Cell, j *check.Joint, why, wants string) {
	u := wanting(c, why, wants)
	u.Mark = j.Into.Text
	r.tab.Unread = append(r.tab.Unread, u)
}

// group joins the rows of a table of slots that differ only in their position into one joint
// each, and hands all joints to the tab.
func (r *jointReader) group() {
	for _, j := range r.joints {
		r.tab.Rows++
		if twin := r.twin(j); twin != nil {
			twin.At = append(twin.At, j.At...)
			if j.Mark.Text != "" {
				twin.Mark.Text += ", " + j.Mark.Text
			}
			continue
		}
		r.tab.Joints = append(r.tab.Joints, j)
	}
}

func (r *jointReader) twin(j *check.Joint) *check.Joint {
	if !r.perRow || len(j.At) != 1 || j.Count.Known {
		return nil
	}
	for _, k := range r.tab.Joints {
		same := k.Into.Text == j.Into.Text && k.Enters.Text == j.Enters.Text && k.Kind == j.Kind && k.Fit.Text == j.Fit.Text &&
			k.Fastener.Text == j.Fastener.Text && k.From == j.From && k.Centres == j.Centres && k.Far == j.Far && len(k.At) > 0
		if same && equalValue(k.Width, j.Width) && equalValue(k.DepthIn, j.DepthIn) && equalValue(k.DepthOf, j.DepthOf) &&
			equalValue(k.Side, j.Side) && equalValue(k.Front, j.Front) {
			return k
		}
	}
	return nil
}

func equalValue(a, b check.Value) bool {
	return a.Known == b.Known && a.Low == b.Low && a.Nominal == b.Nominal && a.High == b.High
}

// isTotalRow reports a row that only adds up the rows above it.
func isTotalRow(row *Row) bool {
	for i := range row.Cells {
		if c := &row.Cells[i]; c.Kind == Words {
			return totalText(c.Text())
		}
	}
	return false
}
