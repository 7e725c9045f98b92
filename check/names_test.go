package check

import (
	"slices"
	"testing"
)

// By hand: the order in which an office counts.
func TestNames(t *testing.T) {
	for _, row := range []struct {
		in, want []string
		more     int
	}{
		{[]string{"A10", "A9", "A2"}, []string{"A2", "A9", "A10"}, 0},
		{[]string{"Rack 1", "Rack 3", "Rack 2"}, []string{"Rack 1", "Rack 2", "Rack 3"}, 0},
		{[]string{"T-02b", "T-2a", "T-1"}, []string{"T-1", "T-2a", "T-02b"}, 0},
		{[]string{"D", "C", "B", "A"}, []string{"A", "B", "C", "D"}, 0},
		{[]string{"E", "C", "B", "A", "D"}, []string{"B", "C", "E"}, 2}, // the worst stand first and are kept
		{nil, nil, 0},
	} {
		kept, more := Names(row.in, 3)
		if !slices.Equal(kept, row.want) || more != row.more {
			t.Errorf("%q: %q and %d more, want %q and %d", row.in, kept, more, row.want, row.more)
		}
	}
}
