package device_test

import (
	"database/sql"
	"path/filepath"
	"testing"

	"google.golang.org/protobuf/types/known/fieldmaskpb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/server/servertest"
)

// rowsIn counts what each table of a device holds.
func rowsIn(t *testing.T, d *device.Device) map[string]int {
	t.Helper()
	db, err := sql.Open("sqlite", filepath.Join(d.Dir(), "device.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close() //nolint:errcheck // it was only read
	tables, err := db.Query(`SELECT name FROM sqlite_schema WHERE type = 'table'`)
	if err != nil {
		t.Fatal(err)
	}
	defer tables.Close() //nolint:errcheck // they were only read
	found := map[string]int{}
	for tables.Next() {
		var name string
		if err := tables.Scan(&name); err != nil {
			t.Fatal(err)
		}
		found[name] = 0
	}
	if err := tables.Err(); err != nil {
		t.Fatal(err)
	}
	for name := range found {
		var rows int
		if err := db.QueryRow("SELECT count(*) FROM " + name).Scan(&rows); err != nil {
			t.Fatal(err)
		}
		found[name] = rows
	}
	return found
}

func TestADeviceThatLeftHoldsNothing(t *testing.T) {
	s := servertest.New(t)
	invited, err := s.Steward().Accounts.CreateInvitation(t.Context(), &freshetv1.CreateInvitationRequest{Role: freshetv1.Role_ROLE_GROWER})
	if err != nil {
		t.Fatal(err)
	}
	d, err := device.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close() //nolint:errcheck // the test ends
	if err := d.Join(t.Context(), device.Invitation{Code: invited.GetCode(), Address: s.GRPCAddress().String(), Person: "Ana Ferro", Device: "phone"}); err != nil {
		t.Fatal(err)
	}
	weir, err := d.Set(t.Context(), &freshetv1.Edit{Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: "Weir"}}, Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}}})
	if err != nil {
		t.Fatal(err)
	}
	shoot(t, d, weir, taken(t, 2, 40, 30))
	if _, err := d.Sync(t.Context()); err != nil {
		t.Fatal(err)
	}
	if held := rowsIn(t, d); held["photo_files"] == 0 || held["records"] == 0 {
		t.Fatalf("it held too little beforehand: %v", held)
	}
	if _, err := d.Leave(t.Context(), "Ana Ferro"); err != nil {
		t.Fatal(err)
	}
	for table, rows := range rowsIn(t, d) {
		if rows != 0 && (table != "facts" || rows != 1) { // facts: the install it is from now on
			t.Errorf("%s holds %d rows after leaving", table, rows)
		}
	}
	if files, _ := filepath.Glob(filepath.Join(d.Dir(), "photos", "*")); len(files) > 0 {
		t.Errorf("pictures stay after leaving: %v", files)
	}
}
