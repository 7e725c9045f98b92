package moisture

import "fmt"

// EMCFahrenheit is the moisture content in per cent that wood settles at in air of t degrees
// Fahrenheit and relative humidity h. Valid from 30 to 210 degrees F and for h from 0 to 0.9;
// above that the fit leaves the data. The fit is good to .13 on average and .9 at most.
//
// Source: Hailwood and Horrobin's equation with the constants of the Wood Handbook, FPL-GTR-190,
// chapter 4, in their Fahrenheit form.
func EMCFahrenheit(t, h float64) (float64, error) {
	if !(t >= 30 && t <= 210) {
		return 0, fmt.Errorf("temperature %g degrees F, want 30 to 210", t)
	}
	return emc(h, hailwood{
		w:  330 + .452*t + .00415*t*t,
		k:  .791 + 4.63e-4*t - 8.44e-7*t*t,
		k1: 6.34 + 7.75e-4*t - 9.35e-5*t*t,
		k2: 1.09 + 2.84e-2*t - 9.04e-5*t*t,
	})
}

// EMCCelsius is EMCFahrenheit for t in degrees Celsius, valid from -1 to 99. The constants
// are rounded by themselves, so the result differs from the other form by some .05 per cent of
// its value.
//
// Source: as EMCFahrenheit, Celsius form (constants from memory; checked against the other).
func EMCCelsius(t, h float64) (float64, error) {
	if !(t >= -1.2 && t <= 99) {
		return 0, fmt.Errorf("temperature %g degrees C, want -1 to 99", t)
	}
	return emc(h, hailwood{
		w:  349 + 1.29*t + .0135*t*t,
		k:  .805 + .000736*t - 2.73e-6*t*t,
		k1: 6.27 - .00938*t - .000303*t*t,
		k2: 1.91 + .0407*t - .000293*t*t,
	})
}

// hailwood holds the constants at one temperature.
type hailwood struct {
	w, k, k1, k2 float64
}

func emc(h float64, c hailwood) (float64, error) {
	if !(h >= 0 && h <= .9) {
		return 0, fmt.Errorf("relative humidity %g, want 0 to 0.9", h)
	}
	kh := c.k * h
	dissolved := kh / (1 - kh)
	bound := (c.k1*kh + 2*c.k1*c.k2*kh*kh) / (1 + c.k1*kh + c.k1*c.k2*kh*kh)
	return 1800 / c.w * (dissolved + bound), nil
}

// mdfAt is the moisture of MDF in per cent at a relative humidity.
var mdfAt = []struct{ humidity, moisture float64 }{
	{.30, 7}, {.45, 8}, {.65, 10}, {.75, 11}, {.90, 15.5},
}

// MDFMoisture is the moisture content in per cent that MDF settles at in air of relative
// humidity h, good to about 1. Valid for h from 0.3 to 0.9. It is not that of wood: MDF takes
// up some .1 per cent for each per cent of humidity.
//
// Source: guide of an Australasian panel association, straight between its rows.
func MDFMoisture(h float64) (float64, error) {
	for i, to := range mdfAt[1:] {
		from := mdfAt[i]
		if h >= from.humidity && h <= to.humidity {
			return from.moisture + (to.moisture-from.moisture)*(h-from.humidity)/(to.humidity-from.humidity), nil
		}
	}
	return 0, fmt.Errorf("relative humidity %g, want 0.3 to 0.9", h)
}
