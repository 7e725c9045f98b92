package write

import (
	"github.com/xuri/excelize/v2"

	"dryfit/check"
)

// Look is how a cell looks. Looks compare equal, so each is one style of the workbook.
type Look struct {
	Fill, Ink string
	Bold      bool
	Size      float64 // points; 0 is 10
	Wrap      bool
	Format    string // number format
	Right     bool
	Centre    bool
	Line      bool // a thin line all round
	Under     bool // a line below only
	Typed     bool // meant for typing
	Link      bool
	Upward    bool // set from bottom to top, for a narrow column's header
}

// Inks and fills. The four verdicts differ by word, sign, lightness and hue alike, so that a
// grey print and a reader who sees no red keep them apart; every ink on its fill has a
// contrast over 7 to 1 (WCAG 2.2).
const (
	Ink      = "1C2430"
	Faint    = "56606E"
	rule     = "B8C0CA"
	headFill = "E3E8EE"
	typeFill = "FFFDE8"
	linkInk  = "0B4F8A"
)

// Manner is how a verdict is shown.
type Manner struct {
	verdict   check.Verdict
	sign      string
	fill, ink string
}

var verdicts = []Manner{
	{check.Hold, "■", "F4B9A7", "4A0D00"},
	{check.Verify, "▲", "FBE7A1", "3D2F00"},
	{check.NotChecked, "○", "DDDFE3", "2B2F36"},
	{check.Clear, "●", "D3EAF5", "08334A"},
}

// Word is the sign and the word of the verdict.
func (m Manner) Word() string { return m.sign + " " + m.verdict.String() }

// Shown is how a verdict is shown.
func Shown(v check.Verdict) Manner {
	for _, m := range verdicts {
		if m.verdict == v {
			return m
		}
	}
	panic("verdict without a manner")
}

// Look is the look of a cell that holds the word.
func (m Manner) Look() Look { return Look{Fill: m.fill, Ink: m.ink, Bold: true, Line: true} }

// Looks of the cells of every tab.
var (
	TitleLook = Look{Ink: Ink, Bold: true, Size: 16}
	PlainLook = Look{Ink: Ink}
	SmallLook = Look{Ink: Faint, Size: 9, Wrap: true}
	HeadLook  = Look{Fill: headFill, Ink: Ink, Bold: true, Wrap: true, Line: true}
	BodyLook  = Look{Ink: Ink, Wrap: true, Line: true}
	TypeLook  = Look{Fill: typeFill, Ink: Ink, Wrap: true, Line: true, Typed: true}
	LinkLook  = Look{Ink: linkInk, Wrap: true, Line: true, Link: true}
)

// styles makes each look once.
type styles struct {
	f  *excelize.File
	at map[Look]int
}

func (s *styles) id(l Look) (int, error) {
	if id, ok := s.at[l]; ok {
		return id, nil
	}
	id, err := s.f.NewStyle(l.style())
	if err == nil {
		s.at[l] = id
	}
	return id, err
}

// size is that of the type, points.
func (l Look) size() float64 {
	if l.Size == 0 {
		return 10
	}
	return l.Size
}

// indent is how many steps a text stands off its line.
func (l Look) indent() int {
	if l.Line && !l.Right && !l.Centre && !l.Upward && l.Format == "" {
		return 1
	}
	return 0
}

func (l Look) style() *excelize.Style {
	st := &excelize.Style{
		Font:      &excelize.Font{Bold: l.Bold, Size: l.size(), Color: l.Ink, Family: "Calibri"},
		Alignment: &excelize.Alignment{WrapText: l.Wrap, Vertical: "center"},
	}
	if n := l.indent(); n > 0 {
		st.Alignment.Horizontal, st.Alignment.Indent = "left", n
	}
	if l.Link {
		st.Font.Underline = "single"
	}
	if l.Right {
		st.Alignment.Horizontal = "right"
	}
	if l.Upward {
		st.Alignment.TextRotation, st.Alignment.Vertical = 90, "bottom"
	}
	if l.Centre {
		st.Alignment.Horizontal = "center"
	}
	if l.Fill != "" {
		st.Fill = solid(l.Fill)
	}
	if l.Format != "" {
		st.CustomNumFmt = &l.Format
	}
	sides := []string{}
	if l.Line {
		sides = []string{"left", "right", "top", "bottom"}
	} else if l.Under {
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
