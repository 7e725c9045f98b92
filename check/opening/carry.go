package opening

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/shape"
)

// Carry asks whether every piece, and every case that travels whole, passes every place on the
// way: through a door upright or on the slant, round the corner of two halls, up a stair under
// its headroom, into a lift and a vehicle. The tightest place speaks.
var Carry = &check.Check{
	ID:      "opening.carry",
	Asks:    "Does every piece pass each door, hall, corner, stair, lift and vehicle on the way?",
	Costs:   "a finished case that stays on the pavement, or is sawn in two",
	Applies: "every piece of known size at the tightest of the places on the carry tab; where there is none, a shop's usual room door",
	Inputs:  carryInputs,
	Steps:   carrySteps,
	Mends: []check.Mend{
		{Symbol: "l", Order: "make it {} long, or in two pieces", Down: true, Step: .25, StepMM: 5, Reach: 256},
		{Symbol: "p", Order: "make it {} wide, or in two pieces", Down: true, Step: .25, StepMM: 5, Reach: 256},
	},
	NoMend: "make it in pieces that pass, and join them in the room",
	Source: []check.Source{
		{Title: "rectangle in a rectangle on the slant: its corners touch all four sides", How: "common practice"},
		{Title: "corner of two halls: ladder in a corridor with thickness, stationary point of the length", How: "common practice"},
		{Title: "headroom square to a stair: IRC 2018 R311.7 riser and tread, times the cosine", How: "read, second hand"},
	},
	Limits: "Rigid, carried level, on edge or on end; a rectangle with thickness. Hall corners are right angles. The door of a lift wants a stop of its own. A stair with a turn is taken as a corner as wide as the stair.",
	Until:  check.Finished,
	Value:  "s", Against: []string{"v"},
	Fails: "a seat front 106 long and 18 wide round a corner of two 36 in halls", Mended: "made in two pieces of 53",
	Rows: carryRows,
	Says: carrySays,
	Way:  carryWay,
}

// carryInputs are what the steps work on.
var carryInputs = []check.Input{
	{Symbol: "l", Name: "long side", Unit: check.Length},
	{Symbol: "p", Name: "middle side", Unit: check.Length},
	{Symbol: "q", Name: "thin side", Unit: check.Length},
	{Symbol: "w", Name: "clear width of the place", Unit: check.Length},
	{Symbol: "h", Name: "clear height of the place", Unit: check.Length},
	{Symbol: "c", Name: "longest that the place takes, 0 where any length does", Unit: check.Length},
	{Symbol: "f", Name: "may be tilted, 1 for yes", Unit: check.Count},
	{Symbol: "A", Name: "wider hall", Unit: check.Length},
	{Symbol: "N", Name: "narrower hall", Unit: check.Length},
	{Symbol: "v", Name: "hands and pads on each side", Unit: check.Length},
}

// carrySteps serve every kind of place: a hole of w by h, a longest length c, or both.
var carrySteps = []check.Step{
	{Symbol: "z", Name: "leg of the slant", Formula: "SQRT(MAX(0,p^2+q^2-h^2))", Unit: check.Length},
	{Symbol: "i", Name: "width it takes on the slant", Formula: "(p*(q*h+p*z)+q*(p*h-q*z))/(p^2+q^2)", Unit: check.Length},
	{Symbol: "n", Name: "width it takes", Formula: "IF(p<=h,q,MIN(p,i))", Unit: check.Length},
	{Symbol: "d", Name: "spare across", Formula: "IF(f>0,w-n,w-q)", Unit: check.Length},
	{Symbol: "u", Name: "spare in height", Formula: "IF(f>0,h-q,h-p)", Unit: check.Length},
	{Symbol: "e", Name: "spare in length", Formula: "IF(c>0,c-l,d)", Unit: check.Length},
	{Symbol: "k0", Name: "tangent of the tightest angle, first", Formula: "(N/A)^(1/3)", Unit: check.Ratio, Aside: true},
	{Symbol: "k1", Name: "once more", Formula: "MAX(0.001,(N-q*(1-k0^2)*SQRT(1+k0^2))/A)^(1/3)", Unit: check.Ratio, Aside: true},
	{Symbol: "k2", Name: "and once more", Formula: "MAX(0.001,(N-q*(1-k1^2)*SQRT(1+k1^2))/A)^(1/3)", Unit: check.Ratio, Aside: true},
	{Symbol: "B", Name: "bound: a corner of such halls turns no longer than", Formula: "(A*k2+N-q*SQRT(1+k2^2))*SQRT(1+k2^2)/k2", Unit: check.Length, Aside: true},
	{Symbol: "s", Name: "spare at the tightest place", Formula: "MIN(d,u,e)", Unit: check.Length, Aside: true},
	{Symbol: "m", Name: "margin", Formula: "MIN(d-2*v,u,e)", Unit: check.Length},
}

