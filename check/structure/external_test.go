package structure

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/beam"
)

// The same frames in an independent finite-element engine: plane-stress elements over length
// and thickness, not beams. They know of nothing we assume, neither plane sections nor a
// shear factor. Sags must agree within a thousandth of the largest, reactions within a
// thousandth of the load. A thick and short shelf is allowed a hundredth, because a support
// that holds one node presses a dimple that no beam has.
const (
	sagOff      = .001
	reactionOff = .001
)

// plate is a shelf seen from the front: 1 deep, so that a load per length is a pressure.
type plate struct {
	name  string
	thick float64
	e     float64
	slip  float64 // E over G
	off   float64 // 0 takes sagOff
	beam  beam.Beam
	kept  []beam.Slot // EI holds the share of E kept
}

const grid = .5 // length of an element; every place of a frame lies on it

func TestFramesAgainstFiniteElements(t *testing.T) {
	ccx := engine(t)
	for _, p := range plates() {
		t.Run(p.name, func(t *testing.T) {
			p.build(t)
			ours, err := p.beam.Solve()
			if err != nil {
				t.Fatal(err)
			}
			p.compare(t, ours, p.read(t, solveDeck(t, ccx, p.deck())))
		})
	}
}

func spread(from, to, w float64) beam.Spread { return beam.Spread{From: from, To: to, W: w} }

func on(length float64, loads beam.Loads, supports ...float64) beam.Beam {
	b := beam.Beam{Length: length, Loads: loads}
	for _, x := range supports {
		b.Supports = append(b.Supports, beam.Support{At: x})
	}
	return b
}

func plates() []*plate {
	const e = 1e6
	return []*plate{
		{name: "plain shelf", thick: .75, e: e, slip: 2, beam: on(36, beam.Loads{Spread: []beam.Spread{spread(0, 36, 2)}}, 0, 36)},
		{name: "two bays, one loaded", thick: .75, e: e, slip: 2, beam: on(60, beam.Loads{Spread: []beam.Spread{spread(0, 30, 2)}}, 0, 30, 60)},
		{name: "uneven bays", thick: 1, e: e, slip: 2, beam: on(84, beam.Loads{Spread: []beam.Spread{spread(0, 84, 1)}}, 0, 48, 68, 84)},
		{name: "overhang loaded", thick: 1, e: e, slip: 2, beam: on(50, beam.Loads{Spread: []beam.Spread{spread(40, 50, 4)}}, 0, 40)},
		{name: "slotted continuous shelf", thick: 1, e: e, slip: 2, beam: on(80, beam.Loads{Spread: []beam.Spread{spread(0, 40, 3)}}, 0, 40, 80),
			kept: []beam.Slot{{Centre: 40, Width: 2, EI: .4}}},
		{name: "three bays with two slots, outer two loaded", thick: 1, e: e, slip: 2,
			beam: on(96, beam.Loads{Spread: []beam.Spread{spread(0, 32, 2), spread(64, 96, 2)}}, 0, 32, 64, 96),
			kept: []beam.Slot{{Centre: 32, Width: 1, EI: .5}, {Centre: 64, Width: 1, EI: .5}}},
		{name: "an upright on the bay", thick: 1.5, e: e, slip: 2, beam: on(48, beam.Loads{Spread: []beam.Spread{spread(0, 48, 2)}, Points: []beam.Point{{At: 18, P: 150}}}, 0, 48)},
		{name: "thick and short, soft in shear", thick: 2, e: e, slip: 16, off: .01, beam: on(20, beam.Loads{Spread: []beam.Spread{spread(0, 20, 40)}}, 0, 20)},
		shelfAsChecked(),
	}
}

// shelfAsChecked is the layout that structure.sag makes of a job: a shelf lapped with an
// upright in its middle, under the loading that its coefficient stands for.
func shelfAsChecked() *plate {
	b := &build{}
	j := b.job(in("A", of(part("E", check.Side, 70, 12, .75, "MDF"), 2), part("S", check.Shelf, 80, 12, 1, "MDF"), part("U", check.Upright, 70, 12, 1, "MDF"))...)
	jt := depths(joint("J", "S", "U", check.CrossLap), 5, 7)
	jt.Width, jt.At, jt.Centres, jt.Count = check.Exact(1), []check.Value{check.Exact(40)}, true, check.Exact(1)
	b.join(j, jt)
	s := frameOf(j).shelf(j.Parts[2])
	p := &plate{name: "layout of structure.sag", thick: 1, e: 1e6, slip: 2,
		beam: on(80, beam.Loads{Spread: []beam.Spread{spread(0, 40, 3)}}, s.span.likely.supports...)}
	for _, c := range s.span.likely.cuts {
		p.kept = append(p.kept, beam.Slot{Centre: c.at, Width: c.soft, EI: c.kept})
	}
	return p
}

