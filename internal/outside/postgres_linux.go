package outside

import (
	"fmt"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
)

// quit is what PostgreSQL takes as an immediate end.
const quit = syscall.SIGQUIT

// nobody returns the user and group that PostgreSQL runs as where the tests run as root, which it refuses.
func nobody() *syscall.Credential {
	if os.Getuid() != 0 {
		return nil
	}
	for _, name := range []string{"postgres", "nobody"} {
		u, err := user.Lookup(name)
		if err != nil {
			continue
		}
		uid, err1 := strconv.ParseUint(u.Uid, 10, 32)
		gid, err2 := strconv.ParseUint(u.Gid, 10, 32)
		if err1 == nil && err2 == nil {
			return &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}
		}
	}
	return nil
}

// own gives a folder to the user that PostgreSQL runs as.
func own(dir string) error {
	if c := nobody(); c != nil {
		return os.Chown(dir, int(c.Uid), int(c.Gid))
	}
	return nil
}

func (p *Postgres) command(program string, args ...string) *exec.Cmd {
	cmd := exec.Command(filepath.Join(p.bin, program), args...) //nolint:noctx // it outlives the test that starts it
	cmd.Dir = p.dir
	cmd.Env = append(os.Environ(), "LC_ALL=C")
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: nobody()}
	return cmd
}

// dieWithParent ends the server with the test binary, however that ends.
func dieWithParent(cmd *exec.Cmd) { cmd.SysProcAttr.Pdeathsig = quit }

// Freeze stops all processes of the server where they are, until the function that it returns is called. The server does not
// answer meanwhile, and keeps its connections.
func (p *Postgres) Freeze(tb testing.TB) (thaw func()) {
	tb.Helper()
	pids := []int{p.server.Process.Pid}
	children, err := os.ReadFile(fmt.Sprintf("/proc/%d/task/%d/children", pids[0], pids[0]))
	if err != nil {
		tb.Fatal(err)
	}
	for word := range strings.FieldsSeq(string(children)) {
		pid, err := strconv.Atoi(word)
		if err != nil {
			tb.Fatal(err)
		}
		pids = append(pids, pid)
	}
	signal := func(s syscall.Signal) {
		for _, pid := range pids {
			_ = syscall.Kill(pid, s)
		}
	}
	thaw = sync.OnceFunc(func() { signal(syscall.SIGCONT) })
	tb.Cleanup(thaw)
	signal(syscall.SIGSTOP)
	return thaw
}
