package standard

import (
	"encoding/csv"
	"slices"
	"strings"
	"testing"
)

// Every spelling of the list reads as the thing it is listed under.
func TestEverySpellingIsRead(t *testing.T) {
	lines, err := csv.NewReader(strings.NewReader(namesCSV)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	b := BuiltIn()
	for _, f := range lines[1:] {
		kind, item := f[0], f[1]
		for spelled := range strings.SplitSeq(f[4], " | ") {
			spelled = strings.TrimPrefix(spelled, "=")
			for _, text := range []string{spelled, strings.ToUpper(spelled), " " + spelled + " "} {
				var got string
				switch kind {
				case "material":
					m, _, _ := b.Material(text)
					got = m.Name
				case "finish":
					f, _, _ := b.Finish(text)
					got = f.Kind
				case "fit":
					w, _ := b.Fit(text, Finish{})
					got = w.Name
				case "load":
					got, _ = b.Load(text)
				}
				if got != item {
					t.Errorf("%s %q reads as %q, want %q", kind, text, got, item)
				}
			}
		}
	}
}

// How offices type materials: common practice.
func TestMaterialsAsTyped(t *testing.T) {
	for _, c := range []struct {
		text, name, family string
		layers             int
		said               string
	}{
		{"3/4 birch ply", "hardwood plywood", "plywood", 0, "3/4 in"},
		{"MDF 19", "MDF", "MDF", 0, "19 mm"},
		{"MDF75", "MDF", "MDF", 0, "3/4 in"},
		{"PLY25", "plywood", "plywood", 0, "1/4 in or 25 mm"},
		{"PLYM75", "plywood", "plywood", 0, "3/4 in"},
		{"LAM3", "made-up panel", "made up", 3, ""},
		{"3 lyr MDF", "MDF", "MDF", 3, ""},
		{"2x3/4 ply", "plywood", "plywood", 2, "3/4 in"},
		{"2 x 19 MDF", "MDF", "MDF", 2, "19 mm"},
		{"3 ply", "made-up panel", "made up", 3, ""},
		{"double 3/4\" MDF", "MDF", "MDF", 2, "3/4 in"},
		{"2-layer 18 mm ply", "plywood", "plywood", 2, "18 mm"},
		{"2x4 studs", "spruce", "softwood", 0, ""},
		{"2X4", "spruce", "softwood", 0, ""},
		{"5/8 mdf", "MDF", "MDF", 0, "5/8 in"},
		{".75 mdf", "MDF", "MDF", 0, "3/4 in"},
		{"MDF 1,9 cm", "MDF", "MDF", 0, "19 mm"},
		{"PB", "particleboard", "particleboard", 0, ""},
		{"1-1/8 particle board", "particleboard", "particleboard", 0, "1-1/8 in"},
		{"1 1/8\" particle board", "particleboard", "particleboard", 0, "1-1/8 in"},
		{"wht oak", "white oak", "hardwood", 0, ""},
		{"white oak ply, rift", "hardwood plywood", "plywood", 0, ""},
		{"fir ply 23/32", "softwood plywood", "plywood", 0, "23/32 in"},
		{"4/4 hard maple FAS", "hard maple", "hardwood", 0, "4/4"},
		{"walnut veneer on MDF", "MDF", "MDF", 0, ""},
		{"plam on PB", "particleboard", "particleboard", 0, ""},
		{"Spanplatte 19 mm, weiß", "particleboard", "particleboard", 0, "19 mm"},
		{"płyta MDF 18", "MDF", "MDF", 0, "18 mm"},
		{"BB 12", "birch plywood", "plywood", 0, "12 mm"},
		{"poplar inlay 3/4 in", "yellow poplar", "hardwood", 0, ""},
		{"#2 pine", "white pine", "softwood", 0, ""},
		{"MDF 17", "MDF", "MDF", 0, ""},
	} {
		m, ok, _ := BuiltIn().Material(c.text)
		var said []string
		for _, s := range m.Said {
			said = append(said, s.Name)
		}
		if got := strings.Join(said, " or "); !ok || m.Name != c.name || m.Family != c.family || m.Layers != c.layers || got != c.said {
			t.Errorf("%q reads as %q of %q, %d layers, said %q; want %+v", c.text, m.Name, m.Family, m.Layers, got, c)
		}
		if m.Solid() && len(m.Sold) > 0 {
			t.Errorf("%q is solid wood and is sold in %d thicknesses", c.text, len(m.Sold))
		}
	}
}

func TestTypedThicknessNobodySellsIsKept(t *testing.T) {
	if m, _, _ := BuiltIn().Material("MDF 17"); m.Typed != "17" || len(m.Said) != 0 {
		t.Errorf("typed %q, said %v", m.Typed, m.Said)
	}
}

func TestUnknownMaterialsNameTheirNeighbours(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{"particelboard", []string{"particleboard"}},
		{"3/4 melamime", []string{"melamine board"}},
		{"MFD", []string{"MDF"}},
		{"walnt", []string{"walnut"}},
		{"partcleboad", []string{"particleboard"}},
		{"unobtainium", nil},
		{"", nil},
		{"3/4", nil},
	} {
		m, ok, near := BuiltIn().Material(c.text)
		if ok || m.Name != "" || !slices.Equal(near, c.want) {
			t.Errorf("%q: %v, %q, near %v, want %v", c.text, ok, m.Name, near, c.want)
		}
	}
}

