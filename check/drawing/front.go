package drawing

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"dryfit/check"
)

// alone are the titles of pictures of the only case of a job.
var alone = map[string]string{loadTitle: "Way of the load", openingTitle: "Opening as measured"}

const (
	loadTitle    = "Load"
	openingTitle = "Opening"
)

// mostPictures is how many pictures one page shows.
const mostPictures = 3

// Front is what one page shows of a job: the case that fails first, with the way of its load
// and its opening; or several cases, those that fail first, and in a line which of how many
// they are.
func Front(rep *check.Report) (ds []Drawing, note string) {
	defer rep.Job.Keep()()
	all := Elevations(rep)
	if len(all) == 0 {
		return nil, ""
	}
	kept := slices.Clone(all)
	slices.SortStableFunc(kept, func(a, b Elevation) int { return cmp.Compare(b.Verdict, a.Verdict) })
	var more []Elevation
	for _, others := range [][]Elevation{Ways(rep), Openings(rep)} {
		if e, ok := telling(others, kept[0], len(all) == 1); ok {
			more = append(more, e)
		}
	}
	kept = kept[:min(mostPictures-len(more), len(kept))]
	var names []string
	for _, e := range kept {
		ds = append(ds, e.Drawing)
		names = append(names, e.Title)
	}
	for _, e := range more {
		if len(all) > 1 {
			e.Title += ": " + title(e.Case)
		} else {
			e.Title = alone[e.Title]
		}
		ds = append(ds, e.Drawing)
	}
	if len(kept) < len(all) {
		note = fmt.Sprintf("Drawn: %s, of %d cases; those that fail come first.", strings.Join(names, ", "), len(all))
	}
	return ds, note
}

// telling is the picture that a page should show beside the first case: one that fails, else
// that of the first case where there is room for it.
func telling(all []Elevation, first Elevation, room bool) (Elevation, bool) {
	worst := -1
	for i, e := range all {
		if e.Verdict >= check.Verify && (worst < 0 || e.Verdict > all[worst].Verdict) {
			worst = i
		}
	}
	if worst >= 0 {
		return all[worst], true
	}
	for _, e := range all {
		if room && e.Case.Name == first.Case.Name && e.Case.Room == first.Case.Room {
			return e, true
		}
	}
	return Elevation{}, false
}
