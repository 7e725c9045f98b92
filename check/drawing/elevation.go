package drawing

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// Elevations are the cases of a job that make a picture, in the order of its schedule.
func Elevations(rep *check.Report) []Elevation {
	var out []Elevation
	open := openFindings(rep)
	for _, box := range rep.Job.Cases() {
		s, ok := stand(rep.Job, box)
		if !ok {
			continue
		}
		e := Elevation{Case: box, stands: s}
		e.draw(s.spoken(open))
		if e.drawable(rep.Job.PerInch()) {
			out = append(out, e)
		}
	}
	return out
}

// Elevation is a case seen from the front.
type Elevation struct {
	Drawing
	Case    check.Case
	Verdict check.Verdict // the loudest of its parts
	stands  *standing
}

// spoken is what the open findings say of a case and its parts: Hold, Verify, or nothing.
type spoken struct {
	parts map[*check.Part]check.Verdict
	whole check.Verdict // of findings that name every part: the case tips, the floor gives way
}

// openFindings are those that hold or must be verified and that nobody accepted, by their case.
func openFindings(rep *check.Report) map[string][]*check.Finding {
	out := map[string][]*check.Finding{}
	for _, f := range rep.Findings {
		if f.Verdict >= check.Verify && !f.Accepted() {
			out[f.Case] = append(out[f.Case], f)
		}
	}
	return out
}

func (s *standing) spoken(open map[string][]*check.Finding) spoken {
	own := map[string][]*check.Part{} // a mark may stand in two rows
	for _, q := range s.pieces {
		own[q.part.Name()] = append(own[q.part.Name()], q.part)
	}
	for _, p := range s.left {
		own[p.Name()] = append(own[p.Name()], p)
	}
	out := spoken{parts: map[*check.Part]check.Verdict{}}
	ofCase := open[""]
	if s.box.Name != "" {
		ofCase = slices.Concat(ofCase, open[s.box.Name])
	}
	var loudest check.Verdict
	ofAll := map[*check.Part]bool{}
	for _, f := range ofCase {
		named := map[*check.Part]bool{}
		for _, m := range f.Marks {
			for _, p := range own[m] {
				named[p] = true
			}
		}
		if len(named) > 2 && s.framed(named) {
			out.whole = max(out.whole, f.Verdict)
			maps.Copy(ofAll, named)
			continue
		}
		for p := range named {
			out.parts[p] = max(out.parts[p], f.Verdict)
			loudest = max(loudest, f.Verdict)
		}
	}
	if out.whole < loudest { // a word beside the title that is milder than one below would mislead
		for p := range ofAll {
			out.parts[p] = max(out.parts[p], out.whole)
		}
		out.whole = check.Clear
	}
	return out
}

// framed reports whether some parts are all of the case but what stands before and behind it.
func (s *standing) framed(named map[*check.Part]bool) bool {
	for _, q := range s.pieces {
		if q.role == Part && !named[q.part] {
			return false
		}
	}
	return true
}

// title names a case for a reader.
func title(box check.Case) string {
	if box.Name == "" && box.Room == "" {
		return "The case"
	}
	return box.Label()
}

// spokenTitle names a case within a sentence.
func spokenTitle(box check.Case) string {
	if box.Name == "" && box.Room == "" {
		return "the case"
	}
	return box.Label()
}

func (e *Elevation) draw(words spoken) {
	s := e.stands
	e.Title, e.Notes, e.Whole, e.Verdict = title(e.Case), s.guesses, words.whole, words.whole
	if len(s.left) > 0 {
		e.Notes = append(e.Notes, s.leftOut(words))
		for _, p := range s.left {
			e.Verdict = max(e.Verdict, words.parts[p])
		}
	}
	walls := e.walls()
	for _, role := range []Role{Behind, Part, Cover} {
		for _, q := range s.pieces {
			if q.role == role {
				e.piece(q, words.parts[q.part])
			}
		}
	}
	e.labels(words)
	e.Shapes = slices.Concat(e.Shapes, s.clearBays(walls.Bottom), s.clearHeights(), s.overall(walls.Bottom))
	e.Says = e.inWords(words)
}

