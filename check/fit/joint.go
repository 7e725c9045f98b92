package fit

import (
	"fmt"
	"strings"

	"dryfit/check"
	"dryfit/check/chance"
)

// Joint asks whether a finished part goes into its finished slot. Both faces of the part and
// both cheeks of the slot are coated, four films in all; two where the cheeks are masked,
// three in a rabbet. A notched lap is asked twice: the shelf between the shoulders, and the
// neck of the upright in the slot of the shelf, each with its own films and tolerance. What
// differs from joint to joint is the spread u behind the share that binds.
var Joint = &check.Check{
	ID:      "fit.joint",
	Asks:    "Will the finished part go into its finished slot, and not rattle?",
	Costs:   "finished parts sanded on site, or a joint that shows daylight",
	Applies: "every joint in which a part goes into a slot, notch, dado, groove or rabbet whose width is typed or asked for",
	Inputs: inputsAnd(
		check.Input{Symbol: "a", Name: "least clearance wanted", Unit: check.Film},
		check.Input{Symbol: "b", Name: "most clearance wanted", Unit: check.Film},
		check.Input{Symbol: "u", Name: "spread from joint to joint (of three joints, two are within it)", Unit: check.Film},
		check.Input{Symbol: "P", Name: "share that may bind", Unit: check.Ratio},
		check.Input{Symbol: "ed", Name: "half range of the thickness", Unit: check.Film},
		check.Input{Symbol: "ef", Name: "half range of the film", Unit: check.Film},
	),
	Steps: stepsAnd(
		check.Step{Symbol: "w", Name: "clearance, everything at its worst together", Formula: "c-ed-(g+k)*ef-2*u", Unit: check.Film, Aside: true},
		check.Step{Symbol: "r", Name: "clearance, the tight end to be expected (root-sum-square)", Formula: "c-SQRT(ed^2+((g+k)*ef)^2+(2*u)^2)", Unit: check.Film, Aside: true},
		check.Step{Symbol: "z", Name: "spreads that the clearance is away from binding, 8 at most", Formula: "MIN(ABS(c)/u,8)", Unit: check.Ratio},
		check.Step{Symbol: "v", Name: "helps the next line", Formula: chance.LiveT, Unit: check.Ratio},
		check.Step{Symbol: "Q", Name: "share that lies further off than z spreads", Formula: liveTail, Unit: check.Ratio},
		check.Step{Symbol: "p", Name: "share of such joints that bind", Formula: "IF(c>=0,Q,1-Q)", Unit: check.Share},
		check.Step{Symbol: "m", Name: "margin", Formula: "MIN(c-a,b-c,(P-p)*(b-a))", Unit: check.Film},
	),
	Mends:  []check.Mend{{Symbol: "s", Order: "cut the slot {}"}},
	NoMend: "no slot width is both loose and tight enough: caliper the part, or mask the slot cheeks",
	Source: []check.Source{
		clearanceSource,
		{Title: "normal tail: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.17", How: "memory"},
	},
	Limits:  "Does not see a slot that is not square to the face, or drips and sanding-through at an edge.",
	Until:   check.Released,
	Value:   "c",
	Against: []string{"a", "b"},
	Spread:  "u",
	Fails:   "a 1 1/2 part, painted, in a slot cut 1 1/2",
	Mended:  "the slot cut 1 17/32, and the stack calipered",
	Rows:    jointRows,
	Says:    jointSays,
	Way:     jointWay,
}

// liveTail is the share of a normal spread beyond z sigmas in a form that a spreadsheet can
// follow, with v for the engine's own t, which is a thickness here.
var liveTail = strings.ReplaceAll(chance.LiveTail, "t", "v")

func jointSays(r *check.Result) string {
	part := r.Row.Words["part"]
	c := r.Values["c"]
	switch {
	case c < 0:
		return fmt.Sprintf("%s is %s too thick for the slot after finish", part, r.PrintSize("c"))
	case r.Values["m"] >= 0:
		return fmt.Sprintf("%s may bind or rattle: %s", part, unmeasured(r))
	case c < r.Values["a"]:
		return fmt.Sprintf("%s goes in with only %s to spare after finish", part, r.Print("c"))
	case c > r.Values["b"]:
		return fmt.Sprintf("%s is loose by %s in the slot after finish", part, r.Print("c"))
	}
	return fmt.Sprintf("%s on %s", bind(r.Values["p"]), part)
}

// unmeasured says on what a joint rests that nobody measured.
func unmeasured(r *check.Result) string {
	switch r.Decides {
	case "d":
		return "never calipered"
	case "f":
		return "its film was never measured"
	case "k", "g":
		return "nobody knows what film the cuts catch"
	}
	return "rests on the " + r.Check.Named(r.Decides)
}

// jointWay says which thickness would settle a joint that hangs on it; and where no slot
// width clears one that fails, what else would.
func jointWay(r *check.Result) string {
	if r.Verdict == check.Hold && r.Fix == nil {
		return instead(r)
	}
	return calipered(r)
}

// instead tries what a shop can do beside cutting the slot: leave the paint off the cheeks,
// spray one coat less, caliper the stack; each alone, then with another slot.
func instead(r *check.Result) string {
	for _, try := range []struct {
		words, symbol string
		to            check.Value
	}{
		{"mask the slot cheeks", "k", check.Exact(0)},
		{"spray one coat less", "f", r.Row.In["f"].Scale(2. / 3)},
		{"caliper " + r.Row.Words["bare"], "d", check.Exact(r.Row.In["d"].Nominal)},
	} {
		row := r.Row
		row.In = map[string]check.Value{}
		for s, v := range r.Row.In {
			row.In[s] = v
		}
		row.In[try.symbol] = try.to
		changed := r.Check.Judge(r.Job, row)
		changed.Solve()
		switch {
		case changed.Verdict == check.Clear:
			return "no slot width alone does: " + try.words
		case changed.Fix != nil && changed.Fix.Measure == "":
			return "no slot width alone does: " + try.words + ", and " + changed.Fix.Text
		}
	}
	return ""
}

// calipered says which thickness would settle a joint that hangs on it.
func calipered(r *check.Result) string {
	t := r.Turns
	if t == nil || t.Symbol != "d" || !t.Alone {
		return ""
	}
	side := "at most"
	if t.Least {
		side = "at least"
	}
	return fmt.Sprintf("caliper %s: holds if it is %s %s thick; taken as %s", r.Row.Words["bare"], side,
		thousandths(r.Job, r.Values["t"]+t.At), thousandths(r.Job, r.Values["t"]+r.Values["d"]))
}

func jointRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, p := range passages(j) {
		r := p.row()
		d, f := r.In["d"], r.In["f"]
		r.In["a"], r.In["b"] = p.window()
		r.In["u"] = p.sigma()
		r.In["P"] = settled(j.Standard("limit", "single joint", "share that binds", check.Ratio))
		r.In["ed"], r.In["ef"] = check.Exact((d.High-d.Low)/2), check.Exact((f.High-f.Low)/2)
		out = append(out, r)
	}
	return out
}
