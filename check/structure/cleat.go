package structure

import (
	"fmt"
	"math"

	"dryfit/check"
)

// Cleat asks whether the screws of a cleat or ledger carry the end of a shelf: sideways by
// the least of the six yield modes, and pulled out by the load that stands off the wall. It
// works in the units of the equations, inches and pounds, and says so in the steps.
//
// In a 3/4 side a screw never has the six diameters that the NDS wants. Its value sideways is
// reduced in proportion to the depth it has, and a short thread alone is no finding.
var Cleat = &check.Check{
	ID:      "structure.cleat",
	Asks:    "Do the screws of the cleat carry what lies on it?",
	Costs:   "a cleat that tears out of the side, and everything above it comes down",
	Applies: "every cleat, ledger and butt joint whose screws are named",
	Inputs: []check.Input{
		{Symbol: "R", Name: "load on the cleat", Unit: check.Force},
		{Symbol: "n", Name: "screws", Unit: check.Count},
		{Symbol: "D0", Name: "shank of the screw", Unit: check.Length},
		{Symbol: "D1", Name: "root of the thread", Unit: check.Length},
		{Symbol: "Y0", Name: "bending yield strength of the screw", Unit: check.Pressure},
		{Symbol: "L", Name: "length of the screw", Unit: check.Length},
		{Symbol: "a", Name: "thickness that the screw goes through first", Unit: check.Length},
		{Symbol: "g", Name: "gap or board between", Unit: check.Length},
		{Symbol: "t", Name: "thickness that holds the thread", Unit: check.Length},
		{Symbol: "c", Name: "cleat top to bottom", Unit: check.Length},
		{Symbol: "b", Name: "load off the face of the cleat that is screwed", Unit: check.Length},
		{Symbol: "G", Name: "specific gravity of what holds the thread", Unit: check.Ratio},
		{Symbol: "H", Name: "specific gravity of the cleat", Unit: check.Ratio},
		{Symbol: "l", Name: "length of the cleat", Unit: check.Length},
		{Symbol: "o", Name: "screws at most so far apart", Unit: check.Length},
		{Symbol: "e", Name: "share left in end grain", Unit: check.Ratio},
		{Symbol: "C", Name: "factor of load duration", Unit: check.Ratio},
		{Symbol: "i", Name: "units in an inch", Unit: check.Ratio},
		{Symbol: "f", Name: "units of force in a pound", Unit: check.Ratio},
		{Symbol: "u", Name: "share of the limit below which nothing is said", Unit: check.Ratio},
	},
	Steps: []check.Step{
		{Symbol: "D", Name: "root, in", Formula: "D1/i", Unit: check.Ratio},
		{Symbol: "p", Name: "thread held, in", Formula: "MAX(0,MIN(L-a-g,t))/i", Unit: check.Ratio},
		{Symbol: "M", Name: "depth in the holding part less half the tip, in", Formula: "MAX(0.01,p-IF(L-a-g<t,D0/i,0))", Unit: check.Ratio},
		{Symbol: "s", Name: "cleat, in", Formula: "a/i", Unit: check.Ratio},
		{Symbol: "m1", Name: "dowel bearing, holding part, psi", Formula: "16600*G^1.84", Unit: check.Ratio},
		{Symbol: "s1", Name: "dowel bearing, cleat, psi", Formula: "16600*H^1.84", Unit: check.Ratio},
		{Symbol: "Y", Name: "bending yield strength, psi", Formula: "Y0*i^2/f", Unit: check.Ratio},
		{Symbol: "k", Name: "reduction KD", Formula: "IF(D<=0.17,2.2,10*D+0.5)", Unit: check.Ratio},
		{Symbol: "Q", Name: "Re", Formula: "m1/s1", Unit: check.Ratio},
		{Symbol: "T", Name: "Rt", Formula: "M/s", Unit: check.Ratio},
		{Symbol: "k1", Name: "k1", Formula: "(SQRT(Q+2*Q^2*(1+T+T^2)+T^2*Q^3)-Q*(1+T))/(1+Q)", Unit: check.Ratio},
		{Symbol: "k2", Name: "k2", Formula: "SQRT(2*(1+Q)+2*Y*(1+2*Q)*D^2/(3*m1*M^2))-1", Unit: check.Ratio},
		{Symbol: "k3", Name: "k3", Formula: "SQRT(2*(1+Q)/Q+2*Y*(2+Q)*D^2/(3*m1*s^2))-1", Unit: check.Ratio},
		{Symbol: "Z1", Name: "mode Im, lb", Formula: "D*M*m1/k", Unit: check.Ratio},
		{Symbol: "Z2", Name: "mode Is, lb", Formula: "D*s*s1/k", Unit: check.Ratio},
		{Symbol: "Z3", Name: "mode II, lb", Formula: "k1*D*s*s1/k", Unit: check.Ratio},
		{Symbol: "Z4", Name: "mode IIIm, lb", Formula: "k2*D*M*m1/((1+2*Q)*k)", Unit: check.Ratio},
		{Symbol: "Z5", Name: "mode IIIs, lb", Formula: "k3*D*s*m1/((2+Q)*k)", Unit: check.Ratio},
		{Symbol: "Z6", Name: "mode IV, lb", Formula: "D^2/k*SQRT(2*m1*Y/(3*(1+Q)))", Unit: check.Ratio},
		{Symbol: "Z", Name: "sideways, the least, lb", Formula: "MIN(Z1,MIN(Z2,MIN(Z3,MIN(Z4,MIN(Z5,Z6)))))", Unit: check.Ratio},
		{Symbol: "w", Name: "depth held over six diameters", Formula: "MIN(1,MAX(0.01,p)/(6*D0/i))", Unit: check.Ratio},
		{Symbol: "S", Name: "one screw sideways", Formula: "Z*w*e*C*f", Unit: check.Force},
		{Symbol: "W", Name: "one screw pulled", Formula: "2850*G^2*D0/i*MAX(0.01,p)*C*f", Unit: check.Force},
		{Symbol: "V", Name: "each screw carries", Formula: "R/n", Unit: check.Force},
		{Symbol: "P", Name: "each screw is pulled", Formula: "IF(b>0,R*(g+b)/(c/2)/n,0)", Unit: check.Force},
		{Symbol: "X", Name: "spacing over the most", Formula: "l/n/o", Unit: check.Ratio},
		{Symbol: "q", Name: "use under the load", Formula: "V/S+P/W", Unit: check.Share},
		{Symbol: "U", Name: "use", Formula: "MAX(q,X)", Unit: check.Share},
		{Symbol: "A", Name: "all that they take", Formula: "1", Unit: check.Ratio},
		{Symbol: "z", Name: "room below half the limit", Formula: "u*A-U", Unit: check.Ratio, Aside: true},
		{Symbol: "m", Name: "margin, as a share of what they take", Formula: "A-U", Unit: check.Ratio},
	},
	Mends: []check.Mend{
		{Symbol: "n", Order: "use {} screws in each", Up: true, Reach: 12},
		{Symbol: "L", Order: "use screws {} long", Up: true, Step: 0.25, StepMM: 5, Reach: 16},
	},
	NoMend: "house the end in a dado, or put a leg under it",
	Ways: map[string]string{
		"g": "screw through to the framing with no board between, or use screws as much longer",
	},
	Source: []check.Source{
		{Title: "six yield modes, KD by the root diameter: NDS 2018 12.3.1, 12.3.7.1", How: "read, second hand"},
		{Title: "dowel bearing 16600G^1.84: NDS Table 12.3.3", How: "memory"},
		{Title: "pull-out 2850G^2D of thread held: NDS 12.2.2", How: "read"},
		{Title: "end grain: NDS 2018 12.5.2.2", How: "read, second hand"},
		{Title: "less than six diameters held: reduced in proportion; both uses added", How: "house rule"},
		{Title: "panels as wood", How: "house rule"},
		{Title: "one screw to a stud", How: "common practice"},
	},
	Limits:  "Does not see edge distances (fit.screws does), hardened screws, which break without bending, or hollow-wall anchors, whose figure is their maker's. The equations have no gap; a board between only takes from the depth held and pulls harder.",
	Until:   check.Released,
	Quiet:   "z",
	Value:   "U",
	Against: []string{"A"},
	Fails:   "a 36 in shelf with 60 lb/ft on cleats held by one No. 6 x 1 1/4 screw each",
	Mended:  "six No. 8 x 1 1/4 in each",
	Rows:    cleatRows,
	Says:    cleatSays,
}

