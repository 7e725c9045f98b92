package write

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/opening"
)

// Columns of the install tab. The boxes for real sizes take the last ones.
const (
	insOrder = iota + 1
	insMark
	insPart
	insSize
	insQty
	insWeight
	insHand
	insPeople
	insKept
)

var (
	crewLook  = Look{Ink: Ink, Wrap: true, Line: true, Size: 11}
	crewBold  = Look{Ink: Ink, Wrap: true, Line: true, Size: 11, Bold: true}
	crewCount = Look{Ink: Ink, Line: true, Size: 11, Centre: true, Wrap: true}
	crewHead  = Look{Fill: headFill, Ink: Ink, Bold: true, Wrap: true, Line: true}
	crewTitle = Look{Ink: Ink, Bold: true, Size: 13}
	crewBox   = Look{Fill: typeFill, Ink: Ink, Wrap: true, Line: true, Typed: true, Size: 11}
)

// install is the page for the crew: what to carry and how heavy it is, in which order it goes
// together, what to ease, scribe and fix, and boxes for the real sizes. nil where the job has
// no pieces and nobody wrote a size.
func install(rep *check.Report, typed Typed) *Page {
	sizes := sizesTyped(typed)
	if len(rep.Job.Cases()) == 0 && len(sizes) == 0 {
		return nil
	}
	p := NewPage(TabInstall, "To install: "+rep.Job.Name, "For the crew. Lengths in "+spelled(rep.Job.Unit)+", weights in "+check.Weight.In(rep.Job.Unit)+
		", without hardware, glass and finish. A line that says what is missing wants an answer before the van is loaded.")
	p.Widths = []float64{7, 9, 21, 26, 9, 12, 8, 12, 8}
	p.Hidden = [2]int{insKept, insKept}
	p.purpose(insPeople)
	c := newCrew(rep)
	p.topics(c.first())
	p.pieces(c)
	c.begin(p, "On the way in, and together", 1)
	p.topics(c.goesIn())
	c.begin(p, "At the wall", 1)
	p.topics(c.atTheWall())
	p.realSizes(c, sizes)
	p.Area = fmt.Sprintf("A1:%s", At(insPeople, len(p.Rows)))
	p.Repeated = "1:1"
	p.OnePage = p.high(1, len(p.Rows)) < mostShrunk*p.pageRoom()
	if !p.OnePage {
		p.breakBetween(c.blocks(p))
	}
	return p
}

// mostShrunk is how many pages' worth of rows are shrunk to one page: by no more than a quarter.
const mostShrunk = 1.3

// begin starts a part of the page. Its title stays on one printed page with so many rows.
func (c *crew) begin(p *Page, text string, rows int) {
	row := p.Add()
	p.Heights[row] = 6
	p.Heights[p.Add(Text(text, crewTitle))] = 19
	for i := range rows + 1 {
		c.glued[row+1+i] = true
	}
}

// blocks are the rows in which a printed page may begin.
func (c *crew) blocks(p *Page) []int {
	var out []int
	for row := 1; row <= len(p.Rows); row++ {
		if !c.glued[row] {
			out = append(out, row)
		}
	}
	return out
}

// topic is a line for the crew: what it is about, and what to know.
type topic struct{ about, know string }

// topics adds lines with the topic at the left and the words right of it.
func (p *Page) topics(ts []topic) {
	for _, t := range ts {
		row := make([]Cell, insPeople)
		for i := range row {
			row[i].Look = crewLook
		}
		row[0], row[insPart-1] = Text(t.about, crewBold), Text(t.know, crewLook)
		n := p.Add(row...)
		p.Merges = append(p.Merges, At(1, n)+":"+At(insMark, n), At(insPart, n)+":"+At(insPeople, n))
		p.Tall(n, 19)
	}
}

// pieces is the list of what is carried, in the order in which it goes together where the laps
// give one.
func (p *Page) pieces(c *crew) {
	c.begin(p, "Pieces, in the order of carrying and putting together", 3)
	var heads []Cell
	for _, h := range []string{"Order", "Mark", "Piece", "Size", "How many", "Each weighs", "Hand", "People to lift"} {
		heads = append(heads, Text(h, crewHead))
	}
	p.Tall(p.Add(heads...), 0)
	cases := c.job.Cases()
	for _, box := range cases {
		if len(cases) > 1 {
			row := p.Add(Text(box.Label(), crewBold))
			for range insPeople - 1 {
				p.Rows[row-1] = append(p.Rows[row-1], Cell{Look: crewBold})
			}
			p.Merges = append(p.Merges, At(1, row)+":"+At(insPeople, row))
			p.Tall(row, 19)
		}
		for _, part := range c.inOrder(box) {
			p.piece(c, part)
		}
	}
}

