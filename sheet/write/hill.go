package write

import (
	"fmt"
	"math"
	"strings"

	"dryfit/check"
)

// The hill shows how the headline quantity of a check differs among equal things, for a check that
// says by how much: a row for every half spread, its strokes as many as things have that much. It
// is made of formulas and moves with the working.
const (
	hillSteps = 5  // rows on each side of the nominal
	hillPeak  = 40 // strokes at the nominal
)

// hill adds the spread below a working that has one, and a window.
func (w *workings) hill(b *block) {
	r := b.result
	c := r.Check
	if c.Spread == "" || len(c.Against) != 2 || r.Values[c.Spread] <= 0 {
		return
	}
	ends := [2]string{At(colValue, b.row[c.Against[0]]), At(colValue, b.row[c.Against[1]])}
	b.hill = w.Add(Text("", HeadLook), Text("How equal joints differ: so many bind; right of it the least and the most wanted", HeadLook),
		w.binding(b), Text(c.UnitOf(c.Value).In(r.Job.Unit), HeadLook), w.wanted(r, c.Against[0], ends[0]), w.wanted(r, c.Against[1], ends[1]),
		Text("Strokes: how many joints have that clearance; a row is half of "+c.Spread+". It moves with the schedule. What nobody measured shifts all rows together.", HeadLook))
	w.Tall(b.hill, 0)
	for k := -hillSteps; k <= hillSteps; k++ {
		w.hillRow(b, k, ends)
	}
}

// binding is the share that lies outside, where the check works one out.
func (w *workings) binding(b *block) Cell {
	for _, s := range b.result.Check.Steps {
		if s.Unit == check.Share {
			return Cell{Value: b.result.Values[s.Symbol], Formula: At(colValue, b.row[s.Symbol]), Look: Look{Ink: Ink, Line: true, Bold: true, Format: "0.0%"}}
		}
	}
	return Text("", HeadLook)
}

// wanted is an end of the window of clearances.
func (w *workings) wanted(r *check.Result, symbol, at string) Cell {
	return Cell{Value: r.Values[symbol], Formula: at, Look: Look{Fill: headFill, Ink: Ink, Bold: true, Line: true, Format: "0.0000"}}
}

func (w *workings) hillRow(b *block, k int, ends [2]string) {
	r := b.result
	value, spread := r.Check.Value, r.Check.Spread
	x := r.Values[value] + float64(k)*r.Values[spread]/2
	at := At(colValue, len(w.Rows)+1)
	n := int(math.Round(hillPeak * math.Exp(-float64(k*k)/8)))
	zone := fmt.Sprintf("IF(%[1]s<0,\"binds\",IF(%[1]s<%[2]s,\"too tight\",IF(%[1]s>%[3]s,\"too loose\",\"as wanted\")))", at, ends[0], ends[1])
	name := ""
	if k == 0 {
		name = "nominal"
	}
	w.Add(Text("", BodyLook), Cell{Value: zoneOf(r, x), Formula: zone, Look: BodyLook},
		Cell{Value: x, Formula: offsetBy(At(colValue, b.row[value]), At(colValue, b.row[spread]), float64(k)/2), Look: Look{Ink: Ink, Line: true, Format: "0.0000", Bold: k == 0}},
		Text(r.Check.UnitOf(value).In(r.Job.Unit), BodyLook), Text(name, Look{Ink: Ink, Bold: true, Line: true}), Text("", BodyLook),
		Text(strings.Repeat("|", n), spareLook))
}

// offsetBy writes a cell plus so many times another.
func offsetBy(ref, by string, times float64) string {
	switch {
	case times == 0:
		return ref
	case times < 0:
		return fmt.Sprintf("%s-%g*%s", ref, -times, by)
	}
	return fmt.Sprintf("%s+%g*%s", ref, times, by)
}

func zoneOf(r *check.Result, x float64) string {
	switch {
	case x < 0:
		return "binds"
	case x < r.Values[r.Check.Against[0]]:
		return "too tight"
	case x > r.Values[r.Check.Against[1]]:
		return "too loose"
	}
	return "as wanted"
}
