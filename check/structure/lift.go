package structure

import (
	"math"
	"slices"

	"dryfit/check"
	"dryfit/check/beam"
)

// post is an upright, divider or cleat that heights and places put right under a part.
type post struct {
	part *check.Part
	at   float64 // its middle, along the part
}

// postsUnder are what stands right under a part, from its left: typed places and heights say so.
func postsUnder(j *check.Job, p *check.Part) []post {
	if !p.X.Known || !p.Y.Known {
		return nil
	}
	var out []post
	for _, q := range caseOf(j, p).Role(check.Upright, check.Divider, check.Side, check.Cleat) {
		top, known := topOf(q)
		if !known || !q.X.Known || pieces(q) > 1 || math.Abs(top-p.Y.Nominal) > touching(j) {
			continue
		}
		half := q.Thickness.Nominal / 2
		if at := q.X.Nominal + half - p.X.Nominal; at >= -half && at <= p.Length.Nominal+half {
			out = append(out, post{q, math.Min(math.Max(at, 0), p.Length.Nominal)})
		}
	}
	slices.SortFunc(out, func(a, b post) int { return int(math.Copysign(1, a.at-b.at)) })
	return out
}

// topOf is the height of the top of a part that stands. Without a height of its own an upright
// stands on the floor.
func topOf(q *check.Part) (float64, bool) {
	if q.Role == check.Cleat {
		return q.Y.Nominal + q.Width.Nominal, q.Y.Known && q.Width.Known
	}
	return q.Y.Nominal + q.Length.Nominal, q.Length.Known
}

// overPosts is a part that lies on posts: what reaches past the outer ones overhangs, unless the
// sides of its case hold its ends.
func (s *span) overPosts(p *check.Part) (layout, bool) {
	var l layout
	for _, o := range s.posts {
		l.supports = append(l.supports, o.at)
	}
	near := 0.0
	for _, o := range s.posts {
		near = math.Max(near, o.part.Thickness.Nominal)
	}
	if s.ends && len(l.supports) > 0 {
		if l.supports[0] > near {
			l.supports = slices.Insert(l.supports, 0, 0)
		}
		if length := p.Length.Nominal; l.supports[len(l.supports)-1] < length-near {
			l.supports = append(l.supports, length)
		}
	}
	return l, len(l.supports) >= 2
}

// postAt is the post at a support, if there is one.
func (s *span) postAt(x float64) *check.Part {
	for _, o := range s.posts {
		if math.Abs(o.at-x) < 1e-9 {
			return o.part
		}
	}
	return nil
}

func (s *span) stoodUnderBy(u *check.Part) bool {
	return slices.ContainsFunc(s.posts, func(o post) bool { return o.part == u })
}

// overPost are the loaded parts of a job that stand on a post.
func (f *frame) overPost(u *check.Part) []*shelf {
	if f.posts == nil {
		f.posts = map[*check.Part][]*shelf{}
		for _, s := range f.shelves() {
			for _, o := range s.span.posts {
				f.posts[o.part] = append(f.posts[o.part], s)
			}
		}
	}
	return f.posts[u]
}

// unfixed are words for a part that only lies where it is.
var unfixed = words(`loose loosely laid lies lying rests resting unfixed pin pins peg pegs lose liegt liegend aufliegend posé posée
	apoyado suelto appoggiato luźno los ligt löst`)

// keptDown is how surely a joint holds a part down on what it lies on: sound where it is
// screwed or housed, loose where it is said to lie there or is only glued.
func keptDown(jt *check.Joint) grip {
	switch {
	case jt == nil:
		return unsaid
	case anyWord(jt.Fastener.Text, unfixed) && jt.Screws == nil:
		return loose
	case jt.Kind == check.Butt || jt.Kind == check.Mitre || jt.Kind == check.CleatJoint:
		return gripOf(jt)
	}
	return sound
}

// jointWith is the joint of a part with another, nil if nobody typed one.
func jointWith(j *check.Job, p, with *check.Part) *check.Joint {
	for _, m := range jointsOf(j, p) {
		if !m.joint.Inferred && contains(m.others, with) {
			return m.joint
		}
	}
	return nil
}

// liftRow asks whether a part stays down on posts that do not hold it: with the load on any of
// its bays and ends, and a person at an end that overhangs. It is silent where nothing lifts.
func liftRow(s *shelf) (check.Row, bool) {
	at := s.span.likely.supports
	r := rowOf(s.part)
	low, unsure := s.lifts(func(v check.Value) float64 { return v.High })
	if len(low) == 0 {
		return r, false
	}
	likely, _ := s.lifts(func(v check.Value) float64 { return v.Nominal })
	high, _ := s.lifts(func(v check.Value) float64 { return v.Low })
	n := float64(len(at))
	c := check.Between(n-float64(len(low)), n-float64(len(likely)), n-float64(len(high)))
	c.Guessed = s.load.line.Guessed || s.load.point.Guessed
	if unsure {
		c.High, c.Guessed = n, true
	}
	c.Why = "stiffness method: supports still touched under the worst of one-sided loads"
	r.Cause, r.In = "lifts", map[string]check.Value{"c": c, "n": check.Exact(n)}
	if n-float64(len(low)) >= 2 {
		r.Most = check.Verify // it stays on the others
	}
	first := s.span.postAt(at[low[0]])
	r.Marks = append(r.Marks, first.Name())
	r.Words["lifts"] = first.Name()
	if jt := jointWith(s.job, s.part, first); jt != nil {
		r.Cells = []check.Cell{jt.Row}
	}
	return r, true
}

// lifts are the supports that nothing is known to hold down and that some loading lifts, loads
// taken at one end of their ranges, and whether nobody said how any of them is fixed.
func (s *shelf) lifts(of func(check.Value) float64) (lifted []int, unsure bool) {
	b, err := s.span.likely.beam(s.span.length)
	if err != nil || len(s.span.posts) == 0 || !s.load.line.Known || !s.load.point.Known {
		return nil, false
	}
	own := s.stuff.density.Nominal * s.width.Nominal * s.part.Thickness.Nominal
	b.Spread = []beam.Spread{{To: s.span.length, W: own}}
	worst, err := b.Worst(b.Bays(of(s.load.line)))
	if err != nil {
		return nil, false
	}
	for i, x := range s.span.likely.supports {
		o := s.span.postAt(x)
		if o == nil {
			continue
		}
		g := keptDown(jointWith(s.job, s.part, o))
		if g == sound || worst.Uplift[i].Value <= 0 && s.upliftBySitting(b, i, of(s.load.point)) <= 0 {
			continue
		}
		lifted = append(lifted, i)
		unsure = unsure || g == unsaid
	}
	return lifted, unsure
}

// upliftBySitting is how hard a person pulls a support up from an end that overhangs, sitting
// as far out as he is wide.
func (s *shelf) upliftBySitting(b beam.Beam, i int, weight float64) float64 {
	most := 0.0
	if weight <= 0 {
		return most
	}
	half := s.job.Standard("load", "seat", "width of a person", check.Length).Nominal / 2
	for _, x := range []float64{half, s.span.length - half} {
		b.Points = []beam.Point{{At: math.Max(0, math.Min(x, s.span.length)), P: weight}}
		if r, err := b.Solve(); err == nil {
			most = math.Max(most, -r.Reactions[i])
		}
	}
	return most
}
