package inputs

import "github.com/xuri/excelize/v2"

// Colours: what people type in is sand, what dryfit guessed is pale blue and slanting, so that
// a grey print tells them apart too.
const (
	ink   = "22303A"
	faint = "5C6670"
	head  = "2F4858"
	sand  = "FFF3D6"
	blue  = "E6EEF5"
	rule  = "9AA5AD"
	hair  = "D5DADD"
)

// looks are the styles, by what a cell is for.
type looks struct {
	title, tells, head, label int
	parts                     [call + 1]int
}

func makeLooks(f *excelize.File) (looks, error) {
	var l looks
	var failed error
	style := func(s excelize.Style) int {
		s.Font.Family = "Calibri"
		if s.Font.Size == 0 {
			s.Font.Size = 10
		}
		if s.Font.Color == "" {
			s.Font.Color = ink
		}
		if s.Alignment == nil {
			s.Alignment = &excelize.Alignment{WrapText: true, Vertical: "center", Horizontal: "left", Indent: 1}
		}
		id, err := f.NewStyle(&s)
		if err != nil {
			failed = err
		}
		return id
	}
	text := 49 // typed as text, so that 3/4 stays 3/4
	boxed, under := borders(rule, "left", "right", "top", "bottom"), borders(hair, "bottom")
	l.title = style(excelize.Style{Font: &excelize.Font{Bold: true, Size: 15, Color: head}, Alignment: &excelize.Alignment{}})
	l.tells = style(excelize.Style{Font: &excelize.Font{Color: faint}, Alignment: &excelize.Alignment{Vertical: "center"}})
	l.head = style(excelize.Style{Font: &excelize.Font{Bold: true, Color: "FFFFFF"}, Fill: solid(head),
		Alignment: &excelize.Alignment{WrapText: true, Vertical: "center", Horizontal: "center"}})
	l.label = style(excelize.Style{Font: &excelize.Font{Bold: true}})
	l.parts[told] = style(excelize.Style{Font: &excelize.Font{}, Border: under})
	l.parts[wanted] = style(excelize.Style{Font: &excelize.Font{Size: 11}, Border: boxed, Fill: solid(sand), NumFmt: text})
	l.parts[maybe] = style(excelize.Style{Font: &excelize.Font{Size: 11}, Border: boxed, NumFmt: text})
	l.parts[found] = style(excelize.Style{Font: &excelize.Font{Italic: true, Color: head}, Border: boxed, Fill: solid(blue), NumFmt: text})
	l.parts[off] = style(excelize.Style{Font: &excelize.Font{}, Border: under})
	l.parts[call] = style(excelize.Style{Font: &excelize.Font{Bold: true}, Border: under})
	return l, failed
}

func solid(colour string) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}
}

func borders(colour string, sides ...string) []excelize.Border {
	var out []excelize.Border
	for _, side := range sides {
		out = append(out, excelize.Border{Type: side, Color: colour, Style: 1})
	}
	return out
}
