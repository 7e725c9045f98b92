package fit

import (
	"math"
	"slices"
	"strings"

	"dryfit/check"
)

// grip is how far a part may stand in each of the two it runs between: a typed depth, nothing
// where it butts, or what is usual where nobody said.
type grip struct {
	in   []float64 // each end, in the unit of the job
	said bool
}

// gripIn is how a part stands in the sides. Unsaid, it may butt, stand in dadoes of a third,
// half or two thirds of the side, or lie over it.
func (b box) gripIn(p, side *check.Part) grip {
	for _, jt := range b.job.Joints {
		if !slices.Contains(mates(b.job, jt.Enters.Text), p) || !slices.Contains(mates(b.job, jt.Into.Text), side) {
			continue
		}
		switch {
		case jt.Kind == check.Butt:
			return grip{[]float64{0}, true}
		case jt.DepthIn.Known:
			return grip{[]float64{jt.DepthIn.Nominal}, true}
		}
	}
	t := side.Thickness.Nominal
	if saysBetween([]*check.Part{p}) && !saysHoused(p) {
		return grip{[]float64{0}, true}
	}
	return grip{[]float64{0, t / 3, b.job.PerInch() / 4, t / 2, 2 * t / 3, t}, false}
}

func saysHoused(p *check.Part) bool {
	words := strings.ToLower(p.Note.Text + " " + p.Description.Text)
	for _, w := range []string{"dado", "rabbet", "groove", "housed", "nut", "rainur", "ranur", "spår", "groef", "lap", "notch"} {
		if strings.Contains(words, w) {
			return true
		}
	}
	return false
}

// between is the length a part ought to have: that of another that runs the same way, less
// what the one stands in the sides and with what the other does. Where several are plausible,
// it is the nearest.
func (b box) between(p *check.Part) (ought float64, sure bool) {
	from, to := b.gripIn(b.deck, b.side), b.gripIn(p, b.side)
	ought = math.Inf(1)
	for _, x := range from.in {
		for _, y := range to.in {
			if l := b.deck.Length.Nominal - 2*x + 2*y; math.Abs(l-p.Length.Nominal) < math.Abs(ought-p.Length.Nominal) {
				ought = l
			}
		}
	}
	butts := math.Abs(p.Length.Nominal-b.deck.Length.Nominal+2*from.in[0]) < 1e-6 // whatever the joint says
	return ought, from.said && to.said && (!butts || to.in[0] == 0)
}

// fixedRows are the parts that run from side to side and are fixed there, and the dividers
// that run from bottom to top.
func (b box) fixedRows() []check.Row {
	var out []check.Row
	for _, p := range b.Role(check.Shelf, check.Deck, check.Head, check.Sill) {
		if p == b.deck || !p.Length.Known || b.lapped(p) || p.Role == check.Shelf && b.bays() > 1 {
			continue
		}
		ought, sure := b.between(p)
		off := math.Abs(ought - p.Length.Nominal)
		if off > .25*ought || !sure && off > b.near() {
			continue // a shelf of another bay, or a top that overhangs
		}
		if r, ok := b.fixedRow(p, ought, sure, "long"); ok {
			out = append(out, r)
		}
	}
	for _, p := range b.Role(check.Divider) {
		most, sure, ok := b.standing(p)
		if !ok {
			continue
		}
		if r, ok := b.fixedRow(p, most, sure, "high"); ok {
			out = append(out, r)
		}
	}
	return out
}

// lapped reports whether a part is one of a lapped grid, which only stands in the case.
func (b box) lapped(p *check.Part) bool {
	if p.Role != check.Shelf {
		return false
	}
	for _, jt := range b.job.Joints {
		if laps(jt.Kind) && (slices.Contains(mates(b.job, jt.Enters.Text), p) || slices.Contains(mates(b.job, jt.Into.Text), p)) {
			return true
		}
	}
	return len(b.Role(check.Upright)) > 0
}

// standing is the height a divider may have at most where top and bottom stand between the
// sides: it butts, stands in dadoes, or runs through. It may be lower as it likes.
func (b box) standing(p *check.Part) (most float64, sure, ok bool) {
	side := longest(b.Role(check.Side), long)
	if side == nil || !p.Length.Known || !b.deck.Thickness.Known || !saysBetween(b.Role(check.Deck, check.Head, check.Sill)) || len(b.Role(check.Base)) > 0 {
		return 0, false, false
	}
	g := b.gripIn(p, b.deck)
	most = side.Length.Nominal - 2*b.deck.Thickness.Nominal + 2*slices.Max(g.in)
	return most, g.said, p.Length.Nominal > most && p.Length.Nominal < 1.25*most
}

// fixedRow holds a part against the length it ought to have. What is only called a shelf may
// be a loose one, and as much shorter.
func (b box) fixedRow(p *check.Part, ought float64, sure bool, what string) (check.Row, bool) {
	k := b.job.PerInch()
	if p.Role == check.Shelf && p.Length.Nominal < ought && !b.fixed(p) {
		return check.Row{}, false
	}
	r := b.row(p, "fixed", p.Length)
	if !sure {
		r.Most = check.Verify
	}
	r.Words["what"], r.Words["opening"], r.Words["exact"] = what, b.Label(), "yes"
	r.Under = Lap.ID // a depth mistyped in the joint speaks first
	if what == "long" && p.Role != check.Shelf {
		r.Under = "opening.width" // so does a run that does not go in
	}
	why := "length of " + b.deck.Name() + ", with what each stands in the sides"
	if what == "high" {
		why = "the sides less top and bottom, with what it stands in them"
	}
	r.In = map[string]check.Value{"I": because(check.Exact(ought), why), "P": p.Length, "N": check.Exact(1),
		"g": check.Exact(0), "f": check.Exact(0),
		"a": check.Guess(-k/16, -k/32, -k/32, "a part between two may be pressed in"),
		"b": check.Guess(k/32, k/32, k/8, "a part between two may leave a hair")}
	return r, true
}

// fixed reports whether words or a joint say that a shelf is fixed.
func (b box) fixed(p *check.Part) bool {
	if b.gripIn(p, b.side).said {
		return true
	}
	words := strings.ToLower(p.Description.Text + " " + p.Note.Text)
	for _, w := range []string{"fixed", "fest", "fixe", "fijo", "fisso", "fast", "vast", "screw", "versch"} {
		if strings.Contains(words, w) {
			return true
		}
	}
	return false
}
