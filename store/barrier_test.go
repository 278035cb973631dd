package store_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	neturl "net/url"
	"slices"
	"strings"
	"testing"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"freshet.example/store"
	"freshet.example/store/storetest"
)

// Tables of which every row is everybody's.
var tablesOfNobody = map[string]bool{"schema_migrations": true, "kinds": true}

func TestEveryTableIsClosed(t *testing.T) {
	url := storetest.URL(t)
	for _, table := range query[string](t, url, `SELECT relname FROM pg_class
			WHERE relnamespace = 'public'::regnamespace AND relkind IN ('r', 'p') AND NOT (relrowsecurity AND relforcerowsecurity)`) {
		if !tablesOfNobody[table] {
			t.Errorf("%s has no row security: a step that makes a table calls protect for it", table)
		}
	}
	if owned := query[string](t, url, `SELECT relname FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind IN ('r', 'p', 'S')
			AND relowner <> 'freshet_owner'::regrole`); len(owned) > 0 {
		t.Errorf("not the owner's: %s", owned)
	}
}

func TestAServerThatCouldGoAroundTheRulesDoesNotStart(t *testing.T) {
	url := storetest.URL(t)
	write(t, url, `CREATE ROLE freshet_test_bypass LOGIN BYPASSRLS; GRANT USAGE ON SCHEMA public TO freshet_test_bypass;
		GRANT freshet_server TO freshet_test_bypass`)
	t.Cleanup(func() { write(t, url, "DROP OWNED BY freshet_test_bypass; DROP ROLE freshet_test_bypass") })
	if s, err := store.Open(context.Background(), asRole(t, url, "freshet_test_bypass")); !errors.Is(err, store.ErrPowerful) {
		if err == nil {
			s.Close()
		}
		t.Errorf("%v, want %v", err, store.ErrPowerful)
	}
	s, err := store.Open(context.Background(), asRole(t, url, "freshet_server"))
	if err != nil {
		t.Fatal(err)
	}
	s.Close()
	if _, err := store.OpenKeeper(context.Background(), asRole(t, url, "freshet_server")); err == nil {
		t.Error("the server's role opened the database as its keeper")
	}
}

// asRole is the database's address for another role.
func asRole(t *testing.T, url, role string) string {
	t.Helper()
	u, err := neturl.Parse(url)
	if err != nil {
		t.Fatal(err)
	}
	asked := u.Query()
	asked.Set("user", role)
	u.RawQuery = asked.Encode()
	return u.String()
}

// relation is how a site stands to whoever asks.
type relation int

const (
	ownSite relation = iota
	openSite
	houseOpenSite // opened its private kinds too, one by one
	countedSite
	closedSite
	relations
)

// closedTable is a table, or one noun's rows of a table of sums, with a row as
// it is entered.
type closedTable struct {
	name   string
	kind   string // kept_in of the kind the rows are of
	shape  string // "event", "record" or "sum"
	house  bool
	row    map[string]any
	number string // the column that makes a further row another
}

// TestMatrixOfTheDatabase asks the database itself, past all of the program:
// every table x every role x every relation x every way to touch a row.
func TestMatrixOfTheDatabase(t *testing.T) {
	url := storetest.URL(t)
	ctx := context.Background()
	m := newMatrix(t, url)
	conn, err := pgx.Connect(ctx, asRole(t, url, "freshet_server"))
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(ctx)
	tried := 0
	for role := store.Role(0); role <= store.RoleSensor; role++ { // 0 is nobody
		for _, table := range m.tables {
			tried += m.try(t, conn, role, table)
		}
	}
	t.Logf("%d cases", tried)
	if tried < 4000 {
		t.Errorf("only %d cases were tried", tried)
	}
}

type matrix struct {
	members [store.RoleSensor + 1]uuid.UUID
	// Each role is at a site of its own; the others are one of each relation.
	own    [store.RoleSensor + 1]uuid.UUID
	others [relations]uuid.UUID
	tables []closedTable
}