// passage works the steps by themselves, to find the tightest place and the best way through.
var passage = &check.Check{ID: "opening.carry", Inputs: carryInputs, Steps: carrySteps}

func carrySays(r *check.Result) string {
	at := r.Row.Words["place"]
	switch {
	case r.Values["s"] < 0 && r.Values["e"] < min(r.Values["d"], r.Values["u"]):
		return fmt.Sprintf("is %s too long for %s", r.PrintSize("s"), at)
	case r.Values["s"] < 0:
		return fmt.Sprintf("does not pass %s by %s", at, r.PrintSize("s"))
	}
	return fmt.Sprintf("passes %s by %s; hands want more", at, r.Print("s"))
}

// carryWay is for what passes bare, and for a way that nobody gave.
func carryWay(r *check.Result) string {
	if r.Row.Folds != "" && r.Fix != nil {
		return "type the way in on a carry tab, or " + r.Fix.Text
	}
	if r.Values["s"] < 0 || r.Verdict != check.Verify {
		return ""
	}
	return fmt.Sprintf("passes bare with %s to spare: hands at its ends, the door off its pins", r.Print("s"))
}

func figure(r *check.Result, symbol string) string {
	text := r.Print(symbol)
	return strings.TrimSuffix(text, " "+r.Job.Unit.String())
}

func carryRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, p := range j.Pieces() {
		if !weighable(p) || p.Role == check.Trim {
			continue
		}
		r := check.Row{Case: p.Case.Text, Name: p.Name(), Marks: []string{p.Name()}, Cells: []check.Cell{p.Length.From, p.Width.From}, Cause: "carried"}
		out = append(out, carryRow(j, r, [3]check.Value{p.Length, p.Width, p.Thickness}))
	}
	for _, box := range boxes(j) {
		if !travelsWhole(j, box) {
			continue
		}
		wide, ok1 := inferredWidth(j, box)
		high, ok2 := inferredHeight(box)
		deep, ok3 := inferredDepth(box)
		if ok1 && ok2 && ok3 && wide.total.Known {
			r := check.Row{Case: box.Name, Name: box.Title() + " whole", Marks: wide.marks, Cells: wide.cells, Cause: "carried whole"}
			out = append(out, carryRow(j, r, [3]check.Value{wide.total, high.total, deep.total}))
		}
	}
	return out
}

// carryRow binds a thing at the place where it has least to spare.
func carryRow(j *check.Job, r check.Row, size [3]check.Value) check.Row {
	slices.SortFunc(size[:], func(a, b check.Value) int { return int(math.Copysign(1, b.Nominal-a.Nominal)) })
	hands := j.Standard("crew", "hands and pads", "per side", check.Length)
	hands.Low, hands.High = 0, hands.Nominal // it passes bare where hands can be moved past
	least := math.Inf(1)
	for _, s := range stops(j) {
		in, ok := passing(j, s, size)
		if !ok {
			continue
		}
		in["v"] = hands
		if m, err := passage.Margin(in); err == nil && m < least {
			least = m
			r.In, r.Words = in, map[string]string{"place": stopName(s)}
			if s.Row != (check.Cell{}) {
				r.Holds = "at " + s.Row.String()
				r.Cells = append(r.Cells[:min(len(r.Cells), 2)], s.Row)
			}
		}
	}
	if j.Carry == nil || len(j.Carry.Stops) == 0 {
		r.Most, r.Folds = check.Verify, "no carry path"
	}
	return r
}

func stopName(s check.Stop) string {
	name := strings.TrimSpace(s.Name.Text)
	if name == "" {
		name = s.Kind
	}
	if strings.HasPrefix(strings.ToLower(name), "the ") || strings.HasPrefix(name, "a ") {
		return name
	}
	return "the " + name
}

// stops are those of the carry tab, else a usual room door.
func stops(j *check.Job) []check.Stop {
	if j.Carry != nil && len(j.Carry.Stops) > 0 {
		return j.Carry.Stops
	}
	return []check.Stop{{Kind: "door", Name: check.Text{Text: "a usual room door"}}}
}

