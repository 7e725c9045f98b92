package graft

import (
	"strconv"
	"strings"

	"dryfit/sheet/graft/splice"
)

const typeTable = "application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml"

// tables are the numbers and names that tables of the user's have; both must be unique in a
// workbook (ECMA-376 Part 1, 18.5.1.2), and names also differ from those of cells.
type tables struct {
	maxID int
	names map[string]bool // in lower case
}

func (g *grafting) readTables() (*tables, error) {
	t := &tables{names: map[string]bool{}}
	for k, f := range g.host.parts {
		if g.dropped[k] || g.host.content.of(f.Name) != typeTable {
			continue
		}
		tree, err := g.host.tree(f.Name)
		if err != nil {
			return nil, err
		}
		t.maxID = max(t.maxID, attrNumber(tree.Root(), "id"))
		for _, attr := range []string{"name", "displayName"} {
			name, _ := tree.Root().Attr(attr)
			t.names[strings.ToLower(name)] = true
		}
	}
	for d := range g.host.book.Root().Child("definedNames").Named("definedName") {
		name, _ := d.Attr("name")
		t.names[strings.ToLower(name)] = true
	}
	return t, nil
}

// table gives a table of ours a number of its own in the host, and its formats theirs.
func (g *grafting) table(from string) ([]byte, error) {
	if g.tables == nil {
		var err error
		if g.tables, err = g.readTables(); err != nil {
			return nil, err
		}
	}
	tree, err := g.tabs.tree(from)
	if err != nil {
		return nil, err
	}
	root := tree.Root()
	name, _ := root.Attr("displayName")
	if g.tables.names[strings.ToLower(name)] {
		return nil, refuse("it has a table or a name %q already; rename that", name)
	}
	g.tables.names[strings.ToLower(name)] = true
	g.tables.maxID++
	edits := tree.Edit()
	edits.SetAttr(root, "id", strconv.Itoa(g.tables.maxID))
	if err := g.tableFormats(edits, root); err != nil {
		return nil, err
	}
	return edits.Apply(), nil
}

func (g *grafting) tableFormats(edits *splice.Edits, e splice.Elem) error {
	for a := range e.Attrs() {
		if !strings.HasSuffix(strings.ToLower(a.Name), "dxfid") {
			continue
		}
		id, err := g.styles.conditional(number(a.Value, -1))
		if err != nil {
			return err
		}
		edits.SetAttr(e, a.Name, strconv.Itoa(id))
	}
	for c := range e.Children() {
		if err := g.tableFormats(edits, c); err != nil {
			return err
		}
	}
	return nil
}
