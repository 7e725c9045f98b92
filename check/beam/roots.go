package beam

// A polynomial is a list of its coefficients, the constant first.

func evaluate(polynomial []float64, x float64) float64 {
	sum := 0.0
	for i := len(polynomial) - 1; i >= 0; i-- {
		sum = sum*x + polynomial[i]
	}
	return sum
}

// slope is the derivative.
func slope(polynomial []float64) []float64 {
	if len(polynomial) < 2 {
		return nil
	}
	derivative := make([]float64, len(polynomial)-1)
	for i := range derivative {
		derivative[i] = float64(i+1) * polynomial[i+1]
	}
	return derivative
}

// roots finds where the polynomial crosses zero between low and high: between the turning
// points, which are the roots of its slope, it crosses at most once.
func roots(polynomial []float64, low, high float64) []float64 {
	if len(polynomial) < 2 {
		return nil
	}
	turning := roots(slope(polynomial), low, high)
	var found []float64
	from := low
	for _, to := range append(turning, high) {
		if x, crosses := bisect(polynomial, from, to); crosses {
			found = append(found, x)
		}
		from = to
	}
	return found
}

func bisect(polynomial []float64, low, high float64) (x float64, crosses bool) {
	left, right := evaluate(polynomial, low), evaluate(polynomial, high)
	switch {
	case left == 0:
		return low, true
	case right == 0:
		return high, true
	case (left > 0) == (right > 0):
		return 0, false
	}
	for range 60 { // halves a share of an element down to one part in 10^18
		if middle := (low + high) / 2; (evaluate(polynomial, middle) > 0) == (left > 0) {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2, true
}
