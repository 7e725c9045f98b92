package splice

import (
	"bytes"
	"cmp"
	"slices"
)

// Edits collects changes to one Tree. Offsets are those of the unchanged text, so that the
// order of the calls matters only between insertions at one place.
type Edits struct {
	t    *Tree
	list []edit
}

type edit struct {
	at, cut int
	put     string
}

// Edit starts an empty collection.
func (t *Tree) Edit() *Edits { return &Edits{t: t} }

// Any reports whether something was asked for.
func (d *Edits) Any() bool { return len(d.list) > 0 }

// Remove cuts an element out.
func (d *Edits) Remove(e Elem) { d.list = append(d.list, edit{e.Start(), e.End() - e.Start(), ""}) }

// After inserts text behind an element.
func (d *Edits) After(e Elem, text string) { d.list = append(d.list, edit{e.End(), 0, text}) }

// Append inserts text as the last content of an element, opening a self-closed one.
// Text appended to one element by several calls stands in the order of the calls.
func (d *Edits) Append(e Elem, text string) {
	n := e.node()
	if !n.selfClosed {
		d.list = append(d.list, edit{int(n.closeStart), 0, text})
		return
	}
	slash := int(n.openEnd) - 2
	for i := range d.list {
		if d.list[i].at == slash && d.list[i].cut == 2 {
			tail := "</" + string(e.tag()) + ">"
			d.list[i].put = d.list[i].put[:len(d.list[i].put)-len(tail)] + text + tail
			return
		}
	}
	d.list = append(d.list, edit{slash, 2, ">" + text + "</" + string(e.tag()) + ">"})
}

// Prepend inserts text as the first content of an element that is not self-closed, and
// appends it to one that is.
func (d *Edits) Prepend(e Elem, text string) {
	if e.node().selfClosed {
		d.Append(e, text)
		return
	}
	d.list = append(d.list, edit{int(e.node().openEnd), 0, text})
}

// SetAttr changes the value of an attribute without prefix that the element has.
func (d *Edits) SetAttr(e Elem, name, value string) {
	if a := e.find(name); a != nil {
		d.list = append(d.list, edit{int(a.val0), int(a.val1 - a.val0), Escape(value)})
	}
}

// Apply returns the changed text; the tree's own text stays as it is.
func (d *Edits) Apply() []byte {
	list := slices.Clone(d.list)
	slices.SortStableFunc(list, func(a, b edit) int { return cmp.Compare(a.at, b.at) })
	var out bytes.Buffer
	at := 0
	for _, e := range list {
		if e.at < at {
			continue // inside text that is cut already
		}
		out.Write(d.t.Text[at:e.at])
		out.WriteString(e.put)
		at = e.at + e.cut
	}
	out.Write(d.t.Text[at:])
	return out.Bytes()
}
