package length

import (
	"fmt"
	"strconv"
)

// doorSize reads 3-0 x 6-8 and 2/6 x 6/8, the feet and inches of a door: common practice
// in North America. Each number keeps its plain reading, a range or a fraction, besides.
func (f *finder) doorSize() bool {
	if !f.doorSide(0) || f.ahead(3).kind != times || !f.doorSide(4) || f.ahead(4+3).kind == times {
		return false
	}
	if f.ahead(1).kind != f.ahead(5).kind || !f.ahead(0).spaced {
		return false
	}
	how := linkNone
	for range 2 {
		t := f.doorTerm()
		t.from, t.to = f.at, f.at+3
		f.at += 3
		f.hang(t, how)
		f.last = f.at
		f.at++
		how = linkTimes
	}
	f.at = f.last
	return true
}

// doorSide reports whether three tokens ahead are feet and inches: 6-8, and 6/8 where it is
// no fraction in lowest terms.
func (f *finder) doorSide(n int) bool {
	a, joint, b := f.ahead(n), f.ahead(n+1), f.ahead(n+2)
	feet, err1 := strconv.Atoi(a.text)
	inches, err2 := strconv.Atoi(b.text)
	behind := f.ahead(n + 3)
	switch {
	case a.kind != digits || b.kind != digits || err1 != nil || err2 != nil, joint.spaced || b.spaced:
		return false
	case feet < 1 || feet > 10 || inches > 11:
		return false
	case behind.kind == footMark, behind.kind == inchMark, behind.kind == word && isUnit(behind.text), behind.kind == slash:
		return false
	case joint.kind == slash:
		return !ruled(inches) || feet%2 == 0
	}
	return joint.kind == dash
}

func (f *finder) doorTerm() term {
	feet, _ := strconv.Atoi(f.ahead(0).text)
	inches, _ := strconv.Atoi(f.ahead(2).text)
	typed := f.typed(f.at, f.at+3)
	t := term{quantity: quantity{unit: Inch, said: true, number: number{
		typed: typed, value: float64(12*feet + inches), step: 1,
		doubt: fmt.Sprintf("%s is taken as %d ft %d in", typed, feet, inches),
	}}}
	low := quantity{number: number{typed: f.ahead(0).text, value: float64(feet), step: 1, whole: true}}
	high := quantity{number: number{typed: f.ahead(2).text, value: float64(inches), step: 1, whole: true}}
	switch {
	case f.ahead(1).kind == slash && inches > 0:
		t.rival = &term{quantity: quantity{number: ratio(feet, inches, typed)}}
	case f.ahead(1).kind == dash && feet < inches:
		t.rival = &term{quantity: low, end: &high}
	}
	return t
}
