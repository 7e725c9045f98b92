package standards

import (
	"fmt"

	"dryfit/check"
)

// Problem is a cell that makes no sense. What it says is not used.
type Problem struct {
	Path, Tab, Cell string
	Read            string // what stands there
	Want            string // what would make sense
}

func (p Problem) Error() string {
	return fmt.Sprintf("%s, tab %s, %s: read %s; %s", p.Path, p.Tab, p.Cell, check.Typed(p.Read), p.Want)
}
