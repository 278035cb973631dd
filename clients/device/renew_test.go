package device_test

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
	"google.golang.org/grpc"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/server/servertest"
)

const endAllTokens = "UPDATE tokens SET ends_at = now() - interval '1 second'"

// behind runs statements behind the server's back.
func behind(t *testing.T, s *servertest.Server, statements ...string) {
	t.Helper()
	conn, err := pgx.Connect(t.Context(), s.DatabaseURL)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(context.Background()) //nolint:errcheck // a test's
	for _, statement := range statements {
		if _, err := conn.Exec(t.Context(), statement); err != nil {
			t.Fatal(err)
		}
	}
}

func content(t *testing.T, d *device.Device, file string) string {
	t.Helper()
	name := filepath.Join(d.Dir(), file)
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if about, err := os.Stat(name); err != nil || about.Mode().Perm() != 0o600 {
		t.Errorf("%s can be read by others: %v %v", file, about.Mode(), err)
	}
	return string(text)
}

// Tokens end again and again, in calls and while hints are listened to, and
// nobody notices.
func TestATokenThatEndsIsRenewedUnnoticed(t *testing.T) {
	s := servertest.New(t)
	first, siteID := at(t, s)
	syncNow(t, first)
	second, _ := at(t, s)
	before := content(t, first, "token")
	ctx, stop := context.WithCancel(t.Context())
	var both sync.WaitGroup
	for _, d := range []*device.Device{first, second} {
		both.Go(func() {
			d.Follow(ctx, func(_ device.Progress, err error) {
				if err != nil {
					t.Errorf("somebody noticed: %v", err)
				}
			})
		})
	}
	defer both.Wait()
	defer stop()
	note(t, first, readingAt(siteID, 1, 71))
	reads(t, second, "71")
	behind(t, s, endAllTokens)
	note(t, first, readingAt(siteID, 2, 72))
	reads(t, second, "71 72")
	if _, err := device.Ask(t.Context(), second, freshetv1.NewAccountServiceClient, freshetv1.AccountServiceClient.WhoAmI, &freshetv1.WhoAmIRequest{}); err != nil {
		t.Error(err)
	}
	if content(t, first, "token") == before {
		t.Error("the token was not renewed")
	}
	content(t, first, "key")
}

// A token that ends between Hello and the stream that fetches is renewed too.
func TestATokenThatEndsBeforeAFetchIsRenewed(t *testing.T) {
	s, ends := servertest.New(t), sync.Once{}
	before := func(ctx context.Context, of *grpc.StreamDesc, on *grpc.ClientConn, method string, open grpc.Streamer, options ...grpc.CallOption) (grpc.ClientStream, error) {
		if strings.HasSuffix(method, "/Pull") {
			ends.Do(func() { behind(t, s, endAllTokens) })
		}
		return open(ctx, of, on, method, options...)
	}
	d, err := device.Open(t.TempDir(), device.WithDialling(grpc.WithChainStreamInterceptor(before)))
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close() //nolint:errcheck // a test's
	enter(t, d, s, "")
	syncNow(t, d)
}

func TestAPhoneThatIsYearsOffRenews(t *testing.T) {
	s := servertest.New(t)
	for _, off := range []time.Duration{5 * 365 * 24 * time.Hour, -5 * 365 * 24 * time.Hour} {
		machine := device.ThisMachine()
		wrong := off
		d, err := device.Open(t.TempDir(), device.WithClock(func() *freshetv1.Noted {
			n := machine()
			n.WallMs += wrong.Milliseconds()
			return n
		}))
		if err != nil {
			t.Fatal(err)
		}
		defer d.Close() //nolint:errcheck // a test's
		enter(t, d, s, "")
		behind(t, s, endAllTokens)
		syncNow(t, d) // before any hello told the time
		wrong += 400 * 24 * time.Hour
		behind(t, s, endAllTokens)
		syncNow(t, d) // the clock jumped since
	}
}

// asBefore makes a device one that joined when devices had no keys.
func asBefore(t *testing.T, d *device.Device) (deviceID string) {
	t.Helper()
	file, err := sql.Open("sqlite", "file:"+filepath.Join(d.Dir(), "device.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close() //nolint:errcheck // a test's
	if err := file.QueryRowContext(t.Context(), `DELETE FROM facts WHERE name = 'keyed' RETURNING (SELECT value FROM facts WHERE name = 'device_id')`).Scan(&deviceID); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(filepath.Join(d.Dir(), "key")); err != nil {
		t.Fatal(err)
	}
	return deviceID
}

func TestADeviceOfBeforeEnrolsAKeyAtItsNextContact(t *testing.T) {
	s := servertest.New(t)
	d, siteID := at(t, s)
	old := strings.TrimSpace(content(t, d, "token"))
	its := " WHERE id = '" + asBefore(t, d) + "'"
	before := []string{"DELETE FROM tokens", "UPDATE devices SET public_key = NULL, token_hash = sha256('" + old + "')" + its}
	behind(t, s, before...)
	note(t, d, readingAt(siteID, 1, 71))
	if p := syncNow(t, d); p.Stored != 1 {
		t.Errorf("%+v", p)
	}
	if _, err := s.WithToken(old).Accounts.WhoAmI(t.Context(), &freshetv1.WhoAmIRequest{}); err == nil {
		t.Error("the token of before still opens")
	}
	behind(t, s, endAllTokens)
	syncNow(t, d)
	// The server is restored from a backup of before that day.
	behind(t, s, before...)
	note(t, d, readingAt(siteID, 2, 72))
	if p := syncNow(t, d); p.Stored != 1 {
		t.Errorf("after a restore: %+v", p)
	}
	behind(t, s, endAllTokens)
	syncNow(t, d)
	if now := strings.TrimSpace(content(t, d, "token")); now == old {
		t.Error("the token of before goes on")
	}
}

func TestARevokedDeviceKeepsWhatWaits(t *testing.T) {
	s := servertest.New(t)
	d, siteID := at(t, s)
	var rows []*freshetv1.Event
	for i := range 200 {
		rows = append(rows, readingAt(siteID, i, 71))
	}
	note(t, d, rows...)
	behind(t, s, "UPDATE devices SET revoked_at = now()", endAllTokens)
	_, err := d.Sync(t.Context())
	var trouble *device.Trouble
	if !errors.As(err, &trouble) || trouble.Reason != "DEVICE_REVOKED" {
		t.Errorf("%v", err)
	}
	if status, err := d.Status(t.Context()); err != nil || status.Waiting != 200 {
		t.Errorf("%+v %v", status, err)
	}
	behind(t, s, "UPDATE devices SET revoked_at = NULL WHERE name LIKE '%Ines%'") // the steward's own
	enter(t, d, s, "")
	if p := syncNow(t, d); p.Stored != 200 {
		t.Errorf("after joining again: %+v", p)
	}
}
