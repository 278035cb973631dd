package server_test

import (
	"slices"
	"testing"

	"google.golang.org/grpc/codes"
	reflectionv1 "google.golang.org/grpc/reflection/grpc_reflection_v1"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/auth"
	"freshet.example/server/servertest"
)

func TestReflectionListsEveryService(t *testing.T) {
	s := servertest.New(t)
	stream, err := reflectionv1.NewServerReflectionClient(s.Stranger().Conn).ServerReflectionInfo(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if err := stream.Send(&reflectionv1.ServerReflectionRequest{MessageRequest: &reflectionv1.ServerReflectionRequest_ListServices{}}); err != nil {
		t.Fatal(err)
	}
	answer, err := stream.Recv()
	if err != nil {
		t.Fatal(err)
	}
	var listed []string
	for _, service := range answer.GetListServicesResponse().GetService() {
		listed = append(listed, service.GetName())
	}
	for _, service := range services() {
		if !slices.Contains(listed, string(service.FullName())) {
			t.Errorf("%s is not served; served are %v", service.FullName(), listed)
		}
	}
	if err := stream.CloseSend(); err != nil {
		t.Fatal(err)
	}
}

// Every call of the contract, on a real server: nobody gets in without a token,
// and every member gets an answer that is not "not implemented".
func TestEveryCallIsServedAndGuarded(t *testing.T) {
	s := servertest.New(t)
	steward := s.Steward()
	steward.NewSite(t, "North barn") // so that Watch has something to tell
	n := 0
	for _, service := range services() {
		for i := range service.Methods().Len() {
			method := service.Methods().Get(i)
			name := "/" + string(service.FullName()) + "/" + string(method.Name())
			row, _ := auth.Policy(name)
			n++
			if code := call(t, s.Stranger(), name, method); (code == codes.Unauthenticated) == row.Anyone {
				t.Errorf("%s without a token: %v", name, code)
			}
			if code := call(t, steward, name, method); code == codes.Unauthenticated || code == codes.Unimplemented || code == codes.Internal || code == codes.Unknown {
				t.Errorf("%s by a steward: %v", name, code)
			}
		}
	}
	if n < 31 {
		t.Errorf("only %d calls were tried", n)
	}
}

// call sends an empty request; of a stream it reads what comes first.
func call(t *testing.T, p *servertest.Person, name string, method protoreflect.MethodDescriptor) codes.Code {
	t.Helper()
	request, answer := newMessage(t, method.Input()), newMessage(t, method.Output())
	if !method.IsStreamingServer() {
		return status.Code(p.Conn.Invoke(t.Context(), name, request, answer))
	}
	stream, err := p.Conn.NewStream(t.Context(), &freshetv1.SyncService_ServiceDesc.Streams[0], name)
	if err != nil {
		return status.Code(err)
	}
	if err := stream.SendMsg(request); err != nil {
		return status.Code(err)
	}
	if err := stream.CloseSend(); err != nil {
		return status.Code(err)
	}
	return status.Code(stream.RecvMsg(answer))
}

func newMessage(t *testing.T, of protoreflect.MessageDescriptor) proto.Message {
	t.Helper()
	found, err := protoregistry.GlobalTypes.FindMessageByName(of.FullName())
	if err != nil {
		t.Fatal(err)
	}
	return found.New().Interface()
}

func services() []protoreflect.ServiceDescriptor {
	var all []protoreflect.ServiceDescriptor
	protoregistry.GlobalFiles.RangeFilesByPackage("freshet.v1", func(file protoreflect.FileDescriptor) bool {
		for i := range file.Services().Len() {
			all = append(all, file.Services().Get(i))
		}
		return true
	})
	return all
}
