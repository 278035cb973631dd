package device

import (
	"bytes"
	"image"
	"image/jpeg"
	_ "image/png" // registers the format

	"golang.org/x/image/draw"
	_ "golang.org/x/image/webp" // registers the format

	"freshet.example/api/photofile"
)

const (
	// thumbnailSide of the longer side, px: as wide as a phone's page.
	thumbnailSide = 320
	// A picture that is turned is encoded again, hardly to be seen.
	turnedQuality = 92
)

// decode draws a picture whose sides were bounded by photofile before.
func decode(picture []byte) (image.Image, error) {
	m, _, err := image.Decode(bytes.NewReader(picture))
	return m, err
}

func encodeJPEG(m image.Image, quality int) ([]byte, error) {
	var b bytes.Buffer
	err := jpeg.Encode(&b, m, &jpeg.Options{Quality: quality})
	return b.Bytes(), err
}

// thumbnail is the small picture that is sent before the file.
func thumbnail(m image.Image) ([]byte, error) {
	from := m.Bounds()
	long := max(from.Dx(), from.Dy())
	to := image.Rect(0, 0, from.Dx(), from.Dy())
	if long > thumbnailSide {
		to = image.Rect(0, 0, max(from.Dx()*thumbnailSide/long, 1), max(from.Dy()*thumbnailSide/long, 1))
	}
	small := image.NewRGBA(to)
	draw.Draw(small, to, image.White, image.Point{}, draw.Src) // JPEG has no clear pixels
	draw.ApproxBiLinear.Scale(small, to, m, from, draw.Over, nil)
	for quality := 80; ; quality -= 20 {
		b, err := encodeJPEG(small, quality)
		if err != nil || len(b) <= photofile.MaxThumbnailBytes || quality <= 20 {
			return b, err
		}
	}
}

// turned draws a picture the right way up. Exif counts ways from 1 to 8: the
// last four swap the sides, and where row and column of the first pixel are
// says the rest (CIPA DC-008, tag 0x0112).
func turned(m image.Image, way int) image.Image {
	from := m.Bounds()
	w, h := from.Dx(), from.Dy()
	swapped := way >= 5
	to := image.NewRGBA(image.Rect(0, 0, w, h))
	if swapped {
		to = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	for y := range h {
		for x := range w {
			atX, atY := x, y
			if way == 2 || way == 3 || way == 7 || way == 8 {
				atX = w - 1 - x
			}
			if way == 3 || way == 4 || way == 6 || way == 7 {
				atY = h - 1 - y
			}
			if swapped {
				atX, atY = atY, atX
			}
			to.Set(atX, atY, m.At(from.Min.X+x, from.Min.Y+y))
		}
	}
	return to
}
