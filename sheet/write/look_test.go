package write

import (
	"math"
	"strconv"
	"testing"
)

// seers are how people see colours, as matrices on linear red, green and blue: Machado, Oliveira
// and Fernandes, A Physiologically-based Model for Simulation of Color Vision Deficiency, IEEE
// TVCG 15 (2009) 1291, table 1, severity 1.0 (from memory; each row adds up to 1, so that white
// stays white).
var seers = map[string][3][3]float64{
	"all colours": {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"no red":      {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"no green":    {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"no blue":     {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

// Whoever looks, any two verdicts have fills that are told apart side by side. A difference of
// 2.3 is just seen (Mahy, Van Eycken and Oosterlinck, Color Research & Application 19 (1994) 105;
// from memory); four times as much is wanted here.
func TestVerdictsAreToldApart(t *testing.T) {
	for who, see := range seers {
		for i, a := range verdicts {
			for _, b := range verdicts[:i] {
				if d := distance(lab(see, linear(t, a.fill)), lab(see, linear(t, b.fill))); d < 4*2.3 {
					t.Errorf("who sees %s: %s and %s differ by %.1f", who, a.Word(), b.Word(), d)
				}
			}
		}
	}
}

// On a grey print the fills are steps of lightness, at least 5 of 100 apart: house rule, over
// twice what is just seen.
func TestVerdictsAreStepsOfGrey(t *testing.T) {
	for i, a := range verdicts {
		for _, b := range verdicts[:i] {
			if d := math.Abs(lightness(t, a.fill) - lightness(t, b.fill)); d < 5 {
				t.Errorf("%s and %s are %.1f apart in lightness", a.Word(), b.Word(), d)
			}
		}
	}
}

// The words of the verdicts have the contrast that WCAG 2.2, success criterion 1.4.6 (level AAA),
// asks of text, also where a rule colours them.
func TestVerdictsAreRead(t *testing.T) {
	for _, m := range verdicts {
		ink, fill := luminance(linear(t, m.ink)), luminance(linear(t, m.fill))
		if c := (fill + 0.05) / (ink + 0.05); c < 7 {
			t.Errorf("%s has a contrast of %.1f", m.Word(), c)
		}
	}
}

// linear are red, green and blue as light: IEC 61966-2-1 (sRGB).
func linear(t *testing.T, colour string) (out [3]float64) {
	t.Helper()
	n, err := strconv.ParseUint(colour, 16, 32)
	if err != nil {
		t.Fatal(err)
	}
	for i := range out {
		c := float64(n>>(16-8*i)&255) / 255
		if c <= 0.04045 {
			out[i] = c / 12.92
		} else {
			out[i] = math.Pow((c+0.055)/1.055, 2.4)
		}
	}
	return out
}

// luminance is the relative luminance of WCAG 2.2.
func luminance(c [3]float64) float64 { return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2] }

func lightness(t *testing.T, colour string) float64 {
	return lab(seers["all colours"], linear(t, colour))[0]
}

// lab is a colour as somebody sees it in CIE 1976 L*a*b*, white D65: ISO/CIE 11664-4.
func lab(see [3][3]float64, c [3]float64) [3]float64 {
	var seen [3]float64
	for i, row := range see {
		seen[i] = min(1, max(0, row[0]*c[0]+row[1]*c[1]+row[2]*c[2]))
	}
	r, g, b := seen[0], seen[1], seen[2]
	f := func(t float64) float64 {
		if t > 216./24389 {
			return math.Cbrt(t)
		}
		return (24389./27*t + 16) / 116
	}
	x, y, z := f((0.4124*r+0.3576*g+0.1805*b)/0.9505), f(luminance(seen)), f((0.0193*r+0.1192*g+0.9505*b)/1.089)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

func distance(a, b [3]float64) float64 {
	return math.Sqrt((a[0]-b[0])*(a[0]-b[0]) + (a[1]-b[1])*(a[1]-b[1]) + (a[2]-b[2])*(a[2]-b[2]))
}
