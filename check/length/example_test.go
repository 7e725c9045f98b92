package length_test

import (
	"fmt"

	"dryfit/check/length"
)

func ExampleParse() {
	inches := length.Context{Unit: length.Inch, What: "a thickness"}
	for _, text := range []string{"1-7/8", "19 mm", "94 1/4 ±1/16", "5/4", "3/4ish"} {
		l, err := length.Parse(text, inches)
		switch {
		case err != nil:
			fmt.Println(err)
		case l.Doubt != "":
			fmt.Println(l, "or", l.Other[0], "because", l.Doubt)
		default:
			fmt.Println(l)
		}
	}
	// Output:
	// 1 7/8 in
	// 19 mm
	// 94 3/16 to 94 5/16 in
	// 1 1/16 in or 1 1/4 in because 5/4 is rough lumber: 1 1/16 in when planed, 1 1/4 in as sawn
	// read "3/4ish", but "ish" is no unit; a thickness wants a length such as 3/4, 0.75 or 19 mm
}

func ExampleParseSize() {
	text := `Shelf 7'-8" x 11¼" x ¾" ply`
	s, err := length.ParseSize(text, length.Context{Unit: length.Inch})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(s)
	fmt.Println(s.In(length.Millimetre))
	fmt.Println(s.Rest(text))
	// Output:
	// 92 in x 11 1/4 in x 3/4 in
	// 2336.8 mm x 285.8 mm x 19.1 mm
	// Shelf ply
}
