package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/server/auth"
)

// make hostile says 60, 50 and 20000.
var (
	hostileSeconds = flag.Int("hostile.seconds", 2, "how long each part of the hostile load lasts")
	hostilePhones  = flag.Int("hostile.phones", 10, "honest phones beside it")
	hostileOpened  = flag.Int("hostile.opened", 500, "connections that are opened")
)

// phoneEvery is how often a phone syncs.
const phoneEvery = 2 * time.Second

// BenchmarkHostile measures what honest phones wait for one entry to be synced:
// while nothing else goes on, beside a member that calls as fast as it can, and
// beside everything that strangers may send; both as they are, and with attackers
// who step back for others' work as if they had a machine of their own. It fails
// where a phone's sync fails, or the server ends.
func BenchmarkHostile(b *testing.B) {
	dir := filepath.Join(b.TempDir(), "data")
	p := start(b, "serve", "--data", dir, "--log-level", "info") // as a server usually runs
	h := &neighbours{b: b, p: p, database: postmaster(b, dir)}
	greedy := h.settle(*hostilePhones)
	expired := expiredToken(b, dir)
	beside := func(kind string, lower int) *attack {
		return &attack{Kind: kind, GRPC: p.grpc, HTTP: strings.TrimPrefix(p.http, "http://"), Expired: expired, Member: greedy,
			Seconds: *hostileSeconds, Opened: *hostileOpened, Lower: lower}
	}
	for b.Loop() {
		h.warm()
		h.measure("quiet", nil)
		before := residentKB(b, p.command.Process.Pid)
		for _, kind := range []string{"greedy-member", "attack"} {
			h.measure(kind, beside(kind, 0))
			h.measure(kind+"-apart", beside(kind, 19))
		}
		b.ReportMetric(float64(before)/1000, "MB-before")
	}
	b.ReportMetric(float64(statusKB(b, p.command.Process.Pid, "VmHWM"))/1000, "MB-peak")
	if err := p.end(syscall.SIGTERM); err != nil {
		b.Errorf("the server did not live through it: %v\n%.2000s", err, p.log)
	}
}

// neighbours are honest phones, each of a member with a site.
type neighbours struct {
	b        *testing.B
	p        *process
	database int // process
	devices  []*device.Device
	sites    []string
	quiet    time.Duration // p99
	noted    int64
}

// settle lets phones join, and one member more, whose token it returns.
func (h *neighbours) settle(phones int) (token string) {
	h.b.Helper()
	code := codeShape.FindString(h.p.said)
	for i := range phones {
		d := herdJoin(h.b, h.p, code, i)
		site, err := d.Set(h.b.Context(), &freshetv1.Edit{Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}},
			Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: fmt.Sprint("Barn ", i)}}})
		if err == nil {
			_, err = d.Sync(h.b.Context())
		}
		if err != nil {
			h.b.Fatal(err)
		}
		h.devices, h.sites = append(h.devices, d), append(h.sites, site)
		made, err := device.Ask(h.b.Context(), h.devices[0], freshetv1.NewAccountServiceClient, freshetv1.AccountServiceClient.CreateInvitation,
			&freshetv1.CreateInvitationRequest{Role: freshetv1.Role_ROLE_GROWER})
		if err != nil {
			h.b.Fatal(err)
		}
		code = made.GetCode()
	}
	return h.p.join(code, "Mara Oduya").GetToken()
}

// warm has every phone sync a few times: the first calls of a server are slower,
// and none of them is to be measured against.
func (h *neighbours) warm() {
	var all sync.WaitGroup
	for i := range h.devices {
		all.Go(func() {
			for n := range int64(3) {
				if err := h.entry(i, h.noted+n); err != nil {
					h.b.Errorf("phone %d: %v", i, err)
				}
			}
		})
	}
	all.Wait()
	h.noted += 10_000
}

