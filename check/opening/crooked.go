package opening

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/shape"
)

// band is two faces across from each other, the sides of an opening or its floor and head, as
// they were read at some places along them. All lengths in the unit of the job.
type band struct {
	along, size []float64 // places in rising order, and the size read at each
	length      float64   // of the faces
	off         float64   // most error of a size that was read
	near, far   tilt
	crossed     tilt // how the near face leans, by the diagonals
}

// tilt is how far the end of a face stands outward of its beginning.
type tilt struct {
	low, nominal, high float64
	off                float64 // most error of the reading
	known, guessed     bool
}

// level is the size of the level rectangle between two faces. Low and high take the errors of
// the readings by root-sum-square, since they are more than three and have nothing to do with
// each other; sure takes them all at their worst and goes in for certain.
type level struct {
	low, nominal, high float64
	sure               float64
	guessed            bool      // nobody read which face bulges, or which way it leans
	near, far          []float64 // how far each face stands from the plumb or level line, at each place
	along              []float64
}

// outOfStraight is how far each face leaves its own plumb or level line.
func (l level) outOfStraight() (near, far float64) {
	return slices.Max(l.near) - slices.Min(l.near), slices.Max(l.far) - slices.Min(l.far)
}

// level finds the rectangle from each reading of a lean. Where several were taken the sure
// size is the larger of the sure ones, since each of them is sure.
func (b band) level() (level, bool) {
	if len(b.along) < 2 {
		return level{}, false
	}
	var found []level
	if b.near.known {
		found = append(found, b.from(b.near))
	} else if b.crossed.known && !b.far.known { // plumb tells more than diagonals do
		found = append(found, b.from(b.crossed))
	}
	if b.far.known {
		m := b.from(b.far) // the mirror image: the far face leads
		m.near, m.far = mirrored(m.far), mirrored(m.near)
		found = append(found, m)
	}
	if len(found) == 0 {
		return level{}, false
	}
	out := found[0]
	if len(found) > 1 && b.near.known && b.far.known {
		out = mean(found[0], found[len(found)-1])
	}
	for _, l := range found {
		out.low, out.high, out.sure = max(out.low, l.low), min(out.high, l.high), max(out.sure, l.sure)
	}
	if out.low > out.nominal || out.high < out.nominal { // the readings contradict each other
		for _, l := range found {
			out.low, out.high, out.sure = min(out.low, l.low), max(out.high, l.high), min(out.sure, l.sure)
		}
	}
	return out, true
}

func mirrored(face []float64) []float64 {
	out := make([]float64, len(face))
	for i, x := range face {
		out[i] = -x
	}
	return out
}

func mean(a, b level) level {
	half := func(x, y []float64) []float64 {
		out := make([]float64, len(x))
		for i := range x {
			out[i] = (x[i] + y[i] - x[0] - y[0]) / 2
		}
		return out
	}
	shift := a.far[0] - a.near[0]
	out := level{low: a.low, high: a.high, sure: a.sure, guessed: a.guessed || b.guessed, along: a.along,
		near: half(a.near, b.near), far: half(a.far, b.far)}
	for i := range out.far {
		out.far[i] += shift
	}
	out.nominal = (a.nominal + b.nominal) / 2
	return out
}

// from is the level rectangle when the leading face leans as read. A bulge between the ends
// may be of either face, or of both: what is left between them is a sum of least values of
// straight lines in the share of each face, so it is least where every bulge is of one face
// alone, and those cases are all tried.
func (b band) from(t tilt) level {
	l := level{guessed: t.guessed, along: b.along, sure: math.Inf(1)}
	l.low, l.high = b.between(t.low, t.nominal, t.high)
	least, most := b.between(t.nominal)
	l.nominal = (least + most) / 2
	l.guessed = l.guessed || most-least > 1e-9
	off := b.likelyOff(t, least)
	l.low, l.high = l.low-off, l.high+off
	for bulge := range b.bulges() {
		for _, lean := range []float64{t.low - t.off, t.nominal, t.high + t.off} {
			near, far := b.faces(lean, bulge)
			l.sure = min(l.sure, leastBetween(b, near, far)-b.off*b.carries(bulge))
		}
	}
	l.near, l.far = b.faces(t.nominal, 0)
	return l
}

