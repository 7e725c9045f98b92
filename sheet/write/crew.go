package write

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"dryfit/check"
	"dryfit/check/length"
)

// crew finds in a report what those who install must know. It reads the results of the checks
// by the ID of the check, and says what is missing where a check had nothing to say.
type crew struct {
	job     *check.Job
	verdict check.Verdict
	open    int // findings not accepted
	found   []*check.Finding
	results map[string][]*check.Result
	place   map[*check.Part]int // in the order of entry of its case, from 1

	glued map[int]bool // rows of the page that stay with the one above
}

func newCrew(rep *check.Report) *crew {
	c := &crew{job: rep.Job, verdict: rep.Verdict, found: rep.Findings, results: map[string][]*check.Result{}, place: map[*check.Part]int{}, glued: map[int]bool{}}
	for _, r := range rep.Results {
		c.results[r.Check.ID] = append(c.results[r.Check.ID], r)
	}
	for _, f := range rep.Findings {
		if !f.Accepted() && f.Verdict >= check.Verify {
			c.open++
		}
	}
	c.putInOrder()
	return c
}

// worked are the results of a check that came to numbers.
func (c *crew) worked(id string) []*check.Result {
	var out []*check.Result
	for _, r := range c.results[id] {
		if len(r.Values) > 0 {
			out = append(out, r)
		}
	}
	return out
}

// putInOrder numbers the pieces that lap one another as opening.enter found them to go in.
func (c *crew) putInOrder() {
	for _, r := range c.worked("opening.enter") {
		for i, name := range lapOrder(r) {
			for _, box := range c.job.Cases() {
				for _, p := range box.Parts {
					if p.Name() == name && p.Case.Text == r.Row.Case && c.place[p] == 0 {
						c.place[p] = i + 1
					}
				}
			}
		}
	}
}

// lapOrder is the order in which lapped pieces go in; empty where none was asked for or found.
func lapOrder(r *check.Result) []string {
	if r.Row.Words["order"] == "" || r.Values["K"] > 0 {
		return nil
	}
	return strings.Split(r.Row.Words["order"], "\n")
}

// flag is what stands behind a line whose result is open.
func flag(r *check.Result) string {
	if r.Verdict < check.Verify {
		return ""
	}
	return "  " + Shown(r.Verdict).Word()
}

// first are the cautions that stand on top.
func (c *crew) first() []topic {
	out := []topic{{"Before loading", c.standing()}, {"Lifting", c.lifting()}, {"Tipping", c.tipping()}}
	return out
}

func (c *crew) standing() string {
	m := Shown(c.verdict)
	switch {
	case c.verdict >= check.Verify:
		return fmt.Sprintf("%s. %s open: ask the office which of them were mended.", m.Word(), plural(c.open, "finding is", "findings are"))
	case c.verdict == check.NotChecked:
		return m.Word() + ". Nothing fails, but not everything could be checked."
	}
	return m.Word() + ". Nothing is open."
}

