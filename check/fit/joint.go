package fit

import (
	"fmt"
	"math"

	"dryfit/check"
	"dryfit/check/standard"
)

// Joint asks whether a finished part goes into its finished slot. Both faces of the part and
// both cheeks of the slot are coated, four films in all; two where the cheeks are masked.
// What is uncertain for all joints alike (the stack, the film) is a range; what differs from
// joint to joint is the spread u behind the share.
var Joint = &check.Check{
	ID:      "fit.joint",
	Asks:    "Will the finished part go into its finished slot, and not rattle?",
	Costs:   "finished parts sanded on site, or a joint that shows daylight",
	Applies: "every joint in which a part goes into a slot, notch, dado, groove or rabbet",
	Inputs: []check.Input{
		{Symbol: "s", Name: "slot as cut", Unit: check.Length},
		{Symbol: "t", Name: "part as typed", Unit: check.Length},
		{Symbol: "d", Name: "actual thickness less the typed one", Unit: check.Film, Measure: "caliper the part"},
		{Symbol: "f", Name: "film on one face", Unit: check.Film, Measure: "measure the film on a painted sample"},
		{Symbol: "k", Name: "share of that film on a slot cheek", Unit: check.Ratio, Measure: "mask the slot cheeks"},
		{Symbol: "a", Name: "least clearance wanted", Unit: check.Film},
		{Symbol: "b", Name: "most clearance wanted", Unit: check.Film},
		{Symbol: "u", Name: "spread from joint to joint, one sigma", Unit: check.Film},
		{Symbol: "P", Name: "share that may bind", Unit: check.Ratio},
		{Symbol: "ed", Name: "half range of the thickness", Unit: check.Film},
		{Symbol: "ef", Name: "half range of the film", Unit: check.Film},
	},
	Steps: []check.Step{
		{Symbol: "T", Name: "part after finish", Formula: "t+d+2*f", Unit: check.Length},
		{Symbol: "S", Name: "slot after finish", Formula: "s-2*k*f", Unit: check.Length},
		{Symbol: "c", Name: "clearance after finish", Formula: "S-T", Unit: check.Film},
		{Symbol: "w", Name: "clearance, worst case", Formula: "c-ed-2*(1+k)*ef-2*u", Unit: check.Film, Aside: true},
		{Symbol: "r", Name: "clearance, root-sum-square", Formula: "c-SQRT(ed^2+(2*(1+k)*ef)^2+(2*u)^2)", Unit: check.Film, Aside: true},
		{Symbol: "z", Name: "sigmas to binding", Formula: "MIN(ABS(c)/u,8)", Unit: check.Ratio},
		{Symbol: "v", Name: "substitute for the tail", Formula: "1/(1+0.2316419*z)", Unit: check.Ratio},
		{Symbol: "Q", Name: "share beyond z", Formula: tail("v", "z"), Unit: check.Ratio},
		{Symbol: "p", Name: "share of such joints that bind", Formula: "IF(c>=0,Q,1-Q)", Unit: check.Share},
		{Symbol: "m", Name: "margin", Formula: "MIN(c-a,b-c,(P-p)*(b-a))", Unit: check.Film},
	},
	Mends:  []check.Mend{{Symbol: "s", Order: "cut the slot {}"}},
	NoMend: "no slot width is both loose and tight enough: caliper the part, or mask the slot cheeks",
	Source: []check.Source{
		{Title: "clearance: geometry of the joint, two faces and two cheeks", How: "common practice"},
		{Title: "normal tail: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.17", How: "memory"},
	},
	Limits:  "Does not see a bowed part, a slot that is not square to the face, or drips and sanding-through at an edge.",
	Until:   check.Released,
	Value:   "c",
	Against: []string{"a", "b"},
	Fails:   "a 1 1/2 part, painted, in a slot cut 1 1/2",
	Mended:  "the slot cut 1 17/32",
	Rows:    jointRows,
	Says:    jointSays,
	Way:     calipered,
}

