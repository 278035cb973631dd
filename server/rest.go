package server

import (
	"google.golang.org/genproto/googleapis/api/annotations"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/descriptorpb"

	freshetv1 "freshet.example/api/freshet/v1"
)

// A path is how one unary call is reached by REST. Fields in braces come from
// the path; the others from the query, or with a body from the JSON.
type path struct {
	call     string // "/freshet.v1.SyncService/Push"
	method   string // GET, POST, PUT or DELETE
	template string
}

// paths has one row a unary call. Nouns are the contract's; reading is GET.
var paths = []path{
	{"/grpc.health.v1.Health/Check", "GET", "/v1/health"},

	{freshetv1.AccountService_Join_FullMethodName, "POST", "/v1/join"},
	{freshetv1.AccountService_RenewToken_FullMethodName, "POST", "/v1/token"},
	{freshetv1.AccountService_EnrolKey_FullMethodName, "PUT", "/v1/key"},
	{freshetv1.AccountService_WhoAmI_FullMethodName, "GET", "/v1/me"},
	{freshetv1.AccountService_CreateInvitation_FullMethodName, "POST", "/v1/invitations"},
	{freshetv1.AccountService_CreateRecoveryCode_FullMethodName, "POST", "/v1/recovery-code"},
	{freshetv1.AccountService_ListMembers_FullMethodName, "GET", "/v1/members"},
	{freshetv1.AccountService_SetRole_FullMethodName, "PUT", "/v1/members/{member_id}/role"},
	{freshetv1.AccountService_ListDevices_FullMethodName, "GET", "/v1/devices"},
	{freshetv1.AccountService_RevokeDevice_FullMethodName, "DELETE", "/v1/devices/{device_id}"},
	{freshetv1.AccountService_ListSharing_FullMethodName, "GET", "/v1/sites/{site_id}/sharing"},
	{freshetv1.AccountService_SetSharing_FullMethodName, "PUT", "/v1/sites/{site_id}/sharing/{kind}"},
	{freshetv1.AccountService_ListChronicle_FullMethodName, "GET", "/v1/chronicle"},
	{freshetv1.AccountService_Leave_FullMethodName, "POST", "/v1/leave"},

	{freshetv1.SyncService_Hello_FullMethodName, "POST", "/v1/hello"},
	{freshetv1.SyncService_Push_FullMethodName, "POST", "/v1/push"},

	{freshetv1.PhotoService_FindPhotoFiles_FullMethodName, "GET", "/v1/sites/{site_id}/photos"},
	{freshetv1.PhotoService_PutPhotoThumbnail_FullMethodName, "PUT", "/v1/sites/{site_id}/photos/thumbnail"},
	{freshetv1.PhotoService_PutPhotoChunk_FullMethodName, "PUT", "/v1/sites/{site_id}/photos/chunks/{number}"},
	{freshetv1.PhotoService_GetPhotoThumbnail_FullMethodName, "GET", "/v1/sites/{site_id}/photos/thumbnail"},
	{freshetv1.PhotoService_GetPhotoChunk_FullMethodName, "GET", "/v1/sites/{site_id}/photos/chunks/{number}"},

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
	{freshetv1.AnalysisService_PlanSowing_FullMethodName, "GET", "/v1/sites/{site_id}/sowing-plan"},
	{freshetv1.AnalysisService_JudgeRemedy_FullMethodName, "GET", "/v1/systems/{system_id}/remedies/{register_name}"},
	{freshetv1.AnalysisService_GetLarder_FullMethodName, "GET", "/v1/sites/{site_id}/larder"},
	{freshetv1.AnalysisService_GetOutlook_FullMethodName, "GET", "/v1/systems/{system_id}/outlook"},
	{freshetv1.AnalysisService_FindSigns_FullMethodName, "GET", "/v1/systems/{system_id}/signs"},
	{freshetv1.AnalysisService_ListSeries_FullMethodName, "GET", "/v1/systems/{system_id}/series"},

	{freshetv1.PoolService_CompareSites_FullMethodName, "GET", "/v1/comparison"},
	{freshetv1.PoolService_GetTrialResult_FullMethodName, "GET", "/v1/trials/{trial_id}/result"},
	{freshetv1.PoolService_PlanTrial_FullMethodName, "GET", "/v1/sites/{site_id}/trial-plan"},
}

func (p path) rule() *annotations.HttpRule {
	rule := &annotations.HttpRule{}
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

// A pathed service is a service's descriptor in which each method carries its
// path, as if the .proto file said so. The files stay free of it, so that they
// need nobody's annotations to be compiled for another language. The
// transcoder's own way to be told paths takes one for every method whose name
// begins alike: Compute's for ComputeBatch too.
type pathedService struct{ protoreflect.ServiceDescriptor }

// Methods are the service's, each with its path.
func (s pathedService) Methods() protoreflect.MethodDescriptors {
	return pathedMethods{s.ServiceDescriptor.Methods()}
}

type pathedMethods struct{ protoreflect.MethodDescriptors }

// Get is the method at an index, with its path.
func (m pathedMethods) Get(i int) protoreflect.MethodDescriptor {
	return pathedMethod{m.MethodDescriptors.Get(i)}
}

type pathedMethod struct{ protoreflect.MethodDescriptor }

// Options are the method's, with its path.
func (m pathedMethod) Options() protoreflect.ProtoMessage {
	options := &descriptorpb.MethodOptions{}
	proto.Merge(options, m.MethodDescriptor.Options())
	full := "/" + string(m.Parent().FullName()) + "/" + string(m.Name())
	for _, p := range paths {
		if p.call == full {
			proto.SetExtension(options, annotations.E_Http, p.rule())
		}
	}
	return options
}
