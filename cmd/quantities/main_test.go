package main

import (
	"os"
	"strings"
	"testing"
)

func TestTheAppHasTheTableThatHusbandryHas(t *testing.T) {
	var now strings.Builder
	if err := write(&now); err != nil {
		t.Fatal(err)
	}
	kept, err := os.ReadFile("../../clients/web/src/gen/quantities.ts")
	if err != nil || string(kept) != now.String() {
		t.Errorf("clients/web/src/gen/quantities.ts is not what husbandry says (%v): run make generate", err)
	}
}