func TestShopWordsForMaterials(t *testing.T) {
	shop := BuiltIn().With([]Entry{
		{Group: "material", Item: "Okume 5", Property: "density", Low: 25, Nominal: 28, High: 31, Unit: "lb/ft3", Source: "our scale", Known: KnownMeasured},
	}).Speaking([]Word{
		{"material", "LAM3", "3 lyr 5/8 MDF", "shop standards, words!B4"},
		{"material", "Blue board", "particleboard", "shop standards, words!B5"},
		{"material", "BB", "blockboard", "shop standards, words!B6"},
		{"header", "Stk", "quantity", "shop standards, words!B7"},
	})
	for _, c := range []struct {
		text, name string
		layers     int
		said       string
	}{
		{"lam3", "MDF", 3, "5/8 in"},
		{"BLUE  BOARD", "particleboard", 0, ""},
		{"3/4 BB", "blockboard", 0, "3/4 in"},
		{"okume 5", "Okume 5", 0, ""},
	} {
		m, ok, _ := shop.Material(c.text)
		said := ""
		if len(m.Said) > 0 {
			said = m.Said[0].Name
		}
		if !ok || m.Name != c.name || m.Layers != c.layers || said != c.said {
			t.Errorf("%q reads as %q, %d layers, said %q", c.text, m.Name, m.Layers, said)
		}
	}
	if _, _, near := shop.Material("blue baord"); !slices.Contains(near, "Blue board") {
		t.Errorf("near %v", near)
	}
	if means, ok := shop.Word("header", "STK."); !ok || means != "quantity" {
		t.Errorf("Stk means %q", means)
	}
	if _, ok := shop.Word("role", "stk"); ok {
		t.Error("a header word answers as a role")
	}
	again := shop.Speaking([]Word{{"material", "bb", "birch plywood", "job standards, words!B3"}})
	if m, _, _ := again.Material("BB"); m.Name != "birch plywood" || len(again.Words()) != 4 {
		t.Errorf("the job's BB is %q among %d words", m.Name, len(again.Words()))
	}
	if m, _, _ := shop.Material("BB"); m.Name != "blockboard" {
		t.Error("the job's word reached the shop")
	}
}

