package postgres_test

import (
	"testing"

	"wetside/store/postgres"
)

// TestHostsOfAURL parts hosts and ports as PostgreSQL's manual has them (34.1.1.2, connection URIs).
func TestHostsOfAURL(t *testing.T) {
	for list, want := range map[string][2]string{
		"": {"", ""}, "db.lan": {"db.lan", ""}, "db.lan:5433": {"db.lan", "5433"}, "[::1]": {"::1", ""}, "[::1]:5433": {"::1", "5433"},
		"a,b": {"a,b", ""}, "a,b:5433": {"a,b", "5432,5433"}, "a:1,[2001:db8::1]:2": {"a,2001:db8::1", "1,2"},
	} {
		hosts, ports := postgres.HostsOf(list)
		if got := [2]string{hosts, ports}; got != want {
			t.Errorf("%q: got %q, want %q", list, got, want)
		}
	}
}
