package lift

import (
	"fmt"
	"math"
)

// Task is a lift by two hands of one person, as the NIOSH equation sees it: no team, no
// carrying, no stairs. Lengths in inches for RecommendedPounds, in centimetres for
// RecommendedKilograms.
type Task struct {
	Reach     float64 // H, from the ankles out to the hands
	Height    float64 // V, of the hands above the floor at the start
	Travel    float64 // D, up or down
	Twist     float64 // A, degrees from straight ahead
	Frequency float64 // FM, above 0 to 1: 1 for a lift now and then
	Grip      float64 // CM, .90 to 1: 1 good, .95 fair, .90 poor
}

// RecommendedPounds is the weight in pounds that the equation recommends one person to lift:
// 51*(10/H)*(1-.0075*ABS(V-30))*(.82+1.8/D)*(1-.0032*A)*FM*CM. A reach or a travel under 10 in
// counts as 10. Zero beyond 25 in of reach, 70 in of height or travel, or 135 degrees.
//
// Error: a length or twist below zero, a multiplier outside its range.
//
// Source: revised NIOSH lifting equation, applications manual, DHHS (NIOSH) 94-110, form in US
// units (from memory).
func RecommendedPounds(t Task) (float64, error) {
	return t.recommended(form{load: 51, near: 10, far: 25, high: 70, level: 30, perLevel: .0075, travel: 1.8})
}

// RecommendedKilograms is the same in kilograms and centimetres:
// 23*(25/H)*(1-.003*ABS(V-75))*(.82+4.5/D)*(1-.0032*A)*FM*CM, with 25 cm for the least reach
// and travel, 63 cm for the most reach and 175 cm for the most height and travel. Both forms
// are rounded by themselves; for one lift they differ by up to 3 per cent.
//
// Error and source: as RecommendedPounds.
func RecommendedKilograms(t Task) (float64, error) {
	return t.recommended(form{load: 23, near: 25, far: 63, high: 175, level: 75, perLevel: .003, travel: 4.5})
}

// form holds the constants of the equation in one system of units.
type form struct {
	load      float64 // LC
	near, far float64 // least and most reach; the least is also that of the travel
	high      float64 // most height and travel
	level     float64 // height of the hands at which a lift is easiest
	perLevel  float64
	travel    float64
}

func (t Task) recommended(f form) (float64, error) {
	if err := t.sound(); err != nil {
		return 0, err
	}
	if t.Reach > f.far || t.Height > f.high || t.Travel > f.high || t.Twist > 135 {
		return 0, nil
	}
	reach := f.near / max(t.Reach, f.near)
	height := 1 - f.perLevel*math.Abs(t.Height-f.level)
	travel := .82 + f.travel/max(t.Travel, f.near)
	twist := 1 - .0032*t.Twist
	return f.load * reach * height * travel * twist * t.Frequency * t.Grip, nil
}

func (t Task) sound() error {
	for _, v := range []float64{t.Reach, t.Height, t.Travel, t.Twist} {
		if !(v >= 0) {
			return fmt.Errorf("reach %g, height %g, travel %g and twist %g, want zero or more of each", t.Reach, t.Height, t.Travel, t.Twist)
		}
	}
	if !(t.Frequency > 0 && t.Frequency <= 1) {
		return fmt.Errorf("frequency multiplier %g, want above 0 and up to 1", t.Frequency)
	}
	if !(t.Grip >= .9 && t.Grip <= 1) {
		return fmt.Errorf("grip multiplier %g, want 0.90 to 1", t.Grip)
	}
	return nil
}

// Index is the lifting index: an even share of the weight over what is recommended for one.
// Above 1 the task asks for care. The equation speaks of one person; sharing it out is a
// working aid.
//
// Error: no people, a weight below zero, a recommendation of zero.
func Index(weight, recommended float64, people int) (float64, error) {
	if people < 1 || !(weight >= 0) || !(recommended > 0) {
		return 0, fmt.Errorf("weight %g for %d people at %g each, want people, zero or more and above zero", weight, people, recommended)
	}
	return weight / float64(people) / recommended, nil
}
