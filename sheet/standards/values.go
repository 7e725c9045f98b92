package standards

import (
	"slices"
	"strconv"
	"strings"
	"sync"

	"dryfit/check/standard"
)

// values reads a value tab and returns how many rows of the shop's own it holds.
func (sh *sheet) values() int {
	n := 0
	for r := sh.head + 1; r < len(sh.rows); r++ {
		if sh.blank(r) || sh.repeated(r, "item") {
			continue
		}
		if sh.value(r) {
			n++
		}
	}
	return n
}

// own are the columns the shop types in: those of ours, or the plain ones in a tab that has
// no columns of ours.
func (sh *sheet) own() (low, nominal, high string) {
	if _, ours := sh.place["our value"]; ours {
		return "our low", "our value", "our high"
	}
	return "low", "value", "high"
}

// value reads one row; it reports whether the row holds a value of the shop.
func (sh *sheet) value(r int) bool {
	low, nominal, high := sh.own()
	typed := sh.cell(r, low) != "" || sh.cell(r, nominal) != "" || sh.cell(r, high) != ""
	built, known, ok := sh.identify(r, typed)
	if !ok {
		return false
	}
	if known {
		sh.typedOver(r, built)
	}
	if !typed {
		if !known {
			sh.problem(r, nominal, "a value wanted for %s, %s", built.Item, built.Property)
		}
		return false
	}
	unit, ok := sh.unit(r, built, known)
	if !ok {
		return false
	}
	e, ok := sh.span(r, built, unit)
	if !ok {
		return false
	}
	sh.provenance(r, &e)
	base := built
	if !known {
		if base, ok = kin(e.Group, e.Property, e.Unit); !ok {
			sh.out.Entries = append(sh.out.Entries, e)
			return true
		}
	}
	for _, at := range []struct {
		id string
		x  float64
	}{{nominal, e.Nominal}, {low, e.Low}, {high, e.High}} {
		one := e
		one.Low, one.Nominal, one.High = at.x, at.x, at.x
		if why := unreasonable(one, base); why != "" && sh.cell(r, at.id) != "" {
			sh.problem(r, at.id, "%s", why)
			return false
		}
	}
	sh.out.Entries = append(sh.out.Entries, e)
	return true
}

// identify finds which value the row is of. known is false for one that is not built in.
func (sh *sheet) identify(r int, typed bool) (e standard.Entry, known, ok bool) {
	kind, item, what := plain(sh.cell(r, "kind")), sh.cell(r, "item"), sh.cell(r, "what")
	if item == "" || what == "" {
		if typed {
			missing := "item"
			if item != "" {
				missing = "what"
			}
			sh.problem(r, missing, "the name of a value wanted, as it stands in the other rows")
		}
		return e, false, false
	}
	if kind == "" {
		found := builtIn()["/"+plain(item)+"/"+plain(what)]
		if len(found) != 1 {
			sh.problem(r, "kind", "a kind wanted for %s, %s: %s", item, what, strings.Join(groups(), ", "))
			return e, false, false
		}
		return found[0], true, true
	}
	if !slices.Contains(groups(), kind) {
		sh.problem(r, "kind", "a kind wanted, one of: %s", strings.Join(groups(), ", "))
		return e, false, false
	}
	if found := builtIn()[kind+"/"+plain(item)+"/"+plain(what)]; len(found) == 1 {
		return found[0], true, true
	}
	return standard.Entry{Group: kind, Item: item, Property: what}, false, true
}

// builtIn holds the built-in entries by kind, item and property in plain letters, and by
// item and property alone.
var builtIn = sync.OnceValue(func() map[string][]standard.Entry {
	found := map[string][]standard.Entry{}
	for _, e := range standard.BuiltIn().Entries() {
		short := "/" + plain(e.Item) + "/" + plain(e.Property)
		found[e.Group+short] = append(found[e.Group+short], e)
		found[short] = append(found[short], e)
	}
	return found
})

func groups() []string {
	var all []string
	for _, v := range valueTabs {
		all = append(all, v.groups...)
	}
	return all
}

