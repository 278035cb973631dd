package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/golang-migrate/migrate/v4"
	migratepgx "github.com/golang-migrate/migrate/v4/database/pgx/v5"
	"github.com/golang-migrate/migrate/v4/source/iofs"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/migrations"
	"freshet.example/server/auth"
	"freshet.example/store/storetest"
)

// barrierStep is the first step that the tables' owner makes; before it there
// was one role for all.
const barrierStep = 11

// A database of every release before this one, with rows in each of its tables,
// is brought up to date: no row is lost or altered, and a server answers from it.
func TestEveryEarlierDatabaseIsBroughtUpToDate(t *testing.T) {
	steps, err := fs.Glob(migrations.Files, "*.up.sql")
	if err != nil || len(steps) < 13 {
		t.Fatal(steps, err)
	}
	for _, step := range steps {
		t.Run(strings.TrimSuffix(step, ".up.sql"), func(t *testing.T) {
			var number uint
			if _, err := fmt.Sscanf(step, "%d_", &number); err != nil {
				t.Fatal(err)
			}
			old := databaseAt(t, number)
			token, hash := auth.NewToken()
			filled := old.fill(hash)
			before := old.sums(filled)
			if exit, _, errs := command(t, "migrate", "--database", old.url); exit != 0 {
				t.Fatalf("migrate: %d %s", exit, errs)
			}
			for table, sum := range old.sums(filled) {
				if sum != before[table] {
					t.Errorf("%s held %s, and now %s", table, before[table], sum)
				}
			}
			old.answers(token, number)
		})
	}
}

// An oldDatabase is as a release before this one left it.
type oldDatabase struct {
	t    *testing.T
	url  string
	conn *pgx.Conn
}

// databaseAt makes the schema as it was after a step.
func databaseAt(t *testing.T, step uint) *oldDatabase {
	t.Helper()
	old := &oldDatabase{t: t, url: storetest.URL(t)}
	config, err := pgx.ParseConfig(old.url)
	if err != nil {
		t.Fatal(err)
	}
	if old.conn, err = pgx.ConnectConfig(t.Context(), config); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = old.conn.Close(context.Background()) })
	old.exec("DROP SCHEMA public CASCADE; CREATE SCHEMA public")
	as := config.Copy()
	if step >= barrierStep {
		old.exec("ALTER SCHEMA public OWNER TO freshet_owner; GRANT USAGE ON SCHEMA public TO freshet_server, freshet_keeper, freshet_gate, freshet_pool")
		as.RuntimeParams["role"] = "freshet_owner"
	}
	db := stdlib.OpenDB(*as)
	defer db.Close()
	source, err := iofs.New(migrations.Files, ".")
	if err != nil {
		t.Fatal(err)
	}
	driver, err := migratepgx.WithInstance(db, &migratepgx.Config{})
	if err != nil {
		t.Fatal(err)
	}
	defer driver.Close()
	runner, err := migrate.NewWithInstance("iofs", source, "pgx5", driver)
	if err == nil {
		err = runner.Migrate(step)
	}
	if err != nil {
		t.Fatal(err)
	}
	return old
}

func (o *oldDatabase) exec(sql string, arguments ...any) {
	o.t.Helper()
	if _, err := o.conn.Exec(o.t.Context(), sql, arguments...); err != nil {
		o.t.Fatalf("%v\n%s", err, sql)
	}
}

// columns are a table's, with their types; those that Postgres fills are left out.
type columns map[string]string

// fill enters two rows into every table that a step did not fill itself. Rows
// of one number belong together, since all ids of a number are the same: member
// 1 is the steward, at site 1, with device 1, whose token has the hash.
func (o *oldDatabase) fill(tokenHash []byte) map[string]columns {
	o.t.Helper()
	rows, err := o.conn.Query(o.t.Context(), `SELECT c.relname, jsonb_object_agg(a.attname, format_type(a.atttypid, NULL))
		FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = ''
		WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p') AND NOT c.relispartition
			AND c.relname NOT IN ('schema_migrations', 'kinds') GROUP BY 1`)
	if err != nil {
		o.t.Fatal(err)
	}
	tables := map[string]columns{}
	var name string
	var of columns
	if _, err := pgx.ForEachRow(rows, []any{&name, &of}, func() error {
		tables[name], of = of, nil
		return nil
	}); err != nil {
		o.t.Fatal(err)
	}
	o.exec("SET session_replication_role = replica") // what is entered is whole: no trigger need add to it
	for name, of := range tables {
		for number := 1; number <= 2 && (number == 1 || name != "server_state"); number++ {
			o.enter(name, of, number, tokenHash)
		}
	}
	return tables
}

