package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"
)

// clients ask at once, each for the next page when it has the last.
const clients = 32

// share is how much of the bare server's pages and posts the program shall do.
const share = 0.5

// beside lets the bare server and the program answer the same clients, one after the other, and prints both.
func (l *load) beside(ctx context.Context, out io.Writer) (err error) {
	dir, err := os.MkdirTemp("", "wetside-load")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	self, err := os.Executable()
	if err != nil {
		return err
	}
	plain := rival{l: l, begins: func() (func() (time.Duration, error), error) {
		return l.start(ctx, self, "-bare", filepath.Join(dir, "bare.db"))
	}}
	ours := rival{l: l, keeps: true, begins: func() (func() (time.Duration, error), error) {
		return l.start(ctx, l.program, "serve", "--addr", "127.0.0.1:0", "--data", filepath.Join(dir, "data"), "--example")
	}}
	if err := errors.Join(plain.run(ctx, "/"), ours.run(ctx, "/shelf", "/", "/baths", "/wall", "/sink")); err != nil {
		return err
	}
	base := plain.pages[0]
	_, _ = fmt.Fprintf(out, "%d clients, %v each, %d entries before; a bare Go server on SQLite beside the program\n", clients, l.lasts, l.book)
	_, _ = fmt.Fprintf(out, "%-28s %8.0f a second, p99 %s\n", fmt.Sprintf("bare page of %d rows", rows), base.rate, ms(base.p99))
	for _, p := range ours.pages {
		_, _ = fmt.Fprintf(out, "%-28s %8.0f a second, p99 %s: %.2f of the bare server's (wanted %.1f)\n", "page "+p.what, p.rate, ms(p.p99), p.rate/base.rate, share)
	}
	_, _ = fmt.Fprintf(out, "%-28s %8.0f a second, p99 %s\n", "bare post", plain.posts.rate, ms(plain.posts.p99))
	_, _ = fmt.Fprintf(out, "%-28s %8.0f a second, p99 %s: %.2f of the bare server's (wanted %.1f)\n", "a tap on disk", ours.posts.rate, ms(ours.posts.p99), ours.posts.rate/plain.posts.rate, share)
	return nil
}

// A rival is one of two servers.
type rival struct {
	l      *load
	keeps  bool // a book, which is filled before
	begins func() (stop func() (time.Duration, error), err error)
	pages  []rate
	posts  rate
}

// A rate is how many answers there were a second, and how long one took at p99.
type rate struct {
	what string
	rate float64
	p99  time.Duration
}

func (r *rival) run(ctx context.Context, pages ...string) (err error) {
	r.l.urls = nil
	stop, err := r.begins()
	if err != nil {
		return err
	}
	defer func() {
		_, stopped := stop()
		err = errors.Join(err, stopped)
	}()
	if r.keeps {
		if err := r.l.fillBook(ctx); err != nil {
			return err
		}
	}
	client := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: clients}}
	for _, path := range pages {
		one, err := r.l.all(ctx, path, func(ctx context.Context, _, _ int) error { return page(ctx, client, r.l.urls[0]+path) })
		if err != nil {
			return err
		}
		r.pages = append(r.pages, one)
	}
	r.posts, err = r.l.all(ctx, "post", func(ctx context.Context, who, n int) error {
		return post(ctx, client, r.l.urls[0], fmt.Sprintf("sink%d", who), tap(fmt.Sprintf("beside%d-%d", who, n), who, r.l.now()))
	})
	return err
}

// all lets all clients ask until the time is over.
func (l *load) all(ctx context.Context, what string, ask func(ctx context.Context, who, n int) error) (rate, error) {
	var group sync.WaitGroup
	var mu sync.Mutex
	var took []time.Duration
	var failed error
	began := l.now()
	for who := range clients {
		group.Go(func() {
			var own []time.Duration
			var err error
			for n := 0; err == nil && l.now().Sub(began) < l.lasts; n++ {
				asked := l.now()
				err = ask(ctx, who, n)
				own = append(own, l.now().Sub(asked))
			}
			mu.Lock()
			defer mu.Unlock()
			took, failed = append(took, own...), errors.Join(failed, err)
		})
	}
	group.Wait()
	return rate{what: what, rate: float64(len(took)) / l.now().Sub(began).Seconds(), p99: at(took, 99)}, failed
}

func page(ctx context.Context, client *http.Client, url string) error {
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, url, nil)
	if err != nil {
		return err
	}
	return answered(client, r)
}

func post(ctx context.Context, client *http.Client, url, device, tap string) error {
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, url+"/taps", strings.NewReader(`{"device":"`+device+`","taps":[`+tap+`]}`))
	if err != nil {
		return err
	}
	return answered(client, r)
}

func answered(client *http.Client, r *http.Request) error {
	resp, err := client.Do(r)
	if err != nil {
		return err
	}
	defer func() { _ = resp.Body.Close() }()
	_, err = io.Copy(io.Discard, resp.Body)
	if err == nil && resp.StatusCode != http.StatusOK {
		err = fmt.Errorf("%s %s: %s", r.Method, r.URL.Path, resp.Status)
	}
	return err
}