// passing binds the sizes of a place and the way in which a thing passes it best.
func passing(j *check.Job, s check.Stop, size [3]check.Value) (map[string]check.Value, bool) {
	l, p, q := size[0], size[1], size[2]
	free := none("any length passes")
	w, h := clear(j, s, s.Width, "width"), clear(j, s, s.Height, "height")
	switch s.Kind {
	case "door", "hall":
		return place(l, p, q, w, h, free, w, w), true
	case "stair":
		h = square(j, h)
		if s.Turn {
			return turnings(l, p, q, w, w, h), true
		}
		return place(l, p, q, w, h, free, w, w), true
	case "corner":
		to := w
		if s.Length.Known {
			to = clear(j, s, s.Length, "length")
		}
		return turnings(l, p, q, w, to, h), true
	case "lift":
		deep := clear(j, s, s.Length, "length")
		return better(place(l, p, q, w, deep, h, w, w), place(p, l, q, w, deep, h, w, w), place(q, l, p, w, deep, h, w, w)), true
	case "vehicle":
		long := clear(j, s, s.Length, "length")
		return place(l, p, q, w, h, long, w, w), true
	}
	return nil, false
}

// place binds a thing of l by p by q to a hole of w by h and a longest length c, with a corner
// of halls a and n.
func place(l, p, q, w, h, c, a, n check.Value) map[string]check.Value {
	return map[string]check.Value{"l": l, "p": p, "q": q, "w": w, "h": h, "c": c, "A": a, "N": n, "f": check.Exact(1)}
}

// turnings is the best way round a corner of two halls: on edge, on end or flat. It is not
// tilted while it turns.
func turnings(l, p, q, from, to, h check.Value) map[string]check.Value {
	narrow, wide := from, to
	if to.Nominal < from.Nominal {
		narrow, wide = to, from
	}
	turned := func(long, high, thick check.Value) map[string]check.Value {
		in := place(long, high, thick, narrow, h, longest(from, to, thick), wide, narrow)
		in["f"] = none("upright while it turns")
		return in
	}
	return better(turned(l, p, q), turned(p, l, q), turned(l, q, p))
}

// better is the way of passing that leaves most.
func better(ways ...map[string]check.Value) map[string]check.Value {
	best, most := ways[0], math.Inf(-1)
	for _, in := range ways {
		in["v"] = none("hands not counted in yet")
		if m, err := passage.Margin(in); err == nil && m > most {
			best, most = in, m
		}
	}
	return best
}

// longest is what a corner turns, over the range of its halls. Where the piece does not enter
// a hall at all, nothing.
func longest(from, to, thick check.Value) check.Value {
	turned := func(a, b float64) float64 {
		long, _, err := shape.Corner{From: a, To: b}.Turned(thick.Nominal)
		if err != nil {
			return 1e-6
		}
		return long
	}
	v := check.Between(turned(from.Low, to.Low), turned(from.Nominal, to.Nominal), turned(from.High, to.High))
	v.Guessed = from.Guessed || to.Guessed
	v.Why = "solver: stationary point of the length round the corner, exact"
	return v
}

// square is the clear height square to the slope of a stair.
func square(j *check.Job, headroom check.Value) check.Value {
	riser := j.Standard("door", "stair", "riser at most", check.Length)
	tread := j.Standard("door", "stair", "tread at least", check.Length)
	k, err := shape.StairHeadroom(1, riser.Nominal, tread.Nominal)
	if err != nil || !headroom.Known {
		return headroom
	}
	v := headroom.Scale(k)
	v.Why = "headroom times the cosine of the steepest stair allowed"
	return v
}

// clear is a size of a place as typed, good for a tape reading; else what such a place has.
func clear(j *check.Job, s check.Stop, typed check.Value, property string) check.Value {
	if typed.Known {
		return typed.PlusMinus(j.Standard("site", "tape", "reading", check.Length).Nominal)
	}
	group, item := usual(s)
	if s.Kind == "stair" && property == "height" {
		property = "headroom"
	}
	if v := j.Standard(group, item, property, check.Length); v.Known {
		return v
	}
	v := j.Standard("opening", "unmeasured room", "ceiling", check.Length)
	v.Why = "nobody gave the " + property + " of " + stopName(s) + ": " + v.Why
	return v
}

// usual is where the standards keep what a place of a kind has.
func usual(s check.Stop) (group, item string) {
	name := strings.ToLower(s.Name.Text)
	switch s.Kind {
	case "vehicle":
		switch {
		case strings.Contains(name, "pickup"):
			return "vehicle", "pickup"
		case strings.Contains(name, "van") || strings.Contains(name, "transporter"):
			return "vehicle", "cargo van"
		}
		return "vehicle", "box truck"
	case "lift":
		return "door", "lift car"
	case "door":
		if strings.Contains(name, "front") || strings.Contains(name, "entr") || strings.Contains(name, "haus") {
			return "door", "front door"
		}
		return "door", "room door"
	case "corner":
		return "door", "hall"
	}
	return "door", s.Kind
}
