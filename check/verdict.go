package check

import "fmt"

// Verdict is one of the four words a row and a check end in. The order is the order of
// urgency.
type Verdict int

const (
	Clear      Verdict = iota // passes over the whole range of its inputs
	NotChecked                // an input is missing or unreadable
	Verify                    // passes only inside a tolerance, or rests on a value nobody measured
	Hold                      // fails: do not cut or ship as scheduled
)

var verdictWords = [...]string{"CLEAR", "NOT CHECKED", "VERIFY", "HOLD"}

func (v Verdict) String() string { return verdictWords[v] }

// MarshalText writes the word.
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// UnmarshalText reads the word.
func (v *Verdict) UnmarshalText(b []byte) error {
	for i, w := range verdictWords {
		if w == string(b) {
			*v = Verdict(i)
			return nil
		}
	}
	return fmt.Errorf("verdict %q is none of %v", b, verdictWords)
}

// Stage is how far a job has come. A check is not asked any more once mending is dear.
type Stage int

const (
	Quoted Stage = iota
	Measured
	BeforeCut // the default: nothing says otherwise
	Released
	Finished
	Shipped
)

var stageWords = [...]string{"quoted", "measured", "before cut", "released", "finished", "shipped"}

func (s Stage) String() string { return stageWords[s] }
