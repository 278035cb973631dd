package main

import (
	"encoding/binary"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// decoded reads the text of a sheet as spreadsheets save it: UTF-8 or UTF-16
// with a byte order mark, else UTF-8, else one byte a letter (ISO 8859-1). Lines
// come to end in "\n".
func decoded(raw []byte) string {
	text := strings.TrimPrefix(string(raw), "\ufeff")
	switch {
	case strings.HasPrefix(text, "\xff\xfe"):
		text = wide(raw[2:], binary.LittleEndian)
	case strings.HasPrefix(text, "\xfe\xff"):
		text = wide(raw[2:], binary.BigEndian)
	case !utf8.ValidString(text):
		letters := make([]rune, 0, len(raw))
		for _, b := range raw {
			letters = append(letters, rune(b))
		}
		text = string(letters)
	}
	return strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
}

func wide(raw []byte, order binary.ByteOrder) string {
	units := make([]uint16, len(raw)/2)
	for i := range units {
		units[i] = order.Uint16(raw[2*i:])
	}
	return string(utf16.Decode(units))
}
