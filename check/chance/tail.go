package chance

import "math"

// Tail is the share of a standard normal error above z, for any z. Exact to the last digits
// of a float64, also far out in the tail.
func Tail(z float64) float64 {
	return math.Erfc(z/math.Sqrt2) / 2
}

// LiveT and LiveTail are the tail as two formulas that a spreadsheet can follow, for z from
// 0 to 8: t first, then the share above z, which is off by 7.5e-8 at most.
//
// Source: M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, formula 26.2.17
// (number from memory; the error was measured here against the error function).
const (
	LiveT    = "1/(1+.2316419*z)"
	LiveTail = "t*(.319381530+t*(-.356563782+t*(1.781477937+t*(-1.821255978+t*1.330274429))))/(2.718281828459045^(z^2/2)*SQRT(2*PI()))"
)

// TailLive is the figure that LiveT and LiveTail give: z beyond 8 counts as 8, and below zero
// the share is one less the share above -z.
func TailLive(z float64) float64 {
	if z < 0 {
		return 1 - TailLive(-z)
	}
	z = min(z, 8)
	t := 1 / (1 + .2316419*z)
	sum := t * (.319381530 + t*(-.356563782+t*(1.781477937+t*(-1.821255978+t*1.330274429))))
	return sum * density(z)
}

// density is that of the standard normal.
func density(z float64) float64 {
	return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi)
}

// psi is the integral of the share below z, from minus infinity to z.
func psi(z float64) float64 {
	return z*Tail(-z) + density(z)
}
