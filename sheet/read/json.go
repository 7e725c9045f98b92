package read

import (
	"encoding/json"
	"fmt"
	"io"
	"math"

	"dryfit/check"
)

type jsonReport struct {
	Schema int        `json:"schema"`
	Books  []jsonBook `json:"books"`
}

type jsonBook struct {
	Path string    `json:"path"`
	Tabs []jsonTab `json:"tabs"`
}

type jsonTab struct {
	Name   string       `json:"name"`
	Kind   string       `json:"kind"`
	Header string       `json:"header,omitempty"`
	Unit   string       `json:"unit,omitempty"`
	Why    string       `json:"why,omitempty"`
	Rows   []jsonRow    `json:"rows"`
	Unread []jsonUnread `json:"unread"`
	Notes  []string     `json:"notes,omitempty"`
}

type jsonRow struct {
	Cell        string   `json:"cell"`
	Mark        string   `json:"mark,omitempty"`
	Description string   `json:"description,omitempty"`
	Role        string   `json:"role,omitempty"`
	Case        string   `json:"case,omitempty"`
	Room        string   `json:"room,omitempty"`
	Qty         *float64 `json:"qty,omitempty"`
	Length      *float64 `json:"length,omitempty"`
	Width       *float64 `json:"width,omitempty"`
	Thickness   *float64 `json:"thickness,omitempty"`
	CutLength   *float64 `json:"cutLength,omitempty"`
	CutWidth    *float64 `json:"cutWidth,omitempty"`
	Unit        string   `json:"unit"`
	Size        string   `json:"size"`
	Material    string   `json:"material,omitempty"`
	Layers      *float64 `json:"layers,omitempty"`
	Edges       string   `json:"edges,omitempty"`
	Finish      string   `json:"finish,omitempty"`
	Grain       string   `json:"grain,omitempty"`
	Note        string   `json:"note,omitempty"`
	Of          string   `json:"of,omitempty"`
	Doubts      []string `json:"doubts,omitempty"`
}

type jsonUnread struct {
	Cell string `json:"cell"`
	Text string `json:"text"`
	Why  string `json:"why"`
}

// JSON writes how workbooks were understood, for machines. Sizes are numbers in the unit of
// their row; what a row does not say is absent.
func JSON(w io.Writer, books []*Book) error {
	out := jsonReport{Schema: 1, Books: []jsonBook{}}
	for _, b := range books {
		jb := jsonBook{Path: b.Path, Tabs: []jsonTab{}}
		for _, t := range b.Tabs {
			jb.Tabs = append(jb.Tabs, t.json())
		}
		out.Books = append(out.Books, jb)
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	return e.Encode(out)
}

func (t *Tab) json() jsonTab {
	jt := jsonTab{Name: t.Name, Kind: t.Kind, Header: t.Header, Unit: t.Unit.String(), Why: t.Why, Notes: t.Notes,
		Rows: []jsonRow{}, Unread: []jsonUnread{}}
	if t.Kind == "ignored" {
		jt.Unit = ""
	}
	for p := range t.Parts() {
		if p.Role != check.NotAPart {
			jt.Rows = append(jt.Rows, rowOf(p))
			continue
		}
		jt.Unread = append(jt.Unread, jsonUnread{p.Row.String(), p.Name(), "hardware, labour or the like: not a part"})
	}
	for _, list := range [][]check.Unread{t.Unread, t.Aside} {
		for _, u := range list {
			jt.Unread = append(jt.Unread, jsonUnread{u.Cell.String(), u.Text, u.Why})
		}
	}
	return jt
}

func rowOf(p *check.Part) jsonRow {
	r := jsonRow{
		Cell: p.Row.String(), Mark: p.Mark.Text, Description: p.Description.Text, Role: string(p.Role),
		Case: p.Case.Text, Room: p.Room.Text, Qty: number(p.Qty), Length: number(p.Length), Width: number(p.Width),
		Thickness: number(p.Thickness), CutLength: number(p.CutLength), CutWidth: number(p.CutWidth), Unit: p.Unit.String(),
		Size: string(p.Size), Material: p.Material.Text, Edges: p.Edges.Text, Finish: p.Finish.Text, Grain: p.Grain.Text,
		Note: p.Note.Text, Of: p.Of, Layers: layerCount(p),
	}
	if r.Case == "" {
		r.Case = p.Room.Text
	}
	if p.Size == check.FinishedSize && !p.CutLength.Known && !p.CutWidth.Known {
		r.CutLength, r.CutWidth = nil, nil
	}
	for _, d := range p.Doubts {
		r.Doubts = append(r.Doubts, fmt.Sprintf("%s, %s: %s can be %s; %s", d.Field, d.Cell.Addr, check.Typed(d.Text), join(d.Readings, " or "), d.Why))
	}
	return r
}

func join(list []string, sep string) string {
	s := ""
	for i, t := range list {
		if i > 0 {
			s += sep
		}
		s += t
	}
	return s
}

// number is the nominal of a value without the dust of a conversion, nil if it is missing.
func number(v check.Value) *float64 {
	if !v.Known {
		return nil
	}
	x := math.Round(v.Nominal*1e9) / 1e9
	return &x
}

func layerCount(p *check.Part) *float64 {
	n := 0.
	for _, l := range p.Layers {
		if !l.Strip && l.Count.Known {
			n += l.Count.Nominal
		}
	}
	if n == 0 {
		return nil
	}
	return &n
}
