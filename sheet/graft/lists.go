package graft

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/sheet/graft/splice"
)

// editRels adds the relationships of the new tabs, and of a styles part where there was none.
func (g *grafting) editRels() {
	g.bookRels = g.host.relsTree.Edit()
	root := g.host.relsTree.Root()
	add := func(id, kind, part string) {
		g.bookRels.Append(root, fmt.Sprintf(`<%sRelationship Id="%s" Type="%s/%s" Target="%s"/>`,
			root.Prefix(), id, g.host.nsRels(), kind, splice.Escape(relativeTo(g.host.bookName, part))))
	}
	ids := g.host.relIDs()
	for _, s := range g.slots {
		ids[strings.ToLower(s.relID)] = true
		if s.old == nil {
			add(s.relID, "worksheet", s.part)
		}
	}
	if !g.styles.old && !g.styles.related {
		add(freeID(ids), "styles", g.styles.name)
	}
	if !g.chain.drop {
		return
	}
	g.dropped[key(g.host.chain.name)] = true
	for _, r := range g.host.rels {
		if r.short() == "calcChain" {
			g.bookRels.Remove(r.elem)
		}
	}
}

// editContent declares the types of the new parts and forgets those of dropped ones.
func (g *grafting) editContent() {
	c := g.host.content
	g.content = c.tree.Edit()
	root := c.tree.Root()
	kept := map[string]bool{}
	defaults := map[string]string{}
	needs := append(slices.Clone(g.types), partType{"x.rels", typeRels})
	for _, p := range needs {
		k := key(p.name)
		kept[k] = true
		ext := extension(p.name)
		have, declared := c.defaults[ext]
		if t, added := defaults[ext]; !declared && added {
			have, declared = t, true
		}
		if e := c.override[k]; e.Ok() {
			if t, _ := e.Attr("ContentType"); t != p.contentType {
				g.content.SetAttr(e, "ContentType", p.contentType)
			}
			continue
		}
		switch {
		case declared && have == p.contentType:
		case !declared && ext != "xml":
			defaults[ext] = p.contentType
			g.content.Prepend(root, fmt.Sprintf(`<%sDefault Extension="%s" ContentType="%s"/>`,
				root.Prefix(), splice.Escape(ext), p.contentType))
		default:
			g.content.Append(root, fmt.Sprintf(`<%sOverride PartName="/%s" ContentType="%s"/>`,
				root.Prefix(), splice.Escape(p.name), p.contentType))
		}
	}
	for k := range g.dropped {
		if e := c.override[k]; e.Ok() && !kept[k] {
			g.content.Remove(e)
		}
	}
}
