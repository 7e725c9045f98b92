package read

import "strings"

var grainWords = map[string]string{
	"l": "L", "long": "L", "length": "L", "lengthwise": "L", "len": "L", "w": "W", "width": "W", "cross": "W", "crosswise": "W",
	"n": "N", "none": "N", "no": "N", "any": "N", "na": "N", "v": "V", "vert": "V", "vertical": "V", "h": "H", "hor": "H",
	"horiz": "H", "horizontal": "H", "langs": "L", "laengs": "L", "quer": "W", "keine": "N", "senkrecht": "V", "waagrecht": "H",
	"oui": "L", "non": "N", "largo": "L", "ancho": "W", "si": "L", "sin": "N", "lunga": "L", "nessuna": "N", "wzdluz": "L", "w poprzek": "W",
	"brak": "N", "lengte": "L", "breedte": "W", "geen": "N", "langd": "L", "bredd": "W", "ingen": "N", "yes": "L", "y": "L", "up": "V",
}

// grainOf reads the direction of the grain: L, W, N, V or H; empty for anything else.
func grainOf(text string) string {
	switch strings.TrimSpace(text) {
	case "→", "↔", "-->", "->", "=>", "⇒":
		return "L"
	case "↑", "↕", "↓", "⇑":
		return "V"
	case "-", "–", "—":
		return "N"
	}
	return grainWords[fold(text)]
}
