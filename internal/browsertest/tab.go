package browsertest

import (
	"context"
	"fmt"
	"net/url"
	"strings"
	"sync"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// patience is how long a tab waits for what is to come.
const patience = 60 * time.Second

// A Tab is one page in a browser context of its own: no cookie of another is seen.
type Tab struct {
	ctx    context.Context
	cancel context.CancelFunc
	base   string

	mu         sync.Mutex
	complaints []string
	expected   map[int64]bool // statuses of 400 and above that are wanted
	frames     [][]byte       // of the film that is being taken
	received   int64          // bytes on the wire
	cuts       bool           // the network may be gone
}

// A Look is how a page is looked at: the window in CSS pixels, and what the reader prefers.
type Look struct {
	Width, Height int64
	Scale         float64 // device pixels for each; 0 is 1
	Dark          bool
	Paper         bool // the print style
	NoScripts     bool
}

// Phone is a small screen of today.
func Phone() Look { return Look{Width: 390, Height: 844} }

// Desk is a window on a small notebook.
func Desk() Look { return Look{Width: 1280, Height: 800} }

// Tab opens a tab on a server; base is its address without a last slash.
func (b *Browser) Tab(base string, l Look) (*Tab, error) {
	if err := b.start(); err != nil {
		return nil, err
	}
	t := &Tab{base: base, expected: map[int64]bool{}}
	t.ctx, t.cancel = chromedp.NewContext(b.ctx, chromedp.WithNewBrowserContext(), chromedp.WithListener(t.listen))
	err := t.do(func(ctx context.Context, x *chromedp.Target) error {
		if _, err := cdp.Call(ctx, x, network.Enable, network.EnableParams{}); err != nil {
			return err
		}
		_, err := cdp.Call(ctx, x, log.Enable, cdp.Empty{})
		return err
	})
	if err != nil {
		t.cancel()
		return nil, err
	}
	return t, t.LookAs(l)
}

// Close closes the tab with its context.
func (t *Tab) Close() { t.cancel() }

func (t *Tab) do(f func(ctx context.Context, x *chromedp.Target) error) error {
	return chromedp.Do(t.ctx, chromedp.Func(f))
}

// LookAs changes how the page is looked at.
func (t *Tab) LookAs(l Look) error {
	if l.Scale == 0 {
		l.Scale = 1
	}
	scheme, media := "light", "screen"
	if l.Dark {
		scheme = "dark"
	}
	if l.Paper {
		media = "print"
	}
	return t.do(func(ctx context.Context, x *chromedp.Target) error {
		size := emulation.SetDeviceMetricsOverrideParams{Width: l.Width, Height: l.Height, DeviceScaleFactor: l.Scale}
		if _, err := cdp.Call(ctx, x, emulation.SetDeviceMetricsOverride, size); err != nil {
			return err
		}
		as := emulation.SetEmulatedMediaParams{
			Media: media, Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
		}
		if _, err := cdp.Call(ctx, x, emulation.SetEmulatedMedia, as); err != nil {
			return err
		}
		scripts := emulation.SetScriptExecutionDisabledParams{Value: l.NoScripts}
		_, err := cdp.Call(ctx, x, emulation.SetScriptExecutionDisabled, scripts)
		return err
	})
}

// listen keeps what the browser complains of.
func (t *Tab) listen(ev any) {
	switch ev := ev.(type) {
	case *page.EventScreencastFrame:
		t.filmed(ev)
	case *log.EventEntryAdded:
		// A failing status is judged where it arrives, below.
		if ev.Entry.Level == log.EntryLevelError && ev.Entry.Source != log.EntrySourceNetwork {
			t.complain("console: %s %s", ev.Entry.Text, ev.Entry.URL)
		}
	case *runtime.EventConsoleAPICalled:
		if ev.Type == runtime.ConsoleAPICalledTypeError {
			t.complain("console.error was called")
		}
	case *runtime.EventExceptionThrown:
		t.complain("a script threw: %s", ev.ExceptionDetails.Text)
	case *network.EventLoadingFinished:
		t.mu.Lock()
		t.received += int64(ev.EncodedDataLength)
		t.mu.Unlock()
	case *network.EventResponseReceived:
		t.mu.Lock()
		wanted := t.expected[ev.Response.Status]
		t.mu.Unlock()
		if ev.Response.Status >= 400 && !wanted {
			t.complain("%d from %s", ev.Response.Status, ev.Response.URL)
		}
	case *network.EventLoadingFailed:
		// Forcing states lets the inspector look for a page's text in a cache that may not have it.
		t.mu.Lock()
		cuts := t.cuts
		t.mu.Unlock()
		if !cuts && !ev.Canceled && ev.ErrorText != "net::ERR_CACHE_MISS" {
			t.complain("loading failed: %s", ev.ErrorText)
		}
	}
}

func (t *Tab) complain(format string, args ...any) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.complaints = append(t.complaints, fmt.Sprintf(format, args...))
}

// Expect says that answers of this status are wanted from here on.
func (t *Tab) Expect(status int64) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.expected[status] = true
}

// Complaints returns what the browser complained of since it was last asked.
func (t *Tab) Complaints() []string {
	t.mu.Lock()
	defer t.mu.Unlock()
	out := t.complaints
	t.complaints = nil
	return out
}

// Received returns how many bytes came over the wire, with their headers, since it was last asked.
func (t *Tab) Received() int64 {
	t.mu.Lock()
	defer t.mu.Unlock()
	n := t.received
	t.received = 0
	return n
}

// Go opens an address of the server, or a whole one.
func (t *Tab) Go(path string) error {
	if !strings.Contains(path, "://") {
		path = t.base + path
	}
	ctx, cancel := context.WithTimeout(t.ctx, 2*patience)
	defer cancel()
	if err := chromedp.Do(ctx, chromedp.Navigate(path)); err != nil {
		return fmt.Errorf("opening %s: %w", path, err)
	}
	return nil
}

// At returns the path and query of the page.
func (t *Tab) At() (string, error) {
	at, err := chromedp.Run(t.ctx, chromedp.Location())
	if err != nil {
		return "", err
	}
	u, err := url.Parse(at)
	if err != nil {
		return "", err
	}
	return u.RequestURI(), nil
}

// Eval evaluates an expression in the page, also where the page itself may run no scripts.
func Eval[T any](t *Tab, expression string) (T, error) {
	ctx, cancel := context.WithTimeout(t.ctx, patience)
	defer cancel()
	return chromedp.Run(ctx, chromedp.Evaluate[T](expression))
}

// HTML returns the page as it stands.
func (t *Tab) HTML() (string, error) { return Eval[string](t, "document.documentElement.outerHTML") }

// Screenshot returns the whole page as PNG, however long it is; with size above 0 only so much from its top.
func (t *Tab) Screenshot(height float64) ([]byte, error) {
	size, err := Eval[[]float64](t, "[document.documentElement.clientWidth, document.documentElement.scrollHeight]")
	if err != nil {
		return nil, err
	}
	if height == 0 {
		height = size[1]
	}
	var png []byte
	err = t.do(func(ctx context.Context, x *chromedp.Target) error {
		beyond := true
		shot, err := cdp.Call(ctx, x, page.CaptureScreenshot, page.CaptureScreenshotParams{
			Format: page.CaptureScreenshotFormatPng, CaptureBeyondViewport: &beyond,
			Clip: &page.Viewport{Width: size[0], Height: height, Scale: 1},
		})
		png = shot.Data
		return err
	})
	return png, err
}
