package words_test

import (
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"path/filepath"
	"testing"
)

// The packed message files are the ones beside them.
func TestPacked(t *testing.T) {
	names, err := filepath.Glob("active.*.toml")
	if err != nil || len(names) < 4 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		if name == "active.en.toml" {
			continue // spoken first, so not packed
		}
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		packed := filepath.Join("packed", name+".gz")
		if *update {
			pack(t, packed, text)
			continue
		}
		f, err := os.Open(packed)
		if err != nil {
			t.Fatal(err)
		}
		r, err := gzip.NewReader(f)
		if err != nil {
			t.Fatal(err)
		}
		got, err := io.ReadAll(r)
		if err != nil || !bytes.Equal(got, text) {
			t.Errorf("%s is not %s (%v): go generate ./words", packed, name, err)
		}
		_ = f.Close()
	}
}

func pack(t *testing.T, name string, text []byte) {
	t.Helper()
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err == nil {
		_, err = w.Write(text)
	}
	if err == nil {
		err = w.Close()
	}
	if err == nil {
		err = os.WriteFile(name, out.Bytes(), 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
}
