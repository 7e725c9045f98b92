package write

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/check"
)

// Bars on the working tab are strokes, one for a twentieth of the limit, left of the line what
// is lacking and right of it what is to spare. They are texts that a formula makes of a letter,
// so they look the same in every program and in grey, and move with the schedule.
const (
	strokes    = 20 // for the whole limit
	mostLack   = 13 // strokes that the column holds
	mostSpare  = 40
	overviewAt = 5 // row of its headers
)

var (
	lackLook  = Look{Ink: "430B00", Bold: true, Size: 8, Line: true, Right: true}
	spareLook = Look{Ink: "08334A", Bold: true, Size: 8, Line: true}
)

// overview makes room for a row a check: its worst row, how near that is to its limit, as a bar.
func (w *workings) overview() {
	w.Add(Text("How near each check comes to its limit: the worst row of each, nearest first", Look{Ink: Ink, Bold: true, Size: 12}))
	w.Add(Text("Verdict", HeadLook), Text("Check, and what it speaks of", HeadLook), Text("Margin", numberHead), Text("Unit", HeadLook),
		Text("Of the limit", numberHead), Text("Lacking", numberHead),
		Text("To spare; a stroke is a twentieth of the limit, on either side", HeadLook))
	w.near = w.nearest()
	for range w.near {
		w.Add()
	}
	w.Add()
}

// nearest are the blocks that speak first for their check: the urgent first, then those that lack
// most or have least to spare.
func (w *workings) nearest() []*block {
	var out []*block
	seen := map[string]bool{}
	for i := range w.blocks {
		b := &w.blocks[i]
		if !seen[b.result.Check.ID] {
			seen[b.result.Check.ID] = true
			b.near, b.limit, b.measured = nearness(b.result)
			out = append(out, b)
		}
	}
	slices.SortStableFunc(out, func(a, b *block) int {
		return cmp.Or(cmp.Compare(b.result.Verdict, a.result.Verdict), cmp.Compare(a.near, b.near))
	})
	return out
}

// nearness is the margin over the ranges as a share of a limit, and the symbol of that: of those
// that the result is held against the one nearest its headline quantity, as in its sentence. A
// margin that is a share itself needs none. A count, or a margin in another unit than the limit,
// has no such share, and stands behind all that have.
func nearness(r *check.Result) (share float64, limit string, ok bool) {
	margin := r.Check.Steps[len(r.Check.Steps)-1].Unit
	switch margin {
	case check.Ratio, check.Share:
		return r.Worst, "", true
	case check.Count:
		return math.Inf(1), "", false
	}
	value := r.Values[r.Check.Value]
	for _, s := range r.Check.Against {
		x, known := r.Values[s]
		if !known || x == 0 || r.Check.UnitOf(s).In(r.Job.Unit) != margin.In(r.Job.Unit) {
			continue
		}
		if limit == "" || math.Abs(value-x) < math.Abs(value-r.Values[limit]) {
			limit = s
		}
	}
	if limit == "" {
		return math.Inf(1), "", false
	}
	return r.Worst / math.Abs(r.Values[limit]), limit, true
}

func (w *workings) fillOverview() {
	for i, b := range w.near {
		row := overviewAt + 1 + i
		r := b.result
		lines := r.Lines()
		last := lines[len(lines)-1]
		cells := []Cell{{Value: Shown(r.Verdict).Word(), Formula: At(colSymbol, b.head), Look: Look{Bold: true, Ink: Ink, Line: true}},
			w.named(r),
			{Value: r.Worst, Formula: At(colValue, b.worst), Look: Look{Ink: Ink, Line: true, Format: numberFormat(last)}}, Text(last.Unit, BodyLook)}
		w.Rows[row-1] = append(cells, w.bar(b, row)...)
		w.Links = append(w.Links, Link{At: At(colName, row), To: Quote(TabWorking) + "!" + At(1, b.head), Tip: "its working"})
		w.Tall(row, 0)
		w.words = strings.TrimSpace(w.words + " " + At(colSymbol, row))
	}
}

// named is the check and what it speaks of, or the check alone where that does not fit.
func (w *workings) named(r *check.Result) Cell {
	if text := r.Check.ID + "   " + r.Row.Name; w.oneLine(colName, text, LinkLook) {
		return Text(text, LinkLook)
	}
	return Text(r.Check.ID, LinkLook)
}

// bar is the share of the limit and the strokes on both sides.
func (w *workings) bar(b *block, row int) []Cell {
	if !b.measured {
		return []Cell{Text("", BodyLook), Text("", lackLook), Text("", spareLook)}
	}
	share, formula := b.near, At(colValue, row)
	if b.limit != "" {
		formula += "/ABS(" + At(colValue, b.row[b.limit]) + ")"
	}
	at := At(colLow, row)
	return []Cell{
		{Value: share, Formula: formula, Look: Look{Ink: Ink, Line: true, Format: "0%"}},
		{Value: strings.Repeat("|", stroked(-share, mostLack)), Formula: strokesOf("0-"+at, mostLack), Look: lackLook},
		{Value: strings.Repeat("|", stroked(share, mostSpare)), Formula: strokesOf(at, mostSpare), Look: spareLook},
	}
}

// stroked is how many strokes a share of the limit is.
func stroked(share float64, most int) int {
	return int(min(float64(most), math.Round(max(0, share)*strokes)))
}

func strokesOf(share string, most int) string {
	return fmt.Sprintf("REPT(\"|\",MIN(%d,ROUND(MAX(0,%s)*%d,0)))", most, share, strokes)
}
