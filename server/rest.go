package server

import (
	"google.golang.org/genproto/googleapis/api/annotations"

	freshetv1 "freshet.example/api/freshet/v1"
)

// A path is how one unary call is reached by REST. Fields in braces come from
// the path; the others from the query, or with a body from the JSON.
type path struct {
	call     string // "freshet.v1.SyncService/Push", as generated: with a slash before it
	method   string // GET, POST, PUT or DELETE
	template string
}

// paths has one row a unary call. Nouns are the contract's; reading is GET.
var paths = []path{
	{"/grpc.health.v1.Health/Check", "GET", "/v1/health"},

	{freshetv1.AccountService_Join_FullMethodName, "POST", "/v1/join"},
	{freshetv1.AccountService_WhoAmI_FullMethodName, "GET", "/v1/me"},
	{freshetv1.AccountService_CreateInvitation_FullMethodName, "POST", "/v1/invitations"},
	{freshetv1.AccountService_ListMembers_FullMethodName, "GET", "/v1/members"},
	{freshetv1.AccountService_SetRole_FullMethodName, "PUT", "/v1/members/{member_id}/role"},
	{freshetv1.AccountService_ListDevices_FullMethodName, "GET", "/v1/devices"},
	{freshetv1.AccountService_RevokeDevice_FullMethodName, "DELETE", "/v1/devices/{device_id}"},
	{freshetv1.AccountService_ListSharing_FullMethodName, "GET", "/v1/sites/{site_id}/sharing"},
	{freshetv1.AccountService_SetSharing_FullMethodName, "PUT", "/v1/sites/{site_id}/sharing/{kind}"},

	{freshetv1.SyncService_Hello_FullMethodName, "POST", "/v1/hello"},
	{freshetv1.SyncService_Push_FullMethodName, "POST", "/v1/push"},

	{freshetv1.HusbandryService_ListFormulas_FullMethodName, "GET", "/v1/formulas"},
	{freshetv1.HusbandryService_Compute_FullMethodName, "POST", "/v1/formulas/{name}"},
	{freshetv1.HusbandryService_ComputeBatch_FullMethodName, "POST", "/v1/formulas"},

	{freshetv1.AnalysisService_GetMorning_FullMethodName, "GET", "/v1/sites/{site_id}/morning"},
	{freshetv1.AnalysisService_DescribeWater_FullMethodName, "GET", "/v1/systems/{system_id}/water"},
	{freshetv1.AnalysisService_ExplainChange_FullMethodName, "GET", "/v1/systems/{system_id}/change"},
	{freshetv1.AnalysisService_EstimateTrouble_FullMethodName, "GET", "/v1/systems/{system_id}/trouble"},
	{freshetv1.AnalysisService_SuggestRation_FullMethodName, "GET", "/v1/systems/{system_id}/ration"},
	{freshetv1.AnalysisService_GetNitrogenBudget_FullMethodName, "GET", "/v1/systems/{system_id}/nitrogen"},
	{freshetv1.AnalysisService_GetStockingLimits_FullMethodName, "GET", "/v1/systems/{system_id}/limits"},
	{freshetv1.AnalysisService_ForecastFishHarvest_FullMethodName, "GET", "/v1/systems/{system_id}/fish-harvest"},
	{freshetv1.AnalysisService_ForecastBearing_FullMethodName, "GET", "/v1/sites/{site_id}/bearing"},
	{freshetv1.AnalysisService_SuggestSowing_FullMethodName, "GET", "/v1/sites/{site_id}/sowing"},
	{freshetv1.AnalysisService_JudgeRemedy_FullMethodName, "GET", "/v1/systems/{system_id}/remedies/{register_name}"},
	{freshetv1.AnalysisService_GetLarder_FullMethodName, "GET", "/v1/sites/{site_id}/larder"},
	{freshetv1.AnalysisService_ListSeries_FullMethodName, "GET", "/v1/systems/{system_id}/series"},

	{freshetv1.PoolService_CompareSites_FullMethodName, "GET", "/v1/comparison"},
	{freshetv1.PoolService_GetTrialResult_FullMethodName, "GET", "/v1/trials/{trial_id}/result"},
}

// rules gives the table to the transcoder. The .proto files stay free of it, so
// that they need no one's annotations to be compiled for another language.
func rules() []*annotations.HttpRule {
	rules := make([]*annotations.HttpRule, len(paths))
	for i, p := range paths {
		rules[i] = p.rule()
	}
	return rules
}

func (p path) rule() *annotations.HttpRule {
	rule := &annotations.HttpRule{Selector: selector(p.call)}
	switch p.method {
	case "GET":
		rule.Pattern = &annotations.HttpRule_Get{Get: p.template}
	case "DELETE":
		rule.Pattern = &annotations.HttpRule_Delete{Delete: p.template}
	case "PUT":
		rule.Pattern, rule.Body = &annotations.HttpRule_Put{Put: p.template}, "*"
	default:
		rule.Pattern, rule.Body = &annotations.HttpRule_Post{Post: p.template}, "*"
	}
	return rule
}

// selector turns "/freshet.v1.SyncService/Push" into "freshet.v1.SyncService.Push".
func selector(fullMethod string) string {
	name := []byte(fullMethod[1:])
	for i, letter := range name {
		if letter == '/' {
			name[i] = '.'
		}
	}
	return string(name)
}
