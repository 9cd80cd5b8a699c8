package certfile_test

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"wetside/internal/certfile"
)

// write puts a certificate of a name and its key into files.
func write(t *testing.T, dir, name string, written time.Time) (cert, key string) {
	t.Helper()
	k, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	tmpl := &x509.Certificate{
		SerialNumber: big.NewInt(1), Subject: pkix.Name{CommonName: name}, DNSNames: []string{name},
		NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour),
	}
	der, err := x509.CreateCertificate(rand.Reader, tmpl, tmpl, &k.PublicKey, k)
	if err != nil {
		t.Fatal(err)
	}
	secret, err := x509.MarshalPKCS8PrivateKey(k)
	if err != nil {
		t.Fatal(err)
	}
	cert, key = filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
	for path, block := range map[string]*pem.Block{cert: {Type: "CERTIFICATE", Bytes: der}, key: {Type: "PRIVATE KEY", Bytes: secret}} {
		if err := os.WriteFile(path, pem.EncodeToMemory(block), 0o600); err != nil {
			t.Fatal(err)
		}
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