// bulges is how many ways there are to give the bulges between the ends to one face or the
// other.
func (b band) bulges() int { return 1 << max(0, len(b.along)-2) }

// between is the least and the most level size over some leans and all ways to give the bulges.
func (b band) between(leans ...float64) (least, most float64) {
	least, most = math.Inf(1), math.Inf(-1)
	for bulge := range b.bulges() {
		for _, lean := range leans {
			near, far := b.faces(lean, bulge)
			size := leastBetween(b, near, far)
			least, most = min(least, size), max(most, size)
		}
	}
	return least, most
}

// likelyOff is the root-sum-square of what the error of each reading costs by itself.
func (b band) likelyOff(t tilt, least float64) float64 {
	sum := 0.0
	lost := func(c band, lean float64) float64 {
		size, _ := c.between(lean)
		return max(0, least-size)
	}
	for i := range b.size {
		up, down := b, b
		up.size, down.size = slices.Clone(b.size), slices.Clone(b.size)
		up.size[i] += b.off
		down.size[i] -= b.off
		sum += math.Pow(max(lost(up, t.nominal), lost(down, t.nominal)), 2)
	}
	sum += math.Pow(max(lost(b, t.nominal-t.off), lost(b, t.nominal+t.off)), 2)
	return math.Sqrt(sum)
}

// carries is how many times the error of one reading the level size may be off by. Between
// straight leading faces it is once. A bulge given to the leading face is the difference of a
// reading and the line between the outer two: with the place a share f of the way, the size
// w0-(1-f)*w0-f*w2+wi takes 1+2*f times the error, or as much from the other end.
func (b band) carries(bulge int) float64 {
	n := len(b.along)
	most := 1.0
	for i := 1; i < n-1; i++ {
		if bulge>>(i-1)&1 == 1 {
			f := (b.along[i] - b.along[0]) / (b.along[n-1] - b.along[0])
			most = max(most, 1+2*max(f, 1-f))
		}
	}
	return most
}

// faces are the two faces with the leading one leaning as given; bit i of bulge gives the
// bulge at the i-th inner place to the leading face.
func (b band) faces(lean float64, bulge int) (near, far []float64) {
	n := len(b.along)
	first, last := b.along[0], b.along[n-1]
	for i, y := range b.along {
		near = append(near, -lean*y/b.length)
		far = append(far, near[i]+b.size[i])
	}
	ends := [2]float64{far[0], far[n-1]}
	for i := 1; i < n-1; i++ {
		if bulge>>(i-1)&1 == 0 {
			continue
		}
		straight := ends[0] + (ends[1]-ends[0])*(b.along[i]-first)/(last-first)
		near[i] -= far[i] - straight
		far[i] = straight
	}
	return near, far
}

// leastBetween is the level size between two faces over their whole length.
func leastBetween(b band, near, far []float64) float64 {
	o := shape.Opening{Left: profile(b.along, near), Right: profile(b.along, far),
		Floor: flat(0), Head: flat(b.length)}
	r, err := o.Level(shape.Doubt{})
	if err != nil {
		return 0
	}
	return r.Width()
}

func profile(along, off []float64) shape.Profile {
	var p shape.Profile
	for i := range along {
		p = append(p, shape.Reading{Along: along[i], Off: off[i]})
	}
	return p
}

func flat(y float64) shape.Profile { return shape.Profile{{Along: 0, Off: y}, {Along: 1, Off: y}} }

