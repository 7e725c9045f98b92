package read

import (
	"math"
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/sheet/read/phrase"
)

// cellParse is the reading of one cell of a site form.
type cellParse struct {
	form   *siteForm
	box    *box
	cell   *Cell
	text   string
	pieces []phrase.Piece
	at     int
}

// run reads the cell piece by piece. Numbers that nothing names, and words that stand for a
// reading nobody took, are named as unread.
func (p *cellParse) run() {
	stray, idle := "", true
	if slices.Contains(p.form.starts, p.cell) {
		if from, ok := startsOpening(p.pieces); ok && !p.form.isName(p.cell) {
			p.opening(from)
		} else {
			p.named()
		}
		idle = false
	}
	for p.at < len(p.pieces) {
		n := p.step()
		if n == 0 {
			if why := p.stray(); why != "" && stray == "" {
				stray = why
			}
			n = 1
		} else {
			idle = false
		}
		p.at += n
	}
	switch {
	case stray != "":
		p.unread(stray)
	case idle:
		p.form.tab.setAside(p.cell, "no reading")
	}
}

func (p *cellParse) unread(why string) {
	p.form.tab.Unread = append(p.form.tab.Unread, wanting(p.cell, why, "reading"))
}

// stray says why the piece at hand is not understood; empty for words that say nothing.
func (p *cellParse) stray() string {
	piece := p.pieces[p.at]
	switch {
	case piece.Kind == phrase.Length:
		return "a number without a name; expected what it measures, such as W top 94 1/8"
	case piece.Kind == phrase.Word && length.Nothing(piece.Text) == length.Unknown:
		return piece.Text + " is no reading; type the number that was read, 0 if there is none"
	}
	return ""
}

// step reads what begins at the piece at hand, and says how many pieces it was.
func (p *cellParse) step() int {
	for _, read := range []func() int{p.finish, p.signature, p.offsets, p.obstacle, p.heightOf, p.word, p.number, p.remark} {
		if n := read(); n > 0 {
			return n
		}
	}
	return 0
}

func (p *cellParse) piece(i int) phrase.Piece {
	if i < len(p.pieces) {
		return p.pieces[i]
	}
	return phrase.Piece{}
}

// opening reads the name of an opening, and the sizes of the poor form behind it:
// "niche 94 1/8 x 96 x 12 1/2 +/-".
func (p *cellParse) opening(from int) {
	end := from + 1
	for end < len(p.pieces) && p.inName(end, end == from+1) {
		end++
	}
	name := strings.TrimRight(p.text[p.pieces[from].From:p.pieces[end-1].End()], " :,-")
	p.box.label, p.box.last = label{}, nil
	if known := p.form.named(name); known != nil && end < len(p.pieces) {
		p.box.opening = known
	} else {
		p.form.open(p.box, check.Text{Text: name, From: p.cell.From()}, p.cell.From())
	}
	if end == len(p.pieces) && p.piece(end-1).Is(":") {
		p.box.blank = map[string]bool{"name": true}
	}
	p.at = end
	p.form.boxed = true
	if first := p.pieces[from].Word; first == "ro" || first == "rough" {
		p.roughOpening()
	}
	for p.at < len(p.pieces) && (p.piece(p.at).Is(":") || p.piece(p.at).Is("=") || p.piece(p.at).Is("-")) {
		p.at++
	}
	if n := p.sizes(); n > 0 {
		p.at += n
	}
}

// named takes the whole cell for the name of an opening.
func (p *cellParse) named() {
	p.box.label, p.box.last = label{}, nil
	name := strings.TrimRight(p.text, " :")
	if p.box.opening = p.form.named(name); p.box.opening == nil {
		p.form.open(p.box, check.Text{Text: name, From: p.cell.From()}, p.cell.From())
	}
	p.form.boxed = true
	p.at = len(p.pieces)
}

// roughOpening notes that plaster is still to come: a rough opening is measured before it.
func (p *cellParse) roughOpening() {
	o := p.box.opening
	o.ToCome = append(o.ToCome, check.ToCome{
		On: "walls", Text: p.cell.text(),
		Thickness: check.Missing(check.Ask{Cell: p.cell.From(), What: "the plaster or board still to come on the walls of the rough opening, such as 5/8"}),
	})
}

