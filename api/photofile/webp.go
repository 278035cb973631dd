package photofile

import (
	"encoding/binary"
	"fmt"
)

const webp = "image/webp"

const (
	webpHead = 12 // "RIFF", size, "WEBP"
	// Bits of the extended header that announce what Strip leaves out.
	webpAnimated, webpXMP, webpExif = 0x02, 0x04, 0x08
)

// webpPicture are the chunks that are the picture.
var webpPicture = map[string]bool{"VP8 ": true, "VP8L": true, "VP8X": true, "ALPH": true, "ICCP": true} //nolint:gocritic // names have four letters, a blank among them

// webpSidesBytes is how many bytes of a chunk that says the sides it takes to say them.
var webpSidesBytes = map[string]int64{"VP8 ": 10, "VP8L": 5, "VP8X": 10} //nolint:gocritic // names have four letters, a blank among them

func (r *reading) webp() error {
	r.facts.MediaType = webp
	head, err := r.in.Peek(webpHead)
	if err != nil {
		return err
	}
	left := int64(binary.LittleEndian.Uint32(head[4:])) - 4
	if err := r.piece(nil, webpHead, true, "header"); err != nil {
		return err
	}
	for left > 0 {
		head, err := r.in.Peek(8)
		if err != nil {
			return err
		}
		kind, length := string(head[:4]), int64(binary.LittleEndian.Uint32(head[4:]))
		length += length % 2
		if left -= 8 + length; left < 0 || length > MaxBytes {
			return ErrKind
		}
		if least := webpSidesBytes[kind]; length < least {
			return ErrKind // its sides would be read from the chunk behind it
		}
		if err := r.webpSides(kind); err != nil {
			return err
		}
		if err := r.piece(nil, 8+length, webpPicture[kind], fmt.Sprintf("chunk %q", kind)); err != nil {
			return err
		}
	}
	return r.end()
}

// webpSides reads the sides from whichever chunk says them first.
func (r *reading) webpSides(kind string) error {
	if webpSidesBytes[kind] == 0 {
		return nil
	}
	head, err := r.in.Peek(8 + 10)
	if err != nil {
		return err
	}
	width, height := webpSize(kind, head[8:])
	if r.facts.Width > 0 && (width != r.facts.Width || height != r.facts.Height) {
		return ErrKind
	}
	if kind == "VP8X" && head[8]&webpAnimated != 0 {
		return ErrKind
	}
	if told := head[8] & (webpXMP | webpExif); kind == "VP8X" && told != 0 && !r.drop {
		return fmt.Errorf("%w: its header announces it", ErrTells)
	}
	return r.sides(width, height)
}

func webpSize(kind string, b []byte) (width, height int) {
	switch kind {
	case "VP8X":
		return 1 + int(b[4]) + int(b[5])<<8 + int(b[6])<<16, 1 + int(b[7]) + int(b[8])<<8 + int(b[9])<<16
	case "VP8L":
		bits := binary.LittleEndian.Uint32(b[1:])
		return 1 + int(bits&0x3fff), 1 + int(bits>>14&0x3fff)
	}
	return int(binary.LittleEndian.Uint16(b[6:]) & 0x3fff), int(binary.LittleEndian.Uint16(b[8:]) & 0x3fff)
}

// sealWebP writes the size anew, and takes back what was announced and left out.
func sealWebP(kept []byte) {
	binary.LittleEndian.PutUint32(kept[4:], uint32(len(kept)-8)) // #nosec G115 -- within MaxBytes
	if len(kept) > webpHead+8 && string(kept[webpHead:webpHead+4]) == "VP8X" {
		kept[webpHead+8] &^= webpXMP | webpExif
	}
}
