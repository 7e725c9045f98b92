package infer

import (
	"slices"
	"strings"

	"dryfit/check"
)

// useWords are words in the name of a case, a room or a part that say what will stand
// there, in the languages the reader knows; the kind is a load of the standards.
var useWords = []struct{ kind, words string }{
	{"books", "book library bibliothek buch bücher bücherei livre bibliothèque libro biblioteca libri książk bibliotek boek bok"},
	{"records", "record vinyl"},
	{"linen", "linen wäsche linge biancheria bielizn linnen linne"},
	{"shoes", "shoe schuh chaussure zapato scarp but schoen sko"},
	{"dishes", "dish china geschirr vaisselle vajilla stoviglie naczyni servies porslin"},
	{"pantry", "pantry vorrat garde-manger despensa dispensa spiżarn voorraad skafferi"},
	{"wine", "wine wein vin vino wino wijn"},
	{"paper", "files filing binder archive ordner aktenraum archiv"},
	{"toys", "toy spielzeug jouet juguete giocattol zabawk speelgoed leksak"},
	{"display", "display vitrine showcase"},
}

// loads adds a load for every case whose words say what stands there and that no load of
// the office speaks of.
func loads(j *check.Job) {
	cases := j.Cases()
	for _, c := range cases {
		if c.Name == "" && len(cases) > 1 || loaded(j, c) {
			continue
		}
		if kind := use(words(j, c)); kind != "" {
			j.Loads = append(j.Loads, &check.Load{Row: c.Parts[0].Row, On: check.Text{Text: c.Name},
				Kind: check.Text{Text: kind}, Per: check.ByKind, Inferred: true})
			j.Notes = append(j.Notes, c.Title()+": load taken as "+kind+", from its words")
		}
	}
}

func loaded(j *check.Job, c check.Case) bool {
	for _, l := range j.Loads {
		if c.Is(l.On.Text) || l.On.Text == "" {
			return true
		}
	}
	return false
}

// words is all that names a case: its own name, its room, the job, and the notes of its
// shelves.
func words(j *check.Job, c check.Case) string {
	all := []string{c.Name, c.Room}
	for _, p := range c.Parts {
		all = append(all, p.Description.Text, p.Note.Text)
	}
	return strings.ToLower(strings.Join(append(all, j.Name), " "))
}

func use(text string) string {
	for _, u := range useWords {
		for _, w := range strings.Fields(u.words) {
			if wordIn(text, w) {
				return u.kind
			}
		}
	}
	return ""
}

// wordIn reports whether a word of the text begins with w, so that "books" and
// "bookshelves" count for "book" and "rebate" does not count for "but".
func wordIn(text, w string) bool {
	for _, t := range strings.FieldsFunc(text, func(r rune) bool { return !isLetter(r) }) {
		if len(w) <= 3 && t == w || len(w) > 3 && strings.HasPrefix(t, w) {
			return true
		}
	}
	return false
}

func isLetter(r rune) bool { return r == '-' || r >= 'a' && r <= 'z' || r > 127 }

// settleLoads finds the case of each load that is typed under a name no case and no part bears:
// that of the opening in which the case stands, or any name at all where the job has one case
// only.
func settleLoads(j *check.Job) {
	cases := j.Cases()
	for _, l := range slices.Clone(j.Loads) {
		if l.On.Text == "" || len(cases) == 0 || known(j, l.On.Text) {
			continue
		}
		if len(cases) == 1 {
			l.On.Text = ""
			continue
		}
		first, typed := true, l.On.Text
		for _, c := range cases {
			if o := j.OpeningOf(c); o == nil || !check.SameName(o.Name.Text, typed) {
				continue
			}
			if !first {
				more := *l
				l = &more
				j.Loads = append(j.Loads, l)
			}
			l.On.Text, first = c.Label(), false
		}
	}
}

// known reports whether a name is that of a case or a part.
func known(j *check.Job, name string) bool {
	for _, c := range j.Cases() {
		if c.Is(name) {
			return true
		}
	}
	return j.Part(name) != nil || len(j.Called(name)) > 0
}
