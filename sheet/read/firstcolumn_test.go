package read

import (
	"strings"
	"testing"

	"dryfit/check"
)

// The first column is what stands in it: short codes of their own are marks, counts are counts,
// names are names, whatever word is over it.
func TestFirstColumnByWhatStandsInIt(t *testing.T) {
	body := []string{"Side | 84 | 12 | 3/4 | MDF", "Top | 26 1/2 | 12 | 3/4 | MDF", "Shelf | 26 1/2 | 11 | 3/4 | MDF"}
	for _, c := range []struct {
		heads, firsts string // with and without a column Qty behind it
		want          string
	}{
		{"Pc;Pc.;Pcs;Tag;Id;Item;Pos;Nr.;Bez.;Rep.;Réf;Kürzel;Ozn.;Märke;Merk;Sigla;Letter;Detal;Whatever", "L1 | 2;H1 | 1;S1 | 3", "L1 2;H1 1;S1 3"},
		{"Pc;Pcs", "101 | 2;102 | 1;104 | 3", "101 2;102 1;104 3"},
		{"Pc;Pcs;Pcs.;Stk.;Nb;Cant.;Pz.;Szt.;Aant.;Antal", "2;1;3", " 2; 1; 3"},
	} {
		firsts := strings.Split(c.firsts, ";")
		for _, head := range strings.Split(c.heads, ";") {
			if strings.Contains(c.firsts, "|") {
				head += " | Qty"
			}
			text := "== tab Parts\n" + head + " | Description | L | W | T | Material\n"
			for i, row := range body {
				text += firsts[i] + " | " + row + "\n"
			}
			var got []string
			for p := range openText(t, "a.xlsx", text).Tabs[0].Parts() {
				got = append(got, p.Mark.Text+" "+num(p.Qty))
				if p.Role == check.Unknown || p.Material.Text != "MDF" {
					t.Errorf("%s: %+v has lost its role or material", head, p)
				}
			}
			if g := strings.Join(got, ";"); g != c.want {
				t.Errorf("%s: got %q, want %q", head, g, c.want)
			}
		}
	}
}
