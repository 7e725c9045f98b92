package drawing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/structure"
)

// Ways are the load paths of the cases of a job that have joints of their own: arrows from
// shelves to what carries them and on to the floor, with what comes down. Those that break come
// first.
func Ways(rep *check.Report) []Elevation {
	if !measurable(rep.Job) {
		return nil
	}
	steps := structure.Paths(rep.Job)
	var out []Elevation
	for _, box := range rep.Job.Cases() {
		s, ok := stand(rep.Job, box)
		if !ok {
			continue
		}
		w := way{standing: s, out: Elevation{Case: box, stands: s}}
		if w.draw(steps) && w.out.drawable(rep.Job.PerInch()) {
			out = append(out, w.out)
		}
	}
	slices.SortStableFunc(out, func(a, b Elevation) int { return cmp.Compare(b.breaks(), a.breaks()) })
	return out
}

// breaks is how many steps of a way carry nothing.
func (e Elevation) breaks() (n int) {
	for _, s := range e.Shapes {
		if s.Form == Break {
			n++
		}
	}
	return n
}

// way is a load path while it is drawn.
type way struct {
	*standing
	out    Elevation
	unsaid bool // nobody said what holds an end
	labels []force
	said   []string
}

// force is a label of a step, with how much it matters.
type force struct {
	shape Shape
	most  float64
}

// mostForces is how many steps are labelled: those that break, then those that carry most.
const mostForces = 9

func (w *way) draw(steps []structure.Step) bool {
	d := &w.out.Drawing
	d.Title = loadTitle
	for _, q := range w.pieces {
		if q.role == Part {
			d.Shapes = append(d.Shapes, Shape{Form: Rect, Role: Ghost, At: q.box.Corners(), Mark: q.part.Name(), Guessed: q.guessed})
		}
	}
	d.Shapes = append(d.Shapes, w.slab(Box{-w.wall(), -w.wall(), w.width + w.wall(), 0})...)
	for _, st := range steps {
		if st.Case == w.box.Name {
			w.step(st)
		}
	}
	if len(w.labels) == 0 {
		return false
	}
	slices.SortStableFunc(w.labels, func(a, b force) int {
		return cmp.Or(cmp.Compare(b.shape.Verdict, a.shape.Verdict), cmp.Compare(b.most, a.most))
	})
	for _, l := range w.labels[:min(mostForces, len(w.labels))] {
		d.Shapes = append(d.Shapes, l.shape)
	}
	d.Notes = w.notes(len(w.labels))
	d.Says = fmt.Sprintf("Way of the load of %s to the floor: %s.", spokenTitle(w.box), strings.Join(w.said, "; "))
	return true
}

func (w *way) notes(labels int) []string {
	notes := []string{"The most that comes down in each place, and its share of what that takes, or how many times."}
	if labels > mostForces {
		notes = append(notes, fmt.Sprintf("The %d largest of %d forces are written.", mostForces, labels))
	}
	if w.unsaid {
		notes = append(notes, "Dashed arrows: nobody said what holds the ends.")
	}
	return notes
}

// step draws a step at every place where its two parts meet, and labels one.
func (w *way) step(st structure.Step) {
	var froms, tos []piece
	for _, q := range w.pieces {
		switch q.part.Name() {
		case st.From:
			froms = append(froms, q)
		case st.To:
			tos = append(tos, q)
		}
	}
	if len(froms) == 0 {
		w.load(st, tos)
		return
	}
	var places []Point
	for _, f := range froms {
		places = append(places, w.landings(f, st, tos)...)
	}
	v := verdictOf(st)
	unsaid := st.By == "its end"
	for _, at := range places {
		w.arrow(at, st.Carries, v, unsaid)
	}
	w.unsaid = w.unsaid || unsaid && len(places) > 0
	if len(places) > 0 && (comes(st) > 0 || !st.Carries) {
		w.label(st, places, v)
	}
}

