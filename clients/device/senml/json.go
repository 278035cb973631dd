package senml

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"
)

// labels are the fields' names in JSON.
var labels = map[string]int{
	"bver": labelVersion, "bn": labelBaseName, "bt": labelBaseTime, "bu": labelBaseUnit, "bv": labelBaseValue, "bs": labelBaseSum,
	"n": labelName, "u": labelUnit, "v": labelValue, "vs": labelText, "vb": labelYesNo, "s": labelSum, "t": labelTime,
	"ut": labelUpdateTime, "vd": labelData,
}

// JSON reads a list in JSON (media type application/senml+json). Now is what
// relative times count from. What is wrong with it is an ErrPack.
func JSON(raw []byte, now time.Time) ([]Measurement, error) {
	var records []map[string]any
	d := json.NewDecoder(bytes.NewReader(raw))
	d.UseNumber()
	if err := d.Decode(&records); err != nil {
		return nil, fmt.Errorf("%w: %w", ErrPack, err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("something stands behind its end: %w", ErrPack)
	}
	all := make([]fields, len(records))
	for i, record := range records {
		all[i] = fields{}
		for name, value := range record {
			if strings.HasSuffix(name, "_") {
				return nil, fmt.Errorf("record %d must not be read without knowing %.40q: %w", i+1, name, ErrPack)
			}
			label, known := labels[name]
			if !known {
				continue // of an extension that may be left out
			}
			if n, isNumber := value.(json.Number); isNumber {
				value = number(n)
			}
			all[i][label] = value
		}
	}
	return resolve(all, now)
}
