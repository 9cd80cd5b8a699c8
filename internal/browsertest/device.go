package browsertest

import (
	"context"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// Beside opens a second tab of the same device: it shares cookies and what is kept there.
func (t *Tab) Beside(l Look) (*Tab, error) {
	b := &Tab{base: t.base, expected: map[int64]bool{}}
	b.ctx, b.cancel = chromedp.NewContext(t.ctx, chromedp.WithListener(b.listen))
	err := b.do(func(ctx context.Context, x *chromedp.Target) error {
		if _, err := cdp.Call(ctx, x, network.Enable, network.EnableParams{}); err != nil {
			return err
		}
		_, err := cdp.Call(ctx, x, log.Enable, cdp.Empty{})
		return err
	})
	if err != nil {
		b.cancel()
		return nil, err
	}
	return b, b.LookAs(l)
}

// ExpectCuts says that from here on requests may fail for want of a network.
func (t *Tab) ExpectCuts() {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.cuts = true
}

// Slow makes the processor so many times slower for the page.
func (t *Tab) Slow(times float64) error {
	return t.do(func(ctx context.Context, x *chromedp.Target) error {
		_, err := cdp.Call(ctx, x, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: times})
		return err
	})
}

// Room sets how many bytes an origin may keep on the device.
func (t *Tab) Room(origin string, bytes float64) error {
	return t.do(func(ctx context.Context, x *chromedp.Target) error {
		_, err := cdp.Call(ctx, x, storage.OverrideQuotaForOrigin, storage.OverrideQuotaForOriginParams{Origin: origin, QuotaSize: &bytes})
		return err
	})
}

// Before runs a script in each page that is opened from here on, before its own.
func (t *Tab) Before(script string) error {
	return t.do(func(ctx context.Context, x *chromedp.Target) error {
		_, err := cdp.Call(ctx, x, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
		return err
	})
}

// PageDown is the key that many pedals send, for Press.
const PageDown = kb.PageDown

// Press presses keys one after the other, as on a keyboard or a pedal.
func (t *Tab) Press(keys string) error {
	_, err := chromedp.Run(t.ctx, chromedp.KeyEvent(keys))
	return err
}