// tail is the share of a normal spread beyond z sigmas, in a form a spreadsheet can follow;
// its error is under 7.5e-8.
func tail(t, z string) string {
	return fmt.Sprintf("(%[1]s*(0.319381530+%[1]s*(0-0.356563782+%[1]s*(1.781477937+%[1]s*(0-1.821255978+%[1]s*1.330274429)))))/(2.718281828459045^(%[2]s^2/2)*SQRT(2*PI()))", t, z)
}

func jointSays(r *check.Result) string {
	part := r.Row.Words["part"]
	c := r.Values["c"]
	switch {
	case c < 0:
		return fmt.Sprintf("%s is %s too thick for the slot after finish", part, r.PrintSize("c"))
	case r.Values["m"] >= 0:
		return fmt.Sprintf("%s may bind or rattle: rests on the %s, never measured", part, r.Check.Named(r.Decides))
	case c < r.Values["a"]:
		return fmt.Sprintf("%s goes in with only %s to spare after finish", part, r.Print("c"))
	case c > r.Values["b"]:
		return fmt.Sprintf("%s is loose by %s in the slot after finish", part, r.Print("c"))
	}
	return fmt.Sprintf("%s of such joints bind on %s", r.Print("p"), part)
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

// thousandths prints what a caliper shows.
func thousandths(j *check.Job, x float64) string {
	if j.PerInch() != 1 {
		return fmt.Sprintf("%.2f mm", x)
	}
	return fmt.Sprintf("%.3f in", x)
}

func jointRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, jt := range j.Joints {
		if !slotted(jt.Kind) {
			continue
		}
		for _, in := range mates(j, jt.Enters.Text) {
			into := firstPart(mates(j, jt.Into.Text))
			out = append(out, jointRow(j, jt, in, into, "in"))
		}
		if jt.Kind == check.CrossLap {
			out = append(out, reverse(j, jt)...)
		}
	}
	return out
}

// slotted reports whether a part goes into something cut in another.
func slotted(k check.JointKind) bool {
	switch k {
	case check.CrossLap, check.NotchedLap, check.Dado, check.Groove, check.Rabbet, check.Notch:
		return true
	}
	return false
}

// reverse is the other half of a cross lap, where the slotted part goes into the slot of the
// part that enters. It is asked where the two are not alike.
func reverse(j *check.Job, jt *check.Joint) []check.Row {
	var out []check.Row
	in := firstPart(mates(j, jt.Enters.Text))
	for _, p := range mates(j, jt.Into.Text) {
		if in != nil && (p.Thickness.Nominal != in.Thickness.Nominal || p.Material.Text != in.Material.Text || p.Finish.Text != in.Finish.Text) {
			out = append(out, jointRow(j, jt, p, in, "out"))
		}
	}
	return out
}

func firstPart(ps []*check.Part) *check.Part {
	if len(ps) == 0 {
		return nil
	}
	return ps[0]
}

func jointRow(j *check.Job, jt *check.Joint, part, into *check.Part, way string) check.Row {
	fin, film := finish(j, part)
	cheeks := cheekShare(j, part, into, fin, film)
	if film.High == 0 && into != nil {
		_, film = finish(j, into)
		fin, _, _ = j.Shop.Finish(into.Finish.Text)
	}
	least, most := window(j, jt, fin)
	d := thickness(j, part)
	r := check.Row{Case: part.Case.Text, Name: jointName(jt, part), Count: int(jt.Count.Nominal),
		Marks: marks(part, into), Cells: []check.Cell{jt.Width.From, part.Thickness.From},
		Words: map[string]string{"part": "finished " + part.Name(), "bare": part.Name()}, Cause: jt.Mark.Text + way}
	if r.Cells[0] == (check.Cell{}) {
		r.Cells[0] = jt.Row
	}
	width := jt.Width
	if !width.Known {
		width.Ask.What = "the slot width as cut"
		if width.Ask.Cell == (check.Cell{}) && width.Ask.Tab == "" {
			width.Ask.Cell = jt.Row
		}
	}
	r.In = map[string]check.Value{
		"s": width, "t": typed(part), "d": d, "f": film, "k": cheeks, "a": least, "b": most,
		"u": jointSpread(j, part), "P": middle(j.Standard("limit", "single joint", "share that binds", check.Ratio)),
		"ed": check.Exact((d.High - d.Low) / 2), "ef": check.Exact((film.High - film.Low) / 2),
	}
	return r
}

