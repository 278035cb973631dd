package server

import (
	jsontext "encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	freshetv1 "freshet.example/api/freshet/v1"
)

// The same file tests the app's own table.
func TestCanonicalVectors(t *testing.T) {
	raw, err := os.ReadFile("../testdata/vectors/canonical.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Readings []struct {
			Quantity, Unit, Basis string
			Digits                int64
			Decimals              uint32
			Canonical             *float64
			Within                float64
		}
	}
	if err := jsontext.Unmarshal(raw, &file); err != nil || len(file.Readings) < 15 {
		t.Fatalf("%d vectors, %v", len(file.Readings), err)
	}
	for _, v := range file.Readings {
		r := typedReading{
			quantity: freshetv1.Quantity(freshetv1.Quantity_value["QUANTITY_"+strings.ToUpper(v.Quantity)]), digits: v.Digits, decimals: v.Decimals,
			unit: freshetv1.Unit(freshetv1.Unit_value["UNIT_"+v.Unit]), basis: freshetv1.Basis(freshetv1.Basis_value["BASIS_"+v.Basis]),
		}
		got, refused := r.canonical("reading")
		switch {
		case (refused == nil) != (v.Canonical != nil):
			t.Errorf("%+v: %v", v, refused)
		case refused == nil && math.Abs(float64(got)/1e6-*v.Canonical) > v.Within+1e-6:
			t.Errorf("%+v: %f", v, float64(got)/1e6)
		}
	}
}
