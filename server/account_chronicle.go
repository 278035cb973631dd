package server

import (
	"context"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5/pgtype"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store"
)

// Entries of one answer.
const (
	defaultEntries = 50
	maxEntries     = 200
)

// ListChronicle tells who did what to sharing, roles, devices and invitations.
// What concerns the caller is decided by the database.
func (a *accountService) ListChronicle(ctx context.Context, in *freshetv1.ListChronicleRequest) (*freshetv1.ListChronicleResponse, error) {
	if in.GetAtMost() > maxEntries {
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, "at_most", "at most 200 entries come at once", "ask for the ones before with before_number")
	}
	if in.GetBeforeNumber() < 0 {
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, "before_number", "", "0 for the newest, else the number of an entry")
	}
	atMost := int(in.GetAtMost())
	if atMost == 0 {
		atMost = defaultEntries
	}
	rows, err := a.store.Chronicle(ctx, in.GetBeforeNumber(), atMost)
	out := &freshetv1.ListChronicleResponse{}
	for _, row := range rows {
		out.Entries = append(out.Entries, chronicleMessage(row))
	}
	return out, err
}

func chronicleMessage(c store.Chronicled) *freshetv1.ChronicleEntry {
	out := &freshetv1.ChronicleEntry{Number: c.Number, AtMs: milliseconds(c.At), Kind: freshetv1.ChronicleKind(c.Kind), About: c.About,
		ActorId: idText(c.ActorID), MemberId: idText(c.MemberID), DeviceId: idText(c.DeviceID)}
	for _, site := range c.SiteIDs {
		out.SiteIds = append(out.SiteIds, site.String())
	}
	if out.GetKind() == freshetv1.ChronicleKind_CHRONICLE_KIND_SHARING_SET {
		out.Sharing = freshetv1.Sharing(c.Level)
	} else {
		out.Role = freshetv1.Role(c.Level)
	}
	return out
}

// idText is empty where there is none.
func idText(id pgtype.UUID) string {
	if !id.Valid {
		return ""
	}
	return uuid.UUID(id.Bytes).String()
}
