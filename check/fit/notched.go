package fit

import (
	"math"

	"dryfit/check"
)

// notched is one notched lap, put together from all rows that speak of it: the upright is cut
// at both sides and at the front so that a neck is left, the shelf is slotted round that neck
// and rests on the shoulders under it. Each of its sizes may stand in another row.
type notched struct {
	job            *check.Job
	upright, shelf *check.Part

	height check.Value  // of the notch along the upright: the shelf goes in
	slot   check.Value  // width of the slot in the shelf: the neck goes in
	high   *check.Joint // the row that gives the height
	wide   *check.Joint // the row that gives the slot
	side   check.Value  // notch at each side of the upright
	front  check.Value  // notch at the front of the upright
	depth  check.Value  // of the slot in the shelf, from its back
}

// notchedLaps are the notched laps of a job, one for each pair of an upright and a shelf.
func notchedLaps(j *check.Job) []*notched {
	var out []*notched
	for _, jt := range j.Joints {
		if jt.Kind != check.NotchedLap {
			continue
		}
		for _, in := range entering(j, jt) {
			into := firstPart(beside(in, mates(j, jt.Into.Text)))
			if into == nil {
				continue
			}
			n := lapOf(j, &out, into, in, jt)
			n.take(jt, n.upright == into)
		}
	}
	return out
}

// lapOf finds the lap of two parts among those begun, or begins it.
func lapOf(j *check.Job, laps *[]*notched, into, in *check.Part, jt *check.Joint) *notched {
	upright, shelf := into, in
	if stands(in) && !stands(into) {
		upright, shelf = in, into
	}
	for _, n := range *laps {
		if n.upright == upright && n.shelf == shelf {
			return n
		}
	}
	n := &notched{job: j, upright: upright, shelf: shelf, high: jt, wide: jt}
	*laps = append(*laps, n)
	return n
}

func stands(p *check.Part) bool {
	return p.Role == check.Upright || p.Role == check.Divider || p.Role == check.Side
}

// take keeps what a row says. One width is the notch or the slot, whichever is near what
// goes in; the depths go by which part the row calls slotted.
func (n *notched) take(jt *check.Joint, uprightSlotted bool) {
	keep(&n.side, jt.Side)
	keep(&n.front, jt.Front)
	inUpright, inShelf := jt.DepthIn, jt.DepthOf
	if !uprightSlotted {
		inUpright, inShelf = inShelf, inUpright
	}
	keep(&n.front, inUpright)
	keep(&n.depth, inShelf)
	to, row := &n.slot, &n.wide
	if n.isHeight(jt.Width, uprightSlotted) {
		to, row = &n.height, &n.high
	}
	if keep(to, width(jt)) {
		*row = jt
	}
}

// keep takes a value that is not known yet, or at least the question for it.
func keep(to *check.Value, v check.Value) bool {
	if to.Known || !v.Known && to.Ask != (check.Ask{}) {
		return false
	}
	*to = v
	return true
}

func (n *notched) isHeight(w check.Value, uprightSlotted bool) bool {
	if !w.Known || !n.side.Known || !n.upright.Thickness.Known || !n.shelf.Thickness.Known {
		return uprightSlotted
	}
	offShelf := math.Abs(w.Nominal - n.shelf.Thickness.Nominal)
	offNeck := math.Abs(w.Nominal - n.neck())
	if offShelf == offNeck {
		return uprightSlotted
	}
	return offShelf < offNeck
}

// neck is what the side notches leave of the upright's thickness, as typed.
func (n *notched) neck() float64 { return n.upright.Thickness.Nominal - 2*n.side.Nominal }

// passages are the shelf that goes between the shoulders and the neck that goes into the
// slot of the shelf. Where nobody typed a width of one of them, it is not asked.
func (n *notched) passages() []passage {
	var out []passage
	if n.height.Known || n.height.Ask.Cell != (check.Cell{}) {
		out = append(out, passage{job: n.job, joint: n.high, part: n.shelf, into: n.upright, slot: n.height,
			notch: check.Exact(0), name: cutName("Notch", n.high, n.upright), cause: n.high.Mark.Text + "shoulders"})
	}
	if n.slot.Known || n.slot.Ask.Cell != (check.Cell{}) {
		out = append(out, passage{job: n.job, joint: n.wide, part: n.upright, into: n.shelf, slot: n.slot,
			notch: n.sideOrAsk(), name: cutName("Slot", n.wide, n.shelf), cause: n.wide.Mark.Text + "neck"})
	}
	return out
}

func cutName(what string, jt *check.Joint, p *check.Part) string {
	if jt.Mark.Text != "" {
		return what + " " + jt.Mark.Text
	}
	return what + " in " + p.Name()
}

func (n *notched) sideOrAsk() check.Value {
	v := n.side
	if !v.Known {
		v.Ask.What = "the depth of the notch at each side of " + n.upright.Name()
		if v.Ask.Cell == (check.Cell{}) {
			v.Ask.Cell = n.wide.Row
		}
	}
	return v
}
