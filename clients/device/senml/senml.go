// Package senml reads sensor measurement lists (RFC 8428), as probes and
// their gateways send them, in JSON and in CBOR. Numbers are kept as they were
// sent, digit by digit; names, times and values come with their bases added.
package senml

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"regexp"
	"time"
)

// A Measurement is one record with its bases added.
type Measurement struct {
	Name string
	Unit string    // as the SenML registry has it: "Cel"; empty where none was sent
	At   time.Time // what was sent, or the time of reading less what was sent
	// Value is the number as it was sent, in plain digits: "23.10". It is empty
	// for a record that carries no number: a text, a yes or no, bytes, a sum.
	Value string
}

// ErrPack says that bytes are no measurement list: nothing of it is taken.
var ErrPack = errors.New("not a SenML list (RFC 8428)")

// MaxRecords is how many records a list may have.
const MaxRecords = 1000

// The labels of fields, as CBOR has them.
const (
	labelVersion    = -1
	labelBaseName   = -2
	labelBaseTime   = -3
	labelBaseUnit   = -4
	labelBaseValue  = -5
	labelBaseSum    = -6
	labelName       = 0
	labelUnit       = 1
	labelValue      = 2
	labelText       = 3
	labelYesNo      = 4
	labelSum        = 5
	labelTime       = 6
	labelUpdateTime = 7
	labelData       = 8
)

// version is the one that is read; a list may say an older one.
const version = 10

// fields are one record's as they came; numbers are of type number.
type fields map[int]any

// number is a number in digits, maybe with an exponent.
type number string

// A reader keeps the bases from record to record.
type reader struct {
	now        time.Time
	name, unit string
	at         float64
	value      string // in plain digits; empty: none
}

// resolve adds bases to records.
func resolve(records []fields, now time.Time) ([]Measurement, error) {
	if len(records) > MaxRecords {
		return nil, fmt.Errorf("%d records, more than %d: %w", len(records), MaxRecords, ErrPack)
	}
	r := &reader{now: now}
	list := make([]Measurement, 0, len(records))
	for i, f := range records {
		m, err := r.record(f)
		if err != nil {
			return nil, fmt.Errorf("record %d: %w", i+1, err)
		}
		if m != nil {
			list = append(list, *m)
		}
	}
	return list, nil
}

// record takes one record's bases and gives its measurement; nil where it has bases only.
func (r *reader) record(f fields) (*Measurement, error) {
	if err := r.bases(f); err != nil {
		return nil, err
	}
	if !f.measures() {
		return nil, nil
	}
	m := &Measurement{Unit: r.unit}
	own, err := f.text(labelName)
	if err != nil {
		return nil, err
	}
	if m.Name = r.name + own; !nameShape.MatchString(m.Name) {
		return nil, fmt.Errorf("the name %.80q: %w", m.Name, ErrPack)
	}
	unit, err := f.text(labelUnit)
	if err != nil {
		return nil, err
	}
	if unit != "" {
		m.Unit = unit
	}
	if m.At, err = r.moment(f); err != nil {
		return nil, err
	}
	m.Value, err = r.measured(f)
	return m, err
}

// nameShape is what a name, with its base, may be.
var nameShape = regexp.MustCompile(`^[A-Za-z0-9][-A-Za-z0-9:./_]{0,254}$`)

func (r *reader) bases(f fields) (err error) {
	if v, told := f[labelVersion]; told && !readable(v) {
		return fmt.Errorf("version %v is not known: %w", v, ErrPack)
	}
	if _, told := f[labelBaseName]; told {
		if r.name, err = f.text(labelBaseName); err != nil {
			return err
		}
	}
	if _, told := f[labelBaseUnit]; told {
		if r.unit, err = f.text(labelBaseUnit); err != nil {
			return err
		}
	}
	if _, told := f[labelBaseTime]; told {
		if r.at, err = f.seconds(labelBaseTime); err != nil {
			return err
		}
	}
	if _, told := f[labelBaseValue]; told {
		r.value, err = f.digits(labelBaseValue)
	}
	return err
}

// measures tells whether a record has more than bases.
func (f fields) measures() bool {
	for _, label := range []int{labelName, labelValue, labelText, labelYesNo, labelSum, labelData} {
		if _, told := f[label]; told {
			return true
		}
	}
	return false
}

// Seconds below this count from now (RFC 8428, section 4.5.3).
const relative = 1 << 28

// The moments that are read: what a time beyond them means, nobody knows.
const latest = 1 << 33

func (r *reader) moment(f fields) (time.Time, error) {
	own, err := f.seconds(labelTime)
	if err != nil {
		return time.Time{}, err
	}
	at := r.at + own
	if at >= latest || at <= -relative {
		return time.Time{}, fmt.Errorf("the time %v: %w", at, ErrPack)
	}
	whole, part := math.Modf(at)
	span := time.Duration(whole)*time.Second + time.Duration(math.Round(part*1e6))*time.Microsecond
	if at < relative {
		return r.now.Add(span), nil
	}
	return time.Unix(0, 0).Add(span).UTC(), nil
}

// measured is the record's number with the base added.
func (r *reader) measured(f fields) (string, error) {
	if _, told := f[labelValue]; !told {
		return "", nil
	}
	own, err := f.digits(labelValue)
	if err != nil || r.value == "" {
		return own, err
	}
	a, okA := new(big.Rat).SetString(r.value)
	b, okB := new(big.Rat).SetString(own)
	if !okA || !okB {
		return "", fmt.Errorf("the value %s upon %s: %w", own, r.value, ErrPack)
	}
	return a.Add(a, b).FloatString(max(decimals(r.value), decimals(own))), nil
}
