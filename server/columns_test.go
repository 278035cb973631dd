package server_test

import (
	"slices"
	"testing"

	"github.com/jackc/pgx/v5"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
	"freshet.example/store"
)

// columnTypes are what a field of each kind may be stored as.
var columnTypes = map[protoreflect.Kind][]string{
	protoreflect.StringKind: {"text", "uuid", "date"}, protoreflect.BytesKind: {"bytea"}, protoreflect.BoolKind: {"boolean"},
	protoreflect.DoubleKind: {"double precision"}, protoreflect.EnumKind: {"smallint"}, protoreflect.MessageKind: {"jsonb", "timestamp with time zone"},
	protoreflect.Uint32Kind: {"bigint", "integer"}, protoreflect.Int64Kind: {"bigint"}, protoreflect.Sint64Kind: {"bigint"}, protoreflect.Uint64Kind: {"bigint"},
}

func TestEveryFieldIsAColumnOfItsTable(t *testing.T) {
	s := servertest.New(t)
	columns := columnsOf(t, s)
	for _, kinds := range []protoreflect.FieldDescriptors{
		(&freshetv1.Edit{}).ProtoReflect().Descriptor().Oneofs().ByName("record").Fields(),
		(&freshetv1.Event{}).ProtoReflect().Descriptor().Oneofs().ByName("kind").Fields(),
	} {
		for i := range kinds.Len() {
			noun := string(kinds.Get(i).Name())
			table, ok := store.RecordTable(noun)
			if !ok {
				table, ok = store.EventTable(noun)
			}
			if !ok {
				t.Errorf("%s has no table", noun)
				continue
			}
			fields := kinds.Get(i).Message().Fields()
			for j := range fields.Len() {
				f := fields.Get(j)
				if noun == "correction" && f.Name() == "replacement" {
					continue // it is stored as an event of its own kind
				}
				got, ok := columns[table+"."+string(f.Name())]
				want := columnTypes[f.Kind()]
				if f.IsList() {
					want = []string{"uuid[]", "text[]", "jsonb"}
				}
				if !ok || !slices.Contains(want, got) {
					t.Errorf("%s.%s is stored in %s as %q, want one of %v", noun, f.Name(), table, got, want)
				}
			}
		}
	}
}

func columnsOf(t *testing.T, s *servertest.Server) map[string]string {
	t.Helper()
	conn, err := pgx.Connect(t.Context(), s.DatabaseURL)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(t.Context())
	rows, err := conn.Query(t.Context(), `SELECT c.relname || '.' || a.attname, format_type(a.atttypid, a.atttypmod)
		FROM pg_attribute a JOIN pg_class c ON c.oid = a.attrelid JOIN pg_namespace n ON n.oid = c.relnamespace
		WHERE n.nspname = 'public' AND c.relkind = 'r' AND a.attnum > 0 AND NOT a.attisdropped`)
	if err != nil {
		t.Fatal(err)
	}
	list := map[string]string{}
	var name, kind string
	if _, err := pgx.ForEachRow(rows, []any{&name, &kind}, func() error { list[name] = kind; return nil }); err != nil {
		t.Fatal(err)
	}
	return list
}
