package write

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfit/check"
	"dryfit/sheet/write/part"
)

// Columns of the working tab. The cases right of the gap work the same formulas at the ends
// of the ranges, so that the verdict word follows when a cell of the schedule changes.
const (
	colSymbol = iota + 1
	colName
	colValue
	colUnit
	colLow
	colHigh
	colFrom
	_
	colCases
)

// workings is the working tab and where each working begins on it.
type workings struct {
	*Page
	host   string
	job    *check.Job
	places *places
	start  map[*check.Result]int
	blocks []block
	near   []*block // those of the overview, in its order
}

// block is one working on the tab.
type block struct {
	result  *check.Result
	finding *check.Finding // nil for a CLEAR result
	folded  bool           // only its title is seen
	head    int            // rows of its title, its steps by symbol, and the margin over the ranges
	row     map[string]int
	worst   int
	hill    int // row of the header of its hill, 0 for none

	near     float64 // margin as a share of a limit, see nearness
	limit    string
	measured bool
}

// mostPerFinding is how many workings one finding shows; rows with the same numbers share one.
const mostPerFinding = 8

func working(rep *check.Report, host string, at *places) *workings {
	w := &workings{Page: NewPage(TabWorking, "Working", "Every number that decides a verdict, as live formulas: change a size in the schedule, and the margin and the word move. "+
		"Right of the table the same formulas stand at the ends of each range. A + at the left opens a working that is folded away."), host: host, job: rep.Job,
		places: at, start: map[*check.Result]int{}}
	w.Wide, w.Frozen = true, 3
	w.Widths = []float64{14, 44, 14, 9, 12, 12, 60, 2}
	w.Area = "A1:G1"
	w.purpose(colFrom)
	w.choose(rep)
	w.overview()
	starts := append(w.failing(), w.paths()...)
	w.Area = fmt.Sprintf("A1:%s", At(colFrom, len(w.Rows))) // nobody files a printed working of what passes
	w.passing()
	w.fillOverview()
	w.Repeated = "1:1"
	w.breakBetween(starts)
	return w
}

// failing adds the workings of the findings and returns the rows in which a printed page may
// begin.
func (w *workings) failing() (starts []int) {
	for i := range w.blocks {
		b := &w.blocks[i]
		if b.finding == nil {
			continue
		}
		starts = append(starts, len(w.Rows)+1)
		w.block(b)
		if b.hill > 0 {
			starts = append(starts, b.hill)
		}
	}
	return starts
}

// passing adds the workings of what passes, folded away.
func (w *workings) passing() {
	first := true
	for i := range w.blocks {
		if b := &w.blocks[i]; b.finding == nil {
			if first {
				w.Add(Text("What passes: of each check the row that would fail first", Look{Ink: Ink, Bold: true, Size: 12}))
				first = false
			}
			w.block(b)
		}
	}
}

// choose lists the workings: those of each finding, only the worst of them open; then for each
// check the CLEAR row with the least margin, what would fail first.
func (w *workings) choose(rep *check.Report) {
	for _, f := range rep.Findings {
		shown := 0
		for _, r := range f.Results {
			if len(r.Values) > 0 && shown < mostPerFinding {
				w.blocks = append(w.blocks, block{result: r, finding: f, folded: shown > 0})
				shown++
			}
		}
	}
	for _, r := range closest(rep.Clear) {
		w.blocks = append(w.blocks, block{result: r, folded: true})
	}
}

// closest are the CLEAR results with the least margin of each check.
func closest(clear []*check.Result) []*check.Result {
	best := map[*check.Check]int{}
	var out []*check.Result
	for _, r := range clear {
		if r.Check.Root {
			continue // counts and readings: nothing that could come close
		}
		switch i, seen := best[r.Check]; {
		case !seen:
			best[r.Check] = len(out)
			out = append(out, r)
		case r.Worst < out[i].Worst:
			out[i] = r
		}
	}
	return out
}

// block adds one working: the word, the inputs with their ranges, the steps, and the margin at
// the worst of the ranges.
func (w *workings) block(b *block) {
	r := b.result
	b.head = w.Add()
	w.start[r] = b.head
	columns := caseColumns(r)
	w.header(columns)
	lines := ordered(r)
	b.row = map[string]int{}
	for i, l := range slices.Concat(lines.taking, lines.idle, lines.steps) {
		b.row[l.Symbol] = b.head + 2 + i
		if len(lines.idle) > 0 && i >= len(lines.taking) {
			b.row[l.Symbol]++ // below the line that names the idle ones
		}
	}
	w.lines(b, lines, columns)
	last := lines.steps[len(lines.steps)-1]
	margin := b.row[last.Symbol]
	b.worst = w.worst(r, last, margin, columns)
	w.hill(b)
	w.title(b, liveWord(r, margin, b.worst, b.row[r.Check.Quiet], columns))
	if b.folded {
		w.Folded = append(w.Folded, [2]int{b.head + 1, len(w.Rows)})
	}
	if w.Add(); b.folded {
		w.Heights[len(w.Rows)] = 3
	}
}

