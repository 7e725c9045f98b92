package schedule

import (
	"fmt"
	"math"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
	"dryfit/check/yield"
)

// Stock asks whether each part comes out of a sheet that is sold, with its trim and its
// grain, and whether all parts come out of the number of sheets that the office typed. The
// number of sheets is a proven least: no plan needs fewer, and none is promised.
var Stock = &check.Check{
	ID:      "schedule.stock",
	Asks:    "Does each part come out of a sheet with its grain, and do all come out of the sheets counted?",
	Costs:   "a part that no sheet gives, or one sheet short on the day of cutting",
	Applies: "every part of sheet stock but backs, and every total of sheets",
	Inputs: []check.Input{
		{Symbol: "l", Name: "part along the grain", Unit: check.Length},
		{Symbol: "w", Name: "part across the grain", Unit: check.Length},
		{Symbol: "S", Name: "sheet, length", Unit: check.Length},
		{Symbol: "W", Name: "sheet, width", Unit: check.Length},
		{Symbol: "e", Name: "trimmed off each edge", Unit: check.Length},
		{Symbol: "t", Name: "may lie across the sheet, 1 or 0", Unit: check.Count},
		{Symbol: "N", Name: "sheets counted, 0 for a part", Unit: check.Count},
		{Symbol: "B", Name: "sheets wanted at least", Unit: check.Count},
		{Symbol: "A", Name: "area of all parts over that of a sheet", Unit: check.Ratio},
	},
	Steps: []check.Step{
		{Symbol: "a", Name: "spare, laid along", Formula: "MIN(S-2*e-l,W-2*e-w)", Unit: check.Length},
		{Symbol: "b", Name: "spare, laid across", Formula: "MIN(W-2*e-l,S-2*e-w)", Unit: check.Length},
		{Symbol: "s", Name: "spare, the better way", Formula: "IF(t>0,MAX(a,b),a)", Unit: check.Length},
		{Symbol: "R", Name: "sheets by area alone (bound)", Formula: "ROUNDUP(A,0)", Unit: check.Count, Aside: true},
		{Symbol: "m", Name: "margin", Formula: "IF(N>0,N-B,s)", Unit: check.Length},
	},
	NoMend: "order a longer sheet, or make the part of two",
	Source: []check.Source{{Title: "sheets sold, trim: standards table", How: "common practice"}, {Title: "least number of sheets: dual feasible functions, S. P. Fekete and J. Schepers, Math. Meth. Oper. Res. 60 (2004) 311", How: "memory"}},
	Limits: "Promises no cutting plan. Solid wood, backs and parts glued up of layers are not asked; nor is what lies in the rack.",
	Until:  check.BeforeCut,
	Value:  "m",
	Fails:  "a 60 long shelf, grain across the length, out of birch ply 48 wide",
	Mended: "the grain along the shelf",
	Rows:   stockRows,
	Says:   stockSays,
	Way:    func(r *check.Result) string { return r.Row.Words["way"] },
}

func stockSays(r *check.Result) string {
	if r.Values["N"] > 0 {
		sheets := "sheets"
		if r.Values["N"] == 1 {
			sheets = "sheet"
		}
		return fmt.Sprintf("%s %s counted; the parts above take %s at least", r.Print("N"), sheets, r.Print("B"))
	}
	size := by(r.Job, r.Row.In["l"].Nominal, r.Row.In["w"].Nominal)
	if r.Row.Words["turned"] != "" {
		return fmt.Sprintf("no %s sheet gives %s with this grain; turned it would", r.Row.Words["material"], size)
	}
	return fmt.Sprintf("no %s sheet gives %s; largest %s", r.Row.Words["material"], size, by(r.Job, r.Values["S"], r.Values["W"]))
}

// by prints two sizes, the unit once: 14 x 66 in.
func by(j *check.Job, l, w float64) string { return length.Figure(l, j.Unit) + " x " + j.Len(w) }

func stockRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, p := range j.Pieces() {
		if r, ok := stockRow(j, p); ok {
			out = append(out, r)
		}
	}
	for _, t := range j.Totals {
		if r, ok := sheetsRow(j, t); ok {
			out = append(out, r)
		}
	}
	return out
}

