package write

import (
	"fmt"
	"math"
	"strings"

	"dryfit/check"
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
	*page
	host  string
	job   *check.Job
	start map[*check.Result]int
}

// mostPerFinding is how many workings one finding shows; rows with the same numbers share one.
const mostPerFinding = 8

func working(rep *check.Report, host string) *workings {
	w := &workings{page: newPage(TabWorking, "Working", "Every number that decides a verdict, as live formulas. Change a size in the schedule: the margin and the word move. "+
		"Right of the table the same formulas stand at the ends of each range."), host: host, job: rep.Job, start: map[*check.Result]int{}}
	w.wide, w.frozen = true, 3
	w.widths = []float64{9, 44, 14, 9, 12, 12, 62, 2}
	for _, f := range rep.Findings {
		shown := 0
		for _, r := range f.Results {
			if len(r.Values) > 0 && shown < mostPerFinding {
				w.result(r, f)
				shown++
			}
		}
	}
	w.closest(rep.Clear)
	w.area = fmt.Sprintf("A1:%s", at(colFrom, len(w.rows)))
	w.repeated = "1:1"
	return w
}

// closest adds, for each check, the CLEAR row with the least margin against its limit: what
// would fail first.
func (w *workings) closest(clear []*check.Result) {
	best := map[*check.Check]*check.Result{}
	var order []*check.Check
	for _, r := range clear {
		if r.Check.Root {
			continue // counts and readings: nothing that could come close
		}
		switch b := best[r.Check]; {
		case b == nil:
			order = append(order, r.Check)
			best[r.Check] = r
		case r.Worst < b.Worst:
			best[r.Check] = r
		}
	}
	for _, c := range order {
		w.result(best[c], nil)
	}
}

// result adds one working: the word, the inputs with their ranges, the steps, and the
// margin at the worst of the ranges.
func (w *workings) result(r *check.Result, f *check.Finding) {
	head := w.add()
	w.start[r] = head
	lines := r.Lines()
	columns := caseColumns(r)
	w.header(columns)
	rowOf := map[string]int{}
	for i, l := range lines {
		rowOf[l.Symbol] = head + 2 + i
	}
	step := 0
	for _, l := range lines {
		if l.Formula == "" {
			w.input(r, l, rowOf[l.Symbol], columns)
			continue
		}
		w.step(r, l, step, rowOf, columns)
		step++
	}
	last := rowOf[lines[len(lines)-1].Symbol]
	worst := w.worst(r, last, columns)
	w.title(r, f, head, last, worst, columns)
	w.add()
}

