package web

import (
	"compress/gzip"
	"io"
	"net/http"
	"slices"
	"strings"
	"sync"
)

// smallest is the first piece of an answer below which packing it is not worth the while, in bytes.
const smallest = 512

// zipped packs texts for whoever can unpack them (RFC 9110, 8.4.1.3). A stream of events goes as it is: it must not wait.
func (s *server) zipped(next http.Handler) http.Handler {
	packers := sync.Pool{New: func() any { return gzip.NewWriter(io.Discard) }}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !takesZip(r) {
			next.ServeHTTP(w, r)
			return
		}
		z := &zipWriter{ResponseWriter: w, packers: &packers}
		defer z.close()
		next.ServeHTTP(z, r)
	})
}

// takesZip reports whether a browser unpacks gzip.
func takesZip(r *http.Request) bool {
	return slices.ContainsFunc(strings.Split(r.Header.Get("Accept-Encoding"), ","), func(one string) bool {
		name, weight, _ := strings.Cut(strings.ReplaceAll(one, " ", ""), ";")
		return strings.EqualFold(name, "gzip") && weight != "q=0"
	})
}

// A zipWriter decides at the first byte whether it packs.
type zipWriter struct {
	http.ResponseWriter
	packers *sync.Pool
	packer  *gzip.Writer // nil: as it is
	decided bool
	status  int
}

// Unwrap lets a ResponseController reach the writer below.
func (z *zipWriter) Unwrap() http.ResponseWriter { return z.ResponseWriter }

// WriteHeader waits with the status until it is known how the answer goes, where one follows.
func (z *zipWriter) WriteHeader(status int) {
	if z.status == 0 && !z.decided && status >= http.StatusOK {
		z.status = status
	}
	if status == http.StatusNoContent || status == http.StatusNotModified || status < http.StatusOK {
		z.ResponseWriter.WriteHeader(status)
		z.decided = true
	}
}

// Write packs, or does not.
func (z *zipWriter) Write(b []byte) (int, error) {
	if !z.decided {
		z.decide(b)
	}
	if z.packer != nil {
		return z.packer.Write(b)
	}
	return z.ResponseWriter.Write(b)
}

// Flush sends what there is.
func (z *zipWriter) Flush() {
	if !z.decided {
		z.decide(nil)
	}
	if z.packer != nil {
		_ = z.packer.Flush()
	}
	_ = http.NewResponseController(z.ResponseWriter).Flush()
}

func (z *zipWriter) decide(first []byte) {
	z.decided = true
	h := z.Header()
	kind, _, _ := strings.Cut(h.Get("Content-Type"), ";")
	text := strings.HasPrefix(kind, "text/") && kind != "text/event-stream" || kind == "application/json"
	if text {
		h.Add("Vary", "Accept-Encoding")
	}
	if text && len(first) >= smallest && h.Get("Content-Encoding") == "" {
		h.Set("Content-Encoding", "gzip")
		h.Del("Content-Length")
		z.packer, _ = z.packers.Get().(*gzip.Writer)
		z.packer.Reset(z.ResponseWriter)
	}
	if z.status != 0 {
		z.ResponseWriter.WriteHeader(z.status)
	}
}

// close ends the packing and sends a status that nothing followed.
func (z *zipWriter) close() {
	if !z.decided && z.status != 0 {
		z.decided = true
		z.ResponseWriter.WriteHeader(z.status)
	}
	if z.packer != nil {
		_ = z.packer.Close()
		z.packers.Put(z.packer)
		z.packer = nil
	}
}
