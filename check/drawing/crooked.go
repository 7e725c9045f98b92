package drawing

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/opening"
	"dryfit/check/shape"
)

// Openings are the openings of a job as they were read, with crooked sides, each with its case
// in the middle of the level rectangle and with the gaps that are left.
func Openings(rep *check.Report) []Elevation {
	if !measurable(rep.Job) {
		return nil
	}
	var out []Elevation
	for _, a := range opening.Arounds(rep.Job) {
		c := crooked{Around: a, job: rep.Job}
		e := Elevation{Case: a.Case, Drawing: c.draw()}
		for _, f := range rep.Findings {
			if strings.HasPrefix(f.ID, "opening.") && !f.Accepted() && f.Verdict >= check.Verify && (f.Case == a.Case.Name || f.Case == a.Place.Name.Text) {
				e.Whole = max(e.Whole, f.Verdict)
			}
		}
		e.Verdict = e.Whole
		if e.drawable(rep.Job.PerInch()) {
			out = append(out, e)
		}
	}
	return out
}

// crooked is an opening while it is drawn.
type crooked struct {
	opening.Around
	job   *check.Job
	sides float64    // how many times what is out of plumb is drawn, and the gaps at the sides
	ends  float64    // the same at floor and head
	stand shape.Rect // the case in the opening
	d     Drawing
}

// timesDrawn are the ways to exaggerate, the strongest first.
var timesDrawn = []float64{20, 10, 5, 2, 1}

// outermost is the share of the width that what is out of true may take when exaggerated.
const outermost = .16

func (c *crooked) draw() Drawing {
	c.stand = c.caseIn()
	c.exaggerate()
	c.d.Title = openingTitle
	box := c.boxed()
	c.d.Shapes = append(c.d.Shapes, Shape{Form: Rect, Role: Ghost, At: box.Corners()})
	c.walls()
	c.gaps() // their labels come first: the others find room anywhere
	c.sureIn()
	c.d.Shapes = append(c.d.Shapes, Shape{Form: Label, Role: Ghost, At: Box{box.Left, box.Bottom, box.Right, box.middleY()}.Corners(), Text: "case " + c.job.Len(c.Width.Nominal)})
	c.notes()
	return c.d
}

// caseIn is the case in the middle of the level rectangle, on its floor.
func (c *crooked) caseIn() shape.Rect {
	mid := (c.Level.Left + c.Level.Right) / 2
	r := shape.Rect{Left: mid - c.Width.Nominal/2, Right: mid + c.Width.Nominal/2, Bottom: c.Level.Bottom, Top: c.Level.Top}
	if c.tall() {
		r.Top = r.Bottom + c.Height.Nominal
	}
	return r
}

// tall reports whether the height can be drawn: of the case and of the opening.
func (c *crooked) tall() bool {
	_, read := check.Smallest(c.Place.Heights)
	return read && c.Height.Known && c.Height.Nominal > 0
}

// exaggerate draws what is out of true as strongly as leaves it near the edge.
func (c *crooked) exaggerate() {
	g := c.Faces.Gaps(c.stand)
	sides := slices.Concat(g.Left, g.Right)
	if c.Sure > 0 {
		sides = append(sides, (c.Level.Width()-c.Sure)/2)
	}
	c.sides, c.ends = strongest(sides, c.Level.Width()), 1
	if c.tall() {
		c.ends = strongest(slices.Concat(g.Floor, g.Head), c.Level.Height())
	}
}

func strongest(off []float64, size float64) float64 {
	most := 0.0
	for _, x := range off {
		most = math.Max(most, math.Abs(x))
	}
	for _, k := range timesDrawn {
		if k*most <= outermost*size {
			return k
		}
	}
	return 1
}

// x draws a place near one side of the level rectangle; y near floor or head.
func (c *crooked) x(at float64) float64 { return apart(at, c.Level.Left, c.Level.Right, c.sides) }
func (c *crooked) y(at float64) float64 { return apart(at, c.Level.Bottom, c.Level.Top, c.ends) }

