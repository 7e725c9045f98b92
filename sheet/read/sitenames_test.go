package read

import (
	"strings"
	"testing"
)

const namedParts = `== tab Parts
Mark | Part | Case | Room | Qty | L | W | T
L1 | Side | Lamp run | Snug | 2 | 60 | 11 | 3/4
M1 | Side | Map press | Hall | 2 | 60 | 11 | 3/4
N1 | Side | W | | 2 | 60 | 11 | 3/4
== tab Site
`

// A row that is nothing but the name of a case or a room of the parts opens an opening of that
// name, whatever its words; a case called W does not take the letter for a width.
func TestOpeningsNamedByTheParts(t *testing.T) {
	for _, c := range []struct{ name, rows, want string }{
		{"a form", "SITE\nLamp run\nW top 61 3/8 | mid 61 1/4 | floor 61 5/16\nH left 88 1/2 | right 88 7/16\nMap press\nW top 40 | mid 40 1/8 | floor 40 1/4\nH left 90 | right 90 1/8",
			"Lamp run; W floor=61.3125 middle=61.25 top=61.375; H left=88.5 right=88.4375\nMap press; W floor=40.25 middle=40.125 top=40; H left=90 right=90.125"},
		{"side by side", "Lamp run | | | Map press\nW | top | 61 | W | top | 40\n| floor | 61 1/4 | | floor | 40 1/4\nH | left | 88 | H | left | 90",
			"Lamp run; W floor=61.25 top=61; H left=88\nMap press; W floor=40.25 top=40; H left=90"},
		{"a list", "Point | Reading | Note\nSnug\nW1 (floor) | 61 |\nW3 (top) | 61 1/4 |\nHall\nW1 (floor) | 40 |\nW3 (top) | 40 1/4 |\nH left | 90 |",
			"Snug; W floor=61 top=61.25\nHall; W floor=40 top=40.25; H left=90"},
		{"its sizes beside it", "Hall | 40 1/4 x 90 x 12\nSnug | 61 x 88",
			"Hall; W =40.25; H =90; D =12; poor\nSnug; W =61; H =88; poor"},
		{"a letter stays a width", "NICHE 4\nW | top | 61 | floor | 61 1/4\nW\ntop | 62\nH | left | 88 | right | 88 1/8",
			"NICHE 4; W floor=61.25 top=61 top=62; H left=88 right=88.125"},
	} {
		fx := parseFixture(t, namedParts+c.rows)
		b, err := Open("job.xlsx", fx.data, nil)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, o := range b.Tabs[1].Openings {
			got = append(got, sayOpening(o))
		}
		if g := strings.Join(got, "\n"); g != c.want {
			t.Errorf("%s (%s; unread %s):\ngot  %s\nwant %s", c.name, b.Tabs[1].Kind, unreadOf(b.Tabs[1]), g, c.want)
		}
	}
}

// "Lamp bay" is a place, "Lamp 14 AFF" is in the way.
func TestAPlaceNamedForALamp(t *testing.T) {
	tab := tabOf(t, "LAMP BAY\nW top 61 3/8 | mid 61 1/4 | floor 61 5/16\nH left 88 1/2 | right 88 7/16\nOutlet 14 AFF, 22 from L")
	if len(tab.Openings) != 1 || tab.Openings[0].Name.Text != "LAMP BAY" || len(tab.Openings[0].Obstacles) != 1 {
		t.Errorf("read as %s; unread %s", sayOpening(tab.Openings[0]), unreadOf(tab))
	}
}
