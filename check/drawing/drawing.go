// Package drawing knows what a job looks like: the elevation of each case with its failing
// parts, the way its load takes to the floor, and its opening with crooked sides. A drawing is a
// list of shapes in the unit of the job, x to the right and y up. It knows no picture file, no
// colour and no size of paper.
package drawing

import (
	"math"

	"dryfit/check"
)

// Form is what a shape is.
type Form int

const (
	Rect      Form = iota // between two corners
	Line                  // through its points
	Hatch                 // inside its points
	Arrow                 // from the first point to the second
	Dimension             // of the distance between two points, with its text
	Label                 // a text beside one of the boxes whose corners are its points, or inside; the first is best
	Break                 // the sign of a step that carries nothing, at a point
)

// Role is what a shape stands for, which decides how heavily it is drawn.
type Role int

const (
	Part   Role = iota // cut through, or seen from its edge
	Ghost              // a part that is there for orientation only
	Cover              // what stands in front: a door, a front, a scribe
	Behind             // what stands behind: a back
	Wall               // walls, floor and head of the opening
	Sure               // the rectangle that goes in for certain
	Force              // what comes down
	Gap                // what is left beside the case
)

// Side is where a dimension stands.
type Side int

const (
	Below Side = iota
	Left
	Above
	Right
)

// Point is a place in a drawing.
type Point struct{ X, Y float64 }

// Shape is one thing in a drawing.
type Shape struct {
	Form    Form
	Role    Role
	At      []Point
	Mark    string        // of the part it shows
	Text    string        // as it is written
	Verdict check.Verdict // Verify and Hold are told by word, hatch and colour
	Guessed bool          // nobody typed where it stands or how large it is
	Side    Side          // of a dimension
	Chain   bool          // a dimension that stands in one row with others of its side: all of them or none
}

// Drawing is one picture.
type Drawing struct {
	Title  string
	Whole  check.Verdict // of all that is drawn, where a finding speaks of no single part
	Shapes []Shape
	Notes  []string // what was guessed, drawn larger than it is, or left out: a line each
	Says   string   // the picture in words, for who cannot see it
}

// Box is an upright rectangle.
type Box struct{ Left, Bottom, Right, Top float64 }

// Corners are the two points of the box.
func (b Box) Corners() []Point { return []Point{{b.Left, b.Bottom}, {b.Right, b.Top}} }

func (b Box) around() []Point {
	return []Point{{b.Left, b.Bottom}, {b.Right, b.Bottom}, {b.Right, b.Top}, {b.Left, b.Top}}
}

func (b Box) middle() float64 { return (b.Left + b.Right) / 2 }

// Bounds is the least box round all shapes.
func (d Drawing) Bounds() Box {
	b := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, s := range d.Shapes {
		for _, p := range s.At {
			b.Left, b.Right = math.Min(b.Left, p.X), math.Max(b.Right, p.X)
			b.Bottom, b.Top = math.Min(b.Bottom, p.Y), math.Max(b.Top, p.Y)
		}
	}
	return b
}

// mostLength is the longest thing that is drawn, inches: no case is longer than a hall.
const mostLength = 60 * 12

// mostSteep is how many times longer than wide a picture may be before nothing can be seen in it.
const mostSteep = 12

// drawable refuses what makes no picture: nothing, not finite, far too large, a thread.
func (d Drawing) drawable(inch float64) bool {
	b := d.Bounds()
	w, h := b.Right-b.Left, b.Top-b.Bottom
	return w > 0 && h > 0 && w <= mostLength*inch && h <= mostLength*inch && w <= mostSteep*h && h <= mostSteep*w
}

// measurable reports whether every size of a job is one that a room could hold: the engines below
// are asked nothing else.
func measurable(j *check.Job) bool {
	most := mostLength * j.PerInch()
	for _, o := range j.Openings {
		for _, rs := range [][]check.Reading{o.Widths, o.Heights, o.Depths} {
			for _, r := range rs {
				if r.Value.Known && !(r.Value.Nominal > 0 && r.Value.Nominal <= most) {
					return false
				}
			}
		}
	}
	return sizesWithin(j.Parts, most)
}

// sizesWithin reports whether no size or place of some parts is below zero, or longer than most.
func sizesWithin(parts []*check.Part, most float64) bool {
	for _, p := range parts {
		for _, v := range []check.Value{p.Length, p.Width, p.Thickness, p.X, p.Y} {
			if v.Known && !(v.Nominal >= 0 && v.Nominal <= most) {
				return false
			}
		}
	}
	return true
}
