package analysis

import (
	"context"
	"time"

	"freshet.example/store"
)

// poured is the water that was added to the loop from a moment to another, and
// the water that was let go, L.
func (l *loop) poured(ctx context.Context, from, to time.Time) (in, out float64, err error) {
	added, err := store.History[store.WaterIn](ctx, l.store, l.Site.ID, from, to)
	if err != nil {
		return 0, 0, err
	}
	for _, w := range added {
		if w.SystemID == l.ID || l.holds(w.VesselID) {
			in += w.VolumeL
		}
	}
	gone, err := store.History[store.WaterOut](ctx, l.store, l.Site.ID, from, to)
	for _, w := range gone {
		if w.SystemID == l.ID || l.holds(w.VesselID) {
			out += w.VolumeL
		}
	}
	return in, out, err
}
