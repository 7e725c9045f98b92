package structure

import (
	"fmt"
	"math"

	"dryfit/check"
)

// Anchor asks how hard a case pulls at a fixing at its top when somebody holds on to its
// front. It is a house rule: the standard for tipping leaves bookcases and built-ins out. An
// empty case is the worst, because what stands in it holds it down.
var Anchor = &check.Check{
	ID:      "structure.anchor",
	Asks:    "Can the case tip forward, empty, when somebody pulls at it?",
	Costs:   "a case that falls on whoever climbs it",
	Applies: "every case of 27 in and more that stands on the floor and for which no fixing into framing is named, or only screws that can be counted; in a recess a named fixing is enough",
	Inputs: []check.Input{
		{Symbol: "H", Name: "height of the case", Unit: check.Length},
		{Symbol: "D", Name: "depth of the case", Unit: check.Length},
		{Symbol: "W", Name: "weight, empty", Unit: check.Force},
		{Symbol: "Q", Name: "what stands in it", Unit: check.Force},
		{Symbol: "F", Name: "pull of a person at the front edge", Unit: check.Force},
		{Symbol: "y", Name: "height of the pull at most", Unit: check.Length},
		{Symbol: "x", Name: "height of the fixing, or of the case", Unit: check.Length},
		{Symbol: "f", Name: "what named fixings take", Unit: check.Force},
	},
	Steps: []check.Step{
		{Symbol: "h", Name: "height of the pull", Formula: "MIN(H,y)", Unit: check.Length},
		{Symbol: "T", Name: "pull at the fixing, empty", Formula: "MAX(0,(F*h-W*D/2)/x)", Unit: check.Force},
		{Symbol: "S", Name: "the same, full", Formula: "MAX(0,(F*h-(W+Q)*D/2)/x)", Unit: check.Force, Aside: true},
		{Symbol: "m", Name: "margin", Formula: "f-T", Unit: check.Force},
	},
	NoMend: fixTop,
	Source: []check.Source{
		{Title: "moments about the front edge of a stiff case on a level floor", How: "house rule"},
		{Title: "ASTM F2057-23 1.2 leaves out bookcases and built-in units", How: "read"},
		{Title: "what screws into studs take: pull-out as in structure.cleat, NDS 12.2.2", How: "read"},
	},
	Limits:  "Knows no open doors and drawers, no carpet and no floor out of level. What a hollow-wall anchor takes is its maker's figure.",
	Until:   check.Finished,
	Grave:   true,
	Value:   "T",
	Against: []string{"f"},
	Fails:   "a bookcase 84 high and 12 deep with no fixing named",
	Way:     wayUp,
	Mended:  "the same with a rail \"screwed to studs, 2 screws #10 x 3\"",
	Rows:    anchorRows,
	Says: func(r *check.Result) string {
		if screws := r.Row.Words["screws"]; screws != "" {
			if r.Values["f"] < .05*r.Values["T"] {
				return "can tip when pulled: " + screws + " may not even reach the studs"
			}
			return fmt.Sprintf("can tip when pulled: %s may hold %s, against a pull of %s", screws, r.Print("f"), r.Print("T"))
		}
		return fmt.Sprintf("can tip when pulled; a fixing at the top must take %s, and none is named", mostPull(r))
	},
}

// mostPull is the pull at the top over all that is guessed, in whole pounds or newtons.
func mostPull(r *check.Result) string {
	return fmt.Sprintf("%.0f %s", math.Ceil(r.Values["f"]-r.Worst), check.Force.In(r.Job.Unit))
}

// wayUp is what clears a case that can tip.
func wayUp(r *check.Result) string {
	if r.Row.Words["screws"] == "" {
		return fixTop
	}
	return "use more or longer screws into the studs"
}

const fixTop = "name a fixing at the top into studs or blocking, as a joint or a note"

func anchorRows(j *check.Job) []check.Row {
	least := settled(j.Standard("limit", "anchored top", "case at least", check.Length))
	person := settled(j.Standard("limit", "anchored top", "person pulls", check.Ratio))
	pull := j.Standard("load", "pull at the front edge", "in all", check.Force)
	if person.Nominal == 0 {
		pull = check.Exact(0)
	}
	var out []check.Row
	for _, c := range j.Cases() {
		b := bulkOf(j, c)
		if !b.stands || !least.Known || b.height.Nominal < least.Nominal || b.weight.Nominal <= 0 {
			continue
		}
		fix := fixingOf(j, c, b.height)
		if fix.named && (!fix.takes.Known || inRecess(j, c)) {
			continue
		}
		r := check.Row{Case: c.Name, Name: c.Title(), Marks: b.marks, Cells: b.cells, Terms: b.terms, Most: check.Verify, Cause: "tipping", Folds: "anchor"}
		r.In = map[string]check.Value{"H": b.height, "D": b.depth, "W": b.weight, "Q": b.load, "F": pull,
			"y": j.Standard("limit", "anchored top", "pull at most at", check.Length),
			"f": why(check.Exact(0), "no joint and no note names a fixing into framing"), "x": b.height}
		if fix.named {
			r.In["f"], r.In["x"], r.Words, r.Cells = fix.takes, fix.height, map[string]string{"screws": fix.screws}, []check.Cell{fix.at}
		}
		out = append(out, r)
	}
	return out
}

