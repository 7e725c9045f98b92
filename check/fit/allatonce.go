package fit

import (
	"fmt"
	"math"

	"dryfit/check"
	"dryfit/check/chance"
)

// AllAtOnce asks whether one long part goes onto all its slots at once. Each joint may have
// clearance by itself and the row still bind, because the places of the slots are off each
// its own way; the part slides as far as the tightest two let it. The clearance wanted comes
// from an integral over the place of the slot that stops the part; it rests on the number of
// slots and the spread alone, so that the margin stays live. The two bounds beside it are
// closed forms of the widest pair.
var AllAtOnce = &check.Check{
	ID:      "fit.all-at-once",
	Asks:    "Will the long part go onto all its slots at once?",
	Costs:   "a grid that is driven together with a mallet, or comes apart again on site",
	Applies: "every part with two slots or more that go on together, whose slot width is typed",
	Inputs: inputsAnd(
		check.Input{Symbol: "N", Name: "slots that go on at once", Unit: check.Count},
		check.Input{Symbol: "u", Name: "spread of one place (of three places, two are within it)", Unit: check.Film},
		check.Input{Symbol: "j", Name: "spreads between the widest pair, squared", Unit: check.Count},
		check.Input{Symbol: "W", Name: "clearance at which the shop's share binds", Unit: check.Film, Measure: "measure how far slots are off their places"},
		check.Input{Symbol: "i", Name: "share that binds, by integration", Unit: check.Share},
	),
	Steps: stepsAnd(
		check.Step{Symbol: "z", Name: "sigmas of the widest pair to binding", Formula: "MIN(MAX(c,0)/(u*SQRT(j)),8)", Unit: check.Ratio},
		check.Step{Symbol: "v", Name: "helps the next line", Formula: chance.LiveT, Unit: check.Ratio},
		check.Step{Symbol: "Q", Name: "share that lies further off than z spreads", Formula: liveTail, Unit: check.Ratio},
		check.Step{Symbol: "x", Name: "share that binds, at least (bound)", Formula: "2*Q", Unit: check.Ratio, Aside: true},
		check.Step{Symbol: "X", Name: "share that binds, at most (bound)", Formula: "MIN(1,N*(N-1)*Q)", Unit: check.Ratio, Aside: true},
		check.Step{Symbol: "p", Name: "share of such parts that bind", Formula: "i", Unit: check.Share, Aside: true},
		check.Step{Symbol: "m", Name: "margin", Formula: "c-W", Unit: check.Film},
	),
	Mends:  []check.Mend{{Symbol: "s", Order: "cut the slots {}", Up: true}},
	NoMend: "cut all slots of a part in one setting from one end, or cut them wider and hide the gap",
	Source: []check.Source{
		clearanceSource,
		{Title: "range of n normal places: H. O. Hartley, Biometrika 32 (1942) 334", How: "memory"},
		{Title: "normal tail: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.17", How: "memory"},
	},
	Limits:  "Takes the part as stiff and free to slide. Slots of one part count as independent unless their clear bays were stepped off one from the next.",
	Until:   check.Released,
	Under:   "fit.joint",
	Value:   "c",
	Against: []string{"W"},
	Fails:   "6 slots, each with .012 to spare, places off by .006",
	Mended:  "the slots cut 1/64 wider",
	Rows:    allAtOnceRows,
	Says:    allAtOnceSays,
}

func allAtOnceSays(r *check.Result) string {
	return fmt.Sprintf("%s on %s slots at once: %s to spare, %s wanted", bind(r.Values["i"]), r.Print("N"), r.Print("c"), r.Print("W"))
}

// bind says how many bind, as people say it; the spread behind it is assumed.
func bind(share float64) string {
	switch {
	case share > .6:
		return "nearly every one binds"
	case share > .28:
		return fmt.Sprintf("%.0f in 10 bind", 10*share)
	case share > 1e-4:
		return fmt.Sprintf("1 in %.0f binds", 1/share)
	}
	return "hardly one binds"
}

func allAtOnceRows(j *check.Job) []check.Row {
	limit := settled(j.Standard("limit", "long part", "share that binds", check.Ratio))
	if !limit.Known {
		return nil
	}
	on := onto{place: j.Standard("spread", "slot pitch", "CNC, 1 sigma", check.Film), limit: limit.Nominal, wanted: map[rowKind]float64{}}
	var out []check.Row
	for _, p := range passages(j) {
		n := p.slots()
		if n < 2 || !p.slot.Known || p.joint.Kind == check.Groove || p.joint.Kind == check.Rabbet {
			continue
		}
		if r, ok := on.row(p, rowKind{n, p.joint.Bays != nil}); ok {
			out = append(out, r)
		}
	}
	return out
}

// slots is how many slots one piece of the slotted part has: its positions, else the
// crossings shared out.
func (p passage) slots() int {
	switch {
	case p.into == nil:
		return 0
	case len(p.joint.At) > 0 && p.joint.Into.Text == p.into.Mark.Text:
		return len(p.joint.At)
	case p.joint.Count.Known:
		return int(math.Round(p.joint.Count.Nominal / pieces(p.into)))
	}
	return 0
}

// onto works rows of slots out; what a kind of row wants is worked out once a job.
type onto struct {
	place  check.Value // spread of one place, one sigma
	limit  float64     // share that may bind
	wanted map[rowKind]float64
}

// rowKind is what the clearance wanted rests on.
type rowKind struct {
	slots int
	chain bool // stepped off slot to slot
}

// sigma is the spread between a slot and what goes in: both are off their places.
func (on onto) sigma() float64 { return math.Sqrt2 * on.place.Nominal }

func (on onto) want(k rowKind) (float64, error) {
	if w, ok := on.wanted[k]; ok {
		return w, nil
	}
	row := chance.Equal(k.slots, 0, on.sigma())
	row.Chain = k.chain
	w, err := row.Widen(on.limit)
	on.wanted[k] = w
	return w, err
}

// share is how many of such parts bind with a clearance.
func (on onto) share(k rowKind, c float64) (float64, error) {
	if c <= 0 {
		return 1, nil
	}
	row := chance.Equal(k.slots, c, on.sigma())
	row.Chain = k.chain
	return row.Bind()
}

func (on onto) row(p passage, k rowKind) (check.Row, bool) {
	c, ok := p.nominal()
	wanted, err := on.want(k)
	share, err2 := on.share(k, c)
	if !ok || err != nil || err2 != nil {
		return check.Row{}, false
	}
	r := p.row()
	r.Name, r.Count, r.Cause = p.into.Name(), int(pieces(p.into)), p.cause+" at once"
	r.In["N"] = check.Exact(float64(k.slots))
	r.In["u"] = because(check.Exact(on.sigma()), "slot and what goes in, each: "+on.place.Why)
	r.In["j"] = check.Exact(2)
	if k.chain {
		r.In["j"] = because(check.Exact(float64(k.slots-1)), "clear bays, stepped off slot to slot")
	}
	how := "integral over the slot that stops the part, standard error 1e-9"
	r.In["W"] = check.Guess(wanted*on.place.Low/on.place.Nominal, wanted, wanted, fmt.Sprintf("%s; may bind: %g", how, on.limit))
	r.In["i"] = because(check.Exact(share), how)
	return r, true
}
