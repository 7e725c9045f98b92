// Package fit asks whether the parts go together after lamination, banding, sanding and
// finish.
//
// A passage (passage.go) is one thing that goes into one slot, with the films on both and the
// tolerance of each; most checks of the room rest on it. A box (box.go) is the inside of a
// case, for what stands or swings in it.
package fit

import (
	"fmt"
	"math"

	"dryfit/check"
	"dryfit/check/standard"
)

// mates finds the parts that a joint names: by mark, by role, or by description.
func mates(j *check.Job, name string) []*check.Part {
	if p := j.Part(name); p != nil {
		return []*check.Part{p}
	}
	return j.Called(name)
}

// beside keeps the parts of the same case as p, where a name means parts of several.
func beside(p *check.Part, all []*check.Part) []*check.Part {
	var out []*check.Part
	for _, q := range all {
		if p != nil && q.Case.Text == p.Case.Text && q.Room.Text == p.Room.Text {
			out = append(out, q)
		}
	}
	if len(out) == 0 {
		return all
	}
	return out
}

func firstPart(ps []*check.Part) *check.Part {
	if len(ps) == 0 {
		return nil
	}
	return ps[0]
}

func marks(parts ...*check.Part) []string {
	var out []string
	for _, p := range parts {
		if p != nil {
			out = append(out, p.Name())
		}
	}
	return out
}

// pieces is how many of a part there are, at least one.
func pieces(p *check.Part) float64 { return math.Max(1, p.Qty.Nominal) }

// ask names the cell to fill when a size is missing.
func ask(v check.Value, p *check.Part, field string) check.Value {
	if !v.Known {
		v.Ask.What = "the " + field + " of " + p.Name()
		if v.Ask.Cell == (check.Cell{}) {
			v.Ask.Cell = p.Row
		}
	}
	return v
}

// cells are the cells of some values that were typed, the first the best to mend.
func cells(fallback check.Cell, vs ...check.Value) []check.Cell {
	var out []check.Cell
	for _, v := range vs {
		if v.From != (check.Cell{}) {
			out = append(out, v.From)
		}
	}
	if len(out) == 0 {
		out = []check.Cell{fallback}
	}
	return out
}

// settled is a figure that the shop works by: its nominal, without a range.
func settled(v check.Value) check.Value {
	if !v.Known {
		return v
	}
	s := check.Exact(v.Nominal)
	s.Why = v.Why
	return s
}

// upTo is a limit that the shop would like to keep: its nominal, and at the kindest its high
// end.
func upTo(v check.Value) check.Value {
	v.Low = v.Nominal
	return v
}

// downTo is a least that the shop would like: its nominal, and at the kindest its low end.
func downTo(v check.Value) check.Value {
	v.High = v.Nominal
	return v
}

// because gives a value its reason.
func because(v check.Value, why string) check.Value {
	v.Why = why
	return v
}

// thickness is how much thicker than typed a part really is: the tolerance of what was
// typed, so that at its nominal the part is as typed. A thickness that is typed as no sheet
// is sold was measured; so was that of a part made of layers, where it is not what they add up
// to by name. Else the layers take the error of one as many times, because they come off one
// pallet.
func thickness(j *check.Job, p *check.Part) check.Value {
	if d, ok := stack(j, p); ok {
		return d
	}
	m, known, _ := j.Material(p.Material.Text)
	switch {
	case known && len(m.Sold) > 0 && !m.Solid():
		if t, ok := soldAs(j, m, p.Thickness.Nominal); ok {
			d := sheetError(j, t, 1)
			v := d.because(fmt.Sprintf("%s %s, never calipered", t.Name, m.Name))
			v.Guessed = math.Abs(d.nominal) > j.Named(t)/400 // sold under a name that is not its size
			return v
		}
		return caliper(j)
	case known:
		u := j.Standard("spread", "part cut to size", "CNC, 2 sigma", check.Film).Nominal
		return spread{-u, 0, u}.because("planed to thickness: " + m.Name)
	}
	u := j.PerInch() * 3 / 64
	return spread{-u, 0, 0}.because("sheet of unknown kind, as far under its name as hardwood plywood may be")
}

