package structure

import (
	"encoding/binary"
	"math"

	"dryfit/check"
)

// workedOut are the layouts of a job worked out so far, by all that they rest on: shelves of one
// length over the same uprights are one layout.
type workedOut map[string]outcome

type outcome struct {
	result result
	err    error
}

// solve works a layout out for loads of one, and turns what they do into coefficients of the
// longest bay. Supports hold down as well as up.
func (l layout) solve(j *check.Job, length float64) (result, error) {
	o := check.OnceFor[workedOut](j, l.key(length), func() outcome {
		r, err := l.work(length)
		return outcome{r, err}
	})
	return o.result, o.err
}

// key is all that a layout rests on.
func (l layout) key(length float64) string {
	key := make([]byte, 0, 8*(2+len(l.supports)+6*len(l.cuts)))
	put := func(xs ...float64) {
		for _, x := range xs {
			key = binary.LittleEndian.AppendUint64(key, math.Float64bits(x))
		}
	}
	put(length, float64(len(l.supports)))
	put(l.supports...)
	for _, c := range l.cuts {
		put(c.at, c.wide, c.soft, c.kept, c.depth, c.width)
	}
	return string(key)
}
