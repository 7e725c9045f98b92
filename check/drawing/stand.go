package drawing

import (
	"fmt"
	"math"
	"slices"

	"dryfit/check"
	"dryfit/check/opening"
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
	left    []*check.Part // parts nobody said the place of
	added   bool          // the width is a sum that no schedule and no joint bears out
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

// leave notes a part that is not drawn.
func (s *standing) leave(p *check.Part) {
	if !slices.Contains(s.left, p) {
		s.left = append(s.left, p)
	}
}

func isUpright(p *check.Part) bool { return slices.Contains(upright, p.Role) }
