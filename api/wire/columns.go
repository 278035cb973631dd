package wire

// delta turns values into differences from the one before.
type delta int64

func (d *delta) next(v int64) int64 {
	step := v - int64(*d)
	*d = delta(v)
	return step
}

// dictionary numbers ids in the order they come.
type dictionary struct {
	ids  *[]string
	seen map[string]uint32
}

func newDictionary(ids *[]string) dictionary {
	return dictionary{ids, make(map[string]uint32)}
}

func (d dictionary) index(id string) uint32 {
	i, ok := d.seen[id]
	if !ok {
		i = uint32(len(*d.ids))
		d.seen[id] = i
		*d.ids = append(*d.ids, id)
	}
	return i
}

// optional is index plus one, so that 0 can say none.
func (d dictionary) optional(id string) uint32 {
	if id == "" {
		return 0
	}
	return d.index(id) + 1
}

// named looks an optional index up.
func named(ids []string, plusOne uint32) (string, bool) {
	if plusOne == 0 {
		return "", true
	}
	if int64(plusOne) > int64(len(ids)) {
		return "", false
	}
	return ids[plusOne-1], true
}

// fold shortens a column of equal values to one, and of zeros to none.
func fold[T comparable](column []T) []T {
	var zero T
	for _, v := range column[1:] {
		if v != column[0] {
			return column
		}
	}
	if column[0] == zero {
		return nil
	}
	return column[:1]
}

// foldZero shortens a column of differences only where all are zero: one value
// there would mean a first value followed by equal steps.
func foldZero(column []int64) []int64 {
	for _, v := range column {
		if v != 0 {
			return column
		}
	}
	return nil
}

// at reads a folded column.
func at[T any](column []T, i int) T {
	var zero T
	switch len(column) {
	case 0:
		return zero
	case 1:
		return column[0]
	}
	return column[i]
}

func fits[T any](column []T, n int) bool {
	return len(column) == 0 || len(column) == 1 || len(column) == n
}

// whole is fits for columns of differences, which are never folded to one.
func whole(column []int64, n int) bool { return len(column) == 0 || len(column) == n }

func mustRun(n int, number func(int) uint64) {
	if n == 0 || n > MaxRows {
		panic("wire: a batch has 1 to 5000 rows")
	}
	for i := range n {
		if number(i) != number(0)+uint64(i) {
			panic("wire: numbers of a batch run on without gaps")
		}
	}
}
