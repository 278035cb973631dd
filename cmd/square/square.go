// Package square draws QR codes (ISO/IEC 18004), so that what is long to type is
// scanned: in a terminal, on paper, or as a picture.
package square

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"strings"

	"github.com/boombuler/barcode/qr"
)

// quiet is the empty border that the standard asks for, in modules.
const quiet = 4

// Dark and light on a terminal of any colours, and back to those.
const ink, plain = "\x1b[30;107m", "\x1b[0m"

// Lines are the rows of a text's code, two modules high each. Coloured, they are
// black on white on any screen; else they are right on white paper.
func Lines(text string, coloured bool) ([]string, error) {
	dark, size, err := modules(text)
	if err != nil {
		return nil, err
	}
	var lines []string
	for y := -quiet; y < size+quiet; y += 2 {
		var line strings.Builder
		for x := -quiet; x < size+quiet; x++ {
			line.WriteString(halves[dark(x, y)][dark(x, y+1)])
		}
		if coloured {
			lines = append(lines, ink+line.String()+plain)
		} else {
			lines = append(lines, strings.TrimRight(line.String(), " "))
		}
	}
	return lines, nil
}

// halves by whether the upper and the lower module are dark.
var halves = map[bool]map[bool]string{false: {false: " ", true: "▄"}, true: {false: "▀", true: "█"}}

// Picture writes a text's code as PNG, some dots to a module.
func Picture(to io.Writer, text string, dots int) error {
	dark, size, err := modules(text)
	if err != nil {
		return err
	}
	wide := (size + 2*quiet) * dots
	picture := image.NewGray(image.Rect(0, 0, wide, wide))
	for y := range wide {
		for x := range wide {
			if !dark(x/dots-quiet, y/dots-quiet) {
				picture.SetGray(x, y, color.Gray{Y: 255})
			}
		}
	}
	return png.Encode(to, picture)
}

// modules tells which modules are dark; those outside are not.
func modules(text string) (dark func(x, y int) bool, size int, err error) {
	code, err := qr.Encode(text, qr.M, qr.Auto)
	if err != nil {
		return nil, 0, fmt.Errorf("no square can be drawn: %w", err)
	}
	size = code.Bounds().Dx()
	return func(x, y int) bool {
		if x < 0 || y < 0 || x >= size || y >= size {
			return false
		}
		level, _, _, _ := code.At(x, y).RGBA()
		return level == 0
	}, size, nil
}
