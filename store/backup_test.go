package store_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/uuid"

	"freshet.example/store"
	"freshet.example/store/storetest"
)

// emptied is a database with nothing in it.
func emptied(t testing.TB) string {
	t.Helper()
	url := storetest.URL(t)
	write(t, url, "DROP SCHEMA public CASCADE; CREATE SCHEMA public")
	return url
}

func TestABackupTakenUnderWritesIsRestoredEqual(t *testing.T) {
	p, url := cooperative(t)
	r := seeded(t, 11)
	enter := func(n int) {
		for range n {
			readings := p.randomReadings(r, []uuid.UUID{uuid.Nil})
			p.push(func(push *store.Push) { push.Readings = readings })
		}
	}
	enter(5)
	writing := make(chan struct{})
	go func() {
		defer close(writing)
		enter(40)
	}()
	folder := filepath.Join(t.TempDir(), "kept")
	taken, err := store.TakeBackup(context.Background(), url, folder)
	<-writing
	if err != nil {
		t.Fatal(err)
	}
	if _, err := store.TakeBackup(context.Background(), url, folder); err == nil {
		t.Error("a backup was written over another")
	}
	into := emptied(t)
	restored, epoch, err := store.RestoreBackup(context.Background(), folder, into)
	if err != nil || restored.Rows() != taken.Rows() || epoch <= taken.Epoch || taken.Tables["readings"].Rows == 0 {
		t.Fatalf("%+v, epoch %d, %v; taken %+v", restored, epoch, err, taken)
	}
	// It serves: the member and the next push are let in.
	s, err := store.Open(context.Background(), into)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	if c, err := s.Cooperative(context.Background()); err != nil || c.ID != taken.CooperativeID || c.Epoch != epoch {
		t.Errorf("%+v, %v", c, err)
	}
	if _, err := s.HolderOf(context.Background(), hash(100)); err != nil {
		t.Errorf("its device: %v", err)
	}
	back := newPhone(t, s, p.member(), 9)
	back.settle()
	if err := tryAs(t, into, "freshet_server", "DELETE FROM readings"); err == nil {
		t.Error("the barrier was not restored")
	}
	if _, _, err := store.RestoreBackup(context.Background(), folder, into); err == nil || !strings.Contains(err.Error(), "not empty") {
		t.Errorf("over another database: %v", err)
	}
}

func TestABackupThatWasChangedIsNotReliedOn(t *testing.T) {
	_, url := cooperative(t)
	sound := filepath.Join(t.TempDir(), "kept")
	if _, err := store.TakeBackup(context.Background(), url, sound); err != nil {
		t.Fatal(err)
	}
	into := emptied(t)
	for what, change := range map[string]func(dump, say []byte) ([]byte, []byte){
		"a byte of the dump":  func(dump, say []byte) ([]byte, []byte) { dump[len(dump)/2] ^= 1; return dump, say },
		"the end of the dump": func(dump, say []byte) ([]byte, []byte) { return dump[:len(dump)-9], say },
		"what it says it is":  func(dump, say []byte) ([]byte, []byte) { return dump, say[:len(say)/2] },
		"what it says a table held": func(dump, say []byte) ([]byte, []byte) {
			return dump, bytes.Replace(say, []byte(`"rows": 3`), []byte(`"rows": 4`), 1)
		},
	} {
		dump, err := os.ReadFile(filepath.Join(sound, "records.dump"))
		if err != nil {
			t.Fatal(err)
		}
		say, err := os.ReadFile(filepath.Join(sound, "backup.json"))
		if err != nil {
			t.Fatal(err)
		}
		broken := t.TempDir()
		dump, say = change(dump, say)
		for name, text := range map[string][]byte{"records.dump": dump, "backup.json": say} {
			if err := os.WriteFile(filepath.Join(broken, name), text, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		_, _, err = store.RestoreBackup(context.Background(), broken, into)
		if _, told := errors.AsType[*store.BackupError](err); !told {
			t.Errorf("%s was changed: %v", what, err)
		}
		write(t, into, "DROP SCHEMA public CASCADE; CREATE SCHEMA public")
	}
}

func TestAnUnfinishedBackupHasNoName(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "kept")
	if _, err := store.TakeBackup(context.Background(), storetest.URL(t), folder); !errors.Is(err, store.ErrNotFounded) {
		t.Errorf("of nothing: %v", err)
	}
	left, err := filepath.Glob(folder + "*")
	if err != nil || len(left) > 0 {
		t.Errorf("%v, %v", left, err)
	}
	if _, _, err := store.RestoreBackup(context.Background(), folder, "postgres:///nowhere"); err == nil || !strings.Contains(err.Error(), "holds no backup") {
		t.Errorf("restoring nothing: %v", fmt.Sprint(err))
	}
}
