package server

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/auth"
	"freshet.example/store"
)

const (
	defaultHours = 72
	maxHours     = 720
	// A further device is at hand when its code is made.
	furtherDevice = 15 * time.Minute
	// A recovery code lies on paper until it is needed.
	recoveryYears = 100
)

// CreateInvitation makes a code that one person can use once.
//
// Stewards invite anybody, growers invite people and probes to their own
// sites, and everybody invites further devices of their own. Nobody lets others
// into a site that is not theirs: stewards look after the cooperative, not
// after other people's records.
func (a *accountService) CreateInvitation(ctx context.Context, in *freshetv1.CreateInvitationRequest) (*freshetv1.CreateInvitationResponse, error) {
	caller, err := callerOf(ctx)
	if err != nil {
		return nil, err
	}
	if hours := in.GetValidHours(); hours > maxHours {
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, "valid_hours", fmt.Sprintf("%d hours are too long", hours), "from 1 to 720 hours")
	}
	invitation, err := invitationBy(caller, in)
	if err != nil {
		return nil, err
	}
	code, dated := newInvitation(validFor(in))
	invitation.CodeHash, invitation.ExpiresAt = dated.CodeHash, dated.ExpiresAt
	if err := a.store.CreateInvitation(ctx, invitation); err != nil {
		return nil, err
	}
	return &freshetv1.CreateInvitationResponse{Code: code, ExpiresMs: milliseconds(invitation.ExpiresAt), Link: a.link(code)}, nil
}

func validFor(in *freshetv1.CreateInvitationRequest) time.Duration {
	switch {
	case in.GetValidHours() > 0:
		return time.Duration(in.GetValidHours()) * time.Hour
	case in.GetRole() == freshetv1.Role_ROLE_UNSPECIFIED:
		return furtherDevice
	}
	return defaultHours * time.Hour
}

// CreateRecoveryCode makes the code that lets the caller in again when no device
// is left.
func (a *accountService) CreateRecoveryCode(ctx context.Context, _ *freshetv1.CreateRecoveryCodeRequest) (*freshetv1.CreateRecoveryCodeResponse, error) {
	code, hash := auth.NewRecoveryCode()
	if err := a.store.CreateRecovery(ctx, hash, time.Now().AddDate(recoveryYears, 0, 0)); err != nil {
		return nil, err
	}
	return &freshetv1.CreateRecoveryCodeResponse{Code: code, Link: a.link(code)}, nil
}

func invitationBy(caller auth.Caller, in *freshetv1.CreateInvitationRequest) (store.Invitation, error) {
	invitation := store.Invitation{CreatedBy: caller.MemberID, Role: store.Role(in.GetRole())}
	if in.GetRole() == freshetv1.Role_ROLE_UNSPECIFIED {
		if len(in.GetSiteIds()) > 0 {
			return invitation, refuse(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, "site_ids", "a further device of yours has your own sites", "leave it empty, or say the role of the person invited")
		}
		invitation.Role, invitation.MemberID = store.Role(caller.Role), caller.MemberID
		return invitation, nil
	}
	sites, err := sitesFor("site_ids", in.GetRole(), in.GetSiteIds())
	if err != nil {
		return invitation, err
	}
	invitation.SiteIDs = sites
	return invitation, mayInvite(caller, in.GetRole(), sites)
}

func mayInvite(caller auth.Caller, role freshetv1.Role, sites []uuid.UUID) error {
	steward := caller.Is(freshetv1.Role_ROLE_STEWARD)
	toOwnSite := caller.Is(freshetv1.Role_ROLE_GROWER) && len(sites) > 0 &&
		role != freshetv1.Role_ROLE_STEWARD && role != freshetv1.Role_ROLE_GROWER
	if !steward && !toOwnSite {
		return refuse(freshetv1.ErrorReason_ERROR_REASON_ROLE_FORBIDS, "role", "",
			"stewards invite anybody; growers invite helpers, readers and probes to their own sites; everybody may leave the role out to invite a further device of their own")
	}
	for i, site := range sites {
		if !caller.Keeps(site) {
			return refuse(freshetv1.ErrorReason_ERROR_REASON_SITE_NOT_YOURS, fmt.Sprintf("site_ids[%d]", i), "", "only a site's own grower lets others in")
		}
	}
	return nil
}

// sitesFor reads the sites of a role: helpers need some, a probe exactly one.
func sitesFor(field string, role freshetv1.Role, typed []string) ([]uuid.UUID, error) {
	if role < freshetv1.Role_ROLE_STEWARD || role > freshetv1.Role_ROLE_SENSOR {
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, "role", "", "steward, grower, helper, reader or sensor")
	}
	if len(typed) > maxSites {
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_TOO_LONG, field, "", fmt.Sprintf("at most %d sites", maxSites))
	}
	var sites []uuid.UUID
	for i, text := range typed {
		site, err := parseID(fmt.Sprintf("%s[%d]", field, i), text)
		if err != nil {
			return nil, err
		}
		sites = append(sites, site)
	}
	switch {
	case role == freshetv1.Role_ROLE_SENSOR && len(sites) != 1:
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, field, "a probe stands at exactly one site", "name that site")
	case role == freshetv1.Role_ROLE_HELPER && len(sites) == 0:
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, field, "a helper needs at least one site", "name where they help")
	}
	return sites, nil
}

// isNew reports whether an invitation is for a new member rather than for a
// further device.
func isNew(i store.Invitation) bool { return i.MemberID == uuid.Nil }

// Found makes the cooperative in a new database and the invitation of its first
// steward. store.ErrFounded where there is one already.
func Found(ctx context.Context, st *store.Store) (code string, ends time.Time, err error) {
	code, invitation := newInvitation(defaultHours * time.Hour)
	invitation.Role = store.RoleSteward
	return code, invitation.ExpiresAt, st.FoundCooperative(ctx, uuid.New(), invitation)
}

// Invite makes an invitation on behalf of whoever keeps the server, who may let
// anybody in anywhere: they hold the database.
func Invite(ctx context.Context, st *store.Store, role freshetv1.Role, siteIDs []string, hours int) (code string, ends time.Time, err error) {
	if hours < 1 || hours > maxHours {
		return "", ends, refuse(freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, "hours", "an invitation is for 1 to 720 hours", "")
	}
	sites, err := sitesFor("site", role, siteIDs)
	if err != nil {
		return "", ends, err
	}
	code, invitation := newInvitation(time.Duration(hours) * time.Hour)
	invitation.Role, invitation.SiteIDs = store.Role(role), sites
	return code, invitation.ExpiresAt, st.CreateInvitation(ctx, invitation)
}

func newInvitation(valid time.Duration) (code string, invitation store.Invitation) {
	code, hash := auth.NewCode()
	return code, store.Invitation{CodeHash: hash, ExpiresAt: time.Now().Add(valid)}
}