// apart draws how far a place is off the nearer of two edges, so many times.
func apart(at, low, high, times float64) float64 {
	if at-low < high-at {
		return low + times*(at-low)
	}
	return high + times*(at-high)
}

// whole carries a profile on to both ends of a length.
func whole(p shape.Profile, from, to float64) shape.Profile {
	at := func(x float64, a, b shape.Reading) shape.Reading {
		return shape.Reading{Along: x, Off: a.Off + (b.Off-a.Off)*(x-a.Along)/(b.Along-a.Along)}
	}
	out := shape.Profile{at(from, p[0], p[1])}
	for _, r := range p {
		if r.Along > from && r.Along < to {
			out = append(out, r)
		}
	}
	return append(out, at(to, p[len(p)-2], p[len(p)-1]))
}

// walls draws the four faces, each from corner to corner, and hatches what lies behind them.
func (c *crooked) walls() {
	left, right := whole(c.Faces.Left, c.Level.Bottom, c.Level.Top), whole(c.Faces.Right, c.Level.Bottom, c.Level.Top)
	floor, head := whole(c.Faces.Floor, c.Level.Left, c.Level.Right), whole(c.Faces.Head, c.Level.Left, c.Level.Right)
	out := c.bounds(left, right, floor, head, math.Max(c.Level.Width(), c.Level.Height())/30)
	side := func(p shape.Profile, low, high float64) []Point {
		var face []Point
		for _, r := range p {
			face = append(face, Point{c.x(r.Off), r.Along})
		}
		face[0].Y, face[len(face)-1].Y = c.y(low), c.y(high)
		return face
	}
	l := side(left, floor[0].Off, head[0].Off)
	r := side(right, floor[len(floor)-1].Off, head[len(head)-1].Off)
	flat := func(p shape.Profile, from, to float64) []Point {
		var face []Point
		for _, r := range p {
			face = append(face, Point{r.Along, c.y(r.Off)})
		}
		face[0].X, face[len(face)-1].X = from, to
		return face
	}
	c.wall(l, func(p Point) Point { return Point{out.Left, p.Y} })
	c.wall(r, func(p Point) Point { return Point{out.Right, p.Y} })
	c.wall(flat(floor, l[0].X, r[0].X), func(p Point) Point { return Point{p.X, out.Bottom} })
	if c.tall() {
		c.wall(flat(head, l[len(l)-1].X, r[len(r)-1].X), func(p Point) Point { return Point{p.X, out.Top} })
	}
}

// bounds are the outer edges of the walls.
func (c *crooked) bounds(left, right, floor, head shape.Profile, thick float64) Box {
	b := Box{c.Level.Left, c.Level.Bottom, c.Level.Right, c.Level.Top}
	for _, r := range left {
		b.Left = math.Min(b.Left, c.x(r.Off))
	}
	for _, r := range right {
		b.Right = math.Max(b.Right, c.x(r.Off))
	}
	for _, r := range floor {
		b.Bottom = math.Min(b.Bottom, c.y(r.Off))
	}
	for _, r := range head {
		b.Top = math.Max(b.Top, c.y(r.Off))
	}
	return Box{b.Left - thick, b.Bottom - thick, b.Right + thick, b.Top + thick}
}

// wall draws a face and hatches what lies behind it.
func (c *crooked) wall(face []Point, behind func(Point) Point) {
	for i := 1; i < len(face); i++ {
		c.d.Shapes = append(c.d.Shapes, Shape{Form: Hatch, Role: Wall, At: []Point{face[i-1], face[i], behind(face[i]), behind(face[i-1])}})
	}
	c.d.Shapes = append(c.d.Shapes, Shape{Form: Line, Role: Part, At: face})
}

// boxed is the case as it is drawn.
func (c *crooked) boxed() Box {
	return Box{c.x(c.stand.Left), c.y(c.stand.Bottom), c.x(c.stand.Right), c.y(c.stand.Top)}
}