func (w *workings) header(columns []column) {
	row := []Cell{Text("Symbol", HeadLook), Text("What it is", HeadLook), Text("Value", numberHead), Text("Unit", HeadLook),
		Text("Lowest", numberHead), Text("Highest", numberHead), Text("Formula, or where it comes from", HeadLook), {}}
	for _, c := range columns {
		row = append(row, Text(c.name, Look{Fill: headFill, Ink: Faint, Size: 8, Wrap: true}))
	}
	w.Add(row...)
}

// column is one case: the inputs that stand at an end of their range.
type column struct {
	name string
	ends map[string]end
}

// end is where an input stands in a case: at its low or high end, or at a value found.
type end struct {
	col   int // colLow or colHigh; 0 for a value
	value float64
}

// caseColumns are the cases that the verdict rests on: all corners of up to three ranges, or
// each of more ranges at its two ends; and the guesses at their kindest.
func caseColumns(r *check.Result) []column {
	var out []column
	if r.AtCorners() {
		n := len(r.Ranged)
		for bits := 0; bits < 1<<n && n > 0; bits++ {
			c := column{ends: map[string]end{}}
			var names []string
			for i, s := range r.Ranged {
				side, word := colLow, "low"
				if bits>>i&1 == 1 {
					side, word = colHigh, "high"
				}
				c.ends[s] = end{col: side}
				names = append(names, s+" "+word)
			}
			c.name = strings.Join(names, ", ")
			out = append(out, c)
		}
	} else {
		for _, s := range r.Ranged {
			out = append(out, column{s + " low", map[string]end{s: {col: colLow}}}, column{s + " high", map[string]end{s: {col: colHigh}}})
		}
	}
	if r.Kindest != nil {
		c := column{"guesses at their kindest", map[string]end{}}
		for s, x := range r.Kindest {
			c.ends[s] = end{value: x}
		}
		out = append(out, c)
	}
	return out
}

// lines adds the inputs, those that are zero and take no part folded away under a line that names
// them, and the steps.
func (w *workings) lines(b *block, lines ordering, columns []column) {
	for _, l := range lines.taking {
		w.input(b.result, l, b.row[l.Symbol], columns)
	}
	if len(lines.idle) > 0 {
		w.idle(b, lines.idle, columns)
	}
	worked := w.cases(b.result, columns)
	for i, l := range lines.steps {
		w.step(b.result, l, i, b.row, worked)
	}
}

// idle adds the inputs that take no part.
func (w *workings) idle(b *block, lines []check.Line, columns []column) {
	var names []string
	for _, l := range lines {
		names = append(names, l.Symbol)
	}
	head := w.Add(Text("", BodyLook), Text("zero here, and folded away: "+strings.Join(names, ", "), Look{Ink: Faint, Wrap: true, Line: true}),
		Cell{Look: BodyLook}, Cell{Look: BodyLook}, Cell{Look: BodyLook}, Cell{Look: BodyLook}, Cell{Look: BodyLook})
	w.Tall(head, 0)
	for _, l := range lines {
		w.input(b.result, l, b.row[l.Symbol], columns)
	}
	if !b.folded {
		w.Folded = append(w.Folded, [2]int{head + 1, len(w.Rows)})
	}
}

// ordering is the lines of a working: the inputs that take part, those that do not, the steps.
type ordering struct{ taking, idle, steps []check.Line }

// ordered parts the lines of a working. A single idle input stays among the others.
func ordered(r *check.Result) ordering {
	var o ordering
	for _, l := range r.Lines() {
		switch {
		case l.Formula != "":
			o.steps = append(o.steps, l)
		case takesNoPart(r, l):
			o.idle = append(o.idle, l)
		default:
			o.taking = append(o.taking, l)
		}
	}
	if len(o.idle) > 1 && len(o.taking) > 0 {
		return o
	}
	o.taking, o.idle = nil, nil
	for _, l := range r.Lines() {
		if l.Formula == "" {
			o.taking = append(o.taking, l)
		}
	}
	return o
}

// takesNoPart reports whether an input is a zero that nobody typed and nothing is held against:
// a scribe that is not there, a notch that was not cut.
func takesNoPart(r *check.Result, l check.Line) bool {
	v := l.Input
	zero := v.Low == 0 && v.Nominal == 0 && v.High == 0
	return zero && v.From == (check.Cell{}) && l.Symbol != r.Check.Value && !slices.Contains(r.Check.Against, l.Symbol)
}

