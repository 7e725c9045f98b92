package structure

import (
	"encoding/binary"
	"math"
	"sync"
)

// layouts are the layouts worked out last: they rest on nothing but lengths, so that jobs and
// checks that run at the same time may share them.
var layouts = &remembered{at: map[string]result{}}

// remembered are results by what they were worked out from.
type remembered struct {
	mu sync.Mutex
	at map[string]result
}

// mostRemembered is how many results are kept: some hundred bytes each.
const mostRemembered = 2000

// of gives a result as worked out before, or works it out. Errors are not kept.
func (m *remembered) of(key string, work func() (result, error)) (result, error) {
	m.mu.Lock()
	r, known := m.at[key]
	m.mu.Unlock()
	if known {
		return r, nil
	}
	r, err := work()
	if err != nil {
		return r, err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if len(m.at) >= mostRemembered {
		clear(m.at)
	}
	m.at[key] = r
	return r, nil
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