func cleatSays(r *check.Result) string {
	screws := fmt.Sprintf("%s screws %s x %s", r.Print("n"), r.Row.Words["gauge"], r.Print("L"))
	if r.Values["n"] == 1 {
		screws = fmt.Sprintf("one screw %s x %s", r.Row.Words["gauge"], r.Print("L"))
	}
	if r.Values["p"] <= 0 {
		return fmt.Sprintf("%s never reach what is to hold them", screws)
	}
	if r.Values["X"] >= r.Values["U"] {
		return fmt.Sprintf("%s stand %s apart on the cleat; %s at most", screws, r.Job.Len(r.Values["l"]/r.Values["n"]), r.Print("o"))
	}
	hold := "what they hold"
	if r.Values["n"] == 1 {
		hold = "what it holds"
	}
	return fmt.Sprintf("%s must carry %s: %s %s", screws, r.Print("R"), howMuch(r.Values["U"]), hold)
}

func cleatRows(j *check.Job) []check.Row {
	all := shelves(j)
	var out []check.Row
	for _, jt := range j.Joints {
		if r, ok := cleatRow(j, jt, all); ok {
			out = append(out, r)
		}
	}
	return out
}

func cleatRow(j *check.Job, jt *check.Joint, all []*shelf) (check.Row, bool) {
	if jt.Screws == nil || jt.Kind != check.CleatJoint && jt.Kind != check.Butt {
		return check.Row{}, false
	}
	through, into := passes(j, jt)
	s := lainOn(j, jt, all)
	if s == nil || through == nil || !(through.Thickness.Low > 0) {
		return check.Row{}, false
	}
	sc := screwOf(j, jt.Screws.Gauge)
	if !sc.known || !jt.Screws.Length.Known {
		return check.Row{}, false // fit.screws asks for it
	}
	r := check.Row{Case: s.part.Case.Text, Marks: []string{through.Name()}, Name: through.Name(), Count: max(1, int(jt.Count.Nominal)),
		Cells: []check.Cell{jt.Row}, Words: map[string]string{"gauge": gauge(jt.Screws.Gauge)}, Cause: "screws " + jt.Mark.Text}
	if jt.Screws.Length.From != (check.Cell{}) {
		r.Cells = []check.Cell{jt.Screws.Length.From}
	}
	n := jt.Screws.Count
	if !n.Known {
		n = check.Missing(check.Ask{Cell: jt.Screws.Length.From, What: `how many screws in each joint, such as "3 screws #8 x 2"`})
	}
	r.In = driven(j, jt, sc, through, into)
	if jt.Screws.Length.High <= through.Thickness.Nominal+r.In["g"].Nominal {
		r.Under = "fit.screws" // screws that never reach what holds them are told there
	}
	r.In["R"], r.In["n"], r.In["C"] = s.onCleat(through), n, duration(j, s.load.word)
	if jt.Kind == check.Butt {
		r.In["l"] = check.Exact(0) // the end of a shelf, not a run of screws
		r.In["b"] = why(check.Exact(0), "the end stands against the face: nothing pulls")
		r.In["e"] = settled(j.Standard("fastener", "end grain", "share sideways", check.Ratio))
	}
	return r, true
}

