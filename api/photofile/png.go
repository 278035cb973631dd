package photofile

import (
	"encoding/binary"
	"fmt"
)

const pngSignature = "\x89PNG\r\n\x1a\n"

// pngPicture are the chunks that are the picture; the others are texts, times,
// Exif, animation, or unknown.
var pngPicture = map[string]bool{
	"IHDR": true, "PLTE": true, "IDAT": true, "IEND": true, "tRNS": true, "cHRM": true, "gAMA": true, "iCCP": true,
	"sBIT": true, "sRGB": true, "cICP": true, "bKGD": true, "pHYs": true,
}

func (r *reading) png() error {
	r.facts.MediaType = "image/png"
	if err := r.piece(nil, int64(len(pngSignature)), true, "signature"); err != nil {
		return err
	}
	for first := true; ; first = false {
		head, err := r.in.Peek(8)
		if err != nil {
			return err
		}
		length, kind := int64(binary.BigEndian.Uint32(head)), string(head[4:8])
		if first != (kind == "IHDR") || length > MaxBytes {
			return ErrKind
		}
		if first {
			if head, err = r.in.Peek(16); err != nil {
				return err
			}
			if err := r.sides(side(binary.BigEndian.Uint32(head[8:])), side(binary.BigEndian.Uint32(head[12:]))); err != nil {
				return err
			}
		}
		if err := r.piece(nil, 8+length+4, pngPicture[kind], fmt.Sprintf("chunk %q", kind)); err != nil {
			return err
		}
		if kind == "IEND" {
			return r.end()
		}
	}
}

// side keeps the product of two sides within an int.
func side(n uint32) int { return int(min(n, 1<<30)) }