// inName reports whether a piece still belongs to the name of the opening.
func (p *cellParse) inName(i int, first bool) bool {
	piece := p.pieces[i]
	if piece.Wide || piece.Is(",") || piece.Is("(") || piece.Is("|") || piece.Is("\n") || piece.Is(";") {
		return false
	}
	if piece.Kind == phrase.Length {
		whole := !strings.ContainsFunc(piece.Text, func(r rune) bool { return r < '0' || r > '9' })
		return whole && len(piece.Text) <= 2 && first && !p.piece(i+1).Is("x")
	}
	if piece.Is(":") {
		return first
	}
	if means, n := phrase.Measure(p.pieces, i); n > 0 && !(first && len(piece.Word) == 1) && means != "window" {
		return false
	}
	if _, n := phrase.SurfaceAt(p.pieces, i); n > 0 {
		if _, ok := p.answerAt(i + n); ok {
			return false
		}
	}
	return true
}

// sizes reads W x H x D in one cell: one reading each, from a drawing or by eye.
func (p *cellParse) sizes() int {
	var values []check.Value
	i := p.at
	for i < len(p.pieces) && p.pieces[i].Kind == phrase.Length {
		v, ok := p.value(p.pieces[i].Text)
		if !ok {
			return 0
		}
		values = append(values, v)
		i++
		if !p.piece(i).Is("x") {
			break
		}
		i++
	}
	if len(values) < 2 {
		return 0
	}
	o := p.form.current(p.box, p.cell.From())
	o.Poor = true
	for k, to := range []*[]check.Reading{&o.Widths, &o.Heights, &o.Depths} {
		if k < len(values) {
			*to = append(*to, check.Reading{Value: values[k], Word: p.signs(i)})
		}
	}
	for p.piece(i).Is("±") || p.piece(i).Is("+") || p.piece(i).Is("-") {
		i++
	}
	return i - p.at
}

// ownSizes reads the sizes of an opening that fill a cell of their own beside its name.
func (p *cellParse) ownSizes() int {
	if o := p.box.opening; p.at > 0 || o == nil || o.Name.Text == "" || len(o.Widths) > 0 {
		return 0
	}
	return p.sizes()
}

// signs keeps the "+/-" behind the sizes as the word of the readings.
func (p *cellParse) signs(i int) check.Text {
	if !p.piece(i).Is("±") {
		return check.Text{}
	}
	return check.Text{Text: "+/-", From: p.cell.From()}
}

// value reads a length of the cell.
func (p *cellParse) value(text string) (check.Value, bool) {
	unit := p.form.unit
	if p.form.own != length.Unsaid {
		unit = p.form.own
	}
	v, _, err := phrase.Value(text, unit, "a reading")
	if err != nil {
		return v, false
	}
	v = v.Scale(length.Convert(1, unit, p.form.unit))
	if strings.TrimSpace(text) == p.text {
		return p.cell.at(v), true
	}
	v.From = p.cell.From()
	return v, true
}

// signature reads who measured, and when.
func (p *cellParse) signature() int {
	what, n := phrase.Measure(p.pieces, p.at)
	if n == 0 || what != "by" && what != "date" {
		return 0
	}
	word := p.pieces[p.at].Word
	marked := p.piece(p.at+n).Is(":") || p.pieces[p.at].Wide && len(word) > 3
	if !marked && word != "by" && word != "date" {
		return 0
	}
	from := p.at + n
	for p.piece(from).Is(":") || p.piece(from).Is("=") {
		from++
	}
	end := from
	for end < len(p.pieces) && !(end > from && p.pieces[end].Wide) && !p.piece(end).Is("|") && !p.piece(end).Is("\n") && !p.piece(end).Is(",") {
		if other, k := phrase.Measure(p.pieces, end); end > from && k > 0 && (other == "by" || other == "date") {
			break
		}
		end++
	}
	o := p.form.current(p.box, p.cell.From())
	if end == from {
		if p.box.blank == nil {
			p.box.blank = map[string]bool{}
		}
		p.box.blank[what] = true
		return from - p.at
	}
	said := check.Text{Text: p.text[p.pieces[from].From:p.pieces[end-1].End()], From: p.cell.From()}
	if what == "by" {
		o.By = said
	} else {
		o.When = said
	}
	return end - p.at
}

