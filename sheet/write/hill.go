package write

import (
	"fmt"
	"math"
	"strings"

	"dryfit/check"
)

// The hill shows how the clearances of equal joints spread: a row for every half spread, its
// strokes as many as joints have that clearance. It is made of formulas and moves with the
// working.
const (
	hillID    = "fit.joint" // whose clearance spreads from joint to joint
	hillSteps = 5           // rows on each side of the nominal
	hillPeak  = 40          // strokes at the nominal
)

// hill adds the spread of the clearance below the working of a joint.
func (w *workings) hill(b *block) {
	r := b.result
	if r.Check.ID != hillID || r.Values["u"] <= 0 {
		return
	}
	c, u, least, most := At(colValue, b.row["c"]), At(colValue, b.row["u"]), At(colValue, b.row["a"]), At(colValue, b.row["b"])
	share := Cell{Value: r.Values["p"], Formula: At(colValue, b.row["p"]), Look: Look{Ink: Ink, Line: true, Bold: true, Format: "0.0%"}}
	b.hill = w.Add(Text("", HeadLook), Text("How the clearance differs among equal joints: so many bind; right of it the least and the most wanted", HeadLook),
		share, Text(check.Film.In(r.Job.Unit), HeadLook), w.wanted(r, "a", least), w.wanted(r, "b", most),
		Text("Strokes: how many joints have that clearance; a row is half of u. It moves with the schedule. What nobody measured shifts all rows together.", HeadLook))
	w.Tall(b.hill, 0)
	for k := -hillSteps; k <= hillSteps; k++ {
		w.hillRow(r, k, c, u, least, most)
	}
}

// wanted is an end of the window of clearances.
func (w *workings) wanted(r *check.Result, symbol, at string) Cell {
	return Cell{Value: r.Values[symbol], Formula: at, Look: Look{Fill: headFill, Ink: Ink, Bold: true, Line: true, Format: "0.0000"}}
}

func (w *workings) hillRow(r *check.Result, k int, c, u, least, most string) {
	row := len(w.Rows) + 1
	x := r.Values["c"] + float64(k)*r.Values["u"]/2
	at := At(colValue, row)
	n := int(math.Round(hillPeak * math.Exp(-float64(k*k)/8)))
	zone := fmt.Sprintf("IF(%[1]s<0,\"binds\",IF(%[1]s<%[2]s,\"too tight\",IF(%[1]s>%[3]s,\"too loose\",\"as wanted\")))", at, least, most)
	name := ""
	if k == 0 {
		name = "nominal"
	}
	w.Add(Text("", BodyLook), Cell{Value: zoneOf(r, x), Formula: zone, Look: BodyLook},
		Cell{Value: x, Formula: offsetBy(c, u, float64(k)/2), Look: Look{Ink: Ink, Line: true, Format: "0.0000", Bold: k == 0}},
		Text(check.Film.In(r.Job.Unit), BodyLook), Text(name, Look{Ink: Ink, Bold: true, Line: true}), Text("", BodyLook),
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
	case x < r.Values["a"]:
		return "too tight"
	case x > r.Values["b"]:
		return "too loose"
	}
	return "as wanted"
}
