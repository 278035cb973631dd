package auth

import (
	freshetv1 "freshet.example/api/freshet/v1"
)

// Access is what a call needs of the thing that it names.
type Access int

const (
	// NothingNamed is for a call that names nothing that belongs to somebody.
	NothingNamed Access = iota
	// ReadsSite wants the site to be one of the caller's, or open to all members.
	ReadsSite
	// OwnSite wants the site to be one of the caller's.
	OwnSite
	// KeepsSite wants the site to be the caller's to decide about.
	KeepsSite
	// OwnDevice wants the device to be the caller's, unless they are a steward.
	OwnDevice
)

// A Row says who may make one call, and what of.
type Row struct {
	Anyone   bool             // no token is needed
	Roles    []freshetv1.Role // who may call
	Field    string           // field of the request that names the thing, an id
	Noun     string           // what the field names: "site", "system", "trial", "device"
	Needs    Access           // what the call needs of it
	Optional bool             // the field may be left empty; nothing is needed then
}

var (
	stewards = []freshetv1.Role{freshetv1.Role_ROLE_STEWARD}
	keepers  = []freshetv1.Role{freshetv1.Role_ROLE_STEWARD, freshetv1.Role_ROLE_GROWER}
	people   = []freshetv1.Role{freshetv1.Role_ROLE_STEWARD, freshetv1.Role_ROLE_GROWER, freshetv1.Role_ROLE_HELPER, freshetv1.Role_ROLE_READER}
	all      = append([]freshetv1.Role{freshetv1.Role_ROLE_SENSOR}, people...)
)

func anyone() Row                     { return Row{Anyone: true} }
func only(roles []freshetv1.Role) Row { return Row{Roles: roles} }

func (r Row) about(field, noun string, needs Access) Row {
	r.Field, r.Noun, r.Needs = field, noun, needs
	return r
}

func (r Row) site() Row   { return r.about("site_id", "site", ReadsSite) }
func (r Row) system() Row { return r.about("system_id", "system", ReadsSite) }
func (r Row) maybe() Row  { r.Optional = true; return r }

// policy has one row a call; changing it is reading it. Calls that are not here
// are refused. Push looks at each of its operations besides, and Hello, Pull and
// Watch open only the caller's scopes.
var policy = map[string]Row{
	"/grpc.health.v1.Health/Check": anyone(),
	"/grpc.health.v1.Health/List":  anyone(),
	"/grpc.health.v1.Health/Watch": anyone(),

	freshetv1.AccountService_Join_FullMethodName:               anyone(),
	freshetv1.AccountService_RenewToken_FullMethodName:         anyone(),
	freshetv1.AccountService_EnrolKey_FullMethodName:           only(all),
	freshetv1.AccountService_WhoAmI_FullMethodName:             only(all),
	freshetv1.AccountService_CreateInvitation_FullMethodName:   only(people),
	freshetv1.AccountService_CreateRecoveryCode_FullMethodName: only(people),
	freshetv1.AccountService_ListMembers_FullMethodName:        only(people),
	freshetv1.AccountService_SetRole_FullMethodName:            only(stewards),
	freshetv1.AccountService_ListDevices_FullMethodName:        only(people),
	freshetv1.AccountService_RevokeDevice_FullMethodName:       only(people).about("device_id", "device", OwnDevice),
	freshetv1.AccountService_ListSharing_FullMethodName:        only(people).site(),
	freshetv1.AccountService_SetSharing_FullMethodName:         only(keepers).about("site_id", "site", KeepsSite),
	freshetv1.AccountService_ListChronicle_FullMethodName:      only(people),
	freshetv1.AccountService_Leave_FullMethodName:              only(people),

	freshetv1.SyncService_Hello_FullMethodName: only(all),
	freshetv1.SyncService_Push_FullMethodName:  only(all),
	freshetv1.SyncService_Pull_FullMethodName:  only(people),
	freshetv1.SyncService_Watch_FullMethodName: only(people),

	freshetv1.PhotoService_FindPhotoFiles_FullMethodName:    only(people).site(),
	freshetv1.PhotoService_PutPhotoThumbnail_FullMethodName: only(people).about("site_id", "site", OwnSite),
	freshetv1.PhotoService_PutPhotoChunk_FullMethodName:     only(people).about("site_id", "site", OwnSite),
	freshetv1.PhotoService_GetPhotoThumbnail_FullMethodName: only(people).site(),
	freshetv1.PhotoService_GetPhotoChunk_FullMethodName:     only(people).site(),

	freshetv1.HusbandryService_ListFormulas_FullMethodName: only(all),
	freshetv1.HusbandryService_Compute_FullMethodName:      only(all),
	freshetv1.HusbandryService_ComputeBatch_FullMethodName: only(all),

	freshetv1.AnalysisService_GetMorning_FullMethodName:          only(people).site(),
	freshetv1.AnalysisService_DescribeWater_FullMethodName:       only(people).system(),
	freshetv1.AnalysisService_ExplainChange_FullMethodName:       only(people).system(),
	freshetv1.AnalysisService_EstimateTrouble_FullMethodName:     only(people).system(),
	freshetv1.AnalysisService_SuggestRation_FullMethodName:       only(people).system(),
	freshetv1.AnalysisService_GetNitrogenBudget_FullMethodName:   only(people).system(),
	freshetv1.AnalysisService_GetStockingLimits_FullMethodName:   only(people).system(),
	freshetv1.AnalysisService_ForecastFishHarvest_FullMethodName: only(people).system(),
	freshetv1.AnalysisService_ForecastBearing_FullMethodName:     only(people).site(),
	freshetv1.AnalysisService_SuggestSowing_FullMethodName:       only(people).site(),
	freshetv1.AnalysisService_PlanSowing_FullMethodName:          only(people).site(),
	freshetv1.AnalysisService_JudgeRemedy_FullMethodName:         only(people).system(),
	freshetv1.AnalysisService_GetLarder_FullMethodName:           only(people).site(),
	freshetv1.AnalysisService_GetOutlook_FullMethodName:          only(people).system(),
	freshetv1.AnalysisService_FindSigns_FullMethodName:           only(people).system(),
	freshetv1.AnalysisService_ListSeries_FullMethodName:          only(people).system(),

	freshetv1.PoolService_CompareSites_FullMethodName:   only(people).about("site_id", "site", OwnSite).maybe(),
	freshetv1.PoolService_GetTrialResult_FullMethodName: only(people).about("trial_id", "trial", ReadsSite),
	freshetv1.PoolService_PlanTrial_FullMethodName:      only(people).about("site_id", "site", OwnSite),
}

// Reflection tells the contract's shape, which is public, and nothing of its
// content; it is open on loopback, and elsewhere to whoever has a token.
var reflection = map[string]bool{
	"/grpc.reflection.v1.ServerReflection/ServerReflectionInfo":      true,
	"/grpc.reflection.v1alpha.ServerReflection/ServerReflectionInfo": true,
}

// Policy returns the row of a call by its full name,
// "/freshet.v1.SyncService/Push"; false where it has none and is refused.
func Policy(fullMethod string) (Row, bool) {
	if reflection[fullMethod] {
		return only(all), true
	}
	row, ok := policy[fullMethod]
	return row, ok
}
