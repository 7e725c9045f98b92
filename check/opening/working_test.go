package opening

import (
	"math"
	"testing"

	"dryfit/check"
	"dryfit/check/shape"
)

type sums = map[string]float64

// Every step of every working once, with numbers of which none is zero or like another; all
// worked by hand.
func TestWorkings(t *testing.T) {
	square := sums{"L": 50, "w": 52, "p": 1, "q": .5, "T": 51, "h": 2, "R": 40, "F": .25, "g": 1, "S": 6, "k": .5, "x": .1, "a": 3}
	liner := sums{"L": 50, "h": 1, "W": 48.5, "F": .1, "u": .25, "I": 47, "K": 46, "f": 3, "e": .5}
	// 48 by 14 has a diagonal of 50; through a height of 40 the leg of the slant is 30
	carry := sums{"l": 90, "p": 48, "q": 14, "w": 60, "h": 40, "c": 100, "f": 1, "A": 60, "N": 60, "v": 1}
	thing := sums{"x": 20, "y": 14, "a": 4, "b": 6, "x1": 30, "x2": 50, "y1": 1, "y2": 80, "k": 1}
	enter := sums{"L": 48, "t": 14, "M": 47, "I": 52, "h": 40, "x": 0, "K": 0}
	for _, c := range []struct {
		check  *check.Check
		in     sums
		change sums
		want   sums
	}{
		{Width, sums{"o": 50, "h": 1, "R": 40, "F": .5, "g": 2}, nil, sums{"A": 49, "s": 8.5, "m": 6.5}},
		{Later, sums{"o": 50, "h": 1, "v": 2, "R": 40, "F": .5}, nil, sums{"d": 9.5, "s": 8.5, "m": 6.5}},
		{Square, square, nil, sums{"U": 52, "B": 50.5, "s": 7.75, "l": 8.75, "G": 4.625, "c": .875, "m": .875}},
		{Square, square, sums{"S": 0}, sums{"c": 6.75, "m": 2.9}},
		{Square, square, sums{"S": 0, "a": 30}, sums{"c": 6.75, "m": 6.75}},
		{Square, square, sums{"p": 9}, sums{"G": 9, "B": 42.5}},
		{Square, square, sums{"q": 9}, sums{"G": 9, "B": 42}},
		{Square, square, sums{"g": 7.5, "a": 30}, sums{"m": .25}},
		{Liner, liner, nil, sums{"s": .4, "k": .1, "y": .9, "G": .7, "v": 2.3, "m": .4}},
		{Liner, liner, sums{"e": 3}, sums{"G": 3.2, "v": -.2, "m": -.2}},
		{Liner, liner, sums{"f": 0, "K": 0}, sums{"v": .4, "m": .4}},
		{Liner, liner, sums{"K": 46.85}, sums{"y": .05, "m": -.05}},
		{Liner, liner, sums{"W": 49}, sums{"s": -.1, "k": .6, "G": .5, "m": -.1}},
		{Stand, sums{"H": 44, "D": 30, "n": 4, "b": 28, "C": 55, "p": 5, "e": 24}, nil, sums{"d": 50, "K": 50, "t": 40, "o": 34, "f": 64, "m": 0}},
		{Stand, sums{"H": 44, "D": 3, "n": 40, "b": 28, "C": 55, "p": 5, "e": 24}, nil, sums{"d": 5, "K": 44, "m": 6}},
		{Stand, sums{"H": 44, "D": 52, "n": 4, "b": 28, "C": 55, "p": 5, "e": 24}, nil, sums{"t": 0}},
		{Slide, sums{"H": 80, "b": 4, "i": 90, "o": 86, "h": 1, "p": .5, "q": .25}, nil, sums{"s": 4.5, "l": 4.25, "a": 9, "m": 4.5}},
		{Carry, carry, nil, sums{"z": 30, "i": 46.8, "n": 46.8, "d": 13.2, "u": 26, "e": 10, "s": 10, "m": 10}},
		{Carry, carry, sums{"c": 200}, sums{"e": 110, "s": 13.2, "m": 11.2}},
		{Carry, carry, sums{"c": 0}, sums{"e": 13.2, "m": 11.2}},
		{Carry, carry, sums{"f": 0}, sums{"d": 46, "u": -8, "s": -8, "m": -8}},
		{Carry, carry, sums{"p": 39}, sums{"n": 14, "d": 46, "z": 10.816653826391969}}, // 39^2 + 14^2 - 40^2 = 117
		{Lift, sums{"l": 10, "b": 20, "t": 5, "r": .2, "j": 2, "G": 20, "n": 2, "P": 50, "u": 1, "y": 1, "H": 20, "V": 50, "D": 18}, nil,
			sums{"W": 120, "c": 100, "N": 3, "RWL": 51 * .5 * .85 * .92, "LI": 60 / (51 * .5 * .85 * .92), "m": -20}},
		{Obstruct, thing, nil, sums{"u": 8, "v": -16, "c": 8, "m": 7}},
		{Obstruct, thing, sums{"x": 60}, sums{"u": 8}},
		{Obstruct, thing, sums{"x": 40, "y": 90}, sums{"u": -12, "v": 7, "c": 7, "m": 6}},
		{Obstruct, thing, sums{"x": 40, "y": -9, "y1": 0}, sums{"v": 6}},
		{Enter, enter, nil, sums{"a": -1, "z": 30, "n": 46.8, "w": 50, "b": .2, "s": .2, "m": .2}},
		{Enter, enter, sums{"I": 50.125}, sums{"b": .125}},
		{Enter, enter, sums{"x": 1}, sums{"s": -1, "m": -1}},
		{Enter, enter, sums{"K": 2}, sums{"m": -2}},
		{Enter, enter, sums{"L": 39}, sums{"n": 14, "a": 8, "w": 41.43669871020132, "b": 10.56330128979868, "s": 10.56330128979868}}, // 39^2 + 14^2 = 1717,
	} {
		in := sums{}
		for s, x := range c.in {
			in[s] = x
		}
		for s, x := range c.change {
			in[s] = x
		}
		got, err := c.check.Work(in)
		if err != nil {
			t.Errorf("%s %v: %v", c.check.ID, c.change, err)
			continue
		}
		for s, want := range c.want {
			if math.Abs(got[s]-want) > 1e-9 {
				t.Errorf("%s %v: %s = %v, want %v", c.check.ID, c.change, s, got[s], want)
			}
		}
	}
}

// The live bound of a corner is the fixed point of the engine after two steps.
func TestCornerBoundIsThatOfTheEngine(t *testing.T) {
	want, err := shape.Corner{From: 36, To: 32}.TurnedLive(11.25, 2)
	got, err2 := passage.Work(sums{"l": 1, "p": 1, "q": 11.25, "w": 32, "h": 90, "c": 70, "f": 0, "A": 36, "N": 32, "v": 0})
	if err != nil || err2 != nil || math.Abs(got["B"]-want) > 1e-9 {
		t.Errorf("%v, want %v (%v %v)", got["B"], want, err, err2)
	}
}
