package server

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/server/auth"
	"freshet.example/store"
)

// Bounds of one push, as the contract says.
const (
	maxOperations = 5000
	maxPushBytes  = 1 << 20
	markBytes     = 8
)

// A part of an upload is one operation, or columns of many.
type part struct {
	first, count uint64
	operation    *freshetv1.Operation
	enteredMs    int64 // of an operation, as settled
	readings     *freshetv1.ReadingColumns
	feedings     *freshetv1.FeedingColumns
}

// An upload is a push's operations in the order of their numbers.
type upload struct {
	install wire.Install
	parts   []part
	first   uint64
	last    uint64
	now     *freshetv1.Noted // what the device's clocks said when it sent
	mark    []byte
	after   []byte
}

// readUpload looks at what needs no database: numbers and sizes.
func readUpload(in *freshetv1.PushRequest) (*upload, error) {
	install, err := wire.ParseInstall(in.GetInstall())
	if err != nil {
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, "install", err.Error(), "send the 8 bytes made when the app was installed")
	}
	u := &upload{install: install, now: in.GetNoted(), mark: in.GetMark(), after: in.GetAfterMark()}
	if n := len(u.mark); n != 0 && n != markBytes {
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, "mark", fmt.Sprintf("a mark has %d bytes", markBytes), "")
	}
	for _, op := range in.GetOperations() {
		u.parts = append(u.parts, part{first: op.GetNumber(), count: 1, operation: op})
	}
	for _, c := range in.GetReadings() {
		u.parts = append(u.parts, part{first: c.GetFirstNumber(), count: uint64(c.GetCount()), readings: c})
	}
	for _, dense := range in.GetDenseReadings() {
		c, err := wire.Plain(dense)
		if err != nil {
			return nil, malformed(err, "dense_readings")
		}
		u.parts = append(u.parts, part{first: c.GetFirstNumber(), count: uint64(c.GetCount()), readings: c})
	}
	for _, c := range in.GetFeedings() {
		u.parts = append(u.parts, part{first: c.GetFirstNumber(), count: uint64(c.GetCount()), feedings: c})
	}
	slices.SortStableFunc(u.parts, func(a, b part) int { return cmp.Compare(a.first, b.first) })
	return u, u.numbers()
}

// numbers must run on without gaps.
func (u *upload) numbers() error {
	if len(u.parts) == 0 {
		return nil
	}
	u.first = u.parts[0].first
	next := u.first
	for _, p := range u.parts {
		if p.first != next || p.first == 0 || p.count == 0 || p.count > maxOperations || p.first > wire.MaxNumber-maxOperations {
			return refuse(freshetv1.ErrorReason_ERROR_REASON_NUMBER_GAP, "operations", fmt.Sprintf("operation %d was expected, %d came", next, p.first), "")
		}
		next += p.count
	}
	u.last = next - 1
	if u.last-u.first >= maxOperations {
		return refuse(freshetv1.ErrorReason_ERROR_REASON_TOO_LARGE, "operations", fmt.Sprintf("a push holds at most %d operations", maxOperations), "")
	}
	return nil
}

// touches says of each site that the upload writes to whether it looks back: is
// judged by the site's earlier events or changes them. Only the caller's own
// sites count, and those it makes: what it sends of others' is refused.
func (u *upload) touches(caller auth.Caller) map[uuid.UUID]bool {
	touched := map[uuid.UUID]bool{}
	touch := func(text string, looksBack bool) {
		if id, err := uuid.Parse(text); err == nil && (caller.At(id) || u.makes(id)) {
			touched[id] = touched[id] || looksBack
		}
	}
	for _, p := range u.parts {
		for _, id := range p.readings.GetIds() {
			touch(id, false)
		}
		for _, id := range p.feedings.GetIds() {
			touch(id, false)
		}
		if op := p.operation; op != nil {
			touch(op.GetEvent().GetSiteId(), looksBack(op.GetEvent()))
			touch(op.GetEdit().GetSiteId(), false)
			touch(op.GetRemoval().GetSiteId(), false)
			if op.GetEdit().GetSite() != nil {
				touch(op.GetEdit().GetRecordId(), true)
			}
		}
	}
	return touched
}

// makes tells whether an id is one that an operation of this upload makes.
func (u *upload) makes(id uuid.UUID) bool {
	install, number, ok := wire.Split(id)
	return ok && install == u.install && number >= u.first && number <= u.last
}

// looksBack says whether an event is judged by earlier ones, or changes them.
func looksBack(e *freshetv1.Event) bool {
	switch e.GetKind().(type) {
	case *freshetv1.Event_Stocking, *freshetv1.Event_Count, *freshetv1.Event_Death, *freshetv1.Event_Move, *freshetv1.Event_FishHarvest,
		*freshetv1.Event_Sowing, *freshetv1.Event_Transplanting, *freshetv1.Event_BedHarvest, *freshetv1.Event_Pulling, *freshetv1.Event_Correction:
		return true
	}
	return false
}

// others are the sites that the upload names and that are not the caller's:
// what it says of those that exist is held rather than refused, since the caller
// may have lost them while it waited.
func (u *upload) others(caller auth.Caller) []uuid.UUID {
	found := map[uuid.UUID]bool{}
	note := func(text string) {
		if id, ok := readID(text); ok && !caller.Enters(id) && !u.makes(id) {
			found[id] = true
		}
	}
	for _, p := range u.parts {
		for _, id := range columnSites(p.readings) {
			note(id)
		}
		for _, id := range columnSites(p.feedings) {
			note(id)
		}
		note(p.operation.GetEvent().GetSiteId())
		note(p.operation.GetEdit().GetSiteId())
		note(p.operation.GetRemoval().GetSiteId())
		if p.operation.GetEdit().GetSite() != nil {
			note(p.operation.GetEdit().GetRecordId())
		}
	}
	return slices.Collect(maps.Keys(found))
}

// columnSites are the sites that a batch names, some of them more than once.
func columnSites(c interface {
	GetIds() []string
	GetSites() []uint32
}) []string {
	ids, sites := c.GetIds(), c.GetSites()
	if len(sites) == 0 && len(ids) > 0 {
		return ids[:1]
	}
	named := make([]string, 0, len(sites))
	for _, i := range sites {
		if int64(i) < int64(len(ids)) && (len(named) == 0 || named[len(named)-1] != ids[i]) {
			named = append(named, ids[i])
		}
	}
	return named
}

func (u *upload) pushedBy(caller auth.Caller) store.PushedBy {
	who := store.PushedBy{Install: store.Install(u.install), MemberID: caller.MemberID, DeviceID: caller.DeviceID, Scopes: []string{coopScope}, Others: u.others(caller), Mark: u.mark, After: u.after}
	for site, looksBack := range u.touches(caller) {
		who.Sites = append(who.Sites, site)
		who.Scopes = append(who.Scopes, siteScope(site))
		switch {
		case u.makes(site):
			who.Made = append(who.Made, site)
		case looksBack:
			who.Alone = append(who.Alone, site)
		}
	}
	return who
}

// Names of scopes.
const coopScope = "coop"

func siteScope(site uuid.UUID) string     { return "site:" + site.String() }
func houseScope(site uuid.UUID) string    { return "house:" + site.String() }
func memberScope(member uuid.UUID) string { return "member:" + member.String() }
