package drawing

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/opening"
	"dryfit/check/structure"
)

// piece is one piece of a part where it stands in its case.
type piece struct {
	part    *check.Part
	box     Box
	role    Role
	guessed bool
}

// standing is a case with its pieces where they stand: x from its left edge, y from the floor.
type standing struct {
	job     *check.Job
	box     check.Case
	out     opening.Outline
	copies  int // like cases under one heading, of which one is drawn
	width   float64
	height  float64
	inner   Box // between the sides, top and bottom
	pieces  []piece
	guesses []string
	left    []string // parts nobody said the place of
	added   bool     // the width is a sum that no schedule and no joint bears out
}

// mostPieces is how many pieces a picture may have.
const mostPieces = 160

// stand finds where the parts of a case stand, false where they make no picture: nothing
// upright or nothing across, several unlike cases under one heading, or sizes that no room holds.
func stand(j *check.Job, box check.Case) (*standing, bool) {
	if !sizesWithin(box.Parts, mostLength*j.PerInch()) {
		return nil, false
	}
	s := &standing{job: j, box: box, out: opening.OutlineOf(j, box), copies: copies(box)}
	if unlike(box) || len(sized(box, upright...)) == 0 || len(sized(box, across...)) == 0 || s.count(box.Parts) > mostPieces {
		return nil, false
	}
	s.size()
	if !(s.width > 0 && s.height > 0) {
		return nil, false
	}
	s.frame()
	s.uprights()
	s.shelves()
	s.covers()
	if s.copies > 1 {
		s.guess(fmt.Sprintf("One of %d alike.", s.copies))
	}
	return s, true
}

var (
	upright  = []check.Role{check.Side, check.Upright, check.Divider}
	between  = []check.Role{check.Deck, check.Head, check.Sill, check.Shelf, check.Adjustable}
	across   = append([]check.Role{check.Seat}, between...)
	deckLike = []check.Role{check.Deck, check.Head, check.Sill}
)

// sized are the parts of some roles whose length and thickness are known.
func sized(box check.Case, roles ...check.Role) []*check.Part {
	var out []*check.Part
	for _, p := range box.Role(roles...) {
		if p.Length.Known && p.Length.Nominal > 0 && p.Thickness.Known && p.Thickness.Nominal > 0 {
			out = append(out, p)
		}
	}
	return out
}

func pieces(p *check.Part) int {
	if !p.Qty.Known || p.Qty.Nominal < 1 {
		return 1
	}
	return int(math.Min(p.Qty.Nominal, 1e6))
}

// copies is how many like cases stand under one heading: two sides each, and of top and bottom
// as many in each.
func copies(box check.Case) int {
	n := 0
	for _, p := range box.Role(check.Side) {
		n += pieces(p)
	}
	if n < 4 || n%2 != 0 {
		return 1
	}
	n /= 2
	for _, p := range box.Role(check.Side, check.Deck, check.Head, check.Sill) {
		if pieces(p)%n != 0 {
			return 1
		}
	}
	return n
}

// unlike reports whether a heading holds cases of unlike width or height.
func unlike(box check.Case) bool {
	for _, ps := range [][]*check.Part{sized(box, deckLike...), sized(box, check.Side)} {
		least, most := math.Inf(1), 0.0
		for _, p := range ps {
			least, most = math.Min(least, p.Length.Nominal), math.Max(most, p.Length.Nominal)
		}
		if most > 0 && least < .9*most {
			return true
		}
	}
	return false
}

// each is how many pieces of a part stand in the case that is drawn.
func (s *standing) each(p *check.Part) int { return (pieces(p) + s.copies - 1) / s.copies }

func (s *standing) count(ps []*check.Part) (n int) {
	for _, p := range ps {
		n += s.each(p)
	}
	return n
}

func (s *standing) guess(note string) {
	if !slices.Contains(s.guesses, note) {
		s.guesses = append(s.guesses, note)
	}
}

func (s *standing) put(p *check.Part, b Box, role Role, guessed bool) {
	s.pieces = append(s.pieces, piece{p, b, role, guessed})
}

func longest(ps []*check.Part) float64 {
	most := 0.0
	for _, p := range ps {
		most = math.Max(most, p.Length.Nominal)
	}
	return most
}

func thickest(ps []*check.Part) float64 {
	most := 0.0
	for _, p := range ps {
		most = math.Max(most, p.Thickness.Nominal)
	}
	return most
}

