package structure

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// A beam knows a slot only as a stretch of less stiffness. Shell elements of the whole panel,
// with the slot really cut out of the front edge, also twist there and let the stress flow
// around its corners; their largest sag stands at the front edge. With the length that newCut
// gives a slot, structure.sag stays within 6 % of them for slots up to two thirds of the
// width. Counting the bare width of the slot would be 20 % short at half the width.
func TestSlottedShelvesAgainstShells(t *testing.T) {
	const off = .06
	ccx := engine(t)
	for _, row := range []struct {
		name                    string
		long, deep, slot, depth float64
		middle                  bool // held up in its middle too, and one bay loaded
	}{
		{"half the width in the middle of a span", 40, 12, 1, 6, false},
		{"a third", 40, 12, 2, 4, false},
		{"two thirds", 40, 12, 2, 8, false},
		{"half, deeper and longer", 60, 16, 2, 8, false},
		{"half, over an upright", 80, 12, 1, 6, true},
		{"a third, over an upright", 80, 12, 1, 4, true},
	} {
		supports := []float64{0, row.long}
		if row.middle {
			supports = []float64{0, row.long / 2, row.long}
		}
		l := layout{supports: supports, cuts: []cut{newCut(row.long/2, row.slot, row.depth, row.deep-row.depth)}}
		got, err := l.work(row.long)
		if err != nil {
			t.Fatal(err)
		}
		const e, load = 1e6, .25 // the panel is 1 thick, so that EI is e*deep/12
		ours := got.sag * load * row.deep * math.Pow(got.bay, 4) / (e * row.deep / 12)
		m := shellMesh{xs: linesAround(row.long, row.slot), ys: lines(row.deep),
			hole: func(x, y float64) bool { return math.Abs(x-row.long/2) < row.slot/2 && y > row.deep-row.depth }}
		loaded := func(x float64) bool { return !row.middle || x < row.long/2 }
		largest := 0.
		for _, z := range m.read(t, solveDeck(t, ccx, m.deck(e, 1, load, loaded, supports))) {
			largest = math.Max(largest, -z)
		}
		if largest == 0 || math.Abs(ours-largest) > off*largest {
			t.Errorf("%s: structure.sag %.5g, shells %.5g", row.name, ours, largest)
		}
	}
}

// lines are two inches apart.
func lines(long float64) []float64 {
	var out []float64
	for x := 0.; x <= long; x += 2 {
		out = append(out, x)
	}
	return out
}

// linesAround are lines with the edges of a slot in the middle among them.
func linesAround(long, slot float64) []float64 {
	all := append(lines(long), long/2-slot/2, long/2+slot/2)
	slices.Sort(all)
	return slices.Compact(all)
}

// shellMesh is a panel of eight-node shells between lines along and across.
type shellMesh struct {
	xs, ys []float64
	hole   func(x, y float64) bool
}

func (m shellMesh) node(c, r int) int { return c*(2*len(m.ys)-1) + r + 1 }

// place is the place of a node on lines and half way between.
func place(lines []float64, i int) float64 {
	if i%2 == 0 {
		return lines[i/2]
	}
	return (lines[i/2] + lines[i/2+1]) / 2
}

func (m shellMesh) deck(e, thick, load float64, loaded func(x float64) bool, supports []float64) []byte {
	var b, elements, pressed bytes.Buffer
	used := map[int][2]float64{}
	id := 0
	for c := 0; c < 2*len(m.xs)-2; c += 2 {
		for r := 0; r < 2*len(m.ys)-2; r += 2 {
			x, y := place(m.xs, c+1), place(m.ys, r+1)
			if m.hole(x, y) {
				continue
			}
			id++
			fmt.Fprintf(&elements, "%d", id)
			for _, n := range [][2]int{{c, r}, {c + 2, r}, {c + 2, r + 2}, {c, r + 2}, {c + 1, r}, {c + 2, r + 1}, {c + 1, r + 2}, {c, r + 1}} {
				used[m.node(n[0], n[1])] = [2]float64{place(m.xs, n[0]), place(m.ys, n[1])}
				fmt.Fprintf(&elements, ",%d", m.node(n[0], n[1]))
			}
			fmt.Fprintln(&elements)
			if loaded(x) {
				fmt.Fprintf(&pressed, "%d,P,%g\n", id, -load)
			}
		}
	}
	fmt.Fprintln(&b, "*NODE, NSET=ALL")
	var held []int
	for n := 1; n <= m.node(2*len(m.xs)-2, 2*len(m.ys)-2); n++ {
		at, ok := used[n]
		if !ok {
			continue
		}
		fmt.Fprintf(&b, "%d,%g,%g,0.\n", n, at[0], at[1])
		for _, s := range supports {
			if at[0] == s {
				held = append(held, n)
			}
		}
	}
	fmt.Fprintf(&b, "*ELEMENT, TYPE=S8, ELSET=PANEL\n%s", elements.String())
	writeSet(&b, "NSET", "HELD", held)
	fmt.Fprintf(&b, "*MATERIAL, NAME=M\n*ELASTIC\n%g,0.\n*SHELL SECTION, ELSET=PANEL, MATERIAL=M\n%g\n", e, thick)
	fmt.Fprintf(&b, "*BOUNDARY\nHELD,3,3\n%d,1,2\n%d,2,2\n", m.node(0, 0), m.node(2*len(m.xs)-2, 0))
	fmt.Fprintf(&b, "*STEP\n*STATIC\n*DLOAD\n%s*NODE PRINT, NSET=ALL\nU\n*END STEP\n", pressed.String())
	return b.Bytes()
}

func (m shellMesh) read(t *testing.T, data string) []float64 {
	t.Helper()
	var out []float64
	for line := range strings.Lines(data) {
		words := strings.Fields(line)
		if _, err := strconv.Atoi(firstWord(words)); err != nil || len(words) != 4 {
			continue
		}
		z, err := strconv.ParseFloat(words[3], 64)
		if err != nil {
			t.Fatalf("ccx wrote %q", line)
		}
		out = append(out, z)
	}
	if len(out) < len(m.xs) {
		t.Fatalf("ccx gave %d nodes:\n%.2000s", len(out), data)
	}
	return out
}
