package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/png"
)

// encode writes the canvas as a PNG of at most 256 colours, which is a third of the bytes. The
// smooth edges are rounded to sixteen steps a colour; the same canvas always gives the same
// bytes.
func encode(img *image.RGBA, inks []color.RGBA) ([]byte, error) {
	var buf bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestSpeed}
	if small, ok := paletted(img, inks); ok {
		err := enc.Encode(&buf, small)
		return buf.Bytes(), err
	}
	err := enc.Encode(&buf, img)
	return buf.Bytes(), err
}

func paletted(img *image.RGBA, inks []color.RGBA) (*image.Paletted, bool) {
	var at [1 << 12]int16 // by four bits of each colour: index + 1
	out := image.NewPaletted(img.Rect, nil)
	bits := func(p []uint8) int { return int(p[0]>>4)<<8 | int(p[1]>>4)<<4 | int(p[2]>>4) }
	for _, c := range inks { // these stay as they are
		if k := bits([]uint8{c.R, c.G, c.B}); at[k] == 0 {
			out.Palette = append(out.Palette, c)
			at[k] = int16(len(out.Palette))
		}
	}
	last, index := uint32(0), uint8(0) // most dots are like the one before; no dot is 0, since all are opaque
	for i := range out.Pix {
		p := img.Pix[4*i : 4*i+4 : 4*i+4]
		if word := binary.LittleEndian.Uint32(p); word != last {
			k := bits(p)
			if at[k] == 0 {
				if len(out.Palette) == 256 {
					return nil, false
				}
				out.Palette = append(out.Palette, color.RGBA{p[0], p[1], p[2], 255})
				at[k] = int16(len(out.Palette))
			}
			last, index = word, uint8(at[k]-1)
		}
		out.Pix[i] = index
	}
	return out, true
}