func (o *oldDatabase) enter(table string, of columns, number int, tokenHash []byte) {
	o.t.Helper()
	row := map[string]any{}
	for column, kind := range of {
		row[column] = valueOf(column, kind, number)
	}
	switch {
	case table == "scopes":
		row["name"] = "site:" + idOf(number)
	case table == "devices" && number == 1:
		row["token_hash"], row["public_key"] = fmt.Sprintf(`\x%x`, tokenHash), nil
	case table == "devices" && of["public_key"] != "":
		row["token_hash"] = nil
	}
	text, err := json.Marshal(row)
	if err != nil {
		o.t.Fatal(err)
	}
	list := strings.Join(slices.Sorted(maps.Keys(of)), ", ")
	o.exec("INSERT INTO "+table+" ("+list+") OVERRIDING SYSTEM VALUE SELECT "+list+" FROM jsonb_populate_record(NULL::"+table+", $1)", text)
}

func idOf(number int) string { return fmt.Sprintf("00000000-0000-8000-8000-%012d", number) }

// valueOf is what a column of a type may hold, another for each number.
func valueOf(column, kind string, number int) any {
	switch {
	case column == "revoked_at" || column == "corrected_by": // what ended is of no use to the server
		return nil
	case kind == "uuid":
		return idOf(number)
	case strings.HasPrefix(kind, "timestamp") || kind == "date":
		return fmt.Sprintf("2026-05-%02d", number)
	case kind == "text":
		return fmt.Sprint("told ", number)
	case kind == "boolean":
		return column == "only_row"
	case kind == "bytea" && column == "install":
		return `\x` + strings.Repeat(fmt.Sprintf("%02d", number), 8)
	case kind == "bytea":
		return `\x` + strings.Repeat(fmt.Sprintf("%02d", number), 32)
	case strings.HasSuffix(kind, "[]"):
		return "{}"
	case kind == "jsonb":
		return map[string]any{"told": number}
	}
	return number
}

// sums tell what tables hold, in the columns that they had when they were filled.
func (o *oldDatabase) sums(tables map[string]columns) map[string]string {
	o.t.Helper()
	sums := map[string]string{}
	for table, of := range tables {
		list := strings.Join(slices.Sorted(maps.Keys(of)), ", ")
		var sum string
		err := o.conn.QueryRow(o.t.Context(), "SELECT count(*) || ' rows: ' || md5(string_agg(r, ' ' ORDER BY r)) FROM (SELECT ROW("+list+")::text AS r FROM "+table+") AS rows").Scan(&sum)
		if err != nil {
			o.t.Fatalf("%s: %v", table, err)
		}
		sums[table] = sum
	}
	return sums
}

// answers starts a server on what became of the database: the steward's old
// token is let in, and reads what an old step holds of the feed.
func (o *oldDatabase) answers(token string, step uint) {
	o.t.Helper()
	p := start(o.t, "serve", "--database", o.url)
	ctx := as(o.t.Context(), token)
	who, err := p.accounts().WhoAmI(ctx, &freshetv1.WhoAmIRequest{})
	if err != nil || who.GetMemberId() != idOf(1) || who.GetRole() != freshetv1.Role_ROLE_STEWARD {
		o.t.Fatalf("%v, %v", who, err)
	}
	if step < 2 {
		return // there was no feed
	}
	stream, err := p.sync().Pull(ctx, &freshetv1.PullRequest{Scopes: []string{"site:" + idOf(1)}})
	if err != nil {
		o.t.Fatal(err)
	}
	got, err := stream.Recv()
	if err != nil || !bytes.Equal(got.GetPage().GetBlock(), bytes.Repeat([]byte{1}, 32)) {
		o.t.Errorf("the first page is %v, %v", got, err)
	}
}