// sureIn draws the rectangle that goes in for certain, in the middle of the level one.
func (c *crooked) sureIn() {
	if c.Sure <= 0 {
		return
	}
	half := math.Min(c.Sure, c.Level.Width()) / 2
	mid := (c.Level.Left + c.Level.Right) / 2
	sure := Box{c.x(mid - half), c.y(c.Level.Bottom), c.x(mid + half), c.y(c.Level.Top)}
	c.d.Shapes = append(c.d.Shapes, Shape{Form: Rect, Role: Sure, At: sure.Corners()},
		Shape{Form: Label, Role: Sure, At: Box{sure.Left, sure.middleY(), sure.Right, sure.Top}.Corners(), Text: "sure to go in " + c.job.Len(c.Sure)})
}

func (b Box) middleY() float64 { return (b.Bottom + b.Top) / 2 }

// gaps are what is left at each reading: where it is less than nothing, the case is over.
func (c *crooked) gaps() {
	g := c.Faces.Gaps(c.stand)
	for i, r := range c.Faces.Left {
		c.gap(g.Left[i], Point{c.x(r.Off), c.level(r.Along)}, Point{c.x(c.stand.Left), c.level(r.Along)})
	}
	for i, r := range c.Faces.Right {
		c.gap(g.Right[i], Point{c.x(c.stand.Right), c.level(r.Along)}, Point{c.x(r.Off), c.level(r.Along)})
	}
	if !c.tall() {
		return
	}
	for i, r := range c.Faces.Head {
		x := math.Max(c.Level.Left+c.Level.Width()/12, math.Min(r.Along, c.Level.Right-c.Level.Width()/12))
		if len(c.Faces.Head) == 2 && c.Faces.Head[0].Off == c.Faces.Head[1].Off {
			x = (c.Level.Left + c.Level.Right) / 2
			if i > 0 {
				break
			}
		}
		c.gap(g.Head[i], Point{x, c.y(c.stand.Top)}, Point{x, c.y(r.Off)})
	}
}

// level is where a reading of a side is drawn: beside the case and off its corners, so that its
// gap has room.
func (c *crooked) level(y float64) float64 {
	low, high := c.y(c.stand.Bottom), c.y(c.stand.Top)
	off := (high - low) / 12
	return math.Max(low+off, math.Min(y, high-off))
}

func (c *crooked) gap(size float64, from, to Point) {
	text, v := c.job.Len(size), check.Clear
	if size < 0 {
		text, v = c.job.Len(-size)+" over", check.Hold
	}
	c.d.Shapes = append(c.d.Shapes, Shape{Form: Line, Role: Gap, At: []Point{from, to}, Verdict: v},
		Shape{Form: Label, Role: Gap, At: []Point{from, to}, Text: text, Verdict: v})
}

func (c *crooked) notes() {
	add := func(s string) { c.d.Notes = append(c.d.Notes, s) }
	if c.sides > 1 {
		add(fmt.Sprintf("Out of plumb and gaps at the sides drawn %g times.", c.sides))
	}
	if c.ends > 1 {
		add(fmt.Sprintf("Floor, head and their gaps drawn %g times.", c.ends))
	}
	switch {
	case !c.Plumb:
		add("Plumb not read: both sides drawn alike.")
	case c.Guessed:
		add("Nobody read which side bulges or leans: drawn as likely.")
	}
	if !c.tall() {
		add("Height not read.")
	}
	c.d.Says = fmt.Sprintf("The opening of %s as measured, its case %s wide in the middle.", spokenTitle(c.Case), c.job.Len(c.Width.Nominal))
	if c.Sure > 0 {
		c.d.Says += fmt.Sprintf(" Sure to go in: %s.", c.job.Len(c.Sure))
	}
	var left, right []string
	g := c.Faces.Gaps(c.stand)
	for _, x := range g.Left {
		left = append(left, c.job.Len(x))
	}
	for _, x := range g.Right {
		right = append(right, c.job.Len(x))
	}
	c.d.Says += fmt.Sprintf(" Gaps from the floor up: left %s, right %s.", strings.Join(left, ", "), strings.Join(right, ", "))
}
