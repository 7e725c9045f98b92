package shape

import (
	"errors"
	"fmt"
	"math"
)

// Opening is a recess as it was measured, seen from the front. X runs to the right from a plumb
// line, Y up from a level line. Of the sides, Along is Y and Off is X; of floor and head Along is
// X and Off is Y.
type Opening struct {
	Left, Right Profile
	Floor, Head Profile
}

// Sides are the profiles of both sides from widths read at some heights, and how far the left
// side stands right of a plumb line at each.
//
// Error: not as many of each.
func Sides(heights, lefts, widths []float64) (left, right Profile, err error) {
	if len(heights) != len(lefts) || len(heights) != len(widths) {
		return nil, nil, fmt.Errorf("%d heights, %d left sides and %d widths, want as many of each", len(heights), len(lefts), len(widths))
	}
	for i, h := range heights {
		left = append(left, Reading{h, lefts[i]})
		right = append(right, Reading{h, lefts[i] + widths[i]})
	}
	return left, right, nil
}

// Rect is a level rectangle.
type Rect struct{ Left, Right, Bottom, Top float64 }

func (r Rect) Width() float64 { return r.Right - r.Left }

func (r Rect) Height() float64 { return r.Top - r.Bottom }

// Level is the rectangle, plumb and level, that goes in for sure over the whole height and the
// whole width: from MAX of the left side to MIN of the right, from MAX of the floor to MIN of the
// head, each moved in by the doubt. It may be narrower than every width that was read. Exact.
//
// Error: a profile with fewer than two readings or out of order, a doubt below zero, nothing
// left between the sides or between floor and head.
func (o Opening) Level(d Doubt) (Rect, error) {
	if err := o.sound(d); err != nil {
		return Rect{}, err
	}
	r := Rect{
		Bottom: o.Floor.most(o.Floor.first(), o.Floor.last(), d),
		Top:    o.Head.least(o.Head.first(), o.Head.last(), d),
	}
	if r.Height() <= 0 {
		return Rect{}, fmt.Errorf("floor up to %g and head down to %g leave no height", r.Bottom, r.Top)
	}
	r.Left = o.Left.most(r.Bottom, r.Top, d)
	r.Right = o.Right.least(r.Bottom, r.Top, d)
	if r.Width() <= 0 {
		return Rect{}, fmt.Errorf("left side up to %g and right side down to %g leave no width", r.Left, r.Right)
	}
	return r, nil
}

func (o Opening) sound(d Doubt) error {
	return errors.Join(o.Left.sound("left side"), o.Right.sound("right side"), o.Floor.sound("floor"), o.Head.sound("head"), d.sound())
}

// Common is what is inside all the rectangles: that of a box which goes in from the front
// must be inside those read at the front and at the back.
//
// Error: no rectangle, nothing common.
func Common(rects ...Rect) (Rect, error) {
	if len(rects) == 0 {
		return Rect{}, errors.New("no rectangle was read")
	}
	c := rects[0]
	for _, r := range rects[1:] {
		c = Rect{max(c.Left, r.Left), min(c.Right, r.Right), max(c.Bottom, r.Bottom), min(c.Top, r.Top)}
	}
	if c.Width() <= 0 || c.Height() <= 0 {
		return Rect{}, errors.New("the rectangles have nothing in common")
	}
	return c, nil
}

// Gaps are what stays open around a case, at each reading: scribe or filler must cover the
// widest of an edge. Below zero the case and the wall overlap.
type Gaps struct{ Left, Right, Floor, Head []float64 }

// Gaps are those around a case that stands as r.
func (o Opening) Gaps(r Rect) Gaps {
	var g Gaps
	for _, p := range o.Left {
		g.Left = append(g.Left, r.Left-p.Off)
	}
	for _, p := range o.Right {
		g.Right = append(g.Right, p.Off-r.Right)
	}
	for _, p := range o.Floor {
		g.Floor = append(g.Floor, r.Bottom-p.Off)
	}
	for _, p := range o.Head {
		g.Head = append(g.Head, p.Off-r.Top)
	}
	return g
}

// LeanFromDiagonals is how far the top of the left side stands right of its foot, from the
// diagonal up to the right, the diagonal up to the left, and the widths at the foot and top:
// ((d1^2-d2^2)/(bottom+top)-top+bottom)/2. Floor level, sides straight. With both widths w it
// is (d1^2-d2^2)/(4*w), in plan as well as in front. An error u in each diagonal becomes about
// u: no use for leans under 1/4 in.
//
// Error: a length that is none.
//
// Source: two right triangles over one height.
func LeanFromDiagonals(upRight, upLeft, bottom, top float64) (float64, error) {
	if err := positive("diagonal or width", upRight, upLeft, bottom, top); err != nil {
		return 0, err
	}
	return ((upRight-upLeft)*(upRight+upLeft)/(bottom+top) - top + bottom) / 2, nil
}

// Turned is the widest rectangle of a height that goes in when it may lean, and by how much
// it leans: the tangent of its angle, above zero when its top is to the right. It stands on the
// highest place of the floor and stays under the lowest of the head. A true turn: floor line
// and sides of the case turn together. The width is one that goes in; none is wider by more
// than 5e-5 of the height, .005 in of 96.
//
// Error: as Level; a height that is none or does not go in; a lean outside 0 to 0.2; a side
// that leans over one to one.
func (o Opening) Turned(height, mostLean float64) (width, lean float64, err error) {
	r, err := o.Level(Doubt{})
	if err != nil {
		return 0, 0, err
	}
	if !(height > 0 && height <= r.Height()) {
		return 0, 0, fmt.Errorf("a case %g high in a height of %g, want above zero and no more", height, r.Height())
	}
	if !(mostLean >= 0 && mostLean <= .2) {
		return 0, 0, fmt.Errorf("lean of %g, want 0 to 0.2", mostLean)
	}
	steep := max(o.Left.steepest(), o.Right.steepest())
	if steep > 1 {
		return 0, 0, fmt.Errorf("a side leans %g to one, want up to one to one", steep)
	}
	t := turning{o.Left, o.Right, r.Bottom, r.Top, height}
	best := t.best(math.Atan(mostLean), steep)
	return best.width, math.Tan(best.angle), nil
}

func (p Profile) steepest() float64 {
	steep := 0.0
	for i := range len(p) - 1 {
		steep = max(steep, math.Abs((p[i+1].Off-p[i].Off)/(p[i+1].Along-p[i].Along)))
	}
	return steep
}
