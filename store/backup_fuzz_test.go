package store_test

import (
	"os"
	"path/filepath"
	"testing"

	"filippo.io/age"

	"freshet.example/store"
)

// Whatever lies in a folder in a backup's place is refused in words.
func FuzzBackup(f *testing.F) {
	f.Add([]byte(`{"format": 1, "dump_bytes": 5, "dump_sha256": "00", "tables": {"readings": {"rows": 3, "digest": "9"}}}`), []byte("PGDMP"), false)
	f.Add([]byte(`{"format": 2}`), []byte{}, false)
	f.Add([]byte("age-encryption.org/v1\n-> X25519 AAAA\nAAAA\n--- AAAA\n"), []byte("age-encryption.org/v1\n"), true)
	key, err := age.GenerateX25519Identity()
	if err != nil {
		f.Fatal(err)
	}
	folder := f.TempDir()
	f.Fuzz(func(t *testing.T, say, dump []byte, locked bool) {
		ending, keys := "", []age.Identity(nil)
		if locked {
			ending, keys = ".age", append(keys, key)
		}
		for name, text := range map[string][]byte{"backup.json": say, "records.dump": dump} {
			if err := os.WriteFile(filepath.Join(folder, name+ending), text, 0o600); err != nil {
				t.Fatal(err)
			}
			defer os.Remove(filepath.Join(folder, name+ending)) //nolint:errcheck // the next one writes it anew
		}
		// Nobody finds the SHA-256 of what is beside it by chance.
		if _, err := store.ReadBackup(folder, keys...); err == nil || err.Error() == "" {
			t.Errorf("%q with %q is taken for a backup: %v", say, dump, err)
		}
	})
}
