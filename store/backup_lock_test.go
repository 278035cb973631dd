package store_test

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"filippo.io/age"

	"freshet.example/store"
)

func newKey(t *testing.T) *age.X25519Identity {
	t.Helper()
	key, err := age.GenerateX25519Identity()
	if err != nil {
		t.Fatal(err)
	}
	return key
}

// Rows of photos' files go through an encrypted backup and come back; each of
// two keys opens it, another does not, and nothing of it can be read without.
func TestAnEncryptedBackupIsOpenedByItsKeysAlone(t *testing.T) {
	_, url := cooperative(t)
	picture := bytes.Repeat([]byte("a picture of a trout"), 20_000)
	write(t, url, `SET session_replication_role = replica;
		INSERT INTO photo_files (site_id, sha256, sender_id, size_bytes, media_type, next_chunk, whole_at)
			SELECT id, sha256('trout'), id, 400000, 'image/jpeg', 4, now() FROM (SELECT gen_random_uuid() AS id) AS of;
		INSERT INTO photo_chunks SELECT site_id, sha256, n, convert_to(substr(repeat('a picture of a trout', 20000), n * 131072 + 1, 131072), 'UTF8')
			FROM photo_files, generate_series(0, 3) AS n`)
	mine, spare := newKey(t), newKey(t)
	folder := filepath.Join(t.TempDir(), "kept")
	ctx := context.Background()
	taken, err := store.TakeBackup(ctx, url, folder, mine.Recipient(), spare.Recipient())
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"records.dump.age", "backup.json.age"} {
		text, err := os.ReadFile(filepath.Join(folder, name))
		if err != nil || bytes.Contains(text, []byte("trout")) || bytes.Contains(text, []byte("readings")) {
			t.Errorf("%s can be read: %v", name, err)
		}
	}
	if files, err := os.ReadDir(folder); err != nil || len(files) != 2 {
		t.Errorf("the folder holds %v, %v", files, err)
	}
	if _, err := store.ReadBackup(folder); !errors.Is(err, store.ErrLocked) {
		t.Errorf("without a key: %v", err)
	}
	if _, err := store.ReadBackup(folder, newKey(t)); !errors.Is(err, store.ErrWrongKey) {
		t.Errorf("with another key: %v", err)
	}
	if _, err := store.ReadBackup(folder, mine); err != nil {
		t.Errorf("with the first key: %v", err)
	}
	into := emptied(t)
	back, _, err := store.RestoreBackup(ctx, folder, into, spare)
	if err != nil || back.Tables["photo_chunks"] != taken.Tables["photo_chunks"] || back.Tables["photo_chunks"].Rows != 4 {
		t.Fatalf("%+v, %v", back, err)
	}
	if got := query[[]byte](t, into, "SELECT string_agg(data, '' ORDER BY number) FROM photo_chunks"); !bytes.Equal(got[0], picture) {
		t.Errorf("the picture came back as %d other bytes", len(got[0]))
	}
}

func TestAnEncryptedBackupThatWasAlteredIsRefused(t *testing.T) {
	_, url := cooperative(t)
	key := newKey(t)
	sound := filepath.Join(t.TempDir(), "kept")
	if _, err := store.TakeBackup(context.Background(), url, sound, key.Recipient()); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"records.dump.age", "backup.json.age"} {
		for what, alter := range map[string]func([]byte) []byte{
			"a byte of the header": func(text []byte) []byte { text[40] ^= 1; return text },
			"a byte of the middle": func(text []byte) []byte { text[len(text)/2] ^= 1; return text },
			"the end, cut off":     func(text []byte) []byte { return text[:len(text)-9] },
			"all of it":            func([]byte) []byte { return nil },
		} {
			broken := filepath.Join(t.TempDir(), "broken")
			if err := os.CopyFS(broken, os.DirFS(sound)); err != nil {
				t.Fatal(err)
			}
			text, err := os.ReadFile(filepath.Join(broken, name))
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(broken, name), alter(text), 0o600); err != nil {
				t.Fatal(err)
			}
			_, err = store.ReadBackup(broken, key)
			if _, told := errors.AsType[*store.BackupError](err); !told && !errors.Is(err, store.ErrWrongKey) {
				t.Errorf("%s, %s: %v", name, what, err)
			}
		}
	}
	plain := filepath.Join(t.TempDir(), "plain")
	if _, err := store.TakeBackup(context.Background(), url, plain); err != nil {
		t.Fatal(err)
	}
	if _, err := store.ReadBackup(plain, key); !errors.Is(err, store.ErrNotLocked) {
		t.Errorf("a plain backup in its place: %v", err)
	}
}
