package asvs_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// program are the source files of ours that are in the program, without its tests.
func program(t *testing.T) map[string]*ast.File {
	t.Helper()
	out, err := exec.CommandContext(t.Context(), "go", "list", "-deps", "-f", `{{range .GoFiles}}{{$.ImportPath}} {{$.Dir}}/{{.}}{{"\n"}}{{end}}`, "wetside/cmd/wetside").Output()
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]*ast.File{}
	for line := range strings.Lines(string(out)) {
		pkg, path, ok := strings.Cut(strings.TrimSpace(line), " ")
		if !ok || !strings.HasPrefix(pkg, "wetside/") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		all[strings.TrimPrefix(pkg, "wetside/")+"/"+filepath.Base(path)] = f
	}
	if len(all) < 300 {
		t.Fatalf("only %d files were found", len(all))
	}
	return all
}

func imports(f *ast.File) (all []string) {
	for _, i := range f.Imports {
		all = append(all, strings.Trim(i.Path.Value, `"`))
	}
	return all
}

// The program runs no command, loads no code, reads no XML and no serialised objects of Go, and has no random numbers that can be foreseen (ASVS
// 5.0, 1.2.5, 1.3.2, 1.5.1, 11.5.1). Templates of text are made of the program's own words alone.
func TestTheProgramImportsNoDanger(t *testing.T) {
	for name, f := range program(t) {
		for _, path := range imports(f) {
			switch path {
			case "os/exec", "plugin", "encoding/gob", "encoding/xml", "math/rand", "net/http/pprof", "expvar", "net/http/cgi", "net/rpc", "log/syslog", "net/smtp":
				t.Errorf("%s imports %s", name, path)
			case "math/rand/v2":
				if strings.HasPrefix(name, "access/") || strings.HasPrefix(name, "web/") || strings.HasPrefix(name, "internal/doors/") {
					t.Errorf("%s imports %s", name, path)
				}
			case "text/template":
				if name != "darkroom/example/example.go" {
					t.Errorf("%s imports %s", name, path)
				}
			}
		}
	}
}

// All cryptography of the program is Go's own or golang.org/x/crypto's, and docs/security.md lists it (ASVS 5.0, 11.1.2, 11.2.1, 11.3, 11.4.1).
func TestCryptographyIsTold(t *testing.T) {
	var used []string
	for _, f := range program(t) {
		for _, path := range imports(f) {
			if strings.HasPrefix(path, "crypto/") || strings.HasPrefix(path, "golang.org/x/crypto/") || strings.HasPrefix(path, "hash/") && path != "hash/maphash" {
				used = append(used, path)
			}
		}
	}
	slices.Sort(used)
	used = slices.Compact(used)
	text, err := os.ReadFile(root + "/docs/security.md")
	if err != nil {
		t.Fatal(err)
	}
	var told []string
	for _, m := range regexp.MustCompile("(?m)^\\| `((?:crypto|golang.org/x/crypto|hash)/[a-z0-9/]+)` \\|").FindAllStringSubmatch(string(text), -1) {
		told = append(told, m[1])
	}
	slices.Sort(told)
	if !slices.Equal(used, told) {
		t.Errorf("used: %q, told: %q", used, told)
	}
}

// The program calls nobody but PostgreSQL and the service manager (docs/security.md; ASVS 5.0, 13.1.1, 13.2.4 and 13.2.5).
func TestNobodyElseIsCalled(t *testing.T) {
	may := []string{
		"store/postgres/conn.go", "internal/notify/notify.go",
		"cmd/wetside/address.go", // a socket of UDP by which nothing is sent: it tells by which address this machine is reached
	}
	calls := map[string][]string{
		"http": {"Client", "DefaultClient", "DefaultTransport", "Transport", "Get", "Post", "PostForm", "Head", "NewRequest", "NewRequestWithContext"},
		"net":  {"Dial", "DialTimeout", "DialTCP", "DialUDP", "DialUnix", "DialIP", "Dialer"},
		"tls":  {"Dial", "Dialer", "Client", "DialWithDialer"},
	}
	found := 0
	for name, f := range program(t) {
		ast.Inspect(f, func(n ast.Node) bool {
			if s, ok := n.(*ast.SelectorExpr); ok {
				if x, ok := s.X.(*ast.Ident); ok && slices.Contains(calls[x.Name], s.Sel.Name) {
					found++
					if !slices.Contains(may, name) {
						t.Errorf("%s has %s.%s", name, x.Name, s.Sel.Name)
					}
				}
			}
			return true
		})
	}
	if found == 0 {
		t.Error("not even PostgreSQL is called: nothing was looked at")
	}
}

// There is one log, made by the server's start; nothing writes beside it (ASVS 5.0, 16.2.3).
func TestThereIsOneLog(t *testing.T) {
	var made []string
	for name, f := range program(t) {
		ast.Inspect(f, func(n ast.Node) bool {
			s, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			x, ok := s.X.(*ast.Ident)
			switch {
			case !ok:
			case x.Name == "slog" && (s.Sel.Name == "New" || s.Sel.Name == "Default"):
				made = append(made, name)
			case x.Name == "log" && slices.Contains(imports(f), "log"):
				t.Errorf("%s has log.%s", name, s.Sel.Name)
			}
			return true
		})
	}
	slices.Sort(made)
	if !slices.Equal(made, []string{"cmd/wetside/serve.go"}) {
		t.Errorf("logs are made in %q", made)
	}
}

// The scripts of the pages make no code and no markup of text, keep nothing of who is in, and take messages from their own pages alone (ASVS 5.0,
// 1.3.2, 3.2.2 and 14.3.3).
func TestScriptsAreTame(t *testing.T) {
	files, err := filepath.Glob(root + "/web/assets/*.js")
	if err != nil || len(files) < 8 {
		t.Fatal(files, err)
	}
	wild := regexp.MustCompile(`\beval\(|new Function|innerHTML|outerHTML|insertAdjacentHTML|document\.write|setTimeout\("|srcdoc|DOMParser|document\.cookie|addEventListener\("message"|sessionStorage|javascript:`)
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range wild.FindAllString(string(text), -1) {
			if m == "DOMParser" && filepath.Base(name) == "wall.js" {
				continue // of a page of this server, which runs no script
			}
			t.Errorf("%s has %s", filepath.Base(name), m)
		}
	}
}