// size takes the outline of the room of openings; parts without sides are as wide as the
// longest across and as high as the longest upright.
func (s *standing) size() {
	s.width, s.height = s.out.Width.Nominal, s.out.Height.Nominal
	if !s.out.Width.Known {
		sides := sized(s.box, check.Side)
		s.width = longest(sized(s.box, check.Seat)) // a seat lies over the sides
		if inside := longest(sized(s.box, between...)); inside > 0 {
			s.width = math.Max(s.width, inside+float64(min(2, s.count(sides)))*thickest(sides))
		}
		s.added = len(sides) > 0
	}
	if !s.out.Height.Known {
		s.height = longest(sized(s.box, upright...))
	}
	if s.out.Width.Known && s.out.Width.Guessed {
		s.guess("Top and bottom drawn between the sides: nobody said.")
	}
}

// frame puts the sides, top and bottom, the base and a seat, and finds the inside.
func (s *standing) frame() {
	s.inner = Box{0, s.out.Raised, s.width, s.height}
	s.seat()
	s.decks()
	s.sides()
	s.base()
}

// seat lies over the sides.
func (s *standing) seat() {
	for _, p := range sized(s.box, check.Seat) {
		x, guessed := s.acrossAt(p)
		y := s.inner.Top - p.Thickness.Nominal
		if p.Y.Known {
			y = p.Y.Nominal
		}
		s.put(p, Box{x, y, x + p.Length.Nominal, y + p.Thickness.Nominal}, Part, guessed)
		s.inner.Top = math.Min(s.inner.Top, y)
	}
}

// acrossAt is where a part that runs across begins: as typed, else in the middle of the case.
func (s *standing) acrossAt(p *check.Part) (x float64, guessed bool) {
	if p.X.Known && s.each(p) == 1 {
		return p.X.Nominal, false
	}
	return (s.width - p.Length.Nominal) / 2, false
}

// decks puts the bottom, then the top; what is narrower than half of the sides is a rail at the
// top.
func (s *standing) decks() {
	bottom, top := s.inner.Bottom+s.kick(), s.inner.Top
	topFree, bottomFree := true, true
	for _, p := range slices.Concat(sized(s.box, check.Sill), sized(s.box, check.Deck), sized(s.box, check.Head)) {
		t := p.Thickness.Nominal
		x, _ := s.acrossAt(p)
		for range s.each(p) {
			y := top - t
			switch {
			case p.Y.Known && s.each(p) == 1:
				y = p.Y.Nominal
			case p.Role != check.Head && bottomFree && !s.rail(p):
				y, bottomFree = bottom, false
				s.inner.Bottom = bottom + t
			case topFree:
				topFree = false
				s.inner.Top = top - t
			}
			s.put(p, Box{x, y, x + p.Length.Nominal, y + t}, Part, false)
		}
	}
}

// kick is how high a board in front of the sides lifts the bottom: as high as it is, unless the
// uprights are too long to stand on such a bottom.
func (s *standing) kick() float64 {
	high := 0.0
	for _, p := range s.box.Role(check.Base) {
		if p.Width.Known && s.out.Raised == 0 {
			high = math.Max(high, p.Width.Nominal)
		}
	}
	room := s.inner.Top - s.inner.Bottom - high
	bottoms := sized(s.box, check.Sill, check.Deck)
	if high == 0 || high > (s.inner.Top-s.inner.Bottom)/3 || len(bottoms) == 0 || longest(sized(s.box, check.Upright, check.Divider)) > room {
		return 0
	}
	s.guess("Bottom drawn on top of the kick.")
	return high
}

func (s *standing) rail(p *check.Part) bool {
	for _, side := range s.box.Role(check.Side) {
		if p.Width.Known && p.Width.Nominal < side.Width.Nominal/2 {
			return true
		}
	}
	return false
}

// sides stand at both ends, the first on the left; a third one stands between them.
func (s *standing) sides() {
	foot := s.out.Raised
	if s.out.Over {
		foot = s.inner.Bottom
	}
	n := 0
	for _, p := range sized(s.box, check.Side) {
		t := p.Thickness.Nominal
		for range s.each(p) {
			x := 0.0
			switch {
			case n == 1 || n == 0 && p.Hand == "R":
				x = s.width - t
			case n > 1:
				s.between(p, 1)
				continue
			}
			n++
			s.put(p, Box{x, foot, x + t, foot + p.Length.Nominal}, Part, false)
			if x == 0 {
				s.inner.Left = t
			} else {
				s.inner.Right = s.width - t
			}
		}
	}
}

// base is under the case where it raises it, else in front of it as a kick.
func (s *standing) base() {
	for _, p := range s.box.Role(check.Base) {
		if !p.Length.Known || !p.Width.Known || p.Length.Nominal > 1.1*s.width {
			s.leave(p)
			continue
		}
		x := (s.width - p.Length.Nominal) / 2
		b := Box{x, 0, x + p.Length.Nominal, p.Width.Nominal}
		if s.out.Raised > 0 {
			s.put(p, b, Part, false)
		} else {
			s.put(p, b, Cover, false)
		}
	}
}

