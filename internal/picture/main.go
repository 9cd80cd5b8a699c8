package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"log/slog"
	"net/http/httptest"
	"os"
	"path/filepath"
	"time"

	"wetside/internal/browsertest"
	"wetside/internal/webbook"
)

// A shot is one picture.
type shot struct {
	name, path string
	look       browsertest.Look
	height     float64 // of the picture; 0 is the whole page
	red        bool
}

func shots() []shot {
	phone, desk := browsertest.Phone(), browsertest.Desk()
	phone.Scale, desk.Scale = 2, 1.5
	return []shot{
		{"mix-step-phone", "/mix/developer/2", phone, float64(phone.Height), false},
		{"mix-sheet-desk", "/mix", desk, 1400, false},
		{"one-jug-phone", "/jug?label=1%2B31&volume=1+L&for=stop+bath", phone, 1400, false},
	}
}

// atWork are the pictures of an evening that goes on.
func atWork() []shot {
	phone, desk := browsertest.Phone(), browsertest.Desk()
	phone.Scale, desk.Scale = 2, 1.5
	phone.Height = 960
	return []shot{
		{"sink-red-phone", "/sink", phone, float64(phone.Height), true},
		{"wall-desk", "/wall", desk, float64(desk.Height), false},
	}
}

func main() {
	out := flag.String("out", filepath.Join("docs", "pictures"), "where the pictures go")
	flag.Parse()
	if err := take(context.Background(), *out); err != nil {
		fmt.Fprintln(os.Stderr, "picture:", err)
		os.Exit(1) //nolint:forbidigo // this is a main
	}
}

// take takes every picture into a folder.
func take(ctx context.Context, out string) (err error) {
	dir, err := os.MkdirTemp("", "wetside-picture-")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	evening := time.Date(2026, time.March, 12, 17, 0, 0, 0, time.UTC)
	book, pages, err := webbook.Open(ctx, filepath.Join(dir, "book.db"), func() time.Time { return evening }, slog.Default())
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Store.Close()) }()
	if err := book.LoadExample(ctx); err != nil {
		return err
	}
	server := httptest.NewServer(pages)
	defer server.Close()
	var browser browsertest.Browser
	defer func() { err = errors.Join(err, browser.Close()) }()
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	if err := all(shots(), &browser, server.URL, out); err != nil {
		return err
	}
	if err := play(ctx, book, evening); err != nil {
		return err
	}
	return all(atWork(), &browser, server.URL, out)
}

func all(shots []shot, b *browsertest.Browser, base, out string) error {
	for _, s := range shots {
		if err := s.take(b, base, out); err != nil {
			return fmt.Errorf("%s: %w", s.name, err)
		}
	}
	return nil
}

func (s shot) take(b *browsertest.Browser, base, out string) error {
	tab, err := b.Tab(base, s.look)
	if err != nil {
		return err
	}
	defer tab.Close()
	if s.red {
		if err := errors.Join(tab.Go("/baths"), tab.Click("button", "Red light"), tab.Reach("/red")); err != nil {
			return err
		}
	}
	if err := tab.Go(s.path); err != nil {
		return err
	}
	if bad := tab.Complaints(); len(bad) > 0 {
		return fmt.Errorf("the browser complains: %v", bad)
	}
	png, err := tab.Screenshot(s.height)
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(out, s.name+".png"), png, 0o644) //nolint:gosec // pictures are for everybody
}
