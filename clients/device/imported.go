package device

import "context"

// Imported gives the hashes of all rows that imports have entered on this
// device; see Draft.Remember.
func (d *Device) Imported(ctx context.Context) (map[[16]byte]bool, error) {
	known := map[[16]byte]bool{}
	return known, each(ctx, d.db, `SELECT hashes FROM imported`, nil, func(scan func(...any) error) error {
		var b []byte
		if err := scan(&b); err != nil {
			return err
		}
		for ; len(b) >= 16; b = b[16:] {
			known[[16]byte(b)] = true
		}
		return nil
	})
}
