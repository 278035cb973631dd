package main

import (
	"context"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/words"
)

func carryCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "carry FOLDER",
		Short: "Take everything of yours along, as open files",
		Long: "Take everything of yours along, as open files, in a new folder: your sites with all that was\n" +
			"entered there, what you entered elsewhere, your pictures, and what the co-op keeps of you. CSV for\n" +
			"spreadsheets, JSON for programs, and README.txt that says what each file is. Before it, what is new\n" +
			"is fetched from the co-op, where it can be reached.",
		Example: example("freshet carry all-of-mine"),
		Args:    oneArgument("the folder"),
		RunE:    func(c *cobra.Command, args []string) error { return carry(c.Context(), a, args[0]) },
	}
}

// A load is what one member takes along.
type load struct {
	folder  string
	sites   map[string]bool // the member's own
	member  string
	records map[string][]device.Record // by kind
	entries map[string][]device.Entry
}

func carry(ctx context.Context, a *app, folder string) error {
	dev, err := a.device()
	if err != nil {
		return err
	}
	if err := newFolder(folder); err != nil {
		return err
	}
	_, away := dev.Sync(ctx)
	desk, err := a.desk(ctx)
	if err != nil {
		return err
	}
	l := &load{folder: folder, sites: map[string]bool{}, records: map[string][]device.Record{}, entries: map[string][]device.Entry{}}
	known, err := l.standing(ctx, dev)
	if err != nil && away == nil {
		return err
	}
	if err := l.pack(ctx, dev, desk); err != nil {
		return err
	}
	if err := l.write(known); err != nil {
		return err
	}
	pictures, lacking, err := l.pictures(ctx, dev)
	if err != nil {
		return err
	}
	return l.tell(a, pictures, lacking, away)
}

// newFolder makes a folder that was not there: nothing is written over, and no
// link that lies there is followed.
func newFolder(folder string) error {
	err := os.Mkdir(folder, 0o700)
	if errors.Is(err, os.ErrExist) {
		return wrong(folder+" is there already", "give a name that is not taken")
	}
	return err
}

// standing asks what the co-op keeps of the member: account, devices, sharing,
// chronicle, as JSON by file name. Without a word from the co-op it is empty, and
// whose a site is cannot be told: all on the device counts as the member's.
func (l *load) standing(ctx context.Context, dev *device.Device) (map[string][]proto.Message, error) {
	known := map[string][]proto.Message{}
	put := func(file string, m proto.Message) { known[file] = append(known[file], m) }
	accounts := freshetv1.NewAccountServiceClient
	me, err := device.Ask(ctx, dev, accounts, freshetv1.AccountServiceClient.WhoAmI, &freshetv1.WhoAmIRequest{})
	if err != nil {
		return known, err
	}
	put("account", me)
	l.member = me.GetMemberId()
	keeps := me.GetRole() == freshetv1.Role_ROLE_STEWARD || me.GetRole() == freshetv1.Role_ROLE_GROWER
	for _, site := range me.GetSiteIds() {
		l.sites[site] = keeps
		rules, err := device.Ask(ctx, dev, accounts, freshetv1.AccountServiceClient.ListSharing, &freshetv1.ListSharingRequest{SiteId: site})
		if err != nil {
			return known, err
		}
		for _, rule := range rules.GetRules() {
			put("sharing_"+site, rule)
		}
	}
	devices, err := device.Ask(ctx, dev, accounts, freshetv1.AccountServiceClient.ListDevices, &freshetv1.ListDevicesRequest{})
	if err != nil {
		return known, err
	}
	put("devices", devices)
	return known, l.chronicle(ctx, dev, put)
}

// chronicle takes all entries that concern the member, newest first.
func (l *load) chronicle(ctx context.Context, dev *device.Device, put func(string, proto.Message)) error {
	for before := int64(0); ; {
		page, err := device.Ask(ctx, dev, freshetv1.NewAccountServiceClient, freshetv1.AccountServiceClient.ListChronicle,
			&freshetv1.ListChronicleRequest{BeforeNumber: before, AtMost: 200})
		if err != nil || len(page.GetEntries()) == 0 {
			return err
		}
		for _, e := range page.GetEntries() {
			put("chronicle", e)
			before = e.GetNumber()
		}
	}
}

// pack gathers the member's records and entries.
func (l *load) pack(ctx context.Context, dev *device.Device, desk words.Desk) error {
	for _, kind := range device.RecordKinds() {
		for _, r := range desk.Book.Of("", kind) {
			if l.member == "" || l.sites[r.SiteID] || l.sites[r.ID] || r.ID == l.member {
				l.records[kind] = append(l.records[kind], r)
			}
		}
	}
	for _, kind := range device.EventKinds() {
		entries, err := dev.Entries(ctx, device.Want{Kinds: []string{kind}})
		if err != nil {
			return err
		}
		l.entries[kind] = slices.DeleteFunc(entries, func(e device.Entry) bool {
			return l.member != "" && !l.sites[e.Event.GetSiteId()] && !e.Own && e.MemberID != l.member
		})
	}
	return nil
}

