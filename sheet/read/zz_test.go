package read
import "testing"
func TestZZ(t *testing.T) {
	for _, s := range []string{"niche 70 3/4 x 90 x 11 +/-", "R.O. 48 1/2 x 84 x 16"} {
	tab := tabOf(t, s)
	g := tab.grid
	t.Log(len(g.Rows), g.Rows[0].Cells[0].Text(), scoreSite(g, nil), tab.Kind, tab.Why)
	p := &Tab{}
	u := readSite(g, p, nil)
	t.Log(u, p.Openings, p.Unread)
	}
}
