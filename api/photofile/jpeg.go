package photofile

import (
	"bytes"
	"encoding/binary"
	"fmt"
)

// Markers of JPEG.
const (
	markerStart   = 0xd8
	markerEnd     = 0xd9
	markerScan    = 0xda
	markerApp0    = 0xe0
	markerApp1    = 0xe1 // Exif and XMP
	markerApp2    = 0xe2 // colour profiles, and a list of further pictures
	markerApp14   = 0xee // how colours are coded
	markerRestart = 0xd0 // to 0xd7
)

func (r *reading) jpeg() error {
	r.facts.MediaType = "image/jpeg"
	if err := r.piece(nil, 2, true, "start"); err != nil {
		return err
	}
	for {
		marker, err := r.marker()
		if err != nil {
			return err
		}
		if marker == markerEnd {
			if err := r.piece([]byte{0xff, markerEnd}, 0, true, "end"); err != nil {
				return err
			}
			return r.end()
		}
		if err := r.segment(marker); err != nil {
			return err
		}
		if marker == markerScan {
			if err := r.entropy(); err != nil {
				return err
			}
		}
	}
}

// marker reads a marker, which any number of fill bytes may precede.
func (r *reading) marker() (byte, error) {
	b, err := r.in.ReadByte()
	if err == nil && b != 0xff {
		err = ErrKind
	}
	for b == 0xff && err == nil {
		b, err = r.in.ReadByte()
	}
	if err == nil && (b == 0 || b == markerStart || b&0xf8 == markerRestart) {
		err = ErrKind
	}
	return b, err
}

// segment passes on a segment: marker, length, content.
func (r *reading) segment(marker byte) error {
	size, err := r.in.Peek(2)
	if err != nil {
		return err
	}
	length := int(binary.BigEndian.Uint16(size))
	if length < 2 {
		return ErrKind
	}
	head, err := r.in.Peek(min(length, 1<<10))
	if err != nil {
		return err
	}
	if isFrame(marker) {
		if len(head) < 7 {
			return ErrKind
		}
		if err := r.sides(int(binary.BigEndian.Uint16(head[5:])), int(binary.BigEndian.Uint16(head[3:]))); err != nil {
			return err
		}
	}
	if marker == markerApp1 && r.drop {
		r.facts.Turned = max(r.facts.Turned, turned(head[2:]))
	}
	return r.piece([]byte{0xff, marker}, int64(length), isPicture(marker, head[2:]), fmt.Sprintf("segment %#x", marker))
}

// isFrame: the markers from 0xc0 to 0xcf begin frames, but for those of tables.
func isFrame(marker byte) bool {
	return marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc
}

// isPicture tells what of a JPEG is the picture: what decoding needs, the
// colours' profile, and the plain header of JFIF without its own small picture.
func isPicture(marker byte, content []byte) bool {
	switch marker {
	case markerApp0:
		return len(content) == 14 && bytes.HasPrefix(content, []byte("JFIF\x00"))
	case markerApp2:
		return bytes.HasPrefix(content, []byte("ICC_PROFILE\x00"))
	case markerApp14:
		return len(content) == 12 && bytes.HasPrefix(content, []byte("Adobe"))
	}
	return isFrame(marker) || marker == markerScan || marker == 0xc4 || marker == 0xcc || marker >= 0xdb && marker <= 0xdd
}

// entropy passes on a scan's coded bytes, up to the next marker.
func (r *reading) entropy() error {
	for {
		run, err := r.in.Peek(max(r.in.Buffered(), 2))
		if err != nil {
			return err
		}
		at := bytes.IndexByte(run[:len(run)-1], 0xff)
		if at < 0 {
			at = len(run) - 1
		} else if next := run[at+1]; next == 0 || next&0xf8 == markerRestart {
			at += 2
		} else if at == 0 {
			return nil
		}
		if err := r.piece(nil, int64(at), true, "scan"); err != nil {
			return err
		}
	}
}

// turned reads how a camera was held from the first directory of Exif (CIPA
// DC-008, tag 0x0112); 0 where it does not say.
func turned(content []byte) int {
	tiff, found := bytes.CutPrefix(content, []byte("Exif\x00\x00"))
	if !found || len(tiff) < 8 {
		return 0
	}
	var order binary.ByteOrder = binary.BigEndian
	if tiff[0] == 'I' {
		order = binary.LittleEndian
	}
	at := uint64(order.Uint32(tiff[4:]))
	if at+2 > uint64(len(tiff)) {
		return 0
	}
	entries := tiff[at+2:]
	for range order.Uint16(tiff[at:]) {
		if len(entries) < 12 {
			return 0
		}
		if value := order.Uint16(entries[8:]); order.Uint16(entries) == 0x0112 && value >= 1 && value <= 8 {
			return int(value)
		}
		entries = entries[12:]
	}
	return 0
}
