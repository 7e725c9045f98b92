package length

import "strings"

// ParseList reads a list of lengths, such as the places of slots: "18, 36-3/4, 55-1/2",
// "458; 934", one a line. A comma with a space behind it parts two lengths, one without may
// be a decimal comma. Where the list as a whole cannot be read the *[Error] is that of the
// first length refused, with its text.
func ParseList(text string, ctx Context) ([]Length, error) {
	if absent := Nothing(text); absent != Something {
		_, err := Parse(text, ctx)
		return nil, err
	}
	var out []Length
	for _, piece := range pieces(text) {
		l, err := Parse(piece, ctx)
		if err != nil {
			return nil, err
		}
		out = append(out, l)
	}
	return out, nil
}

func pieces(text string) []string {
	marked := strings.NewReplacer(", ", ";", ",\n", ";", "\n", ";", "\r", ";", " & ", ";").Replace(text)
	var out []string
	for _, piece := range strings.Split(marked, ";") {
		piece = strings.TrimSpace(piece)
		tight := strings.Count(piece, ",") > 1 || strings.Contains(piece, ",") && strings.Contains(piece, "/")
		switch {
		case piece == "":
		case tight: // 18,36-3/4,55: nobody types two decimal commas
			for _, p := range strings.Split(piece, ",") {
				out = append(out, strings.TrimSpace(p))
			}
		default:
			out = append(out, piece)
		}
	}
	return out
}