func (s *standing) leave(p *check.Part) {
	name := short(p)
	if p.Mark.Text != "" && p.Role != check.Unknown {
		name += " (" + p.Role.Word() + ")"
	}
	if !slices.Contains(s.left, name) {
		s.left = append(s.left, name)
	}
}

// uprights stand at the places typed for them or for their joints, else in equal bays.
func (s *standing) uprights() {
	for _, p := range sized(s.box, check.Upright, check.Divider) {
		n := s.each(p)
		if p.X.Known && n == 1 {
			s.uprightAt(p, p.X.Nominal, false)
			continue
		}
		at := s.crossed(p)
		for _, x := range at[:min(n, len(at))] {
			s.uprightAt(p, x, false)
		}
		s.between(p, n-min(n, len(at)))
	}
}

// crossed are the left edges of an upright by the joints of what it crosses.
func (s *standing) crossed(u *check.Part) []float64 {
	var out []float64
	for _, p := range sized(s.box, across...) {
		left, _ := s.acrossAt(p)
		for _, m := range structure.Meetings(s.job, p) {
			if m.Typed && slices.Contains(m.Others, u) {
				out = append(out, left+m.At-u.Thickness.Nominal/2)
			}
		}
		if len(out) > 0 {
			break
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// between marks n pieces to be spread over the inside in equal bays, with all others of which
// nobody typed a place.
func (s *standing) between(p *check.Part, n int) {
	for range n {
		s.uprightAt(p, math.NaN(), true)
	}
}

func (s *standing) uprightAt(p *check.Part, x float64, guessed bool) {
	foot := s.inner.Bottom
	high := p.Length.Nominal
	switch {
	case p.Y.Known:
		foot = p.Y.Nominal
	case high > s.inner.Top-s.inner.Bottom+s.job.PerInch()/2:
		foot = s.out.Raised
	}
	s.put(p, Box{x, foot, x + p.Thickness.Nominal, foot + high}, Part, guessed)
}

// spread gives the uprights without a place equal bays between the others.
func (s *standing) spread() {
	var free []int
	var taken []Box
	for i, q := range s.pieces {
		switch {
		case math.IsNaN(q.box.Left):
			free = append(free, i)
		case q.role == Part && isUpright(q.part) && q.part.Role != check.Side:
			taken = append(taken, q.box)
		}
	}
	if len(free) == 0 {
		return
	}
	t := s.pieces[free[0]].box.Right // NaN; the thickness is the part's
	t = s.pieces[free[0]].part.Thickness.Nominal
	places := fill(s.inner.Left, s.inner.Right, horizontal(taken), t, len(free))
	for k, i := range free {
		b := &s.pieces[i].box
		b.Left, b.Right = places[k], places[k]+s.pieces[i].part.Thickness.Nominal
	}
	s.guess("Bays not typed: drawn equal.")
}

func isUpright(p *check.Part) bool { return slices.Contains(upright, p.Role) }

// stretch is a part of a line.
type stretch struct{ from, to float64 }

func horizontal(bs []Box) []stretch {
	var out []stretch
	for _, b := range bs {
		out = append(out, stretch{b.Left, b.Right})
	}
	return out
}

// fill puts n things of a thickness between two ends, so that what stays clear between them and
// what is taken already is as even as may be. It returns where each begins, in rising order.
func fill(from, to float64, taken []stretch, thick float64, n int) []float64 {
	slices.SortFunc(taken, func(a, b stretch) int {
		if a.from < b.from {
			return -1
		}
		return 1
	})
	var gaps []stretch
	at := from
	for _, t := range taken {
		if t.to <= from || t.from >= to {
			continue
		}
		gaps = append(gaps, stretch{at, math.Max(at, t.from)})
		at = math.Max(at, t.to)
	}
	gaps = append(gaps, stretch{at, math.Max(at, to)})
	in := make([]int, len(gaps))
	for range n {
		best, most := 0, math.Inf(-1)
		for i, g := range gaps {
			if clear := (g.to - g.from - float64(in[i])*thick) / float64(in[i]+1); clear > most+1e-9 {
				best, most = i, clear
			}
		}
		in[best]++
	}
	var out []float64
	for i, g := range gaps {
		clear := (g.to - g.from - float64(in[i])*thick) / float64(in[i]+1)
		for k := range in[i] {
			out = append(out, g.from+clear*float64(k+1)+thick*float64(k))
		}
	}
	return out
}

// shelves puts the shelves: those through the whole case first, then those of single bays.
func (s *standing) shelves() {
	s.spread()
	cleared := s.bays()
	var inBay []*check.Part
	for _, p := range sized(s.box, check.Shelf, check.Adjustable) {
		if len(cleared) > 1 && p.Length.Nominal < .5*(widest(cleared)+s.inner.Right-s.inner.Left) && !p.X.Known {
			inBay = append(inBay, p)
			continue
		}
		s.full(p)
	}
	s.stack(s.inner.Left, s.inner.Right)
	for _, p := range inBay {
		s.bayed(p, cleared)
	}
	for _, b := range cleared {
		s.stack(b.from, b.to)
	}
}

func widest(bays []stretch) float64 {
	most := 0.0
	for _, b := range bays {
		most = math.Max(most, b.to-b.from)
	}
	return most
}

// bays are what stays clear beside uprights that are at least half as high as the inside.
func (s *standing) bays() []stretch {
	var taken []stretch
	for _, q := range s.pieces {
		if isUpright(q.part) && q.box.Left > s.inner.Left && q.box.Right < s.inner.Right && 2*(q.box.Top-q.box.Bottom) > s.inner.Top-s.inner.Bottom {
			taken = append(taken, stretch{q.box.Left, q.box.Right})
		}
	}
	slices.SortFunc(taken, func(a, b stretch) int {
		if a.from < b.from {
			return -1
		}
		return 1
	})
	var out []stretch
	at := s.inner.Left
	for _, t := range taken {
		if t.from > at {
			out = append(out, stretch{at, t.from})
		}
		at = math.Max(at, t.to)
	}
	if s.inner.Right > at {
		out = append(out, stretch{at, s.inner.Right})
	}
	return out
}

// full puts the pieces of a shelf that runs through the case.
func (s *standing) full(p *check.Part) {
	x, _ := s.acrossAt(p)
	heights := s.heights(p)
	for i := range s.each(p) {
		if i < len(heights) {
			s.put(p, Box{x, heights[i], x + p.Length.Nominal, heights[i] + p.Thickness.Nominal}, Part, false)
			continue
		}
		s.put(p, Box{x, math.NaN(), x + p.Length.Nominal, math.NaN()}, Part, true)
	}
}

// heights are the undersides of the pieces of a shelf: as typed in its row, else by the joints
// of an upright or side that it goes into. Two rows that share a joint share its places.
func (s *standing) heights(p *check.Part) []float64 {
	if p.Y.Known && s.each(p) == 1 {
		return []float64{p.Y.Nominal}
	}
	for _, q := range s.pieces {
		if !isUpright(q.part) {
			continue
		}
		var out []float64
		for _, m := range structure.Meetings(s.job, q.part) {
			if m.Typed && slices.Contains(m.Others, p) {
				out = append(out, q.box.Bottom+m.At-p.Thickness.Nominal/2)
			}
		}
		if len(out) > 0 {
			return s.free(p, out)
		}
	}
	return nil
}

// free leaves out the heights where another shelf stands already.
func (s *standing) free(p *check.Part, heights []float64) []float64 {
	var out []float64
	for _, y := range heights {
		if !slices.ContainsFunc(s.pieces, func(q piece) bool {
			return q.part != p && !isUpright(q.part) && q.role == Part && math.Abs(q.box.Bottom-y) < s.job.PerInch()/8
		}) {
			out = append(out, y)
		}
	}
	slices.Sort(out)
	return out
}

// bayed puts the pieces of a shelf into the bays whose width is nearest to its length, as many
// in each.
func (s *standing) bayed(p *check.Part, bays []stretch) {
	near := math.Inf(1)
	for _, b := range bays {
		near = math.Min(near, math.Abs(b.to-b.from-p.Length.Nominal))
	}
	var fits []stretch
	for _, b := range bays {
		if math.Abs(b.to-b.from-p.Length.Nominal) <= near+s.job.PerInch()/2 {
			fits = append(fits, b)
		}
	}
	n := s.each(p)
	fits = fits[:min(n, len(fits))]
	heights := s.heights(p)
	for i := range n {
		b := fits[i%len(fits)]
		x := (b.from + b.to - p.Length.Nominal) / 2
		if k := i / len(fits); k < len(heights) {
			s.put(p, Box{x, heights[k], x + p.Length.Nominal, heights[k] + p.Thickness.Nominal}, Part, false)
			continue
		}
		s.put(p, Box{x, math.NaN(), x + p.Length.Nominal, math.NaN()}, Part, true)
	}
}

// stack gives the shelves without a height in one column even spaces.
func (s *standing) stack(from, to float64) {
	var free []int
	var taken []stretch
	thick := 0.0
	for i, q := range s.pieces {
		lies := !isUpright(q.part) && q.role == Part && s.lies(q, stretch{from, to})
		switch {
		case lies && math.IsNaN(q.box.Bottom):
			free = append(free, i)
			thick = math.Max(thick, q.part.Thickness.Nominal)
		case lies:
			taken = append(taken, stretch{q.box.Bottom, q.box.Top})
		}
	}
	if len(free) == 0 {
		return
	}
	for k, y := range fill(s.inner.Bottom, s.inner.Top, taken, thick, len(free)) {
		b := &s.pieces[free[k]].box
		b.Bottom, b.Top = y, y+s.pieces[free[k]].part.Thickness.Nominal
	}
	s.guess("Heights of shelves not typed: drawn equal.")
}

// lies reports whether a piece lies in a bay, over a quarter of it at least.
func (s *standing) lies(q piece, bay stretch) bool {
	return math.Min(q.box.Right, bay.to)-math.Max(q.box.Left, bay.from) > (bay.to-bay.from)/4
}

// covers puts what stands behind and in front, and names what nobody said the place of.
func (s *standing) covers() {
	for _, p := range s.box.Parts {
		switch p.Role {
		case check.Back:
			s.back(p)
		case check.Door:
			s.doors(p)
		case check.Front:
			s.front(p)
		case check.Side, check.Upright, check.Divider, check.Deck, check.Head, check.Sill, check.Shelf, check.Adjustable, check.Seat:
			if !p.Length.Known || !p.Thickness.Known || p.Length.Nominal <= 0 || p.Thickness.Nominal <= 0 {
				s.leave(p)
			}
		case check.Base:
		default:
			s.leave(p)
		}
	}
	if len(s.left) > 0 {
		const most = 4
		text := strings.Join(s.left[:min(most, len(s.left))], ", ")
		if n := len(s.left) - most; n > 0 {
			text += fmt.Sprintf(" and %d more", n)
		}
		s.guess("Not drawn: " + text + ".")
	}
}

// back stands behind, as wide as comes nearest to the case.
func (s *standing) back(p *check.Part) {
	n := float64(s.each(p))
	w, h := p.Length.Nominal, p.Width.Nominal
	if math.Abs(n*w-s.width)+math.Abs(h-s.height) > math.Abs(n*h-s.width)+math.Abs(w-s.height) {
		w, h = h, w
	}
	if !p.Length.Known || !p.Width.Known || n*w > 1.1*s.width || h > 1.1*s.height {
		s.leave(p)
		return
	}
	x, y := (s.width-n*w)/2, s.out.Raised+(s.height-s.out.Raised-h)/2
	for range int(n) {
		s.put(p, Box{x, y, x + w, y + h}, Behind, false)
		x += w
	}
}

// doors stand side by side in front, and over one another where they must.
func (s *standing) doors(p *check.Part) {
	w, h := p.Width.Nominal, p.Length.Nominal
	if !p.Length.Known || !p.Width.Known || w <= 0 || h <= 0 || w > 1.05*s.width || h > 1.05*s.height {
		s.leave(p)
		return
	}
	n := s.each(p)
	row := min(n, max(1, int(math.Floor(1.02*s.width/w))))
	rows := (n + row - 1) / row
	if float64(rows)*h > 1.05*s.height {
		s.leave(p)
		return
	}
	bottom := s.out.Raised
	if float64(rows)*h <= s.inner.Top-s.inner.Bottom {
		bottom = s.inner.Bottom + (s.inner.Top-s.inner.Bottom-float64(rows)*h)/2
	} else {
		bottom += (s.height - s.out.Raised - float64(rows)*h) / 2
	}
	for i := range n {
		in := min(row, n-i/row*row)
		x := (s.width-float64(in)*w)/2 + float64(i%row)*w
		y := bottom + float64(i/row)*h
		s.put(p, Box{x, y, x + w, y + h}, Cover, true)
	}
	s.guess("Doors drawn in front, in the middle.")
}

// front is a panel between floor and seat.
func (s *standing) front(p *check.Part) {
	if !p.Length.Known || !p.Width.Known || s.each(p) != 1 || p.Length.Nominal > 1.1*s.width || p.Width.Nominal > 1.05*s.height ||
		p.Length.Nominal < .5*s.width {
		s.leave(p)
		return
	}
	x := (s.width - p.Length.Nominal) / 2
	s.put(p, Box{x, s.out.Raised, x + p.Length.Nominal, s.out.Raised + p.Width.Nominal}, Cover, true)
}
