package structure

import "testing"

// Published and worked numbers, put through the steps of the checks.
func TestColumnSteps(t *testing.T) {
	plain := func(h, thick, b, emin, fc float64) map[string]float64 {
		return map[string]float64{"h": h, "b": b, "t": thick, "a": 0, "s": 0, "n": 0, "K": 0, "W": 0, "L": 1, "P": 1, "E": emin, "j": 1,
			"G": fc, "R": 1000, "C": 1, "o": 0, "u": .5}
	}
	book := plain(144, 5.5, 5.5, 580000, 1150)
	other := plain(120, 5.5, 5.5, 580000, 1707.75)
	post := plain(87.6, 3.5, 3.5, 510000, 1322.5)
	post["P"] = 4800
	breyer := plain(168, 5.5, 5.5, .3*1.6e6/.822, 900)
	breyer["P"] = 13000
	off := plain(14, .75, 11.25, 550000, 1500)
	off["P"], off["R"], off["o"] = 160, 1500, 1./3
	stud := plain(108, 5.5, 1.5, 580000, 1550*1.15)
	stud["P"] = 1400
	neck := plain(14, .75, 11, 550000, 1500)
	neck["P"], neck["s"], neck["a"] = 110, .125, 1
	for _, row := range []struct {
		name, symbol string
		in           map[string]float64
		want, off    float64
	}{
		{"ST09: Aghayere and Vigil Ex. 5.6, Cp rounded in the book", "Q", book, .502, .0015},
		{"ST10: Aghayere and Vigil Ex. 5.9", "Q", other, .492, .0006},
		{"ST11: HUD guide Ex. 5.6", "Q", post, .4378295, 1e-6},
		{"ST11: its use", "f", post, .676713, 1e-5},
		{"ST28: Breyer p. 7.15, buckling stress", "D", breyer, 514.46, .005},
		{"ST28: stability factor", "Q", breyer, .4819, .0001},
		{"ST28: stress", "c", breyer, 429.8, .06},
		{"ST30: straight down the use is not squared", "U", stud, .17139, .0004},
		{"ST37: stress", "c", off, 18.963, 1e-3},
		{"ST37: buckling stress", "D", off, 1297.481, 1e-3},
		{"ST37: stability factor", "Q", off, .638902, 1e-6},
		{"ST37: use off the middle", "y", off, .026138, 1e-6},
		{"by hand: 110/(10*.5)", "x", neck, 22, 1e-9},
	} {
		near(t, row.name, work(t, Upright, row.in)[row.symbol], row.want, row.off)
	}
}

func TestScrewSteps(t *testing.T) {
	screw := func(d0, d1, side, held, g, fyb float64) map[string]float64 {
		return map[string]float64{"R": 100, "n": 1, "D0": d0, "D1": d1, "Y0": fyb, "L": side + held, "a": side, "g": 0, "t": 100, "c": 2, "b": side / 2,
			"G": g, "H": g, "e": 1, "C": 1, "l": 0, "o": 24, "i": 1, "f": 1, "u": .5}
	}
	through := func(d, side, main, g, fyb float64) map[string]float64 { // no tip in the holding part
		in := screw(d, d, side, main, g, fyb)
		in["t"] = main
		return in
	}
	nail := through(.148, .75, 2.25, .5, 90000)
	mm := through(.148*25.4, .75*25.4, 2.25*25.4, .5, 90000*4.4482216152605/(25.4*25.4))
	mm["i"], mm["f"] = 25.4, 4.4482216152605
	pull := screw(.19, .152, .5, 1, .45, 80000)
	short := screw(.164, .131, .75, .5, .45, 90000)
	spaced := screw(.164, .131, .75, .5, .45, 90000)
	spaced["l"] = 60
	const fe = .004 // the table rounds 4637 psi to 4650
	for _, row := range []struct {
		name, symbol string
		in           map[string]float64
		want, off    float64
	}{
		{"ST32: AWC example, nail .148 x 3, IIIs", "Z", nail, 105.0956, .001},
		{"ST32 in millimetres", "Z", mm, 105.0956, .001},
		{"ST20: Im", "Z1", nail, 703.8, fe * 703.8},
		{"ST20: Is", "Z2", nail, 234.6, fe * 234.6},
		{"ST20: II", "Z3", nail, 234.6, fe * 234.6},
		{"ST20: IIIm", "Z4", nail, 244.3, fe * 244.3},
		{"ST20: IIIs", "Z5", nail, 105.3, fe * 105.3},
		{"ST20: IV", "Z6", nail, 117.6, fe * 117.6},
		{"ST21: NDS Table 12.3.3, rounded to 50", "m1", nail, 4650, 25},
		{"ST52: NDS 2018 Table 12L, No. 10, side 1/2", "Z", screw(.19, .152, .5, 1.9, .5, 80000), 90, .5},
		{"ST53: NDS 2018 Table 12N, .113", "Z", through(.113, 1, 2.5, .5, 100000), 72, .5},
		{"ST53: .131", "Z", through(.131, 1, 2.5, .5, 100000), 97, .5},
		{"ST53: .148", "Z", through(.148, 1, 2.5, .5, 90000), 118, .6},
		{"ST53: .162", "Z", through(.162, 1, 2.5, .5, 90000), 141, .5},
		{"ST57: short screw, mode II, dowel bearing rounded there", "Z", screw(.164, .131, .75, 1, .42, 90000), 65.69, fe * 1.2 * 65.69},
		{"ST12: Canadian spruce, No. 10, printed 109, cut not rounded", "W", pull, 109.65, .01},
		{"by hand: .5 of 6*.164 in", "w", short, .5 / .984, 1e-9},
		{"by hand: a cleat of 60 on one screw, 24 at most", "X", spaced, 2.5, 1e-9},
		{"by hand: each is pulled 100*.375/1", "P", short, 37.5, 1e-9},
	} {
		near(t, row.name, work(t, Cleat, row.in)[row.symbol], row.want, row.off)
	}
}

