package browsertest

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/png"
	"slices"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/css"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// Film returns each frame, as PNG, that the browser puts out while something goes on, and for a while after.
func (t *Tab) Film(goesOn func() error, after time.Duration) ([][]byte, error) {
	t.mu.Lock()
	t.frames = nil
	t.mu.Unlock()
	err := t.do(func(ctx context.Context, x *chromedp.Target) error {
		_, err := cdp.Call(ctx, x, page.StartScreencast, page.StartScreencastParams{Format: page.StartScreencastFormatPng, EveryNthFrame: 1})
		return err
	})
	if err != nil {
		return nil, err
	}
	if err := goesOn(); err != nil {
		return nil, err
	}
	time.Sleep(after)
	err = t.do(func(ctx context.Context, x *chromedp.Target) error {
		_, err := cdp.Call(ctx, x, page.StopScreencast, cdp.Empty{})
		return err
	})
	t.mu.Lock()
	defer t.mu.Unlock()
	return slices.Clone(t.frames), err
}

// filmed keeps a frame and asks for the next.
func (t *Tab) filmed(ev *page.EventScreencastFrame) {
	t.mu.Lock()
	t.frames = append(t.frames, ev.Data)
	t.mu.Unlock()
	go func() {
		_ = t.do(func(ctx context.Context, x *chromedp.Target) error {
			_, err := cdp.Call(ctx, x, page.ScreencastFrameAck, page.ScreencastFrameAckParams{SessionID: ev.SessionID})
			return err
		})
	}()
}

// Force lets all that a selector finds look as though it were in these states: hover, focus, focus-visible, active.
// It returns how many things there are.
func (t *Tab) Force(selector string, states ...string) (n int, err error) {
	err = t.do(func(ctx context.Context, x *chromedp.Target) error {
		if _, err := cdp.Call(ctx, x, dom.Enable, dom.EnableParams{}); err != nil {
			return err
		}
		if _, err := cdp.Call(ctx, x, css.Enable, cdp.Empty{}); err != nil {
			return err
		}
		doc, err := cdp.Call(ctx, x, dom.GetDocument, dom.GetDocumentParams{})
		if err != nil {
			return err
		}
		found, err := cdp.Call(ctx, x, dom.QuerySelectorAll, dom.QuerySelectorAllParams{NodeID: doc.Root.NodeID, Selector: selector})
		if err != nil {
			return err
		}
		for _, id := range found.NodeIDs {
			if _, err := cdp.Call(ctx, x, css.ForcePseudoState, css.ForcePseudoStateParams{NodeID: id, ForcedPseudoClasses: states}); err != nil {
				return err
			}
		}
		n = len(found.NodeIDs)
		return nil
	})
	return n, err
}

// RedAlone looks at every pixel of a PNG: none may have green or blue in it, none more red than brightest (0 to 255). It
// returns how many pixels are lit; the first that may not be is an error.
func RedAlone(shot []byte, brightest uint8) (lit int, err error) {
	img, err := png.Decode(bytes.NewReader(shot))
	if err != nil {
		return 0, err
	}
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			r, g, bl := rgb(img, x, y)
			if g|bl != 0 || r > brightest {
				return lit, fmt.Errorf("a pixel of %d %d %d at %d, %d", r, g, bl, x, y)
			}
			if r > 0 {
				lit++
			}
		}
	}
	return lit, nil
}

// rgb reads a pixel; the usual kinds of picture without the cost of an interface for each.
func rgb(img image.Image, x, y int) (r, g, b uint8) {
	switch img := img.(type) {
	case *image.RGBA:
		c := img.RGBAAt(x, y)
		return c.R, c.G, c.B
	case *image.NRGBA:
		c := img.NRGBAAt(x, y)
		return c.R, c.G, c.B
	default:
		r, g, b, _ := img.At(x, y).RGBA()
		return uint8(r >> 8), uint8(g >> 8), uint8(b >> 8) //nolint:gosec // at most 255
	}
}
