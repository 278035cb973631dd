// Package photofile is what both ends agree on about the file of a photo: how
// it is cut into chunks, which kinds of picture it may be, how large, and that
// it holds nothing but the picture. A camera writes beside the picture where it
// was taken; Strip takes that off before a file leaves its device, and Examine
// finds what still carries it. Neither decodes pixels: sides are read from the
// header, so that a small file that unfolds into gigabytes is refused unopened.
//
// Formats as their standards say: JPEG, ITU-T T.81 annex B; PNG, W3C
// Recommendation (third edition), chapters 5 and 11; WebP, RFC 9649.
package photofile

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
)

// Bounds that both ends keep.
const (
	// ChunkBytes is the length of each chunk but the last. At 50 kbit/s, which a
	// greenhouse may have, one takes 21 seconds, within the time of a call.
	ChunkBytes = 128 << 10
	// MaxBytes of a file, as the contract's Photo says.
	MaxBytes = 50_000_000
	// MaxSide and MaxPixels bound what a device must hold to draw a picture: 60
	// million pixels are 240 MB.
	MaxSide   = 16_000
	MaxPixels = 60_000_000
	// Bounds of a thumbnail.
	MaxThumbnailBytes = 48 << 10
	MaxThumbnailSide  = 400
)

// Errors of Examine and Strip.
var (
	ErrKind  = errors.New("it is no whole JPEG, PNG or WebP picture")
	ErrLarge = fmt.Errorf("its sides are longer than %d px, or it has more than %d million pixels", MaxSide, MaxPixels/1_000_000)
	ErrTells = errors.New("it holds more than the picture")
)

// Facts are what the header of a picture says.
type Facts struct {
	MediaType     string // "image/jpeg", "image/png" or "image/webp"
	Width, Height int    // px
	// Turned is how a camera was held, 1 to 8 as Exif counts; 0 where it does not
	// say. Only Strip reads it.
	Turned int
}

// Chunks is how many chunks a file of so many bytes has.
func Chunks(size int64) int { return int((size + ChunkBytes - 1) / ChunkBytes) }

// ChunkLength is the length of one chunk of a file; 0 where it has none of that number.
func ChunkLength(size int64, number int) int {
	return int(max(min(size-int64(number)*ChunkBytes, ChunkBytes), 0))
}

// Examine reads a whole file and says what picture it holds; ErrKind, ErrLarge,
// or ErrTells where it holds anything else.
func Examine(file io.Reader) (Facts, error) {
	return pass(file, io.Discard, false)
}

// Strip gives a picture without all that is not the picture. The same pixels
// stay, as they are encoded; a camera's way up is answered, for whoever draws.
func Strip(picture []byte) ([]byte, Facts, error) {
	var kept bytes.Buffer
	facts, err := pass(bytes.NewReader(picture), &kept, true)
	if err != nil {
		return nil, facts, err
	}
	if facts.MediaType == webp {
		sealWebP(kept.Bytes())
	}
	return kept.Bytes(), facts, nil
}

// A reading is one pass over a file.
type reading struct {
	in    *bufio.Reader
	out   io.Writer
	drop  bool // what is not the picture; else it is an error
	facts Facts
}

func pass(file io.Reader, out io.Writer, drop bool) (Facts, error) {
	r := &reading{in: bufio.NewReaderSize(file, 64<<10), out: out, drop: drop}
	head, err := r.in.Peek(12)
	if err != nil {
		return r.facts, ErrKind
	}
	switch {
	case bytes.HasPrefix(head, []byte{0xff, 0xd8, 0xff}):
		err = r.jpeg()
	case bytes.HasPrefix(head, []byte(pngSignature)):
		err = r.png()
	case string(head[:4]) == "RIFF" && string(head[8:]) == "WEBP":
		err = r.webp()
	default:
		err = ErrKind
	}
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		err = ErrKind
	}
	if err == nil && r.facts.Width == 0 {
		err = ErrKind
	}
	return r.facts, err
}

// sides notes and bounds the picture's sides.
func (r *reading) sides(width, height int) error {
	r.facts.Width, r.facts.Height = width, height
	if width <= 0 || height <= 0 {
		return ErrKind
	}
	if width > MaxSide || height > MaxSide || width*height > MaxPixels {
		return ErrLarge
	}
	return nil
}

// piece passes on a piece of the file, its head and the bytes after it, or
// leaves it out.
func (r *reading) piece(head []byte, length int64, keep bool, name string) error {
	out := r.out
	if !keep {
		if !r.drop {
			return fmt.Errorf("%w: %s", ErrTells, name)
		}
		out = io.Discard
	}
	if _, err := out.Write(head); err != nil {
		return err
	}
	_, err := io.CopyN(out, r.in, length)
	return err
}

// end is where nothing may follow: phones append clips and second pictures.
func (r *reading) end() error {
	rest, err := io.Copy(io.Discard, r.in)
	if err == nil && rest > 0 && !r.drop {
		err = fmt.Errorf("%w: %d bytes after its end", ErrTells, rest)
	}
	return err
}
