package schedule

import (
	"fmt"
	"math"

	"dryfit/check"
)

// A size that is like no other of its role is held against what it stands beside: the other
// parts of its case, the opening, the sheets that are sold.
const (
	pastOpening = 1.5 // times the largest size of its opening: no part of a case is so long
	pastCase    = 2.5 // times the largest size of any other part of its case
	pastPair    = 1.2 // times that, where the one other of its role is a slip of unit smaller
	underCase   = 3.0 // times smaller than the least of its case, likewise
	longestSold = 144 // in; where the material says no sheet of its own. common practice
)

// bounds is what the other parts of a case say of a size.
type bounds struct {
	most, least float64   // of all sizes in plan; of this field
	others      int       // parts that count
	role        []float64 // this field of the others of its role, no two alike
	again       bool      // another part has the same size
}

// boundsOf looks over the carcass of the case of a part. What is cut on site, and what may run
// along several cases, says nothing.
func boundsOf(ps []*check.Part, p *check.Part, i int) bounds {
	b := bounds{least: math.Inf(1)}
	x := p.Sizes()[i].Value.Nominal
	for _, q := range ps {
		if q == p || q.FitOnSite() || !ofCarcass(q.Role) && q.Role != check.Seat {
			continue
		}
		l, w, own := q.Length.Nominal, q.Width.Nominal, q.Sizes()[i].Value.Nominal
		if !(l > 0 && w > 0) {
			continue
		}
		b.others++
		b.again = b.again || math.Abs(own/x-1) < agree
		b.most, b.least = max(b.most, l, w), min(b.least, own)
		if q.Role == p.Role {
			b.role = append(b.role, own)
		}
	}
	return b
}

// outOfProportion is the row of a length or width that cannot be where it stands.
func outOfProportion(j *check.Job, p *check.Part, i int) (check.Row, bool) {
	s := p.Sizes()[i]
	ps := j.CaseOf(p).Parts
	if !ofCarcass(p.Role) && p.Role != check.Seat || s.Field == "thickness" || len(ps) > mostCompared || p.FitOnSite() {
		return check.Row{}, false
	}
	b, x := boundsOf(ps, p, i), s.Value.Nominal
	if b.others < 2 || b.again {
		return check.Row{}, false
	}
	if against, what := tooLong(j, p, x, b); against > 0 {
		r := unitRow(j, p, s, against)
		r.In["t"] = because(check.Exact(10), "no part is so long: any slip counts")
		r.Words["says"] = fmt.Sprintf("%s %s; %s is %s: another unit, or a decimal point?", s.Field, j.Len(x), what, j.Len(against))
		r.Most = check.Hold
		return r, true
	}
	if len(b.role) == 1 && paired(x, b.role[0], b) {
		return unitRow(j, p, s, b.role[0]), true
	}
	return check.Row{}, false
}

// tooLong gives the size that bounds one that is longer than any sheet and than all around it.
func tooLong(j *check.Job, p *check.Part, x float64, b bounds) (against float64, what string) {
	if x <= longest(j, p) {
		return 0, ""
	}
	if o := j.OpeningOf(j.CaseOf(p)); o != nil {
		if most := largest(o); most > 0 && x > pastOpening*most && x > pastPair*b.most {
			return most, "the opening"
		}
	}
	if x > pastCase*b.most {
		return b.most, "the longest beside it"
	}
	return 0, ""
}

// longest is the longest sheet that the material of a part is sold in.
func longest(j *check.Job, p *check.Part) float64 {
	most := longestSold * j.PerInch()
	m, ok, _ := j.Material(p.Material.Text)
	if !ok {
		return most
	}
	for k, s := range sheets(j, m) {
		if k == 0 {
			most = 0
		}
		most = max(most, s.Length)
	}
	return most
}

func largest(o *check.Opening) float64 {
	most := o.Ceiling.Nominal
	for _, r := range append(append([]check.Reading{}, o.Widths...), o.Heights...) {
		most = max(most, r.Value.Nominal)
	}
	return most
}

// paired reports whether a size is a slip of unit from the one other of its role, and is the one
// of the two that does not go with its case.
func paired(x, other float64, b bounds) bool {
	if !slipped(x, other) || nearestSlip(math.Max(x/other, other/x)).factor < 10 {
		return false
	}
	return x > pastPair*b.most || x*underCase < b.least
}
