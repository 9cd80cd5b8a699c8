package certmade

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"math/big"
	"net"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// Pair writes a certificate of a name and of 127.0.0.1, good from one moment until another, and its key into cert.pem and key.pem of a
// folder. It vouches for itself; roots are who trusts it.
func Pair(tb testing.TB, dir, name string, from, until time.Time) (cert, key string, roots *x509.CertPool) {
	tb.Helper()
	must := func(err error) {
		tb.Helper()
		if err != nil {
			tb.Fatal(err)
		}
	}
	k, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	must(err)
	form := &x509.Certificate{
		SerialNumber: big.NewInt(1), Subject: pkix.Name{CommonName: name}, DNSNames: []string{name}, IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)},
		NotBefore: from, NotAfter: until, IsCA: true, BasicConstraintsValid: true,
	}
	der, err := x509.CreateCertificate(rand.Reader, form, form, &k.PublicKey, k)
	must(err)
	secret, err := x509.MarshalPKCS8PrivateKey(k)
	must(err)
	cert, key = filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
	for path, block := range map[string]*pem.Block{cert: {Type: "CERTIFICATE", Bytes: der}, key: {Type: "PRIVATE KEY", Bytes: secret}} {
		must(os.WriteFile(path, pem.EncodeToMemory(block), 0o600))
	}
	own, err := x509.ParseCertificate(der)
	must(err)
	roots = x509.NewCertPool()
	roots.AddCert(own)
	return cert, key, roots
}
