package standards

import (
	"strings"

	"dryfit/check/standard"
)

// finishes reads the finish list: each code becomes a word, and a film of its own where one
// is typed.
func (sh *sheet) finishes() int {
	n := 0
	for r := sh.head + 1; r < len(sh.rows); r++ {
		if sh.blank(r) || sh.repeated(r, "code") {
			continue
		}
		code, means := sh.cell(r, "code"), sh.cell(r, "words")
		if code == "" {
			sh.problem(r, "code", "the code wanted, as it stands on the schedules")
			continue
		}
		typed := sh.cell(r, "our low") != "" || sh.cell(r, "our value") != "" || sh.cell(r, "our high") != ""
		if means != "" {
			if _, known, near := standard.BuiltIn().Finish(means); !known {
				sh.problem(r, "words", "a finish wanted that is known, such as paint, clear 2, primer 2 + top 2, prefinished, none%s", orNear(near))
				if !typed {
					continue
				}
			} else {
				sh.out.Words = append(sh.out.Words, standard.Word{Kind: "finish", Text: code, Means: means, From: sh.from(r, "code")})
			}
		} else if !typed {
			sh.problem(r, "words", "the coats in words wanted, or the film")
			continue
		}
		if typed {
			sh.film(r, code)
		}
		sh.share(r, code, "cheeks", "cheek share", map[string]float64{"masked": 0})
		sh.share(r, code, "faces", "faces", map[string]float64{"both": 2, "one": 1, "none": 0})
		n++
	}
	return n
}

func orNear(near []string) string {
	if len(near) == 0 {
		return ""
	}
	return "; perhaps " + strings.Join(near, " or ")
}

// film reads the film of a code, in mil.
func (sh *sheet) film(r int, code string) {
	base, _ := standard.BuiltIn().Find("finish", "paint", "film")
	unit, ok := sh.unit(r, base, true)
	if !ok {
		return
	}
	e, ok := sh.span(r, base, unit)
	if !ok {
		return
	}
	if why := unreasonable(e, standard.Entry{Low: 0, Nominal: base.Nominal, High: 12, Unit: base.Unit}); why != "" {
		sh.problem(r, "our value", "%s", why)
		return
	}
	e.Item, e.From, e.Known, e.Source = code, sh.from(r, "our value"), standard.KnownShop, sh.whose+" standards"
	sh.out.Entries = append(sh.out.Entries, e)
}

// share reads a word that stands for a number of a finish.
func (sh *sheet) share(r int, code, id, property string, words map[string]float64) {
	text := plain(sh.cell(r, id))
	if text == "" || text == "coated" && id == "cheeks" { // coated: what is built in holds
		return
	}
	x, ok := words[text]
	if !ok {
		sh.problem(r, id, "one of the list wanted: %s", strings.Join(finishTable.choices[id], ", "))
		return
	}
	sh.out.Entries = append(sh.out.Entries, standard.Entry{Group: "finish", Item: code, Property: property, Low: x, Nominal: x, High: x,
		Unit: "1", Source: sh.whose + " standards", Known: standard.KnownShop, From: sh.from(r, id)})
}
