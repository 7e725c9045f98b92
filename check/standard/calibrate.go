package standard

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// LeastReadings is how many readings it takes to replace a built-in value.
const LeastReadings = 10

// Calibrate replaces the value of an entry by what the shop measured. The readings are in
// unit and were read to step.
//
// The nominal becomes their mean. Low and high become the two-sided tolerance interval
// that holds 95 % of all such pieces at 95 % confidence, for readings that scatter
// normally (Howe, "Two-sided tolerance limits for normal populations", JASA 64 (1969);
// NIST/SEMATECH e-Handbook 7.2.6.3), widened by half a step: from ten readings it is 3.38
// times their spread to either side, from thirty 2.55. An entry of the spread group that
// speaks of sigma becomes the spread itself, with its 95 % confidence interval.
//
// It fails for fewer than ten readings, for a step that is not above zero, for a unit of
// another kind, and for a reading that is not finite.
func Calibrate(e Entry, readings []float64, unit string, step float64) (Entry, error) {
	n := len(readings)
	if n < LeastReadings {
		return e, fmt.Errorf("%s: %d readings, at least %d are wanted", e.Name(), n, LeastReadings)
	}
	if !(step > 0) {
		return e, fmt.Errorf("%s: read to %g, a step above zero is wanted", e.Name(), step)
	}
	mean, s := stat.MeanStdDev(readings, nil)
	if math.IsNaN(mean) || math.IsInf(mean, 0) || math.IsInf(s, 0) {
		return e, fmt.Errorf("%s: a reading is no finite number", e.Name())
	}
	c := e
	c.Unit, c.Known = unit, KnownMeasured
	if sigmas := e.sigmas(); sigmas > 0 {
		s = math.Max(s, step/math.Sqrt(12)) // the rounding of the readings scatters by this alone
		low, high := spreadInterval(n)
		c.Low, c.Nominal, c.High = sigmas*s*low, sigmas*s, sigmas*s*high
		c.Source = fmt.Sprintf("spread of %d readings to %g %s, with its 95 %% interval", n, step, unit)
	} else {
		reach := toleranceFactor(n)*s + step/2
		c.Low, c.Nominal, c.High = mean-reach, mean, mean+reach
		if slices.Min(readings) >= 0 {
			c.Low = math.Max(0, c.Low)
		}
		c.Source = fmt.Sprintf("mean of %d readings to %g %s, with the range of 95 in 100 pieces", n, step, unit)
	}
	c.Note = fmt.Sprintf("mean %.4g, spread %.3g %s", mean, s, unit)
	if e.Unit == "" {
		return c, nil
	}
	if _, err := c.In(e.Unit); err != nil {
		return e, err
	}
	return c, nil
}

// sigmas is how many standard deviations the entry counts, 0 when it is no spread.
func (e Entry) sigmas() float64 {
	switch {
	case e.Group != "spread":
		return 0
	case strings.Contains(e.Property, "2 sigma"):
		return 2
	case strings.Contains(e.Property, "1 sigma"):
		return 1
	}
	return 0
}

func toleranceFactor(n int) float64 {
	nu := float64(n - 1)
	z := distuv.UnitNormal.Quantile(0.975)
	return z * math.Sqrt(nu*(1+1/float64(n))/distuv.ChiSquared{K: nu}.Quantile(0.05))
}

// spreadInterval gives the factors on a standard deviation of n readings that hold the true
// one with 95 % confidence.
func spreadInterval(n int) (low, high float64) {
	nu := float64(n - 1)
	chi := distuv.ChiSquared{K: nu}
	return math.Sqrt(nu / chi.Quantile(0.975)), math.Sqrt(nu / chi.Quantile(0.025))
}
