package graft

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dryfit/sheet/graft/splice"
)

// afterSheets are the children of the workbook that come before definedNames (ECMA-376
// Part 1, 18.2.27, the sequence of CT_Workbook).
var afterSheets = []string{"sheets", "functionGroups", "externalReferences"}

// editBook lists the new tabs in the workbook part and puts the names of our tabs in.
func (g *grafting) editBook() {
	g.book = g.host.book.Edit()
	root := g.host.book.Root()
	list := root.Child("sheets")
	ns := g.host.nsRels()
	for _, s := range g.slots {
		if s.old != nil {
			continue
		}
		prefix, ok := list.PrefixFor(ns)
		declare := ""
		if !ok {
			prefix, declare = "r:", ` xmlns:r="`+ns+`"`
		}
		g.book.Append(list, fmt.Sprintf(`<%ssheet%s name="%s" sheetId="%d" %sid="%s"/>`,
			list.Prefix(), declare, splice.Escape(s.name), s.sheetID, prefix, splice.Escape(s.relID)))
	}
	g.editNames(root)
	g.chain = g.host.chain.without(g.sheetIDs())
}

func (g *grafting) sheetIDs() map[int]bool {
	ids := map[int]bool{}
	for _, s := range g.slots {
		ids[s.sheetID] = true
	}
	return ids
}

// editNames replaces the names that we give our tabs; other names scoped to them were made
// by the user and stay. Where all stand unchanged nothing is edited.
func (g *grafting) editNames(root splice.Elem) {
	names := root.Child("definedNames")
	prefix := root.Prefix()
	if names.Ok() {
		prefix = names.Prefix()
	}
	want := g.definedNames(prefix)
	mine := map[string]bool{} // scope and name of what we write
	for _, s := range g.slots {
		for _, n := range append([]string{Mark}, builtIn...) {
			mine[scoped(s.index, n)] = true
		}
		for _, d := range s.tab.Names {
			mine[scoped(s.index, d.Name)] = true
		}
	}
	var old []splice.Elem
	have := ""
	for d := range names.Named("definedName") {
		name, _ := d.Attr("name")
		scope, ok := d.Attr("localSheetId")
		if ok && mine[scoped(number(scope, -1), name)] {
			old = append(old, d)
			have += string(d.Outer())
		}
	}
	if have == want {
		return
	}
	for _, d := range old {
		g.book.Remove(d)
	}
	if names.Ok() {
		g.book.Append(names, want)
		return
	}
	before := root.Child("sheets")
	for c := range root.Children() {
		if c.Space() == root.Space() && slices.Contains(afterSheets, c.Name()) {
			before = c
		}
	}
	g.book.After(before, "<"+prefix+"definedNames>"+want+"</"+prefix+"definedNames>")
}

// builtIn are the names by which a spreadsheet program keeps print settings and filters of a
// tab; one left over from an older form of the tab would speak of cells that moved.
var builtIn = []string{"_xlnm.Print_Titles", "_xlnm.Print_Area", "_xlnm._FilterDatabase"}

func scoped(index int, name string) string {
	return strconv.Itoa(index) + "!" + strings.ToLower(name)
}

func (g *grafting) definedNames(prefix string) string {
	var b strings.Builder
	for _, s := range g.slots {
		fmt.Fprintf(&b, `<%sdefinedName name="%s" localSheetId="%d" hidden="1">%s</%[1]sdefinedName>`,
			prefix, Mark, s.index, splice.Escape(quote(s.name)))
		for _, d := range s.tab.Names {
			hidden := ""
			if d.Hidden {
				hidden = ` hidden="1"`
			}
			fmt.Fprintf(&b, `<%sdefinedName name="%s" localSheetId="%d"%s>%s</%[1]sdefinedName>`,
				prefix, splice.Escape(d.Name), s.index, hidden, splice.Escape(d.RefersTo))
		}
	}
	return b.String()
}
