package schedule

import (
	"fmt"
	"math"

	"dryfit/check"
)

// SizeKind asks whether sizes are cut or finished, where no header says and the strips on the
// edges are thick enough to matter. Which it is shows where a part with a strip stands beside
// one without: the reading under which both come to one depth is the one that was meant.
var SizeKind = &check.Check{
	ID:      "schedule.size-kind",
	Asks:    "Are the sizes cut or finished?",
	Costs:   "every banded part of a job too deep or too shallow by its strip",
	Applies: "every tab whose headers do not say, with parts that bear strips of known thickness",
	Inputs: []check.Input{
		{Symbol: "e", Name: "thickest strips across one part", Unit: check.Length},
		{Symbol: "k", Name: "sizes are cut, 1, or finished, 0", Unit: check.Count, Measure: "say it in the header"},
		{Symbol: "h", Name: "what does not matter", Unit: check.Length},
	},
	Steps: []check.Step{
		{Symbol: "d", Name: "finished parts come out larger by", Formula: "k*e", Unit: check.Length},
		{Symbol: "m", Name: "margin", Formula: "h-d", Unit: check.Length},
	},
	NoMend: "write FINISHED or CUT over the sizes",
	Ways:   map[string]string{"k": "write FINISHED or CUT over the sizes"},
	Source: []check.Source{{Title: "cut size and strips make the finished size; unsaid, sizes are finished", How: "common practice"}},
	Limits: "Asks once a tab. Strips of unsaid thickness, and tape under 1/32 in, do not matter.",
	Until:  check.BeforeCut,
	Value:  "d",
	Fails:  "shelves 11 1/4 deep with a 3/4 nosing in sides 12 deep, no word over the sizes",
	Mended: "FINISHED over the sizes, shelves 12",
	Rows:   sizeKindRows,
	Says: func(r *check.Result) string {
		return fmt.Sprintf("cut or finished is unsaid; strips make up to %s of difference on %s", r.Print("e"), r.Row.Words["part"])
	},
}

func sizeKindRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, t := range tabsOf(j) {
		if r, ok := t.sizeKindRow(j); ok {
			out = append(out, r)
		}
	}
	return out
}

func (t tab) sizeKindRow(j *check.Job) (check.Row, bool) {
	r := check.Row{Name: t.first.Tab, Cells: []check.Cell{t.first}, Cause: "kind of size " + t.first.Tab, Words: map[string]string{}}
	most := 0.0
	for _, p := range t.parts {
		if p.Size != check.UnsaidSize || p.Of != "" {
			continue
		}
		if s := strips(p); s > 0 {
			r.Marks = append(r.Marks, p.Name())
			if s > most {
				most = s
				r.Words["part"] = p.Name()
			}
		}
	}
	if most == 0 {
		return r, false
	}
	finished, cut := t.close()
	k := check.Guess(0, 0, 1, "no header says; finished is usual")
	switch {
	case finished && !cut:
		k = because(check.Exact(0), "banded and bare parts of one case have one depth as typed")
	case cut && !finished:
		k = check.Guess(0, 1, 1, "banded and bare parts of one case have one depth with the strips added")
	}
	r.In = map[string]check.Value{"e": check.Exact(most), "k": k, "h": check.Exact(j.PerInch() / 32)}
	return r, true
}

// strips is what the strips of known thickness add across the width of a part.
func strips(p *check.Part) float64 {
	front := 0.0
	for _, e := range p.Banded {
		if e.Thickness.Known && (e.On == "front" || e.On == "back") {
			front += e.Thickness.Nominal
		}
	}
	return front
}

// close reports under which reading a banded part comes to the depth of a bare one of its
// case.
func (t tab) close() (finished, cut bool) {
	for _, p := range t.parts {
		s := strips(p)
		if s == 0 || p.Size != check.UnsaidSize || !p.Width.Known {
			continue
		}
		for _, q := range t.parts {
			if q == p || q.Case != p.Case || strips(q) > 0 || len(q.Banded) > 0 || !q.Width.Known {
				continue
			}
			same := func(w float64) bool { return math.Abs(w-q.Width.Nominal) < s/16 }
			finished = finished || same(p.Width.Nominal)
			cut = cut || same(p.Width.Nominal+s)
		}
	}
	return finished, cut
}
