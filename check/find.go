package check

import "strings"

// The parts of a job as the checks look for them.
type (
	pieces []*Part
	marks  map[string]*Part
	called map[string][]*Part
	cases  struct {
		all  []Case
		at   map[caseName]int
		said [][2][]string // the telling words of each: those of its name and of its room
	}
	caseName struct{ name, room string }
	named    map[string][]Case
)

// Pieces are the rows that are parts to be made: no hardware and no layers of a built-up
// part.
func (j *Job) Pieces() []*Part { return Once(j, findPieces) }

func findPieces(j *Job) pieces {
	var out pieces
	for _, p := range j.Parts {
		if p.Role != NotAPart && p.Of == "" {
			out = append(out, p)
		}
	}
	return out
}

// Part finds a part by its mark, nil if there is none.
func (j *Job) Part(mark string) *Part { return Once(j, findMarks)[mark] }

// findMarks leaves out layers: they bear the mark of what they are part of.
func findMarks(j *Job) marks {
	out := marks{}
	for _, p := range j.Parts {
		if p.Of == "" && out[p.Mark.Text] == nil {
			out[p.Mark.Text] = p
		}
	}
	return out
}

// Called finds parts by what they are, as in "side" or "shelves", or by their description.
func (j *Job) Called(name string) []*Part {
	return Once(j, findCalled)[small(strings.TrimSpace(name))]
}

func findCalled(j *Job) called {
	out := called{}
	for _, p := range j.Pieces() {
		for _, name := range p.callings() {
			if at := out[name]; len(at) == 0 || at[len(at)-1] != p {
				out[name] = append(at, p)
			}
		}
	}
	return out
}

// callings are what a part is called: one of its kind, several of them, its description.
func (p *Part) callings() []string {
	var out []string
	if role := string(p.Role); role != "" {
		out = append(out, role, role+"s", strings.TrimSuffix(role, "f")+"ves")
	}
	if text := small(p.Description.Text); text != "" {
		out = append(out, text)
	}
	return out
}

// small takes the difference of capitals away, of which some letters have more than two.
func small(s string) string { return strings.ToLower(strings.ToUpper(s)) }

// Cases groups the pieces of a job, in the order of the schedule.
func (j *Job) Cases() []Case { return Once(j, findCases).all }

// CaseOf is the case a part belongs to, with all its parts.
func (j *Job) CaseOf(p *Part) Case {
	c := Once(j, findCases)
	if i, ok := c.at[caseName{p.Case.Text, p.Room.Text}]; ok {
		return c.all[i]
	}
	return Case{}
}

func findCases(j *Job) cases {
	out := cases{at: map[caseName]int{}}
	for _, p := range j.Pieces() {
		k := caseName{p.Case.Text, p.Room.Text}
		i, seen := out.at[k]
		if !seen {
			i = len(out.all)
			out.at[k] = i
			out.all = append(out.all, Case{Name: k.name, Room: k.room})
			out.said = append(out.said, [2][]string{telling(k.name), telling(k.room)})
		}
		out.all[i].Parts = append(out.all[i].Parts, p)
	}
	return out
}

// CasesNamed are the cases that a name typed in another tab means; see Case.Is.
func (j *Job) CasesNamed(name string) []Case {
	return OnceFor[named](j, name, func() []Case {
		var out []Case
		c, typed := Once(j, findCases), telling(name)
		for i := range c.all {
			if meet(c.said[i][0], typed) || meet(c.said[i][1], typed) {
				out = append(out, c.all[i])
			}
		}
		return out
	})
}

// MaterialCell is the cell in which the material of a part stands, or would stand: in its own
// row, in the column of the others. It is the row where that cannot be told.
func (j *Job) MaterialCell(p *Part) Cell {
	if p.Material.From != (Cell{}) {
		return p.Material.From
	}
	_, row := p.Row.split()
	for _, q := range j.Parts {
		col, other := q.Material.From.split()
		_, own := q.Row.split()
		if q.Material.From.Tab == p.Row.Tab && q.Material.From.Book == p.Row.Book && other == own && col != "" {
			return Cell{Book: p.Row.Book, Tab: p.Row.Tab, Addr: col + row}
		}
	}
	return p.Row
}

// split parts an address into its column and its row.
func (c Cell) split() (col, row string) {
	row = strings.TrimLeft(c.Addr, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
	return strings.TrimSuffix(c.Addr, row), row
}
