package standard

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestEveryBuiltInValueIsWhole(t *testing.T) {
	es := BuiltIn().Entries()
	if lines := strings.Count(strings.TrimSpace(valuesCSV), "\n"); len(es) != lines {
		t.Errorf("%d entries from %d lines: two lines share their three words", len(es), lines)
	}
	for _, e := range es {
		for what, text := range map[string]string{"group": e.Group, "item": e.Item, "property": e.Property, "source": e.Source} {
			if strings.TrimSpace(text) == "" || text != strings.TrimSpace(text) {
				t.Errorf("%v: %s is %q", e.Key(), what, text)
			}
		}
		if !(e.Low <= e.Nominal && e.Nominal <= e.High) || math.IsInf(e.Low, 0) || math.IsInf(e.High, 0) {
			t.Errorf("%v: range %g, %g, %g", e.Key(), e.Low, e.Nominal, e.High)
		}
		if _, ok := Measures(e.Unit); !ok {
			t.Errorf("%v: unit %q", e.Key(), e.Unit)
		}
		if !slices.Contains(Ways, e.Known) || e.Known == KnownShop || e.Known == KnownMeasured {
			t.Errorf("%v: known by %q", e.Key(), e.Known)
		}
		if e.From != "built in" || !e.Guessed() {
			t.Errorf("%v: from %q, guessed %v", e.Key(), e.From, e.Guessed())
		}
	}
}

func TestEntriesStandGroupByGroup(t *testing.T) {
	over := Entry{Group: "film", Item: "shellac", Property: "dry per coat", Unit: "mil", Source: "x", Known: KnownShop}
	for _, table := range []*Table{BuiltIn(), BuiltIn().With([]Entry{over})} {
		seen, last := map[string]bool{}, ""
		for _, e := range table.Entries() {
			if e.Group != last && seen[e.Group] {
				t.Errorf("group %s stands twice", e.Group)
			}
			seen[e.Group], last = true, e.Group
		}
	}
}

// What the checks cannot do without for a named material.
func TestEveryMaterialCanBeWeighedAndMostCanBend(t *testing.T) {
	b := BuiltIn()
	for item, n := range lexicons()["material"].items {
		m, ok, _ := b.Material(item)
		if !ok || m.Name != item {
			t.Errorf("%s reads as %q, %v", item, m.Name, ok)
			continue
		}
		if d, ok := b.Find("material", item, "density"); !ok {
			t.Errorf("%s has no density", item)
		} else if d, err := d.In("lb/ft3"); err != nil || d.Low < 20 || d.High > 160 {
			t.Errorf("%s weighs %g to %g %s, %v", item, d.Low, d.High, d.Unit, err)
		}
		if slices.Contains([]string{"glass", "solid surface", "board", "laminate"}, n.family) {
			continue
		}
		for _, need := range [][2]string{
			{"material", "E"}, {"material", "modulus of rupture"}, {"material", "Fc perpendicular"},
			{"material", "E over G"}, {"creep", "final over first"},
		} {
			if _, ok := b.For(m, need[0], need[1]); !ok {
				t.Errorf("%s has no %s %s", item, need[0], need[1])
			}
		}
	}
}

