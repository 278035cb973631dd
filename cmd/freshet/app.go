package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"time"
	_ "time/tzdata" // a machine without zone files still reckons in the site's days

	"golang.org/x/term"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
)

// app is what the commands share: the flags every command takes, where they
// read and write, and the device once it is open.
type app struct {
	in       *os.File
	out, err *os.File
	now      func() time.Time
	home     string
	site     string
	json     bool
	dev      *device.Device
}

// device opens the device's folder when it is first needed.
func (a *app) device() (*device.Device, error) {
	if a.dev != nil {
		return a.dev, nil
	}
	home, err := a.homeFolder()
	if err != nil {
		return nil, err
	}
	a.dev, err = device.Open(home, device.WithClock(a.clock()))
	return a.dev, err
}

// clock is this machine's, with the wall clock that the commands read.
func (a *app) clock() device.Clock {
	machine := device.ThisMachine()
	return func() *freshetv1.Noted {
		noted := machine()
		noted.WallMs = a.now().UnixMilli()
		return noted
	}
}

func (a *app) homeFolder() (string, error) {
	if a.home != "" {
		return a.home, nil
	}
	if dir := os.Getenv("FRESHET_HOME"); dir != "" {
		return dir, nil
	}
	dir, err := os.UserConfigDir()
	return filepath.Join(dir, "freshet"), err
}

func (a *app) close() {
	if a.dev == nil {
		return
	}
	if err := a.dev.Close(); err != nil {
		say(a.err, "While closing the device's folder: %v", err)
	}
}

// page begins a screen as wide as the terminal.
func (a *app) page() *page.Page { return page.New(a.out, widthOf(a.out)) }

// widthOf is the terminal's width, COLUMNS where it is set, else 80.
func widthOf(f *os.File) int {
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n > 0 {
		return n
	}
	if w, _, err := term.GetSize(int(f.Fd())); err == nil && w > 0 {
		return w
	}
	return 80
}

// asks tells whether a person can be asked: both ends are a terminal.
func (a *app) asks() bool {
	return term.IsTerminal(int(a.in.Fd())) && term.IsTerminal(int(a.err.Fd())) && !a.json
}

// desk gathers what typed words are read against.
func (a *app) desk(ctx context.Context) (words.Desk, error) {
	dev, err := a.device()
	if err != nil {
		return words.Desk{}, err
	}
	records, err := dev.Records(ctx)
	if err != nil {
		return words.Desk{}, err
	}
	pulled, err := dev.Entries(ctx, device.Want{Kinds: []string{"pulling"}})
	if err != nil {
		return words.Desk{}, err
	}
	ended := map[string]bool{}
	for _, e := range pulled {
		ended[e.Event.GetPulling().GetPlantingId()] = true
	}
	d := words.Desk{Book: words.NewBook(records, ended), Now: a.now()}
	if a.site != "" {
		site, err := d.Book.Find("", a.site, "site")
		if err != nil {
			return d, err
		}
		d.SiteID = site.ID
	} else if sites := d.Book.Of("", "site"); len(sites) == 1 {
		d.SiteID = sites[0].ID
	}
	d.Now = d.Now.In(zoneOf(d.Book, d.SiteID))
	return d, nil
}

// zoneOf is the site's time zone, the machine's where the site names none.
func zoneOf(book *words.Book, siteID string) *time.Location {
	site, ok := book.ByID(siteID)
	if !ok {
		return time.Local
	}
	field := site.Message.Descriptor().Fields().ByName("time_zone")
	zone, err := time.LoadLocation(site.Message.Get(field).String())
	if err != nil || site.Message.Get(field).String() == "" {
		return time.Local
	}
	return zone
}

// say writes a line outside a page.
func say(w io.Writer, format string, args ...any) { tell(w, format+"\n", args...) }

// tell writes what a line goes on from.
func tell(w io.Writer, format string, args ...any) {
	_, _ = fmt.Fprintf(w, format, args...) // a terminal that is gone cannot be told
}
