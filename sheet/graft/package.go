package graft

import (
	"path"
	"strconv"
	"strings"

	"dryfit/sheet/graft/splice"
)

const (
	contentTypes = "[Content_Types].xml"

	nsMain    = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	nsRels    = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	nsPackage = "http://schemas.openxmlformats.org/package/2006/relationships"
	nsContent = "http://schemas.openxmlformats.org/package/2006/content-types"

	strictMain = "http://purl.oclc.org/ooxml/spreadsheetml/main"
	strictRels = "http://purl.oclc.org/ooxml/officeDocument/relationships"

	typeSheet  = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"
	typeStyles = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"
	typeRels   = "application/vnd.openxmlformats-package.relationships+xml"
)

// key is by what a part is found: names are equal whatever their case (ECMA-376 Part 2,
// 6.2.2.3), and some writers put a backslash or a leading slash.
func key(name string) string {
	return strings.ToLower(strings.TrimPrefix(strings.ReplaceAll(name, `\`, "/"), "/"))
}

// relsName is the part that holds the relationships of a part.
func relsName(part string) string {
	dir, base := path.Split(part)
	return dir + "_rels/" + base + ".rels"
}

// relation is one relationship with its target as a part name.
type relation struct {
	id, kind, target string
	external         bool
	elem             splice.Elem
}

// short is the last word of the type: "worksheet", "image", the same in strict packages.
func (r relation) short() string { return r.kind[strings.LastIndexByte(r.kind, '/')+1:] }

func readRels(t *splice.Tree, part string) []relation {
	var list []relation
	for e := range t.Root().Named("Relationship") {
		r := relation{elem: e}
		r.id, _ = e.Attr("Id")
		r.kind, _ = e.Attr("Type")
		r.target, _ = e.Attr("Target")
		mode, _ := e.Attr("TargetMode")
		r.external = mode == "External"
		if !r.external {
			r.target = resolve(part, r.target)
		}
		list = append(list, r)
	}
	return list
}

// resolve makes a part name of a target as written in the relationships of a part.
func resolve(part, target string) string {
	target = strings.ReplaceAll(target, `\`, "/")
	target, _, _ = strings.Cut(target, "#")
	if !strings.HasPrefix(target, "/") {
		target = path.Join("/", path.Dir(part), target)
	}
	return strings.TrimPrefix(path.Clean(target), "/")
}

// relativeTo is the target to write in the relationships of the part from.
func relativeTo(from, target string) string {
	dir := strings.Split(path.Dir(from), "/")
	if path.Dir(from) == "." {
		dir = nil
	}
	to := strings.Split(target, "/")
	n := 0
	for n < len(dir) && n < len(to)-1 && dir[n] == to[n] {
		n++
	}
	return strings.Repeat("../", len(dir)-n) + strings.Join(to[n:], "/")
}

// contentList is a content types part.
type contentList struct {
	tree     *splice.Tree
	defaults map[string]string      // extension in lower case to type
	override map[string]splice.Elem // part key to element
}

func readContent(t *splice.Tree) *contentList {
	c := &contentList{tree: t, defaults: map[string]string{}, override: map[string]splice.Elem{}}
	for e := range t.Root().Named("Default") {
		ext, _ := e.Attr("Extension")
		c.defaults[strings.ToLower(ext)], _ = e.Attr("ContentType")
	}
	for e := range t.Root().Named("Override") {
		name, _ := e.Attr("PartName")
		c.override[key(name)] = e
	}
	return c
}

func (c *contentList) declares(name string) bool { return c.override[key(name)].Ok() }

// of is the content type of a part.
func (c *contentList) of(name string) string {
	if e := c.override[key(name)]; e.Ok() {
		t, _ := e.Attr("ContentType")
		return t
	}
	return c.defaults[extension(name)]
}

func extension(name string) string {
	return strings.ToLower(strings.TrimPrefix(path.Ext(name), "."))
}

func number(s string, otherwise int) int {
	n, err := strconv.Atoi(strings.TrimSpace(s))
	if err != nil {
		return otherwise
	}
	return n
}

func truth(s string) bool { return s == "1" || s == "true" }
