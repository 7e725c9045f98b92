package drawing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/check"
)

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
}

// leftOut says which parts are not drawn, those that fail first and with their word.
func (s *standing) leftOut(words spoken) string {
	slices.SortStableFunc(s.left, func(a, b *check.Part) int { return cmp.Compare(words.parts[b], words.parts[a]) })
	var names []string
	for _, p := range s.left {
		name := short(p)
		if p.Mark.Text != "" && p.Role != check.Unknown {
			name += " (" + string(p.Role) + ")"
		}
		if v := words.parts[p]; v >= check.Verify {
			name += ", " + v.String()
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	const most = 4
	text := "Not drawn: " + strings.Join(names[:min(most, len(names))], "; ")
	if n := len(names) - most; n > 0 {
		text += fmt.Sprintf(" and %d more", n)
	}
	return text + "."
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