// value is the level size as an input of a working.
func (l level) value(j *check.Job, method string) check.Value {
	v := check.Between(l.low, l.nominal, l.high)
	v.Guessed, v.Why = l.guessed, fmt.Sprintf("%s; sure to go in: %s", method, j.Len(l.sure))
	return v
}

// sides is the band of the two sides of an opening.
func sides(j *check.Job, o *check.Opening) band {
	high := lengthOfFace(j, o.Heights)
	b := read(o.Widths, high, map[string]float64{"floor": 0, "middle": .5, "top": 1})
	b.off = closeness(j, o, o.Widths).Nominal
	b.near, b.far = tiltOf(j, o, "left", high), tiltOf(j, o, "right", high)
	b.crossed = crossedTilt(j, o, b)
	return b
}

// floorAndHead is the band of floor and head.
func floorAndHead(j *check.Job, o *check.Opening) band {
	wide := lengthOfFace(j, o.Widths)
	b := read(o.Heights, wide, map[string]float64{"left": 0, "middle": .5, "right": 1})
	b.off = closeness(j, o, o.Heights).Nominal
	b.near, b.far = tiltOf(j, o, "floor", wide), tiltOf(j, o, "head", wide)
	b.far.low, b.far.nominal, b.far.high = -b.far.high, -b.far.nominal, -b.far.low // a head that falls to the right comes inward
	return b
}

// lengthOfFace is how long the faces are: the other size of the opening, the height of a room
// where nobody read it.
func lengthOfFace(j *check.Job, across []check.Reading) float64 {
	if least, ok := check.Smallest(across); ok {
		return least.Value.Nominal
	}
	return j.Standard("opening", "unmeasured room", "ceiling", check.Length).Nominal
}

// read puts readings in their places along a face: where they say, by the name of the place,
// else spread evenly in the order typed. Of two in one place the lesser counts.
func read(rs []check.Reading, length float64, places map[string]float64) band {
	b := band{length: length}
	type spot struct{ along, size float64 }
	var spots []spot
	kept := frontal(rs)
	for i, r := range kept {
		share, named := places[r.At]
		switch {
		case r.Place.Known:
			share = r.Place.Nominal / length
		case !named && len(kept) > 1:
			share = float64(i) / float64(len(kept)-1)
		}
		spots = append(spots, spot{share * length, r.Value.Nominal})
	}
	slices.SortStableFunc(spots, func(a, b spot) int { return cmp.Compare(a.along, b.along) })
	for _, s := range spots {
		if n := len(b.along); n > 0 && s.along-b.along[n-1] < length/1000 {
			b.size[n-1] = min(b.size[n-1], s.size)
			continue
		}
		b.along, b.size = append(b.along, s.along), append(b.size, s.size)
	}
	return b
}

// frontal are the readings of the face of an opening; those said to be at its back or its
// mouth tell how it runs in depth.
func frontal(rs []check.Reading) []check.Reading {
	var out []check.Reading
	for _, r := range rs {
		if r.Value.Known && r.At != "back" && r.At != "front" {
			out = append(out, r)
		}
	}
	return out
}

// tiltOf is the lean of a face that was read with plumb or level, carried to its end.
func tiltOf(j *check.Job, o *check.Opening, of string, length float64) tilt {
	for _, l := range o.Leans {
		if l.Of == of && l.Offset.Known {
			return carriedOn(j, l, length)
		}
	}
	return tilt{}
}

