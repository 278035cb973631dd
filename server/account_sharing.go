package server

import (
	"context"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store"
)

// ListSharing says what a site shares, and since when.
func (a *accountService) ListSharing(ctx context.Context, in *freshetv1.ListSharingRequest) (*freshetv1.ListSharingResponse, error) {
	site, err := parseID("site_id", in.GetSiteId())
	if err != nil {
		return nil, err
	}
	rules, err := a.store.SharingRules(ctx, site)
	if err != nil {
		return nil, err
	}
	out := &freshetv1.ListSharingResponse{}
	for _, rule := range rules {
		out.Rules = append(out.Rules, sharingMessage(rule))
	}
	return out, nil
}

// SetSharing changes what a site shares from now on. The gate has looked whose
// the site is.
func (a *accountService) SetSharing(ctx context.Context, in *freshetv1.SetSharingRequest) (*freshetv1.SetSharingResponse, error) {
	caller, err := callerOf(ctx)
	if err != nil {
		return nil, err
	}
	site, err := parseID("site_id", in.GetSiteId())
	if err != nil {
		return nil, err
	}
	if err := checkSharing(in); err != nil {
		return nil, err
	}
	rule, err := a.store.SetSharing(ctx, site, in.GetKind(), store.Sharing(in.GetSharing()), caller.MemberID)
	if err != nil {
		return nil, err
	}
	a.hints.allowed()
	return &freshetv1.SetSharingResponse{Rule: sharingMessage(rule)}, nil
}

func checkSharing(in *freshetv1.SetSharingRequest) error {
	_, event := store.EventTable(in.GetKind())
	_, record := store.RecordTable(in.GetKind())
	if !event && !record && in.GetKind() != "all" {
		return refuse(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_NAME, "kind", "no kind of record has this name", "as in the contract: reading, bed_harvest; or all")
	}
	if in.GetSharing() < freshetv1.Sharing_SHARING_PRIVATE || in.GetSharing() > freshetv1.Sharing_SHARING_OPEN {
		return refuse(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, "sharing", "", "private, figures, named or open")
	}
	return nil
}

func sharingMessage(rule store.SharingRule) *freshetv1.SharingRule {
	return &freshetv1.SharingRule{Kind: rule.Kind, Sharing: freshetv1.Sharing(rule.Sharing), SinceMs: milliseconds(rule.Since)}
}
