package fit

import (
	"math"
	"strings"

	"dryfit/check"
)

// box is a case with sides, and the inside that its top and bottom give.
type box struct {
	check.Case
	job   *check.Job
	side  *check.Part
	deck  *check.Part // of top and bottom, the one the other parts speak for
	inner check.Value // inside width
}

// boxes are the cases whose inside width can be told: top and bottom stand between the sides,
// or lie over them, when the inside is narrower by both.
func boxes(j *check.Job) []box {
	var out []box
	for _, c := range j.Cases() {
		b := box{Case: c, job: j, side: longest(c.Role(check.Side), thick), deck: usualDeck(c)}
		if b.side == nil || b.deck == nil || many(c) {
			continue
		}
		b.inner = b.inside()
		out = append(out, b)
	}
	return out
}

// many reports whether a heading holds several boxes of unlike width, of which nobody can
// tell which shelf stands where.
func many(c check.Case) bool {
	if single(c) {
		return false
	}
	least, most := math.Inf(1), 0.0
	for _, p := range c.Role(check.Deck, check.Head, check.Sill) {
		if p.Length.Known {
			least, most = math.Min(least, p.Length.Nominal), math.Max(most, p.Length.Nominal)
		}
	}
	return most > 0 && least < .98*most
}

// single reports whether a case has the parts of one box, or of some that are alike: one row of
// tops and one of bottoms, as many of each, and two sides to each.
func single(c check.Case) bool {
	tops, bottoms := c.Role(check.Head), c.Role(check.Sill)
	if len(tops) != 1 || len(bottoms) != 1 || len(c.Role(check.Deck)) > 0 {
		return false
	}
	sides := 0.0
	for _, p := range c.Role(check.Side) {
		sides += pieces(p)
	}
	n := pieces(tops[0])
	return n == pieces(bottoms[0]) && sides == 2*n && saysBetween(tops) && saysBetween(bottoms)
}

// usualDeck is the one of top and bottom that most of the other parts between the sides speak
// for: fixed ones of its length, loose ones a little shorter, a plinth, a back over the sides. It is the longest where they are
// of two minds.
func usualDeck(c check.Case) *check.Part {
	decks := c.Role(check.Deck, check.Head, check.Sill)
	best, most := longest(decks, long), 0
	if best == nil {
		return nil
	}
	for _, p := range append([]*check.Part{best}, decks...) {
		n := 0
		for _, q := range c.Role(check.Deck, check.Head, check.Sill, check.Shelf, check.Adjustable) {
			if short := p.Length.Nominal - q.Length.Nominal; q != p && q.Length.Known && short > -1e-6 && short < p.Length.Nominal/50 {
				n++
			}
		}
		for _, q := range c.Role(check.Base, check.Back) {
			if spokenFor(c, p, q) {
				n++
			}
		}
		if p.Length.Known && n > most {
			best, most = p, n
		}
	}
	return best
}

// spokenFor reports whether a plinth is as long as a deck, or a back as wide as the case with it.
func spokenFor(c check.Case, deck, q *check.Part) bool {
	side := longest(c.Role(check.Side), thick)
	if side == nil {
		return false
	}
	all := deck.Length.Nominal + 2*side.Thickness.Nominal
	for _, v := range []check.Value{q.Length, q.Width} {
		if v.Known && (math.Abs(v.Nominal-deck.Length.Nominal) < 1e-6 || math.Abs(v.Nominal-all) < all/200) {
			return true
		}
	}
	return false
}

func (b box) inside() check.Value {
	d, t := b.deck.Length, b.side.Thickness
	between := check.Exact(d.Nominal).At(d.From)
	between.Plain = d.Plain
	if saysBetween(b.Role(check.Deck, check.Head, check.Sill)) {
		return between
	}
	over := d.Nominal - 2*t.Nominal
	if b.standsBetween(over) {
		return because(check.Exact(over), "top and bottom lie over the sides")
	}
	return check.Guess(over, d.Nominal, d.Nominal, "top and bottom between the sides or over them, nobody said")
}

// standsBetween reports whether fixed shelves of the case are as long as the inside would be
// if top and bottom lay over the sides.
func (b box) standsBetween(over float64) bool {
	for _, p := range b.Role(check.Shelf) {
		if math.Abs(p.Length.Nominal-over) < b.job.PerInch()/8 {
			return true
		}
	}
	return false
}

// bay is the clear width beside the dividers and uprights of a case, if they share it
// equally.
func (b box) bay() check.Value {
	n, t := 0.0, 0.0
	for _, p := range b.Role(check.Divider, check.Upright) {
		n += pieces(p)
		t += pieces(p) * p.Thickness.Nominal
	}
	if n == 0 {
		return b.inner
	}
	share := func(x float64) float64 { return (x - t) / (n + 1) }
	return check.Guess(share(b.inner.Low), share(b.inner.Nominal), share(b.inner.High), "equal bays between the dividers")
}

// perBay is how many of a part stand in one bay of one case, if that comes out even.
func (b box) bays() float64 {
	n := 1.0
	for _, p := range b.Role(check.Divider, check.Upright) {
		n += pieces(p)
	}
	return n
}

func saysBetween(ps []*check.Part) bool {
	for _, p := range ps {
		words := strings.ToLower(p.Note.Text + " " + p.Description.Text)
		for _, w := range []string{"btw", "between", "zwischen", "entre", "tra i fianchi", "tussen", "mellan"} {
			if strings.Contains(words, w) {
				return true
			}
		}
	}
	return false
}

func thick(p *check.Part) check.Value { return p.Thickness }
func long(p *check.Part) check.Value  { return p.Length }

func longest(ps []*check.Part, of func(*check.Part) check.Value) *check.Part {
	var most *check.Part
	for _, p := range ps {
		if of(p).Known && (most == nil || of(p).Nominal > of(most).Nominal) {
			most = p
		}
	}
	return most
}
