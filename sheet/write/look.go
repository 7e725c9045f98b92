package write

import (
	"fmt"
	"strings"

	"dryfit/check"
	"dryfit/sheet/graft"
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
// grey print and a reader who sees no red keep them apart: HOLD is the darkest, CLEAR the
// lightest. Every verdict is read at a contrast over 7 to 1, all else at over 4.5 (WCAG 2.2).
const (
	Ink      = "1C2430"
	Faint    = "4A5361"
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
	{check.Hold, "■", "EFA08A", "430B00"},
	{check.Verify, "▲", "F6DC84", "3D2F00"},
	{check.NotChecked, "○", "C6C9CF", "22262C"},
	{check.Clear, "●", "E4F3FA", "08334A"},
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
	// numberHead stands over numbers, and as they do, at the right.
	numberHead = Look{Fill: headFill, Ink: Ink, Bold: true, Wrap: true, Line: true, Right: true}
)

// size is that of the type, points.
func (l Look) size() float64 {
	if l.Size == 0 {
		return 10
	}
	return l.Size
}

// indent is how many steps a text stands off its line.
func (l Look) indent() int {
	if l.Line && !l.Centre && !l.Upward {
		return 1
	}
	return 0
}

// right reports whether a cell is set from the right: numbers are.
func (l Look) right() bool { return l.Right || l.Format != "" && !l.Centre }

// format is the look in the words of a styles part (ECMA-376 Part 1, 18.8).
func (l Look) format() graft.Format {
	return graft.Format{Font: l.font(), Fill: l.fill(), Border: l.border(),
		Details: l.alignment(), Code: l.Format}
}

func (l Look) font() string {
	var b strings.Builder
	b.WriteString("<font>")
	if l.Bold {
		b.WriteString("<b/>")
	}
	if l.Link {
		b.WriteString("<u/>")
	}
	fmt.Fprintf(&b, `<sz val="%g"/>`, l.size())
	if l.Ink != "" {
		fmt.Fprintf(&b, `<color rgb="FF%s"/>`, l.Ink)
	}
	b.WriteString(`<name val="Calibri"/><family val="2"/></font>`)
	return b.String()
}

func (l Look) fill() string {
	if l.Fill == "" {
		return ""
	}
	return `<fill><patternFill patternType="solid"><fgColor rgb="FF` + l.Fill + `"/></patternFill></fill>`
}

func (l Look) border() string {
	if !l.Line && !l.Under {
		return ""
	}
	var b strings.Builder
	b.WriteString("<border>")
	for _, side := range []string{"left", "right", "top", "bottom"} {
		if l.Line || side == "bottom" {
			fmt.Fprintf(&b, `<%s style="thin"><color rgb="FF%s"/></%[1]s>`, side, rule)
		} else {
			b.WriteString("<" + side + "/>")
		}
	}
	b.WriteString("<diagonal/></border>")
	return b.String()
}

func (l Look) alignment() string {
	var b strings.Builder
	b.WriteString("<alignment")
	switch {
	case l.Centre:
		b.WriteString(` horizontal="center"`)
	case l.right():
		b.WriteString(` horizontal="right"`)
	case l.indent() > 0:
		b.WriteString(` horizontal="left"`)
	}
	if l.Upward {
		b.WriteString(` vertical="bottom" textRotation="90"`)
	} else {
		b.WriteString(` vertical="center"`)
	}
	if l.Wrap {
		b.WriteString(` wrapText="1"`)
	}
	if n := l.indent(); n > 0 {
		fmt.Fprintf(&b, ` indent="%d"`, n)
	}
	b.WriteString("/>")
	return b.String()
}

// rule is the format that a verdict word gets when a formula brings it up.
func (m Manner) rule() string {
	return fmt.Sprintf(`<dxf><font><b/><color rgb="FF%s"/></font><fill><patternFill patternType="solid"><bgColor rgb="FF%s"/></patternFill></fill></dxf>`, m.ink, m.fill)
}
