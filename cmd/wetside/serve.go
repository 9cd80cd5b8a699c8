package main

import (
	"context"
	"crypto/rand"
	"crypto/tls"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os"
	"strings"
	"time"

	"github.com/google/uuid"

	"wetside/access"
	"wetside/api"
	"wetside/cli"
	"wetside/internal/certfile"
	"wetside/internal/clibook"
	"wetside/internal/doors"
	"wetside/internal/health"
	"wetside/internal/notify"
	"wetside/internal/steady"
	"wetside/internal/webbook"
	"wetside/trade/quantity"
	"wetside/web"
	"wetside/words"
)

// The server's patience.
const (
	readHeaders = 10 * time.Second
	readAll     = 60 * time.Second
	writeAll    = 60 * time.Second // of a page; a stream has its own
	stopWithin  = 10 * time.Second
)

// serve answers on an address until the context ends.
func (h house) serve(ctx context.Context, c cli.ServeConfig) (err error) {
	messages := words.Opening() // beside the book: the two take as long
	log := slog.New(slog.NewTextHandler(os.Stderr, nil))
	clock := steady.New(h.now, steady.Elapsed(h.now))
	h.now = clock.Now
	b, err := h.open(ctx, c.Where)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Close()) }()
	b.TellOdd(func(err error) { log.WarnContext(ctx, "the short cut of a quick start", "error", err) })
	pagesBook := webbook.Book{Store: b.Store, Room: b.Room, Now: h.now, NewID: uuid.NewString, Names: c.Hosts, Outside: !access.Loopback(c.Addr)}
	if pagesBook.Stolen, err = doors.OpenStolen(c.Stolen); err != nil {
		return err
	}
	word, err := firstWord(ctx, &pagesBook)
	if err != nil {
		return err
	}
	for _, w := range b.Warnings() {
		log.WarnContext(ctx, "what is written may be lost: "+w.Key, "what", w.What)
	}
	if err := notBefore(ctx, clock, pagesBook, log); err != nil {
		return err
	}
	if c.Example {
		if err := pagesBook.LoadExample(ctx); err != nil {
			return err
		}
	}
	config := pagesBook.Config(log)
	config.Parts, config.Stop, config.Words = c.Parts, ctx, messages
	pages, err := web.New(config)
	if err != nil {
		return err
	}
	programs, err := api.New(api.Config{
		Book: pagesBook, Keys: config.Doors, Now: h.now,
		NewID: uuid.NewString, Log: log, Words: messages, Stop: ctx,
	})
	if err != nil {
		return err
	}
	say, err := english(messages)
	if err != nil {
		return err
	}
	manager, err := notify.From(os.Getenv)
	if err != nil {
		return err
	}
	listener, scheme, err := h.listen(ctx, c, say.Tell("serve_comes_plain").Text())
	if err != nil {
		return err
	}
	watch := health.New(pagesBook, c.Version, h.now, log)
	healthAddr, stopped, err := watchOver(ctx, c.Health, watch, log)
	if err != nil {
		return errors.Join(err, listener.Close())
	}
	_, _ = fmt.Fprintf(c.Out, "wetside: %s://%s/\ndata: %s\n%s%s%s", scheme, reached(ctx, listener.Addr()), whereOf(c, b), healthAddr, tellWord(say, word), tellClear(say, pagesBook.Outside && scheme == "http"))
	if err := manager.Say("READY=1"); err != nil {
		log.WarnContext(ctx, "not told to the service manager", "error", err)
	}
	go manager.Live(ctx, func(ctx context.Context) error {
		_, err := pagesBook.Position(ctx)
		return err
	})
	defer context.AfterFunc(ctx, func() { _ = manager.Say("STOPPING=1") })()
	return errors.Join(answer(ctx, server(secured(watch.Count(beside(programs, pages))), log), listener), <-stopped)
}

// beside answers programs by the API, all others by the pages.
func beside(programs, pages http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasPrefix(r.URL.Path+"/", "/api/") {
			programs.ServeHTTP(w, r)
			return
		}
		pages.ServeHTTP(w, r)
	})
}

