package structure

import (
	"testing"

	"dryfit/check"
)

// Every check once through with no input at 0 or 1, worked apart from the formulas with a
// calculator: the places where a sign, a constant or a factor that nothing else touches would
// go unseen.
func TestWorkedThrough(t *testing.T) {
	type numbers map[string]float64
	for _, c := range []struct {
		check *check.Check
		in    numbers
		want  numbers
	}{
		{Sag, numbers{"L": 40, "b": 11, "t": .75, "E": 330000, "y": 1.2, "s": 16, "e": 1580000, "a": .75, "c": 1.5, "h": .5, "v": 1,
			"K": .012, "q": 2, "g": .03, "p": .02, "P": 100, "o": .015, "N": 50, "C": 1.5, "n": 144, "u": .5},
			numbers{"k": 1.125, "S": 325205.4486, "H": 250235.5274, "r": .64979872, "W": 2.28125, "x": .0067438, "X": .00705234,
				"f": .24268152, "F": .26281139, "D": .62683367, "l": .27777778, "m": -.34905589}},
		// a bare panel: half of 1 over a third and 4*12^2*1.69/(16*11^2*9.87) is more than 1
		{Sag, numbers{"L": 13, "b": 11, "t": .75, "E": 330000, "y": 1, "s": 16, "e": 0, "a": 0, "c": 0, "h": 1, "v": 1,
			"K": .013, "q": 2, "g": .03, "p": .02, "P": 0, "o": .015, "N": 0, "C": 1.5, "n": 144, "u": .5},
			numbers{"r": 1}},
		// a strip shallower than the panel counts as deep as it is
		{Sag, numbers{"L": 40, "b": 11, "t": .75, "E": 330000, "y": 1, "s": 16, "e": 1580000, "a": .75, "c": .5, "h": .5, "v": 0,
			"K": .012, "q": 2, "g": .03, "p": .02, "P": 0, "o": .015, "N": 0, "C": 1.5, "n": 144, "u": .5},
			numbers{"k": .5, "r": 1}},
		{Bending, numbers{"L": 40, "b": 11, "t": .75, "y": 1.3, "q": 2, "g": .03, "K": .11, "P": 100, "p": .21, "N": 50, "o": .19,
			"a": 3, "k": .09, "w": .17, "R": 5000, "d": 4, "C": .9, "u": .5},
			numbers{"W": 2.2475, "M": 1615.56, "n": 8, "Q": 1383.64, "f": 2036.58473, "s": 2398.30933, "S": 2398.30933, "A": 1125, "m": -1.13183052}},
		// no slot: the moment of what stands on the shelf is not counted twice
		{Bending, numbers{"L": 40, "b": 11, "t": .75, "y": 1, "q": 2, "g": .03, "K": .11, "P": 0, "p": .21, "N": 50, "o": .19,
			"a": 0, "k": 0, "w": 0, "R": 5000, "d": 4, "C": .9, "u": .5}, numbers{"Q": 0}},
		{Shear, numbers{"L": 40, "b": 11, "t": .75, "a": .25, "s": 3, "q": 2, "g": .03, "K": .6, "P": 100, "F": 50, "C": .9, "u": .5},
			numbers{"V": 153.94, "A": 73.333333, "S": 180, "T": 73.333333}},
		{Bearing, numbers{"L": 40, "b": 11, "t": .75, "q": 2, "g": .03, "K": .6, "P": 100, "n": 2, "w": 5, "l": .5, "k": .7, "F": 250, "c": 1, "i": 1, "u": .5},
			numbers{"R": 153.94, "p": 43.982857, "C": 1.75, "A": 437.5}},
		// NDS 3.10.4 stops at 6 in
		{Bearing, numbers{"L": 40, "b": 11, "t": .75, "q": 2, "g": .03, "K": .6, "P": 100, "n": 2, "w": 5, "l": 6.5, "k": .7, "F": 250, "c": 1, "i": 1, "u": .5},
			numbers{"C": 1, "A": 250}},
		{Upright, numbers{"h": 30, "b": 10, "t": .75, "a": 2, "s": .125, "n": 3, "K": 1.1, "W": 4, "L": 30, "P": 50, "E": 1e6, "j": .4,
			"G": 800, "R": 2000, "C": .9, "o": .2, "u": .5},
			numbers{"N": 446, "c": 59.46667, "x": 111.5, "D": 205.5, "Q": .26611705, "f": .31036189, "Z": .28937551, "y": .15589031, "X": .26636111, "m": .68963811}},
		// over nine tenths of the buckling stress it is past use: 600/7.5 on 20.55
		{Upright, numbers{"h": 30, "b": 10, "t": .75, "a": 0, "s": 0, "n": 3, "K": 1, "W": 4, "L": 50, "P": 0, "E": 1e5, "j": .4,
			"G": 800, "R": 2000, "C": .9, "o": .2, "u": .5}, numbers{"Z": 3.8929440, "y": 4.8929440}},
		{Cleat, numbers{"R": 120, "n": 2, "D0": .242, "D1": .196, "Y0": 70000, "L": 2.5, "a": .75, "g": .25, "t": 3, "c": 2, "b": .375,
			"G": .42, "H": .55, "l": 10, "o": 24, "e": .67, "C": .9, "i": 1, "f": 1, "u": .5},
			numbers{"p": 1.5, "M": 1.258, "k": 2.46, "Z1": 337.20064, "Z2": 330.18525, "Z3": 138.58562, "Z4": 150.6952, "Z5": 137.55106, "Z6": 154.26445,
				"w": 1, "S": 82.94329, "W": 164.24516, "V": 60, "P": 37.5, "X": .20833333, "U": .95170304, "m": .04829696}},
		// the thread stops in a side of 3/4 and the point comes through: no tip to take off
		{Cleat, numbers{"R": 120, "n": 2, "D0": .164, "D1": .131, "Y0": 90000, "L": 2.5, "a": .75, "g": .5, "t": .75, "c": 2, "b": .375,
			"G": .42, "H": .55, "l": 10, "o": 24, "e": 1, "C": 1, "i": 1, "f": 1, "u": .5},
			numbers{"p": .75, "M": .75, "w": .76219512, "S": 56.97704085}},
		// a board between: 1.25 of thread in a side of 1.5, so that the tip stays inside
		{Cleat, numbers{"R": 120, "n": 2, "D0": .164, "D1": .131, "Y0": 90000, "L": 2.5, "a": .75, "g": .5, "t": 1.5, "c": 2, "b": 0,
			"G": .42, "H": .55, "l": 10, "o": 24, "e": 1, "C": 1, "i": 1, "f": 1, "u": .5}, numbers{"p": 1.25, "M": 1.086, "P": 0}},
		// a screw that ends in the cleat holds nothing
		{Cleat, numbers{"R": 120, "n": 2, "D0": .164, "D1": .131, "Y0": 90000, "L": .5, "a": .75, "g": .5, "t": 1.5, "c": 2, "b": .375,
			"G": .42, "H": .55, "l": 10, "o": 24, "e": 1, "C": 1, "i": 1, "f": 1, "u": .5}, numbers{"p": 0, "w": .01016260}},
		// by hand: 40*30 is less than 250*10/2: nothing pulls at the top
		{Anchor, numbers{"H": 30, "D": 10, "W": 250, "Q": 40, "F": 40, "y": 60, "x": 30, "f": 2}, numbers{"h": 30, "T": 0, "m": 2}},
		// by hand: (40*60-100*10/2)/40 at a fixing halfway up
		{Anchor, numbers{"H": 80, "D": 10, "W": 100, "Q": 200, "F": 40, "y": 60, "x": 40, "f": 50}, numbers{"h": 60, "T": 47.5, "S": 22.5, "m": 2.5}},
		// by hand: 432 on 36 by 12 is 1; on 36 by 12 and 24 before it, 1/3; 1/4 less 1/3
		{Floor, numbers{"Q": 300, "W": 132, "B": 36, "D": 12, "a": 24, "l": .25}, numbers{"G": 432, "p": 1, "P": 1. / 3, "m": -1. / 12}},
		{Path, numbers{"c": 1, "n": 2}, numbers{"m": -1}},
	} {
		got := work(t, c.check, c.in)
		for symbol, want := range c.want {
			near(t, c.check.ID+" "+symbol, got[symbol], want, 1e-6*max(1, want))
		}
	}
}
