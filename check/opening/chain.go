package opening

import (
	"fmt"
	"strings"

	"dryfit/check"
)

// chain is what stands side by side in one direction: its length, written out so that the
// lead can follow it.
type chain struct {
	total check.Value
	text  string
	cells []check.Cell
	marks []string
	depth bool
}

// add puts a part into the chain, n times.
func (c *chain) add(p *check.Part, measure check.Value, n float64, printed string) {
	c.cells = append(c.cells, measure.From)
	c.marks = append(c.marks, p.Name())
	c.plus(measure, n, fmt.Sprintf("%s %s", times(n, p.Name()), printed))
}

func (c *chain) plus(v check.Value, n float64, text string) {
	if c.text == "" {
		c.total = v
		if n != 1 {
			c.total = v.Scale(n)
		}
		c.text = text
		return
	}
	c.text += " + " + text
	if !v.Known {
		c.total = v
	}
	if !c.total.Known {
		return
	}
	sum := check.Between(c.total.Low+n*v.Low, c.total.Nominal+n*v.Nominal, c.total.High+n*v.High)
	sum.Guessed = c.total.Guessed || v.Guessed
	sum.From = c.total.From
	c.total = sum
}

func times(n float64, name string) string {
	if n == 1 {
		return name
	}
	return fmt.Sprintf("%g x %s", n, name)
}

// typedChain is a run that the office typed for a case or an opening.
func typedChain(j *check.Job, r *check.Run) chain {
	var c chain
	for _, it := range r.Items {
		n := 1.0
		if it.Count.Known {
			n = it.Count.Nominal
		}
		if it.Plain.Known {
			c.plus(it.Plain, n, times(n, it.Text)+" "+j.Len(it.Plain.Nominal))
			continue
		}
		p := j.Part(it.Mark)
		if p == nil {
			if called := j.Called(it.Mark); len(called) > 0 {
				p = called[0]
			}
		}
		if p == nil {
			c.plus(check.Missing(check.Ask{Cell: r.Row, What: "a part that bears the mark " + it.Mark}), n, it.Mark)
			continue
		}
		m := along(p, r.Direction)
		c.add(p, m, n, j.Len(m.Nominal))
	}
	c.cells = append(c.cells, r.Row)
	return c
}

// along is the size of a part that counts in a run: a side in a width run counts its
// thickness, a shelf its length.
func along(p *check.Part, direction string) check.Value {
	upright := p.Role == check.Side || p.Role == check.Upright || p.Role == check.Divider
	flat := p.Role == check.Shelf || p.Role == check.Adjustable || p.Role == check.Deck || p.Role == check.Head ||
		p.Role == check.Sill || p.Role == check.Seat
	switch direction {
	case "width":
		if upright {
			return p.Thickness
		}
		if p.Role == check.Filler || p.Role == check.Scribe {
			return p.Width
		}
		return p.Length
	case "height":
		if flat {
			return p.Thickness
		}
		if upright {
			return p.Length
		}
		return p.Width
	}
	if upright || flat {
		return p.Width
	}
	return p.Thickness
}

// inferred is the chain of a case from the roles of its parts.
func inferred(j *check.Job, box check.Case, direction string) (chain, bool) {
	switch direction {
	case "width":
		return inferredWidth(j, box)
	case "height":
		return inferredHeight(j, box)
	}
	return inferredDepth(j, box)
}

// inferredWidth is side, what stands between the sides, side. Decks that are not said to
// stand between the sides may also lie over them: then the case is narrower by both.
func inferredWidth(j *check.Job, box check.Case) (chain, bool) {
	side := widest(box.Role(check.Side), func(p *check.Part) check.Value { return p.Thickness })
	length := func(p *check.Part) check.Value { return p.Length }
	inner := widest(box.Role(check.Deck, check.Head, check.Sill), length)
	between := inner != nil && saysBetween(box.Role(check.Deck, check.Head, check.Sill))
	if inner == nil {
		inner, between = widest(box.Role(check.Shelf, check.Adjustable, check.Divider), length), true
	}
	if side == nil || inner == nil {
		return chain{}, false
	}
	var c chain
	c.add(side, side.Thickness, 1, j.Len(side.Thickness.Nominal))
	c.add(inner, inner.Length, 1, j.Len(inner.Length.Nominal))
	c.add(side, side.Thickness, 1, j.Len(side.Thickness.Nominal))
	if !between && c.total.Known {
		c.total = check.Guess(inner.Length.Low, c.total.Nominal, c.total.High, "top and bottom between the sides or over them, nobody said").At(inner.Length.From)
	}
	return c, true
}

// inferredHeight is the side, and the base under it where the case has one that is not a
// mere kick board in front.
func inferredHeight(j *check.Job, box check.Case) (chain, bool) {
	side := widest(box.Role(check.Side), func(p *check.Part) check.Value { return p.Length })
	if side == nil {
		return chain{}, false
	}
	var c chain
	c.add(side, side.Length, 1, j.Len(side.Length.Nominal))
	if b := underneath(box); b != nil {
		if b.Width.Known {
			c.total.Guessed = true
			c.plus(check.Guess(0, b.Width.Nominal, b.Width.High, "the base stands under the sides or in front of them, nobody said"), 1,
				b.Name()+" "+j.Len(b.Width.Nominal))
			c.total.Why = "the base stands under the sides or in front of them, nobody said"
		}
	}
	return c, true
}

// underneath is a base that raises the case: a ladder or plinth, not a toe kick board.
func underneath(box check.Case) *check.Part {
	for _, p := range box.Role(check.Base) {
		words := strings.ToLower(p.Description.Text + " " + p.Note.Text)
		if !strings.Contains(words, "kick") {
			return p
		}
	}
	return nil
}

func inferredDepth(j *check.Job, box check.Case) (chain, bool) {
	side := widest(box.Role(check.Side), func(p *check.Part) check.Value { return p.Width })
	if side == nil {
		return chain{}, false
	}
	var c chain
	c.depth = true
	c.add(side, side.Width, 1, j.Len(side.Width.Nominal))
	return c, true
}

func widest(ps []*check.Part, of func(*check.Part) check.Value) *check.Part {
	var most *check.Part
	for _, p := range ps {
		if of(p).Known && (most == nil || of(p).Nominal > of(most).Nominal) {
			most = p
		}
	}
	return most
}

func saysBetween(ps []*check.Part) bool {
	for _, p := range ps {
		words := strings.ToLower(p.Note.Text + " " + p.Description.Text)
		if strings.Contains(words, "btw") || strings.Contains(words, "between") || strings.Contains(words, "zwischen") ||
			strings.Contains(words, "entre") {
			return true
		}
	}
	return false
}
