package main

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"time"

	"dryfit/check"
	"dryfit/sheet/rollup"
	"dryfit/watch"
	"dryfit/watch/memory"
)

// memoryName is the file in the state folder that a night remembers its jobs in.
const memoryName = "memory"

// record is what is remembered of a job: enough for its lines on the roll-up, and for telling
// whether it must be looked at again.
type record struct {
	head
	rest
}

// head is the part of a record that tells whether it still holds. It has a fixed size, because
// on most nights nothing else is read of most jobs.
type head struct {
	Rules   watch.Hash // what the result rests on beside the workbooks
	Sight   watch.Hash // names, sizes and time stamps of the workbooks
	Looked  int64      // ns since 1970 when reading began
	Run     int64      // the run that the counts in rest.Ended belong to
	Verdict uint8      // check.Verdict
	Flags   uint8
	Open    [4]uint16 // lines by check.Verdict, without the accepted ones
	Said    [2]uint16 // lines accepted, and asked about
}

// Flags of a head.
const (
	flagRead    = 1 << iota // it could be read, at least in part
	flagFault               // a workbook of it could not be read
	flagNoJob               // a folder without a part schedule
	flagAgain               // look at it again whatever its workbooks are: one was open
	flagWritten             // we wrote into its folder, so that time stamps alone prove nothing yet
	flagBeside              // results are in a sibling workbook
)

func (h *head) is(flag uint8) bool { return h.Flags&flag != 0 }

func (h *head) set(flag uint8, on bool) {
	h.Flags &^= flag
	if on {
		h.Flags |= flag
	}
}

// rest is the part of a record that is read when the roll-up is made anew.
type rest struct {
	Files map[string]watch.Hash   `json:"files"` // workbooks and siblings, by path below the root
	Lines []rollup.Line           `json:"lines"`
	Words []rollup.Word           `json:"words"`
	Fault string                  `json:"fault,omitempty"`
	Notes []string                `json:"notes,omitempty"`
	Ended map[string]rollup.Ended `json:"ended,omitempty"` // by check, in the run of the head
}

// headSize is what a head takes in memory: two hashes, two times, a verdict, flags, six counts.
const headSize = 2*sha256.Size + 2*8 + 2 + 6*2

var _ [memory.PeekSize - headSize]byte // a head is had without reading the record

func (r *record) encode() ([]byte, error) {
	b := make([]byte, 0, 1024)
	b = append(append(b, r.Rules[:]...), r.Sight[:]...)
	b = binary.LittleEndian.AppendUint64(b, uint64(r.Looked))
	b = binary.LittleEndian.AppendUint64(b, uint64(r.Run))
	b = append(b, r.Verdict, r.Flags)
	for _, n := range slices.Concat(r.Open[:], r.Said[:]) {
		b = binary.LittleEndian.AppendUint16(b, n)
	}
	text, err := json.Marshal(&r.rest)
	return append(b, text...), err
}

// decodeHead reads the head of a record; nil where there is none.
func decodeHead(data string) *head {
	if len(data) < headSize {
		return nil
	}
	b := []byte(data[:headSize])
	h := &head{Rules: watch.Hash(b[:32]), Sight: watch.Hash(b[32:64])}
	h.Looked, h.Run = int64(binary.LittleEndian.Uint64(b[64:])), int64(binary.LittleEndian.Uint64(b[72:]))
	h.Verdict, h.Flags = b[80], b[81]
	for i := range h.Open {
		h.Open[i] = binary.LittleEndian.Uint16(b[82+2*i:])
	}
	for i := range h.Said {
		h.Said[i] = binary.LittleEndian.Uint16(b[90+2*i:])
	}
	return h
}

func decodeRecord(data []byte) *record {
	h := decodeHead(string(data[:min(len(data), headSize)]))
	if h == nil {
		return nil
	}
	r := &record{head: *h}
	if json.Unmarshal(data[headSize:], &r.rest) != nil {
		return nil
	}
	return r
}

// digest is one hash over the workbooks of the job, for the roll-up.
func (r *rest) digest() string {
	sum := sha256.New()
	for _, path := range slices.Sorted(maps.Keys(r.Files)) {
		hash := r.Files[path]
		fmt.Fprintf(sum, "%q %x\n", path, hash)
	}
	return hex.EncodeToString(sum.Sum(nil)[:12])
}

// sightOf sums up what is seen of workbooks without reading them.
func sightOf(f watch.Folder) watch.Hash {
	var b []byte
	for _, book := range f.Books {
		b = strconv.AppendQuote(b, filepath.Base(book.Path))
		b = strconv.AppendInt(append(b, ' '), book.Size, 10)
		b = strconv.AppendInt(append(b, ' '), book.Modified.UnixNano(), 10)
		b = append(strconv.AppendQuote(append(b, ' '), book.Rival), '\n')
	}
	return sha256.Sum256(b)
}

// settleTime is how far apart two saves must be for their time stamps to differ on any disk:
// some count in steps of two seconds.
const settleTime = 2 * time.Second

// isFresh reports whether a workbook was saved so shortly before a look, or after it, that size
// and time stamp do not prove it the same.
func isFresh(f watch.Folder, looked int64) bool {
	for _, b := range f.Books {
		if b.Modified.UnixNano() > looked-int64(settleTime) {
			return true
		}
	}
	return false
}

// again looks at the names of a folder once more, to see sizes and time stamps since we wrote.
func again(f watch.Folder) watch.Folder {
	f.Books = slices.Clone(f.Books)
	for i, b := range f.Books {
		if info, err := os.Stat(b.Path); err == nil {
			f.Books[i].Size, f.Books[i].Modified = info.Size(), info.ModTime()
		}
	}
	return f
}

// programSight tells one build of dryfit from another, as far as that can be seen.
func programSight() string {
	path, err := os.Executable()
	if err != nil {
		return version
	}
	info, err := os.Stat(path)
	if err != nil {
		return version
	}
	return fmt.Sprintf("%s %d %d", version, info.Size(), info.ModTime().UnixNano())
}

// sumUp fills the head from the lines.
func (r *record) sumUp(rep *check.Report) {
	r.Open, r.Said = [4]uint16{}, [2]uint16{}
	for _, l := range r.Lines {
		if l.Fate == rollup.Accepted {
			r.Said[0]++
			continue
		}
		if l.Fate == rollup.Asked {
			r.Said[1]++
		}
		r.Open[l.Stand.Verdict]++
	}
	r.Verdict = uint8(check.NotChecked)
	if rep != nil {
		r.Verdict = uint8(rep.Verdict)
	}
}
