package chance

import (
	"math"
	"slices"
	"sort"
)

// A chain is a pitch stepped off slot to slot: every place is the place before plus a step
// with its own error, so the error grows along the row.

// chainFree is the share that goes on when the part may slide. Cut the chain at the slot
// that stops the part: the slots after it and those before it are two independent walks
// that start at the edge of its clearance and must stay within that of the others. So the
// share is the sum, over the slots that may stop the part, of the product of both walks.
func chainFree(links []link) float64 {
	links, ok := tie(links)
	if !ok {
		return 0
	}
	backwards := reversed(links)
	share := 0.0
	ahead, behind := walks(links), walks(backwards)
	for k, l := range links {
		share += ahead[k](l.half) * behind[len(links)-1-k](l.half)
	}
	return share
}

// chainHeld is the share that goes on when the part stands against a stop at the first slot.
func chainHeld(links []link) float64 {
	links, ok := tie(links)
	if !ok || math.Abs(links[0].mean) > links[0].half {
		return 0
	}
	return walks(links)[0](links[0].mean)
}

// tie makes one link of slots whose steps have no error: they move together, and their
// clearances overlap. Not ok if two such slots never open together.
func tie(links []link) (tied []link, ok bool) {
	for i, l := range links {
		if i == 0 || !l.spread.none() {
			tied = append(tied, l)
			continue
		}
		last := &tied[len(tied)-1]
		low := max(last.mean-last.half, l.mean-l.half)
		high := min(last.mean+last.half, l.mean+l.half)
		if low > high {
			return nil, false
		}
		// lo is place-half and hi is place+half: the tightest of both sides are kept.
		last.mean, last.half = (low+high)/2, (high-low)/2
	}
	return tied, true
}

// reversed is the same chain read from its other end: each link has the step from the link
// that now stands before it.
func reversed(links []link) []link {
	back := slices.Clone(links)
	slices.Reverse(back)
	for i := len(back) - 1; i > 0; i-- {
		back[i].spread = back[i-1].spread
	}
	return back
}

// walks gives, for each link, the share of chains in which all later links hold, as a
// function of where this link stands.
func walks(links []link) []func(x float64) float64 {
	ahead := make([]func(float64) float64, len(links))
	ahead[len(links)-1] = func(float64) float64 { return 1 }
	for i := len(links) - 2; i >= 0; i-- {
		to, drift := links[i+1], links[i+1].mean-links[i].mean
		if i == len(links)-2 {
			ahead[i] = func(x float64) float64 { return to.spread.between(-to.half-x-drift, to.half-x-drift) }
			continue
		}
		at, weight := nodes(panels(-to.half, to.half, 2*to.spread.scale(), nil))
		for k, y := range at {
			weight[k] *= ahead[i+1](y)
		}
		ahead[i] = func(x float64) float64 { return stride(to.spread, x+drift, at, weight) }
	}
	return ahead
}

// stride sums the weights of the places at, each by the density of a step to it from x.
func stride(s spread, x float64, at, weight []float64) float64 {
	sum := 0.0
	for k := sort.SearchFloat64s(at, x-s.reach()); k < len(at) && at[k] < x+s.reach(); k++ {
		sum += weight[k] * s.density(at[k]-x)
	}
	return sum
}
