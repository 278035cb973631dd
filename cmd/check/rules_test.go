package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestThisTreeKeepsItsRules(t *testing.T) {
	t.Chdir("../..")
	faults, err := rules(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range faults {
		t.Error(fault)
	}
}

func TestEachRuleIsFelt(t *testing.T) {
	t.Chdir(t.TempDir())
	for name, text := range map[string]string{
		"husbandry/fish/clock.go":        "// Package fish .\npackage fish\nimport \"time\"\n",
		"husbandry/fish/age.go":          "package fish\nfunc Age() {}\nfunc Size() {}\nfunc Mute() {}\n",
		"husbandry/fish/formulas.go":     "package fish\nvar Formulas = Size\n",
		"cmd/check/no_formula.txt":       "# why\nfish.Mute\nfish.Gone so\nfish.Size so\n",
		"store/rows.go":                  "// Package store .\npackage store\nimport _ \"freshet.example/api/freshet/v1\"\n",
		"server/web.go":                  "// Package server .\npackage server\nimport _ \"freshet.example/clients/device\"\n",
		"api/wire/wire.go":               "package wire\n",
		"clients/device/device.go":       "// Package device .\npackage device\nimport _ \"freshet.example/cmd/freshet\"\n",
		"migrations/0001_records.up.sql": "", "migrations/2_more.sql": "",
		"migrations/0003_one.up.sql": "", "migrations/0003_one.down.sql": "", "migrations/0003_other.up.sql": "", "migrations/0003_other.down.sql": "",
	} {
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	faults, err := rules(".")
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(faults, "\n")
	for _, wanted := range []string{
		"husbandry is pure", "store may not", "server may not", "nobody imports cmd", "api/wire: no package comment", "0001_records: has no pair", "0003_one: has no pair, or its number is another", "is not named",
		"fish.Age: cannot be asked", "fish.Mute stands without a reason", "fish.Gone is no exported", "fish.Size is among the formulas",
	} {
		if !strings.Contains(all, wanted) {
			t.Errorf("nothing says %q in:\n%s", wanted, all)
		}
	}
}
