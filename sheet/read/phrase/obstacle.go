package phrase

import (
	"dryfit/check"
	"dryfit/check/length"
)

// upWords say that a number counts from the floor.
var upWords = set(`aff, above floor, above, up, high, uff, uff., offb, uber, u fb, du sol, sol, sobre, suelo, terra, pavimento, podlogi, boven, vloer, over, golv, floor, boden, height, h`)

// ParseObstacle reads "Outlet 14 AFF, 22 from L" and "Reg. floor 4x12, 30 from R". A bare
// number counts from the left, and from the floor where the first one did. ok is false where
// the text names no obstacle.
func ParseObstacle(text string, unit length.Unit) (o check.Obstacle, ok bool) {
	pieces := Cut(text)
	for i := range pieces {
		if means, n := Measure(pieces, i); n > 0 && Obstacles[means] {
			o.Kind = means
			pieces = pieces[i+n:]
			break
		}
	}
	if o.Kind == "" {
		return o, false
	}
	o.Text.Text = text
	for _, part := range clauses(pieces) {
		obstacleClause(&o, part, unit)
	}
	if o.On == "floor" && o.Width.Known && o.Height.Known && o.Width.Nominal < o.Height.Nominal {
		o.Width, o.Height = o.Height, o.Width // a floor register lies along the wall
	}
	return o, true
}

// clauses parts pieces at commas, semicolons, bars and line breaks.
func clauses(pieces []Piece) [][]Piece {
	var all [][]Piece
	var part []Piece
	for _, p := range pieces {
		if p.Is(",") || p.Is(";") || p.Is("|") || p.Is("\n") {
			all, part = append(all, part), nil
			continue
		}
		part = append(part, p)
	}
	return append(all, part)
}

// obstacleClause reads one clause: its numbers, and what its words say they are.
func obstacleClause(o *check.Obstacle, pieces []Piece, unit length.Unit) {
	for i := 0; i < len(pieces); i++ {
		p := pieces[i]
		if p.Kind != Length {
			if side := Place(p.Word); side != "" && (i == 0 || !startsEnd[pieces[i-1].Word]) && len(p.Word) > 2 && o.On == "" && len(lengths(pieces[:i])) == 0 {
				o.On = side
			}
			continue
		}
		v := measured(pieces, i, unit)
		if at(pieces, i+1).Is("x") && at(pieces, i+2).Kind == Length {
			o.Width, o.Height = v, pieces[i+2].bare(unit)
			i += 2
			continue
		}
		obstaclePlace(o, v, wordsNear(pieces, i))
	}
}

// wordsNear gives the words behind a number up to the next, or those before it if none stand
// behind.
func wordsNear(pieces []Piece, i int) []Piece {
	end := i + 1
	for end < len(pieces) && pieces[end].Kind != Length {
		end++
	}
	if end > i+1 {
		return pieces[i+1 : end]
	}
	from := i
	for from > 0 && pieces[from-1].Kind != Length {
		from--
	}
	return pieces[from:i]
}

func obstaclePlace(o *check.Obstacle, v check.Value, near []Piece) {
	for _, p := range near {
		switch side := Place(p.Word); {
		case upWords[p.Word]:
			if !o.Y.Known {
				o.Y = v
			}
			return
		case side == "right":
			o.X, o.FromRight = v, true
			return
		case side == "left":
			o.X = v
			return
		}
	}
	switch {
	case !o.X.Known:
		o.X = v
	case !o.Y.Known:
		o.Y = v
	}
}
