package plan

// noise is a stream of numbers that look drawn by lot and are the same each
// time (SplitMix64: Steele, Lea & Flood 2014, OOPSLA).
type noise uint64

func (n *noise) next() uint64 {
	*n += 0x9e3779b97f4a7c15
	z := uint64(*n)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below is a whole number from 0 up to, not including, n.
func (n *noise) below(limit int) int { return int(n.next() % uint64(limit)) }
