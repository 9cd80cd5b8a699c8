package outside

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// A Postgres is a private cluster of PostgreSQL: in a folder of its own, on a socket in it, without a network. What it
// forgets in a power cut is nobody's loss, so it does not sync. There is one for each test binary that asks.
type Postgres struct {
	dir, bin string
	server   *exec.Cmd
	dead     chan struct{} // closed when the server has ended
}

// startsWithin is for a machine under load.
const startsWithin = 60 * time.Second

// PostgresBin returns the folder of PostgreSQL's programs; Debian's package postgresql keeps them out of the path.
func PostgresBin(tb testing.TB) string {
	tb.Helper()
	found, _ := filepath.Glob("/usr/lib/postgresql/*/bin/initdb")
	if len(found) > 0 {
		slices.Sort(found)
		return filepath.Dir(found[len(found)-1])
	}
	path, err := exec.LookPath("initdb")
	if err != nil {
		Missing(tb, "PostgreSQL (Debian's package postgresql)")
		return ""
	}
	return filepath.Dir(path)
}

// OwnPostgres starts a cluster for one test, which ends with it; without PostgreSQL the test is skipped, or fails in CI.
func OwnPostgres(tb testing.TB) *Postgres {
	tb.Helper()
	p, err := StartPostgres(PostgresBin(tb))
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() {
		if err := p.Stop(); err != nil {
			tb.Error(err)
		}
	})
	return p
}

// StartPostgres makes a cluster and starts it. Whoever starts it stops it. auth are lines that stand first in pg_hba.conf;
// after them everybody on the socket is let in.
func StartPostgres(bin string, auth ...string) (p *Postgres, err error) {
	dir, err := os.MkdirTemp("", "wetside-pg-")
	if err != nil {
		return nil, err
	}
	p = &Postgres{dir: dir, bin: bin}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.RemoveAll(dir))
		}
	}()
	if err := own(dir); err != nil {
		return nil, err
	}
	init := p.command("initdb", "--no-sync", "--username=postgres", "--auth=trust", "--encoding=UTF8", "--locale=C", "-D", p.data())
	if out, err := init.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("initdb: %w\n%s", err, out)
	}
	hba := filepath.Join(p.data(), "pg_hba.conf")
	all, err := os.ReadFile(hba)
	if err != nil {
		return nil, err
	}
	if err := os.WriteFile(hba, append([]byte(strings.Join(auth, "\n")+"\n"), all...), 0o600); err != nil {
		return nil, err
	}
	return p, p.Start()
}

func (p *Postgres) data() string { return filepath.Join(p.dir, "data") }

// Standby makes a second cluster that follows this one and answers readers, and has this one wait for it at each commit.
func (p *Postgres) Standby(tb testing.TB) (s *Postgres, err error) {
	tb.Helper()
	dir, err := os.MkdirTemp("", "wetside-pg-") //nolint:usetesting // the path of a socket must be short
	if err != nil {
		return nil, err
	}
	s = &Postgres{dir: dir, bin: p.bin}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.RemoveAll(dir))
		}
	}()
	if err := own(dir); err != nil {
		return nil, err
	}
	copying := s.command("pg_basebackup", "--no-sync", "-h", p.dir, "-U", "postgres", "-D", s.data(), "-R", "-X", "stream", "-c", "fast")
	if out, err := copying.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("pg_basebackup: %w\n%s", err, out)
	}
	if err := s.Start(); err != nil {
		return nil, err
	}
	p.SQL(tb, "postgres", "ALTER SYSTEM SET synchronous_standby_names = '*'; SELECT pg_reload_conf();")
	return s, nil
}

// Promote lets a standby be written to. It follows nobody from then on, and waits for nobody.
func (p *Postgres) Promote(tb testing.TB) {
	tb.Helper()
	p.SQL(tb, "postgres", "SELECT pg_promote(); ")
	p.SQL(tb, "postgres", "ALTER SYSTEM RESET synchronous_standby_names; SELECT pg_reload_conf();")
}

// Dir returns the folder in which all files of the cluster are.
func (p *Postgres) Dir() string { return p.dir }

// Start starts the server and waits until it answers.
func (p *Postgres) Start() error {
	p.server = p.command("postgres", "-D", p.data(), "-k", p.dir, "-c", "listen_addresses=", "-c", "fsync=off", "-c", "full_page_writes=off",
		"-c", "max_connections=200", "-c", "shared_buffers=32MB", "-c", "autovacuum=off", "-c", "log_min_messages=fatal")
	var said bytes.Buffer
	p.server.Stdout, p.server.Stderr = &said, &said
	dieWithParent(p.server)
	if err := p.server.Start(); err != nil {
		return err
	}
	p.dead = make(chan struct{})
	go func(server *exec.Cmd, dead chan struct{}) { _ = server.Wait(); close(dead) }(p.server, p.dead)
	ctx, cancel := context.WithTimeout(context.Background(), startsWithin)
	defer cancel()
	for {
		if exec.CommandContext(ctx, filepath.Join(p.bin, "pg_isready"), "-q", "-h", p.dir).Run() == nil {
			return nil
		}
		select {
		case <-p.dead:
			return fmt.Errorf("postgres ended: %s", said.String())
		case <-ctx.Done():
			return errors.Join(ctx.Err(), p.Crash())
		case <-time.After(20 * time.Millisecond):
		}
	}
}

// URL returns where a database of the cluster is, for its superuser. more is added to the query.
func (p *Postgres) URL(database, more string) string {
	return "postgres://postgres@/" + database + "?host=" + url.QueryEscape(p.dir) + more
}

// SQL runs statements as superuser and returns what they answer, one row a line.
func (p *Postgres) SQL(tb testing.TB, database, statements string) string {
	tb.Helper()
	cmd := exec.CommandContext(tb.Context(), filepath.Join(p.bin, "psql"), "-X", "-q", "-A", "-t", "-v", "ON_ERROR_STOP=1", "-h", p.dir, "-U", "postgres", "-d", database)
	cmd.Stdin = strings.NewReader(statements)
	out, err := cmd.CombinedOutput()
	if err != nil {
		tb.Fatalf("psql: %v\n%s", err, out)
	}
	return strings.TrimSpace(string(out))
}

// Crash ends the server as a crash does: with nothing put in order. It can be started again.
func (p *Postgres) Crash() error {
	err := p.server.Process.Signal(quit)
	<-p.dead
	return err
}

// Stop ends the server and removes all of it.
func (p *Postgres) Stop() error {
	select {
	case <-p.dead:
	default:
		_ = p.Crash()
	}
	return os.RemoveAll(p.dir)
}