// unit finds the unit of the shop's value.
func (sh *sheet) unit(r int, built standard.Entry, known bool) (string, bool) {
	id := "our unit"
	if sh.cell(r, id) == "" {
		id = "unit"
	}
	text := sh.cell(r, id)
	if text == "" {
		if known {
			return built.Unit, true
		}
		sh.problem(r, id, "a unit wanted, one of: %s", strings.Join(standard.Units(), " "))
		return "", false
	}
	unit, ok := unitOf(text)
	if !ok {
		sh.problem(r, id, "a unit wanted, one of: %s", strings.Join(standard.Units(), " "))
		return "", false
	}
	if known {
		if _, err := (standard.Entry{Item: built.Item, Property: built.Property, Unit: unit}).In(built.Unit); err != nil {
			measures, _ := standard.Measures(built.Unit)
			sh.problem(r, id, "a unit of %s wanted, such as %s", measures, built.Unit)
			return "", false
		}
	}
	return unit, true
}

// span reads low, nominal and high, in the unit of the built-in value where there is one. A
// nominal alone is exact; two ends alone have their middle.
func (sh *sheet) span(r int, built standard.Entry, unit string) (standard.Entry, bool) {
	low, nominal, high := sh.own()
	to := built.Unit
	if to == "" {
		to = unit
	}
	read := map[string]float64{}
	for _, id := range []string{low, nominal, high} {
		text := sh.cell(r, id)
		if text == "" {
			continue
		}
		v, typed, err := number(text, unit)
		if err != nil {
			sh.problem(r, id, "%s", err)
			return standard.Entry{}, false
		}
		in, err := standard.Entry{Item: built.Item, Property: built.Property, Nominal: v, Unit: typed}.In(to)
		if err != nil {
			sh.problem(r, id, "a value in %s wanted", to)
			return standard.Entry{}, false
		}
		read[id] = in.Nominal
	}
	e := standard.Entry{Group: built.Group, Item: built.Item, Property: built.Property, Unit: to}
	l, hasLow := read[low]
	h, hasHigh := read[high]
	n, has := read[nominal]
	switch {
	case !has && hasLow && hasHigh:
		n = (l + h) / 2
	case !has:
		sh.problem(r, nominal, "a value wanted beside low or high")
		return e, false
	}
	if !hasLow {
		l = n
	}
	if !hasHigh {
		h = n
	}
	if l > n || n > h {
		id := low
		if n > h {
			id = high
		}
		sh.problem(r, id, "low, value and high wanted in rising order; they read %s, %s, %s %s", short(l), short(n), short(h), to)
		return e, false
	}
	e.Low, e.Nominal, e.High = l, n, h
	return e, true
}

// provenance says where the shop's value comes from and how it is known.
func (sh *sheet) provenance(r int, e *standard.Entry) {
	_, nominal, _ := sh.own()
	e.From = sh.from(r, nominal)
	e.Known = standard.KnownShop
	if plain(sh.cell(r, "how")) == standard.KnownMeasured {
		e.Known = standard.KnownMeasured
	}
	e.Source = sh.cell(r, "why")
	if e.Source == "" {
		e.Source = sh.whose + " standards"
	}
	e.Note = sh.cell(r, "note")
}

// typedOver notices a built-in cell that somebody typed over, where it does nothing.
func (sh *sheet) typedOver(r int, built standard.Entry) {
	seal := sh.cell(r, "stamp")
	if _, ours := sh.place["our value"]; !ours || seal == "" {
		return
	}
	var values []float64
	for _, id := range []string{"low", "value", "high"} {
		v, err := strconv.ParseFloat(sh.cell(r, id), 64)
		if err != nil {
			sh.problem(r, id, "a built-in value was typed over, which does nothing: your own goes in %s", sh.address(r, "our value"))
			return
		}
		values = append(values, v)
	}
	if !strings.HasPrefix(seal, numberStamp(sh.cell(r, "unit"), values...)) {
		id := "value"
		for i, x := range []float64{built.Low, built.Nominal, built.High} {
			if values[i] != x {
				id = []string{"low", "value", "high"}[i]
			}
		}
		sh.problem(r, id, "a built-in value was typed over, which does nothing: your own goes in %s", sh.address(r, "our value"))
	}
}