// A published value beside ours. Where the source prints another unit, the tolerance is
// half of its last figure.
func TestBuiltInValuesAgainstTheirSource(t *testing.T) {
	for _, c := range []struct {
		group, item, property string
		unit                  string
		low, nominal, high    float64 // NaN: the source gives none
		tolerance             float64
		source                string
	}{
		{"material", "ponderosa pine", "E", "MPa", math.NaN(), 8900, math.NaN(), 50, "Wood Handbook FPL-GTR-190 Table 5-3a"},
		{"material", "ponderosa pine", "modulus of rupture", "kPa", math.NaN(), 65000, math.NaN(), 500, "Wood Handbook FPL-GTR-190 Table 5-3a"},
		{"material", "ponderosa pine", "specific gravity", "1", math.NaN(), 0.40, math.NaN(), 0, "Wood Handbook FPL-GTR-190 Table 5-3a"},
		{"material", "ponderosa pine", "compression across grain", "kPa", math.NaN(), 4000, math.NaN(), 50, "Wood Handbook FPL-GTR-190 Table 5-3a"},
		{"material", "ponderosa pine", "compression along grain", "kPa", math.NaN(), 36700, math.NaN(), 50, "Wood Handbook FPL-GTR-190 Table 5-3a"},
		{"material", "MDF", "E", "MPa", 2160 - 25, math.NaN(), math.NaN(), 25, "ANSI A208.2 grade 130, 2160 MPa at least (from memory); 310,000 psi"},
		{"thickness", "softwood plywood", "23/32 in", "in", 0.688, 0.703, 0.750, 0, "PS 1-19 performance category 23/32"},
		{"thickness", "softwood plywood", "3/4 in", "in", 0.719, 0.734, 0.781, 0, "PS 1-19 performance category 3/4"},
		{"thickness", "softwood plywood", "1-1/8 in", "in", 1.069, 1.091, 1.181, 0, "PS 1-19 performance category 1-1/8"},
		{"thickness", "sanded plywood", "3/4 in", "in", 47. / 64, 0.75, 49. / 64, 5e-5, "PS 1-19: sanded, 1/64 either way"},
		{"thickness", "MDF", "3/4 in", "in", 0.740, 0.750, 0.760, 1e-12, "ANSI A208.2: .005 on the panel average and .005 within"},
		{"thickness", "MDF", "19 mm", "mm", 18.8, 19, 19.2, 1e-12, "EN 622-1 (from memory)"},
		{"thickness", "hardwood plywood", "3/4 in", "in", 45. / 64, math.NaN(), 0.75, 5e-5, "HP-1: nothing over, 3/64 under"},
		{"thickness", "hardwood plywood", "18 mm", "mm", 17.06, 18, 18.74, 1e-9, "EN 315: 18 mm +0.7/-0.9 (makers tables)"},
		{"movement", "red oak", "tangential", "1/%", math.NaN(), 0.00369, math.NaN(), 0, "Wood Handbook FPL-GTR-190 Table 13-5"},
		{"movement", "beech", "tangential", "1/%", math.NaN(), 0.00431, math.NaN(), 0, "Wood Handbook FPL-GTR-190 Table 13-5"},
		{"movement", "hard maple", "radial", "1/%", math.NaN(), 0.00165, math.NaN(), 0, "Wood Handbook FPL-GTR-190 Table 13-5"},
		{"movement", "cherry", "radial", "1/%", math.NaN(), 0.00126, math.NaN(), 0, "Wood Handbook FPL-GTR-190 Table 13-5"},
		{"limit", "shelf sag", "span over", "1", 144, 144, 144, 0, "AWS 1st ed. 2009 p. 253, 1.2.21"},
		{"limit", "shelf", "load at most", "lb", 200, 200, 200, 0, "AWS 1st ed. 2009 p. 253, 1.2.21.2"},
		{"limit", "shelf sag, industrial", "span over", "1", 140, 140, 140, 0, "ANSI MH28.1"},
		{"limit", "case out of plumb", "slope", "in/ft", math.NaN(), 0.125 / 8, math.NaN(), 0, "ANSI/AWI 0620-2018 3.1 h: 1/8 in 96"},
		{"site", "wall, warranty", "lean", "in/ft", math.NaN(), 0.375 / 32 * 12, math.NaN(), 5e-5, "NAHB guidelines: 3/8 in 32"},
		{"site", "wall, warranty (Canada)", "lean", "mm/m", math.NaN(), 19 / 2.4, math.NaN(), 5e-5, "Canadian warranty standards 2014: 19 mm in 2400"},
		{"load", "books", "per length", "lb/ft", math.NaN(), 25, math.NaN(), 0, "weighed standard library shelving"},
		{"load", "books", "packed", "kg/m3", math.NaN(), 1041, math.NaN(), 0.5, "IBC: 65 lb/ft3"},
		{"load", "floor, book stacks", "per area", "kPa", math.NaN(), 7.2, math.NaN(), 0.05, "National Building Code of Canada: 7.2 kPa beside 150 psf"},
		{"load", "floor, reading room", "per area", "kPa", math.NaN(), 2.9, math.NaN(), 0.05, "National Building Code of Canada: 2.9 kPa beside 60 psf"},
		{"creep", "MDF", "final over first", "1", math.NaN(), 3.25, math.NaN(), 0, "EN 1995-1-1 Table 3.2: 1 + kdef 2.25"},
		{"duration", "books", "CD", "1", math.NaN(), 0.9, math.NaN(), 0, "NDS 2018 Table 2.3.2, permanent"},
		{"fastener", "No. 8", "root", "in", math.NaN(), 0.131, math.NaN(), 0, "NDS 2018 Appendix L"},
		{"fastener", "No. 10", "Fyb", "psi", math.NaN(), 80000, math.NaN(), 0, "NDS 2018 Table I1"},
		{"fastener", "MDF edge", "pull-out, ultimate", "N", math.NaN(), 875, math.NaN(), 2.3, "ANSI A208.2 grade 130: 875 N (from memory)"},
		{"lumber", "Douglas fir-larch No. 2", "E", "psi", math.NaN(), 1600000, math.NaN(), 0, "NDS Supplement Table 4A"},
		{"door", "room door", "width", "in", 27, 28, 28.5, 0, "fair-housing guide: a leaf loses 2 in"},
	} {
		e, ok := BuiltIn().Find(c.group, c.item, c.property)
		if !ok {
			t.Errorf("no %s, %s, %s", c.group, c.item, c.property)
			continue
		}
		e, err := e.In(c.unit)
		if err != nil {
			t.Error(err)
			continue
		}
		for i, want := range []float64{c.low, c.nominal, c.high} {
			got := []float64{e.Low, e.Nominal, e.High}[i]
			if !math.IsNaN(want) && math.Abs(got-want) > c.tolerance+1e-12*math.Abs(want) {
				t.Errorf("%s: got %g %s, %s says %g", e.Name(), got, c.unit, c.source, want)
			}
		}
	}
}

