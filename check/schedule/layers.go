package schedule

import (
	"fmt"
	"math"

	"dryfit/check"
	"dryfit/check/standard"
)

// Layers asks whether the layers of a built-up part make the thickness that the row states.
// It counts layers by their names; what a layer really measures feeds the fits instead.
var Layers = &check.Check{
	ID:      "schedule.layers",
	Asks:    "Do the layers and strips make the stated thickness and width, and is the build-up balanced?",
	Costs:   "a part glued one layer short, a shelf that cups, a strip that ends up too narrow",
	Applies: "every part made of layers, of a core with strips, or of a board whose name says its thickness",
	Inputs: []check.Input{
		{Symbol: "S", Name: "layers added up by name", Unit: check.Length},
		{Symbol: "T", Name: "size as stated", Unit: check.Length},
		{Symbol: "h", Name: "allowed before a layer is wrong", Unit: check.Length},
	},
	Steps: []check.Step{
		{Symbol: "o", Name: "off by", Formula: "ABS(S-T)", Unit: check.Length},
		{Symbol: "m", Name: "within the allowance", Formula: "h-o", Unit: check.Length},
	},
	NoMend:  "count the layers again, or mend the stated size",
	Source:  []check.Source{{Title: "a build-up is named by the sum of its nominal layers", How: "common practice"}},
	Limits:  "Does not know actual thicknesses: those decide the fits.",
	Until:   check.Released,
	Root:    true,
	Value:   "S",
	Against: []string{"T"},
	Fails:   "stated 2 1/4, built of 2 layers of 3/4",
	Mended:  "3 layers of 3/4",
	Rows:    layerRows,
	Says:    func(r *check.Result) string { return r.Row.Words["says"] },
}

func layerRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, p := range j.Pieces() {
		out = append(out, stackRows(j, p)...)
		out = append(out, boardRow(j, p)...)
		out = append(out, stripRow(j, p)...)
	}
	return out
}

// stackRows compares the sum of the layers with the thickness, and looks whether the two
// halves mirror one another.
func stackRows(j *check.Job, p *check.Part) []check.Row {
	layers := through(p)
	if len(layers) == 0 || !p.Thickness.Known {
		return nil
	}
	sum, thinnest, n := 0.0, math.Inf(1), 0.0
	for _, l := range layers {
		if !l.Thickness.Known || !l.Count.Known {
			return nil
		}
		sum += l.Count.Nominal * l.Thickness.Nominal
		n += l.Count.Nominal
		thinnest = math.Min(thinnest, l.Thickness.Nominal)
	}
	if n < 2 {
		return nil
	}
	r := row(p, "sum", p.Thickness.From, layers[0].From)
	r.In["S"] = check.Exact(sum)
	r.In["T"] = check.Exact(p.Thickness.Nominal).At(p.Thickness.From)
	r.In["T"] = plain(r.In["T"], p.Thickness)
	r.In["h"] = check.Exact(thinnest / 2)
	r.Words["says"] = fmt.Sprintf("%g layers make %s, stated %s", n, j.Len(sum), j.Len(p.Thickness.Nominal))
	out := []check.Row{r}
	if b, ok := balance(j, p, layers); ok {
		out = append(out, b)
	}
	return out
}

// through are the layers through the thickness, strips left out.
func through(p *check.Part) []check.Layer {
	var out []check.Layer
	for _, l := range p.Layers {
		if !l.Strip {
			out = append(out, l)
		}
	}
	return out
}

// balance compares the outermost layers: one face thicker or of another stuff cups.
func balance(j *check.Job, p *check.Part, layers []check.Layer) (check.Row, bool) {
	if len(layers) < 2 {
		return check.Row{}, false
	}
	a, b := layers[0], layers[len(layers)-1]
	if len(layers) == 2 && a.Count.Nominal != b.Count.Nominal {
		return check.Row{}, false // skins and a core: "2 skins, 1 core" stands for skin, core, skin
	}
	off := math.Abs(a.Thickness.Nominal - b.Thickness.Nominal)
	if a.Material != b.Material && off == 0 {
		off = a.Thickness.Nominal
	}
	r := row(p, "balance", a.From)
	r.Most = check.Verify
	r.In["S"], r.In["T"], r.In["h"] = check.Exact(off), check.Exact(0), check.Exact(off/2)
	if off == 0 {
		r.In["h"] = check.Exact(0)
	}
	r.Words["says"] = fmt.Sprintf("outer layers differ (%s %s, %s %s): it will cup",
		j.Len(a.Thickness.Nominal), a.Material, j.Len(b.Thickness.Nominal), b.Material)
	return r, true
}

// boardRow compares the stated thickness with the thickness that the board's name says.
func boardRow(j *check.Job, p *check.Part) []check.Row {
	if len(through(p)) > 0 || !p.Thickness.Known || p.Material.Text == "" {
		return nil
	}
	m, ok, _ := j.Material(p.Material.Text)
	if !ok || len(m.Said) == 0 || m.Layers > 1 || m.Solid() {
		return nil
	}
	named := nearest(j, m.Said, p.Thickness.Nominal)
	r := row(p, "board", p.Thickness.From, p.Material.From)
	r.Most = check.Verify
	r.In["S"] = check.Exact(named)
	r.In["T"] = check.Exact(p.Thickness.Nominal).At(p.Thickness.From)
	r.In["T"] = plain(r.In["T"], p.Thickness)
	r.In["h"] = check.Exact(named * 0.025) // a thickness in the other unit system is not another board: 3/4 in is 19 mm
	r.Words["says"] = fmt.Sprintf("stated %s thick, board is %s", j.Len(p.Thickness.Nominal), p.Material.Text)
	return []check.Row{r}
}

// stripRow compares core and strips across the width with the finished width. Too wide is
// trimmed after glue-up; too narrow is lost.
func stripRow(j *check.Job, p *check.Part) []check.Row {
	if !p.CutWidth.Known || !p.Width.Known {
		return nil
	}
	strips := 0.0
	for _, e := range p.Banded {
		if e.On != "front" && e.On != "back" {
			continue
		}
		if !e.Thickness.Known {
			return nil
		}
		strips += e.Thickness.Nominal
	}
	if strips == 0 {
		return nil // no strip is named: the row leaves it to the bench
	}
	made := p.CutWidth.Nominal + strips
	r := row(p, "width", p.CutWidth.From, p.Width.From)
	r.In["S"] = check.Exact(math.Min(made, p.Width.Nominal))
	r.In["T"] = check.Exact(p.Width.Nominal).At(p.Width.From)
	r.In["T"] = plain(r.In["T"], p.Width)
	r.In["h"] = check.Exact(j.PerInch() / 16) // tape is thinner than its name, and jointed
	r.Words["says"] = fmt.Sprintf("cut %s and strips %s make %s, finished is %s",
		j.Len(p.CutWidth.Nominal), j.Len(strips), j.Len(made), j.Len(p.Width.Nominal))
	return []check.Row{r}
}

// nearest is the thickness by name that is nearest to t.
func nearest(j *check.Job, sold []standard.Thickness, t float64) float64 {
	best := math.Inf(1)
	for _, s := range sold {
		if x := j.Named(s); math.Abs(x-t) < math.Abs(best-t) {
			best = x
		}
	}
	return best
}
