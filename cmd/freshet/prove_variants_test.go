package main

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"
	"unicode/utf16"
)

// TestVariants: rows as people write them, in a sheet with a byte order mark,
// remarks, columns of its own and in another order. Each says in its first
// column what is to come of it, and what is not answered says why.
func TestVariants(t *testing.T) {
	const name = "testdata/sheets/variants.csv"
	raw, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	_, sheet, _ := strings.Cut(string(raw), "\n")
	wanted, err := csv.NewReader(strings.NewReader(sheet)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	file, err := readFigures(name)
	if err != nil {
		t.Fatal(err)
	}
	proven := proveFile(file)
	if proven.Rows != len(wanted)-1 || len(proven.Results) != proven.Rows || len(proven.Passed) != 2 {
		t.Fatalf("%d rows of %d, columns passed over: %v", proven.Rows, len(wanted)-1, proven.Passed)
	}
	for i, r := range proven.Results {
		if want := wanted[i+1][0]; r.Verdict != want || r.Line != i+3 || want != "agrees" && r.Why+r.Ours == "" {
			t.Errorf("line %d: %s %s = %s %s: %s, want %s: ours %s %s", r.Line, r.Quantity, r.Inputs, r.Expected, r.Unit, r.Verdict, want, r.Ours, r.Why)
		}
	}
}

// One answer, however the sheet was saved.
func TestSheetsInOtherLetters(t *testing.T) {
	const text = "quantity,inputs,expected,unit\nuia_fraction,pH=8;temp_C=24 \u00b0C,0.0502,fraction\n"
	var little, big strings.Builder
	little.WriteString("\xff\xfe")
	big.WriteString("\xfe\xff")
	for _, u := range utf16.Encode([]rune(text)) {
		little.Write([]byte{byte(u), byte(u >> 8)})
		big.Write([]byte{byte(u >> 8), byte(u)})
	}
	for name, saved := range map[string]string{
		"UTF-16": little.String(), "UTF-16, high byte first": big.String(), "ISO 8859-1": strings.ReplaceAll(text, "\u00b0", "\xb0"),
		"lines ended as of old": strings.ReplaceAll(text, "\n", "\r"), "remarks first": "# of a lake\n\n#\n" + text,
	} {
		file, err := onSheet(t, saved)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		} else if p := proveFile(file); p.Counts["agrees"] != 1 || p.Rows != 1 {
			t.Errorf("%s: %+v", name, p.Results)
		}
	}
}

// A quote that nobody closed costs its own row and no other.
func TestOpenQuote(t *testing.T) {
	const row = "uia_fraction,pH=8;temp_C=24,0.0502\n"
	file, err := onSheet(t, "# a remark\nquantity,inputs,expected\n"+row+"\"uia_fraction,pH=8\n"+row+"\"odd\"cell,5\n"+row+"\"")
	if err != nil {
		t.Fatal(err)
	}
	proven := proveFile(file)
	if proven.Rows != 6 || proven.Counts["agrees"] != 3 || proven.Counts["not read"] != 3 {
		t.Fatalf("%+v", proven)
	}
	for i, want := range []string{"agrees", "not read", "agrees", "not read", "agrees", "not read"} {
		if r := proven.Results[i]; r.Verdict != want || r.Line != i+3 {
			t.Errorf("%+v, want line %d %s", r, i+3, want)
		}
	}
}
