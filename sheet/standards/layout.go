package standards

import (
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/standard"
)

// valueTab is a tab of values and the groups that stand on it.
type valueTab struct {
	name   string
	groups []string
	tells  string
}

var valueTabs = []valueTab{
	{"materials", []string{"material", "panel", "lumber", "creep", "movement"}, "What boards and woods weigh, how they bend, and how they move with the seasons."},
	{"stock", []string{"thickness", "sheet", "build"}, "The thicknesses that are sold and what they measure, sheets, glue lines."},
	{"finishes", []string{"finish", "film"}, "What a finish adds to each face. The shop's own codes stand on the finish list."},
	{"fits", []string{"fit", "spread"}, "The clearance a joint wants after finish, and how closely the shop cuts."},
	{"loads", []string{"load", "duration"}, "What stands on a shelf, sits on a seat, or presses on a floor."},
	{"limits", []string{"limit", "use"}, "What a result is held against, and what people need to use a piece."},
	{"site", []string{"site", "opening"}, "How closely rooms are measured, how crooked they are, and the room a case needs."},
	{"cutting", []string{"cutting"}, "Steps that sizes are rounded to, kerfs, trims."},
	{"crew and vehicles", []string{"crew", "vehicle"}, "Who carries, and what it travels in. Measure the vehicle once."},
	{"doors", []string{"door"}, "Doors, halls, stairs and lifts on the way, where nobody measured them."},
	{"fasteners", []string{"fastener"}, "Screws and what they hold in."},
}

// units lists the units that make sense on the tab.
func (v valueTab) units() []string {
	measured := map[string]bool{}
	for _, e := range standard.BuiltIn().Entries() {
		if slices.Contains(v.groups, e.Group) {
			what, _ := standard.Measures(e.Unit)
			measured[what] = true
		}
	}
	return slices.DeleteFunc(standard.Units(), func(u string) bool {
		what, _ := standard.Measures(u)
		return !measured[what]
	})
}

// The lists that hold no values.
const (
	startTab   = "start"
	finishTab  = "finish list"
	wordsTab   = "words"
	jobsTab    = "jobs"
	measureTab = "calibration"
)

// column is one column of a table: what stands over it, the words it is known by, and the
// note on its header.
type column struct {
	id     string
	head   string
	known  string // further header words, separated by |
	width  float64
	typed  bool // people type here
	hidden bool
	note   string
}

// The columns of a value tab. The columns of ours are empty until the shop has a word of
// its own; what stands there rules.
var valueColumns = []column{
	{id: "kind", head: "kind", known: "group", width: 10, note: "The kind of value. A row of your own takes one of the list."},
	{id: "item", head: "item", known: "material|thing", width: 18, note: "What the value is of: a material, a finish, a fit. Leave the built-in names as they are; values are found by them."},
	{id: "what", head: "what", known: "property|value of", width: 20, note: "Which value of it."},
	{id: "unit", head: "unit", known: "units", width: 6.5, note: "Unit of the built-in value, and of yours unless you name another."},
	{id: "low", head: "low", known: "least|min|built in low", width: 10, note: "The least it could be. Built in: do not type here, type in the coloured columns."},
	{id: "value", head: "built in", known: "nominal|value|typical|built in value", width: 10, note: "What is used where you say nothing. Built in: do not type here."},
	{id: "high", head: "high", known: "most|max|built in high", width: 10, note: "The most it could be. Built in: do not type here."},
	{id: "our low", head: "our low", known: "our least", width: 8, typed: true, note: "The least it is in your shop. Leave it empty and your value counts as exact."},
	{id: "our value", head: "our value", known: "ours|our nominal", width: 8.5, typed: true, note: "Your own value. It rules over the built-in one everywhere, and the working names this cell. 3/4, 0.75 and 19 mm are all understood."},
	{id: "our high", head: "our high", known: "our most", width: 8, typed: true, note: "The most it is in your shop."},
	{id: "our unit", head: "our unit", width: 7, typed: true, note: "Only if yours is in another unit than the built-in value."},
	{id: "why", head: "why ours", known: "our source|our reason", width: 13, typed: true, note: "Where your value comes from: a reading, a data sheet, a rule of the house."},
	{id: "how", head: "how we know", known: "our how known", width: 10, typed: true, note: "shop: decided here. measured: read from real pieces."},
	{id: "source", head: "source", width: 30, note: "Where the built-in value comes from."},
	{id: "known", head: "known by", known: "how known", width: 10, note: "read: seen in print. read, second hand: seen quoted. memory: not looked up again. common practice: what shops do. guess: a house rule to be replaced by yours."},
	{id: "note", head: "note", known: "notes|remarks", width: 24, note: "What to keep in mind with the value."},
	{id: "stamp", head: "stamp", width: 9, hidden: true, note: "Shows whether a built-in value was typed over. Leave it."},
}