// write writes all files but the pictures.
func (l *load) write(known map[string][]proto.Message) error {
	for _, kind := range device.RecordKinds() {
		if _, err := exportRecords(l.records[kind], l.folder, kind); err != nil {
			return err
		}
	}
	for _, kind := range device.EventKinds() {
		if _, err := exportEvents(l.entries[kind], l.folder, kind); err != nil {
			return err
		}
	}
	if err := l.writeJSON("records", l.recordLines); err != nil {
		return err
	}
	if err := l.writeJSON("entries", l.entryLines); err != nil {
		return err
	}
	for file, messages := range known {
		err := l.writeJSON(file, func(line func(any) error) error {
			for _, m := range messages {
				raw, err := protoJSON(m)
				if err = errors.Join(err, line(raw)); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	return os.WriteFile(filepath.Join(l.folder, "README.txt"), []byte(carriedReadme), 0o600)
}

// writeJSON writes a file with one JSON value a line.
func (l *load) writeJSON(name string, lines func(line func(any) error) error) (err error) {
	f, err := os.OpenFile(filepath.Join(l.folder, name+".jsonl"), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600) //nolint:gosec // in a folder made just now
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	to := json.NewEncoder(f)
	to.SetEscapeHTML(false)
	return lines(func(v any) error { return to.Encode(v) })
}

// A carried line is a record or an entry with what stands around it.
type carriedLine struct {
	Kind     string          `json:"kind"`
	ID       string          `json:"id"`
	SiteID   string          `json:"site_id,omitempty"`
	MemberID string          `json:"member_id,omitempty"`
	Content  json.RawMessage `json:"content"`
}

func (l *load) recordLines(line func(any) error) error {
	for _, kind := range device.RecordKinds() {
		for _, r := range l.records[kind] {
			raw, err := protoJSON(r.Message.Interface())
			if err = errors.Join(err, line(carriedLine{Kind: kind, ID: r.ID, SiteID: r.SiteID, Content: raw})); err != nil {
				return err
			}
		}
	}
	return nil
}

func (l *load) entryLines(line func(any) error) error {
	for _, kind := range device.EventKinds() {
		for _, e := range l.entries[kind] {
			raw, err := protoJSON(e.Event)
			if err = errors.Join(err, line(carriedLine{Kind: kind, ID: e.ID, SiteID: e.Event.GetSiteId(), MemberID: e.MemberID, Content: raw})); err != nil {
				return err
			}
		}
	}
	return nil
}

// pictureEndings are how files of each kind of picture end.
var pictureEndings = map[string]string{"image/jpeg": ".jpg", "image/png": ".png", "image/webp": ".webp"}

// pictures copies them, and fetches first those that other devices noted. They
// are named by their hash, never by what somebody typed.
func (l *load) pictures(ctx context.Context, dev *device.Device) (n, lacking int, err error) {
	for _, e := range l.entries["photo"] {
		photo := e.Event.GetPhoto()
		path, err := dev.PhotoPath(ctx, e.Event.GetSiteId(), photo)
		if err != nil {
			lacking++ // it has not arrived at the co-op, or there is no signal
			continue
		}
		to := filepath.Join(l.folder, "photo_"+hex.EncodeToString(photo.GetSha256())+pictureEndings[photo.GetMediaType()])
		if err := copyPicture(path, to); err != nil && !errors.Is(err, os.ErrExist) { // one picture may be in two entries
			return n, lacking, err
		}
		n++
	}
	return n, lacking, nil
}

func (l *load) tell(a *app, pictures, lacking int, away error) error {
	records, entries := 0, 0
	for _, list := range l.records {
		records += len(list)
	}
	for _, list := range l.entries {
		entries += len(list)
	}
	if a.json {
		return printJSON(a.out, map[string]int{"records": records, "entries": entries, "pictures": pictures, "pictures_lacking": lacking})
	}
	p := a.page()
	p.Say(fmt.Sprintf("Took %s, %s and %s along, in %s. README.txt there says what each file is.",
		many(records, "record", "records"), many(entries, "entry", "entries"), many(pictures, "picture", "pictures"), l.folder))
	if lacking > 0 {
		p.Item("~", many(lacking, "picture is", "pictures are")+" on another device only, or cannot be fetched now.")
	}
	if away != nil {
		p.Item("~", "No word from the co-op: this is what this device had, and nothing of what the co-op keeps of you. Do it again with a signal before you leave.")
	}
	p.Say("Notes, money and labour are in it, readable by whoever gets the folder.")
	return p.Err()
}

// carriedReadme says what each file is.
const carriedReadme = `What is in this folder

It is everything of yours as of the day it was made: your sites with all that
was entered there, by whomever, and what you entered at other sites.

KIND.csv             One table a kind of record or entry: site.csv, bed.csv,
                     reading.csv, bed_harvest.csv and so on. A kind of which
                     there is nothing has no file. Text is UTF-8, times are UTC,
                     units stand in the headers (mass_g, volume_l). Columns that
                     end in _id name a row of another table by its id. A cell
                     that a spreadsheet might run as a formula has a ' before it.
records.jsonl        The same records, one JSON value a line, with every field.
entries.jsonl        The same entries, likewise. An entry of kind "correction"
                     voids the entry that it names, or stands in its place.
photo_HASH.jpg       Your pictures, as far as they could be had when this folder
                     was made; photo.csv says which entry each belongs to.
account.jsonl        What the co-op keeps of you: name, role, sites.
devices.jsonl        Your devices, and when each was last heard.
sharing_SITE.jsonl   What the site shares, how far and since when.
chronicle.jsonl      Who did what to rights, as far as it concerns you.

Money is in the smallest unit of its currency. Fields are named as in Freshet's
contract, which explains each (api/freshet/v1).
`
