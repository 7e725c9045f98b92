package schedule

import (
	"fmt"
	"math"
	"strconv"

	"dryfit/check"
)

// Totals asks whether the number of pieces that the office typed under its rows is that of
// the rows. A total may count pieces, pieces with hardware and layers, or rows; the nearest
// of these is what it is held against.
var Totals = &check.Check{
	ID:      "schedule.totals",
	Asks:    "Do the pieces counted under the rows agree with the rows?",
	Costs:   "a row that was dropped or typed twice, found at the truck",
	Applies: "every total of pieces typed under a table or a case",
	Inputs: []check.Input{
		{Symbol: "n", Name: "pieces as typed", Unit: check.Count},
		{Symbol: "s", Name: "pieces in the rows above", Unit: check.Count},
	},
	Steps: []check.Step{
		{Symbol: "o", Name: "off by", Formula: "ABS(n-s)", Unit: check.Count},
		{Symbol: "m", Name: "no piece too many or too few", Formula: "0-o", Unit: check.Count},
	},
	NoMend:  "count the pieces again, and look for a row dropped or typed twice",
	Source:  []check.Source{{Title: "a total is the sum of its rows", How: "common practice"}},
	Limits:  "Money and areas are not asked. A total that is a formula over the same cells agrees by itself.",
	Until:   check.Released,
	Value:   "n",
	Against: []string{"s"},
	Fails:   "TOTAL 19 under rows that make 18",
	Mended:  "TOTAL 18",
	Rows:    totalRows,
	Says: func(r *check.Result) string {
		return fmt.Sprintf("says %s pieces, the rows above make %s", r.Print("n"), r.Print("s"))
	},
}

func totalRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, t := range j.Totals {
		ps := above(j, t)
		if !t.Pieces.Known || len(ps) == 0 {
			continue
		}
		r := check.Row{Case: t.Case.Text, Name: "total in " + t.Pieces.From.String(), Cells: []check.Cell{t.Pieces.From},
			Cause: "pieces", Most: check.Verify}
		sum, ok := nearestSum(ps, t.Pieces.Nominal)
		if !ok {
			continue // a row without a quantity is told by schedule.read
		}
		r.In = map[string]check.Value{"n": t.Pieces, "s": check.Exact(sum)}
		out = append(out, r)
	}
	return out
}

// above are the rows that a total stands under: of its case where it closes one, else of its
// tab, as many as were read above it.
func above(j *check.Job, t check.Total) []*check.Part {
	var out []*check.Part
	for _, p := range j.Parts {
		if p.Row.Book != t.From.Book || p.Row.Tab != t.From.Tab || lineNumber(p.Row) >= lineNumber(t.From) {
			continue
		}
		out = append(out, p)
	}
	if t.Rows > 0 && len(out) > t.Rows {
		out = out[len(out)-t.Rows:]
	}
	var own []*check.Part
	for _, p := range out {
		if p.Case == t.Case {
			own = append(own, p)
		}
	}
	if t.Case.Text != "" && len(own) > 0 && len(own) < len(out) && !closesAll(j, t) {
		return own
	}
	return out
}

// closesAll reports whether no other total stands in the tab: then one under the last case is
// that of all of them.
func closesAll(j *check.Job, t check.Total) bool {
	for _, o := range j.Totals {
		if o.From != t.From && o.From.Book == t.From.Book && o.From.Tab == t.From.Tab {
			return false
		}
	}
	return true
}

func lineNumber(c check.Cell) int {
	digits := 0
	for digits < len(c.Addr) && (c.Addr[digits] < '0' || c.Addr[digits] > '9') {
		digits++
	}
	n, _ := strconv.Atoi(c.Addr[digits:])
	return n
}

// nearestSum is what the rows come to, counted in the way that comes nearest to n: parts
// alone, with hardware, with the layers of built-up parts, or rows.
func nearestSum(ps []*check.Part, n float64) (float64, bool) {
	parts, hardware, layers, rows := 0.0, 0.0, 0.0, 0.0
	for _, p := range ps {
		if !p.Qty.Known {
			return 0, false
		}
		switch {
		case p.Of != "":
			layers += p.Qty.Nominal
		case p.Role == check.NotAPart:
			hardware += p.Qty.Nominal
		default:
			parts += p.Qty.Nominal
		}
		rows++
	}
	best := parts
	for _, s := range []float64{parts + hardware, parts + layers, parts + hardware + layers, rows} {
		if math.Abs(s-n) < math.Abs(best-n) && (s == n || s != rows) {
			best = s
		}
	}
	return best, true
}
