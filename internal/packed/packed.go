package packed

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"os"
	"testing"
)

// Hold fails a test where the gzip file of a name does not hold what is wanted; with anew it writes the file instead.
func Hold(tb testing.TB, name string, want []byte, anew bool) {
	tb.Helper()
	do := check
	if anew {
		do = pack
	}
	if err := do(name, want); err != nil {
		tb.Errorf("%s: %v: go generate writes it", name, err)
	}
}

// errOther is for a file that holds something else.
var errOther = errors.New("it holds something else")

func check(name string, want []byte) error {
	all, err := os.ReadFile(name) //nolint:gosec // a test names it
	if err != nil {
		return err
	}
	r, err := gzip.NewReader(bytes.NewReader(all))
	if err != nil {
		return err
	}
	got, err := io.ReadAll(r)
	if err == nil && !bytes.Equal(got, want) {
		err = errOther
	}
	return err
}

// pack writes the same bytes for the same content: the name and the time of a file are not in it.
func pack(name string, content []byte) error {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return err
	}
	if _, err := w.Write(content); err != nil {
		return fmt.Errorf("packing: %w", err)
	}
	if err := w.Close(); err != nil {
		return fmt.Errorf("packing: %w", err)
	}
	return os.WriteFile(name, out.Bytes(), 0o644) //nolint:gosec // read by all, as source is
}
