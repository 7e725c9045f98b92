package graft

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

const (
	bookPart = "xl/workbook.xml"
	bookRels = "xl/_rels/workbook.xml.rels"
)

func grafted(t testing.TB, host []byte, tabs Tabs) []byte {
	t.Helper()
	out, err := Graft(host, tabs)
	must(t, err)
	must(t, Verify(host, out))
	return out
}

func tabNames(t testing.TB, data []byte) []string {
	t.Helper()
	h, err := openHost(data)
	must(t, err)
	var names []string
	for _, s := range h.sheets {
		names = append(names, s.name)
	}
	return names
}

func ours(t testing.TB, data []byte) []string {
	t.Helper()
	names, err := Ours(data)
	must(t, err)
	return names
}

// swap replaces text in one part, which must hold it.
func swap(t testing.TB, old, new string) func(string) string {
	return func(s string) string {
		t.Helper()
		if !strings.Contains(s, old) {
			t.Fatalf("no %q in %q", old, s)
		}
		return strings.Replace(s, old, new, 1)
	}
}

func edit(t testing.TB, data []byte, part, old, new string) []byte {
	t.Helper()
	return repack(t, data, map[string]func(string) string{part: swap(t, old, new)})
}

// TestRerun replaces tabs in place: names, numbers, ids and part names hold.
func TestRerun(t *testing.T) {
	host := officeBook(t)
	first := grafted(t, host, sampleTabs(t))
	if diff := cmp.Diff([]string{"Parts", "Site notes", "dryfit", "dryfit rows"}, tabNames(t, first)); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(sampleNames, ours(t, first)); diff != "" {
		t.Error(diff)
	}
	second := grafted(t, first, notedTabs(t, "another note"))
	a, b := unpackAll(t, first), unpackAll(t, second)
	for name, text := range a {
		same := b[name] == text
		if isNote := strings.HasPrefix(name, "xl/comments") && strings.Contains(text, "<t xml:space=\"preserve\">a note"); same == isNote {
			t.Errorf("part %s: same %v", name, same)
		}
	}
	if len(a) != len(b) {
		t.Errorf("%d parts became %d", len(a), len(b))
	}
	if back := grafted(t, second, sampleTabs(t)); !bytes.Equal(back, first) {
		t.Error("the first tabs again give other bytes")
	}
}

// TestFewerParts drops what only the old tabs referred to.
func TestFewerParts(t *testing.T) {
	host := officeBook(t)
	first := grafted(t, host, sampleTabs(t))
	second := grafted(t, first, plainTabs(sampleNames...))
	user, now := unpackAll(t, host), unpackAll(t, second)
	var more []string
	for name := range now {
		if _, ok := user[name]; !ok {
			more = append(more, name)
		}
	}
	slices.Sort(more)
	if diff := cmp.Diff([]string{"xl/worksheets/sheet3.xml", "xl/worksheets/sheet4.xml"}, more); diff != "" {
		t.Error(diff)
	}
	if strings.Count(now[bookPart], `localSheetId="2"`) != 1 {
		t.Errorf("print settings and filters of the old tab are left: %s", now[bookPart])
	}
	for _, name := range []string{"comments2", "vmlDrawing2", "drawing3"} {
		if strings.Contains(now[contentTypes], name) {
			t.Errorf("the content types still speak of %s", name)
		}
	}
}

// TestSharedPicture keeps a picture that a tab of the user's shows too, as a program that
// stores equal pictures once leaves it.
func TestSharedPicture(t *testing.T) {
	out := grafted(t, officeBook(t), sampleTabs(t))
	parts := unpackAll(t, out)
	const userRels = "xl/drawings/_rels/drawing1.xml.rels"
	if !strings.Contains(parts[userRels], "media/image1.png") || parts["xl/media/image2.png"] == "" {
		t.Fatalf("the picture of the user's is not where this test expects it: %s", parts[userRels])
	}
	shared := edit(t, out, userRels, "media/image1.png", "media/image2.png")
	if unpackAll(t, grafted(t, shared, plainTabs("dryfit")))["xl/media/image2.png"] == "" {
		t.Error("the picture is gone")
	}
}

