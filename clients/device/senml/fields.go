package senml

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// readable tells whether a list's version can be read.
func readable(v any) bool {
	n, isNumber := v.(number)
	of, err := strconv.Atoi(string(n))
	return isNumber && err == nil && of > 0 && of <= version
}

// text is empty where the record does not say.
func (f fields) text(label int) (string, error) {
	v, told := f[label]
	s, isText := v.(string)
	if told && !isText {
		return "", fmt.Errorf("field %d is no text: %w", label, ErrPack)
	}
	return s, nil
}

// seconds is 0 where the record does not say.
func (f fields) seconds(label int) (float64, error) {
	v, told := f[label]
	if !told {
		return 0, nil
	}
	n, _ := v.(number)
	s, err := strconv.ParseFloat(string(n), 64)
	if err != nil || math.IsNaN(s) || math.IsInf(s, 0) {
		return 0, fmt.Errorf("field %d is no time: %w", label, ErrPack)
	}
	return s, nil
}

// digits is a number in plain digits.
func (f fields) digits(label int) (string, error) {
	n, _ := f[label].(number)
	plain, ok := plainDigits(string(n))
	if !ok {
		return "", fmt.Errorf("field %d is no number that can be kept: %w", label, ErrPack)
	}
	return plain, nil
}

var numberShape = regexp.MustCompile(`^(-?)(\d{1,20})(?:\.(\d{1,20}))?(?:[eE]([-+]?\d{1,3}))?$`)

// longest is how many digits a number may have once its exponent is gone.
const longest = 40

// plainDigits moves the point to where the exponent says, so that no digit of
// the number as it was sent is lost or made up.
func plainDigits(text string) (string, bool) {
	part := numberShape.FindStringSubmatch(text)
	if part == nil {
		return "", false
	}
	sign, digits, point := part[1], part[2]+part[3], len(part[2])
	if part[4] != "" {
		exponent, err := strconv.Atoi(part[4])
		if err != nil || exponent > longest || exponent < -longest {
			return "", false
		}
		point += exponent
	}
	if point < 1 {
		digits, point = strings.Repeat("0", 1-point)+digits, 1
	}
	if point > len(digits) {
		digits += strings.Repeat("0", point-len(digits))
	}
	if len(digits) > longest {
		return "", false
	}
	whole := strings.TrimLeft(digits[:point], "0")
	if whole == "" {
		whole = "0"
	}
	if behind := digits[point:]; behind != "" {
		return sign + whole + "." + behind, true
	}
	return sign + whole, true
}

// Shift moves the point of a Value to the right: 0.08 by 1 is 0.8. Where that
// is more than can be kept, ok is false.
func Shift(value string, places int) (shifted string, ok bool) {
	return plainDigits(fmt.Sprintf("%se%d", value, places))
}

// decimals is how many digits stand behind the point.
func decimals(plain string) int {
	_, behind, _ := strings.Cut(plain, ".")
	return len(behind)
}