func carriedOn(j *check.Job, l check.Lean, length float64) tilt {
	over := l.Over
	text := strings.ToLower(l.Text.Text)
	switch {
	case over.Known && over.Nominal > 0:
	case strings.Contains(text, "top"), strings.Contains(text, "oben"), l.Offset.Nominal == 0 && !l.Offset.Ranged():
		over = check.Exact(length) // read against its whole height
	default:
		over = j.Standard("opening", "unmeasured lean", "length", check.Length)
		over.Nominal, over.High = max(over.Low, length), max(over.High, length)
	}
	t := tilt{known: true, guessed: l.Offset.Guessed || over.Guessed,
		nominal: l.Offset.Nominal * length / over.Nominal}
	t.low, t.high = math.Inf(1), math.Inf(-1)
	for _, x := range []float64{l.Offset.Low, l.Offset.High} {
		for _, n := range []float64{over.Low, over.High} {
			t.low, t.high = min(t.low, x*length/n), max(t.high, x*length/n)
		}
	}
	read := j.Standard("site", "plumb", "reading over 96 in", check.Length)
	if strings.HasPrefix(l.Of, "floor") || l.Of == "head" {
		read = j.Standard("site", "level", "reading over 72 in", check.Length)
	}
	t.off = read.Nominal * length / over.Nominal
	return t
}

// crossedTilt is how the left side leans, by the two diagonals: see
// [shape.LeanFromDiagonals]. Where nobody says which is which it leans either way.
func crossedTilt(j *check.Job, o *check.Opening, b band) tilt {
	n := len(b.along)
	if n < 2 || len(o.Diagonals) != 2 || !o.Diagonals[0].Value.Known || !o.Diagonals[1].Value.Known {
		return tilt{}
	}
	first, second := o.Diagonals[0], o.Diagonals[1]
	named := first.At == "LB-RT" && second.At == "RB-LT" || first.At == "RB-LT" && second.At == "LB-RT"
	if first.At == "RB-LT" {
		first, second = second, first
	}
	right, err := shape.LeanFromDiagonals(first.Value.Nominal, second.Value.Nominal, b.size[0], b.size[n-1])
	if err != nil {
		return tilt{}
	}
	u := j.Standard("site", "diagonal", "reading", check.Length).Nominal
	t := tilt{low: -right, nominal: -right, high: -right, known: true,
		off: u*(first.Value.Nominal+second.Value.Nominal)/(b.size[0]+b.size[n-1]) + b.off}
	if !named {
		other := right + b.size[n-1] - b.size[0] // the mirror image: the other side leans so
		t.low, t.high, t.guessed = min(-right, other), max(-right, other), true
		t.nominal = (t.low + t.high) / 2
	}
	return t
}

// levelDepth is the least depth less the lean of the back wall into the opening. Where depths
// were read both low and high the lean is in them.
func levelDepth(j *check.Job, o *check.Opening) (level, bool) {
	least, ok := check.Smallest(o.Depths)
	if !ok || readHighAndLow(o.Depths) {
		return level{}, false
	}
	t := tiltOf(j, o, "back", lengthOfFace(j, o.Heights))
	if !t.known {
		return level{}, false
	}
	u := closeness(j, o, o.Depths).Nominal
	in := func(lean float64) float64 { return max(0, -lean) }
	d := least.Value.Nominal
	return level{low: d - in(t.low-t.off) - u, sure: d - in(t.low-t.off) - u, nominal: d - in(t.nominal), high: d + u, guessed: t.guessed,
		along: []float64{0, 1}, near: []float64{0, 0}, far: []float64{d, d + t.nominal}}, true
}

func readHighAndLow(rs []check.Reading) bool {
	var low, high bool
	for _, r := range rs {
		low, high = low || r.At == "floor", high || r.At == "top"
	}
	return low && high
}

// closing is how much narrower the opening is at its back than at its front, over a depth, by
// the corners that are less than square.
func closing(j *check.Job, o *check.Opening, depth float64) check.Value {
	total := none("corners not read, or square")
	for _, corner := range []string{"left corner", "right corner"} {
		t := tiltOf(j, o, corner, depth)
		if !t.known {
			continue
		}
		in := func(x float64) float64 { return max(0, -x) }
		total.Low, total.Nominal, total.High = total.Low+in(t.high), total.Nominal+in(t.nominal), total.High+in(t.low)
		total.Guessed = total.Guessed || t.guessed
		total.Why = fmt.Sprintf("corners closing over a depth of %s", j.Len(depth))
	}
	return total
}