func (p *Page) piece(c *crew, part *check.Part) {
	weight, people := "sizes missing", ""
	if r, ok := opening.Piece(c.job, part); ok {
		weight, people = weighs(r), r.Print("N")
	}
	order := ""
	if n := c.place[part]; n > 0 {
		order = fmt.Sprint(n)
	}
	row := p.Add(Text(order, crewCount), Text(part.Mark.Text, crewBold), Text(part.Description.Text, crewLook), Text(sizes(c.job, part), crewLook),
		Text(quantity(part.Qty), crewCount), Text(weight, crewCount), Text(hands[part.Hand], crewCount), Text(people, crewCount))
	p.Tall(row, 19)
}

var hands = map[string]string{"L": "left", "R": "right"}

// sizes are the three sizes of a part in a line.
func sizes(j *check.Job, p *check.Part) string {
	var out []string
	for _, s := range p.Sizes() {
		if s.Value.Known {
			out = append(out, strings.TrimSuffix(j.Len(s.Value.Nominal), " "+j.Unit.String()))
		}
	}
	return strings.Join(out, " x ")
}

// weighs is the weight of a piece in whole units; its range where the density could be over a
// tenth more: nobody knows then what it is made of.
func weighs(r *check.Result) string {
	unit := check.Weight.In(r.Job.Unit)
	if v := r.Row.In["r"]; v.High > 1.1*v.Nominal {
		if low, high := whole(weightAt(r, v.Low)), whole(weightAt(r, v.High)); low != high {
			return fmt.Sprintf("%s to %s %s", low, high, unit)
		}
	}
	return whole(r.Values["W"]) + " " + unit
}

// weightAt is the weight of a piece at another density.
func weightAt(r *check.Result, density float64) float64 {
	in := map[string]float64{}
	for s, v := range r.Row.In {
		in[s] = v.Nominal
	}
	in["r"] = density
	worked, err := r.Check.Work(in)
	if err != nil {
		return r.Values["W"]
	}
	return worked["W"]
}

// whole rounds a weight to what a person feels: up, and a light one to a half.
func whole(x float64) string {
	if x < 5 {
		return fmt.Sprintf("%g", math.Ceil(2*x)/2)
	}
	return fmt.Sprintf("%.0f", math.Ceil(x))
}

// realSizes are the boxes in which the crew writes what it measured. They are kept when the job
// is checked again, those too that nobody asks for any more.
func (p *Page) realSizes(c *crew, typed Typed) {
	c.begin(p, "Real sizes: measure, and write them here", 3)
	note := p.Add(Text("They stay when the job is checked again. From ten readings of a stack, a film or a slot on, the calibration tab of the standards makes them the shop's own.", SmallLook))
	p.Merges = append(p.Merges, At(1, note)+":"+At(insPeople, note))
	p.Tall(note, 14)
	heads := []Cell{Text("Measure", crewHead), {Look: crewHead}, {Look: crewHead}, Text("Taken as", crewHead)}
	for i, h := range MeasuredHeads {
		look := crewHead
		if i == len(MeasuredHeads)-1 {
			look = PlainLook
		}
		heads = append(heads, Text(h, look))
	}
	row := p.Add(heads...)
	p.Merges = append(p.Merges, At(1, row)+":"+At(insPart, row))
	p.Tall(row, 0)
	asked := map[string]bool{}
	for _, w := range c.wanted() {
		asked[w.key] = true
		p.box(w, typed[w.key])
	}
	for _, key := range sorted(typed) {
		if !asked[key] && !typed[key].Silent() {
			what := strings.Split(strings.TrimPrefix(key, measuredKey), "|")
			p.box(want{key: key, what: capital(strings.Join(what, ", ")), taken: "asked for no more"}, typed[key])
		}
	}
}

func (p *Page) box(w want, s Said) {
	boxes := TypedCells(Kept{Key: w.key}, s)
	for i := range boxes[:4] {
		boxes[i].Look = crewBox
	}
	row := p.Add(append([]Cell{Text(w.what, crewLook), {Look: crewLook}, {Look: crewLook}, Text(w.taken, crewLook)}, boxes...)...)
	p.Merges = append(p.Merges, At(1, row)+":"+At(insPart, row))
	p.Tall(row, 22)
}

// sizesTyped are the real sizes among what people typed.
func sizesTyped(typed Typed) Typed {
	out := Typed{}
	for key, s := range typed {
		if Measured(key) {
			out[key] = s
		}
	}
	return out
}

// inOrder are the pieces of a case, those first that must be in before others.
func (c *crew) inOrder(box check.Case) []*check.Part {
	out := slices.Clone(box.Parts)
	slices.SortStableFunc(out, func(a, b *check.Part) int {
		last := len(c.job.Parts) + 1
		return cmp.Compare(cmp.Or(c.place[a], last), cmp.Or(c.place[b], last))
	})
	return out
}
