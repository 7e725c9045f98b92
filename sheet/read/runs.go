package read

import (
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
	"dryfit/sheet/read/phrase"
)

// runsKind reads chains of parts that must fit: lines such as "W: side + shelf + side =
// niche", or a table with a column for each piece of such a line.
var runsKind = kind{name: "runs", score: scoreRuns, read: readRuns}

const (
	rCase      Field = "case of the run"
	rDirection Field = "direction"
	rParts     Field = "parts in order"
	rFits      Field = "fits"
	rClearance Field = "clearance of the run"
	rNote      Field = "run note"
)

var runWords = newLexicon([]fieldWords{
	{rDirection, `direction|dir|way|run direction|axis|richtung|achse|sens|direction du|sentido|direccion|direzione|senso|kierunek|richting|riktning`},
	{rParts, `parts|parts in order|run|runs|chain|parts in the run|stack|stack up|stackup|sum|sequence|made of|kette|masskette|teile|reihe|reihenfolge|aufbau|chaine|chaine de cotes|pieces|pieces dans l ordre|empilage|cadena|piezas|suma|
		catena|pezzi|sequenza|lancuch|elementy|ciag|keten|onderdelen|reeks|maatketen|kedja|delar|mattkedja`},
	{rFits, `fits|fits in|must fit|fit to|against|into|target|goes in|passt in|passend in|gegen|ziel|in oeffnung|dans|doit entrer dans|contre|cible|cabe en|debe caber en|contra|entra in|deve stare in|w co|miesci sie w|cel|past in|tegen|doel|passar i|ska ga i|mot`},
	{rClearance, `clearance|clr|clear|gap|play|allowance|wanted clearance|luft|spiel|jeu|holgura|gioco|luz|spelrum|luz libre|spelling|speling|szczelina|spel`},
	{rCase, `case|unit|cab|run no|name|schrank|korpus|meuble|caisson|mueble|mobile|szafka|kast|skap`},
	{rNote, `note|notes|remark|remarks|comment|bemerkung|remarque|nota|uwagi|opmerking|anm`},
})

// runField names the field of a header text of a table of runs.
func runField(text string) Field {
	if len(text) > maxHeader {
		return fUnknown
	}
	if fs := runWords.exact(strings.TrimSpace(bracketed.ReplaceAllString(text, " "))); fs != nil {
		return fs[0]
	}
	return fUnknown
}

// isRunHeader reports whether header words are those of a table of runs.
func isRunHeader(cols []sideCol) bool {
	seen := map[Field]bool{}
	for _, c := range cols {
		seen[c.field] = true
	}
	return seen[rParts] && (seen[rFits] || seen[rDirection])
}

func scoreRuns(g *Grid, shop *standard.Table) int {
	if len(g.Rows) > maxSide {
		return 0
	}
	probe := &Tab{}
	readRuns(g, probe, shop)
	if len(probe.Runs) == 0 {
		return 0
	}
	if probe.Header != "" {
		return min(100, 70+10*len(probe.Runs))
	}
	for _, r := range probe.Runs {
		if r.Direction != "" && r.Fits.Text != "" {
			return 60
		}
	}
	if 3*len(probe.Runs) >= len(g.Rows) {
		return 50
	}
	return 0
}

// largestRun is the largest bare number that may be inches in a run.
const largestRun = 360

func readRuns(g *Grid, tab *Tab, _ *standard.Table) map[int]bool {
	used := map[int]bool{}
	t := &Tab{}
	typed, guessed := partsUnit(g, tab, largestRun)
	r := &runReader{tab: t, unit: typed}
	inTable := map[int]bool{}
	for _, table := range sideTables(g, runField, isRunHeader) {
		for _, n := range table.heads {
			used[n], inTable[n] = true, true
		}
		table.nameHeads(t)
		for _, row := range table.rows {
			if inTable[row.N] = r.row(table, row); inTable[row.N] {
				used[row.N] = true
				table.nameUnknown(row, t)
			}
		}
		if t.Header == "" && len(t.Runs) > 0 {
			t.Header = Address(table.heads[0], table.cols[0].col)
		}
	}
	for i := range g.Rows {
		if row := &g.Rows[i]; !inTable[row.N] && !struckOut(row) && r.line(row) {
			used[row.N] = true
		}
	}
	tab.adopt(t, typed, guessed && plainLengths(t.Runs))
	return used
}

// plainLengths reports whether some run holds a length of its own, whose unit matters.
func plainLengths(runs []*check.Run) bool {
	for _, r := range runs {
		for _, i := range r.Items {
			if i.Plain.Known {
				return true
			}
		}
	}
	return false
}

type runReader struct {
	tab  *Tab
	unit length.Unit
}