func (w *workings) input(r *check.Result, l check.Line, row int, columns []column) {
	v := l.Input
	format := Look{Ink: Ink, Line: true, Format: numberFormat(l)}
	value := Number(v.Nominal, format)
	if ref := w.linked(v); ref != "" {
		value.Formula = ref
		value.Look.Fill = typeFill
	}
	cells := []Cell{Text(l.Symbol, BodyLook), Text(l.Name, BodyLook), value, Text(l.Unit, BodyLook),
		w.end(v.Low, v, row, format), w.end(v.High, v, row, format), Text(from(v), BodyLook), {}}
	cells = slices.Grow(cells, len(columns))
	for _, c := range columns {
		x, formula := v.Nominal, At(colValue, row)
		switch e, moved := c.ends[l.Symbol]; {
		case moved && e.col == colLow:
			x, formula = v.Low, At(colLow, row)
		case moved && e.col == colHigh:
			x, formula = v.High, At(colHigh, row)
		case moved:
			x, formula = e.value, offset(At(colValue, row), e.value-v.Nominal)
		}
		cells = append(cells, Cell{Value: x, Formula: formula, Look: caseLook(l)})
	}
	if to := target(v.From, w.host); to != "" {
		at := colFrom
		if !w.oneLine(at, from(v), LinkLook) {
			at = colSymbol
		}
		cells[at-1].Look = LinkLook
		w.Links = append(w.Links, Link{At: At(at, row), To: to, Tip: "the cell it was read in"})
	}
	w.Tall(w.Add(cells...), 0)
}

// end is the low or high end of a range, moving with the value. A low end of zero may not come
// out a hair below it by rounding: rounded up, that would be a whole one less.
func (w *workings) end(x float64, v check.Value, row int, l Look) Cell {
	formula := offset(At(colValue, row), x-v.Nominal)
	if x < v.Nominal && math.Abs(x) < 1e-12*math.Abs(v.Nominal) {
		x, formula = 0, "MAX(0,"+formula+")"
	}
	return Cell{Value: x, Formula: formula, Look: l}
}

// offset writes a cell plus a constant.
func offset(ref string, by float64) string {
	switch {
	case by == 0:
		return ref
	case by < 0:
		return fmt.Sprintf("%s-%s", ref, exact(-by))
	}
	return fmt.Sprintf("%s+%s", ref, exact(by))
}

func exact(x float64) string { return strings.ReplaceAll(fmt.Sprintf("%.15g", x), "e+", "E") }

// linked is the cell of the schedule behind an input, when that cell holds the plain number.
func (w *workings) linked(v check.Value) string {
	if !v.Plain || v.From.Book != w.host || v.From.Addr == "" {
		return ""
	}
	return Quote(v.From.Tab) + "!" + v.From.Addr
}

func from(v check.Value) string {
	var parts []string
	if v.From.Addr != "" {
		parts = append(parts, v.From.String())
	}
	if v.Why != "" {
		parts = append(parts, v.Why)
	}
	s := strings.Join(parts, "; ")
	if v.Guessed {
		return "taken as: " + s
	}
	return s
}

// cases works a result out in each of its columns; nil where that cannot be done.
func (w *workings) cases(r *check.Result, columns []column) []map[string]float64 {
	var out []map[string]float64
	for _, c := range columns {
		values, err := r.Check.Work(w.inputs(r, c))
		if err != nil {
			values = nil
		}
		out = append(out, values)
	}
	return out
}

func (w *workings) step(r *check.Result, l check.Line, i int, rowOf map[string]int, worked []map[string]float64) {
	const column = "\x01" // no formula holds it
	formula := r.Check.Formula(i).Print(func(s string) string { return column + strconv.Itoa(rowOf[s]) })
	in := func(col int) string { return strings.ReplaceAll(formula, column, string(part.AppendColumn(nil, col))) }
	format := Look{Ink: Ink, Line: true, Format: numberFormat(l)}
	cells := []Cell{Text(l.Symbol, BodyLook), Text(l.Name, BodyLook), {Value: l.Value, Formula: in(colValue), Look: format},
		Text(l.Unit, BodyLook), {Look: BodyLook}, {Look: BodyLook}, Text("= "+l.Formula, BodyLook), {}}
	cells = slices.Grow(cells, len(worked))
	for c, values := range worked {
		x := values[l.Symbol]
		if values == nil || math.IsInf(x, 0) || math.IsNaN(x) {
			cells = append(cells, Cell{Formula: in(colCases + c), Look: caseLook(l)})
			continue
		}
		cells = append(cells, Cell{Value: x, Formula: in(colCases + c), Look: caseLook(l)})
	}
	w.Tall(w.Add(cells...), 0)
}

