package auth

import (
	"strings"
	"testing"

	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"

	freshetv1 "freshet.example/api/freshet/v1"
)

// contract lists every call of the contract by its full name.
func contract(t *testing.T) map[string]protoreflect.MethodDescriptor {
	t.Helper()
	calls := map[string]protoreflect.MethodDescriptor{}
	protoregistry.GlobalFiles.RangeFilesByPackage("freshet.v1", func(file protoreflect.FileDescriptor) bool {
		for i := range file.Services().Len() {
			service := file.Services().Get(i)
			for j := range service.Methods().Len() {
				method := service.Methods().Get(j)
				calls["/"+string(service.FullName())+"/"+string(method.Name())] = method
			}
		}
		return true
	})
	if len(calls) < 30 {
		t.Fatalf("only %d calls found in the contract", len(calls))
	}
	return calls
}

func TestEveryCallHasARow(t *testing.T) {
	for name, method := range contract(t) {
		row, ok := Policy(name)
		if !ok {
			t.Errorf("%s has no row in the policy", name)
			continue
		}
		if row.Anyone != (name == freshetv1.AccountService_Join_FullMethodName || name == freshetv1.AccountService_RenewToken_FullMethodName) {
			t.Errorf("%s: Anyone is %v", name, row.Anyone)
		}
		if !row.Anyone && len(row.Roles) == 0 {
			t.Errorf("%s: nobody may call it", name)
		}
		checkNamed(t, name, row, method)
	}
}

// checkNamed proves that a row with a field names one that the request has, and
// that no request with a field of somebody's is let through unlooked at.
func checkNamed(t *testing.T, name string, row Row, method protoreflect.MethodDescriptor) {
	t.Helper()
	fields := method.Input().Fields()
	if row.Field != "" {
		field := fields.ByName(protoreflect.Name(row.Field))
		if field == nil || field.Kind() != protoreflect.StringKind || field.IsList() {
			t.Errorf("%s: the request has no text field %s", name, row.Field)
		}
	}
	if (row.Field == "") != (row.Needs == NothingNamed) {
		t.Errorf("%s: field %q needs %d", name, row.Field, row.Needs)
	}
	if row.Field != "" && method.IsStreamingServer() {
		t.Errorf("%s: a stream's request is not looked at by the gate", name)
	}
	for _, guarded := range []protoreflect.Name{"site_id", "system_id", "trial_id", "device_id"} {
		if fields.ByName(guarded) != nil && row.Field != string(guarded) && !row.Anyone { // of nobody known, what they name is proved by the call itself
			t.Errorf("%s: %s is not in its row", name, guarded)
		}
	}
}

func TestPolicyHasNoRowForACallThatIsNot(t *testing.T) {
	calls := contract(t)
	for name := range policy {
		if strings.HasPrefix(name, "/freshet.") && calls[name] == nil {
			t.Errorf("%s is in the policy and not in the contract", name)
		}
	}
	for _, name := range []string{"", "/", "/freshet.v1.SyncService/Erase", "/freshet.v2.SyncService/Push", "freshet.v1.SyncService/Push"} {
		if _, ok := Policy(name); ok {
			t.Errorf("%q is let in", name)
		}
	}
}