// build gives the beam the stiffness of the plate, a slot as a share of it.
func (p *plate) build(t *testing.T) {
	ei, ga := p.e*math.Pow(p.thick, 3)/12, 5./6*p.e/p.slip*p.thick
	var slots []beam.Slot
	for _, s := range p.kept {
		slots = append(slots, beam.Slot{Centre: s.Centre, Width: s.Width, EI: ei * s.EI, GA: ga * s.EI})
	}
	pieces, err := beam.Slotted(p.beam.Length, ei, ga, slots)
	if err != nil {
		t.Fatal(err)
	}
	p.beam.Pieces = pieces
}

type fields struct{ sag, reaction map[int]float64 } // by the column of the middle row

func (p *plate) columns() int { return int(math.Round(p.beam.Length/grid)) * 2 }

// column is the column of nodes at a place; corners of elements have even ones.
func column(x float64) int { return 2 * int(math.Round(x/grid)) }

const rows = 4 // two elements through the thickness: nodes in rows 0 to 4, the middle is 2

func node(column, row int) int { return column*(rows+1) + row + 1 }

// engine finds the finite-element engine, or skips.
func engine(t *testing.T) string {
	t.Helper()
	ccx, err := exec.LookPath("ccx")
	if err != nil {
		if os.Getenv("DRYFIT_REQUIRE_EXTERNAL") == "1" {
			t.Fatal("the finite-element engine ccx is not installed (apt: calculix-ccx), and DRYFIT_REQUIRE_EXTERNAL=1 demands it")
		}
		t.Skip("the finite-element engine ccx is not installed (apt: calculix-ccx)")
	}
	return ccx
}

// solveDeck runs the engine and returns what it prints of nodes.
func solveDeck(t *testing.T, ccx string, deck []byte) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "shelf.inp"), deck, 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(ccx, "shelf")
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("ccx: %v\n%s", err, out)
	}
	data, err := os.ReadFile(filepath.Join(dir, "shelf.dat"))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// deck writes the frame in the input language of the engine.
func (p *plate) deck() []byte {
	var b bytes.Buffer
	fmt.Fprintln(&b, "*NODE")
	for c := 0; c <= p.columns(); c++ {
		for r := 0; r <= rows; r++ {
			if c%2 == 1 && r%2 == 1 {
				continue // eight-node elements have no node in their middle
			}
			fmt.Fprintf(&b, "%d,%.9g,%.9g\n", node(c, r), float64(c)*grid/2, p.thick*float64(r)/rows)
		}
	}
	id := 0
	sets := map[string][]int{}
	tops := map[int]int{} // element at the top, by its left column
	fmt.Fprintln(&b, "*ELEMENT, TYPE=CPS8")
	for c := 0; c < p.columns(); c += 2 {
		for r := 0; r < rows; r += 2 {
			id++
			fmt.Fprintf(&b, "%d,%d,%d,%d,%d,%d,%d,%d,%d\n", id, node(c, r), node(c+2, r), node(c+2, r+2), node(c, r+2),
				node(c+1, r), node(c+2, r+1), node(c+1, r+2), node(c, r+1))
			sets[p.setAt(float64(c+1)*grid/2)] = append(sets[p.setAt(float64(c+1)*grid/2)], id)
			tops[c] = id
		}
	}
	for i := -1; i < len(p.kept); i++ {
		name, share := "FULL", 1.
		if i >= 0 {
			name, share = fmt.Sprintf("SLOT%d", i), p.kept[i].EI
		}
		writeSet(&b, "ELSET", name, sets[name])
		e, g := p.e*share, p.e*share/p.slip
		fmt.Fprintf(&b, "*MATERIAL, NAME=M%s\n*ELASTIC, TYPE=ENGINEERING CONSTANTS\n%g,%g,%g,0.,0.,0.,%g,%g,\n%g,294.\n*SOLID SECTION, ELSET=%s, MATERIAL=M%s\n1.\n", name, e, e, e, g, g, g, name, name)
	}
	p.boundary(&b)
	fmt.Fprintln(&b, "*STEP\n*STATIC")
	p.loads(&b, tops)
	fmt.Fprintln(&b, "*NODE PRINT, NSET=MIDDLE\nU\n*NODE PRINT, NSET=HELD\nRF\n*END STEP")
	return b.Bytes()
}