// driven are the inputs of a screw that goes through one part into another, or into the house
// where that is nil: all but how many there are and what they carry.
func driven(j *check.Job, jt *check.Joint, sc screw, through, into *check.Part) map[string]check.Value {
	gap, thick, gravityOf := wallOrPart(j, jt, into)
	return map[string]check.Value{
		"D0": sc.shank, "D1": sc.root, "Y0": sc.yield, "L": jt.Screws.Length,
		"a": through.Thickness, "g": gap, "t": thick, "c": height(through), "b": through.Thickness.Scale(.5), "G": gravityOf, "H": gravity(j, through),
		"e": check.Exact(1), "l": reach(through), "o": apart(j), "i": check.Exact(j.PerInch()), "f": forceUnit(j), "u": quiet(j),
	}
}

// gauge writes the size of a screw as the trade says it.
func gauge(text string) string {
	if len(text) > 1 && text[0] == '#' {
		return "No. " + text[1:]
	}
	return text + " mm"
}

// passes are the part that the screws go through first and the one that holds their thread;
// nil for the house. A cleat is screwed to what it lies on; of a butt joint the screws go
// through the side into the end of the shelf.
func passes(j *check.Job, jt *check.Joint) (through, into *check.Part) {
	in, of := first(mates(j, jt.Enters.Text)), first(mates(j, jt.Into.Text))
	if jt.Kind == check.Butt {
		return of, in
	}
	if of != nil && (of.Role == check.Cleat || of.Role == check.Ledger) {
		return of, in
	}
	if in != nil && (in.Role == check.Cleat || in.Role == check.Ledger) {
		return in, of
	}
	return nil, nil
}