func jointName(jt *check.Joint, part *check.Part) string {
	if jt.Mark.Text != "" {
		return "Slot " + jt.Mark.Text
	}
	return "Slot for " + part.Name()
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

// typed is the thickness as typed; what it may really be is the input d.
func typed(p *check.Part) check.Value {
	v := p.Thickness
	if !v.Known {
		v.Ask = check.Ask{Cell: v.Ask.Cell, What: "the thickness of " + p.Name()}
	}
	return v
}

// cheekShare is how much of the film of the part lands on a slot cheek: nothing where the
// slotted part is bare or its slots are masked. One spraying: the two films move together,
// so the cheek is a share of the same film.
func cheekShare(j *check.Job, part, into *check.Part, fin standard.Finish, film check.Value) check.Value {
	if into == nil {
		into = part
	}
	ifin, ifilm := finish(j, into)
	if ifin.Masked || ifilm.High == 0 {
		return check.Exact(0)
	}
	v := j.Entry(ifin.Cheeks, check.Ratio)
	if film.Nominal > 0 && ifilm.Nominal > 0 {
		ratio := ifilm.Nominal / film.Nominal
		v.Low, v.Nominal, v.High = v.Low*ratio, v.Nominal*ratio, v.High*ratio
	}
	return v
}

// window is the least and the most clearance wanted. Where the joint names no fit, anything
// from a snug to a loose fit may have been meant, around the shop's slip fit.
func window(j *check.Job, jt *check.Joint, fin standard.Finish) (least, most check.Value) {
	name := jt.Fit.Text
	if name == "" && (jt.Kind == check.Dado || jt.Kind == check.Groove || jt.Kind == check.Rabbet) {
		name = "hidden"
	}
	w, ok := j.Shop.Fit(name, fin)
	if !ok {
		w, _ = j.Shop.Fit("", fin)
		name = ""
	}
	e := j.Entry(w.Entry, check.Film)
	k := j.PerInch()
	if w.Unit == "mm" {
		k /= 25.4
	}
	least, most = check.Exact(w.Least*k), check.Exact(w.Most*k)
	least.Why, most.Why = e.Why, e.Why
	if name == "" {
		snug := j.Standard("fit", "snug", "clearance", check.Film)
		loose := j.Standard("fit", "loose", "clearance", check.Film)
		least = check.Guess(math.Min(snug.Low, least.Low), least.Nominal, least.Nominal, "no fit named: "+e.Why)
		most = check.Guess(most.Nominal, most.Nominal, math.Max(loose.Nominal, most.High), "no fit named: "+e.Why)
	}
	return least, most
}

// jointSpread is one sigma of what differs from joint to joint: the slot as cut and the
// thickness within a sheet, once a layer.
func jointSpread(j *check.Job, p *check.Part) check.Value {
	slot := j.Standard("spread", "slot width", "CNC, 2 sigma", check.Film)
	family := "MDF"
	if m, ok, _ := j.Shop.Material(p.Material.Text); ok && m.Family == "plywood" {
		family = "plywood"
	}
	sheet := j.Standard("spread", family, "within a panel", check.Film)
	if family == "plywood" {
		sheet = j.Standard("spread", family, "within a sheet", check.Film)
	}
	n := 0.0
	for _, l := range p.Layers {
		if !l.Strip && l.Count.Known {
			n += l.Count.Nominal
		}
	}
	n = math.Max(n, 1)
	sigma := func(s, t float64) float64 { return math.Sqrt(s*s/4 + n*t*t/4) }
	v := check.Exact(sigma(slot.Nominal, sheet.Nominal))
	v.Why = slot.Why + "; " + sheet.Why
	return v
}

// middle is a limit that the shop set: its nominal, without a range.
func middle(v check.Value) check.Value {
	if !v.Known {
		return v
	}
	m := check.Exact(v.Nominal)
	m.Why = v.Why
	return m
}
