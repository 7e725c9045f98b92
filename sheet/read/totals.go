package read

import (
	"regexp"

	"dryfit/check"
)

// Total is a count the office typed under its rows.
type Total struct {
	From   check.Cell
	Case   check.Text  // of the section it closes, if it stands in one
	Pieces check.Value // missing if it counts no pieces
	Sheets check.Value // missing if it counts no sheets
	Rows   int         // rows of parts read above it in its table
}

var (
	piecesIn = regexp.MustCompile(`(?i)(?:total|tot\.?|sum|gesamt|summe|suma|razem|totale|totaal|summa)\D{0,20}?(\d{1,5})\s*(?:pcs|pieces|parts|stk|stück|szt|pz|pezzi|uds|stuks|st)?\s*$`)
	sheetsIn = regexp.MustCompile(`(?i)(\d{1,4})\s*(?:sheets?|shts?\.?|platten|panneaux|tableros|pannelli|płyt|platen|skivor)\b`)
)

// read finds counts typed into the words of a total: "Total pcs: 17", "5 sheets".
func (t *Total) read(c *Cell) {
	text := c.Text()
	if m := sheetsIn.FindStringSubmatch(text); m != nil {
		n, _ := small([]byte(m[1]))
		t.Sheets = check.Exact(float64(n)).At(c.From())
		return
	}
	if m := piecesIn.FindStringSubmatch(text); m != nil && !t.Pieces.Known {
		n, _ := small([]byte(m[1]))
		t.Pieces = check.Exact(float64(n)).At(c.From())
	}
}
