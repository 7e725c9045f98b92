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
		sets := above(j, t)
		if !t.Pieces.Known || len(sets) == 0 {
			continue
		}
		r := check.Row{Case: t.Case.Text, Name: "The total", Cells: []check.Cell{t.Pieces.From},
			Cause: "pieces", Most: check.Verify}
		sum, ok := nearestSum(sets, t.Pieces.Nominal)
		if !ok {
			continue
		}
		r.In = map[string]check.Value{"n": t.Pieces, "s": check.Exact(sum)}
		out = append(out, r)
	}
	return out
}

// above are the rows that a total may count: those since the total before it, all of its tab,
// those of its case, as many as its table has.
func above(j *check.Job, t check.Total) [][]*check.Part {
	var all []*check.Part
	for _, p := range j.Parts {
		if sameTab(p.Row, t.From) && lineNumber(p.Row) < lineNumber(t.From) {
			all = append(all, p)
		}
	}
	before := 0
	for _, o := range j.Totals {
		if n := lineNumber(o.From); sameTab(o.From, t.From) && n < lineNumber(t.From) {
			before = max(before, n)
		}
	}
	sets := [][]*check.Part{
		chosen(all, func(p *check.Part) bool { return lineNumber(p.Row) > before }), all,
		chosen(all, func(p *check.Part) bool { return p.Case == t.Case })}
	if t.Rows > 0 && t.Rows < len(all) {
		sets = append(sets, all[len(all)-t.Rows:])
	}
	return chosen(sets, func(ps []*check.Part) bool { return len(ps) > 0 })
}

func sameTab(a, b check.Cell) bool { return a.Book == b.Book && a.Tab == b.Tab }

func chosen[T any](all []T, keep func(T) bool) []T {
	var out []T
	for _, x := range all {
		if keep(x) {
			out = append(out, x)
		}
	}
	return out
}

func lineNumber(c check.Cell) int {
	digits := 0
	for digits < len(c.Addr) && (c.Addr[digits] < '0' || c.Addr[digits] > '9') {
		digits++
	}
	n, _ := strconv.Atoi(c.Addr[digits:])
	return n
}

// nearestSum is what the rows come to, counted in the way that comes nearest to n: which rows,
// and of them parts alone, with hardware, with the layers of built-up parts, or rows. The
// number of rows counts only where it is n itself.
func nearestSum(sets [][]*check.Part, n float64) (float64, bool) {
	best, found := 0.0, false
	for _, ps := range sets {
		parts, hardware, layers, ok := sums(ps)
		if !ok {
			continue // a row without a quantity is told by schedule.read
		}
		ways := []float64{parts, parts + hardware, parts + layers, parts + hardware + layers}
		if float64(len(ps)) == n {
			ways = append(ways, n)
		}
		for _, s := range ways {
			if !found || math.Abs(s-n) < math.Abs(best-n) {
				best, found = s, true
			}
		}
	}
	return best, found
}

func sums(ps []*check.Part) (parts, hardware, layers float64, ok bool) {
	for _, p := range ps {
		if !p.Qty.Known {
			return 0, 0, 0, false
		}
		switch {
		case p.Of != "":
			layers += p.Qty.Nominal
		case p.Role == check.NotAPart:
			hardware += p.Qty.Nominal
		default:
			parts += p.Qty.Nominal
		}
	}
	return parts, hardware, layers, true
}
