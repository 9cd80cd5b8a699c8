package main

import (
	"bytes"
	"context"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"wetside/internal/outside"
)

// A way is a board on which somebody follows the pages of docs/: what those have a reader type is read from them and done, with
// folders of the test in place of the machine's.
type way struct {
	t        *testing.T
	bin, dir string
	said     *bytes.Buffer
}

// on returns a line of a page or of the unit with this board's folders and names.
func (w way) on(line string) string {
	at := func(name string) string { return filepath.Join(w.dir, name) }
	line = regexp.MustCompile(`(^|\s)wetside `).ReplaceAllString(line, "${1}"+w.bin+" ")
	return strings.NewReplacer("/usr/bin/wetside", w.bin, "/var/lib/wetside", at("book"), "/etc/wetside/", at("etc")+"/",
		"/mnt/backup", at("stick"), "192.168.1.20", "127.0.0.2", "%d/", at("credentials")+"/").Replace(line)
}

// does runs a line as a shell would, and returns what it says.
func (w way) does(line string) string {
	w.t.Helper()
	c := exec.CommandContext(w.t.Context(), "sh", "-ec", "umask 077; "+w.on(line))
	c.Dir = w.dir
	out, err := c.CombinedOutput()
	if err != nil {
		w.t.Fatalf("%s: %v\n%s", line, err, out)
	}
	return string(out)
}

// page reads a page from the repository's root.
func page(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", path))
	if err != nil {
		t.Fatal(err)
	}
	return strings.ReplaceAll(string(b), "\\\n", " ")
}

// lines are those of a page that begin so, indented or not.
func lines(t *testing.T, path, start string) (all []string) {
	t.Helper()
	for line := range strings.Lines(page(t, path)) {
		if line = strings.TrimSpace(line); strings.HasPrefix(line, start) {
			all = append(all, line)
		}
	}
	if len(all) == 0 {
		t.Fatalf("%s has no line that begins with %q", path, start)
	}
	return all
}

// after cuts a line's beginning off.
func after(t *testing.T, path, start string) (all []string) {
	t.Helper()
	for _, line := range lines(t, path, start) {
		all = append(all, strings.TrimPrefix(line, start))
	}
	return all
}

const (
	unit    = "tools/packaging/wetside.service"
	serving = "docs/serving.md"
)

// serve starts the unit's own command with its environment, as the page has it changed, and returns where it answers. What systemd does for
// the unit (the credentials) is done here.
func (w way) serve() (port string, stop func()) {
	w.t.Helper()
	env := append(os.Environ(), after(w.t, unit, "Environment=")...)
	env = append(env, lines(w.t, "tools/packaging/default", "WETSIDE_")...)
	for _, c := range after(w.t, serving, "LoadCredential=") {
		id, from, _ := strings.Cut(c, ":")
		w.does("install -D -m 400 " + from + " %d/" + id)
	}
	env = append(env, strings.Fields(after(w.t, serving, "Environment=")[0])...)
	for _, addr := range lines(w.t, serving, "WETSIDE_ADDR=") {
		env = append(env, strings.Replace(addr, ":8460", ":0", 1))
	}
	for i := range env {
		if strings.HasPrefix(env[i], "WETSIDE_") {
			env[i] = w.on(env[i])
		}
	}
	ctx, cancel := context.WithCancel(w.t.Context())
	argv := strings.Fields(w.on(after(w.t, unit, "ExecStart=")[0]))
	c := exec.CommandContext(ctx, argv[0], argv[1:]...)
	c.Env, c.Dir = env, w.dir
	c.Cancel = func() error { return c.Process.Signal(os.Interrupt) }
	c.WaitDelay = 5 * time.Second
	out, err := os.Create(filepath.Join(w.dir, "journal"))
	if err != nil {
		w.t.Fatal(err)
	}
	c.Stdout, c.Stderr = out, out
	if err := c.Start(); err != nil {
		w.t.Fatal(err)
	}
	stop = func() { cancel(); _ = c.Wait(); _ = out.Close() }
	w.t.Cleanup(stop)
	for deadline := time.Now().Add(10 * time.Second); time.Now().Before(deadline); time.Sleep(20 * time.Millisecond) {
		b, _ := os.ReadFile(out.Name())
		if m := regexp.MustCompile(`wetside: https://(\S+):(\d+)/\ndata: .+\n`).FindSubmatch(b); m != nil && !w.early(b) {
			if bytes.Contains(m[1], []byte("::")) && hasWayOut(w.t) {
				w.t.Errorf("nobody can open what it says: %s", m[0])
			}
			w.said.Reset()
			w.said.Write(b)
			return string(m[2]), stop
		}
	}
	b, _ := os.ReadFile(out.Name())
	w.t.Fatalf("it says %s", b)
	return "", nil
}

// hasWayOut reports whether this machine is in a network.
func hasWayOut(t *testing.T) bool {
	t.Helper()
	c, err := (&net.Dialer{}).DialContext(t.Context(), "udp4", "192.0.2.1:9")
	return err == nil && c.Close() == nil
}

// early reports whether the one-time word is announced and not there yet.
func (w way) early(b []byte) bool {
	return bytes.Contains(b, []byte("No keyholder")) && !regexp.MustCompile(`\n    [0-9A-Z-]{12,}\n`).Match(b)
}

// newWay is a board with an empty disk.
func newWay(t *testing.T, bin string) way {
	t.Helper()
	return way{t, bin, t.TempDir(), &bytes.Buffer{}}
}

// built builds the program, as packages have it but for its size.
func built(t *testing.T) string {
	t.Helper()
	bin := filepath.Join(t.TempDir(), "wetside")
	c := exec.CommandContext(t.Context(), "go", "build", "-tags", "nethttpomithttp2", "-o", bin, ".")
	c.Env = append(os.Environ(), "CGO_ENABLED=0")
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return bin
}

// units writes the files that pages have somebody put below /etc/systemd/system, and the package's own unit, and has systemd read them. An
// unknown key, or a specifier that it has none for, is a line on its stderr.
func (w way) units(pages ...string) {
	w.t.Helper()
	analyze := outside.Program(w.t, "systemd-analyze", "systemd")
	dir, verified := filepath.Join(w.dir, "systemd"), []string{"wetside.service"}
	put := func(name, text string) {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o750); err != nil {
			w.t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(strings.ReplaceAll(text, "/usr/bin/wetside", w.bin)), 0o600); err != nil {
			w.t.Fatal(err)
		}
	}
	put("wetside.service", page(w.t, unit))
	for _, from := range pages {
		for _, m := range regexp.MustCompile("`/etc/systemd/system/([^`]+)`\n\n((?: {7}.*\n|\n)+)").FindAllStringSubmatch(page(w.t, from), -1) {
			put(m[1], regexp.MustCompile(`(?m)^ +`).ReplaceAllString(m[2], ""))
			if filepath.Dir(m[1]) == "." {
				verified = append(verified, m[1])
			}
		}
	}
	if len(verified) != 3 {
		w.t.Errorf("units: %v", verified)
	}
	for _, name := range verified {
		out, err := exec.CommandContext(w.t.Context(), analyze, "verify", "--man=no", filepath.Join(dir, name)).CombinedOutput()
		if err != nil || bytes.Contains(out, []byte(dir)) {
			w.t.Errorf("%s: %v\n%s", name, err, out)
		}
	}
}