// blank is a part as it lies on the sheet.
type blank struct {
	part          *check.Part
	material      standard.Material
	along, across float64
	turns         bool
}

// blankOf is false for what need not come out of one sheet: solid wood, layers, backs, what is cut on
// site.
func blankOf(j *check.Job, p *check.Part) (blank, bool) {
	m, ok, _ := j.Material(p.Material.Text)
	l, w := cutSize(p)
	if !ok || m.Solid() || m.Layers > 1 || len(p.Layers) > 0 || len(m.Sold) == 0 || p.FitOnSite() || !(l > 0 && w > 0) {
		return blank{}, false
	}
	if m.Family == "made up" || m.Family == "laminate" || p.Role == check.Back {
		return blank{}, false // a back is made of as many pieces as it takes
	}
	b := blank{part: p, material: m, along: l, across: w}
	switch grain(p) {
	case "":
		b.turns = true
	case "W":
		b.along, b.across = w, l
	}
	return b, true
}

// cutSize is what the saw cuts: the cut size where it is typed, else the finished one.
func cutSize(p *check.Part) (l, w float64) {
	l, w = p.Length.Nominal, p.Width.Nominal
	if p.CutLength.Known {
		l = p.CutLength.Nominal
	}
	if p.CutWidth.Known {
		w = p.CutWidth.Nominal
	}
	return l, w
}

// grain is "L" or "W", the size of the part along which the grain runs; empty where it is
// unsaid or does not matter.
func grain(p *check.Part) string {
	switch g := strings.ToUpper(strings.TrimSpace(p.Grain.Text)); g {
	case "L", "LENGTH", "LONG", "LENGTHWISE", "→", "V", "VERT", "VERTICAL":
		return "L"
	case "W", "WIDTH", "CROSS", "ACROSS", "CROSSWISE":
		return "W"
	}
	return ""
}

// sheets are the sheets that a material is sold in, in the job's unit: those of its own
// system, the usual one first.
func sheets(j *check.Job, m standard.Material) []yield.Sheet {
	trim := j.Standard("cutting", "sheet edge", "trim", check.Length)
	kerf := j.Standard("cutting", "saw", "kerf", check.Length)
	kinds := []string{"", ", long", ", wide", ", square"}
	if j.Unit == length.Millimetre {
		kinds = append(kinds, ", metric")
	}
	var out []yield.Sheet
	for _, kind := range kinds {
		l, ok := j.Shop.For(m, "sheet", "length"+kind)
		w, ok2 := j.Shop.For(m, "sheet", "width"+kind)
		if ok && ok2 {
			out = append(out, yield.Sheet{Length: j.Entry(l, check.Length).Nominal, Width: j.Entry(w, check.Length).Nominal,
				Trim: trim.Nominal, Kerf: kerf.Nominal})
		}
	}
	return out
}

func stockRow(j *check.Job, p *check.Part) (check.Row, bool) {
	b, ok := blankOf(j, p)
	if !ok {
		return check.Row{}, false
	}
	sheet, spare := b.best(sheets(j, b.material))
	if sheet.Length == 0 {
		return check.Row{}, false
	}
	r := row(p, "sheet", p.Length.From, p.Width.From)
	r.Count = int(p.Qty.Nominal)
	r.Words["material"] = b.material.Name
	r.Most = check.Verify // the list of sheets is not the shop's rack
	if !b.turns && spare < 0 {
		turned := b
		turned.along, turned.across = b.across, b.along
		if _, other := turned.best(sheets(j, b.material)); other >= 0 {
			r.Most, r.Words["turned"], r.Words["way"] = check.Hold, "yes", "turn the grain, or make the part of two"
		}
	}
	turns := 0.0
	if b.turns {
		turns = 1
	}
	r.In = map[string]check.Value{
		"l": check.Exact(b.along), "w": check.Exact(b.across), "S": check.Exact(sheet.Length), "W": check.Exact(sheet.Width),
		"e": settled(j.Standard("cutting", "sheet edge", "trim", check.Length)), "t": check.Exact(turns),
		"N": check.Exact(0), "B": check.Exact(0), "A": check.Exact(0),
	}
	if b.along == p.Length.Nominal {
		r.In["l"], r.In["w"] = plain(check.Exact(b.along).At(p.Length.From), p.Length), plain(check.Exact(b.across).At(p.Width.From), p.Width)
	}
	return r, true
}