func (w *workings) header(columns []column) {
	row := []cell{text("Symbol", headLook), text("What it is", headLook), text("Value", headLook), text("Unit", headLook),
		text("Lowest", headLook), text("Highest", headLook), text("Formula, or where it comes from", headLook), {}}
	for _, c := range columns {
		row = append(row, text(c.name, look{fill: headFill, ink: faint, size: 8, wrap: true}))
	}
	w.add(row...)
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

func (w *workings) input(r *check.Result, l check.Line, row int, columns []column) {
	v := l.Input
	format := look{ink: ink, line: true, format: numberFormat(l)}
	value := number(v.Nominal, format)
	if ref := w.linked(v); ref != "" {
		value.formula = ref
		value.look.fill = typeFill
	}
	cells := []cell{text(l.Symbol, bodyLook), text(l.Name, bodyLook), value, text(l.Unit, bodyLook),
		w.end(v.Low, v, row, format), w.end(v.High, v, row, format), text(from(v), bodyLook), {}}
	for _, c := range columns {
		x, formula := v.Nominal, at(colValue, row)
		switch e, moved := c.ends[l.Symbol]; {
		case moved && e.col == colLow:
			x, formula = v.Low, at(colLow, row)
		case moved && e.col == colHigh:
			x, formula = v.High, at(colHigh, row)
		case moved:
			x, formula = e.value, offset(at(colValue, row), e.value-v.Nominal)
		}
		cells = append(cells, cell{value: x, formula: formula, look: caseLook(l)})
	}
	w.tall(w.add(cells...), 0)
}

// end is the low or high end of a range, moving with the value.
func (w *workings) end(x float64, v check.Value, row int, l look) cell {
	return cell{value: x, formula: offset(at(colValue, row), x-v.Nominal), look: l}
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
	return quote(v.From.Tab) + "!" + v.From.Addr
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

func (w *workings) step(r *check.Result, l check.Line, i int, rowOf map[string]int, columns []column) {
	f := r.Check.Formula(i)
	in := func(col int) string {
		return f.Print(func(s string) string { return at(col, rowOf[s]) })
	}
	format := look{ink: ink, line: true, format: numberFormat(l)}
	cells := []cell{text(l.Symbol, bodyLook), text(l.Name, bodyLook), {value: l.Value, formula: in(colValue), look: format},
		text(l.Unit, bodyLook), {look: bodyLook}, {look: bodyLook}, text("= "+l.Formula, bodyLook), {}}
	for c, column := range columns {
		values, err := r.Check.Work(w.inputs(r, column))
		x := values[l.Symbol]
		if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
			cells = append(cells, cell{formula: in(colCases + c), look: caseLook(l)})
			continue
		}
		cells = append(cells, cell{value: x, formula: in(colCases + c), look: caseLook(l)})
	}
	w.tall(w.add(cells...), 0)
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

// worst adds the row with the margin at the worst of the ranges and returns its number.
func (w *workings) worst(r *check.Result, margin int, columns []column) int {
	formula, how := at(colValue, margin), "no input has a range"
	n := len(columns)
	if r.Kindest != nil {
		n--
	}
	switch {
	case len(r.Ranged) == 0:
	case r.AtCorners():
		formula = fmt.Sprintf("MIN(%s,%s:%s)", at(colValue, margin), at(colCases, margin), at(colCases+n-1, margin))
		how = "least margin at the corners of the ranges together"
	default:
		var squares []string
		for i := 0; i < n; i += 2 {
			squares = append(squares, fmt.Sprintf("MAX(0,%[1]s-MIN(%[2]s,%[3]s))^2", at(colValue, margin), at(colCases+i, margin), at(colCases+i+1, margin)))
		}
		formula = fmt.Sprintf("%s-SQRT(%s)", at(colValue, margin), strings.Join(squares, "+"))
		how = "margin less the root-sum-square of what each range costs alone"
	}
	lines := r.Lines()
	l := lines[len(lines)-1]
	return w.add(text("", bodyLook), text("margin over the ranges", bodyLook),
		cell{value: r.Worst, formula: formula, look: look{ink: ink, line: true, bold: true, format: numberFormat(l)}},
		text(l.Unit, bodyLook), cell{look: bodyLook}, cell{look: bodyLook}, text(how, bodyLook))
}

// title fills the first row of a working: the word, live, and what it speaks of.
func (w *workings) title(r *check.Result, f *check.Finding, head, margin, worst int, columns []column) {
	best := at(colValue, margin)
	if r.Kindest != nil {
		best = fmt.Sprintf("MAX(%s,%s)", best, at(colCases+len(columns)-1, margin))
	}
	loudest := shown(check.Hold)
	if r.Row.Most == check.Verify {
		loudest = shown(check.Verify)
	}
	word := cell{value: shown(r.Verdict).word(), look: look{bold: true, ink: ink, line: true},
		formula: fmt.Sprintf("IF(%s<-0.000000001,\"%s\",IF(%s<-0.000000001,\"%s\",\"%s\"))", best, loudest.word(),
			at(colValue, worst), shown(check.Verify).word(), shown(check.Clear).word())}
	says := r.Check.ID + "   " + r.Row.Name
	if f != nil && r == f.Results[0] {
		says = r.Check.ID + "   " + f.Text
	}
	row := []cell{word, {look: look{line: true}}, text(says, look{ink: ink, bold: true}), {}, {}, {}, {}, {}}
	w.rows[head-1] = row
	w.merges = append(w.merges, fmt.Sprintf("A%d:B%d", head, head), fmt.Sprintf("C%d:G%d", head, head))
	w.heights[head] = 20
	if w.words != "" {
		w.words += " "
	}
	w.words += fmt.Sprintf("A%d", head)
}

func caseLook(l check.Line) look {
	return look{ink: faint, size: 8, format: numberFormat(l)}
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
