package yield

// AreaBound is the most parts of one size that the area of one sheet could give, each part
// with its share of the kerf. No plan gives more.
//
// Error: a sheet without room, a part without size, a part so small that the sheet would give
// more than 100000.
func (s Sheet) AreaBound(p Part) (int, error) {
	takes, err := s.Takes(p)
	if err != nil || !takes {
		return 0, err
	}
	return count(s.field().area(), s.grown(p).area()), nil
}

// StackingBound is the most parts of one size that one sheet could give, and never above
// AreaBound. Any line across the sheet crosses a stack of parts, of which only so many fit
// one behind the other: i that lie one way and j that lie the other. How long each such stack
// can run along the sheet bounds how many parts lie each way. Both directions of the line are
// held against the same two counts. Proven for plans of any kind, also those that a panel saw
// cannot cut; the true most may be less.
//
// Error: as AreaBound.
//
// Source: one-dimensional bar relaxation of two-dimensional packing (G. Scheithauer,
// Int. Trans. Oper. Res. 6 (1999) 553, from memory), with counts kept whole.
func (s Sheet) StackingBound(p Part) (int, error) {
	most, err := s.AreaBound(p)
	if err != nil || most == 0 {
		return 0, err
	}
	room, part := s.field(), s.grown(p)
	if !p.Turns {
		return count(room.length, part.length) * count(room.width, part.width), nil
	}
	across := stacks(room.width, part.width, part.length)
	along := stacks(room.length, part.length, part.width)
	for ; most > 0; most-- {
		for turned := range most + 1 {
			straight := most - turned
			// A straight part takes its length of a line that moves along the sheet, and so on.
			if run(across, float64(straight)*part.length, float64(turned)*part.width) <= room.length*(1+dust) &&
				run(along, float64(straight)*part.width, float64(turned)*part.length) <= room.width*(1+dust) {
				return most, nil
			}
		}
	}
	return 0, nil
}

// stack is how many straight and how many turned parts one line crosses.
type stack struct {
	straight, turned float64
}

// stacks are all stacks that fit a line and to which no part can be added.
func stacks(line, straight, turned float64) (all []stack) {
	least := -1 // turned parts beside more straight ones
	for i := count(line, straight); i >= 0; i-- {
		rest := max(0, line*(1+dust)-float64(i)*straight)
		if j := count(rest, turned); j > least {
			all = append(all, stack{float64(i), float64(j)})
			least = j
		}
	}
	return all
}

// run is the least length over which stacks must run so that they pass the given lengths of
// straight and of turned parts. It is reached with one or two kinds of stack.
func run(all []stack, straight, turned float64) float64 {
	least := infinite
	for i, a := range all {
		least = min(least, max(over(straight, a.straight), over(turned, a.turned)))
		for _, b := range all[:i] {
			det := a.straight*b.turned - a.turned*b.straight
			if det == 0 {
				continue
			}
			x := (straight*b.turned - turned*b.straight) / det
			y := (a.straight*turned - a.turned*straight) / det
			if x >= 0 && y >= 0 {
				least = min(least, x+y)
			}
		}
	}
	return least
}

const infinite = 1e300

// over is a/b, where nothing wanted takes no length and something wanted of nothing never ends.
func over(a, b float64) float64 {
	switch {
	case a == 0:
		return 0
	case b == 0:
		return infinite
	}
	return a / b
}
