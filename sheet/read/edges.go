package read

import (
	"regexp"
	"strings"
)

var edgeCode = regexp.MustCompile(`^(?:[0-4]?\s*[flbrtwsLWDHSKAO](?:[12](?:\b|[,/+ &]))?[\s,/+&.-]*){1,6}$|^[SBTK]\d{1,3}(?:[.,]\d)?$|^[0-4O]$`)

var edgeTexts = set(`all all4 4 round 0 o none no fe front back left right top bottom f b l r t ends bd band edges
	alle umlaufend vorne keine tous avant todos frente tutti davanti wszystkie przod rondom voor alla fram runt 4e 4s`)

// looksLikeEdges reports whether a text could be a list of edges: "F,L,R", "1L 2W", "all".
func looksLikeEdges(text string) bool {
	s := strings.TrimSpace(text)
	if s == "" || len(s) > 24 {
		return false
	}
	if edgeCode.MatchString(s) || edgeCode.MatchString(strings.ToLower(s)) {
		return true
	}
	for _, w := range strings.Fields(fold(s)) {
		if !edgeTexts[w] {
			return false
		}
	}
	return fold(s) != ""
}