// bulk is a case as a whole: how big, how heavy and how full it is.
type bulk struct {
	stands               bool // it has sides or uprights and is not hung
	width, height, depth check.Value
	weight, load         check.Value
	typed                bool // somebody typed what stands in it
	marks                []string
	cells                []check.Cell
	terms                []check.Term // of weight W and load Q
}

var hung = words("upper uppers hung hanging floating wall-hung oberschrank hängeschrank suspendu suspendido pensile wiszący hangend vägghängd overhead")

// bulks are the cases of a job as wholes, by name and room.
type bulks map[[2]string]bulk

func bulkOf(j *check.Job, c check.Case) bulk {
	return check.OnceFor[bulks](j, [2]string{c.Name, c.Room}, func() bulk { return weigh(j, c) })
}

func weigh(j *check.Job, c check.Case) bulk {
	zero := check.Exact(0)
	b := bulk{width: zero, height: zero, depth: zero, weight: zero, load: zero}
	for _, p := range c.Role(check.Side, check.Upright) {
		b.stands = true
		b.marks = append(b.marks, p.Name())
		if top := raised(p); top.Known && top.Nominal > b.height.Nominal {
			b.height = top
			b.cells = []check.Cell{p.Length.From}
		}
		b.depth = larger(b.depth, p.Width)
	}
	if anyWord(c.Name, hung) {
		b.stands = false
	}
	if len(b.cells) == 0 || b.cells[0] == (check.Cell{}) {
		b.cells = []check.Cell{c.Parts[0].Row}
	}
	for _, p := range c.Parts {
		b.add(&b.weight, "W", p, weight(j, p), 1)
	}
	for _, p := range c.Role(check.Shelf, check.Adjustable, check.Seat, check.Deck, check.Head, check.Sill) {
		b.width = larger(b.width, p.Length)
		if p.Role != check.Shelf && p.Role != check.Adjustable && p.Role != check.Seat {
			continue
		}
		l := loadOn(j, p)
		b.typed = b.typed || l.typed
		b.add(&b.load, "Q", p, l.line, p.Length.Nominal*pieces(p))
		b.add(&b.load, "Q", p, l.point, pieces(p))
	}
	n := alike(c)
	b.weight, b.load = b.weight.Scale(1/n), b.load.Scale(1/n)
	for i := range b.terms {
		b.terms[i].Share = b.terms[i].Share.Scale(1 / n)
	}
	return b
}

// add adds k times what a part weighs or carries to a sum.
func (b *bulk) add(sum *check.Value, symbol string, p *check.Part, v check.Value, k float64) {
	*sum = plus(*sum, v, k)
	if v.Known && k > 0 {
		b.terms = append(b.terms, check.Term{Symbol: symbol, Share: v.Scale(k),
			From: []check.Cell{p.Length.From, p.Width.From, p.Thickness.From, p.Qty.From}})
	}
}

// alike is how many equal cases the rows of a case make: a case has two sides.
func alike(c check.Case) float64 {
	sides := 0.0
	for _, p := range c.Role(check.Side) {
		sides += pieces(p)
	}
	return math.Max(1, math.Floor(sides/2))
}

// raised is how high the top of an upright part stands.
func raised(p *check.Part) check.Value {
	v := p.Length
	if v.Known && p.Y.Known && p.Y.Nominal > 0 {
		return plus(v, p.Y, 1)
	}
	return v
}

func larger(a, b check.Value) check.Value {
	if b.Known && b.Nominal > a.Nominal {
		return b
	}
	return a
}

// plus adds k times a value, where it is known.
func plus(a, b check.Value, k float64) check.Value {
	if !b.Known || k <= 0 {
		return a
	}
	sum := check.Between(a.Low+k*b.Low, a.Nominal+k*b.Nominal, a.High+k*b.High)
	sum.Guessed = a.Guessed || b.Guessed
	sum.Why = a.Why
	if sum.Why == "" {
		sum.Why = b.Why
	}
	return sum
}

// footprint is the floor that the case covers.
func (b bulk) footprint() float64 { return b.width.Nominal * b.depth.Nominal }