// line reads a chain typed in one cell, or over the cells of a row: its head in the first, a
// part in each of the next.
func (r *runReader) line(row *Row) bool {
	read := false
	var others []*Cell
	for i := range row.Cells {
		c := &row.Cells[i]
		found := false
		for _, line := range strings.Split(c.said(), "\n") {
			if run, rest, ok := phrase.ParseRun(line, r.unit); ok && c.Kind == Words && plausibleRun(run) {
				r.add(run, rest, c, nil)
				found = true
			} else if found {
				r.tab.Unread = append(r.tab.Unread, wanting(c, "\""+line+"\" is no run; expected marks joined by +, such as side + shelf + side = niche", "run"))
			}
		}
		read = read || found
		if !found {
			others = append(others, c)
		}
	}
	for _, c := range others {
		if read {
			r.tab.setAside(c, "stands beside a run")
		}
	}
	if read || len(row.Cells) < 3 {
		return read
	}
	var texts []string
	for i := range row.Cells {
		texts = append(texts, row.Cells[i].said())
	}
	joined := strings.Join(texts, " ")
	if !strings.Contains(joined, "+") || !strings.Contains(joined, "=") {
		return false
	}
	run, rest, ok := phrase.ParseRun(joined, r.unit)
	if !ok || !plausibleRun(run) {
		return false
	}
	r.add(run, rest, &row.Cells[0], nil)
	return true
}

// plausibleRun keeps sums and tolerances from passing as runs: a run names a part, and says
// its direction or what it must fit.
func plausibleRun(run phrase.Run) bool {
	parts := 0
	for _, i := range run.Items {
		if i.Mark != "" {
			parts++
			if len(strings.Fields(i.Mark)) > 4 {
				return false
			}
		}
	}
	return parts > 0 && len(run.Items) >= 2 && (run.Direction != "" || run.Fits != "")
}

// row reads a row of a table of runs.
func (r *runReader) row(table *sideTable, row *Row) bool {
	parts := table.cell(row, rParts)
	if parts == nil {
		return false
	}
	text := parts.said()
	if !strings.Contains(text, "+") {
		text = strings.NewReplacer(", ", " + ", "; ", " + ", "\n", " + ").Replace(text)
	}
	run, rest, ok := phrase.ParseRun(text, r.unit)
	direction := table.cell(row, rDirection)
	if direction != nil {
		run.Named(direction.said())
	}
	fits := table.cell(row, rFits)
	if fits != nil {
		run.Fits = fits.Text()
	}
	if !ok || !plausibleRun(run) {
		for i := range row.Cells {
			if c := &row.Cells[i]; c != parts && hasNumber(phrase.Cut(c.said())) {
				r.tab.Unread = append(r.tab.Unread, wanting(c, "stands beside no chain of parts", "run"))
			}
		}
		r.tab.Unread = append(r.tab.Unread, wanting(parts, "no chain of parts; expected marks joined by +, such as side + shelf + side", "run"))
		return true
	}
	if direction != nil && run.Direction == "" {
		r.tab.Unread = append(r.tab.Unread, wanting(direction, "no direction; expected width, height or depth", "direction"))
		run.Case = ""
	}
	of := table.cell(row, rCase)
	if of != nil {
		run.Case = of.Text()
	}
	r.add(run, rest, parts, fits)
	added := r.tab.Runs[len(r.tab.Runs)-1]
	switch {
	case of != nil:
		added.Case.From = of.From()
	case run.Case != "" && direction != nil:
		added.Case.From = direction.From()
	}
	if c := table.cell(row, rNote); c != nil {
		r.tab.setAside(c, "a note")
	}
	if c := table.cell(row, rClearance); c != nil {
		r.clearance(added, c)
	}
	return true
}

// clearance reads the column of the clearance: a length, or "1/8 ea".
func (r *runReader) clearance(run *check.Run, c *Cell) {
	if length.Nothing(c.said()) == length.None {
		return
	}
	var of phrase.Run
	if !of.Item(c.said()+" clr", r.unit) || !of.Clearance.Known {
		r.tab.Unread = append(r.tab.Unread, wanting(c, "no clearance; expected a length such as 1/4, or 1/8 ea", "clearance"))
		return
	}
	run.Clearance = c.at(of.Clearance)
}

func (r *runReader) add(run phrase.Run, rest []string, c, fits *Cell) {
	m := &check.Run{Row: c.From(), Direction: run.Direction, Items: run.Items, Clearance: run.Clearance, Case: check.Text{Text: run.Case, From: c.From()}}
	for i := range m.Items {
		m.Items[i].Count.From = c.From()
		if m.Items[i].Plain.Known {
			m.Items[i].Plain.From = c.From()
		}
	}
	if m.Clearance.Known {
		m.Clearance.From = c.From()
	}
	m.Fits = check.Text{Text: run.Fits, From: c.From()}
	if fits != nil {
		m.Fits.From = fits.From()
	}
	for _, s := range rest {
		u := wanting(c, "\""+s+"\" is no part of a run; expected a mark, a role or one length", "run")
		r.tab.Unread = append(r.tab.Unread, u)
	}
	r.tab.Runs = append(r.tab.Runs, m)
	r.tab.Rows++
}