// offsets reads the rest of a cell about plumb, level or square.
func (p *cellParse) offsets() int {
	means, n := phrase.Measure(p.pieces, p.at)
	kind, isOffset := offsetKinds[means]
	label := &p.box.label
	if isOffset && n > 0 {
		*label = labelOf(means)
	} else if kind, isOffset = offsetKinds[label.measure]; !isOffset {
		return 0
	} else if n > 0 && means != "base" && means != "depth" && means != "height" && means != "width" {
		return 0
	} else {
		n = 0
	}
	leans := phrase.Leans{Kind: kind, Of: label.side, Signed: p.form.signed}
	if label.side == "" {
		leans.Of = label.place
	}
	rest := ""
	if p.at+n < len(p.pieces) {
		rest = p.text[p.pieces[p.at+n].From:]
	}
	found, unread := leans.Read(rest, p.form.unit)
	label.side = leans.Of
	o := p.form.current(p.box, p.cell.From())
	for _, l := range found {
		l.Text.From = p.cell.From()
		l.Offset.From, l.Over.From = p.cell.From(), p.cell.From()
		if !l.Over.Known {
			l.Over = check.Missing(check.Ask{Cell: p.cell.From(), What: "the length it was measured over, such as the 48 or 78 of the level"})
		}
		o.Leans = append(o.Leans, l)
	}
	for _, u := range unread {
		p.unread("\"" + u + "\" is no offset; expected one such as 1/4 out at top, or 3/16 low R in 96")
	}
	if rest == "" {
		return n
	}
	return len(p.pieces) - p.at
}

// labelOf is a label that names a thing measured and nothing else.
func labelOf(measure string) label { return label{measure: measure} }

var offsetKinds = map[string]phrase.LeanKind{"plumb": phrase.Plumb, "level": phrase.Level, "square": phrase.Square}

// obstacle reads a whole cell, or the rest of one, about something in the way.
func (p *cellParse) obstacle() int {
	means, n := phrase.Measure(p.pieces, p.at)
	told := p.box.label.told
	switch {
	case n > 0 && phrase.Obstacles[means]:
		told = ""
		p.box.label = label{measure: means}
	case !phrase.Obstacles[p.box.label.measure] || n > 0:
		return 0
	}
	rest := p.text[p.pieces[p.at].From:]
	if told != "" {
		rest = told + " " + rest
	}
	if len(p.pieces) == p.at+n { // the word alone: its place stands in the cells behind
		p.box.label.told = rest
		return n
	}
	found, ok := phrase.ParseObstacle(rest, p.form.unit)
	if !ok {
		return 0
	}
	o := p.form.current(p.box, p.cell.From())
	found.Text.From = p.cell.From()
	for _, v := range []*check.Value{&found.X, &found.Y, &found.Width, &found.Height} {
		if v.Known {
			v.From = p.cell.From()
		}
	}
	o.Obstacles = append(o.Obstacles, found)
	p.box.label.told = ""
	return len(p.pieces) - p.at
}

// heightOf reads the height or distance of a reading: @1100, at 1100.
func (p *cellParse) heightOf() int {
	piece := p.piece(p.at)
	if !(piece.Is("@") || piece.Word == "at" || piece.Word == "bei" || piece.Word == "a" && p.box.label.measure != "") || p.piece(p.at+1).Kind != phrase.Length {
		return 0
	}
	v, ok := p.value(p.pieces[p.at+1].Text)
	if !ok {
		return 0
	}
	if p.box.last != nil && p.at > 0 && p.box.label.place == "" {
		p.box.last.Place = v
	} else {
		p.box.label.height = v
	}
	return 2
}

// word reads the words of a label.
func (p *cellParse) word() int {
	label := &p.box.label
	if means, n := phrase.Measure(p.pieces, p.at); n > 0 && (means == "crown" || means == "base") {
		if length.Nothing(p.piece(p.at+n).Text) == length.None || length.Nothing(p.piece(p.at+n+1).Text) == length.None && p.piece(p.at+n).Is(":") {
			p.none(means)
			return min(n+2, len(p.pieces)-p.at)
		}
	}
	if label.measure == "crown" || label.measure == "base" {
		if length.Nothing(p.piece(p.at).Text) == length.None {
			p.none(label.measure)
			return 1
		}
	}
	if label.measure == "diagonal" {
		if corners, n := p.corners(); n > 0 {
			label.name = corners
			return n
		}
	}
	n := label.word(p.pieces, p.at)
	if n > 0 && label.measure != "" {
		p.box.last = nil
	}
	return n
}

func (p *cellParse) none(what string) {
	o := p.form.current(p.box, p.cell.From())
	zero := check.Exact(0).At(p.cell.From())
	if what == "base" {
		o.Base, o.BaseThick = zero, zero
	} else {
		o.Crown, o.CrownThick = zero, zero
	}
}

