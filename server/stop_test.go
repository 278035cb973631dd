package server_test

import (
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"google.golang.org/grpc/codes"
	healthv1 "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/status"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
)

func TestStoppingEndsStreamsAndSaysWhy(t *testing.T) {
	s := servertest.New(t)
	mara := s.Join(grower, "Mara Oduya")
	watch, err := mara.Sync.Watch(t.Context(), &freshetv1.WatchRequest{})
	if err != nil {
		t.Fatal(err)
	}
	health, err := healthv1.NewHealthClient(mara.Conn).Watch(t.Context(), &healthv1.HealthCheckRequest{})
	if err != nil {
		t.Fatal(err)
	}
	if first, err := health.Recv(); err != nil || first.GetStatus() != healthv1.HealthCheckResponse_SERVING {
		t.Fatalf("%v %v", first, err)
	}
	web := openWebStream(t, s, mara.Token)

	stopped := make(chan struct{})
	go func() { defer close(stopped); s.Stop() }()
	for {
		if _, err = watch.Recv(); err != nil {
			break
		}
	}
	wantReason(t, "watch", err, "UNAVAILABLE", "")
	for {
		if _, err = health.Recv(); err != nil {
			break
		}
	}
	if status.Code(err) != codes.Unavailable {
		t.Errorf("health: %v", err)
	}
	rest, err := io.ReadAll(web)
	if err != nil || !strings.Contains(string(rest), `"unavailable"`) {
		t.Errorf("the browser's stream ends with %q, %v", rest, err)
	}
	select {
	case <-stopped:
	case <-time.After(30 * time.Second):
		t.Fatal("the server waits for its streams")
	}
	if strings.Contains(s.Log.String(), "were cut") {
		t.Error("calls were cut")
	}
	if _, err := mara.Accounts.WhoAmI(t.Context(), &freshetv1.WhoAmIRequest{}); status.Code(err) != codes.Unavailable {
		t.Errorf("afterwards: %v", err)
	}
}

// openWebStream opens the Watch of a browser and reads its first message, so
// that the stream is known to stand.
func openWebStream(t *testing.T, s *servertest.Server, token string) io.Reader {
	t.Helper()
	body := string([]byte{0, 0, 0, 0, 2}) + "{}"
	request, err := http.NewRequestWithContext(t.Context(), "POST", "http://"+s.HTTPAddress().String()+"/grpc.health.v1.Health/Watch", strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	request.Header.Set("Content-Type", "application/connect+json")
	request.Header.Set("Authorization", "Bearer "+token)
	response, err := http.DefaultClient.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = response.Body.Close() })
	head := make([]byte, 5)
	if _, err := io.ReadFull(response.Body, head); err != nil || response.StatusCode != 200 {
		t.Fatalf("%s, %v", response.Status, err)
	}
	first := make([]byte, head[4])
	if _, err := io.ReadFull(response.Body, first); err != nil || !strings.Contains(string(first), "SERVING") {
		t.Fatalf("%q, %v", first, err)
	}
	return response.Body
}
