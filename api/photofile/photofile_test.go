package photofile

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"slices"
	"testing"
)

// scene is a picture that no two pixels of a row of are alike.
func scene(width, height int) image.Image {
	m := image.NewRGBA(image.Rect(0, 0, width, height))
	for i := range m.Pix {
		m.Pix[i] = uint8(i * 7)
	}
	return m
}

func asJPEG(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func asPNG(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// exif is a directory that says how the camera was held, and then a place.
func exif(order binary.AppendByteOrder, turned uint16) []byte {
	b := []byte("Exif\x00\x00")
	if order == binary.AppendByteOrder(binary.LittleEndian) {
		b = append(b, "II*\x00"...)
	} else {
		b = append(b, "MM\x00*"...)
	}
	b = order.AppendUint32(b, 8)
	b = order.AppendUint16(b, 2)
	b = order.AppendUint32(order.AppendUint16(order.AppendUint16(b, 0x0112), 3), 1)
	b = append(order.AppendUint16(b, turned), 0, 0)
	b = order.AppendUint32(order.AppendUint16(order.AppendUint16(b, 0x8825), 4), 1)
	return append(order.AppendUint32(b, 38), "51.0000 N, a place"...)
}

// segmented puts a segment behind a JPEG's first two bytes.
func segmented(picture []byte, marker byte, content []byte) []byte {
	segment := binary.BigEndian.AppendUint16([]byte{0xff, marker}, uint16(len(content)+2))
	return slices.Insert(slices.Clone(picture), 2, append(segment, content...)...)
}

// chunked puts a chunk before a PNG's last.
func chunked(picture []byte, kind, content string) []byte {
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(content)))
	chunk = append(append(chunk, kind...), content...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	return slices.Insert(slices.Clone(picture), len(picture)-12, chunk...)
}

// webpOf is a WebP's frame around chunks; no pixels are looked at.
func webpOf(chunks ...string) []byte {
	var body []byte
	for i := 0; i < len(chunks); i += 2 {
		body = binary.LittleEndian.AppendUint32(append(body, chunks[i]...), uint32(len(chunks[i+1])))
		body = append(body, chunks[i+1]...)
		if len(chunks[i+1])%2 == 1 {
			body = append(body, 0)
		}
	}
	return append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body)+4)), append([]byte("WEBP"), body...)...)
}

const (
	extended40x30 = "\x0c\x00\x00\x00\x27\x00\x00\x1d\x00\x00" // Exif and XMP announced
	lossless40x30 = "\x2f\x27\x40\x07\x00\x00\x00\x00\x00\x00"
)

func TestAPictureIsAllThatIsLeft(t *testing.T) {
	plain, wide := asJPEG(t, scene(40, 30)), asPNG(t, scene(40, 30))
	secret := []byte("a place")
	for name, file := range map[string][]byte{
		"Exif":            segmented(plain, markerApp1, exif(binary.BigEndian, 1)),
		"XMP":             segmented(plain, markerApp1, []byte("http://ns.adobe.com/xap/1.0/\x00 a place")),
		"a comment":       segmented(plain, 0xfe, secret),
		"further picture": segmented(plain, markerApp2, []byte("MPF\x00 a place")),
		"maker's notes":   segmented(plain, 0xed, secret),
		"small picture":   segmented(plain, markerApp0, []byte("JFXX\x00\x10 a place")),
		"a clip behind":   append(slices.Clone(plain), secret...),
		"PNG's Exif":      chunked(wide, "eXIf", "a place"),
		"PNG's text":      chunked(wide, "tEXt", "Comment\x00a place"),
		"PNG's own":       chunked(wide, "plAc", "a place"),
		"behind a PNG":    append(slices.Clone(wide), secret...),
		"WebP's Exif":     webpOf("VP8X", extended40x30, "VP8L", lossless40x30, "EXIF", "a place"),
		"WebP's XMP":      webpOf("VP8X", extended40x30, "VP8L", lossless40x30, "XMP ", "a place!"),
	} {
		if _, err := Examine(bytes.NewReader(file)); !errors.Is(err, ErrTells) {
			t.Errorf("%s: %v, want %v", name, err, ErrTells)
		}
		stripped, facts, err := Strip(file)
		if err != nil || facts.Width != 40 || facts.Height != 30 {
			t.Errorf("%s: %+v, %v", name, facts, err)
			continue
		}
		if bytes.Contains(stripped, secret) {
			t.Errorf("%s: the place is still there", name)
		}
		if again, err := Examine(bytes.NewReader(stripped)); err != nil || again.MediaType != facts.MediaType || again.Width != 40 {
			t.Errorf("%s: stripped, it is %+v, %v", name, again, err)
		}
	}
}

