package standard

import (
	"slices"
	"strings"
)

// Word is a piece of the shop's own speech and what it stands for.
type Word struct {
	Kind  string // one of WordKinds
	Text  string // as the shop types it: "LAM3", "P1", "Pcs req'd"
	Means string // a word that is known already: "MDF", "paint", "quantity"
	From  string // "shop standards, words!B7"
}

// WordKinds lists what a word may be. A folder word stands in the name of a job's folder
// and means "not active" or a stage of the job.
var WordKinds = []string{"header", "role", "material", "finish", "folder"}

// Speaking returns a copy that knows more words; a word said again replaces the earlier one.
func (t *Table) Speaking(words []Word) *Table {
	n := *t
	n.words = slices.Clone(t.words)
	n.spoken = map[string]Word{}
	for _, w := range words {
		i := slices.IndexFunc(n.words, func(v Word) bool {
			return v.Kind == w.Kind && fold(v.Text) == fold(w.Text)
		})
		if i >= 0 {
			n.words[i] = w
			continue
		}
		n.words = append(n.words, w)
	}
	for _, w := range n.words {
		n.spoken[w.Kind+" "+fold(w.Text)] = w
	}
	return &n
}

// Words returns the shop's own words in the order they were said.
func (t *Table) Words() []Word { return slices.Clone(t.words) }

// Word looks a word of the shop up; kind is one of WordKinds.
// Case, spaces and full stops do not matter. It returns what the word means, and false
// if the shop never said.
func (t *Table) Word(kind, text string) (string, bool) {
	w, ok := t.spoken[kind+" "+fold(text)]
	return w.Means, ok
}

// fold makes spellings that differ only in case, blanks and full stops equal.
func fold(s string) string {
	return strings.ToLower(strings.Join(strings.Fields(strings.ReplaceAll(s, ".", " ")), " "))
}
