// Package steady makes property tests draw the same cases at each run. A test imports it for
// its effect; "go test -rapid.seed=0" draws new ones.
package steady

import (
	"flag"

	_ "pgregory.net/rapid" // names the flag first
)

func init() {
	if err := flag.Set("rapid.seed", "1"); err != nil {
		panic(err) // the library no longer has the flag
	}
}
