package main

import (
	"context"
	"database/sql"
	"fmt"
	"html/template"
	"io"
	"net"
	"net/http"
	"net/url"
	"sync"
	"time"

	_ "modernc.org/sqlite" // the same engine as the program's
)

// rows is how many a page of the bare server has.
const rows = 20

// bareTable is the bare server's one page.
const bareTable = `<!doctype html><title>Entries</title><table>{{range .}}<tr><td>{{.ID}}</td><td>{{.Device}}</td><td>{{.Body}}</td></tr>{{end}}</table>`

// bare is the least that a Go server on SQLite does: a page of twenty rows, read each time, and a post that is on disk when it is
// answered, each with a commit of its own. What the program adds to that is seen beside it.
type bare struct {
	db   *sql.DB
	one  sync.Mutex // writes at a time: waiting in the engine is slower
	page *template.Template
}

type bareRow struct {
	ID           int64
	Device, Body string
}

// serveBare serves over a new file until the context ends, and prints where as the program does.
func serveBare(ctx context.Context, path string, out io.Writer) error {
	at := url.URL{Scheme: "file", Opaque: path, RawQuery: "_pragma=journal_mode(WAL)&_pragma=synchronous(FULL)&_pragma=busy_timeout(10000)&_txlock=immediate"}
	db, err := sql.Open("sqlite", at.String())
	if err != nil {
		return err
	}
	defer func() { _ = db.Close() }()
	if _, err := db.ExecContext(ctx, `CREATE TABLE entries (id INTEGER PRIMARY KEY, device TEXT NOT NULL, body TEXT NOT NULL) STRICT`); err != nil {
		return err
	}
	b := &bare{db: db, page: template.Must(template.New("").Parse(bareTable))}
	for range rows {
		if err := b.insert(ctx, "first", `{"baths":["dev","fix"],"material":"RC paper","size":"8x10 in","sheets":1}`); err != nil {
			return err
		}
	}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", b.list)
	mux.HandleFunc("POST /taps", b.take)
	l, err := (&net.ListenConfig{}).Listen(ctx, "tcp", "127.0.0.1:0")
	if err != nil {
		return err
	}
	_, _ = fmt.Fprintf(out, "wetside: http://%s/\n", l.Addr())
	s := &http.Server{Handler: mux, ReadHeaderTimeout: 10 * time.Second}
	defer context.AfterFunc(ctx, func() { _ = s.Close() })()
	if err := s.Serve(l); err != http.ErrServerClosed {
		return err
	}
	return nil
}

func (b *bare) insert(ctx context.Context, device, body string) error {
	b.one.Lock()
	defer b.one.Unlock()
	_, err := b.db.ExecContext(ctx, `INSERT INTO entries (device, body) VALUES (?, ?)`, device, body)
	return err
}

func (b *bare) list(w http.ResponseWriter, r *http.Request) {
	found, err := b.db.QueryContext(r.Context(), `SELECT id, device, body FROM entries ORDER BY id DESC LIMIT ?`, rows)
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	defer func() { _ = found.Close() }()
	var all []bareRow
	for found.Next() {
		var one bareRow
		if err := found.Scan(&one.ID, &one.Device, &one.Body); err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		all = append(all, one)
	}
	if err := found.Err(); err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	_ = b.page.Execute(w, all)
}

func (b *bare) take(w http.ResponseWriter, r *http.Request) {
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, 1<<20))
	if err == nil {
		err = b.insert(r.Context(), "sink", string(body))
	}
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
	}
}
