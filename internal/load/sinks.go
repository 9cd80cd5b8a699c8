package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"
)

// settling is how long taps that are under way may still be shown after the last one.
const settling = 2 * time.Second

// figures are what was measured.
type figures struct {
	mu     sync.Mutex
	sent   map[string]time.Time // by the tap's id
	acked  []time.Duration
	shown  []time.Duration // on the stream of the next sink
	failed int
	errs   []error
}

// tapAll lets all sinks tap and listen.
func (l *load) tapAll(ctx context.Context, f *figures) error {
	client := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: 2 * l.sinks}}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	var streams, sinks, ready sync.WaitGroup
	for i := range l.sinks {
		ready.Add(1)
		streams.Go(func() {
			err := l.listen(ctx, client, f, i, sync.OnceFunc(ready.Done))
			if err != nil && ctx.Err() == nil {
				f.fails(err)
			}
		})
	}
	ready.Wait()
	end := l.now().Add(l.lasts)
	for i := range l.sinks {
		sinks.Go(func() {
			time.Sleep(time.Duration(i*617%1000) * time.Millisecond) // spread over the second
			for n := 0; l.now().Before(end); n++ {
				next := l.now().Add(time.Second)
				l.tapOnce(ctx, client, f, i, n)
				time.Sleep(next.Sub(l.now()))
			}
		})
	}
	sinks.Wait()
	time.Sleep(settling)
	cancel()
	streams.Wait()
	return errors.Join(f.errs...)
}

func (f *figures) fails(err error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.errs = append(f.errs, err)
}

// tapOnce sends one tap and waits for its answer.
func (l *load) tapOnce(ctx context.Context, client *http.Client, f *figures, sink, n int) {
	id := fmt.Sprintf("sink%d-%d", sink, n)
	began := l.now()
	f.mu.Lock()
	f.sent[id] = began
	f.mu.Unlock()
	err := send(ctx, client, l.urls[sink%len(l.urls)], fmt.Sprintf("sink%d", sink), tap(id, sink, began))
	took := l.now().Sub(began)
	f.mu.Lock()
	defer f.mu.Unlock()
	if err != nil {
		f.failed++
		return
	}
	f.acked = append(f.acked, took)
}

// tap is one tap: a sheet went through two baths.
func tap(id string, bath int, now time.Time) string {
	return fmt.Sprintf(`{"id":%q,"kind":"bath.worked","at":%q,"by":"","body":{"baths":["dev%d","fix%d"],"material":"RC paper","size":"8x10 in","sheets":1}}`,
		id, now.UTC().Format(time.RFC3339Nano), bath, bath)
}

// send sends taps, all of which must be taken.
func send(ctx context.Context, client *http.Client, url, device string, taps ...string) error {
	body := strings.NewReader(`{"device":"` + device + `","taps":[` + strings.Join(taps, ",") + `]}`)
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, url+"/taps", body)
	if err != nil {
		return err
	}
	resp, err := client.Do(r)
	if err != nil {
		return err
	}
	defer func() { _ = resp.Body.Close() }()
	answer, err := io.ReadAll(resp.Body)
	if err == nil && (resp.StatusCode != http.StatusOK || strings.Count(string(answer), `"id"`) != len(taps) || !strings.Contains(string(answer), `"refused":[]`)) {
		err = fmt.Errorf("%s %s", resp.Status, answer)
	}
	return err
}

// listen follows the book where a sink is and notes when the taps of the next sink are shown: of two processes that one taps at
// the other.
func (l *load) listen(ctx context.Context, client *http.Client, f *figures, sink int, ready func()) error {
	defer ready()
	of := fmt.Sprintf("sink%d-", (sink+1)%l.sinks)
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, l.urls[sink%len(l.urls)]+"/live?kinds=bath.&after="+strconv.Itoa(l.book), nil)
	if err != nil {
		return err
	}
	resp, err := client.Do(r)
	if err != nil {
		return err
	}
	defer func() { _ = resp.Body.Close() }()
	lines := bufio.NewScanner(resp.Body)
	lines.Buffer(nil, 1<<20)
	mark := `"id":"` + of
	for lines.Scan() {
		ready()
		for rest := lines.Text(); ; {
			_, after, found := strings.Cut(rest, mark)
			if !found {
				break
			}
			n, more, _ := strings.Cut(after, `"`)
			f.show(of+n, l.now())
			rest = more
		}
	}
	return lines.Err()
}

func (f *figures) show(id string, now time.Time) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if began, ok := f.sent[id]; ok {
		f.shown = append(f.shown, now.Sub(began))
	}
}
