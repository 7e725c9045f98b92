package read

import (
	"dryfit/check"
	"dryfit/sheet/read/phrase"
)

// finish reads "PLASTERED Y", "FLOOR IN N (+3/4 oak)", "+5/8 plaster to come".
func (p *cellParse) finish() int {
	if n := p.plusFinish(); n > 0 {
		return n
	}
	on, n := phrase.SurfaceAt(p.pieces, p.at)
	if n == 0 {
		return 0
	}
	for p.piece(p.at+n).Kind == phrase.Word { // "floor finish"
		more, k := phrase.SurfaceAt(p.pieces, p.at+n)
		if k == 0 || more != on {
			break
		}
		n += k
	}
	if yes, ok := p.answerAt(p.at + n); ok {
		end := p.answerEnd(p.at + n)
		return p.answered(on, yes, end) - p.at
	}
	last := p.at+n == len(p.pieces) || p.at+n+1 == len(p.pieces) && p.piece(p.at+n).Kind == phrase.Mark
	if last && on == "walls" && p.at == 0 || last && p.at == 0 && len(p.pieces) > 1 && p.piece(len(p.pieces)-1).Is("?") {
		p.box.surface = on
		return len(p.pieces) - p.at
	}
	return 0
}

// answered keeps that a finish is on or still to come, with the thickness behind the answer,
// and gives the piece where it ends.
func (p *cellParse) answered(on string, yes bool, end int) int {
	o := p.form.current(p.box, p.cell.From())
	if yes {
		o.Settled = append(o.Settled, on)
		return end
	}
	come := check.ToCome{On: on, Text: p.cell.text()}
	come.Thickness = check.Missing(check.Ask{Cell: p.cell.From(), What: "the thickness of the finish still to come on the " + on + ", such as 3/4"})
	i := end
	for p.piece(i).Is("(") || p.piece(i).Is("+") || p.piece(i).Is(",") || p.piece(i).Is("±") {
		i++
	}
	if i > end && p.piece(i).Kind == phrase.Length {
		if v, ok := p.value(p.pieces[i].Text); ok {
			come.Thickness = v
			end = i + 1
			for end < len(p.pieces) && !p.pieces[end].Wide && p.pieces[end].Kind == phrase.Word {
				end++
			}
			if p.piece(end).Is(")") {
				end++
			}
		}
	}
	o.ToCome = append(o.ToCome, come)
	return end
}

// plusFinish reads a finish with a plus before its thickness: "+3/4 oak floor to come".
func (p *cellParse) plusFinish() int {
	if !p.piece(p.at).Is("+") || p.piece(p.at+1).Kind != phrase.Length {
		return 0
	}
	for i := p.at + 2; i < len(p.pieces) && p.pieces[i].Kind == phrase.Word; i++ {
		on, n := phrase.SurfaceAt(p.pieces, i)
		if n == 0 {
			continue
		}
		v, ok := p.value(p.pieces[p.at+1].Text)
		if !ok {
			return 0
		}
		o := p.form.current(p.box, p.cell.From())
		o.ToCome = append(o.ToCome, check.ToCome{On: on, Thickness: v, Text: p.cell.text()})
		for i += n; i < len(p.pieces) && p.pieces[i].Kind == phrase.Word && !p.pieces[i].Wide; i++ {
		}
		return i - p.at
	}
	return 0
}

// answerAt reads a yes or no at a piece, or behind one "in" or sign.
func (p *cellParse) answerAt(i int) (yes, ok bool) {
	for ; i < len(p.pieces); i++ {
		piece := p.piece(i)
		next := p.piece(i + 1)
		if piece.Word == "in" && next.Kind == phrase.Word {
			if _, more := phrase.Answer(next.Word); more {
				continue
			}
		}
		if piece.Is(":") || piece.Is("=") || piece.Is("?") || piece.Is("-") {
			continue
		}
		if piece.Kind == phrase.Length || piece.Wide && i > p.at+3 {
			return false, false
		}
		return phrase.Answer(piece.Word)
	}
	return false, false
}

// answerEnd gives the piece behind the answer.
func (p *cellParse) answerEnd(i int) int {
	for ; i < len(p.pieces); i++ {
		piece := p.piece(i)
		if piece.Is(":") || piece.Is("=") || piece.Is("?") || piece.Is("-") {
			continue
		}
		if piece.Word == "in" {
			if _, more := phrase.Answer(p.piece(i + 1).Word); more {
				continue
			}
		}
		return i + 1
	}
	return i
}
