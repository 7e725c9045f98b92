package inputs

import (
	"dryfit/check"
)

const siteName = "site"

// point is one thing to measure in an opening: its words, which the reader knows, how to write
// the reading in a job in inches and in millimetres, and the kind of size it is, to find its
// turning value by.
type point struct {
	text     string
	part     part
	size     string // width, height, depth, ceiling, diagonal
	inch, mm string
}

// points are what is read in an opening, in walking order: what the room is like, then floor to
// head, left to right, corner to corner.
var points = []point{
	{text: "Floor finish?", part: wanted, inch: "Y if it is in, else N and its thickness: N +3/4", mm: "Y if it is in, else N and its thickness: N +18"},
	{text: "Plastered?", part: wanted, inch: "Y if it is done, else N and its thickness: N +1/2", mm: "Y if it is done, else N and its thickness: N +12"},
	{text: "Ceiling", part: wanted, size: "ceiling", inch: "clear height in front of the opening, where it is lowest", mm: "clear height in front of the opening, where it is lowest"},
	{text: "Baseboard", part: wanted, inch: "height x thickness, or none", mm: "height x thickness, or none"},
	{text: "Crown", part: wanted, inch: "height x thickness, or none", mm: "height x thickness, or none"},
	{text: "Width at floor", part: wanted, size: "width"},
	{text: "Width at middle", part: wanted, size: "width"},
	{text: "Width at top", part: wanted, size: "width"},
	{text: "Height left", part: wanted, size: "height"},
	{text: "Height middle", part: wanted, size: "height"},
	{text: "Height right", part: wanted, size: "height"},
	{text: "Depth left", part: wanted, size: "depth"},
	{text: "Depth right", part: wanted, size: "depth"},
	{text: "Diagonal LB-RT", part: wanted, size: "diagonal", inch: "left at the floor to right at the head", mm: "left at the floor to right at the head"},
	{text: "Diagonal RB-LT", part: wanted, size: "diagonal", inch: "right at the floor to left at the head", mm: "right at the floor to left at the head"},
	{text: "Plumb left", part: wanted, inch: "1/4 out at top in 84. Out: away from the opening", mm: "6 out at top in 2100. Out: away from the opening"},
	{text: "Plumb right", part: wanted, inch: "1/8 in at top in 84. In: into the opening", mm: "3 in at top in 2100. In: into the opening"},
	{text: "Plumb back", part: wanted, inch: "3/16 out at top in 84", mm: "5 out at top in 2100"},
	{text: "Level floor", part: wanted, inch: "3/16 low R in 72: the right end is lower", mm: "5 low R in 1800: the right end is lower"},
	{text: "Level head", part: wanted, inch: "1/8 low L in 72", mm: "3 low L in 1800"},
	{text: "Outlet", part: maybe, inch: "14 AFF, 22 from L", mm: "350 AFF, 560 from L"},
	{text: "Vent", part: maybe, inch: "floor 4x12, 30 from R", mm: "floor 100x300, 760 from R"},
}

// siteTab asks for each opening that nobody measured; nil where all were.
func (s *survey) siteTab() *tab {
	var rows []row
	for _, c := range s.unmeasured() {
		name := openingName(c)
		for i, p := range points {
			by := off
			if i == 0 {
				by = wanted
			}
			rows = append(rows, row{key: name, breaks: i == 0 && len(rows) > 0,
				cells: []cell{{name, told}, {p.text, told}, {"", p.part}, {"", by}, {"", maybe}}})
		}
	}
	if len(rows) == 0 {
		return nil
	}
	return &tab{name: siteName, title: "Site", rows: rows, spare: 4,
		tells: []string{"The opening as measured. The tab with the measure form has the same boxes in the same order, to print.",
			"Sizes as the tape shows them: what finish is still to come is taken off by dryfit. Leave empty what was not read."},
		columns: []column{
			{head: "opening", key: true, width: 24, spare: maybe, note: "As the schedule calls the case that stands in it."},
			{head: "point", width: 18, spare: maybe, note: "What is measured, and where. Leave the words: the reading is known by them."},
			{head: "reading (" + s.unit() + ")", width: 26, spare: maybe, note: "What tape, level or laser show. " +
				s.either("57 1/8, or 1/4 out at top in 84, or Y, or N +3/4. ", "1451, or 6 out at top in 2100, or Y, or N +18. ") + "A word behind it is kept: tight, bow, VIF."},
			{head: "measured by", width: 14, spare: off, note: "Once for each opening. A reading by somebody named is taken as closer."},
			{head: "note", width: 18, spare: maybe, note: "A word such as bow or hump is kept with the reading."},
		}}
}

// openingName is what the tabs call the opening of a case.
func openingName(c check.Case) string {
	if name := named(c); name != "" {
		return name
	}
	return "Opening"
}

// unmeasured are the cases that stand in no opening of the site tab.
func (s *survey) unmeasured() []check.Case {
	var out []check.Case
	all := s.boxes()
	for _, c := range all {
		measured := len(all) == 1 && len(s.Openings) == 1
		for _, o := range s.Openings {
			measured = measured || c.Is(o.Name.Text)
		}
		if !measured {
			out = append(out, c)
		}
	}
	return out
}