// inputs are the numbers a case works with.
func (w *workings) inputs(r *check.Result, c column) map[string]float64 {
	out := map[string]float64{}
	for _, in := range r.Check.Inputs {
		v := r.Row.In[in.Symbol]
		x := v.Nominal
		if e, ok := c.ends[in.Symbol]; ok {
			x = map[int]float64{colLow: v.Low, colHigh: v.High, 0: e.value}[e.col]
		}
		out[in.Symbol] = x
	}
	return out
}

// worst adds the row with the margin, whose line is l, at the worst of the ranges and returns its number.
func (w *workings) worst(r *check.Result, l check.Line, margin int, columns []column) int {
	formula, how := At(colValue, margin), "no input has a range"
	n := len(columns)
	if r.Kindest != nil {
		n--
	}
	switch {
	case len(r.Ranged) == 0:
	case r.AtCorners():
		formula = fmt.Sprintf("MIN(%s,%s:%s)", At(colValue, margin), At(colCases, margin), At(colCases+n-1, margin))
		how = "least margin at the corners of the ranges together"
	default:
		var squares []string
		for i := 0; i < n; i += 2 {
			squares = append(squares, fmt.Sprintf("MAX(0,%[1]s-MIN(%[2]s,%[3]s))^2", At(colValue, margin), At(colCases+i, margin), At(colCases+i+1, margin)))
		}
		formula = fmt.Sprintf("%s-SQRT(%s)", At(colValue, margin), strings.Join(squares, "+"))
		how = "margin less the root-sum-square of what each range costs alone"
	}
	return w.Add(Text("", BodyLook), Text("margin over the ranges", BodyLook),
		Cell{Value: r.Worst, Formula: formula, Look: Look{Ink: Ink, Line: true, Bold: true, Format: numberFormat(l)}},
		Text(l.Unit, BodyLook), Cell{Look: BodyLook}, Cell{Look: BodyLook}, Text(how, BodyLook))
}

// liveWord is the verdict as a formula over the margin at the nominals, the margin with the
// guesses at their kindest, the margin over the ranges, and the step below which a check
// says nothing.
func liveWord(r *check.Result, margin, worst, quiet int, columns []column) string {
	best := At(colValue, margin)
	if r.Kindest != nil {
		best = fmt.Sprintf("MAX(%s,%s)", best, At(colCases+len(columns)-1, margin))
	}
	loudest := Shown(check.Hold)
	if r.Row.Most == check.Verify {
		loudest = Shown(check.Verify)
	}
	fails := At(colValue, worst) + "<-0.000000001"
	if quiet > 0 {
		fails = fmt.Sprintf("AND(%s,%s<-0.000000001)", fails, At(colValue, quiet))
	}
	return fmt.Sprintf("IF(%s<-0.000000001,\"%s\",IF(%s,\"%s\",\"%s\"))", best, loudest.Word(), fails,
		Shown(check.Verify).Word(), Shown(check.Clear).Word())
}

// title fills the first row of a working: the word, live, what it speaks of, and the way back.
func (w *workings) title(b *block, word string) {
	r, head := b.result, b.head
	shown := Cell{Value: Shown(r.Verdict).Word(), Look: Look{Bold: true, Ink: Ink, Line: true}, Formula: word}
	says := r.Check.ID + "   " + r.Row.Name
	if b.finding != nil && r == b.finding.Results[0] {
		says = r.Check.ID + "   " + b.finding.Text
	}
	row := []Cell{shown, Text(says, Look{Ink: Ink, Bold: true, Wrap: true, Line: true}), {}, {}, {}, {}, {}, {}}
	for i := colValue; i <= colFrom; i++ {
		row[i-1].Look = Look{Line: true}
	}
	last := colFrom
	if b.finding != nil {
		last = colFrom - 1
		row[colFrom-1] = Text("to its line on the flagged tab", LinkLook)
		w.Links = append(w.Links, w.places.toFinding(At(colFrom, head), b.finding))
	}
	w.Rows[head-1] = row
	w.Merges = append(w.Merges, At(colName, head)+":"+At(last, head))
	w.Tall(head, 0)
	if w.words != "" {
		w.words += " "
	}
	w.words += fmt.Sprintf("A%d", head)
}

func caseLook(l check.Line) Look {
	return Look{Ink: Faint, Size: 8, Format: numberFormat(l)}
}

// numberFormat shows a value with as many places as its unit deserves.
func numberFormat(l check.Line) string {
	x := math.Abs(l.Value)
	switch {
	case l.Kind == check.Count:
		return "0"
	case l.Kind == check.Share:
		return "0.0%"
	case x >= 10000:
		return "#,##0"
	case x != 0 && x < 0.0005:
		return "0.000000"
	case l.Unit == "mm":
		return "0.00"
	}
	return "0.0000"
}
