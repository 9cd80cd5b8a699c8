package certfile

import (
	"crypto/tls"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"sync"
	"time"
)

// A Pair is a certificate and its key in PEM files. It is safe for use by several goroutines.
type Pair struct {
	cert, key string
	now       func() time.Time

	mu      sync.Mutex
	has     *tls.Certificate
	from    [2]time.Time // when the files were written
	checked time.Time
}

// checkEvery is how often the files are looked at.
const checkEvery = time.Minute

// Open reads the files. The error says which could not be read, or that they do not belong together.
func Open(cert, key string, now func() time.Time) (*Pair, error) {
	p := &Pair{cert: cert, key: key, now: now}
	if err := p.load(); err != nil {
		return nil, err
	}
	return p, nil
}

// load reads the files where they have changed. An error names both: either may be the one to see to.
func (p *Pair) load() error {
	p.checked = p.now()
	err := p.read()
	if err != nil {
		err = fmt.Errorf("certificate %s with key %s: %w", p.cert, p.key, err)
	}
	if errors.Is(err, fs.ErrPermission) { // of a file, or of the folder it lies in
		err = fmt.Errorf("%w: the user that wetside runs as must be able to read both; docs/serving.md says how the service is given them", err)
	}
	return err
}

func (p *Pair) read() error {
	var from [2]time.Time
	for i, path := range []string{p.cert, p.key} {
		info, err := os.Stat(path)
		if err != nil {
			return err
		}
		from[i] = info.ModTime()
	}
	if p.has != nil && from == p.from {
		return nil
	}
	c, err := tls.LoadX509KeyPair(p.cert, p.key)
	if err != nil {
		return err
	}
	p.has, p.from = &c, from
	return nil
}

// suites are those of TLS 1.2 that RFC 9325, 4.2 recommends, and ChaCha20 for boards without AES (RFC 7905): authenticated, with a new key
// for each connection. TLS 1.3 has no others.
func suites() []uint16 {
	return []uint16{
		tls.TLS_ECDHE_ECDSA_WITH_AES_128_GCM_SHA256, tls.TLS_ECDHE_RSA_WITH_AES_128_GCM_SHA256,
		tls.TLS_ECDHE_ECDSA_WITH_AES_256_GCM_SHA384, tls.TLS_ECDHE_RSA_WITH_AES_256_GCM_SHA384,
		tls.TLS_ECDHE_ECDSA_WITH_CHACHA20_POLY1305_SHA256, tls.TLS_ECDHE_RSA_WITH_CHACHA20_POLY1305_SHA256,
	}
}

// Config returns what a server needs: TLS 1.2 or newer, no old ciphers, and the certificate as it stands in the files. Files that can't be
// read after they once could leave the last one in use.
func (p *Pair) Config() *tls.Config {
	return &tls.Config{MinVersion: tls.VersionTLS12, CipherSuites: suites(), GetCertificate: func(*tls.ClientHelloInfo) (*tls.Certificate, error) {
		p.mu.Lock()
		defer p.mu.Unlock()
		if p.now().Sub(p.checked) >= checkEvery {
			_ = p.load() // half a renewal: the old pair serves until both are there
		}
		return p.has, nil
	}}
}