func (p *plate) setAt(x float64) string {
	for i, s := range p.kept {
		if math.Abs(x-s.Centre) < s.Width/2 {
			return fmt.Sprintf("SLOT%d", i)
		}
	}
	return "FULL"
}

func writeSet(b *bytes.Buffer, kind, name string, ids []int) {
	fmt.Fprintf(b, "*%s, %s=%s\n", kind, kind, name)
	for _, id := range ids {
		fmt.Fprintf(b, "%d,\n", id)
	}
}

func (p *plate) boundary(b *bytes.Buffer) {
	var middle, held []int
	for c := 0; c <= p.columns(); c++ {
		middle = append(middle, node(c, rows/2))
	}
	for _, s := range p.beam.Supports {
		held = append(held, node(column(s.At), rows/2))
	}
	writeSet(b, "NSET", "MIDDLE", middle)
	writeSet(b, "NSET", "HELD", held)
	fmt.Fprintf(b, "*BOUNDARY\nHELD,2,2\n%d,1,1\n", held[0])
}

// loads presses on the top faces; what stands in one place presses on a node of the middle.
func (p *plate) loads(b *bytes.Buffer, tops map[int]int) {
	fmt.Fprintln(b, "*DLOAD")
	for c := 0; c < p.columns(); c += 2 {
		x, w := float64(c+1)*grid/2, 0.
		for _, s := range p.beam.Spread {
			if s.From < x && x < s.To {
				w += s.W
			}
		}
		if w != 0 {
			fmt.Fprintf(b, "%d,P3,%.9g\n", tops[c], w)
		}
	}
	if len(p.beam.Points) > 0 {
		fmt.Fprintln(b, "*CLOAD")
	}
	for _, l := range p.beam.Points {
		fmt.Fprintf(b, "%d,2,%.9g\n", node(column(l.At), rows/2), -l.P)
	}
}

func (p *plate) read(t *testing.T, data string) fields {
	t.Helper()
	f := fields{map[int]float64{}, map[int]float64{}}
	into := f.sag
	for line := range strings.Lines(data) {
		if strings.Contains(line, "forces") {
			into = f.reaction
		}
		words := strings.Fields(line)
		id, err := strconv.Atoi(firstWord(words))
		if err != nil || len(words) < 3 {
			continue
		}
		v, err := strconv.ParseFloat(words[2], 64)
		if err != nil {
			t.Fatalf("ccx wrote %q", line)
		}
		into[(id-1)/(rows+1)] = v
	}
	if len(f.sag) != p.columns()+1 || len(f.reaction) != len(p.beam.Supports) {
		t.Fatalf("ccx gave %d sags and %d reactions, want %d and %d:\n%.2000s", len(f.sag), len(f.reaction), p.columns()+1, len(p.beam.Supports), data)
	}
	return f
}

func firstWord(words []string) string {
	if len(words) == 0 {
		return ""
	}
	return words[0]
}

func (p *plate) compare(t *testing.T, ours *beam.Result, theirs fields) {
	t.Helper()
	largest, load := 0., 0.
	for _, v := range theirs.sag {
		largest = math.Max(largest, math.Abs(v))
	}
	worst, off := 0., p.off
	if off == 0 {
		off = sagOff
	}
	for c, v := range theirs.sag {
		worst = math.Max(worst, math.Abs(ours.Sag(float64(c)*grid/2)+v))
	}
	if largest == 0 || worst > off*largest {
		t.Errorf("sag differs by %.4g of %.4g at most", worst, largest)
	}
	for _, s := range p.beam.Spread {
		load += s.W * (s.To - s.From)
	}
	for _, l := range p.beam.Points {
		load += l.P
	}
	for i, s := range p.beam.Supports {
		if got := theirs.reaction[column(s.At)]; math.Abs(got-ours.Reactions[i]) > reactionOff*load {
			t.Errorf("reaction at %v: %v, ccx %v", s.At, ours.Reactions[i], got)
		}
	}
}
