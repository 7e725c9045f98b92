package check

import "math"

// Value is a number with the range it could have. The zero Value is missing.
type Value struct {
	Low, Nominal, High float64 // Low <= Nominal <= High
	Known              bool    // false: missing, and Ask says what is wanted
	Guessed            bool    // inferred or built in, neither typed nor measured
	From               Cell    // the cell it was read in
	Why                string  // where it comes from when no cell says it, or beside the cell
	Plain              bool    // the cell holds the nominal as a plain number in the job's unit
	Ask                Ask     // what to fill in when it is missing
}

// Ask says what is missing and where it would be typed.
type Ask struct {
	Tab  string // kind of the missing tab ("site", "joints", "loads", ...), if a whole tab is missing
	Cell Cell   // the cell to fill, if there is one
	What string // what to type: "the depth of the case, such as 12 1/2"
	Says string // what is wrong, where "is not given" would not say it
}

// Exact is a value known without a range, such as a count.
func Exact(x float64) Value { return Value{Low: x, Nominal: x, High: x, Known: true} }

// Between is a typed or measured value with a range.
func Between(low, nominal, high float64) Value {
	return Value{Low: low, Nominal: nominal, High: high, Known: true}
}

// Guess is an inferred or built-in value with the range it could have, and its origin.
func Guess(low, nominal, high float64, why string) Value {
	return Value{Low: low, Nominal: nominal, High: high, Known: true, Guessed: true, Why: why}
}

// Missing is a value nobody gave.
func Missing(ask Ask) Value { return Value{Ask: ask} }

// At returns the value with its cell.
func (v Value) At(c Cell) Value { v.From = c; return v }

// PlusMinus widens the range by u on both sides.
func (v Value) PlusMinus(u float64) Value {
	v.Low -= u
	v.High += u
	return v
}

// Scale multiplies the value and its range by k > 0, as a change of unit does.
// A scaled value is no longer the plain number in its cell.
func (v Value) Scale(k float64) Value {
	if k == 1 {
		return v
	}
	v.Low *= k
	v.Nominal *= k
	v.High *= k
	v.Plain = false
	return v
}

// less takes a share out of a sum, with its range.
func (v Value) less(share Value) Value {
	v.Low, v.Nominal, v.High = v.Low-share.Low, v.Nominal-share.Nominal, v.High-share.High
	v.Plain = false
	return v
}

// Ranged reports whether the value has a range at all.
func (v Value) Ranged() bool { return v.Known && v.High-v.Low > dust*math.Max(1, math.Abs(v.Nominal)) }

// Unmeasured reports whether nobody typed or read the value itself: a guess, or the
// tolerance of something typed. Measuring it takes its range away.
func (v Value) Unmeasured() bool { return v.Guessed || v.From == (Cell{}) }

// origin names where the value comes from, for folding: its cell, else its reason.
func (v Value) origin() string {
	if v.From != (Cell{}) {
		return v.From.String()
	}
	return v.Why
}
