package structure

import (
	"strings"

	"dryfit/check"
)

// screw is a wood screw by its gauge.
type screw struct {
	shank, root, yield check.Value
	known              bool
}

// screwOf looks up a gauge: "#8" is No. 8 of the standards; a thread in mm is taken as the
// next lighter number.
func screwOf(j *check.Job, gauge string) screw {
	item := "No. " + strings.TrimPrefix(gauge, "#")
	if !strings.HasPrefix(gauge, "#") {
		item = byThread(gauge)
	}
	s := screw{
		shank: settled(j.Standard("fastener", item, "shank", check.Length)),
		root:  settled(j.Standard("fastener", item, "root", check.Length)),
		yield: settled(j.Standard("fastener", item, "Fyb", check.Pressure)),
	}
	s.known = s.shank.Known && s.root.Known && s.yield.Known
	return s
}

// byThread is the number whose shank is next below a thread in mm: 3.5 mm is No. 6 (3.51),
// 4 and 4.5 are No. 6 and 8 (4.17), 5 is No. 10 (4.83), 6 is No. 12 (5.49).
func byThread(mm string) string {
	switch {
	case mm >= "6":
		return "No. 12"
	case mm >= "5":
		return "No. 10"
	case mm >= "4.5":
		return "No. 8"
	}
	return "No. 6"
}

// screwWoods are the woods of the table of specific gravity for screws, by the materials of
// the standards.
var screwWoods = map[string]string{
	"Douglas fir": "Douglas fir-larch", "hem-fir": "hem-fir", "southern yellow pine": "southern pine", "white pine": "eastern white pine",
	"ponderosa pine": "ponderosa pine", "soft maple": "red maple", "red oak": "northern red oak", "white oak": "white oak",
	"yellow poplar": "yellow poplar", "beech": "beech-birch-hickory", "birch": "beech-birch-hickory", "hickory": "beech-birch-hickory",
	"hard maple": "beech-birch-hickory", "western red cedar": "western cedars", "spruce": "Sitka spruce",
}

// gravity is the specific gravity of a part for its screws. Panels have none in the NDS: they
// are taken as the softest softwood up to what their weight says.
func gravity(j *check.Job, p *check.Part) check.Value {
	s := stuffOf(j, p)
	if !s.known {
		return check.Guess(.36, .42, .5, "material of "+p.Name()+" unknown: as softwood")
	}
	if v := j.Standard("fastener", screwWoods[s.material.Name], "G for screws", check.Ratio); v.Known {
		return v
	}
	if v := j.Standard("material", s.material.Name, "specific gravity", check.Ratio); v.Known {
		return v
	}
	return check.Guess(.36, .45, .55, s.material.Name+" for screws, as wood: house rule")
}

// framingGravity is that of a stud that nobody named.
func framingGravity(j *check.Job) check.Value {
	low := j.Standard("fastener", "spruce-pine-fir (south)", "G for screws", check.Ratio)
	likely := j.Standard("fastener", "spruce-pine-fir", "G for screws", check.Ratio)
	high := j.Standard("fastener", "southern pine", "G for screws", check.Ratio)
	return check.Guess(low.Nominal, likely.Nominal, high.Nominal, "species of the framing unknown")
}