func first(ps []*check.Part) *check.Part {
	if len(ps) == 0 {
		return nil
	}
	return ps[0]
}

// lainOn is the shelf that a joint carries: the one it names, else the heaviest of the case
// in which the cleat stands.
func lainOn(j *check.Job, jt *check.Joint, all []*shelf) *shelf {
	through, into := passes(j, jt)
	var most *shelf
	for _, s := range all {
		if s.part == into && jt.Kind == check.CleatJoint && through != nil {
			return nil // a shelf screwed down to its cleat lies on it: the screws carry nothing
		}
		if s.part == into || s.part == through {
			return s
		}
		if jt.Kind == check.CleatJoint && s.part.Role != check.Adjustable && through != nil && sameCase(s.part, through) {
			if most == nil || s.total() > most.total() {
				most = s
			}
		}
	}
	return most
}

func sameCase(a, b *check.Part) bool { return a.Case.Text == b.Case.Text && a.Room.Text == b.Room.Text }

// total is all that a loaded part carries, as likely as anybody knows.
func (s *shelf) total() float64 { return s.line() * s.part.Length.Nominal }

// onCleat is what a cleat carries of a shelf: one end of it, or half of it along the back.
// A person may stand over the cleat.
func (s *shelf) onCleat(cleat *check.Part) check.Value {
	half := s.part.Length.Nominal / 2
	v := s.heavy()
	if !v.Known || !s.load.point.Known {
		return v
	}
	p := s.load.point
	out := check.Between(v.Low*half+p.Low, v.Nominal*half+p.Nominal, v.High*half+p.High)
	out.Guessed = v.Guessed || p.Guessed
	out.Why = "half of what " + s.part.Name() + " carries; " + v.Why + p.Why
	out.From = v.From
	return out
}

// height is how far the cleat reaches down: its width.
func height(p *check.Part) check.Value {
	if p.Width.Known && p.Width.Nominal > 0 {
		return p.Width
	}
	return why(check.Exact(2*p.Thickness.Nominal), "height of the cleat unsaid: twice its thickness")
}

// reach is how far the screws of a cleat are spread.
func reach(p *check.Part) check.Value {
	if p.Length.Known {
		return p.Length
	}
	return why(check.Exact(0), "length of the cleat unsaid")
}

// apart is how far apart the screws of a cleat may stand at the very most.
func apart(j *check.Job) check.Value {
	v := j.Standard("fastener", "cleat", "spacing at most", check.Length)
	return why(check.Exact(v.High), v.Why)
}

// wallOrPart is what lies between, how thick the holding part is, and its specific gravity.
func wallOrPart(j *check.Job, jt *check.Joint, into *check.Part) (gap, thick, g check.Value) {
	if into != nil && into.Thickness.Known {
		thick = into.Thickness
		if jt.Kind == check.Butt {
			thick = check.Exact(math.Max(into.Length.Nominal, into.Thickness.Nominal)) // into its end
		}
		return check.Exact(0), thick, gravity(j, into)
	}
	in := j.PerInch()
	return check.Guess(0, in/2, in*5/8, "wall board between cleat and framing, nobody said"),
		why(check.Exact(3.5*in), "a stud as deep as a 2x4"), framingGravity(j)
}

// forceUnit is a pound in the job's force.
func forceUnit(j *check.Job) check.Value {
	if j.PerInch() == 1 {
		return check.Exact(1)
	}
	return why(check.Exact(4.4482216152605), "newtons in a pound, exact")
}
