package main

import (
	"database/sql"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
)

var publicKey = regexp.MustCompile(`age1[0-9a-z]+`)

// A server and all it kept are lost; what was entered after the backup comes
// back from the devices.
func TestAServerIsLostAndRestored(t *testing.T) {
	dir, kept := filepath.Join(t.TempDir(), "data"), filepath.Join(t.TempDir(), "kept")
	p := start(t, "serve", "--data", dir)
	phone := joined(t, p.grpc, codeShape.FindString(p.said), "Ines Vaart")
	site, err := phone.Set(t.Context(), &freshetv1.Edit{Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}},
		Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: "Barn"}}})
	if err != nil {
		t.Fatal(err)
	}
	noteAndSync(t, phone, site, 70)
	key := filepath.Join(t.TempDir(), "backups.key")
	exit, out, errs := command(t, "key", key)
	public := publicKey.FindString(out)
	if exit != 0 || public == "" {
		t.Fatalf("key: %d %s%s", exit, out, errs)
	}
	if exit, _, errs := command(t, "backup", kept, "--data", dir, "--encrypt-to", key); exit != 1 || !strings.Contains(errs, "secret") || strings.Contains(errs, "AGE-SECRET") {
		t.Errorf("encrypted to the secret half: %d %s", exit, errs)
	}
	if exit, out, errs := command(t, "backup", kept, "--data", dir, "--encrypt-to", public); exit != 0 || !strings.HasPrefix(out, "Backed up ") {
		t.Fatalf("backup beside the server: %d %s%s", exit, out, errs)
	}
	noteAndSync(t, phone, site, 71)
	if exit, out, errs := command(t, "rehearse", kept, "--data", dir, "--key", key); exit != 0 || !strings.Contains(out, "came back equal") || !strings.Contains(out, "The server was told") {
		t.Fatalf("rehearse beside the server: %d %s%s", exit, out, errs)
	}
	// What is in the backup is let go; what came later is kept, and is sent again.
	letsGo(t, phone, 2, 1)
	if err := p.end(syscall.SIGKILL); err == nil {
		t.Fatal("freshetd lives on")
	}
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	if exit, out, errs := command(t, "rehearse", kept, "--data", dir, "--key", key); exit != 0 || !strings.Contains(out, "came back equal") {
		t.Fatalf("rehearse: %d %s%s", exit, out, errs)
	}
	again := filepath.Join(t.TempDir(), "again")
	if exit, _, errs := command(t, "restore", kept, "--data", again); exit != 1 || !strings.Contains(errs, "--key FILE") {
		t.Errorf("restore without the key: %d %s", exit, errs)
	}
	if exit, out, errs := command(t, "restore", kept, "--data", again, "--key", key); exit != 0 || !strings.Contains(out, "each table as it was backed up") {
		t.Fatalf("restore: %d %s%s", exit, out, errs)
	}
	if exit, _, errs := command(t, "restore", kept, "--data", again, "--key", key); exit != 1 || !strings.Contains(errs, "not empty") {
		t.Errorf("restore over it: %d %s", exit, errs)
	}
	back := start(t, "serve", "--data", again, "--grpc", p.grpc)
	noteAndSync(t, phone, site, 72)
	exit, out, errs = command(t, "invite", "--data", again, "--role", "reader", "--site", site)
	if exit != 0 {
		t.Fatalf("invite: %d %s", exit, errs)
	}
	reader := joined(t, back.grpc, codeShape.FindString(out), "Theo Lind")
	if _, err := reader.Sync(t.Context()); err != nil {
		t.Fatal(err)
	}
	for who, d := range map[string]*device.Device{"the phone": phone, "a new device": reader} {
		entries, err := d.Entries(t.Context(), device.Want{})
		if err != nil || len(entries) != 3 {
			t.Errorf("%s reads %d entries, %v; 3 were noted", who, len(entries), err)
		}
	}
}

// letsGo syncs a device, and finds it keep so many packets where it kept more.
func letsGo(t *testing.T, d *device.Device, before, after int) {
	t.Helper()
	kept := func() (packets int) {
		db, err := sql.Open("sqlite", filepath.Join(d.Dir(), "device.db"))
		if err != nil {
			t.Fatal(err)
		}
		defer db.Close()
		if err := db.QueryRow("SELECT count(*) FROM outbox").Scan(&packets); err != nil {
			t.Fatal(err)
		}
		return packets
	}
	had := kept()
	if _, err := d.Sync(t.Context()); err != nil {
		t.Fatal(err)
	}
	if has := kept(); had < before || has != after {
		t.Errorf("%d packets were kept, now %d, want %d", had, has, after)
	}
}

// joined is a device of somebody who uses a code.
func joined(t *testing.T, address, code, name string) *device.Device {
	t.Helper()
	d, err := device.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = d.Close() }) // its folder goes too
	if err := d.Join(t.Context(), device.Invitation{Code: code, Address: address, Device: "phone", Person: name}); err != nil {
		t.Fatal(err)
	}
	return d
}

func noteAndSync(t *testing.T, d *device.Device, site string, digits int64) {
	t.Helper()
	_, err := d.Note(t.Context(), &freshetv1.Event{SiteId: site, OccurredAt: timestamppb.New(time.Unix(1_750_000_000+digits, 0)),
		Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{Quantity: freshetv1.Quantity_QUANTITY_PH, Digits: digits, Decimals: 1, Unit: freshetv1.Unit_UNIT_NONE}}})
	if err != nil {
		t.Fatal(err)
	}
	if state, err := d.Sync(t.Context()); err != nil || state.Waiting > 0 || state.Left > 0 {
		t.Fatalf("%+v, %v", state, err)
	}
}
