package standard

// Entry is one value of the standards: what it is, its range, and how it is known.
type Entry struct {
	Group, Item, Property string // "material", "MDF", "E"

	Low, Nominal, High float64 // Low <= Nominal <= High, in Unit
	Unit               string  // one of Units

	Source string // title, edition, place; never empty for a built-in value
	Known  string // "read", "read, second hand", "memory", "common practice", "guess", "shop", "measured"
	Note   string
	From   string // "built in", "shop standards, materials!B14", "job standards, fits!C7"
}

// Key names the entry among all others.
type Key struct{ Group, Item, Property string }

// Key returns the three words the entry is found by.
func (e Entry) Key() Key { return Key{e.Group, e.Item, e.Property} }

// Name is the entry in words, for a message or the working.
func (e Entry) Name() string { return e.Item + ", " + e.Property }

// Guessed reports whether nobody read, measured or decided the value: it then counts as
// a guess whatever its range.
func (e Entry) Guessed() bool { return e.Known != KnownShop && e.Known != KnownMeasured }

// How a value is known, from the weakest to the strongest.
const (
	KnownGuess    = "guess"
	KnownMemory   = "memory"
	KnownPractice = "common practice"
	KnownSecond   = "read, second hand"
	KnownRead     = "read"
	KnownShop     = "shop"
	KnownMeasured = "measured"
)

// Ways lists the words that Known may hold.
var Ways = []string{KnownGuess, KnownMemory, KnownPractice, KnownSecond, KnownRead, KnownShop, KnownMeasured}
