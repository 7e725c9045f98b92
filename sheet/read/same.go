package read

import (
	"dryfit/check"
	"dryfit/check/length"
)

// takeFrom fills what a part lacks from the one its row refers to.
func takeFrom(p, of *check.Part) {
	k := length.Convert(1, of.Unit, p.Unit)
	for _, v := range []struct{ to, from *check.Value }{
		{&p.Length, &of.Length}, {&p.Width, &of.Width}, {&p.Thickness, &of.Thickness},
		{&p.CutLength, &of.CutLength}, {&p.CutWidth, &of.CutWidth},
	} {
		if !v.to.Known && v.from.Known {
			*v.to = v.from.Scale(k)
			v.to.Why = "same as " + of.Name()
		}
	}
	for _, t := range []struct{ to, from *check.Text }{
		{&p.Material, &of.Material}, {&p.Edges, &of.Edges}, {&p.Finish, &of.Finish}, {&p.Grain, &of.Grain},
	} {
		if t.to.Text == "" || sameAsMark(t.to.Text) != "" {
			*t.to = *t.from
		}
	}
	if p.Banded == nil {
		p.Banded = of.Banded
	}
	if p.Layers == nil {
		p.Layers = of.Layers
	}
	if p.Role == check.Unknown {
		p.Role = of.Role
	}
	if p.Size == check.UnsaidSize {
		p.Size = of.Size
	}
}