// best is the sheet that leaves most to spare.
func (b blank) best(all []yield.Sheet) (yield.Sheet, float64) {
	var best yield.Sheet
	most := math.Inf(-1)
	for _, s := range all {
		room := func(l, w float64) float64 { return math.Min(s.Length-2*s.Trim-l, s.Width-2*s.Trim-w) }
		spare := room(b.along, b.across)
		if b.turns {
			spare = math.Max(spare, room(b.across, b.along))
		}
		if spare > most {
			best, most = s, spare
		}
	}
	return best, most
}

// sheetsRow holds a total of sheets against the least that the parts above it take, each
// material on a sheet as long and as wide as any that it is sold in: whatever sheets are
// mixed, no fewer do.
func sheetsRow(j *check.Job, t check.Total) (check.Row, bool) {
	if !t.Sheets.Known || t.Sheets.Nominal <= 0 {
		return check.Row{}, false
	}
	least := fewest(j, above(j, t))
	if least.sheets == 0 {
		return check.Row{}, false
	}
	r := check.Row{Case: t.Case.Text, Name: "The total of sheets", Marks: least.marks, Cells: []check.Cell{t.Sheets.From}, Cause: "sheets",
		Words: map[string]string{"way": fmt.Sprintf("get %d sheets", least.sheets)}}
	zero := check.Exact(0)
	r.In = map[string]check.Value{"l": zero, "w": zero, "S": zero, "W": zero, "e": zero, "t": zero, "N": t.Sheets,
		"B": because(check.Exact(float64(least.sheets)), "proven least: stacks, area and scaled sizes, on a sheet as long and wide as any sold"),
		"A": because(check.Exact(least.area), "on a sheet as long and wide as any sold")}
	if least.kinds > 1 {
		r.Most = check.Verify // the count may be of one of them
	}
	return r, true
}

// bound is the least number of sheets that some parts take, and what it rests on.
type bound struct {
	sheets int
	kinds  int     // of sheet: material and thickness
	area   float64 // over that of a sheet
	marks  []string
}

// fewest is the least over the rows that a total may count.
func fewest(j *check.Job, sets [][]*check.Part) bound {
	var out bound
	for i, ps := range sets {
		if b := leastSheets(j, ps); i == 0 || b.sheets < out.sheets {
			out = b
		}
	}
	return out
}

// leastSheets adds up the proven least of each material and thickness.
func leastSheets(j *check.Job, ps []*check.Part) bound {
	orders := map[string][]yield.Order{}
	stock := map[string]yield.Sheet{}
	var names []string
	var out bound
	for _, p := range ps {
		b, ok := blankOf(j, p)
		if !ok || !p.Qty.Known {
			continue
		}
		name := fmt.Sprintf("%s %.4g", b.material.Name, p.Thickness.Nominal)
		sheet := around(sheets(j, b.material))
		if _, spare := b.best([]yield.Sheet{sheet}); spare < 0 {
			continue // told by itself
		}
		if stock[name].Length == 0 {
			names = append(names, name)
			stock[name] = sheet
		}
		orders[name] = append(orders[name], yield.Order{Part: yield.Part{Length: b.along, Width: b.across, Turns: b.turns}, Wanted: int(p.Qty.Nominal)})
		out.area += p.Qty.Nominal * b.along * b.across / (sheet.Length * sheet.Width)
		out.marks = append(out.marks, p.Name())
	}
	out.kinds = len(names)
	for _, name := range names {
		if n, err := stock[name].Sheets(orders[name]); err == nil {
			out.sheets += n
		}
	}
	return out
}

// around is a sheet as long as the longest and as wide as the widest of all.
func around(all []yield.Sheet) yield.Sheet {
	var out yield.Sheet
	for _, s := range all {
		out = yield.Sheet{Length: math.Max(out.Length, s.Length), Width: math.Max(out.Width, s.Width), Trim: s.Trim, Kerf: s.Kerf}
	}
	return out
}
