package main

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"wetside/internal/outside"
)

// A room is where the devices find the pages: one name, behind it now this board and now that.
type room struct {
	t    *testing.T
	port string
	ca   *x509.CertPool
}

const home = "https://darkroom.lan:8460"

// device is a browser in the room that trusts its authority.
func (r *room) device() *http.Client {
	c := visitor(r.t)
	c.Transport = &http.Transport{
		TLSClientConfig: &tls.Config{RootCAs: r.ca, MinVersion: tls.VersionTLS12}, DisableKeepAlives: true,
		DialContext: func(ctx context.Context, network, _ string) (net.Conn, error) {
			return (&net.Dialer{}).DialContext(ctx, network, "127.0.0.2:"+r.port)
		},
	}
	return c
}

// does has a device send a form and wants to be led on, or shown a page where there is no form.
func (r *room) does(c *http.Client, path string, form url.Values) string {
	r.t.Helper()
	method, want := http.MethodPost, http.StatusSeeOther
	if form == nil {
		method, want = http.MethodGet, http.StatusOK
	}
	status, text, to := asked(r.t, c, method, home+path, form)
	if status != want {
		r.t.Fatalf("%s %s: %d to %q", method, path, status, to)
	}
	return text
}

// evening makes the first keyholder by the word that the board printed, a wall and a sink, and shares an evening that two phones join and
// count in. It returns every device by who has it.
func (r *room) evening(w way) map[string]*http.Client {
	r.t.Helper()
	word := regexp.MustCompile(`(?m)^    ([0-9A-Z-]{12,})$`).FindStringSubmatch(w.said.String())
	if word == nil {
		r.t.Fatalf("no word: %s", w.said)
	}
	ilka := r.device()
	if status, _, to := asked(r.t, ilka, http.MethodGet, home+"/", nil); status != http.StatusSeeOther || to != "/keyholders/new" {
		r.t.Fatalf("the first page: %d to %q", status, to)
	}
	r.does(ilka, "/keyholders", url.Values{"word": {word[1]}, "name": {"Ilka"}, "passphrase": {"seven grey gloves on a line"}})
	r.does(ilka, "/begin", url.Values{"do": {"example"}})
	all := map[string]*http.Client{"Ilka": ilka}
	for _, role := range []string{"wall", "sink"} {
		key := r.key(ilka, role)
		all["the "+role] = r.device()
		r.does(all["the "+role], "/sign-in/key", url.Values{"key": {key}})
	}
	r.does(ilka, "/evening", url.Values{"shared": {"yes"}})
	for _, bath := range []string{"developer", "stop", "fixer"} {
		r.does(ilka, "/mix/"+bath+"/poured", url.Values{})
	}
	code := regexp.MustCompile(regexp.QuoteMeta(home) + `(/join/[0-9A-Z]{10})`).FindStringSubmatch(r.does(all["the wall"], "/wall", nil))
	if code == nil {
		r.t.Fatal("no address to join hangs on the wall")
	}
	for _, name := range []string{"Mo", "Pia"} {
		all[name] = r.device()
		r.does(all[name], code[1], url.Values{"name": {name}})
	}
	for _, name := range []string{"Mo", "Pia", "the sink"} {
		r.counts(all[name])
	}
	return all
}

// key makes a key of a role on the page of keys, and returns what it shows once.
func (r *room) key(c *http.Client, role string) string {
	r.t.Helper()
	status, text, _ := asked(r.t, c, http.MethodPost, home+"/keys", url.Values{"role": {role}, "name": {"the " + role}})
	m := regexp.MustCompile(`<b class="address">([A-Za-z0-9_-]{43})</b>`).FindStringSubmatch(text)
	if status != http.StatusOK || m == nil {
		r.t.Fatalf("a key for the %s: %d", role, status)
	}
	return m[1]
}

// counts has a device count two sheets in the first bath.
func (r *room) counts(c *http.Client) {
	r.t.Helper()
	bath := regexp.MustCompile(`/baths/[0-9a-f-]{36}`).FindString(r.does(c, "/baths", nil))
	r.does(c, bath+"/worked", url.Values{"load": {"2 8x10 in RC paper"}})
}

// A newcomer follows the pages from the package to a room with a wall, a sink, two phones over https and a nightly backup, and brings that
// back on another machine.
func TestFromThePackageToARoom(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds the program")
	}
	outside.Program(t, "openssl", "openssl")
	first := newWay(t, built(t))
	t.Run("units", func(t *testing.T) {
		way{t, first.bin, first.dir, first.said}.units(serving, "docs/backup.md", "docs/postgresql.md")
	})
	for _, line := range append(lines(t, "docs/board.md", "openssl "), lines(t, "docs/board.md", "install -D ")...) {
		first.does(line)
	}
	authority, err := os.ReadFile(filepath.Join(first.dir, "ours.pem"))
	if err != nil {
		t.Fatal(err)
	}
	r := &room{t: t, ca: x509.NewCertPool()}
	if !r.ca.AppendCertsFromPEM(authority) {
		t.Fatal("no authority")
	}
	port, stop := first.serve()
	r.port = port
	all := r.evening(first)
	first.does("mkdir -p /mnt/backup; touch -d '61 days ago' /mnt/backup/wetside-20200101T000000Z.db /mnt/backup/another.db")
	for _, line := range after(t, "docs/backup.md", "ExecStart=") {
		first.does(line)
	}
	saved, err := filepath.Glob(filepath.Join(first.dir, "stick", "*.db"))
	if err != nil || len(saved) != 2 { // the night's, and what is none of ours
		t.Fatalf("%v %v", saved, err)
	}
	stop()
	first.does("wetside doctor --data /var/lib/wetside --cert /etc/wetside/fullchain.pem --key /etc/wetside/privkey.pem")

	second := newWay(t, first.bin)
	second.does("cp -r " + filepath.Join(first.dir, "etc") + " " + filepath.Join(first.dir, "stick") + " .")
	_, stop = second.serve() // the package's own start, with an empty book
	stop()
	back := lines(t, "docs/backup.md", "wetside restore /mnt/")[0]
	second.does(regexp.MustCompile(`wetside-\d{8}T\d{6}Z\.db`).ReplaceAllString(back, filepath.Base(saved[1])))
	for _, same := range []string{
		"wetside verify --data /var/lib/wetside", "wetside export --data /var/lib/wetside",
		"wetside book export all.jsonl --data /var/lib/wetside; cat all.jsonl",
	} {
		if a, b := first.does(same), second.does(same); a != b || a == "" {
			t.Errorf("%s: %s\nand %s", same, a, b)
		}
	}
	r.port, _ = second.serve()
	if strings.Contains(second.said.String(), "No keyholder") {
		t.Errorf("the new board knows nobody: %s", second.said)
	}
	for name, path := range map[string]string{"Ilka": "/keys", "the wall": "/wall", "the sink": "/sink", "Mo": "/sink", "Pia": "/sink"} {
		r.does(all[name], path, nil)
	}
	if status, _, _ := asked(t, r.device(), http.MethodGet, home+"/sink", nil); status != http.StatusSeeOther {
		t.Errorf("a stranger at the new board: %d", status)
	}
	r.counts(all["Pia"])
}
