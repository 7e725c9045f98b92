package opening

import (
	"fmt"
	"strings"

	"dryfit/check"
)

// closeness is how far a reading may be off: as the form says, else by who measured, or that
// nobody was there.
func closeness(j *check.Job, o *check.Opening, rs []check.Reading) check.Value {
	return closenessOf(j, o, rs, "one reading")
}

// closenessOf is closeness, with what a reading alone is good for under a name of its own: a
// case may stand proud of its recess by more than it may be wider.
func closenessOf(j *check.Job, o *check.Opening, rs []check.Reading, alone string) check.Value {
	if o.Within.Known {
		return o.Within
	}
	item := "measurer not named"
	switch {
	case o.Poor || toVerify(rs):
		item = "from a drawing"
	case len(rs) == 1:
		item = alone
	case o.By.Text != "":
		item = "tape"
	}
	return j.Standard("site", item, "reading", check.Length)
}

// toVerify reports a reading marked VIF: nobody stands by it yet.
func toVerify(rs []check.Reading) bool {
	for _, r := range rs {
		if word := strings.ToUpper(strings.ReplaceAll(r.Word.Text, ".", "")); strings.Contains(word, "VIF") {
			return true
		}
	}
	return false
}

// measured is the smallest of some readings with the range it could have.
func measured(j *check.Job, o *check.Opening, rs []check.Reading, what string) check.Value {
	least, ok := check.Smallest(rs)
	if !ok {
		return noReading(o, what)
	}
	alone := "one reading"
	if what == "depth" {
		alone = "one reading of depth"
	}
	near := closenessOf(j, o, rs, alone)
	v := least.Value.PlusMinus(near.Nominal)
	v.Why = fmt.Sprintf("one reading, good for %s", j.Len(near.Nominal))
	if len(rs) > 1 {
		v.Why = fmt.Sprintf("smallest of %d readings%s, good for %s", len(rs), at(least), j.Len(near.Nominal))
	}
	return v
}

func at(r check.Reading) string {
	if r.At == "" {
		return ""
	}
	return ", at the " + r.At
}

// rests names what all sizes of an opening rest on where nobody measured it properly; empty
// where each was read at several places.
func rests(o *check.Opening, rs []check.Reading) string {
	if o.Poor || toVerify(rs) || len(rs) == 1 {
		return "the site measure at " + o.Row.String()
	}
	return ""
}

// said is the finish that the form says is still to come on a surface, as thick as it says.
func said(o *check.Opening, on string) check.Value {
	total := none("nothing said to come on the " + on)
	for _, f := range o.ToCome {
		if f.On != on || !f.Thickness.Known {
			continue
		}
		if total.Nominal == 0 {
			total = f.Thickness
		} else {
			total = check.Between(total.Low+f.Thickness.Low, total.Nominal+f.Thickness.Nominal, total.High+f.Thickness.High).At(total.From)
		}
		total.Why = f.Text.Text
	}
	return total
}

// unsaid is the finish that may come on a surface beyond what was said: of a thickness nobody
// typed, or where nobody answered whether the floor is in.
func unsaid(j *check.Job, o *check.Opening, on string) check.Value {
	answered := false
	for _, s := range o.Settled {
		answered = answered || s == on
	}
	for _, f := range o.ToCome {
		if f.On != on {
			continue
		}
		answered = true
		if !f.Thickness.Known {
			v := j.Standard("site", finishItem(on, f.Text.Text), "thickness", check.Length)
			v.Why = "still to come, nobody said how thick: " + v.Why
			return v
		}
	}
	if answered || on != "floor" {
		return none("answered on the site form")
	}
	wood := j.Standard("site", "wood floor to come", "thickness", check.Length)
	return check.Guess(0, 0, wood.Nominal, "nobody said whether the floor is in: "+wood.Why)
}

// finishItem is the item of the standards that a finish to come is.
func finishItem(on, words string) string {
	words = strings.ToLower(words)
	switch {
	case strings.Contains(words, "tile"), strings.Contains(words, "fliese"), strings.Contains(words, "carrelage"):
		return "tile to come"
	case on == "floor":
		return "wood floor to come"
	case strings.Contains(words, "board"), strings.Contains(words, "drywall"), strings.Contains(words, "gyp"):
		return "board to come"
	}
	return "plaster to come"
}