func (e *Elevation) piece(q piece, v check.Verdict) {
	name := q.part.Name()
	e.Shapes = append(e.Shapes, Shape{Form: Rect, Role: q.role, At: q.box.Corners(), Mark: name, Verdict: v, Guessed: q.guessed})
	if v >= check.Verify {
		e.Verdict = max(e.Verdict, v)
		e.Shapes = append(e.Shapes, Shape{Form: Hatch, Role: q.role, At: q.box.around(), Mark: name, Verdict: v})
	}
}

// labels names each part once, those that fail first, so that they get the best places.
func (e *Elevation) labels(words spoken) {
	var named []*check.Part
	for _, q := range e.stands.pieces {
		if !slices.Contains(named, q.part) && (q.role != Behind || words.parts[q.part] > check.Clear) {
			named = append(named, q.part)
		}
	}
	slices.SortStableFunc(named, func(a, b *check.Part) int { return int(words.parts[b]) - int(words.parts[a]) })
	for _, p := range named {
		all := e.stands.of(p)
		text := shorten(short(p))
		if all[0].role == Cover && p.Mark.Text != "" {
			text += " (" + string(p.Role) + ")"
		}
		if n := len(all); n > 1 {
			text = fmt.Sprintf("%d x %s", n, text)
		}
		e.Shapes = append(e.Shapes, Shape{Form: Label, Role: all[0].role, At: corners(all), Mark: p.Name(), Text: text, Verdict: words.parts[p]})
	}
}

// mostLetters is how long a name in the picture may be.
const mostLetters = 22

// short names a part within the picture of its case: its mark, else its description, without the
// sizes that stand in one too long for the picture.
func short(p *check.Part) string {
	if p.Mark.Text != "" || p.Description.Text == "" {
		return p.Name()
	}
	words := strings.Fields(p.Description.Text)
	for i, w := range words {
		if i > 0 && len([]rune(p.Description.Text)) > mostLetters && w[0] >= '0' && w[0] <= '9' {
			return strings.Join(words[:i], " ")
		}
	}
	return p.Description.Text
}

func shorten(name string) string {
	r := []rune(name)
	if len(r) <= mostLetters {
		return name
	}
	return strings.TrimSpace(string(r[:mostLetters-1])) + "…"
}

// corners are those of all pieces of a part, the middle one first.
func corners(all []piece) []Point {
	middle := (len(all) - 1) / 2
	out := all[middle].box.Corners()
	for i, q := range all {
		if i != middle {
			out = append(out, q.box.Corners()...)
		}
	}
	return out
}

func (s *standing) of(p *check.Part) []piece {
	var out []piece
	for _, q := range s.pieces {
		if q.part == p {
			out = append(out, q)
		}
	}
	return out
}

// clearBays are the clear widths beside the uprights, where the places of all are typed.
func (s *standing) clearBays(floor float64) []Shape {
	bays := s.bays()
	for _, q := range s.pieces {
		if isUpright(q.part) && q.guessed {
			return nil
		}
	}
	if len(bays) < 2 {
		return nil
	}
	var out []Shape
	for _, b := range bays {
		out = append(out, Shape{Form: Dimension, Side: Below, Chain: true, At: []Point{{b.from, floor}, {b.to, floor}}, Text: length.Figure(b.to-b.from, s.job.Unit)})
	}
	return out
}

// clearHeights are the clear heights between the shelves of the bay at the right, where the
// heights of all are typed.
func (s *standing) clearHeights() []Shape {
	bays := s.bays()
	if len(bays) == 0 {
		return nil
	}
	bay := bays[len(bays)-1]
	var lies []piece
	shelves := 0
	for _, q := range s.pieces {
		if isUpright(q.part) || q.role != Part || !s.lies(q, bay) {
			continue
		}
		if q.guessed {
			return nil
		}
		if q.part.Role == check.Shelf || q.part.Role == check.Adjustable {
			shelves++
		}
		lies = append(lies, q)
	}
	if shelves == 0 {
		return nil
	}
	slices.SortFunc(lies, func(a, b piece) int { return cmp.Compare(a.box.Bottom, b.box.Bottom) })
	var out []Shape
	at := s.out.Raised
	for _, q := range lies {
		if clear := q.box.Bottom - at; clear > 0 {
			out = append(out, Shape{Form: Dimension, Side: Right, Chain: true, At: []Point{{s.width, at}, {s.width, q.box.Bottom}}, Text: length.Figure(clear, s.job.Unit)})
		}
		at = math.Max(at, q.box.Top)
	}
	return out
}

