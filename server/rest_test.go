package server

import (
	"strings"
	"testing"

	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"
)

func TestEveryUnaryCallHasAPath(t *testing.T) {
	found, seen := map[string]bool{}, map[string]bool{}
	for _, p := range paths {
		found[p.call] = true
		if seen[p.method+p.template] {
			t.Errorf("%s %s stands for two calls", p.method, p.template)
		}
		seen[p.method+p.template] = true
	}
	unary := 0
	protoregistry.GlobalFiles.RangeFilesByPackage("freshet.v1", func(file protoreflect.FileDescriptor) bool {
		for i := range file.Services().Len() {
			methods := file.Services().Get(i).Methods()
			for j := range methods.Len() {
				method := methods.Get(j)
				name := "/" + string(method.Parent().FullName()) + "/" + string(method.Name())
				if method.IsStreamingServer() || method.IsStreamingClient() {
					continue
				}
				unary++
				if !found[name] {
					t.Errorf("%s has no path", name)
				}
			}
		}
		return true
	})
	if unary < 28 {
		t.Errorf("only %d unary calls found in the contract", unary)
	}
}

func TestReadingIsGet(t *testing.T) {
	for _, p := range paths {
		verb := p.call[strings.LastIndex(p.call, "/")+1:]
		reads := false
		for _, prefix := range []string{"Get", "List", "Describe", "Explain", "Estimate", "Suggest", "Forecast", "Judge", "Check", "WhoAmI", "CompareSites", "FindPhotoFiles", "PlanSowing", "FindSigns", "PlanTrial"} {
			reads = reads || strings.HasPrefix(verb, prefix)
		}
		if reads != (p.method == "GET") {
			t.Errorf("%s is %s", verb, p.method)
		}
	}
}
