package write

import (
	"github.com/xuri/excelize/v2"

	"dryfit/check"
)

// look is how a cell looks. Looks compare equal, so each is one style of the workbook.
type look struct {
	fill, ink string
	bold      bool
	size      float64 // points; 0 is 10
	wrap      bool
	format    string // number format
	right     bool
	centre    bool
	line      bool // a thin line all round
	under     bool // a line below only
	typed     bool // meant for typing
	link      bool
}

// Inks and fills. The four verdicts differ by word, sign, lightness and hue alike, so that a
// grey print and a reader who sees no red keep them apart; every ink on its fill has a
// contrast over 7 to 1 (WCAG 2.2).
const (
	ink      = "1C2430"
	faint    = "56606E"
	rule     = "B8C0CA"
	headFill = "E3E8EE"
	typeFill = "FFFDE8"
	linkInk  = "0B4F8A"
)

// manner is how a verdict is shown.
type manner struct {
	verdict   check.Verdict
	sign      string
	fill, ink string
}

var verdicts = []manner{
	{check.Hold, "■", "F4B9A7", "4A0D00"},
	{check.Verify, "▲", "FBE7A1", "3D2F00"},
	{check.NotChecked, "○", "DDDFE3", "2B2F36"},
	{check.Clear, "●", "D3EAF5", "08334A"},
}

func (m manner) word() string { return m.sign + " " + m.verdict.String() }

func shown(v check.Verdict) manner {
	for _, m := range verdicts {
		if m.verdict == v {
			return m
		}
	}
	panic("verdict without a manner")
}

func (m manner) look() look { return look{fill: m.fill, ink: m.ink, bold: true, line: true} }

var (
	titleLook = look{ink: ink, bold: true, size: 16}
	plainLook = look{ink: ink}
	smallLook = look{ink: faint, size: 9, wrap: true}
	headLook  = look{fill: headFill, ink: ink, bold: true, wrap: true, line: true}
	bodyLook  = look{ink: ink, wrap: true, line: true}
	typeLook  = look{fill: typeFill, ink: ink, wrap: true, line: true, typed: true}
	linkLook  = look{ink: linkInk, wrap: true, line: true, link: true}
)

// styles makes each look once.
type styles struct {
	f  *excelize.File
	at map[look]int
}

func (s *styles) id(l look) (int, error) {
	if id, ok := s.at[l]; ok {
		return id, nil
	}
	id, err := s.f.NewStyle(l.style())
	if err == nil {
		s.at[l] = id
	}
	return id, err
}

func (l look) style() *excelize.Style {
	size := l.size
	if size == 0 {
		size = 10
	}
	st := &excelize.Style{
		Font:      &excelize.Font{Bold: l.bold, Size: size, Color: l.ink, Family: "Calibri"},
		Alignment: &excelize.Alignment{WrapText: l.wrap, Vertical: "center"},
	}
	if l.line && !l.right && !l.centre && l.format == "" {
		st.Alignment.Horizontal, st.Alignment.Indent = "left", 1 // off the line
	}
	if l.link {
		st.Font.Underline = "single"
	}
	if l.right {
		st.Alignment.Horizontal = "right"
	}
	if l.centre {
		st.Alignment.Horizontal = "center"
	}
	if l.fill != "" {
		st.Fill = solid(l.fill)
	}
	if l.format != "" {
		st.CustomNumFmt = &l.format
	}
	sides := []string{}
	if l.line {
		sides = []string{"left", "right", "top", "bottom"}
	} else if l.under {
		sides = []string{"bottom"}
	}
	for _, side := range sides {
		st.Border = append(st.Border, excelize.Border{Type: side, Color: rule, Style: 1})
	}
	return st
}

func solid(colour string) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}
}
