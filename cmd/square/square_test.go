package square

import (
	"bytes"
	"image/png"
	"strings"
	"testing"
)

const link = "https://coop.example:7412/?grpc=7411&pin=abc#/join/7KQM-2VXA-9RTD"

// finder is the mark in three corners (ISO/IEC 18004, 6.3.3), with the light border inwards.
var finder = []string{"#######.", "#.....#.", "#.###.#.", "#.###.#.", "#.###.#.", "#.....#.", "#######.", "........"}

// The picture has the marks by which readers find it, in an empty border of four
// modules; the lines in a terminal show the same modules.
func TestPictureAndLinesShowTheSame(t *testing.T) {
	const dots = 3
	var file bytes.Buffer
	if err := Picture(&file, link, dots); err != nil {
		t.Fatal(err)
	}
	picture, err := png.Decode(&file)
	if err != nil {
		t.Fatal(err)
	}
	wide := picture.Bounds().Dx() / dots
	dark := func(x, y int) bool { r, _, _, _ := picture.At(x*dots+1, y*dots+1).RGBA(); return r == 0 }
	for y, row := range finder {
		for x, module := range row {
			far := wide - 1
			for _, at := range [][2]int{{4 + x, 4 + y}, {far - 4 - x, 4 + y}, {4 + x, far - 4 - y}} {
				if dark(at[0], at[1]) != (module == '#') {
					t.Fatalf("the mark is wrong at %v", at)
				}
			}
		}
	}
	lines, err := Lines(link, false)
	if err != nil {
		t.Fatal(err)
	}
	for y := range wide {
		row := []rune(lines[y/2] + strings.Repeat(" ", wide))
		for x := range wide {
			shown := row[x] == '█' || row[x] == []rune("▀▄")[y%2]
			if shown != dark(x, y) || dark(x, y) && (min(x, y) < 4 || max(x, y) >= wide-4) {
				t.Fatalf("lines and picture differ, or the border is not empty, at %d,%d", x, y)
			}
		}
	}
	coloured, err := Lines(link, true)
	if err != nil || len(coloured) != len(lines) || !strings.HasPrefix(coloured[0], ink+"    ") || !strings.HasSuffix(coloured[0], plain) {
		t.Errorf("not black on white: %q %v", coloured, err)
	}
	if _, err := Lines(strings.Repeat("long", 2000), false); err == nil {
		t.Error("8000 letters do not fit a square")
	}
}
