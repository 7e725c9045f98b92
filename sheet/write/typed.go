package write

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"dryfit/check"
	"dryfit/sheet/graft"
)

// ReadTyped reads what people wrote on the flagged tab of a workbook, by the key of the
// finding. A workbook without our tabs gives nothing. Columns are found by their headers,
// so that a column somebody moved is still read.
func ReadTyped(host []byte) (Typed, error) {
	ours, err := graft.Ours(host)
	if err != nil || !slices.Contains(ours, TabFlagged) {
		return nil, err
	}
	f, err := excelize.OpenReader(bytes.NewReader(host), excelize.Options{RawCellValue: true})
	if err != nil {
		return nil, fmt.Errorf("reading tab %q: %w", TabFlagged, err)
	}
	defer f.Close()
	rows, err := f.GetRows(TabFlagged)
	if err != nil {
		return nil, fmt.Errorf("reading tab %q: %w", TabFlagged, err)
	}
	return typedRows(rows), nil
}

func typedRows(rows [][]string) Typed {
	out := Typed{}
	columns := map[string]int{}
	for _, row := range rows {
		if slices.Contains(row, "key") && slices.Contains(row, flaggedHeads[colAccept-1]) {
			for i, h := range row {
				columns[h] = i
			}
			continue
		}
		get := func(col int) string {
			i, ok := columns[flaggedHeads[col-1]]
			if !ok || i >= len(row) {
				return ""
			}
			return strings.TrimSpace(row[i])
		}
		if key := get(colKey); key != "" {
			if a, ok := word(get); ok {
				out[key] = a
			}
		}
	}
	return out
}

// word is the acceptance or the question of one row. A question is kept even without a name,
// initials even without a reason: whether they count is not decided here.
func word(get func(int) string) (check.Acceptance, bool) {
	a := check.Acceptance{By: get(colAccept), Why: get(colWhy)}
	if a.By == "" && a.Why == "" {
		a = check.Acceptance{By: get(colAsk), Why: get(colQuestion), Ask: true}
		return a, a.By != "" || a.Why != ""
	}
	a.Fresh = true
	if v := get(colWasWord); v != "" {
		m, err := strconv.ParseFloat(get(colWasWorst), 64)
		if err == nil && a.Worst.UnmarshalText([]byte(v)) == nil {
			a.Margin, a.Fresh = m, false
		}
	}
	return a, true
}
