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
}

func shots() []shot {
	phone, desk := browsertest.Phone(), browsertest.Desk()
	phone.Scale, desk.Scale = 2, 1.5
	return []shot{
		{"mix-step-phone", "/mix/developer/2", phone, float64(phone.Height)},
		{"mix-sheet-desk", "/mix", desk, 1400},
		{"one-jug-phone", "/jug?label=1%2B31&volume=1+L&for=stop+bath", phone, 1400},
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
	for _, s := range shots() {
		if err := s.take(&browser, server.URL, out); err != nil {
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