func newMatrix(t *testing.T, url string) *matrix {
	t.Helper()
	ctx := context.Background()
	conn, err := pgx.Connect(ctx, url)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(ctx)
	m := &matrix{}
	m.tables = closedTables(t, conn)
	exec := func(sql string, arguments ...any) {
		t.Helper()
		if _, err := conn.Exec(ctx, sql, arguments...); err != nil {
			t.Fatal(err)
		}
	}
	for role := range m.members {
		m.members[role], m.own[role] = uuid.New(), uuid.New()
		if role > 0 {
			exec("INSERT INTO accounts (member_id, display_name, role) VALUES ($1, 'somebody', $2)", m.members[role], role)
			exec("INSERT INTO account_sites VALUES ($1, $2)", m.members[role], m.own[role])
		}
	}
	share := func(r relation, kind string, sharing store.Sharing) {
		exec("INSERT INTO sharings VALUES ($1, $2, $3, now(), $4)", m.others[r], kind, sharing, m.members[1])
	}
	for r := range m.others {
		m.others[r] = uuid.New()
	}
	share(openSite, "all", store.SharingOpen)
	share(houseOpenSite, "all", store.SharingOpen)
	for _, kind := range []string{"labour", "expense", "note", "photo"} {
		share(houseOpenSite, kind, store.SharingOpen)
	}
	share(countedSite, "all", store.SharingFigures)
	exec("SET session_replication_role = replica")
	for _, table := range m.tables {
		for _, site := range append(m.own[:], m.others[:]...) {
			exec(table.entering(site, m.members[0]))
		}
	}
	return m
}