// corners reads the ends of a diagonal in the words before the next number.
func (p *cellParse) corners() (string, int) {
	end := p.at
	for end < len(p.pieces) && p.pieces[end].Kind != phrase.Length {
		end++
	}
	if name := phrase.Corners(p.pieces[p.at:end]); name != "" {
		return name, end - p.at
	}
	return "", 0
}

// number reads a reading, and keeps it where its label says.
func (p *cellParse) number() int {
	if p.piece(p.at).Kind != phrase.Length {
		return 0
	}
	label := &p.box.label
	if label.measure == "" {
		return p.ownSizes()
	}
	text, n := phrase.Extent(p.text, p.pieces, p.at)
	v, ok := p.value(text)
	if !ok && n > 1 {
		text, n = p.pieces[p.at].Text, 1
		v, ok = p.value(text)
	}
	if !ok {
		return 0
	}
	var second check.Value
	if label.measure == "base" || label.measure == "crown" {
		by := n
		if p.piece(p.at+by).Kind == phrase.Word { // "5 1/4 tall x 5/8 thick"
			by++
		}
		if x := p.piece(p.at + by); (x.Is("x") || x.Word == "x") && p.piece(p.at+by+1).Kind == phrase.Length {
			second, _ = p.value(p.pieces[p.at+by+1].Text)
			n = by + 2
		}
	}
	if label.place == "" && len(label.order) > 0 {
		label.place, label.order = label.order[0], label.order[1:]
	}
	if !p.keep(v, second) {
		return 0
	}
	label.place, label.height, label.name = "", check.Value{}, ""
	return n
}

// keep puts a value where the label says.
func (p *cellParse) keep(v, second check.Value) bool {
	o := p.form.current(p.box, p.cell.From())
	label := p.box.label
	reading := check.Reading{At: label.at(), Place: label.height, Value: v}
	if v.Why != "" && v.Guessed {
		reading.Word = check.Text{Text: p.cell.Text(), From: p.cell.From()}
	}
	add := func(to *[]check.Reading) {
		*to = append(*to, reading)
		p.box.last = &(*to)[len(*to)-1]
	}
	switch label.measure {
	case "width":
		if reading.At == "left" || reading.At == "right" || contradicts(o.Widths, reading) {
			return false // nobody reads a width at a side: the row speaks of something else
		}
		add(&o.Widths)
	case "height":
		add(&o.Heights)
	case "depth":
		add(&o.Depths)
	case "diagonal":
		add(&o.Diagonals)
	case "ceiling":
		if o.Ceiling.Known {
			p.form.tab.setAside(p.cell, "a further reading of the ceiling; the least counts")
		}
		if !o.Ceiling.Known || v.Nominal < o.Ceiling.Nominal {
			o.Ceiling = v
		}
	case "base":
		p.once(&o.Base, v)
		p.once(&o.BaseThick, second)
	case "crown":
		p.once(&o.Crown, v)
		p.once(&o.CrownThick, second)
	case "within":
		p.once(&o.Within, v)
	default:
		return false
	}
	return true
}

// contradicts reports a reading that no tape gives beside another of the same place.
func contradicts(before []check.Reading, r check.Reading) bool {
	return r.At != "" && slices.ContainsFunc(before, func(o check.Reading) bool {
		return o.At == r.At && !o.Place.Known && !r.Place.Known && math.Abs(o.Value.Nominal-r.Value.Nominal) > .3*o.Value.Nominal
	})
}

// once keeps a value that an opening has one of; another one is named.
func (p *cellParse) once(to *check.Value, v check.Value) {
	switch {
	case !v.Known:
	case !to.Known:
		*to = v
	case equalValue(*to, v):
		p.form.tab.setAside(p.cell, "said before")
	default:
		p.unread("the form says another size above; type one")
	}
}

// at names the place of a reading: by its place where that is said, else as typed.
func (l label) at() string {
	switch {
	case l.measure == "diagonal" && l.name != "":
		return l.name
	case l.place != "":
		return l.place
	}
	return l.name
}

// remark keeps a word that speaks of the last reading: tight, bow, VIF.
func (p *cellParse) remark() int {
	piece := p.piece(p.at)
	if p.box.last == nil || piece.Kind != phrase.Word || !phrase.IsRemark(piece.Word) {
		return 0
	}
	p.box.last.Word = check.Text{Text: strings.TrimSpace(p.box.last.Word.Text + " " + piece.Text), From: p.cell.From()}
	return 1
}
