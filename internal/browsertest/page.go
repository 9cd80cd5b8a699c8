package browsertest

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"wetside/internal/outside"
)

// A Page is a tab in a test: what goes wrong fails the test.
type Page struct {
	*Tab
	t testing.TB
}

// Open opens a tab on a server for a test. Without a Chromium the test is skipped at a desk and fails in CI.
func Open(tb testing.TB, b *Browser, base string, l Look) *Page {
	tb.Helper()
	tab, err := b.Tab(base, l)
	if errors.Is(err, ErrNoBrowser) {
		outside.Without(tb, err.Error())
	}
	if err != nil {
		tb.Fatal(err)
	}
	p := &Page{tab, tb}
	tb.Cleanup(func() {
		for _, c := range tab.Complaints() {
			tb.Error("the browser complains: " + c)
		}
		if tb.Failed() {
			p.keep()
		}
		tab.Close()
	})
	return p
}

// keep writes what the page looks like beside the test's results.
func (p *Page) keep() {
	dir := p.t.ArtifactDir()
	if png, err := p.Screenshot(0); err == nil {
		_ = os.WriteFile(filepath.Join(dir, "page.png"), png, 0o600)
	}
	if html, err := p.HTML(); err == nil {
		_ = os.WriteFile(filepath.Join(dir, "page.html"), []byte(html), 0o600)
	}
	at, _ := p.At()
	p.t.Logf("the page was at %s; see %s (kept with -artifacts)", at, dir)
}

func (p *Page) must(err error) {
	p.t.Helper()
	if err != nil {
		p.t.Fatal(err)
	}
}

// Go opens an address.
func (p *Page) Go(path string) { p.t.Helper(); p.must(p.Tab.Go(path)) }

// Click clicks what has this role and name.
func (p *Page) Click(role, name string) { p.t.Helper(); p.must(p.Tab.Click(role, name)) }

// Fill types into a field.
func (p *Page) Fill(label, text string) { p.t.Helper(); p.must(p.Tab.Fill(label, text)) }

// Choose picks an option.
func (p *Page) Choose(label, option string) { p.t.Helper(); p.must(p.Tab.Choose(label, option)) }

// See waits until a text is seen.
func (p *Page) See(text string) { p.t.Helper(); p.must(p.Tab.See(text)) }

// Reach waits until the page is at a path.
func (p *Page) Reach(path string) { p.t.Helper(); p.must(p.Tab.Reach(path)) }

// LookAs changes how the page is looked at.
func (p *Page) LookAs(l Look) { p.t.Helper(); p.must(p.Tab.LookAs(l)) }

// Text returns what can be seen.
func (p *Page) Text() string {
	p.t.Helper()
	text, err := p.Tab.Text()
	p.must(err)
	return text
}

// Audit fails the test for whatever the page falls short of.
func (p *Page) Audit() {
	p.t.Helper()
	bad, err := p.Tab.Audit()
	p.must(err)
	if len(bad) > 0 {
		at, _ := p.At()
		p.t.Errorf("%s:\n  %s", at, strings.Join(bad, "\n  "))
	}
}

// Until waits until something holds.
func (p *Page) Until(what string, holds func() bool) {
	p.t.Helper()
	p.must(p.wait(what, func(context.Context, *chromedp.Target) error {
		if !holds() {
			return errNotThere
		}
		return nil
	}))
}
