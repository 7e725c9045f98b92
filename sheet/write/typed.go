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

// Said is what people wrote beside one finding, and what stood there when it was accepted.
type Said struct {
	By, Why    string // initials and reason of an acceptance
	Whom, What string // a question
	Worst      check.Verdict
	Margin     float64
	Fresh      bool // accepted since the last run: it accepts what is there now
}

// word is what one row says. Initials without a reason are kept too: whether they count is
// not decided here.
func word(get func(int) string) (Said, bool) {
	s := Said{By: get(colAccept), Why: get(colWhy), Whom: get(colAsk), What: get(colQuestion), Fresh: true}
	if v := get(colWasWord); v != "" {
		m, err := strconv.ParseFloat(get(colWasWorst), 64)
		if err == nil && s.Worst.UnmarshalText([]byte(v)) == nil {
			s.Margin, s.Fresh = m, false
		}
	}
	return s, s.By+s.Why+s.Whom+s.What != ""
}

// Words are the acceptances, and the questions where nothing was accepted, for the checks.
func (t Typed) Words() map[string]check.Acceptance {
	out := map[string]check.Acceptance{}
	for k, s := range t {
		if s.By != "" && s.Why != "" {
			out[k] = check.Acceptance{By: s.By, Why: s.Why, Margin: s.Margin, Worst: s.Worst, Fresh: s.Fresh}
		} else if s.Whom != "" {
			out[k] = check.Acceptance{By: s.Whom, Why: s.What, Ask: true}
		}
	}
	return out
}
