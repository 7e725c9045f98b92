package read

import (
	"strconv"
	"strings"
)

// Look is how a cell is shown: its number format, and whether it is struck or greyed out.
type Look struct {
	Struck bool
	Grey   bool // a grey fill or grey type
	Format Format
}

// plain is the look of a cell without a style.
var plain = &Look{Format: parseFormat("General")}

// readStyles keeps of the styles what changes how a cell is understood.
func (s *source) readStyles(part string) error {
	r, err := s.open(part)
	if err != nil {
		return err
	}
	defer r.Close()
	b := styleBook{formats: map[int]string{}}
	err = eachStart(newScanner(r), func(x *xmlScanner) error {
		switch string(x.name) {
		case "numFmt":
			id, _ := strconv.Atoi(x.attr("numFmtId"))
			b.formats[id] = x.attr("formatCode")
		case "fonts":
			return x.children(b.font)
		case "fills":
			return x.children(b.fill)
		case "cellXfs":
			return x.children(b.xf)
		case "dxfs", "cellStyleXfs":
			return x.skip()
		}
		return nil
	})
	s.looks = b.looks
	return err
}

// styleBook gathers the lists that cell formats point into; all of them come before cellXfs.
type styleBook struct {
	formats map[int]string
	fonts   []struct{ struck, grey bool }
	fills   []bool // grey
	looks   []*Look
}

// children calls visit at each start tag inside the element, with the depth below it.
func (s *xmlScanner) children(visit func(x *xmlScanner, depth int)) error {
	for depth := 0; ; {
		k, err := s.next()
		if err != nil {
			return err
		}
		switch k {
		case startTag:
			depth++
			visit(s, depth)
		case endTag:
			if depth--; depth < 0 {
				return nil
			}
		case endOfPart:
			return nil
		}
	}
}

func (b *styleBook) font(x *xmlScanner, depth int) {
	if depth == 1 {
		b.fonts = append(b.fonts, struct{ struck, grey bool }{})
		return
	}
	f := &b.fonts[len(b.fonts)-1]
	switch string(x.name) {
	case "strike":
		v := x.attrBytes("val")
		f.struck = v == nil || isTrue(v)
	case "color":
		f.grey = greyColour(x, 0x60, 0xd0)
	}
}

func (b *styleBook) fill(x *xmlScanner, depth int) {
	if depth == 1 {
		b.fills = append(b.fills, false)
		return
	}
	switch string(x.name) {
	case "patternFill":
		if k := x.attr("patternType"); k == "gray125" || k == "none" {
			return
		} else if strings.Contains(strings.ToLower(k), "gray") {
			b.fills[len(b.fills)-1] = true
		}
	case "fgColor":
		b.fills[len(b.fills)-1] = greyColour(x, 0x60, 0xe4)
	}
}

// greyColour reports a colour without hue that is neither black nor nearly white.
func greyColour(x *xmlScanner, from, to uint64) bool {
	if rgb := x.attr("rgb"); len(rgb) == 8 {
		v, err := strconv.ParseUint(rgb[2:], 16, 32)
		r, g, bl := v>>16, v>>8&255, v&255
		return err == nil && max(r, g, bl)-min(r, g, bl) <= 6 && r >= from && r <= to
	}
	theme, tint := x.attr("theme"), x.attr("tint")
	t, _ := strconv.ParseFloat(tint, 64)
	return theme == "0" && t <= -.12 && t >= -.6 || theme == "1" && t >= .3 && t <= .8
}

func (b *styleBook) xf(x *xmlScanner, depth int) {
	if depth != 1 {
		return
	}
	l := &Look{}
	if i, err := strconv.Atoi(x.attr("fontId")); err == nil && i >= 0 && i < len(b.fonts) {
		l.Struck, l.Grey = b.fonts[i].struck, b.fonts[i].grey
	}
	if i, err := strconv.Atoi(x.attr("fillId")); err == nil && i >= 0 && i < len(b.fills) {
		l.Grey = l.Grey || b.fills[i]
	}
	id, _ := strconv.Atoi(x.attr("numFmtId"))
	code, ok := b.formats[id]
	if !ok {
		code = builtinFormats[id]
	}
	l.Format = parseFormat(code)
	b.looks = append(b.looks, l)
}

// builtinFormats are the codes a workbook refers to by number alone (ECMA-376 part 1,
// 18.8.30); ids it leaves to the locale are given their usual date form.
var builtinFormats = map[int]string{
	0: "General", 1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%",
	11: "0.00E+00", 12: "# ?/?", 13: "# ??/??", 14: "m/d/yyyy", 15: "d-mmm-yy", 16: "d-mmm",
	17: "mmm-yy", 18: "h:mm AM/PM", 19: "h:mm:ss AM/PM", 20: "h:mm", 21: "h:mm:ss",
	22: "m/d/yyyy h:mm", 27: "yyyy/m/d", 30: "m/d/yy", 36: "yyyy/m/d", 37: "#,##0", 38: "#,##0",
	39: "#,##0.00", 40: "#,##0.00", 45: "mm:ss", 46: "h:mm:ss", 47: "mm:ss.0", 48: "0.0E+0",
	49: "@", 50: "yyyy/m/d", 57: "yyyy/m/d",
}
