package senml

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/fxamacker/cbor/v2"
)

// plain reads what a measurement list needs of CBOR, and no deeper.
var plain = reading()

func reading() cbor.DecMode {
	mode, err := cbor.DecOptions{
		DupMapKey: cbor.DupMapKeyEnforcedAPF, MaxNestedLevels: 6, MaxArrayElements: MaxRecords, MaxMapPairs: 64,
		IntDec: cbor.IntDecConvertSignedOrFail,
	}.DecMode()
	if err != nil {
		panic(err) // the options stand above
	}
	return mode
}

// CBOR reads a list in CBOR (media type application/senml+cbor). Now is what
// relative times count from. What is wrong with it is an ErrPack.
func CBOR(raw []byte, now time.Time) ([]Measurement, error) {
	var records []map[any]any
	if err := plain.Unmarshal(raw, &records); err != nil {
		return nil, fmt.Errorf("%w: %w", ErrPack, err)
	}
	all := make([]fields, len(records))
	for i, record := range records {
		all[i] = fields{}
		for key, value := range record {
			if name, isText := key.(string); isText && strings.HasSuffix(name, "_") {
				return nil, fmt.Errorf("record %d must not be read without knowing %.40q: %w", i+1, name, ErrPack)
			}
			if label, isLabel := key.(int64); isLabel && label >= labelBaseSum && label <= labelData {
				all[i][int(label)] = asNumber(value)
			}
		}
	}
	return resolve(all, now)
}

// asNumber gives numbers in digits and leaves the rest as it is.
func asNumber(value any) any {
	switch v := value.(type) {
	case int64:
		return number(strconv.FormatInt(v, 10))
	case float64:
		return number(shortest(v))
	case cbor.Tag:
		return fraction(v)
	}
	return value
}

// shortest are the fewest digits that say a binary fraction. One that fits half
// the bits was sent in half the bits: 23.1, not 23.100000381469727.
func shortest(v float64) string {
	if half := float32(v); float64(half) == v {
		return strconv.FormatFloat(v, 'e', -1, 32)
	}
	return strconv.FormatFloat(v, 'e', -1, 64)
}

// fraction reads a decimal fraction (RFC 8949, section 3.4.4): exponent and digits.
func fraction(t cbor.Tag) any {
	const decimalFraction = 4
	parts, isList := t.Content.([]any)
	if t.Number != decimalFraction || !isList || len(parts) != 2 {
		return t
	}
	exponent, okE := parts[0].(int64)
	digits, okD := parts[1].(int64)
	if !okE || !okD {
		return t
	}
	return number(fmt.Sprintf("%de%d", digits, exponent))
}
