package graft

import "dryfit/sheet/graft/splice"

// chain is the calculation chain of the host: the cells with formulas, each with the number of
// its tab (ECMA-376 Part 1, 18.6.1). We never add to it: a program rebuilds what is missing.
// But a program that saved our tabs put their cells in, and an entry whose cell has no formula
// any more makes the workbook look damaged.
type chain struct {
	name  string
	tree  *splice.Tree
	maxID int
}

// chainChange is what becomes of the chain.
type chainChange struct {
	text []byte // new text, nil for no change
	drop bool   // nothing of the user's is left in it
}

func (h *host) readChain() error {
	r, ok := h.relation("calcChain")
	if !ok || h.parts[key(r.target)] == nil {
		return nil
	}
	h.chain.name = r.target
	var err error
	if h.chain.tree, err = h.tree(r.target); err != nil {
		return err
	}
	for _, id := range h.chain.cells {
		h.chain.maxID = max(h.chain.maxID, id)
	}
	return nil
}

// cells yields every entry with the number of its tab; an entry without one is on the tab of
// the entry before.
func (c *chain) cells(yield func(splice.Elem, int) bool) {
	id := 0
	for e := range c.tree.Root().Named("c") {
		if v, ok := e.Attr("i"); ok {
			id = number(v, 0)
		}
		if !yield(e, id) {
			return
		}
	}
}

// without takes the entries of the given tabs out. What is left of the user's keeps its
// meaning: where the tab changes, an entry names it.
func (c *chain) without(tabs map[int]bool) chainChange {
	if c.tree == nil {
		return chainChange{}
	}
	edits := c.tree.Edit()
	left := 0
	for e, id := range c.cells {
		if tabs[id] {
			edits.Remove(e)
		} else {
			left++
		}
	}
	switch {
	case !edits.Any():
		return chainChange{}
	case left == 0:
		return chainChange{drop: true}
	}
	return chainChange{text: edits.Apply()}
}