func TestValuesAreInherited(t *testing.T) {
	b := BuiltIn()
	for _, c := range []struct{ text, group, property, item string }{
		{"red oak", "creep", "final over first", "solid wood"},
		{"red oak", "movement", "tangential", "red oak"},
		{"sapele", "material", "E", "mahogany"},
		{"BB", "creep", "final over first", "plywood"},
		{"melamine", "creep", "final over first", "particleboard"},
		{"melamine", "movement", "in plane", "particleboard"},
		{"HDF", "creep", "final over first", "MDF"},
		{"pecan", "movement", "tangential", "pecan"},
	} {
		m, _, _ := b.Material(c.text)
		if e, ok := b.For(m, c.group, c.property); !ok || e.Item != c.item {
			t.Errorf("%s of %s comes from %q, %v; want %s", c.property, c.text, e.Item, ok, c.item)
		}
	}
	glass, _, _ := b.Material("glass")
	if e, ok := b.For(glass, "movement", "tangential"); ok {
		t.Errorf("glass moves by %v", e)
	}
}

// A measured 0.703 is 23/32 plywood (PS 1-19), 0.75 a name, 18 mm no 3/4 of MDF.
func TestSoldAs(t *testing.T) {
	for _, c := range []struct {
		material string
		stated   float64
		unit     string
		want     string
	}{
		{"MDF", 0.75, "in", "3/4 in"},
		{"MDF", 19, "mm", "19 mm"},
		{"MDF", 18, "mm", "18 mm"},
		{"MDF", 0.757, "in", "3/4 in"},
		{"CDX", 0.703, "in", "23/32 in"},
		{"CDX", 0.75, "in", "3/4 in"},
		{"hardwood plywood", 0.72, "in", "3/4 in"},
		{"MDF", 19.05, "mm", "3/4 in"},
		{"MDF", 0.69, "in", ""},
		{"MDF", 17, "mm", ""},
		{"poplar", 0.75, "in", ""},
	} {
		m, _, _ := BuiltIn().Material(c.material)
		got, ok := m.SoldAs(c.stated, c.unit)
		if got.Name != c.want || ok != (c.want != "") {
			t.Errorf("%g %s of %s is sold as %q, want %q", c.stated, c.unit, c.material, got.Name, c.want)
		}
	}
}

func TestLoadsAsTyped(t *testing.T) {
	for text, want := range map[string]string{
		"books": "books", "LIBRARY": "books", "law books, two deep": "books", "window seat, 2 persons": "seat",
		"Bücher": "books", "bath linen": "linen", "no load": "none", "floor, dwelling": "floor, dwelling", "gold bars": "", "": "",
	} {
		if got, ok := BuiltIn().Load(text); got != want || ok != (want != "") {
			t.Errorf("%q loads %q, want %q", text, got, want)
		}
	}
}

func FuzzNames(f *testing.F) {
	for _, seed := range []string{"3/4 birch ply", "MDF75", "2x3/4", "primer 2 + top 2", "P1", "+1/32", "3 x 18mm \xff", "1-1/0", "LAM99", "9ply", "ß2x¾"} {
		f.Add(seed)
	}
	b := BuiltIn()
	f.Fuzz(func(t *testing.T, text string) {
		m, ok, near := b.Material(text)
		if ok != (m.Name != "") || ok && near != nil || len(near) > 3 || m.Layers < 0 || m.Layers > 9 {
			t.Errorf("%q: %+v %v %v", text, m, ok, near)
		}
		if f, ok, _ := b.Finish(text); ok && (f.Kind == "" || f.Film.Low > f.Film.Nominal || f.Film.Nominal > f.Film.High || f.Film.Low < 0) {
			t.Errorf("%q: %+v", text, f)
		}
		if w, ok := b.Fit(text, Finish{}); ok && !(w.Least <= w.Aim && w.Aim <= w.Most) {
			t.Errorf("%q: %+v", text, w)
		}
		b.Load(text)
	})
}

func BenchmarkMaterial(b *testing.B) {
	t := BuiltIn()
	for b.Loop() {
		t.Material("3/4 birch ply")
	}
}

func BenchmarkUnknownMaterial(b *testing.B) {
	t := BuiltIn()
	for b.Loop() {
		t.Material("particelboard, wht")
	}
}
