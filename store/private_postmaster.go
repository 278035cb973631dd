package store

import (
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"syscall"
	"time"
)

// postmaster is a running Postgres.
type postmaster struct {
	process *os.Process
	ended   chan struct{} // closed when it has ended; waitErr says how
	waitErr error
}

// settings of a private Postgres: every commit is on disk before it is told,
// and memory stays small beside a small server.
var settings = []string{
	"listen_addresses=",
	"fsync=on",
	"synchronous_commit=on",
	"full_page_writes=on",
	"shared_buffers=64MB",
	"wal_compression=on",
	"max_wal_size=1GB",
	"checkpoint_timeout=15min",
	"max_connections=40",
	"jit=off",
	"log_timezone=UTC",
	"timezone=UTC",
	"log_checkpoints=off",
	// An error's details and statement would put what people entered into the log.
	"log_error_verbosity=terse",
	"log_min_error_statement=panic",
}

func startPostmaster(programs programs, f *folder) (*postmaster, error) {
	log, err := f.openLog()
	if err != nil {
		return nil, err
	}
	defer log.Close()
	at, err := f.reach(f.data())
	if err != nil {
		return nil, err
	}
	defer at.Close()
	arguments := []string{"-D", handed, "-k", f.socket}
	for _, setting := range settings {
		arguments = append(arguments, "-c", setting)
	}
	postgres := exec.Command(programs.path("postgres"), arguments...)
	postgres.Dir = "/"
	postgres.Env = quietEnvironment()
	postgres.Stdout, postgres.Stderr = log, log
	postgres.ExtraFiles = []*os.File{at}
	postgres.SysProcAttr = &syscall.SysProcAttr{Credential: f.owner, Setsid: true, Pdeathsig: syscall.SIGINT}
	return launch(postgres)
}

// launch starts the program and waits for it on one thread of its own: the
// kernel sends Pdeathsig when the starting thread ends, not the process, so the
// thread must live as long as the program.
func launch(program *exec.Cmd) (*postmaster, error) {
	server := &postmaster{ended: make(chan struct{})}
	started := make(chan error)
	go func() {
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		err := program.Start()
		server.process = program.Process
		started <- err
		if err == nil {
			server.waitErr = program.Wait()
			close(server.ended)
		}
	}()
	if err := <-started; err != nil {
		return nil, fmt.Errorf("Postgres does not start: %w", err)
	}
	return server, nil
}

// stop ends Postgres cleanly; one that does not follow in time is cut off,
// which loses nothing that was told as stored.
func (s *postmaster) stop(patience time.Duration) error {
	s.signal(syscall.SIGINT)
	select {
	case <-s.ended:
		return nil
	case <-time.After(patience):
	}
	s.signal(syscall.SIGQUIT)
	<-s.ended
	return fmt.Errorf("Postgres did not stop within %s and was cut off; it repairs itself at the next start", patience)
}

// signal may find the process ended already, which is as well.
func (s *postmaster) signal(which syscall.Signal) {
	select {
	case <-s.ended:
	default:
		_ = s.process.Signal(which)
	}
}

// openLog appends, and begins anew when the log has grown long.
func (f *folder) openLog() (*os.File, error) {
	how := os.O_CREATE | os.O_WRONLY | os.O_APPEND
	if found, err := os.Stat(f.log()); err == nil && found.Size() > logLimit {
		how |= os.O_TRUNC
	}
	log, err := os.OpenFile(f.log(), how, 0o600)
	if err != nil {
		return nil, fmt.Errorf("data folder: %w", err)
	}
	return log, nil
}