// closedTables reads from the database which tables hold growers' rows.
func closedTables(t *testing.T, conn *pgx.Conn) []closedTable {
	t.Helper()
	rows, err := conn.Query(context.Background(), `SELECT c.relname, coalesce(k.kept_in, ''), coalesce(k.house, false),
			jsonb_object_agg(a.attname, format_type(a.atttypid, NULL)) FILTER (WHERE a.attnotnull AND NOT a.atthasdef)
		FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0 LEFT JOIN kinds k ON k.kept_in = c.relname
		WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p') AND c.relname NOT IN ('account_sites', 'sharings', 'shared_now', 'cooperatives', 'members', 'sites', 'photo_files', 'photo_chunks')
			AND EXISTS (SELECT FROM pg_attribute s WHERE s.attrelid = c.oid AND s.attname = 'site_id') GROUP BY 1, 2, 3 ORDER BY 1`)
	if err != nil {
		t.Fatal(err)
	}
	var tables []closedTable
	var table closedTable
	var types map[string]string
	if _, err := pgx.ForEachRow(rows, []any{&table.name, &table.kind, &table.house, &types}, func() error {
		table.fill(types)
		if table.name == "daily" || table.name == "monthly" { // of rows for which it matters whose they are
			table.kind, table.row["noun"] = "feedings", "feedings"
			tables = append(tables, table)
			table.fill(types)
			table.kind, table.house, table.row["noun"] = "labour", true, "labour"
			tables = append(tables, table)
			table.fill(types)
			table.kind, table.house, table.row["noun"] = "readings", false, "readings"
		}
		tables = append(tables, table)
		table, types = closedTable{}, nil
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	if len(tables) < 40 {
		t.Fatalf("only %d tables found", len(tables))
	}
	return tables
}

// fill makes the least row that the table takes.
func (c *closedTable) fill(types map[string]string) {
	c.row, c.shape, c.number = map[string]any{"site_id": nil}, "record", "id"
	for column, of := range types {
		switch {
		case of == "uuid":
			c.row[column] = uuid.New()
		case strings.HasPrefix(of, "timestamp") || of == "date":
			c.row[column] = "2026-05-01"
		case of == "text":
			c.row[column] = "a"
		case of == "boolean":
			c.row[column] = true
		case of == "bytea":
			c.row[column] = `\x00`
		case strings.HasSuffix(of, "[]"):
			c.row[column] = "{}"
		case of == "jsonb":
			c.row[column] = map[string]any{}
		default:
			c.row[column] = 1
		}
	}
	if _, event := types["member_id"]; event {
		c.shape = "event"
	}
	if _, record := types["id"]; !record {
		c.shape, c.number = "sum", "subject_id"
	}
	if c.name == "monthly_bins" {
		c.kind = "readings"
	}
}

// entering is the statement that enters one more row.
func (c *closedTable) entering(site, member uuid.UUID) string {
	c.row["site_id"], c.row[c.number] = site, uuid.New()
	if c.shape == "event" {
		c.row["member_id"] = member
	}
	text, err := json.Marshal(c.row)
	if err != nil {
		panic(err) // the row is this file's
	}
	list := strings.Join(slices.Sorted(maps.Keys(c.row)), ", ")
	return "INSERT INTO " + c.name + " (" + list + ") SELECT " + list + " FROM jsonb_populate_record(NULL::" + c.name + ", '" + string(text) + "')"
}

// try touches the rows of one table at a site of each relation in every way, as
// one role, and takes it back.
func (m *matrix) try(t *testing.T, conn *pgx.Conn, role store.Role, table closedTable) (tried int) {
	t.Helper()
	for r := ownSite; r < relations; r++ {
		site := m.others[r]
		if r == ownSite {
			site = m.own[role]
		}
		changed, forbidden := "corrected_by = gen_random_uuid()", "member_id = gen_random_uuid()"
		if table.shape != "event" {
			changed, forbidden = table.number+" = "+table.number, ""
		}
		where := " WHERE site_id = '" + site.String() + "'"
		if table.shape == "sum" && table.name != "monthly_bins" {
			where += " AND noun = '" + table.kind + "'"
		}
		writes := r == ownSite && mayEnter(role, table)
		for _, attempt := range []struct {
			how, sql string
			may      bool
		}{
			{"sees", "SELECT FROM " + table.name + where, maySee(role, table, r)},
			{"counts in a comparison", "SET LOCAL ROLE freshet_pool; SELECT FROM " + table.name + where, mayCount(role, table, r)},
			{"enters", table.entering(site, m.members[role]), writes},
			{"enters as another", table.entering(site, m.members[0]), writes && table.shape != "event"},
			{"changes", "UPDATE " + table.name + " SET " + changed + where, writes},
			{"rewrites", "UPDATE " + table.name + " SET " + forbidden + where, false},
			{"moves elsewhere", "UPDATE " + table.name + " SET site_id = '" + m.others[closedSite].String() + "'" + where, false},
			{"deletes", "DELETE FROM " + table.name + where, writes && table.shape == "sum"},
		} {
			if attempt.how == "rewrites" && forbidden == "" {
				continue
			}
			tried++
			did, err := attemptAs(conn, m.members[role], attempt.sql)
			if err != nil {
				t.Fatalf("role %d %s %s: %v", role, attempt.how, table.name, err)
			}
			if did != attempt.may {
				t.Errorf("role %d at relation %d %s a row of %s (%s): %v, want %v", role, r, attempt.how, table.name, table.kind, did, attempt.may)
			}
		}
	}
	return tried
}

// TestMatrixOfFiles is TestMatrixOfTheDatabase for the files of photos, which
// are seen and kept as photos are.
func TestMatrixOfFiles(t *testing.T) {
	url := storetest.URL(t)
	m := newMatrix(t, url)
	for _, site := range append(m.own[:], m.others[:]...) {
		write(t, url, fmt.Sprintf(`INSERT INTO photo_files (site_id, sha256, sender_id, size_bytes, media_type) VALUES ('%[1]s', sha256('a'), '%[2]s', 1, 'image/png');
			INSERT INTO photo_chunks VALUES ('%[1]s', sha256('a'), 0, 'a')`, site, m.members[0]))
	}
	conn, err := pgx.Connect(t.Context(), asRole(t, url, "freshet_server"))
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(context.Background())
	photo := closedTable{name: "photos", kind: "photos", shape: "event", house: true}
	for role := store.Role(0); role <= store.RoleSensor; role++ {
		for r := ownSite; r < relations; r++ {
			site := m.others[r]
			if r == ownSite {
				site = m.own[role]
			}
			at, keeps := " WHERE site_id = '"+site.String()+"'", r == ownSite && livesThere(role)
			for _, attempt := range []struct {
				sql string
				may bool
			}{
				{"SELECT FROM photo_files" + at, maySee(role, photo, r)},
				{"SELECT FROM photo_chunks" + at, maySee(role, photo, r)},
				{"SET LOCAL ROLE freshet_pool; SELECT FROM photo_files" + at, false},
				{"INSERT INTO photo_files (site_id, sha256, sender_id, size_bytes, media_type) VALUES ('" + site.String() + "', sha256('b'), acting_member(), 1, '')", keeps},
				{"INSERT INTO photo_files (site_id, sha256, sender_id, size_bytes, media_type) VALUES ('" + site.String() + "', sha256('b'), gen_random_uuid(), 1, '')", false},
				{"INSERT INTO photo_chunks VALUES ('" + site.String() + "', sha256('a'), 1, 'b')", keeps},
				{"UPDATE photo_files SET next_chunk = 1" + at, keeps},
				{"UPDATE photo_files SET size_bytes = 2" + at, false},
				{"UPDATE photo_chunks SET data = 'b'" + at, false},
				{"DELETE FROM photo_files" + at, keeps},
			} {
				did, err := attemptAs(conn, m.members[role], attempt.sql)
				if err != nil || did != attempt.may {
					t.Errorf("role %d at relation %d: %s: %v, want %v (%v)", role, r, attempt.sql, did, attempt.may, err)
				}
			}
		}
	}
}

// attemptAs tells whether a statement did anything for a member.
func attemptAs(conn *pgx.Conn, member uuid.UUID, sql string) (did bool, err error) {
	ctx := context.Background()
	results, err := conn.PgConn().Exec(ctx, "BEGIN; SELECT enter('"+member.String()+"'); "+sql).ReadAll()
	if _, back := conn.Exec(ctx, "ROLLBACK"); back != nil {
		return false, back
	}
	if refused, ok := errors.AsType[*pgconn.PgError](err); ok && refused.Code == "42501" {
		return false, nil
	}
	return err == nil && results[len(results)-1].CommandTag.RowsAffected() > 0, err
}

// What each role may, in words of the cooperative's rules rather than the database's.

func isPerson(role store.Role) bool { return role >= store.RoleSteward && role <= store.RoleReader }

// livesThere: stewards, growers and helpers are at home at their site, readers
// and sensors are not.
func livesThere(role store.Role) bool { return role >= store.RoleSteward && role <= store.RoleHelper }

func maySee(role store.Role, table closedTable, r relation) bool {
	switch r {
	case ownSite:
		return livesThere(role) || role != 0 && !table.house
	case openSite:
		return isPerson(role) && !table.house
	case houseOpenSite:
		return isPerson(role)
	}
	return false
}

// mayCount: a member's own site counts only where it consented, as any other.
func mayCount(role store.Role, table closedTable, r relation) bool {
	switch {
	case !isPerson(role):
		return false
	case table.shape == "record":
		return r == openSite || r == houseOpenSite || r == countedSite
	}
	return r == houseOpenSite || !table.house && (r == openSite || r == countedSite)
}

func mayEnter(role store.Role, table closedTable) bool {
	sensed := table.kind == "readings" || table.kind == "corrections"
	return livesThere(role) || role == store.RoleSensor && sensed && table.shape != "record"
}
