package opening

import (
	"fmt"

	"dryfit/check"
	"dryfit/check/length"
)

// gravity is newtons in a kilogram, m/s2: the standard value, exact by definition. In inches
// densities are in pounds, which weigh themselves.
const gravity = 9.80665

// weighing is what turns the density of a job, lb/in3 or N/mm3, into its weights, lb or kg.
func weighing(j *check.Job) float64 {
	if j.Unit == length.Millimetre {
		return gravity
	}
	return 1
}

// poundsIn is how many of the weights of the job a pound is; exact by definition.
func poundsIn(j *check.Job) float64 {
	if j.Unit == length.Millimetre {
		return 0.45359237
	}
	return 1
}

// density is that of what a part is made of. What nobody knows weighs something between light
// softwood and fibreboard.
func density(j *check.Job, p *check.Part) check.Value {
	text := p.Material.Text
	for _, l := range p.Layers {
		if !l.Strip && l.Material != "" {
			text = l.Material
			break
		}
	}
	if m, ok, _ := j.Material(text); ok {
		if e, found := j.Shop.For(m, "material", "density"); found {
			return j.Entry(e, check.Density)
		}
	}
	light := j.Standard("material", "eastern white pine", "density", check.Density)
	heavy := j.Standard("material", "MDF", "density", check.Density)
	return check.Guess(light.Low, heavy.Nominal, heavy.High, "material of "+p.Name()+" unknown: from softwood to fibreboard")
}

func weighable(p *check.Part) bool {
	return p.Length.Known && p.Width.Known && p.Thickness.Known
}

// weight is the weight of one piece.
func weight(j *check.Job, p *check.Part) check.Value {
	if !weighable(p) {
		return none(p.Name() + " without its sizes")
	}
	d := density(j, p)
	volume := p.Length.Nominal * p.Width.Nominal * p.Thickness.Nominal
	v := check.Value{Low: d.Low, Nominal: d.Nominal, High: d.High, Known: true, Guessed: d.Guessed}
	return v.Scale(volume / weighing(j))
}

// together is the weight of all pieces of a case but those that are put on later, and what
// each part adds to it.
func together(j *check.Job, box check.Case) (sum check.Value, terms []check.Term) {
	sum = check.Exact(0)
	pieces := 0.0
	for _, p := range box.Parts {
		if p.FitOnSite() || p.Role == check.Door || p.Role == check.Adjustable || !p.Qty.Known {
			continue
		}
		w, n := weight(j, p), p.Qty.Nominal
		sum = check.Between(sum.Low+n*w.Low, sum.Nominal+n*w.Nominal, sum.High+n*w.High)
		pieces += n
		if weighable(p) && n > 0 {
			terms = append(terms, check.Term{Symbol: "G", Share: w.Scale(n),
				From: []check.Cell{p.Length.From, p.Width.From, p.Thickness.From, p.Qty.From}})
		}
	}
	sum.Guessed = true
	sum.Why = fmt.Sprintf("%g pieces of %s, doors and loose shelves off", pieces, box.Label())
	return sum, terms
}
