package write

import (
	"fmt"
	"image/color"
	"testing"

	"dryfit/check"
)

// Texts in pictures stand out by 4.5 to 1, hatches of what fails by 3 to 1 (WCAG 2.2, success
// criteria 1.4.3 and 1.4.11).
func TestInksOfPictures(t *testing.T) {
	l, paper := pictureLook, color.RGBA{255, 255, 255, 255}
	light := func(c color.RGBA) float64 { return luminance(linear(t, fmt.Sprintf("%02X%02X%02X", c.R, c.G, c.B))) }
	hold, verify := l.Manner(check.Hold), l.Manner(check.Verify)
	for _, tt := range []struct {
		name    string
		on, ink color.RGBA
		least   float64
	}{
		{"label on paper", paper, l.Ink, 4.5},
		{"label on a part", l.Part, l.Ink, 4.5},
		{"note or dimension of the opening", paper, l.Faint, 4.5},
		{"word HOLD", hold.Fill, hold.Ink, 4.5},
		{"word VERIFY", verify.Fill, verify.Ink, 4.5},
		{"hatch of HOLD on paper", paper, hold.Ink, 3},
		{"hatch of VERIFY on paper", paper, verify.Ink, 3},
	} {
		if got := (light(tt.on) + .05) / (light(tt.ink) + .05); got < tt.least {
			t.Errorf("%s: %.1f to 1, want %.1f", tt.name, got, tt.least)
		}
	}
}
