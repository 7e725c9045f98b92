package read

import (
	"strings"

	edlib "github.com/hbollon/go-edlib"
)

// Field is what a column or a form line says.
type Field string

// lexicon finds the field that a header word names.
type lexicon struct {
	fields map[string][]Field // folded words to fields, the likelier first
	long   []string           // folded words that may be misspelt
}

// newLexicon takes the words of each field parted by |. A word may belong to several fields;
// the order of the list decides which is tried first.
func newLexicon(list []fieldWords) *lexicon {
	l := &lexicon{fields: map[string][]Field{}}
	for _, f := range list {
		for _, w := range strings.Split(f.words, "|") {
			key := fold(w)
			if key == "" {
				continue
			}
			if len(l.fields[key]) == 0 && len(key) >= 5 {
				l.long = append(l.long, key)
			}
			l.fields[key] = append(l.fields[key], f.field)
		}
	}
	return l
}

// fieldWords is a field and the words that name it, parted by |.
type fieldWords struct {
	field Field
	words string
}

// exact returns the fields a text names as it stands, or in the singular.
func (l *lexicon) exact(text string) []Field {
	key := fold(text)
	if fs := l.fields[key]; fs != nil {
		return fs
	}
	for _, end := range []string{"s", "es", "n", "en"} {
		if stem, ok := strings.CutSuffix(key, end); ok && len(stem) > 3 {
			if fs := l.fields[stem]; fs != nil {
				return fs
			}
		}
	}
	return nil
}

// near returns the fields of the word spelled most like a text: one slip from 5 letters on,
// two from 8.
func (l *lexicon) near(text string) []Field {
	key := fold(text)
	for _, w := range strings.Fields(key) {
		if len(w) == 1 {
			return nil // "Case C" is no slip for "Cases"
		}
	}
	best, found := slips(key)+1, ""
	for _, w := range l.long {
		if d := len(w) - len(key); d > 2 || d < -2 {
			continue
		}
		if n := edlib.OSADamerauLevenshteinDistance(key, w); n < best && n <= slips(w) && key[0] == w[0] {
			best, found = n, w
		}
	}
	return l.fields[found]
}

func slips(word string) int {
	switch {
	case len(word) >= 8:
		return 2
	case len(word) >= 5:
		return 1
	}
	return 0
}
