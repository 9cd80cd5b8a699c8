package certfile_test

import (
	"crypto/x509"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"wetside/internal/certfile"
	"wetside/internal/certmade"
)

// write puts a certificate of a name and its key into files, as if they had been written at a moment.
func write(t *testing.T, dir, name string, written time.Time) (cert, key string) {
	t.Helper()
	cert, key, _ = certmade.Pair(t, dir, name, time.Now().Add(-time.Hour), time.Now().Add(time.Hour))
	for _, path := range []string{cert, key} {
		if err := os.Chtimes(path, written, written); err != nil {
			t.Fatal(err)
		}
	}
	return cert, key
}

// A renewed certificate is taken up within a minute; half a renewal leaves the old one in use.
func TestRenewal(t *testing.T) {
	dir, now := t.TempDir(), time.Now()
	cert, key := write(t, dir, "old.example", now.Add(-time.Hour))
	p, err := certfile.Open(cert, key, func() time.Time { return now })
	if err != nil {
		t.Fatal(err)
	}
	served := func() string {
		t.Helper()
		c, err := p.Config().GetCertificate(nil)
		if err != nil {
			t.Fatal(err)
		}
		leaf, err := x509.ParseCertificate(c.Certificate[0])
		if err != nil {
			t.Fatal(err)
		}
		return leaf.Subject.CommonName
	}
	other, _ := write(t, t.TempDir(), "half.example", now)
	half, err := os.ReadFile(other)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(cert, half, 0o600); err != nil {
		t.Fatal(err)
	}
	now = now.Add(2 * time.Minute)
	if got := served(); got != "old.example" {
		t.Errorf("with half a renewal: %s", got)
	}
	write(t, dir, "new.example", now)
	if got := served(); got != "old.example" {
		t.Errorf("looked at again within a minute: %s", got)
	}
	now = now.Add(2 * time.Minute)
	if got := served(); got != "new.example" {
		t.Errorf("renewed: %s", got)
	}
}

// What can't be read is told by its file.
func TestBadFiles(t *testing.T) {
	dir := t.TempDir()
	cert, key := write(t, dir, "a.example", time.Now())
	junk := filepath.Join(dir, "junk.pem")
	if err := os.WriteFile(junk, []byte("tea"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range [][3]string{{junk, key, junk}, {cert, junk, junk}, {filepath.Join(dir, "none"), key, "none"}} {
		_, err := certfile.Open(c[0], c[1], time.Now)
		if err == nil || !strings.Contains(err.Error(), c[2]) {
			t.Errorf("%v: %v, want %s named", c[:2], err, c[2])
		}
	}
}
