package standards

import (
	"slices"
	"strings"

	"dryfit/check/standard"
)

// words reads the list of words.
func (sh *sheet) words() int {
	n := 0
	for r := sh.head + 1; r < len(sh.rows); r++ {
		if sh.blank(r) || sh.repeated(r, "word") {
			continue
		}
		w := standard.Word{Kind: plain(sh.cell(r, "word kind")), Text: sh.cell(r, "word"), Means: sh.cell(r, "means"), From: sh.from(r, "word")}
		if sh.sensible(r, w) {
			sh.out.Words = append(sh.out.Words, w)
			n++
		}
	}
	return n
}

// sensible reports whether a word says something that is understood.
func (sh *sheet) sensible(r int, w standard.Word) bool {
	switch {
	case !slices.Contains(standard.WordKinds, w.Kind):
		sh.problem(r, "word kind", "a kind of word wanted: %s", strings.Join(standard.WordKinds, ", "))
	case w.Text == "":
		sh.problem(r, "word", "the word wanted, as your office types it")
	case w.Means == "":
		sh.problem(r, "means", "what %q stands for wanted", w.Text)
	case w.Kind == "folder" && plain(w.Means) != notActive && !slices.Contains(stages(), plain(w.Means)):
		sh.problem(r, "means", "%s or a stage wanted: %s", notActive, strings.Join(stages(), ", "))
	case w.Kind == "material" && !knownMaterial(w.Means, sh.out.Entries):
		_, _, near := standard.BuiltIn().Material(w.Means)
		sh.problem(r, "means", "a material wanted that is known%s", orNear(near))
	case w.Kind == "finish" && !knownFinish(w.Means):
		_, _, near := standard.BuiltIn().Finish(w.Means)
		sh.problem(r, "means", "a finish wanted that is known%s", orNear(near))
	default:
		return true
	}
	return false
}

func knownMaterial(text string, own []standard.Entry) bool {
	_, ok, _ := standard.BuiltIn().With(own).Material(text)
	return ok
}

func knownFinish(text string) bool {
	_, ok, _ := standard.BuiltIn().Finish(text)
	return ok
}
