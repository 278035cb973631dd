package main

import (
	"context"
	"errors"

	"freshet.example/clients/device"
)

// findEntry finds an entry by its number, or by its whole id.
func findEntry(ctx context.Context, dev *device.Device, which string) (device.Entry, error) {
	entry, err := dev.FindShort(ctx, which)
	if errors.Is(err, device.ErrUnknownEntry) {
		return entry, wrong("there is no entry "+which+" on this device", "freshet show readings (or another noun) lists entries with their numbers")
	}
	return entry, err
}
