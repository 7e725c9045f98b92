package read

import (
	"strings"

	"dryfit/check"
)

// fromName takes out of the words of a part what no column says: material, finish, how many.
func (rr *rowReader) fromName(p *check.Part) {
	name := p.Description
	if name.Text == "" {
		rr.takeStock(p)
		return
	}
	if p.Material.Text == "" && endsInDitto(name.Text) && rr.last != nil {
		p.Material = check.Text{Text: rr.last.Material.Text, From: name.From}
		if p.Finish.Text == "" {
			p.Finish = check.Text{Text: rr.last.Finish.Text, From: name.From}
		}
	}
	if p.Material.Text == "" && rr.find(fMatl) == nil {
		if m := rr.names.material(rr.withoutSize(name)); m != "" {
			p.Material = check.Text{Text: m, From: name.From}
		}
	}
	if p.Finish.Text == "" && rr.find(fFinish) == nil {
		if f := rr.names.finish(name.Text); f != "" {
			p.Finish = check.Text{Text: f, From: name.From}
		}
	}
	rr.takeStock(p)
	if !p.Qty.Known && rr.find(fQty) == nil && rr.find(fQtyAll) == nil && rr.find(fQtyPer) == nil && rr.find(fInCase) == nil {
		rr.countInName(p)
	}
}

func (rr *rowReader) countInName(p *check.Part) {
	if n, ok := countAheadOf(p.Description.Text); ok && rr.lines {
		p.Qty = check.Exact(float64(n)).At(p.Description.From)
		return
	}
	if n, ok := rr.names.count(p.Description.Text, rr.withoutSize(p.Description)); ok {
		p.Qty = check.Exact(float64(n)).At(p.Description.From)
	}
}

// withoutSize is the words of a part less the size among them.
func (rr *rowReader) withoutSize(t check.Text) string {
	c := rr.cellAt(t.From)
	if c == nil {
		return t.Text
	}
	if s, ok := rr.names.size(c, rr.unit); ok && len(s.Axes) > 1 {
		return s.Rest(t.Text)
	}
	return t.Text
}

func (rr *rowReader) cellAt(at check.Cell) *Cell {
	row, col, ok := rr.g.locate(at.Addr)
	if !ok {
		return nil
	}
	return rr.g.At(row, col)
}

// edges reads the edges of a part: one column of codes, or one column for each edge.
func (rr *rowReader) edges(p *check.Part, b *body) {
	p.Edges = rr.textOf(b, fEdges)
	if p.Edges.Text == "" {
		var each []string
		for _, col := range rr.cols {
			if col.field != fEdge {
				continue
			}
			c, _ := rr.seen(b, col)
			if c == nil || none(check.Text{Text: c.Text()}).Text == "" || c.Text() == "0" {
				continue
			}
			if p.Edges.From.Addr == "" {
				p.Edges.From = rr.g.Place(b.row.N, col.col)
			}
			code := c.Text()
			if isTick(code) {
				each = append(each, col.head.edge)
			} else {
				each = append(each, col.head.edge+" "+code)
			}
			p.Banded = append(p.Banded, rr.band(col.head.edge, code, p)...)
		}
		p.Edges.Text = strings.Join(each, ", ")
	} else {
		p.Banded = rr.readEdges(p)
	}
	if c, col := rr.cell(b, fStrip); c != nil {
		if m, ok, why := rr.measureOf(c, col, "the thickness of the edge strip"); ok {
			v, _ := rr.value(m, p.Unit, "strip thickness")
			for i := range p.Banded {
				if !p.Banded[i].Thickness.Known {
					p.Banded[i].Thickness = v
				}
			}
		} else if !m.absent {
			rr.cannot(c, "strip thickness", p.Mark.Text, why)
		}
	}
	if strings.Trim(p.Edges.Text, "-–— ") == "" || p.Edges.Text == "0" {
		p.Banded = nil
	}
}

func isTick(code string) bool {
	switch strings.ToLower(strings.TrimSpace(code)) {
	case "x", "y", "yes", "1", "✓", "✔", "●", "•", "ja", "oui", "si", "sí", "tak", "j", "o", "true", "*":
		return true
	}
	return false
}