// verdictOf is the word on a step: that of its check, and one that carries nothing fails.
func verdictOf(st structure.Step) check.Verdict {
	switch {
	case !st.Carries:
		return check.Hold
	case st.Verdict >= check.Verify:
		return st.Verdict
	}
	return check.Clear
}

// load labels a part with what stands on it, where the part itself may fail.
func (w *way) load(st structure.Step, on []piece) {
	if len(on) == 0 {
		return
	}
	w.said = append(w.said, fmt.Sprintf("%s on %s: %s", st.From, st.To, w.force(st)))
	if v := verdictOf(st); v >= check.Verify {
		w.out.Verdict = max(w.out.Verdict, v)
		w.labels = append(w.labels, force{Shape{Form: Label, Role: Ghost, At: corners(on), Mark: st.To, Text: w.force(st), Verdict: v}, st.Force})
	}
}

// comes is what comes down: the most, or the likely where the most is not known.
func comes(st structure.Step) float64 {
	if st.Force > 0 {
		return st.Force
	}
	return st.Likely
}

// force writes what comes down and how much of what the step takes that is.
func (w *way) force(st structure.Step) string {
	text := check.Force.Print(comes(st), w.job.Unit)
	if !st.Carries {
		return text + " not carried"
	}
	if st.Known() {
		text += ", " + used(st.Use)
		if st.Verdict >= check.Verify {
			text += " in " + st.Governs
		}
	}
	return text
}

// used writes a use as a picture has room for it: whole percents; from twice the limit on "2.1 times",
// "42 times".
func used(use float64) string {
	switch {
	case use < 1.995:
		return check.Share.Print(use, length.Inch)
	case use < 9.95:
		return fmt.Sprintf("%.1f times", use)
	}
	return fmt.Sprintf("%.0f times", use)
}

// landings are the places where a piece gives its load away: at the parts that carry it, at its
// ends, at its foot.
func (w *way) landings(f piece, st structure.Step, tos []piece) []Point {
	if isUpright(f.part) {
		return []Point{{f.box.middle(), f.box.Bottom}}
	}
	var out []Point
	for _, t := range tos {
		if t.box.Top >= f.box.Bottom && t.box.Bottom <= f.box.Top {
			out = append(out, Point{math.Max(f.box.Left, math.Min(t.box.middle(), f.box.Right)), f.box.Bottom})
		}
	}
	if len(out) == 0 {
		for _, x := range st.At {
			out = append(out, Point{f.box.Left + x, f.box.Bottom})
		}
	}
	return out
}

// reach is how long an arrow is.
func (w *way) reach() float64 { return math.Min(math.Max(w.height/16, w.width/24), w.height/5) }

// arrow points from a shelf into what carries it, and from an upright to what it stands on.
func (w *way) arrow(at Point, carries bool, v check.Verdict, guessed bool) {
	w.out.Shapes = append(w.out.Shapes, Shape{Form: Arrow, Role: Force, At: w.ends(at), Verdict: v, Guessed: guessed})
	if !carries {
		w.out.Shapes = append(w.out.Shapes, Shape{Form: Break, Role: Force, At: []Point{{at.X, w.ends(at)[0].Y - w.reach()/2}}, Verdict: v})
	}
}

// ends are those of an arrow at a place: below it, or down to it where the floor is near.
func (w *way) ends(at Point) []Point {
	if at.Y < w.reach() {
		return []Point{{at.X, at.Y + w.reach()}, at}
	}
	return []Point{at, {at.X, at.Y - w.reach()}}
}

// label writes the force of a step beside one of its arrows, the middle one if there is room.
func (w *way) label(st structure.Step, places []Point, v check.Verdict) {
	text := w.force(st)
	words := fmt.Sprintf("%s brings %s to %s", st.From, text, st.To)
	w.out.Verdict = max(w.out.Verdict, v)
	var at []Point
	for i := range places {
		at = append(at, w.ends(places[(len(places)/2+i)%len(places)])...)
	}
	w.said = append(w.said, words)
	w.labels = append(w.labels, force{Shape{Form: Label, Role: Force, At: at, Mark: st.From, Text: text, Verdict: v}, comes(st)})
}
