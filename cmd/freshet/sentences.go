package main

import (
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// clockTolerance is how far a clock may be off before it is worth a word.
const clockTolerance = 2 * time.Minute

// sentence begins with a capital and ends with a point.
func sentence(text string) string {
	text = strings.TrimSpace(text)
	if text == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(text)
	if !strings.HasPrefix(text, "pH") {
		text = string(unicode.ToUpper(first)) + text[size:]
	}
	if strings.HasSuffix(text, ".") || strings.HasSuffix(text, "?") || strings.HasSuffix(text, "!") {
		return text
	}
	return text + "."
}
