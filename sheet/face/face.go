package face

import (
	"bytes"
	"compress/gzip"
	_ "embed"
	"io"
	"sync"
)

//go:generate go test -run=TestFaces$ -update

var (
	//go:embed regular.ttf.gz
	regular []byte
	//go:embed bold.ttf.gz
	bold []byte
	// The packed bytes are built in, and TestFaces unpacks them.
	unpacked = sync.OnceValue(func() (both [2][]byte) {
		for i, packed := range [][]byte{regular, bold} {
			r, err := gzip.NewReader(bytes.NewReader(packed))
			if err == nil {
				both[i], err = io.ReadAll(r)
			}
			if err != nil {
				panic("face: " + err.Error())
			}
		}
		return both
	})
)

// Regular returns the regular face. It is shared: read it only.
func Regular() []byte { return unpacked()[0] }

// Bold returns the bold face. It is shared: read it only.
func Bold() []byte { return unpacked()[1] }