func caliper(j *check.Job) check.Value {
	u := j.Standard("spread", "caliper", "reading", check.Film).Nominal
	return check.Between(-u, 0, u)
}

// spread is a range while it is added up.
type spread struct{ low, nominal, high float64 }

func (s spread) plus(v check.Value, k float64) spread {
	if k < 0 {
		return spread{s.low + k*v.High, s.nominal + k*v.Nominal, s.high + k*v.Low}
	}
	return spread{s.low + k*v.Low, s.nominal + k*v.Nominal, s.high + k*v.High}
}

func (s spread) because(why string) check.Value {
	return because(check.Between(s.low, s.nominal, s.high), why)
}

// sheetError is actual less named thickness of n sheets of one pallet.
func sheetError(j *check.Job, t standard.Thickness, n float64) spread {
	a := j.Entry(t.Actual, check.Film)
	named := j.Named(t)
	return spread{n * (a.Low - named), n * (a.Nominal - named), n * (a.High - named)}
}

// stack is the error of a part made of layers: each layer's own, the glue lines, less what
// sanding takes off both faces.
func stack(j *check.Job, p *check.Part) (check.Value, bool) {
	var total spread
	n, named, name := 0.0, 0.0, ""
	for _, l := range p.Layers {
		if l.Strip || !l.Count.Known {
			continue
		}
		if !l.Thickness.Known && len(p.Layers) == 1 {
			l.Thickness = p.Thickness.Scale(1 / l.Count.Nominal) // "3 lyr MDF": equal layers
		}
		if !l.Thickness.Known {
			continue
		}
		text := l.Material
		if text == "" {
			text = p.Material.Text
		}
		m, _, _ := j.Material(text)
		if t, ok := soldAs(j, m, l.Thickness.Nominal); ok {
			e := sheetError(j, t, l.Count.Nominal)
			total = spread{total.low + e.low, total.nominal + e.nominal, total.high + e.high}
		}
		n += l.Count.Nominal
		named += l.Count.Nominal * l.Thickness.Nominal
		name = j.Len(l.Thickness.Nominal) + " " + text
	}
	if n < 2 {
		return check.Value{}, false
	}
	if off := math.Abs(p.Thickness.Nominal - named); off > named/400 && off < named/n/2 {
		return caliper(j), true // more than half a layer off is a wrong count, schedule.layers says
	}
	total = total.plus(j.Standard("build", "glue line", "thickness", check.Film), n-1)
	total = total.plus(j.Standard("build", "sanding", "removed per face", check.Film), -2)
	return total.because(fmt.Sprintf("stack of %g x %s, never calipered", n, name)), true
}

// soldAs finds the sheet that a nominal thickness names.
func soldAs(j *check.Job, m standard.Material, t float64) (standard.Thickness, bool) {
	for _, s := range m.Sold {
		if math.Abs(j.Named(s)-t) <= t/400 {
			return s, true
		}
	}
	return standard.Thickness{}, false
}

// finish is what the finish of a part puts on one face. Unsaid or unknown, it may be
// anything from nothing to paint.
func finish(j *check.Job, p *check.Part) (standard.Finish, check.Value) {
	f, ok, _ := j.Finish(p.Finish.Text)
	if ok && p.Finish.Text != "" {
		return f, j.Entry(f.Film, check.Film).At(check.Cell{})
	}
	paint, _, _ := j.Finish("paint")
	v := j.Entry(paint.Film, check.Film)
	return paint, check.Guess(0, 0, v.High, "finish of "+p.Name()+" unsaid: from bare to painted")
}

// thousandths prints what a caliper shows.
func thousandths(j *check.Job, x float64) string { return check.Film.Print(x, j.Unit) }