// TestWhoseTab knows ours by a mark that agrees with the name.
func TestWhoseTab(t *testing.T) {
	tabs := sampleTabs(t)
	out := grafted(t, handmade(t, shape{base: "xl/"}), tabs)
	t.Run("renamed by the user", func(t *testing.T) {
		mine := edit(t, out, bookPart, `name="dryfit" sheetId`, `name="kept" sheetId`)
		if diff := cmp.Diff([]string{"dryfit rows"}, ours(t, mine)); diff != "" {
			t.Error(diff)
		}
		again := grafted(t, mine, tabs)
		if diff := cmp.Diff([]string{"Parts", "Site", "kept", "dryfit rows", "dryfit"}, tabNames(t, again)); diff != "" {
			t.Error(diff)
		}
		if a, b := unpackAll(t, mine), unpackAll(t, again); a["xl/worksheets/sheet3.xml"] != b["xl/worksheets/sheet3.xml"] {
			t.Error("the tab that the user renamed changed")
		}
	})
	t.Run("deleted by the user", func(t *testing.T) {
		parts := unpackAll(t, out)
		from := strings.Index(parts[bookPart], `<sheet name="dryfit rows"`)
		to := from + strings.Index(parts[bookPart][from:], "/>") + 2
		gone := edit(t, out, bookPart, parts[bookPart][from:to], "")
		if diff := cmp.Diff(sampleNames, ours(t, grafted(t, gone, tabs))); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("moved by the user", func(t *testing.T) {
		parts := unpackAll(t, out)
		book := parts[bookPart]
		from := strings.Index(book, `<sheet name="dryfit"`)
		to := from + strings.Index(book[from:], "/>") + 2
		entry := book[from:to]
		book = strings.Replace(book, entry, "", 1)
		book = strings.Replace(book, "<sheets>", "<sheets>"+entry, 1)
		book = strings.ReplaceAll(book, `localSheetId="2"`, `localSheetId="0"`)
		moved := repack(t, out, map[string]func(string) string{bookPart: func(string) string { return book }})
		again := grafted(t, moved, tabs)
		if diff := cmp.Diff([]string{"dryfit", "Parts", "Site", "dryfit rows"}, tabNames(t, again)); diff != "" {
			t.Error(diff)
		}
		if unpackAll(t, again)[bookPart] != book {
			t.Error("the workbook part changed")
		}
	})
	t.Run("mark lost", func(t *testing.T) {
		lost := repack(t, out, map[string]func(string) string{bookPart: func(s string) string { return strings.ReplaceAll(s, Mark, "_other") }})
		var no *Refusal
		if _, err := Graft(lost, tabs); !errors.As(err, &no) || !strings.Contains(no.Reason, `"dryfit"`) {
			t.Errorf("got %v, want a refusal that names the tab", err)
		}
	})
	t.Run("a name the user gave a place on our tab", func(t *testing.T) {
		const mine = `<definedName name="my_cell" localSheetId="2">dryfit!$A$9</definedName>`
		named := edit(t, out, bookPart, "<definedNames>", "<definedNames>"+mine)
		if !strings.Contains(unpackAll(t, grafted(t, named, tabs))[bookPart], mine) {
			t.Error("the name is gone")
		}
	})
	t.Run("names in another order", func(t *testing.T) {
		const mine = `<definedName name="zone">Parts!$A$1</definedName>`
		behind := edit(t, out, bookPart, "</definedNames>", mine+"</definedNames>")
		if unpackAll(t, grafted(t, behind, tabs))[bookPart] != unpackAll(t, behind)[bookPart] {
			t.Error("the workbook part changed")
		}
	})
	t.Run("hidden by the user", func(t *testing.T) {
		hidden := edit(t, out, bookPart, `name="dryfit" sheetId`, `name="dryfit" state="hidden" sheetId`)
		if !strings.Contains(unpackAll(t, grafted(t, hidden, tabs))[bookPart], `name="dryfit" state="hidden"`) {
			t.Error("the tab is shown again")
		}
	})
}

// TestActiveTab leaves the active tab and the selection to the user.
func TestActiveTab(t *testing.T) {
	tabs := sampleTabs(t)
	out := grafted(t, handmade(t, shape{base: "xl/"}), tabs)
	for name, text := range unpackAll(t, out) {
		selected := strings.Contains(text, `tabSelected="`)
		if want := name == "xl/worksheets/sheet2.xml"; strings.HasPrefix(name, "xl/worksheets/sheet") && selected != want {
			t.Errorf("%s: selected %v", name, selected)
		}
	}
	left := repack(t, out, map[string]func(string) string{
		bookPart:                   swap(t, `activeTab="1"`, `activeTab="3"`),
		"xl/worksheets/sheet2.xml": swap(t, ` tabSelected="1"`, ""),
		"xl/worksheets/sheet4.xml": swap(t, "<sheetView ", `<sheetView tabSelected="1" `),
	})
	again := grafted(t, left, tabs)
	parts := unpackAll(t, again)
	if !strings.Contains(parts["xl/worksheets/sheet4.xml"], `tabSelected="1"`) || !strings.Contains(parts[bookPart], `activeTab="3"`) {
		t.Error("the user left the workbook on our second tab; now another is active")
	}
	if strings.Contains(parts["xl/worksheets/sheet3.xml"], "tabSelected") {
		t.Error("two tabs are selected")
	}
}

const chainRel = `<Relationship Id="rId8" Type="` + nsRels + `/calcChain" Target="calcChain.xml"/>`

func chained(cells string) shape {
	return shape{base: "xl/", extraRels: chainRel,
		extraContent: `<Override PartName="/xl/calcChain.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.calcChain+xml"/>`,
		extraParts:   []entryText{{name: "xl/calcChain.xml", text: `<calcChain xmlns="` + nsMain + `">` + cells + `</calcChain>`}}}
}

// TestChain takes out what a program put in for our cells, and nothing else. An entry without
// i is on the tab of the entry before (ECMA-376 Part 1, 18.6.1).
func TestChain(t *testing.T) {
	tabs := sampleTabs(t)
	const user = `<c r="B1" i="1"/><c r="B1" i="7"/>`
	host := handmade(t, chained(user))
	out := grafted(t, host, tabs)
	if unpackAll(t, out)["xl/calcChain.xml"] != unpackAll(t, host)["xl/calcChain.xml"] {
		t.Error("the chain of the user's changed")
	}
	tests := []struct{ name, chain, want string }{
		{"ours between", `<c r="B1" i="1"/><c r="C2" i="8"/><c r="C3"/><c r="B1" i="7"/><c r="C4" i="9"/>`, user},
		{"ours first", `<c r="C2" i="9"/><c r="C3" l="1"/><c r="B1" i="1"/><c r="B1" i="7"/>`, user},
		{"user's go on without i", `<c r="B1" i="1"/><c r="B2"/><c r="C2" i="8"/>`, `<c r="B1" i="1"/><c r="B2"/>`},
		{"none of ours", user, user},
	}
	for _, test := range tests {
		saved := repack(t, out, map[string]func(string) string{"xl/calcChain.xml": swap(t, user, test.chain)})
		got := unpackAll(t, grafted(t, saved, tabs))["xl/calcChain.xml"]
		if want := `<calcChain xmlns="` + nsMain + `">` + test.want + `</calcChain>`; got != want {
			t.Errorf("%s: %s, want %s", test.name, got, want)
		}
	}
	saved := repack(t, out, map[string]func(string) string{"xl/calcChain.xml": swap(t, user, `<c r="C2" i="8"/><c r="C3"/>`)})
	parts := unpackAll(t, grafted(t, saved, tabs))
	if _, ok := parts["xl/calcChain.xml"]; ok || strings.Contains(parts[contentTypes]+parts[bookRels], "calcChain") {
		t.Error("a chain with nothing but ours is still there")
	}
}

// TestLeftoverChain gives our tabs numbers that the chain does not use for a tab long gone.
func TestLeftoverChain(t *testing.T) {
	out := grafted(t, handmade(t, chained(`<c r="B1" i="1"/><c r="Q1" i="12"/>`)), sampleTabs(t))
	if book := unpackAll(t, out)[bookPart]; !strings.Contains(book, `name="dryfit" sheetId="13"`) {
		t.Errorf("numbers in use: %s", book)
	}
}

// TestPrefix takes over the prefixes of the host and declares one where there is none.
func TestPrefix(t *testing.T) {
	tests := []struct {
		name  string
		shape shape
		want  []string
	}{
		{"x", shape{base: "xl/", x: "x:"}, []string{`<x:sheet name="dryfit" sheetId="8" r:id="rId4"/>`, `<x:definedName name="_dryfit_tab" localSheetId="2" hidden="1">&quot;dryfit&quot;</x:definedName>`}},
		{"q for relationships", shape{base: "xl/", r: "q:"}, []string{`<sheet name="dryfit" sheetId="8" q:id="rId4"/>`}},
		{"declared on each tab", shape{base: "xl/", lateRels: true}, []string{`<sheet xmlns:r="` + nsRels + `" name="dryfit" sheetId="8" r:id="rId4"/>`}},
	}
	for _, test := range tests {
		book := unpackAll(t, grafted(t, handmade(t, test.shape), sampleTabs(t)))[bookPart]
		for _, want := range test.want {
			if !strings.Contains(book, want) {
				t.Errorf("%s: no %s in %s", test.name, want, book)
			}
		}
	}
}

// TestMacroBook keeps the type of a workbook with macros and its project.
func TestMacroBook(t *testing.T) {
	const kind = "application/vnd.ms-excel.sheet.macroEnabled.main+xml"
	host := repack(t, handmade(t, shape{base: "xl/"}), map[string]func(string) string{
		contentTypes:        swap(t, "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml", kind),
		"xl/vbaProject.bin": func(string) string { return "\xcc\x61" + strings.Repeat("macro", 50) },
	})
	parts := unpackAll(t, grafted(t, host, sampleTabs(t)))
	if !strings.Contains(parts[contentTypes], kind) || !strings.HasPrefix(parts["xl/vbaProject.bin"], "\xcc\x61macro") {
		t.Error("the workbook lost its macros")
	}
}

// TestTooManyFormats refuses a styles part that is full.
func TestTooManyFormats(t *testing.T) {
	xfs := strings.Repeat(`<xf numFmtId="0" fontId="0" fillId="0" borderId="0"/>`, maxFormats)
	host := repack(t, handmade(t, shape{base: "xl/"}), map[string]func(string) string{
		"xl/styles.xml": swap(t, `<xf numFmtId="14"`, xfs+`<xf numFmtId="14"`)})
	var no *Refusal
	if _, err := Graft(host, sampleTabs(t)); !errors.As(err, &no) || !strings.Contains(no.Reason, "cell formats") {
		t.Errorf("got %v, want a refusal", err)
	}
}

// TestRefuses tabs that could not be placed.
func TestRefuses(t *testing.T) {
	host := handmade(t, shape{base: "xl/"})
	broken := plainTabs("dryfit")
	broken[0].Write = func(io.Writer, *Place) error { return errors.New("no ink") }
	badFormat := plainTabs("dryfit")
	badFormat[0].Write = func(_ io.Writer, in *Place) error { in.Format(Format{Font: "<font>"}); return nil }
	for name, tabs := range map[string]Tabs{"no tab": nil, "two of a name": plainTabs("dryfit", "Dryfit"),
		"a tab that fails": broken, "a format that is no XML": badFormat} {
		if _, err := Graft(host, tabs); err == nil {
			t.Errorf("%s: passes", name)
		}
	}
}

// TestPanicWhileWriting ends the run, and no part of it waits for ever.
func TestPanicWhileWriting(t *testing.T) {
	tabs := plainTabs("dryfit")
	tabs[0].Write = func(io.Writer, *Place) error { panic("a fault of ours") }
	defer func() {
		if recover() == nil {
			t.Error("no panic")
		}
	}()
	_, err := Graft(handmade(t, shape{base: "xl/"}), tabs)
	must(t, err)
}

// TestNew makes a workbook of tabs alone that can be read, and grafted into again.
func TestNew(t *testing.T) {
	data, err := New(sampleTabs(t))
	must(t, err)
	must(t, readBack(data))
	if diff := cmp.Diff(sampleNames, ours(t, data)); diff != "" {
		t.Error(diff)
	}
	if again := grafted(t, data, sampleTabs(t)); !bytes.Equal(again, data) {
		t.Error("the same tabs grafted into it change it")
	}
	parts := unpackAll(t, data)
	if !strings.Contains(parts["xl/worksheets/sheet1.xml"], `tabSelected="1"`) || strings.Contains(parts["xl/worksheets/sheet2.xml"], `tabSelected`) {
		t.Error("the first tab is not the one in front")
	}
}

// TestVerifyNotices every kind of harm.
func TestVerifyNotices(t *testing.T) {
	host := officeBook(t)
	out := grafted(t, host, sampleTabs(t))
	const chart = "xl/charts/chart1.xml"
	drop := func(string) string { return "" }
	tests := []struct {
		name string
		harm map[string]func(string) string
	}{
		{"a cell of the user's", map[string]func(string) string{"xl/worksheets/sheet1.xml": swap(t, "28.5", "28.6")}},
		{"a part gone", map[string]func(string) string{chart: drop}},
		{"a tab of the user's renamed", map[string]func(string) string{bookPart: swap(t, `"Site notes"`, `"Site"`)}},
		{"a name of the user's gone", map[string]func(string) string{bookPart: swap(t, `name="lengths"`, `name="length"`)}},
		{"a format changed", map[string]func(string) string{"xl/styles.xml": swap(t, `fontId="1"`, `fontId="0"`)}},
		{"a relationship changed", map[string]func(string) string{bookRels: swap(t, "worksheets/sheet2.xml", "worksheets/sheet1.xml")}},
		{"a type gone", map[string]func(string) string{contentTypes: swap(t, `/xl/charts/chart1.xml`, `/xl/charts/chart2.xml`)}},
		{"our tab malformed", map[string]func(string) string{"xl/worksheets/sheet3.xml": swap(t, "</sheetData>", "")}},
		{"a prefix not declared", map[string]func(string) string{"xl/worksheets/sheet3.xml": swap(t, "<sheetData>", "<zz:sheetData/><sheetData>")}},
	}
	for _, test := range tests {
		// Only the harmed part is packed anew, as a faulty graft would leave it.
		harmed := graftParts(t, out, test.harm)
		if err := Verify(host, harmed); err == nil {
			t.Errorf("%s: not noticed", test.name)
		} else {
			t.Logf("%s: %v", test.name, err)
		}
	}
	h, err := openHost(out)
	must(t, err)
	h.zip.File[0], h.zip.File[1] = h.zip.File[1], h.zip.File[0]
	moved, err := h.assemble(h.list(nil, nil, nil))
	must(t, err)
	if Verify(host, moved) == nil {
		t.Error("parts in another order: not noticed")
	}
	if err := Verify(host, out); err != nil {
		t.Error(err)
	}
}

// graftParts changes parts and leaves the bytes of all others.
func graftParts(t testing.TB, data []byte, change map[string]func(string) string) []byte {
	t.Helper()
	h, err := openHost(data)
	must(t, err)
	parts := unpackAll(t, data)
	p := newPacker()
	changed, dropped := map[string]*entry{}, map[string]bool{}
	for name, fn := range change {
		if text := fn(parts[name]); text != "" {
			changed[key(name)] = p.pack(name, h.parts[key(name)], []byte(text))
		} else {
			dropped[key(name)] = true
		}
	}
	must(t, p.wait())
	out, err := h.assemble(h.list(changed, nil, dropped))
	must(t, err)
	return out
}

// TestBytesStay spells out the promise once without Verify: names, order and compressed bytes.
func TestBytesStay(t *testing.T) {
	host := officeBook(t)
	out := grafted(t, host, sampleTabs(t))
	a, err := openHost(host)
	must(t, err)
	b, err := openHost(out)
	must(t, err)
	changed := 0
	for i, f := range a.zip.File {
		g := b.zip.File[i]
		if f.Name != g.Name {
			t.Fatalf("entry %d was %s and is %s", i, f.Name, g.Name)
		}
		at, err := f.DataOffset()
		must(t, err)
		now, err := g.DataOffset()
		must(t, err)
		if !bytes.Equal(host[at:at+int64(f.CompressedSize64)], out[now:now+int64(g.CompressedSize64)]) {
			changed++
			if !slices.Contains([]string{contentTypes, bookPart, bookRels, "xl/styles.xml"}, f.Name) {
				t.Errorf("part %s changed", f.Name)
			}
		}
	}
	if b.zip.Comment != "" || graftedComment(t) != "made by hand" {
		t.Error("the comment of the package changed")
	}
	for _, f := range b.zip.File[len(a.zip.File):] {
		if want := time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC); !f.Modified.Equal(want) {
			t.Errorf("part %s carries a time", f.Name)
		}
	}
	if changed != 4 {
		t.Errorf("%d parts changed, want workbook, its relationships, content types and styles", changed)
	}
}

func graftedComment(t *testing.T) string {
	h, err := openHost(grafted(t, handmade(t, shape{base: "xl/"}), sampleTabs(t)))
	must(t, err)
	return h.zip.Comment
}

// TestPackedByOthers leaves a package alone in which nothing would change, however another
// program packed it.
func TestPackedByOthers(t *testing.T) {
	out := grafted(t, officeBook(t), sampleTabs(t))
	stored := make([]entryText, 0, 40)
	h, err := openHost(out)
	must(t, err)
	for _, f := range h.zip.File {
		text, err := unpack(f)
		must(t, err)
		stored = append(stored, entryText{name: f.Name, text: string(text), stored: true})
	}
	data := pack(t, stored)
	if again := grafted(t, data, sampleTabs(t)); !bytes.Equal(again, data) {
		t.Error("the bytes changed")
	}
}

// TestStrict puts our parts into the namespaces of a strict host. Drawings of notes have no
// strict form.
func TestStrict(t *testing.T) {
	parts := unpackAll(t, grafted(t, handmade(t, shape{base: "xl/", space: strictMain, rels: strictRels}), sampleTabs(t)))
	rels := parts["xl/worksheets/_rels/sheet3.xml.rels"]
	for _, want := range []string{strictRels + "/comments", strictRels + "/drawing", strictRels + "/hyperlink", nsRels + "/vmlDrawing"} {
		if !strings.Contains(rels, `"`+want+`"`) {
			t.Errorf("no %s in %s", want, rels)
		}
	}
	for _, name := range []string{"xl/worksheets/sheet3.xml", "xl/comments1.xml", "xl/drawings/drawing1.xml"} {
		if text := parts[name]; text == "" || strings.Contains(text, `"`+nsMain+`"`) || strings.Contains(text, `"`+nsRels+`"`) || !strings.Contains(text, "purl.oclc.org") {
			t.Errorf("part %s speaks of transitional namespaces", name)
		}
	}
}

func TestRelative(t *testing.T) {
	for _, test := range []struct{ from, to, want string }{
		{"xl/workbook.xml", "xl/worksheets/sheet1.xml", "worksheets/sheet1.xml"},
		{"workbook.xml", "worksheets/sheet1.xml", "worksheets/sheet1.xml"},
		{"xl/worksheets/sheet1.xml", "xl/drawings/drawing1.xml", "../drawings/drawing1.xml"},
		{"worksheets/sheet1.xml", "media/a.png", "../media/a.png"},
		{"xl/a.xml", "xl/b.xml", "b.xml"},
	} {
		got := relativeTo(test.from, test.to)
		if got != test.want || resolve(test.from, got) != test.to {
			t.Errorf("from %s to %s: %s, want %s", test.from, test.to, got, test.want)
		}
	}
}

func TestResolve(t *testing.T) {
	for _, test := range []struct{ target, want string }{
		{"/xl/media/a.png", "xl/media/a.png"},
		{`..\media\a.png`, "xl/media/a.png"},
		{"../media/a.png#top", "xl/media/a.png"},
		{"../../../../media/a.png", "media/a.png"},
	} {
		if got := resolve("xl/worksheets/sheet1.xml", test.target); got != test.want {
			t.Errorf("%s: %s, want %s", test.target, got, test.want)
		}
	}
}

func ExampleRefusal() {
	var err error = refuse("it is digitally signed")
	fmt.Println(err)
	// Output: workbook left as it is: it is digitally signed
}
