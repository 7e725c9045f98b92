package structure

import (
	"dryfit/check"
)

// Path asks whether the load of every part comes down to the floor or to a fixing in the
// wall. It speaks only where joints or heights are known. Glue and friction carry nothing,
// and neither does an upright that stands on nothing; an upright that stands on a shelf and
// not over another one bends that shelf, which structure.sag and structure.bending count.
var Path = &check.Check{
	ID:      "structure.path",
	Asks:    "Does the load reach the floor, step by step, with nothing hanging on glue?",
	Costs:   "a shelf that lets go on the day it is filled",
	Applies: "every shelf and seat with a joint of its own, and those that lie on posts whose places are typed",
	Inputs: []check.Input{
		{Symbol: "c", Name: "joints that carry it down", Unit: check.Count},
		{Symbol: "n", Name: "joints it needs", Unit: check.Count},
	},
	Steps: []check.Step{
		{Symbol: "m", Name: "margin", Formula: "c-n", Unit: check.Count},
	},
	NoMend: "put a cleat, a dado or a post under it, or screw it to what carries",
	Ways:   map[string]string{"c": "say what fastens it: screws, dowels, a dado; glue alone carries nothing"},
	Source: []check.Source{
		{Title: "statics: every load needs a way down", How: "common practice"},
		{Title: "no value for glue lines and friction as supports", How: "house rule"},
	},
	Limits:  "Knows only joints and heights that are typed. Takes a side, and an upright whose height is not typed, as standing on the floor, and a part without a joint as carried by what nobody wrote down.",
	Until:   check.Released,
	Grave:   true,
	Value:   "c",
	Against: []string{"n"},
	Fails:   "a shelf butted between two uprights and glued",
	Mended:  "the shelf in dados 1/4 deep",
	Rows:    pathRows,
	Says: func(r *check.Result) string {
		if off := r.Row.Words["lifts"]; off != "" {
			return "lifts off " + off + " when one end is loaded, and nothing named holds it down there"
		}
		return "never reaches the floor: " + r.Row.Words["break"]
	},
	Way: func(r *check.Result) string {
		if off := r.Row.Words["lifts"]; off != "" {
			return "screw it down to " + off + ", or move what carries it out to its ends"
		}
		return ""
	},
}

func pathRows(j *check.Job) []check.Row {
	var out []check.Row
	for _, s := range shelves(j) {
		if r, ok := liftRow(s); ok {
			out = append(out, r)
		}
		if s.part.Role == check.Adjustable {
			continue
		}
		if r, ok := pathRow(j, s.part); ok {
			out = append(out, r)
		}
	}
	return out
}

func pathRow(j *check.Job, p *check.Part) (check.Row, bool) {
	way := wayDown(j, p, nil)
	if len(way.held) == 0 {
		return check.Row{}, false
	}
	r := rowOf(p)
	r.Cause = "path"
	if way.at != nil {
		r.Cells = []check.Cell{way.at.Row}
		if way.at.Fastener.From != (check.Cell{}) {
			r.Cells[0] = way.at.Fastener.From
		}
	}
	r.Words["break"] = way.broken
	const wanted = 2
	c := check.Exact(float64(max(wanted, way.sure)))
	if way.broken != "" {
		low, high := way.sure, way.sure+way.perhaps
		c = check.Exact(float64(low))
		if way.perhaps > 0 {
			c = check.Guess(float64(low), float64(low), float64(high), "what fastens "+p.Name()+" is unsaid")
		}
	}
	r.In = map[string]check.Value{"c": c, "n": check.Exact(wanted)}
	return r, true
}

// way is how a loaded part comes down.
type way struct {
	held    []hold
	sure    int          // ends that reach the floor or the wall
	perhaps int          // ends whose fastener nobody named
	broken  string       // the first step that carries nothing
	at      *check.Joint // where it is mended
}

// wayDown follows the joints of a part to the floor. seen are the parts above it, so that
// two shelves do not carry one another.
func wayDown(j *check.Job, p *check.Part, seen []*check.Part) way {
	w := way{held: holds(j, p)}
	seen = append(seen, p)
	for _, h := range w.held {
		reason := h.why
		if h.grip == sound {
			reason = brokenBelow(j, h.by, seen)
		}
		switch {
		case reason == "":
			w.sure += h.ends
			continue
		case h.grip == unsaid:
			w.perhaps += h.ends
			reason = "nobody said what fastens it to " + h.name
		case h.grip == loose:
			reason = reason + " at " + h.name
		}
		if w.broken == "" || h.grip < unsaid {
			w.broken, w.at = reason, h.joint
		}
	}
	return w
}

// brokenBelow says why a part that carries another does not itself reach the floor; empty
// where it does, or where nobody knows.
func brokenBelow(j *check.Job, p *check.Part, seen []*check.Part) string {
	if p == nil || contains(seen, p) && p.Role != check.Shelf {
		return ""
	}
	if contains(seen, p) {
		return p.Name() + " hangs on what it carries"
	}
	switch p.Role {
	case check.Upright, check.Divider:
		f := footOf(j, p)
		switch {
		case f.hangs:
			return p.Name() + " stands on nothing, " + j.Len(p.Y.Nominal) + " above the floor"
		case f.on != nil && !f.posted && len(holds(j, f.on)) > 0:
			return notCarried(j, f.on, append(seen, p))
		}
	case check.Shelf, check.Adjustable, check.Seat:
		if len(holds(j, p)) > 0 {
			return notCarried(j, p, seen)
		}
	}
	return ""
}

func notCarried(j *check.Job, p *check.Part, seen []*check.Part) string {
	if contains(seen, p) {
		return p.Name() + " hangs on what it carries"
	}
	if w := wayDown(j, p, seen); w.broken != "" && w.sure+w.perhaps < 2 {
		return w.broken + ", under " + p.Name()
	}
	return ""
}

// carries reports whether what a support takes comes down to the floor.
func carries(j *check.Job, p *check.Part, l landing) bool {
	for _, h := range holds(j, p) {
		if h.by == l.on && h.grip == loose {
			return false
		}
	}
	return brokenBelow(j, l.on, []*check.Part{p}) == ""
}
