package server

import (
	"context"
	"fmt"
	"slices"
	"unicode"
	"unicode/utf8"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store"
)

// ListMembers lists the cooperative's members.
func (a *accountService) ListMembers(ctx context.Context, _ *freshetv1.ListMembersRequest) (*freshetv1.ListMembersResponse, error) {
	accounts, err := a.store.Accounts(ctx)
	if err != nil {
		return nil, err
	}
	out := &freshetv1.ListMembersResponse{}
	for _, account := range accounts {
		out.Members = append(out.Members, &freshetv1.MemberSummary{MemberId: account.MemberID.String(),
			DisplayName: account.DisplayName, Role: freshetv1.Role(account.Role)})
	}
	return out, nil
}

// SetRole changes what a member may do. Of the sites named, each must be the
// steward's own or one that the member is at already: a role is no way into
// somebody else's records.
func (a *accountService) SetRole(ctx context.Context, in *freshetv1.SetRoleRequest) (*freshetv1.SetRoleResponse, error) {
	caller, err := callerOf(ctx)
	if err != nil {
		return nil, err
	}
	member, err := parseID("member_id", in.GetMemberId())
	if err != nil {
		return nil, err
	}
	sites, err := sitesFor("site_ids", in.GetRole(), in.GetSiteIds())
	if err != nil {
		return nil, err
	}
	account, err := a.store.Account(ctx, member)
	if err != nil {
		return nil, err
	}
	for i, site := range sites {
		if !caller.Keeps(site) && !slices.Contains(account.SiteIDs, site) {
			return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_SITE_NOT_YOURS, fmt.Sprintf("site_ids[%d]", i), "", "only a site's own grower lets others in")
		}
	}
	err = a.store.SetRole(ctx, member, store.Role(in.GetRole()), sites)
	a.hints.allowed()
	return &freshetv1.SetRoleResponse{}, err
}

// checkName refuses a name that is missing, too long, or would upset a list.
func checkName(field, name string) error {
	switch {
	case name == "":
		return refuse(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, field, "", "")
	case utf8.RuneCountInString(name) > maxName:
		return refuse(freshetv1.ErrorReason_ERROR_REASON_TOO_LONG, field, "", fmt.Sprintf("at most %d characters", maxName))
	}
	for _, r := range name {
		if unicode.IsControl(r) || unicode.In(r, unicode.Bidi_Control, unicode.Zl, unicode.Zp) {
			return refuse(freshetv1.ErrorReason_ERROR_REASON_BAD_TEXT, field, "", "")
		}
	}
	return nil
}

func parseID(field, text string) (uuid.UUID, error) {
	if text == "" {
		return uuid.Nil, refuse(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, field, "", "")
	}
	id, err := uuid.Parse(text)
	if err != nil || id == uuid.Nil {
		return uuid.Nil, refuse(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, field, "", "")
	}
	return id, nil
}
