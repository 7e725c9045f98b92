package memory

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	_ "dryfit/check/steady"
)

func open(t testing.TB, path string) *Store {
	t.Helper()
	s, _, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// Any run of puts, drops and closings gives what a map gives.
func TestAgainstAMap(t *testing.T) {
	dir := t.TempDir()
	n := 0
	rapid.Check(t, func(rt *rapid.T) {
		n++
		path := filepath.Join(dir, fmt.Sprint(n))
		s := open(t, path)
		model := map[string][]byte{}
		rt.Repeat(map[string]func(*rapid.T){
			"put": func(rt *rapid.T) {
				k := rapid.StringN(0, 3, 6).Draw(rt, "key")
				v := rapid.SliceOfN(rapid.Byte(), 0, 2*PeekSize).Draw(rt, "value")
				must(t, s.Put(k, v))
				model[k] = v
			},
			"forget": func(rt *rapid.T) {
				k := rapid.StringN(0, 3, 6).Draw(rt, "key")
				must(t, s.Forget(k))
				delete(model, k)
			},
			"open again": func(rt *rapid.T) {
				must(t, s.Close())
				s = open(t, path)
			},
			"": func(rt *rapid.T) {
				if len(s.Keys()) != len(model) {
					rt.Fatalf("%d keys, want %d", len(s.Keys()), len(model))
				}
				for k, v := range model {
					if got := s.Get(k); got == nil || !bytes.Equal(got, v) {
						rt.Fatalf("%q: %v, want %v", k, got, v)
					}
					if got := s.Peek(k); got != string(v[:min(PeekSize, len(v))]) {
						rt.Fatalf("%q begins %v, want %v", k, got, v)
					}
				}
			},
		})
		must(t, s.Close())
	})
}

// The newest value is given or none at all, wherever the file is cut or changed: an older one
// must not come to life again.
func TestDamage(t *testing.T) {
	path := filepath.Join(t.TempDir(), "night")
	s := open(t, path)
	want := map[string][]byte{}
	isEnd := map[int]bool{}
	for i := range 40 {
		isEnd[int(s.end)] = true
		k, v := fmt.Sprintf("job %d", i%30), bytes.Repeat([]byte{byte(i)}, 30+i)
		must(t, s.Put(k, v))
		want[k] = v
	}
	must(t, s.Close())
	whole, err := os.ReadFile(path)
	must(t, err)
	r := rand.New(rand.NewPCG(3, 14))
	for at := range whole {
		broken := bytes.Clone(whole)
		broken[at] ^= byte(1 + r.IntN(255))
		if at%3 == 0 && !isEnd[at] { // a cut between two records cannot be known
			broken = broken[:at]
		}
		must(t, os.WriteFile(path, broken, 0o600))
		s := open(t, path)
		for k, v := range want {
			if got := s.Get(k); got != nil && !bytes.Equal(got, v) {
				t.Fatalf("byte %d: %q gives %v", at, k, got)
			}
		}
		must(t, s.Put("after", []byte("damage")))
		must(t, s.Close())
		if s = open(t, path); string(s.Get("after")) != "damage" {
			t.Fatalf("byte %d: what is put after the damage is lost", at)
		}
		must(t, s.Close())
	}
}

func TestAForeignFileIsForgotten(t *testing.T) {
	path := filepath.Join(t.TempDir(), "night")
	must(t, os.WriteFile(path, []byte("something else altogether, by another program"), 0o600))
	s, forgotten, err := Open(path)
	if err != nil || !forgotten || len(s.Keys()) != 0 {
		t.Fatalf("%v, forgotten %t, keys %v", err, forgotten, s.Keys())
	}
	must(t, s.Put("k", []byte("v")))
	must(t, s.Close())
	if s = open(t, path); string(s.Get("k")) != "v" {
		t.Error("nothing can be remembered in its place")
	}
	must(t, s.Close())
}

func TestTheFileDoesNotGrowForEver(t *testing.T) {
	path := filepath.Join(t.TempDir(), "night")
	value := make([]byte, 100_000)
	for i := range 60 {
		s := open(t, path)
		must(t, s.Put("job", append(value, byte(i))))
		must(t, s.Put("other", []byte{byte(i)}))
		must(t, s.Close())
	}
	fi, err := os.Stat(path)
	must(t, err)
	if fi.Size() > 2*mostDead {
		t.Errorf("%d bytes for 0.1 MB that count", fi.Size())
	}
	s := open(t, path)
	defer s.Close()
	if got := s.Get("job"); len(got) != 100_001 || got[100_000] != 59 || s.Get("other")[0] != 59 {
		t.Error("the newest value is lost")
	}
}

func TestNilRemembersNothing(t *testing.T) {
	var s *Store
	must(t, s.Put("k", []byte("v")))
	must(t, s.Forget("k"))
	if s.Get("k") != nil || s.Peek("k") != "" || s.Keys() != nil {
		t.Error("a nil store remembers")
	}
	must(t, s.Sync())
	must(t, s.Close())
}

// 10,000 jobs of 1,500 bytes: opened, and the first bytes of each read.
func BenchmarkOpenAndRead(b *testing.B) {
	path := filepath.Join(b.TempDir(), "night")
	s := open(b, path)
	for i := range 10_000 {
		must(b, s.Put(fmt.Sprintf("job %05d some name", i), make([]byte, 1500)))
	}
	must(b, s.Close())
	b.ReportAllocs()
	for b.Loop() {
		s := open(b, path)
		n := 0
		for i := range 10_000 {
			n += len(s.Get(fmt.Sprintf("job %05d some name", i)))
		}
		if n != 15_000_000 {
			b.Fatal(n)
		}
		must(b, s.Close())
	}
}
