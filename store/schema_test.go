package store_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"freshet.example/store"
	"freshet.example/store/storetest"
)

func TestOpenRefusesASchemaItMustNotTouch(t *testing.T) {
	for _, c := range []struct{ name, mark, says string }{
		{"newer", "version = 9999", "start the newer release"},
		{"dirty", "dirty = true", "left in the middle"},
	} {
		t.Run(c.name, func(t *testing.T) {
			url := storetest.URL(t)
			write(t, url, "UPDATE schema_migrations SET "+c.mark)
			_, err := store.Open(context.Background(), url)
			wrong, ok := errors.AsType[*store.SchemaError](err)
			if !ok || !strings.Contains(wrong.Error(), c.says) {
				t.Errorf("Open: %v", err)
			}
		})
	}
}

func TestOpenBringsAnEmptyDatabaseUpToDate(t *testing.T) {
	url := storetest.URL(t)
	write(t, url, "DROP SCHEMA public CASCADE; CREATE SCHEMA public")
	s, err := store.Open(context.Background(), url)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if _, err := s.Cooperative(context.Background()); !errors.Is(err, store.ErrNotFounded) {
		t.Errorf("a fresh database holds a cooperative: %v", err)
	}
}
