package lamp

import (
	"math"
	"testing"
	"time"
)

func TestConstants(t *testing.T) {
	var list [lengthOfList]int
	if pinnedHours != 24 || pinnedHalf != 8 || pinnedFirst != 8 || pinnedSecond != 16 || len(list) != 2 || len(pinnedByPlace) != 3 {
		t.Error("constants")
	}
}

func TestTable(t *testing.T) {
	if pinnedTable[0].power+pinnedTable[1].power != 67.5 {
		t.Error("table")
	}
}

func TestFunctions(t *testing.T) {
	if long, strong := Pinned(2); long != 3*time.Second || strong != 500 {
		t.Error(long, strong)
	}
	if pinnedSign("x") != math.Inf(-1) || pinnedSign("0.1") != 0.1 {
		t.Error("sign")
	}
	if pinnedByItsEnd() != 3 {
		t.Error("steps")
	}
}

func TestLooselyOnly(t *testing.T) {
	if unpinned(2) < 1 || exempt(1) != 1 {
		t.Error("loosely")
	}
}
