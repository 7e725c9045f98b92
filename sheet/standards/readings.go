package standards

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dryfit/check/standard"
)

// isCalibration looks for the words at the left of a calibration tab.
func (sh *sheet) isCalibration() bool {
	found := map[string]int{}
	for r, cells := range sh.rows[:min(searched, len(sh.rows))] {
		if len(cells) > 0 {
			for _, h := range rowHeads {
				if plain(cells[0]) == h.head {
					found[h.head] = r
				}
			}
		}
	}
	q, quantity := found["quantity"]
	_, unit := found["unit"]
	_, step := found["read to"]
	if !quantity || !unit || !step {
		return false
	}
	sh.head = q
	sh.place = map[string]int{}
	for head, r := range found {
		sh.place["row "+head] = r
	}
	return true
}

// at is a cell of the calibration tab.
func (sh *sheet) at(r, c int) string {
	if r >= len(sh.rows) || c >= len(sh.rows[r]) {
		return ""
	}
	return strings.TrimSpace(sh.rows[r][c])
}

func (sh *sheet) wrong(r, c int, want string, args ...any) {
	sh.out.Problems = append(sh.out.Problems, Problem{sh.out.Path, sh.tab, address(c+1, r+1), sh.at(r, c), fmt.Sprintf(want, args...)})
}

// calibration reads the columns of readings and returns how many hold any.
func (sh *sheet) calibration() int {
	rows := sh.place
	sh.place = nil
	last := 0
	for _, r := range rows {
		last = max(last, r)
	}
	n := 0
	for c := 1; c < len(sh.rows[sh.head]); c++ {
		if sh.measured(c, rows["row quantity"], rows["row unit"], rows["row read to"], last+1) {
			n++
		}
	}
	return n
}

// measured reads one column.
func (sh *sheet) measured(c, quantity, unitAt, stepAt, first int) bool {
	var readings []float64
	var places []int
	for r := first; r < len(sh.rows); r++ {
		text := sh.at(r, c)
		if text == "" {
			continue
		}
		v, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
		if err != nil {
			sh.wrong(r, c, "a reading wanted, a number in the unit above")
			return false
		}
		readings, places = append(readings, v), append(places, r)
	}
	if len(readings) == 0 {
		return false
	}
	base, ok := sh.quantity(quantity, c)
	if !ok {
		return false
	}
	unit, ok := unitOf(sh.at(unitAt, c))
	if !ok {
		sh.wrong(unitAt, c, "the unit of the readings wanted, one of: %s", strings.Join(standard.Units(), " "))
		return false
	}
	step, err := strconv.ParseFloat(strings.Replace(sh.at(stepAt, c), ",", ".", 1), 64)
	if err != nil || step <= 0 {
		sh.wrong(stepAt, c, "the smallest step of the tool wanted, a number above zero")
		return false
	}
	if base.Unit == "" {
		base.Unit = unit
	}
	if r, why := sh.stray(base, unit, readings); why != "" {
		sh.wrong(places[r], c, "%s", why)
		return false
	}
	name := base.Group + between + base.Item + between + base.Property
	if len(readings) < standard.LeastReadings {
		sh.out.Notes = append(sh.out.Notes, fmt.Sprintf("%s: %d readings in %s!%s, %d more and they replace the built-in range",
			name, len(readings), sh.tab, address(c+1, quantity+1), standard.LeastReadings-len(readings)))
		return true
	}
	e, err := standard.Calibrate(base, readings, unit, step)
	if err != nil {
		sh.wrong(unitAt, c, "%s", err)
		return false
	}
	if e, err = e.In(base.Unit); err != nil {
		sh.wrong(unitAt, c, "%s", err)
		return false
	}
	e.From = fmt.Sprintf("%s standards, %s!%s", sh.whose, sh.tab, address(c+1, quantity+1))
	sh.out.Entries = append(sh.out.Entries, e)
	sh.out.Notes = append(sh.out.Notes, fmt.Sprintf("%s: %d readings in %s!%s replace the built-in range: %s to %s %s, mean %s",
		name, len(readings), sh.tab, address(c+1, quantity+1), short(e.Low), short(e.High), e.Unit, short(e.Nominal)))
	return true
}

// quantity finds the value a column of readings is of.
func (sh *sheet) quantity(r, c int) (standard.Entry, bool) {
	parts := strings.SplitN(sh.at(r, c), between, 3)
	if len(parts) != 3 || !slices.Contains(groups(), plain(parts[0])) {
		sh.wrong(r, c, "kind%sitem%swhat wanted, such as %s", between, between, offered[0].name())
		return standard.Entry{}, false
	}
	key := plain(parts[0]) + "/" + plain(parts[1]) + "/" + plain(parts[2])
	if found := builtIn()[key]; len(found) == 1 {
		return found[0], true
	}
	return standard.Entry{Group: plain(parts[0]), Item: strings.TrimSpace(parts[1]), Property: strings.TrimSpace(parts[2])}, true
}

// stray finds a reading that cannot be meant: far outside the built-in range. The readings
// of a spread may be anything.
func (sh *sheet) stray(base standard.Entry, unit string, readings []float64) (int, string) {
	if base.Group == "spread" || base.High == 0 {
		return 0, ""
	}
	for i, v := range readings {
		one, err := standard.Entry{Group: base.Group, Item: base.Item, Property: base.Property, Low: v, Nominal: v, High: v, Unit: unit}.In(base.Unit)
		if err != nil {
			return i, err.Error()
		}
		if why := unreasonable(one, base); why != "" {
			return i, why
		}
	}
	return 0, ""
}
