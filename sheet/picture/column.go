package picture

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryfit/check/drawing"
)

func (p *panel) waiting() []int {
	var out []int
	for i, l := range p.labels {
		if l.aside || !l.placed {
			out = append(out, i)
		}
	}
	return out
}

// asides puts the labels that found no place into the column, in the order of their parts from
// the top, with leaders. What finds no room there either is left out, the failing ones last, and
// of those the last label says how many they are.
func (p *panel) asides(column float64) {
	kept := p.keptAside()
	for _, i := range kept {
		p.labels[i].foot = p.tip(p.labels[i].shape)
	}
	slices.SortStableFunc(kept, func(a, b int) int { return cmp.Compare(p.labels[a].foot.y, p.labels[b].foot.y) })
	x := p.body.right - column + 14*dots
	y := p.body.top
	for k, i := range kept {
		l := &p.labels[i]
		y = math.Max(y, l.foot.y-l.high/2)
		below := 0.0
		for _, next := range kept[k:] {
			below += p.labels[next].high + asideGap
		}
		y = math.Min(y, p.body.bottom-below+asideGap)
		l.at, l.placed, l.aside = frame{x, y, x + l.wide, y + l.high}, true, true
		y += l.high + asideGap
	}
}

// asideGap is what stays free between two labels of the column.
const asideGap = 3 * dots

// asideHigh is how high the column would be.
func (p *panel) asideHigh() float64 {
	sum := 0.0
	for _, i := range p.waiting() {
		sum += p.labels[i].high + asideGap
	}
	return sum
}

// keptAside are the labels that the column has room for.
func (p *panel) keptAside() []int {
	waiting := p.waiting()
	slices.SortStableFunc(waiting, func(a, b int) int {
		return cmp.Compare(p.labels[b].shape.Verdict, p.labels[a].shape.Verdict)
	})
	var kept []int
	room := p.body.height() + asideGap
	for _, i := range waiting {
		if room -= p.labels[i].high + asideGap; room < 0 {
			break
		}
		kept = append(kept, i)
	}
	out := 0
	for _, i := range waiting[len(kept):] {
		if p.labels[i].tagged {
			out++
		}
	}
	if out > 0 && len(kept) > 0 {
		l := &p.labels[kept[len(kept)-1]]
		l.lines = []string{fmt.Sprintf("and %d more", out+1), p.look.Manner(l.shape.Verdict).Word}[:len(l.lines)]
		if len(l.lines) == 1 {
			l.lines[0] += "  " + p.look.Manner(l.shape.Verdict).Word
		}
		p.size(l)
	}
	return kept
}

// tip is where a leader meets its part: of all its pieces, where the way to the column crosses
// the fewest texts, and of those the furthest to the right.
func (p *panel) tip(s drawing.Shape) spot {
	var best spot
	least := math.Inf(1)
	for i := 0; i+1 < len(s.At); i += 2 {
		f := p.view.frame(s.At[i], s.At[i+1])
		tips := []spot{{f.right - math.Min(6*dots, f.width()/4), f.middle().y}}
		if f.width() < f.height() {
			tips = nil
			for _, share := range []float64{.5, .3, .7, .15, .85} {
				tips = append(tips, spot{f.middle().x, f.top + f.height()*share})
			}
		}
		for _, t := range tips {
			cost := 1000*float64(p.crossed(t)) + p.body.right - t.x
			if cost < least-1e-6 {
				best, least = t, cost
			}
		}
	}
	return best
}

// crossed counts the texts between a spot and the column.
func (p *panel) crossed(from spot) int {
	way := frame{from.x, from.y - 2*dots, p.body.right, from.y + 2*dots}
	n := 0
	for _, l := range p.labels {
		if l.placed && !l.aside && l.at.meets(way) {
			n++
		}
	}
	for _, m := range p.dimensionTexts() {
		if m.space.meets(way) {
			n++
		}
	}
	return n
}

// leader is the line from a label in the column to its part.
func (p *panel) leader(c *canvas, l label) {
	if l.placed && l.aside {
		c.line(l.foot, spot{l.at.left - 2*dots, l.at.middle().y}, .5*dots, nil, p.look.Faint)
		c.fill(frame{l.foot.x, l.foot.y, l.foot.x, l.foot.y}.grown(1.5*dots).pixels(), p.look.Ink)
	}
}
