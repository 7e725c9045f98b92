package structure

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"dryfit/check"
)

// Whatever a schedule leaves out or gets wrong, every check ends in a verdict and every step in a
// number: a path is worked out while a workbook is written, where nothing catches a panic.
func TestMessyJobsEndInNumbers(t *testing.T) {
	roles := []check.Role{check.Shelf, check.Adjustable, check.Seat, check.Upright, check.Divider, check.Side, check.Cleat, check.Ledger, check.Base, check.Deck, check.Front, check.Unknown}
	kinds := []check.JointKind{check.CrossLap, check.NotchedLap, check.Dado, check.Rabbet, check.CleatJoint, check.Butt, check.Notch, ""}
	fasteners := []string{"", "glue", "4 pins", "laid on", "into studs", "dowels"}
	rapid.Check(t, func(t *rapid.T) {
		size := func(what string) check.Value {
			x := rapid.SampledFrom([]float64{-1, 0, .75, 1.5, 12, 30, 60}).Draw(t, what)
			if x < 0 {
				return check.Value{}
			}
			return check.Exact(x)
		}
		var parts []*check.Part
		n := rapid.IntRange(1, 7).Draw(t, "parts")
		for i := range n {
			p := part(fmt.Sprintf("P%d", rapid.IntRange(0, n).Draw(t, "mark")), rapid.SampledFrom(roles).Draw(t, "role"), 1, 1, 1,
				rapid.SampledFrom([]string{"MDF", "", "cheese", "white oak"}).Draw(t, "material"))
			for _, v := range []*check.Value{&p.Length, &p.Width, &p.Thickness, &p.X, &p.Y, &p.Qty} {
				*v = size(fmt.Sprintf("size of part %d", i))
			}
			parts = append(parts, in(rapid.SampledFrom([]string{"A", "B", ""}).Draw(t, "case"), p)...)
		}
		j := inches(parts...)
		names := []string{"P0", "P1", "P2", "shelf", "upright", "studs", "wall", "nothing", ""}
		for i := range rapid.IntRange(0, 5).Draw(t, "joints") {
			jt := joint(fmt.Sprintf("J%d", i), rapid.SampledFrom(names).Draw(t, "into"), rapid.SampledFrom(names).Draw(t, "enters"), rapid.SampledFrom(kinds).Draw(t, "kind"))
			for _, v := range []*check.Value{&jt.Width, &jt.DepthIn, &jt.DepthOf, &jt.Side, &jt.Front, &jt.Count} {
				*v = size("size of joint")
			}
			jt.At = []check.Value{size("place"), size("place")}
			jt.Fastener.Text = rapid.SampledFrom(fasteners).Draw(t, "fastener")
			if rapid.Bool().Draw(t, "screwed") {
				jt.Screws = &check.Screws{Count: size("screws"), Gauge: rapid.SampledFrom([]string{"#8", "4.5", "#99", ""}).Draw(t, "gauge"), Length: size("screw")}
			}
			joined(j, jt)
		}
		if rapid.Bool().Draw(t, "loaded") {
			carrying(j, "", rapid.SampledFrom([]string{"books", "anvils"}).Draw(t, "kind"), rapid.SampledFrom([]check.LoadPer{check.ByKind, check.PerLength, check.InAll, check.Persons}).Draw(t, "per"), 3)
		}
		defer j.Keep()()
		for _, c := range room {
			for _, row := range c.Rows(j) {
				c.Judge(j, row).Solve()
			}
		}
		for _, s := range Paths(j) {
			for what, x := range map[string]float64{"force": s.Force, "likely": s.Likely, "capacity": s.Capacity, "use": s.Use} {
				if math.IsNaN(x) || math.IsInf(x, 0) || x < 0 && what != "likely" {
					t.Fatalf("%s of %s is %v: %+v", what, s, x, s)
				}
			}
			if !s.Known() && s.Why == "" {
				t.Fatalf("nobody says why the use of %s is not known: %+v", s, s)
			}
		}
	})
}
