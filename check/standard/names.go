package standard

import (
	_ "embed"
	"encoding/csv"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"github.com/hbollon/go-edlib"
)

// A name is one thing of the standards and the spellings it is met under.
type name struct {
	item   string
	family string
	like   []string // items whose values are taken where it has none of its own
	rank   int      // place in the list: of two equally long spellings the earlier wins
}

// A lexicon finds the names of one kind.
type lexicon struct {
	whole   map[string]*name // by a complete text
	phrases map[string]*name // by one to five words anywhere in a text
	items   map[string]*name // by the item itself
}

// names.csv holds what materials, finishes, fits and loads are called, in English, German,
// French, Spanish, Italian, Polish, Dutch and Swedish. A spelling behind "=" counts only
// when it is the whole text, since as a word among others it mostly means something else.
//
//go:embed names.csv
var namesCSV string

var lexicons = sync.OnceValue(func() map[string]*lexicon {
	lines, err := csv.NewReader(strings.NewReader(namesCSV)).ReadAll()
	if err != nil {
		panic(err) // our own file
	}
	all := map[string]*lexicon{}
	for i, f := range lines[1:] {
		lex := all[f[0]]
		if lex == nil {
			lex = &lexicon{map[string]*name{}, map[string]*name{}, map[string]*name{}}
			all[f[0]] = lex
		}
		n := lex.items[f[1]]
		if n == nil {
			n = &name{item: f[1], family: f[2], rank: i}
			if f[3] != "" {
				n.like = strings.Split(f[3], ";")
			}
			lex.items[f[1]] = n
		}
		for spelled := range strings.SplitSeq(f[4], " | ") {
			lex.add(spelled, n)
		}
	}
	return all
})

func (x *lexicon) add(spelled string, n *name) {
	spelled, alone := strings.CutPrefix(spelled, "=")
	key := strings.Join(words(spelled), " ")
	if _, taken := x.whole[key]; !taken {
		x.whole[key] = n
	}
	if _, taken := x.phrases[key]; !taken && !alone {
		x.phrases[key] = n
	}
}

// words are the runs of letters and digits of a text, in lower case.
func words(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.Is(unicode.Mn, r)
	})
}

const longestPhrase = 5 // words

// find looks for the longest spelling among some words that keep accepts.
func (x *lexicon) find(ws []string, keep func(*name) bool) *name {
	for size := min(longestPhrase, len(ws)); size > 0; size-- {
		var best *name
		for at := 0; at+size <= len(ws); at++ {
			n := x.phrases[strings.Join(ws[at:at+size], " ")]
			if n != nil && keep(n) && (best == nil || n.rank < best.rank) {
				best = n
			}
		}
		if best != nil {
			return best
		}
	}
	return nil
}

func anyName(*name) bool { return true }

// nearest lists up to three known names that are spelled almost like the words, or like
// one of them. A swapped pair of letters counts as one slip (optimal string alignment).
func (x *lexicon) nearest(ws []string, own []Word) []string {
	tries := append([]string{strings.Join(ws, " ")}, ws...)
	slips := map[string]int{} // by item
	note := func(item, spelled string) {
		for _, try := range tries {
			most := allowedSlips(try, spelled)
			if off := len(try) - len(spelled); most == 0 || off > 2*most || off < -2*most { // bytes
				continue
			}
			d := edlib.OSADamerauLevenshteinDistance(try, spelled)
			if old, met := slips[item]; d <= most && (!met || d < old) {
				slips[item] = d
			}
		}
	}
	for spelled, n := range x.whole {
		note(n.item, spelled)
	}
	for _, w := range own {
		note(w.Text, strings.Join(words(w.Text), " "))
	}
	near := make([]string, 0, len(slips))
	for item := range slips {
		near = append(near, item)
	}
	slices.SortFunc(near, func(a, b string) int {
		if slips[a] != slips[b] {
			return slips[a] - slips[b]
		}
		return strings.Compare(a, b)
	})
	return near[:min(3, len(near))]
}

// allowedSlips is how many letters may differ: one from five letters on, two from eight,
// and in shorter words only two letters that changed places.
func allowedSlips(typed, known string) int {
	switch n := utf8.RuneCountInString(typed); {
	case n >= 8:
		return 2
	case n >= 5:
		return 1
	case n >= 3 && sortedLetters(typed) == sortedLetters(known):
		return 1
	}
	return 0
}

func sortedLetters(s string) string {
	rs := []rune(s)
	slices.Sort(rs)
	return string(rs)
}
