package catalogue

import (
	"testing"

	"dryfit/check"
)

func TestEveryCheckIsSound(t *testing.T) {
	if err := check.Validate(All); err != nil {
		t.Error(err)
	}
}
