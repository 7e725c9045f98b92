package length

import "testing"

func BenchmarkParse(b *testing.B) {
	for _, text := range []string{"2380", "95-1/2", `7'-6 1/2"`, "94 1/4 heavy 1/16"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Parse(text, Context{Unit: Inch}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkParseSize(b *testing.B) {
	for _, text := range []string{"860 x 600 x 19", "Shelf 34 1/2 x 11 1/4 x 3/4 ply"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := ParseSize(text, Context{Unit: Inch}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
