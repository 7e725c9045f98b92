package read

import (
	"regexp"
	"strconv"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

var (
	stripCode = regexp.MustCompile(`\b[Ss](\d{1,3})\b`)
	tapeCode  = regexp.MustCompile(`\b[BbTtKk](\d(?:[.,]\d)?)\b`)
	sideCount = regexp.MustCompile(`(\d)\s*([LWSB])\b`)
)

// bandThickness reads the strip codes of the trade: S75 is a solid strip of 0.75 in, B1 a
// tape of 1 mm. Common practice, not a standard: it counts as a guess of that size.
func bandThickness(code string, unit length.Unit, from check.Cell) check.Value {
	if !strings.ContainsAny(code, "0123456789") {
		return check.Value{}
	}
	if m := stripCode.FindStringSubmatch(code); m != nil {
		n, _ := strconv.ParseFloat(m[1], 64)
		t, u := n/100, length.Inch
		if unit.Metric() && n < 60 {
			t, u = n, length.Millimetre
		}
		t = length.Convert(t, u, unit)
		return check.Guess(t, t, t, "the code "+m[0]+" read as a strip of "+length.Format(t, unit)).At(from)
	}
	if m := tapeCode.FindStringSubmatch(code); m != nil {
		n, _ := strconv.ParseFloat(strings.Replace(m[1], ",", ".", 1), 64)
		if n > 0 && n <= 5 {
			t := length.Convert(n, length.Millimetre, unit)
			return check.Guess(t, t, t, "the code "+m[0]+" read as a tape of "+length.Format(n, length.Millimetre)).At(from)
		}
	}
	return check.Value{}
}

// edgeOn turns the name of an edge column into edges of the part. The first long edge is
// taken as the front, the second as the back; short edges as left and right.
func edgeOn(name string) []string {
	switch name {
	case "L1":
		return []string{"front"}
	case "L2":
		return []string{"back"}
	case "W1":
		return []string{"left"}
	case "W2":
		return []string{"right"}
	case "L":
		return []string{"front", "back"}
	case "W":
		return []string{"left", "right"}
	case "front", "back", "left", "right", "top", "bottom":
		return []string{name}
	}
	return nil
}

func (rr *rowReader) band(edge, code string, p *check.Part) []check.Edge {
	var out []check.Edge
	for _, on := range edgeOn(edge) {
		out = append(out, check.Edge{On: on, Thickness: bandThickness(code, p.Unit, p.Edges.From)})
	}
	return out
}

var edgeLetters = map[string]string{"f": "front", "fe": "front", "b": "back", "bk": "back", "be": "back", "l": "left", "le": "left", "r": "right", "re": "right", "t": "top", "te": "top",
	"front": "front", "back": "back", "left": "left", "right": "right", "top": "top", "bottom": "bottom", "btm": "bottom",
	"vorne": "front", "vorn": "front", "hinten": "back", "links": "left", "rechts": "right", "oben": "top", "unten": "bottom",
	"avant": "front", "arriere": "back", "gauche": "left", "droite": "right", "frente": "front", "davanti": "front", "dietro": "back",
	"przod": "front", "tyl": "back", "voor": "front", "achter": "back", "fram": "front", "bak": "back"}

// readEdges reads a list of edges: "F", "F,L,R", "FLR", "1L 2W", "2L1S", "all", "4", "fe".
func (rr *rowReader) readEdges(p *check.Part) []check.Edge {
	text := p.Edges.Text
	thick := bandThickness(text, p.Unit, p.Edges.From)
	bare := text
	if thick.Known {
		bare = tapeCode.ReplaceAllString(stripCode.ReplaceAllString(text, " "), " ")
	}
	names := rr.names.edges.of(bare)
	var out []check.Edge
	for _, on := range names {
		out = append(out, check.Edge{On: on, Thickness: thick})
	}
	return out
}

var allRound = []string{"front", "back", "left", "right"}

func edgeList(text string) []string {
	key := fold(text)
	switch key {
	case "all", "4", "all 4", "all round", "4 sides", "4e", "4s", "alle", "umlaufend", "tous", "4 chants", "todos", "tutti", "wszystkie", "dookola", "rondom", "alla", "runt om", "all edges", "4 edges", "4 kanten":
		return allRound
	case "ends", "both ends", "2 ends":
		return []string{"left", "right"}
	case "2 long", "long edges":
		return []string{"front", "back"}
	}
	if ms := sideCount.FindAllStringSubmatch(strings.ToUpper(text), -1); ms != nil {
		var out []string
		for _, m := range ms {
			long := m[2] == "L"
			pair := []string{"left", "right"}
			if long {
				pair = []string{"front", "back"}
			}
			n, _ := strconv.Atoi(m[1])
			out = append(out, pair[:min(n, 2)]...)
		}
		return out
	}
	var out []string
	for _, w := range strings.Fields(key) {
		if on, ok := edgeLetters[w]; ok {
			out = append(out, on)
			continue
		}
		if len(w) <= 4 && strings.Trim(w, "fblrt") == "" { // run together: FLR
			for _, l := range w {
				out = append(out, edgeLetters[string(l)])
			}
		}
	}
	return out
}