// overall are the dimensions of the case.
func (s *standing) overall(floor float64) []Shape {
	return []Shape{
		{Form: Dimension, Side: Below, At: []Point{{0, floor}, {s.width, floor}}, Text: s.job.Len(s.width), Guessed: s.out.Width.Guessed || s.added},
		{Form: Dimension, Side: Left, At: []Point{{0, 0}, {0, s.height}}, Text: s.job.Len(s.height), Guessed: s.out.Height.Guessed},
	}
}

// walls draws the opening where it is not much larger than the case, which then stands in the
// middle of it, and the floor.
func (e *Elevation) walls() Box {
	s := e.stands
	thick := s.wall()
	w, h := s.width, s.height
	wide, wideRead := s.around(func(o *check.Opening) []check.Reading { return o.Widths }, w)
	high, highRead := s.around(func(o *check.Opening) []check.Reading { return o.Heights }, h)
	left := (w - wide) / 2
	room := Box{left, 0, left + wide, high}
	top := room.Top
	if !highRead {
		top = h
	}
	wall := func(b Box) { e.Shapes = append(e.Shapes, s.slab(b)...) }
	out := Box{room.Left - thick, -thick, room.Right + thick, top}
	if wideRead {
		wall(Box{room.Left - thick, 0, room.Left, top})
		wall(Box{room.Right, 0, room.Right + thick, top})
		e.Shapes = append(e.Shapes, Shape{Form: Dimension, Side: Above, Role: Wall, At: []Point{{room.Left, top}, {room.Right, top}}, Text: "opening " + s.job.Len(wide)})
	}
	if highRead {
		wall(Box{room.Left - thick, high, room.Right + thick, high + thick})
		out.Top += thick
		e.Shapes = append(e.Shapes, Shape{Form: Dimension, Side: Left, Role: Wall, At: []Point{{room.Left, 0}, {room.Left, high}}, Text: "opening " + s.job.Len(high)})
	}
	wall(Box{out.Left, -thick, out.Right, 0})
	return out
}

// wall is how thick walls and floor are drawn.
func (s *standing) wall() float64 { return math.Max(s.width, s.height) / 40 }

// slab is a piece of wall or floor.
func (s *standing) slab(b Box) []Shape {
	return []Shape{{Form: Hatch, Role: Wall, At: b.around()}, {Form: Rect, Role: Wall, At: b.Corners()}}
}

// around is the smallest reading of the opening, false where none was taken, or where the
// opening holds more than this case.
func (s *standing) around(of func(*check.Opening) []check.Reading, own float64) (float64, bool) {
	if s.out.Place == nil {
		return own, false
	}
	r, ok := check.Smallest(of(s.out.Place))
	if !ok || r.Value.Nominal > 1.3*own || r.Value.Nominal < .8*own {
		return own, false
	}
	return r.Value.Nominal, true
}

// inWords says what the picture shows.
func (e *Elevation) inWords(words spoken) string {
	s := e.stands
	text := fmt.Sprintf("Elevation of %s, %s wide and %s high, %d pieces.", spokenTitle(e.Case), s.job.Len(s.width), s.job.Len(s.height), len(s.pieces))
	if e.Whole > check.Clear {
		text += fmt.Sprintf(" The case as a whole: %s.", e.Whole)
	}
	for _, v := range []check.Verdict{check.Hold, check.Verify} {
		var names []string
		for _, q := range s.pieces {
			if n := q.part.Name(); words.parts[q.part] == v && !slices.Contains(names, n) {
				names = append(names, n)
			}
		}
		if len(names) > 0 {
			text += fmt.Sprintf(" %s: %s.", v, strings.Join(names, ", "))
		}
	}
	return text
}
