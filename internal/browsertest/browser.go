package browsertest

import (
	"context"
	"crypto/sha256"
	"crypto/x509"
	"encoding/base64"
	"encoding/pem"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"sync"
	"time"

	"github.com/chromedp/chromedp"
)

// ErrNoBrowser says that there is no Chromium on this machine.
var ErrNoBrowser = errors.New("browsertest: no Chromium on this machine")

// A Browser is one Chromium with an empty profile. It starts when the first page is wanted and is safe to share.
type Browser struct {
	// Trusts is the certificate of a server that is trusted whatever its name and whoever signed it, as PEM; empty: none.
	Trusts []byte

	once   sync.Once
	err    error
	ctx    context.Context // the browser lives as long as it
	cancel []context.CancelFunc
	dir    string
}

// Close ends the browser and takes its profile away. It may be called on a browser that never started.
func (b *Browser) Close() error {
	b.once.Do(func() { b.err = errors.New("browsertest: closed") })
	if b.ctx == nil {
		return nil
	}
	err := chromedp.Cancel(b.ctx)
	for _, cancel := range slices.Backward(b.cancel) {
		cancel()
	}
	return errors.Join(err, removeAll(b.dir))
}

// removeAll takes a profile away; children of the browser may still write in it for a moment.
func removeAll(dir string) (err error) {
	for range 50 {
		if err = os.RemoveAll(dir); err == nil {
			return nil
		}
		time.Sleep(100 * time.Millisecond)
	}
	return err
}

func (b *Browser) start() error {
	b.once.Do(func() { b.err = b.launch() })
	return b.err
}

func (b *Browser) launch() error {
	path, err := chromium()
	if err != nil {
		return err
	}
	if b.dir, err = os.MkdirTemp("", "wetside-chromium-"); err != nil {
		return err
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.UserDataDir(b.dir),
		chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun, chromedp.WindowSize(390, 844),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-sync", true),
		// A name that is not loopback, for what browsers do differently there.
		chromedp.Flag("host-resolver-rules", "MAP "+MappedHost+" 127.0.0.1"),
	)
	if len(b.Trusts) > 0 {
		spki, err := keyOf(b.Trusts)
		if err != nil {
			return err
		}
		options = append(options, chromedp.Flag("ignore-certificate-errors-spki-list", spki))
	}
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, cancel := chromedp.NewContext(allocator)
	b.ctx, b.cancel = ctx, []context.CancelFunc{stop, cancel}
	if err := chromedp.Do(ctx); err != nil {
		return fmt.Errorf("browsertest: starting %s: %w", path, err)
	}
	return nil
}

// MappedHost is a name that leads to this machine, and that a browser does not take for loopback.
const MappedHost = "darkroom.test"

// keyOf returns the hash of a certificate's public key, as Chromium takes it.
func keyOf(cert []byte) (string, error) {
	block, _ := pem.Decode(cert)
	if block == nil {
		return "", errors.New("browsertest: no certificate to trust")
	}
	c, err := x509.ParseCertificate(block.Bytes)
	if err != nil {
		return "", fmt.Errorf("browsertest: the certificate to trust: %w", err)
	}
	sum := sha256.Sum256(c.RawSubjectPublicKeyInfo)
	return base64.StdEncoding.EncodeToString(sum[:]), nil
}

func chromium() (string, error) {
	for _, name := range []string{"chromium", "chromium-browser"} {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", ErrNoBrowser
}
