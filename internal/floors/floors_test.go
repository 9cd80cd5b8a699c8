package floors_test

import (
	"os/exec"
	"strings"
	"testing"
)

// floors from the ground up; a package may import its own floor's and lower ones. The front rooms import no neighbour.
func order() []string {
	return []string{"trade", "darkroom", "book", "access", "ahead", "plan", "sink", "words", "draw", "front"}
}

func floorOf(pkg string) (floor int, room string) {
	room, _, _ = strings.Cut(strings.TrimPrefix(pkg, "wetside/"), "/")
	for i, f := range order() {
		if f == room {
			return i, room
		}
	}
	return len(order()) - 1, room
}

// outside are rooms beside the floors: they wire or test.
func outside(room string) bool { return room == "cmd" || room == "internal" || room == "tools" }

func TestImportsGoDown(t *testing.T) {
	out, err := exec.CommandContext(t.Context(), "go", "list", "-f", `{{.ImportPath}} {{join .Deps " "}}`, "wetside/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for line := range strings.Lines(string(out)) {
		words := strings.Fields(line)
		from, room := floorOf(words[0])
		if outside(room) {
			continue
		}
		for _, dep := range words[1:] {
			if !strings.HasPrefix(dep, "wetside/") {
				if room == "trade" && (dep == "database/sql" || dep == "net/http" || dep == "log/slog") {
					t.Errorf("%s reaches %s: what the trade knows does no I/O", words[0], dep)
				}
				continue
			}
			checked++
			to, other := floorOf(dep)
			if to > from || (to == from && other != room && order()[to] == "front") {
				t.Errorf("%s imports %s, which is not below it", words[0], dep)
			}
		}
	}
	if checked < 50 {
		t.Fatalf("only %d imports were looked at", checked)
	}
}