// firstWord makes the word by which the first keyholder is made from another machine; empty where there is a keyholder, or where
// no other machine reaches the server.
func firstWord(ctx context.Context, b *webbook.Book) (string, error) {
	if !b.Outside {
		return "", nil
	}
	kept, err := b.Doors().Kept(ctx)
	if err == nil && !kept {
		b.Word = typedWord(rand.Text())
	}
	return b.Word, err
}

// typedWord is as much of a random text as is typed once: 60 bits, of which five may be tried and then one a minute.
func typedWord(random string) string { return random[:4] + "-" + random[4:8] + "-" + random[8:12] }

// english is the voice of what is printed where the server starts.
func english(read func() (*words.Catalogue, error)) (*words.Voice, error) {
	c, err := read()
	if err != nil {
		return nil, err
	}
	return c.Voice("en", quantity.Metric, quantity.OunceUS)
}

// tellWord says what to do where other machines reach a darkroom that nobody keeps yet.
func tellWord(say *words.Voice, word string) string {
	if word == "" {
		return ""
	}
	return "\n" + say.Tell("serve_word").Text() + "\n\n    " + word + "\n\n"
}

// tellClear says what other machines without https mean.
func tellClear(say *words.Voice, plain bool) string {
	if !plain {
		return ""
	}
	return say.Tell("serve_in_the_clear").Text() + "\n"
}

// watchOver answers on the second address, where one is wanted, until the context ends; say is a line that tells where.
func watchOver(ctx context.Context, addr string, w *health.Watch, log *slog.Logger) (say string, stopped <-chan error, err error) {
	done := make(chan error, 1)
	if addr == "" {
		close(done)
		return "", done, nil
	}
	l, err := (&net.ListenConfig{}).Listen(ctx, "tcp", addr)
	if err != nil {
		return "", nil, fmt.Errorf("--health: %w", err)
	}
	go func() { done <- answer(ctx, server(w.Handler(), log), l) }()
	return fmt.Sprintf("health: http://%s/readyz\n", l.Addr()), done, nil
}

// whereOf says where the data lie: a directory, or a URL without its password and a darkroom.
func whereOf(c cli.ServeConfig, b clibook.Book) string {
	if c.Database == "" {
		return c.Dir
	}
	return b.Place() + ", darkroom " + b.Room
}

// notBefore starts the clock no earlier than the book's last entry was written, and says so.
func notBefore(ctx context.Context, clock *steady.Clock, b webbook.Book, log *slog.Logger) error {
	at, err := b.Position(ctx)
	if err != nil || at == 0 {
		return err
	}
	last, err := b.Since(ctx, at-1, 1)
	if err != nil || len(last) == 0 {
		return err
	}
	if behind := clock.NotBefore(last[0].RecordedAt); behind > 0 {
		log.WarnContext(ctx, "this machine's clock stands before the book's last entry: the book goes on from there",
			"behind", behind, "last entry", last[0].RecordedAt)
	}
	return nil
}

// listen takes the address, with a certificate where there is one. Files that can't be read are told before anything is taken.
// Whoever comes by plain http all the same is led to https, or told so in a sentence.
func (h house) listen(ctx context.Context, c cli.ServeConfig, byHTTPS string) (net.Listener, string, error) {
	var secure *tls.Config
	if c.Cert != "" {
		pair, err := certfile.Open(c.Cert, c.Key, h.now)
		if err != nil {
			return nil, "", err
		}
		secure = pair.Config()
		secure.NextProtos = []string{"http/1.1"} // one stream per device; the binary is built without HTTP/2
	}
	listener, err := (&net.ListenConfig{}).Listen(ctx, "tcp", c.Addr)
	if err != nil || secure == nil {
		return listener, "http", err
	}
	return tls.NewListener(plainTurned{listener, byHTTPS}, secure), "https", nil
}

// answer serves until the context ends, then lets what is under way finish.
func answer(ctx context.Context, s *http.Server, l net.Listener) error {
	done := make(chan error, 1)
	go func() { done <- s.Serve(l) }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
	}
	ctx, cancel := context.WithTimeout(context.WithoutCancel(ctx), stopWithin)
	defer cancel()
	return s.Shutdown(ctx)
}