func TestPixelsStayAsTheyAre(t *testing.T) {
	plain := asJPEG(t, scene(40, 30))
	if got, _, err := Strip(segmented(plain, markerApp1, exif(binary.BigEndian, 6))); err != nil || !bytes.Equal(got, plain) {
		t.Errorf("a JPEG came out with %d bytes of %d, %v", len(got), len(plain), err)
	}
	wide := asPNG(t, scene(40, 30))
	if got, _, err := Strip(chunked(wide, "tEXt", "Comment\x00words")); err != nil || !bytes.Equal(got, wide) {
		t.Errorf("a PNG came out with %d bytes of %d, %v", len(got), len(wide), err)
	}
}

func TestHowTheCameraWasHeld(t *testing.T) {
	plain := asJPEG(t, scene(8, 8))
	for _, order := range []binary.AppendByteOrder{binary.BigEndian, binary.LittleEndian} {
		for turned := range uint16(9) {
			_, facts, err := Strip(segmented(plain, markerApp1, exif(order, turned)))
			if err != nil || facts.Turned != int(turned) {
				t.Errorf("%v %d: read as %d, %v", order, turned, facts.Turned, err)
			}
		}
	}
}

func TestSmallFilesThatUnfold(t *testing.T) {
	tall := asPNG(t, image.NewGray(image.Rect(0, 0, 1, MaxSide+1)))
	many := slices.Clone(asPNG(t, image.NewPaletted(image.Rect(0, 0, 8, 8), color.Palette{color.Black})))
	binary.BigEndian.PutUint32(many[16:], 10_000)
	binary.BigEndian.PutUint32(many[20:], 6_001)
	wide := slices.Clone(asJPEG(t, scene(8, 8)))
	at := bytes.Index(wide, []byte{0xff, 0xc0})
	binary.BigEndian.PutUint16(wide[at+7:], 65_535)
	for name, file := range map[string][]byte{"a side": tall, "pixels": many, "a JPEG": wide,
		"a WebP": webpOf("VP8X", "\x00\x00\x00\x00\xff\xff\xff\xff\xff\xff", "VP8L", lossless40x30)} {
		if _, err := Examine(bytes.NewReader(file)); !errors.Is(err, ErrLarge) {
			t.Errorf("%s: %v, want %v", name, err, ErrLarge)
		}
	}
}

func TestWhatIsNoPicture(t *testing.T) {
	plain, wide := asJPEG(t, scene(40, 30)), asPNG(t, scene(40, 30))
	for name, file := range map[string][]byte{
		"nothing": nil, "a page": []byte("<html><body>what is this?"), "a GIF": []byte("GIF89a\x01\x00\x01\x00\x00\x00\x00;"),
		"a cut JPEG": plain[:len(plain)-3], "a cut PNG": wide[:len(wide)-3], "a head": plain[:20],
		"a moving WebP":        webpOf("VP8X", "\x02\x00\x00\x00\x27\x00\x00\x1d\x00\x00", "VP8L", lossless40x30),
		"a WebP of two sides":  webpOf("VP8X", "\x00\x00\x00\x00\x28\x00\x00\x1d\x00\x00", "VP8L", lossless40x30),
		"a PNG with no header": append([]byte(pngSignature), wide[len(wide)-12:]...),
	} {
		if _, err := Examine(bytes.NewReader(file)); !errors.Is(err, ErrKind) {
			t.Errorf("%s: %v, want %v", name, err, ErrKind)
		}
	}
}

func TestChunks(t *testing.T) {
	for _, c := range []struct {
		size         int64
		chunks, last int
	}{{1, 1, 1}, {ChunkBytes, 1, ChunkBytes}, {ChunkBytes + 1, 2, 1}, {3 * ChunkBytes, 3, ChunkBytes}} {
		if got := Chunks(c.size); got != c.chunks || ChunkLength(c.size, got-1) != c.last || ChunkLength(c.size, got) != 0 {
			t.Errorf("%d bytes: %d chunks, the last of %d", c.size, got, ChunkLength(c.size, got-1))
		}
	}
}

func FuzzStrip(f *testing.F) {
	plain := asJPEG(f, scene(9, 7))
	f.Add(segmented(plain, markerApp1, exif(binary.LittleEndian, 6)))
	f.Add(chunked(asPNG(f, scene(9, 7)), "tEXt", "Comment\x00words"))
	f.Add(webpOf("VP8X", extended40x30, "VP8L", lossless40x30, "EXIF", "a place"))
	f.Fuzz(func(t *testing.T, file []byte) {
		stripped, facts, err := Strip(file)
		if err != nil {
			return
		}
		again, err := Examine(bytes.NewReader(stripped))
		if err != nil || again.Width != facts.Width || again.Height != facts.Height {
			t.Fatalf("stripped, it is %+v of %+v: %v", again, facts, err)
		}
	})
}