var finishColumns = []column{
	{id: "code", head: "code", known: "finish code", width: 12, typed: true, note: "As it stands on your schedules: P1, CL, W2."},
	{id: "words", head: "in words", known: "means|what it is", width: 46, typed: true, note: "Coats and masking in words, such as: primer 2 + top 2, sprayed, slots not masked. The film is added up from the coats unless you type it."},
	{id: "our low", head: "film low", known: "least film", width: 10, typed: true, note: "Dry film on one face, the least."},
	{id: "our value", head: "film", known: "film nominal", width: 10, typed: true, note: "Dry film on one face, as a rule. Measure a coated chip against a bare one, or see calibration."},
	{id: "our high", head: "film high", known: "most film", width: 10, typed: true, note: "Dry film on one face, the most."},
	{id: "our unit", head: "film unit", width: 9, typed: true, note: "mil (1/1000 in) unless you name another."},
	{id: "cheeks", head: "slot cheeks", known: "cheeks", width: 13, typed: true, note: "coated: the spray reaches into slots. masked: slots stay bare."},
	{id: "faces", head: "coated faces", known: "faces", width: 13, typed: true, note: "Of a part that goes into a slot."},
	{id: "note", head: "note", known: "notes|remarks", width: 40, typed: true, note: "For people."},
}

var wordColumns = []column{
	{id: "word kind", head: "kind of word", known: "kind", width: 16, typed: true, note: "header: over a column. role: what a part does. material, finish: as they stand on schedules. folder: a word in the name of a job's folder."},
	{id: "word", head: "word as typed", known: "word", width: 28, typed: true, note: "As your office writes it. Capitals, blanks and full stops do not matter."},
	{id: "means", head: "means", known: "stands for", width: 34, typed: true, note: "A word dryfit knows: quantity, upright, 3 lyr 5/8 MDF, clear 2. For a folder word: not active, or a stage."},
	{id: "note", head: "note", known: "notes|remarks", width: 44, typed: true, note: "For people."},
}

var jobColumns = []column{
	{id: "folder", head: "job folder", known: "folder|job", width: 34, typed: true, note: "Name of the folder, as it stands on the disk."},
	{id: "active", head: "active", width: 10, typed: true, note: "no: the nightly run leaves it alone."},
	{id: "stage", head: "stage", width: 14, typed: true, note: "How far the job has come. Checks whose mending is past are not asked any more."},
	{id: "cut", head: "cut date", known: "cut", width: 14, typed: true, note: "The soonest date stands first in the morning."},
	{id: "ship", head: "ship date", known: "ship", width: 14, typed: true, note: "When it leaves the shop."},
	{id: "note", head: "note", known: "notes|remarks", width: 44, typed: true, note: "For people."},
}

// table is a list tab: its columns, how many empty rows it is given, and what it is known by.
type table struct {
	name    string
	tells   string
	columns []column
	blank   int
	needs   []string // columns without which it is no such table
	choices map[string][]string
}

var (
	finishTable = table{finishTab, "The shop's finish codes. What stands here rules over the words of any schedule.",
		finishColumns, 24, []string{"code", "words"}, map[string][]string{
			"our unit": {"mil", "mm", "in"}, "cheeks": {"coated", "masked"}, "faces": {"both", "one", "none"}}}
	wordTable = table{wordsTab, "How your office speaks. One line a word; nothing here is needed where the plain word does.",
		wordColumns, 60, []string{"word kind", "word", "means"}, map[string][]string{"word kind": standard.WordKinds}}
	jobTable = table{jobsTab, "Jobs that are not simply active. A folder that is not listed is active and before cut.",
		jobColumns, 60, []string{"folder", "active"}, map[string][]string{"active": {"yes", "no"}, "stage": stages()}}
)

// notActive is what a folder word or a job's row may say instead of a stage.
const notActive = "not active"

func stages() []string {
	var words []string
	for s := check.Quoted; s <= check.Shipped; s++ {
		words = append(words, s.String())
	}
	return words
}

// columnOf finds the column that a header cell names.
func columnOf(columns []column, head string) (int, bool) {
	head = plain(head)
	for i, c := range columns {
		if head == c.head {
			return i, true
		}
	}
	for i, c := range columns {
		for known := range strings.SplitSeq(c.known, "|") {
			if head != "" && head == known {
				return i, true
			}
		}
	}
	return 0, false
}

// plain is a cell's text with single blanks, in lower case.
func plain(text string) string {
	return strings.ToLower(strings.Join(strings.Fields(strings.Trim(text, " .:*")), " "))
}
