package check

import (
	"fmt"

	"dryfit/check/length"
	"dryfit/check/standard"
)

// What the standards say, as far as somebody asked.
type (
	settings map[setting]Value
	setting  struct {
		group, item, property string
		kind                  Unit
	}
	materials map[string]material
	material  struct {
		standard.Material
		known   bool
		nearest []string
	}
	finishes map[string]finish
	finish   struct {
		standard.Finish
		known   bool
		nearest []string
	}
)

// Standard is a value of the standards in the job's own units. It is missing when neither
// job, shop nor built-in values have it, or when its unit is of another kind.
func (j *Job) Standard(group, item, property string, kind Unit) Value {
	return OnceFor[settings](j, setting{group, item, property, kind}, func() Value {
		e, ok := j.Shop.Find(group, item, property)
		if !ok {
			return Missing(Ask{What: fmt.Sprintf("%s, %s, %s in the standards", group, item, property)})
		}
		return j.Entry(e, kind)
	})
}

// Entry turns an entry of the standards into a value in the job's own units.
func (j *Job) Entry(e standard.Entry, kind Unit) Value {
	unit := kind.In(j.Unit)
	if kind == Share || kind == Count || kind == Ratio {
		unit = e.Unit
	}
	in, err := e.In(unit)
	if err != nil {
		return Missing(Ask{What: err.Error()})
	}
	return Value{Low: in.Low, Nominal: in.Nominal, High: in.High, Known: true, Guessed: e.Guessed(),
		Why: e.From + ": " + e.Name() + " (" + e.Source + ")"}
}

// Material reads a material as typed; see standard.Table.Material.
func (j *Job) Material(text string) (m standard.Material, known bool, nearest []string) {
	got := OnceFor[materials](j, text, func() (got material) {
		got.Material, got.known, got.nearest = j.Shop.Material(text)
		return got
	})
	return got.Material, got.known, got.nearest
}

// Finish reads a finish as typed; see standard.Table.Finish.
func (j *Job) Finish(text string) (f standard.Finish, known bool, nearest []string) {
	got := OnceFor[finishes](j, text, func() (got finish) {
		got.Finish, got.known, got.nearest = j.Shop.Finish(text)
		return got
	})
	return got.Finish, got.known, got.nearest
}

// Named is a thickness by its name, in the job's unit: 0.75 for "3/4 in".
func (j *Job) Named(t standard.Thickness) float64 {
	return length.Convert(t.Named, thicknessUnit(t), j.Unit)
}

func thicknessUnit(t standard.Thickness) length.Unit {
	if t.Actual.Unit == "mm" {
		return length.Millimetre
	}
	return length.Inch
}