// measure lets all phones note and sync while something else goes on. Each syncs
// when its time comes, whatever the one before took, and waits are counted from
// then: phones that one stall delays do not come together ever after.
func (h *neighbours) measure(name string, beside *attack) {
	h.b.Helper()
	server, database := processorTime(h.b, h.p.command.Process.Pid), processorTime(h.b, h.database)
	ctx, stop := context.WithTimeout(h.b.Context(), time.Duration(*hostileSeconds)*time.Second)
	defer stop()
	if beside != nil {
		end := beside.start(h.b)
		defer func() {
			took, opened := end()
			h.share("attackers", name, took)
			if opened > 0 {
				h.b.ReportMetric(float64(opened), "connections")
			}
		}()
	}
	var all sync.WaitGroup
	var mu sync.Mutex
	var waits []time.Duration
	for i := range h.devices {
		all.Go(func() {
			due := time.Now().Add(phoneEvery * time.Duration(i) / time.Duration(len(h.devices)))
			for n := int64(0); ctx.Err() == nil; n++ {
				pause(ctx, time.Until(due))
				if ctx.Err() != nil {
					return
				}
				err := h.entry(i, h.noted+n)
				took := time.Since(due)
				due = due.Add(phoneEvery)
				mu.Lock()
				waits = append(waits, took)
				mu.Unlock()
				if err != nil {
					h.b.Errorf("%s: phone %d: %v", name, i, err)
				}
			}
		})
	}
	all.Wait()
	h.share("server", name, processorTime(h.b, h.p.command.Process.Pid)-server)
	h.share("database", name, processorTime(h.b, h.database)-database)
	h.noted += 10_000
	slices.Sort(waits)
	half, most := waits[len(waits)/2], waits[len(waits)*99/100]
	if beside == nil {
		h.quiet = most
	}
	h.b.ReportMetric(float64(half.Milliseconds()), "ms-p50-"+name)
	h.b.ReportMetric(float64(most.Milliseconds()), "ms-p99-"+name)
	h.b.ReportMetric(float64(most)/float64(h.quiet), "ratio-"+name)
	h.b.ReportMetric(float64(len(waits)), "syncs-"+name)
}

// share tells how much of one processor somebody had.
func (h *neighbours) share(whose, part string, took time.Duration) {
	h.b.ReportMetric(100*took.Seconds()/float64(*hostileSeconds), "%-"+whose+"-"+part)
}

// entry is one reading, noted and synced.
func (h *neighbours) entry(i int, n int64) error {
	_, err := h.devices[i].Note(h.b.Context(), &freshetv1.Event{SiteId: h.sites[i], OccurredAt: timestamppb.New(time.Unix(1_700_000_000+n, 0)),
		Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{Quantity: freshetv1.Quantity_QUANTITY_PH, Digits: 70, Decimals: 1, Unit: freshetv1.Unit_UNIT_NONE}}})
	if err != nil {
		return err
	}
	state, err := h.devices[i].Sync(h.b.Context())
	if err == nil && state.Waiting+state.Left > 0 {
		err = fmt.Errorf("%d wait, %d left", state.Waiting, state.Left)
	}
	return err
}

func pause(ctx context.Context, span time.Duration) {
	select {
	case <-ctx.Done():
	case <-time.After(span):
	}
}

// expiredToken gives a device a token that ended an hour ago.
func expiredToken(b *testing.B, dir string) string {
	b.Helper()
	url, err := os.ReadFile(filepath.Join(dir, "database-url"))
	if err != nil {
		b.Fatal(err)
	}
	conn, err := pgx.Connect(b.Context(), strings.TrimSpace(string(url)))
	if err != nil {
		b.Fatal(err)
	}
	defer conn.Close(b.Context()) //nolint:errcheck // all was said
	token, hash := auth.NewToken()
	if _, err := conn.Exec(b.Context(), "INSERT INTO tokens SELECT $1, id, now() - interval '1 hour' FROM devices LIMIT 1", hash); err != nil {
		b.Fatal(err)
	}
	return token
}

// postmaster is the process of a private Postgres.
func postmaster(b *testing.B, dir string) (pid int) {
	b.Helper()
	found, err := filepath.Glob(filepath.Join(dir, "*", "postmaster.pid"))
	if err != nil || len(found) != 1 {
		b.Fatalf("%v: %v", found, err)
	}
	text, err := os.ReadFile(found[0])
	if err == nil {
		_, err = fmt.Sscan(string(text), &pid)
	}
	if err != nil {
		b.Fatal(err)
	}
	return pid
}

// processorTime is what a process and those that it started have used.
func processorTime(b *testing.B, pid int) (used time.Duration) {
	b.Helper()
	all, err := filepath.Glob("/proc/[0-9]*/stat")
	if err != nil {
		b.Fatal(err)
	}
	for _, name := range all {
		text, _ := os.ReadFile(name) // empty where it has ended
		_, after, _ := strings.Cut(string(text), ") ")
		fields := strings.Fields(after) // from state, the third
		itself := name == fmt.Sprintf("/proc/%d/stat", pid)
		if len(fields) < 15 || !itself && fields[1] != fmt.Sprint(pid) {
			continue
		}
		counted := fields[11:13] // its own user and system time
		if itself {
			counted = fields[11:15] // and of children that have ended
		}
		for _, ticks := range counted {
			n, _ := strconv.Atoi(ticks)
			used += time.Duration(n) * time.Second / 100
		}
	}
	return used
}
