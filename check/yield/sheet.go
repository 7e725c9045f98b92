package yield

import (
	"fmt"
	"math"
)

// dust is the share of a length by which a part may be too large and still count as fitting,
// so that the rounding of a float64 never proves anything.
const dust = 1e-9

// Sheet is a sheet on hand. Parts are cut square to its edges.
type Sheet struct {
	Length float64
	Width  float64
	Trim   float64 // cut off along each of the four edges before parts are laid out
	Kerf   float64 // lost between two parts
}

// Part is a rectangle as it is cut.
type Part struct {
	Length float64 // along the length of the sheet, which is where its grain runs
	Width  float64
	Turns  bool // may lie either way round: no grain, or grain that does not matter
}

// field is the room for parts after trim, and a part, each with one kerf added on both sides:
// n parts and n-1 kerfs fit a length if n grown parts fit the grown length.
type field struct {
	length, width float64
}

func (s Sheet) field() field {
	return field{s.Length - 2*s.Trim + s.Kerf, s.Width - 2*s.Trim + s.Kerf}
}

func (s Sheet) grown(p Part) field {
	return field{p.Length + s.Kerf, p.Width + s.Kerf}
}

func (f field) area() float64 { return f.length * f.width }

func (f field) turned() field { return field{f.width, f.length} }

// fits says whether one f lies in the room.
func (f field) fits(room field) bool {
	return count(room.length, f.length) > 0 && count(room.width, f.width) > 0
}

// count is how many of a size fit a length.
func count(length, size float64) int {
	return int(math.Floor(length/size*(1+dust) + dust))
}

// Takes says whether one such part comes out of the sheet at all.
func (s Sheet) Takes(p Part) (bool, error) {
	if err := s.sound(p); err != nil {
		return false, err
	}
	f := s.grown(p)
	return f.fits(s.field()) || p.Turns && f.turned().fits(s.field()), nil
}

func (s Sheet) sound(parts ...Part) error {
	if !(s.Trim >= 0) || !(s.Kerf >= 0) || !(s.Length > 2*s.Trim) || !(s.Width > 2*s.Trim) || math.IsInf(s.Length*s.Width, 0) {
		return fmt.Errorf("sheet %g x %g with trim %g and kerf %g, want room for parts", s.Length, s.Width, s.Trim, s.Kerf)
	}
	room := s.field().area()
	for _, p := range parts {
		if !(p.Length > 0) || !(p.Width > 0) || math.IsInf(p.Length*p.Width, 0) {
			return fmt.Errorf("part %g x %g, want sizes above zero", p.Length, p.Width)
		}
		if room/s.grown(p).area() > 1e5 {
			return fmt.Errorf("part %g x %g is dust beside a sheet of %g x %g", p.Length, p.Width, s.Length, s.Width)
		}
	}
	return nil
}