// NDS Supplement 4.2.4: Emin = 1.03 E (1 - 1.645 COV) / 1.66, COV 0.25 for sawn lumber,
// rounded there to 10,000 psi.
func TestEminFollowsFromE(t *testing.T) {
	n := 0
	for _, e := range BuiltIn().Entries() {
		if e.Group != "lumber" || e.Property != "Emin" {
			continue
		}
		n++
		full, _ := BuiltIn().Find("lumber", e.Item, "E")
		if want := 1.03 * full.Nominal * (1 - 1.645*0.25) / 1.66; math.Abs(e.Nominal-want) > 5001 {
			t.Errorf("%s: Emin %g, want %.0f", e.Item, e.Nominal, want)
		}
	}
	if n == 0 {
		t.Error("no lumber has an Emin")
	}
}

func TestEveryEntryCanBeOverridden(t *testing.T) {
	b := BuiltIn()
	before := b.Entries()
	var over []Entry
	for _, e := range before {
		over = append(over, Entry{
			Group: e.Group, Item: e.Item, Property: e.Property, Unit: e.Unit,
			Low: e.Low - 1, Nominal: e.Nominal + 1, High: e.High + 2,
			Source: "our own reading", Known: KnownShop, From: "shop standards, films!B14",
		})
	}
	shop := b.With(over)
	for i, want := range over {
		if got, ok := shop.Find(want.Group, want.Item, want.Property); !ok || got != want {
			t.Errorf("found %+v, want %+v", got, want)
		}
		if got := shop.Entries()[i]; got != want {
			t.Errorf("entry %d is %+v, want %+v", i, got, want)
		}
	}
	if !slices.Equal(b.Entries(), before) {
		t.Error("the built-in table changed")
	}
	job := shop.With([]Entry{{Group: "crew", Item: "crew", Property: "people", Low: 5, Nominal: 5, High: 5, Unit: "1", Source: "job", Known: KnownShop, From: "job standards, crew!B3"}})
	if e, _ := job.Find("crew", "crew", "people"); e.Nominal != 5 {
		t.Errorf("the job's crew is %g", e.Nominal)
	}
	if e, _ := shop.Find("crew", "crew", "people"); e.Nominal == 5 {
		t.Error("the job's word reached the shop")
	}
}

func TestNewEntryIsFoundAndListed(t *testing.T) {
	e := Entry{Group: "thickness", Item: "MDF", Property: "11/16 in", Low: .68, Nominal: .6875, High: .69, Unit: "in", Source: "our board", Known: KnownShop}
	b := BuiltIn().With([]Entry{e})
	if got, ok := b.Find("thickness", "MDF", "11/16 in"); !ok || got != e {
		t.Errorf("found %+v, %v", got, ok)
	}
	m, _, _ := b.Material("mdf 11/16")
	if len(m.Said) != 1 || m.Said[0].Name != "11/16 in" {
		t.Errorf("said %v", m.Said)
	}
	if _, ok := BuiltIn().Find("thickness", "MDF", "11/16 in"); ok {
		t.Error("it is built in")
	}
}

func TestBadValuesAreNamed(t *testing.T) {
	_, err := parseValues("group,item,property,low,nominal,high,unit,source,known,note\nfilm,lacquer,dry per coat,0.8,thin,1.3,mil,x,read,\n")
	if err == nil || !strings.Contains(err.Error(), "line 2 (lacquer, dry per coat)") || !strings.Contains(err.Error(), "thin") {
		t.Errorf("got %v", err)
	}
}

// The list of groups in the package's words is the list in values.csv.
func TestEveryGroupIsInTheDoc(t *testing.T) {
	doc, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	told, held := map[string]bool{}, map[string]bool{}
	for line := range strings.Lines(string(doc)) {
		if rest, ok := strings.CutPrefix(line, "//\t"); ok && !strings.HasPrefix(rest, " ") {
			told[strings.Fields(rest)[0]] = true
		}
	}
	for _, e := range BuiltIn().Entries() {
		held[e.Group] = true
	}
	if d := cmp.Diff(held, told); d != "" {
		t.Error(d)
	}
}