func TestStrengthSteps(t *testing.T) {
	joist := map[string]float64{"L": 1, "b": 1.5, "t": 7.25, "y": 1, "q": 40. / 144 * 16, "g": 0, "K": .125, "P": 0, "p": .25, "N": 0, "o": .25,
		"a": 0, "k": 0, "w": 0, "R": 1345, "d": 1, "C": 1, "u": .5}
	near(t, "ST16: HUD guide Ex. 5.1, bending span 14.865 ft", longest(t, Bending, joist, "L", 1000)/12, 14.865, .003*14.865)

	shear := map[string]float64{"L": 1, "b": 1.5, "t": 7.25, "a": 0, "s": 0, "q": 40. / 144 * 16, "g": 0, "K": .5, "P": 0, "F": 150, "C": 1, "u": .5}
	near(t, "ST16: shear span 40.8 ft", longest(t, Shear, shear, "L", 1000)/12, 40.8, .003*40.8)
	notch := map[string]float64{"L": 1, "b": 3.5, "t": 11.25, "a": 2, "s": 0, "q": 1, "g": 0, "K": .5, "P": 0, "F": 180, "C": 1, "u": .5}
	near(t, "ST13: NDS 3.4.3.2, 4x12 with a 2 in end notch", work(t, Shear, notch)["A"], 2626, 1)
	notch["a"] = 0
	near(t, "ST13: without the notch", work(t, Shear, notch)["A"], 4725, 1)

	lies := map[string]float64{"L": 1, "b": 1.5, "t": 7.25, "q": 40. / 144 * 16, "g": 0, "K": .5, "P": 0, "n": 1, "w": 1.5, "l": 2, "k": 1, "F": 405, "c": 0, "i": 1, "u": .5}
	near(t, "ST16: bearing span 45.6 ft", longest(t, Bearing, lies, "L", 1000)/12, 45.6, .003*45.6)
	for _, row := range []struct{ l, cb float64 }{{.5, 1.75}, {1, 1.38}, {1.5, 1.25}, {2, 1.19}} {
		lies["l"], lies["c"], lies["i"] = row.l, 1, 1
		near(t, "ST19: NDS Table 3.10.4", work(t, Bearing, lies)["C"], row.cb, .006)
		lies["l"], lies["i"] = row.l*25.4, 25.4
		near(t, "ST19 in millimetres", work(t, Bearing, lies)["C"], row.cb, .006)
	}
}

func TestCaseSteps(t *testing.T) {
	tip := map[string]float64{"H": 80, "D": 12, "W": 120, "Q": 0, "F": 50, "y": 60, "x": 80, "f": 0}
	near(t, "ST51: (50*60-120*6)/80", work(t, Anchor, tip)["T"], 28.5, 1e-9)
	stack := map[string]float64{"Q": 350, "W": 0, "B": 12, "D": 21, "a": 36, "l": 1}
	near(t, "ST41: 350 lb on a foot of a 21 in stack is 200 psf", work(t, Floor, stack)["p"]*144, 200, .001)
	near(t, "ST41: with an aisle of 36 in, 350/4.75", work(t, Floor, stack)["P"]*144, 73.684, .001)
}

func TestScrewsByThread(t *testing.T) {
	j := metric()
	for thread, shank := range map[string]float64{"3.5": .138, "4.0": .138, "4.5": .164, "5.0": .19, "6": .216} {
		s := screwOf(j, thread)
		if !s.known {
			t.Errorf("%s mm is no screw", thread)
			continue
		}
		near(t, thread+" mm: the shank of NDS Appendix L next below", s.shank.Nominal, shank*25.4, 1e-9)
	}
	if screwOf(j, "#5").known {
		t.Error("No. 5 is in no table of the standards and must not be guessed")
	}
}
