package chance

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/integrate/quad"
)

// points is the number of Gauss-Legendre points in one panel.
const points = 16

var unitAt, unitWeight = func() (at, weight []float64) {
	at, weight = make([]float64, points), make([]float64, points)
	quad.Legendre{}.FixedLocations(at, weight, -1, 1)
	return at, weight
}()

// panels cuts the range from low to high at the breaks inside it, and again so that no
// panel is wider than widest.
func panels(low, high, widest float64, breaks []float64) []float64 {
	at := []float64{low, high}
	for _, b := range breaks {
		if b > low && b < high {
			at = append(at, b)
		}
	}
	slices.Sort(at)
	at = slices.Compact(at)
	var cuts []float64
	for i := range len(at) - 1 {
		n := max(1, math.Ceil((at[i+1]-at[i])/widest))
		for k := range int(n) {
			cuts = append(cuts, at[i]+(at[i+1]-at[i])*float64(k)/n)
		}
	}
	return append(cuts, high)
}

// nodes are the points and weights of the composite rule over the cuts.
func nodes(cuts []float64) (at, weight []float64) {
	for i := range len(cuts) - 1 {
		middle, half := (cuts[i]+cuts[i+1])/2, (cuts[i+1]-cuts[i])/2
		for k := range points {
			at = append(at, middle+half*unitAt[k])
			weight = append(weight, half*unitWeight[k])
		}
	}
	return at, weight
}

// integrate sums f over the cuts.
func integrate(f func(float64) float64, cuts []float64) float64 {
	sum := 0.0
	at, weight := nodes(cuts)
	for i, x := range at {
		sum += weight[i] * f(x)
	}
	return sum
}
