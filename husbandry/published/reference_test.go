package published

import "testing"

var table = [][]string{{"tree", "x", "y"}, {"1", "30", "a b"}, {"2", "40", "c"}, {"11", "50", "d"}}

func TestReferences(t *testing.T) {
	for value, want := range map[string]string{
		"data/o.csv:x": "[30 40 50]", "data/o.csv:Y": "[a_b c d]", "data/o.csv:x:tree=2": "[40]", "data/o.csv:x:tree=1": "[30]", "data/o.csv:x:tree=1*": "[30 50]", "data/o.csv:x:without=2": "[30 50]", "data/o.csv:x:without=9": "[30 40 50]",
	} {
		r, ok := ParseReference(value)
		list, err := r.List(table)
		if !ok || err != nil || r.File != "data/o.csv" || list != want {
			t.Errorf("%s is %v %s, want %s: %v", value, r, list, want, err)
		}
	}
	for _, value := range []string{"x", "7:5", "data/o.csv", "data/o.csv:", "other/o.csv:x"} {
		if r, ok := ParseReference(value); ok {
			t.Errorf("%s was taken for %v", value, r)
		}
	}
	for _, r := range []Reference{{Column: "z"}, {Column: "x", Where: "z", Is: "1"}, {Column: "x", Where: "tree", Is: "3"}, {}} {
		if list, err := r.List(table); err == nil {
			t.Errorf("%v gave %s", r, list)
		}
	}
	if list, err := (Reference{Column: "x"}).List(nil); err == nil {
		t.Errorf("no table gave %s", list)
	}
}

func TestColumns(t *testing.T) {
	table, err := Columns("Data:   1 Factor\n\nData:  Treatment   Response\n 1 1.4\n 2 1.3 \n three words here\n")
	if err != nil || len(table) != 3 || table[0][1] != "Response" || table[2][1] != "1.3" {
		t.Errorf("%v %v", table, err)
	}
	if _, err := Columns("1 2\n"); err == nil {
		t.Error("no names were taken")
	}
}

// TestFirstColumn: a reference may be to the first column of a table.
func TestFirstColumn(t *testing.T) {
	got, err := Reference{File: "f", Column: "a"}.List([][]string{{"a", "b"}, {"1", "2"}, {"3", "4"}})
	if err != nil || got != "[1 3]" {
		t.Error(got, err)
	}
}
