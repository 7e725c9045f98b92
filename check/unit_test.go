package check

import (
	"testing"

	"dryfit/check/length"
)

// By hand: a lead reads whole percents; a share that is there is never printed as none, and one
// that is not whole never as all.
func TestSharesInWholePercents(t *testing.T) {
	for share, want := range map[float64]string{0: "0 %", .0004: "under 1 %", .029: "3 %", .181: "18 %", .9999: "over 99 %", 1: "100 %", 2.83: "283 %"} {
		if got := Share.Print(share, length.Inch); got != want {
			t.Errorf("%v is %q, want %q", share, got, want)
		}
	}
}