func plural(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// lifting names the crew, what it lifts together, and what is heavier or put together.
func (c *crew) lifting() string {
	rs := c.worked("opening.lift")
	if len(rs) == 0 {
		return "No piece has all its sizes: no weight is known. Lift with care, and with enough people."
	}
	heaviest := slices.MaxFunc(rs, func(a, b *check.Result) int { return cmp.Compare(a.Values["W"], b.Values["W"]) })
	who := "Crew of " + heaviest.Print("n")
	if heaviest.Row.In["n"].Guessed {
		who = "Nobody named the crew; reckoned with " + heaviest.Print("n")
	}
	lines := []string{fmt.Sprintf("%s: up to %s on the level.", who, heaviest.Print("c"))}
	for _, r := range rs {
		if r != heaviest && r.Row.Cause != "whole" && r.Verdict < check.Verify {
			continue
		}
		lines = append(lines, fmt.Sprintf("%s %s %s %s: %s to lift.%s", subject(r), r.Row.Words["what"], whole(r.Values["W"]), check.Weight.In(c.job.Unit), plural(int(r.Values["N"]), "person", "people"), flag(r)))
	}
	return strings.Join(lines, "\n")
}

// tipping is a caution for every case that wants a fixing at the top and names none.
func (c *crew) tipping() string {
	var lines []string
	for _, r := range c.worked("structure.anchor") {
		if r.Verdict >= check.Verify {
			lines = append(lines, fmt.Sprintf("%s can tip while it stands loose. Fix its top into studs or blocking, to take %s, before anybody leaves it.%s",
				subject(r), whole(r.Values["f"]-r.Worst)+" "+check.Force.In(c.job.Unit), flag(r)))
		}
	}
	if len(lines) == 0 {
		return "No case was found to want more fixing at the top than is named. Fix tall pieces before anybody leaves them."
	}
	return strings.Join(lines, "\n")
}

// goesIn is the way in and the order of putting together.
func (c *crew) goesIn() []topic {
	out := []topic{{"Way in", c.way()}, {"Tightest place", c.tightest()}, {"Order", c.order()}}
	return append(out, c.raising()...)
}

func (c *crew) way() string {
	if c.job.Carry == nil || len(c.job.Carry.Stops) == 0 {
		return "No carry path was given: each piece was held against a usual room door. Ask for the way in."
	}
	var stops []string
	for _, s := range c.job.Carry.Stops {
		stops = append(stops, c.stop(s))
	}
	text := strings.Join(stops, "  →  ")
	if len(c.job.Carry.Whole) > 0 {
		text += "\nGoes whole: " + strings.Join(c.job.Carry.Whole, ", ")
	}
	return text
}

// stop is a place on the way with the sizes that were given.
func (c *crew) stop(s check.Stop) string {
	size := func(v check.Value) string { return strings.TrimSuffix(c.job.Len(v.Nominal), " "+c.job.Unit.String()) }
	text := cmp.Or(strings.TrimSpace(s.Name.Text), s.Kind)
	if s.Width.Known {
		text += " " + size(s.Width)
	}
	if s.Height.Known {
		text += " x " + size(s.Height)
	}
	switch {
	case s.Length.Known && s.Kind == "corner":
		text += " into " + size(s.Length)
	case s.Length.Known:
		text += ", " + size(s.Length) + " long"
	}
	return text
}

// tightest is the place where a piece has least to spare.
func (c *crew) tightest() string {
	rs := c.worked("opening.carry")
	if len(rs) == 0 {
		return "Not worked out: no piece has all its sizes."
	}
	r := slices.MinFunc(rs, func(a, b *check.Result) int { return cmp.Compare(a.Values["s"], b.Values["s"]) })
	if r.Values["s"] < 0 {
		return fmt.Sprintf("%s does not pass %s: %s too much.%s", subject(r), r.Row.Words["place"], r.PrintSize("s"), flag(r))
	}
	return fmt.Sprintf("%s at %s: %s to spare, bare; hands and pads like %s a side.%s", subject(r), r.Row.Words["place"], r.Print("s"), r.Print("v"), flag(r))
}

// order is the order of entry of lapped pieces, and what does not simply go straight in.
func (c *crew) order() string {
	var lines []string
	for _, r := range c.worked("opening.enter") {
		switch list := lapOrder(r); {
		case r.Values["K"] > 0:
			lines = append(lines, fmt.Sprintf("%s: no order of entry was found, %s.%s", subject(r), r.Row.Words["lock"], flag(r)))
		case len(list) > 0:
			lines = append(lines, fmt.Sprintf("%s: %s. Last piece: %s.", subject(r), strings.Join(list, ", then "), list[len(list)-1]))
		case r.Verdict >= check.Verify:
			lines = append(lines, fmt.Sprintf("%s: %s.%s", subject(r), r.Check.Says(r), flag(r)))
		case r.Values["x"] == 0 && r.Values["a"] < 0:
			lines = append(lines, fmt.Sprintf("%s goes through the mouth on the slant and is turned level behind it, %s to spare.", subject(r), r.Print("b")))
		}
	}
	if len(lines) == 0 {
		if slices.ContainsFunc(c.job.Joints, lapped) {
			return "Not worked out for these laps: try it dry on the floor, and number the pieces as they go in."
		}
		return "No laps were read: no order was worked out, and no piece is the last one by its joints."
	}
	return strings.Join(lines, "\n")
}

func lapped(jt *check.Joint) bool { return jt.Kind == check.CrossLap || jt.Kind == check.NotchedLap }

// raising is how cases are stood up, or slid in and raised onto their base.
func (c *crew) raising() []topic {
	var up, in []string
	for _, r := range c.worked("opening.stand") {
		ceiling := "the ceiling is " + r.Print("C")
		if r.Row.In["C"].Guessed {
			ceiling = "nobody measured the ceiling"
		}
		line := fmt.Sprintf("%s, put together lying: takes %s to stand up, %s; wants %s of clear floor in front.", subject(r), r.Print("K"), ceiling, r.Print("f"))
		if r.Values["b"] > 0 {
			line += fmt.Sprintf(" With the base off it takes %s.", r.Print("o"))
		}
		up = append(up, line+flag(r))
	}
	for _, r := range c.worked("opening.slide") {
		in = append(in, fmt.Sprintf("%s: slide it in low, raise it %s and slip the base under; it can be raised %s.%s", subject(r), r.Print("l"), r.Print("a"), flag(r)))
	}
	var out []topic
	if len(up) > 0 {
		out = append(out, topic{"Standing up", strings.Join(up, "\n")})
	}
	if len(in) > 0 {
		out = append(out, topic{"Raising", strings.Join(in, "\n")})
	}
	return out
}

// atTheWall is what is eased, scribed and fixed, and what the lead accepted.
func (c *crew) atTheWall() []topic {
	return []topic{{"Ease", c.ease()}, {"Scribe", c.scribe()}, {"Fixings", c.fixings()}, {"Accepted", c.accepted()}}
}

// mostEased is how many lines of joints the page bears.
const mostEased = 6

// ease lists the laps that want easing, the tightest first; rows with the same numbers are one.
func (c *crew) ease() string {
	rs := c.worked("fit.ease")
	if len(rs) == 0 {
		return "No lap with a slot width was read: what to ease was not worked out. Try each lap dry before it is lifted."
	}
	slices.SortStableFunc(rs, func(a, b *check.Result) int { return cmp.Compare(b.Values["x"], a.Values["x"]) })
	var lines []string
	for _, r := range rs {
		if line := easing(r); line != "" && !slices.Contains(lines, line) {
			lines = append(lines, line)
		}
	}
	switch n := len(lines) - mostEased; {
	case len(lines) == 0:
		return "Every lap goes on without easing. Try each dry all the same."
	case n > 0:
		lines = append(lines[:mostEased], fmt.Sprintf("and %d more, by less", n))
	}
	return strings.Join(append(lines, "Wax all laps; paint under a week old sticks in a snug one."), "\n")
}

func easing(r *check.Result) string {
	var what []string
	if r.Values["x"] > 0 {
		what = append(what, fmt.Sprintf("take %s off each face of the leading edge", r.Print("x")))
	}
	if r.Values["q"] > 0 {
		what = append(what, "bevel it "+leadIn(r))
	}
	if len(what) == 0 {
		return ""
	}
	count := ""
	if r.Row.Count > 1 {
		count = fmt.Sprintf(" (%d of them)", r.Row.Count)
	}
	return fmt.Sprintf("%s%s, %s: %s.%s", subject(r), count, r.Row.Words["bare"], strings.Join(what, ", and "), flag(r))
}

// leadIn is the bevel that a leading edge wants, as a hand makes one: never finer than 1/32 in or
// 1 mm, and in whole steps of it.
func leadIn(r *check.Result) string {
	step := 1.0 / 32
	if r.Job.Unit == length.Millimetre {
		step = 1
	}
	return check.Length.Print(length.Step(r.Values["q"], step, length.Up), r.Job.Unit)
}

// edges are the two faces that opening.square measures in a direction.
var edges = map[string][2]string{"width": {"left side", "right side"}, "height": {"floor", "head"}, "depth": {"front", "back wall"}}

// scribe is, for each edge, how far it is out of straight, and the widest gap to cover.
func (c *crew) scribe() string {
	var lines []string
	asked := map[string]bool{}
	for _, r := range c.worked("opening.square") {
		edge, ok := edges[r.Row.Words["direction"]]
		if !ok || r.Row.Words["kind"] == "readings" {
			continue
		}
		asked[r.Row.Case+r.Row.Words["direction"]] = true
		line := fmt.Sprintf("%s, %s out of straight %s, %s %s; widest gap %s with the case in the middle.", subject(r), edge[0], r.Print("p"), edge[1], r.Print("q"), r.Print("G"))
		if r.Values["S"] > 0 {
			line += fmt.Sprintf(" Scribe or filler %s.", r.Print("S"))
		}
		lines = append(lines, line+flag(r))
	}
	for _, r := range c.worked("opening.width") {
		if !asked[r.Row.Case+"width"] {
			lines = append(lines, fmt.Sprintf("%s: no lean of its sides was read, so no scribe is known for each edge. In the width %s to spare in all.%s", subject(r), spare(r), flag(r)))
		}
	}
	switch {
	case len(lines) == 0 && len(c.job.Openings) == 0:
		return "No opening was measured: what to scribe was not worked out. Measure before cutting any scribe."
	case len(lines) == 0:
		return "No plumb, level or diagonal of the opening was read: what to scribe along each edge is not known. Hold a level to it first."
	}
	return strings.Join(lines, "\n")
}

func spare(r *check.Result) string {
	if r.Values["s"] < 0 {
		return "nothing: " + r.PrintSize("s") + " too much, none"
	}
	return r.Print("s")
}

// fixings lists what the joints are fixed with, and what is open about it.
func (c *crew) fixings() string {
	var lines []string
	for _, jt := range c.job.Joints {
		with := jt.Fastener.Text
		if with == "" && jt.Kind == check.CleatJoint {
			with = "screws not named"
		}
		if with == "" {
			continue
		}
		line := strings.TrimSpace(jt.Mark.Text+" "+string(jt.Kind)) + between(jt) + ": " + with
		if jt.Count.Known && jt.Count.Nominal > 1 {
			line += fmt.Sprintf(" (%g of them)", jt.Count.Nominal)
		}
		lines = append(lines, line)
	}
	for _, id := range []string{"structure.cleat", "fit.screws"} {
		for _, f := range c.found {
			if f.ID == id && f.Verdict >= check.Verify && !f.Accepted() {
				lines = append(lines, Shown(f.Verdict).Word()+"  "+f.Text)
			}
		}
	}
	if len(lines) == 0 {
		return "No screws, cleats or anchors are named in the joints. Ask what holds the pieces, and what holds them to the wall."
	}
	return strings.Join(lines, "\n")
}

func between(jt *check.Joint) string {
	switch {
	case jt.Enters.Text != "" && jt.Into.Text != "":
		return fmt.Sprintf(", %s to %s", jt.Enters.Text, jt.Into.Text)
	case jt.Into.Text != "":
		return ", " + jt.Into.Text
	}
	return ""
}

// accepted is what the lead took on his word.
func (c *crew) accepted() string {
	var lines []string
	for _, f := range c.found {
		if f.Accepted() {
			lines = append(lines, fmt.Sprintf("%s\n   %s: %s", f.Text, f.Accept.By, f.Accept.Why))
		}
	}
	if len(lines) == 0 {
		return "Nothing: every finding stands as it is."
	}
	return strings.Join(lines, "\n")
}

// want is one box for a real size.
type want struct {
	key, what, taken string
	open             int // results that are not CLEAR and rest on it
	rests            int
}

// mostWanted is how many boxes the page has.
const mostWanted = 8

// sites are the sizes on site that a case hangs on: which check holds it against them, by which
// input, and what the crew measures.
var sites = []struct{ id, symbol, what string }{
	{"opening.width", "o", "least width of the opening"},
	{"opening.height", "o", "least height of the opening"},
	{"opening.depth", "o", "least depth of the opening"},
}

// wanted are the sizes to write back: the opening as it is, the slots as they were cut, and what
// nobody measured, first that on which most rests.
func (c *crew) wanted() []want {
	var out []want
	add := func(w want) {
		if !slices.ContainsFunc(out, func(o want) bool { return o.key == w.key }) {
			out = append(out, w)
		}
	}
	for _, s := range sites {
		for _, r := range c.worked(s.id) {
			add(box(s.what, r, r.Row.In[s.symbol].Nominal, check.Length))
		}
	}
	for _, r := range c.worked("fit.joint") {
		add(box(r.Row.Name+" as cut", r, r.Row.In["s"].Nominal, check.Length))
	}
	slots := 2
	out = out[:min(len(out), mostWanted-slots)]
	for _, w := range c.unmeasured() {
		add(w)
	}
	out = out[:min(len(out), mostWanted)]
	for i := range max(0, leastBoxes-len(out)) {
		out = append(out, want{key: fmt.Sprintf("%sanything else|%d", measuredKey, i+1), what: "Anything else: say what under Remark"})
	}
	return out
}

// leastBoxes is how many boxes there are at least: the last are for what nobody thought of.
const leastBoxes = 3

// box asks for a size that was typed or measured.
func box(what string, r *check.Result, taken float64, unit check.Unit) want {
	w := want{key: measuredKey + what + "|" + r.Row.Case, what: capital(what), taken: unit.Print(taken, r.Job.Unit)}
	if r.Row.Case != "" {
		w.what += ", " + r.Row.Case
	}
	return w
}

// unmeasured are the lengths that nobody measured, first those on which most rests that is open.
// A film is one film in all cases; a thickness is that of a part.
func (c *crew) unmeasured() []want {
	at := map[string]*want{}
	var order []string
	for _, id := range slices.Sorted(maps.Keys(c.results)) {
		for _, r := range c.worked(id) {
			for _, in := range r.Check.Inputs {
				v := r.Row.In[in.Symbol]
				size := strings.HasPrefix(in.Measure, "measure ") || strings.HasPrefix(in.Measure, "caliper ")
				if in.Unit != check.Length && in.Unit != check.Film || !size || !v.Ranged() || !v.Unmeasured() {
					continue
				}
				what := strings.ReplaceAll(in.Measure, "the part", r.Row.Words["bare"])
				key := measuredKey + what
				if at[key] == nil {
					at[key] = &want{key: key, what: capital(what), taken: takenAs(r, in)}
					order = append(order, key)
				}
				at[key].rests++
				if r.Verdict >= check.Verify {
					at[key].open++
				}
			}
		}
	}
	var out []want
	for _, key := range order {
		out = append(out, *at[key])
	}
	slices.SortStableFunc(out, func(a, b want) int { return cmp.Or(cmp.Compare(b.open, a.open), cmp.Compare(b.rests, a.rests)) })
	return out
}

// takenAs is what an input was taken to be, with its range; a thickness, which is reckoned as a
// difference from the typed one, as a thickness.
func takenAs(r *check.Result, in check.Input) string {
	v := r.Row.In[in.Symbol]
	typed := 0.0
	if strings.HasPrefix(in.Measure, "caliper") && in.Symbol == "d" {
		typed = r.Row.In["t"].Nominal
	}
	print := func(x float64) string {
		return strings.TrimSuffix(in.Unit.Print(x+typed, r.Job.Unit), " "+r.Job.Unit.String())
	}
	return fmt.Sprintf("%s (%s to %s)", print(v.Nominal), print(v.Low), print(v.High))
}

// subject is what a line speaks of: a mark as it was typed, or words that begin a sentence.
func subject(r *check.Result) string {
	if strings.Contains(r.Row.Name, " ") {
		return capital(r.Row.Name)
	}
	return r.Row.Name
}

func capital(s string) string {
	if s == "" {
		return s
	}
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}
