package outline

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
)

// JSON writes a node as JSON, every scalar a string in its own characters, fields in their order.
func (n *Node) JSON() []byte {
	var b bytes.Buffer
	n.json(&b)
	return b.Bytes()
}

func (n *Node) json(b *bytes.Buffer) {
	switch n.Kind {
	case Scalar:
		writeString(b, n.Text)
	case List:
		b.WriteByte('[')
		for i, item := range n.Items {
			sep(b, i)
			item.json(b)
		}
		b.WriteByte(']')
	case Mapping:
		b.WriteByte('{')
		for i, f := range n.Fields {
			sep(b, i)
			writeString(b, f.Key)
			b.WriteByte(':')
			f.Value.json(b)
		}
		b.WriteByte('}')
	default:
		b.WriteString("null")
	}
}

func sep(b *bytes.Buffer, i int) {
	if i > 0 {
		b.WriteByte(',')
	}
}

func writeString(b *bytes.Buffer, s string) {
	e := json.NewEncoder(b)
	e.SetEscapeHTML(false)
	// A string always encodes; what is no UTF-8 in it is replaced.
	if e.Encode(s) == nil {
		b.Truncate(b.Len() - 1)
	}
}

var errShape = errors.New("outline: not the JSON of a mapping")

// FromJSON reads what JSON wrote. The error is for JSON that is none, deeper than MaxDepth, longer than
// MaxBytes, or not a mapping.
func FromJSON(src []byte) (*Node, error) {
	if len(src) > MaxBytes {
		return nil, errShape
	}
	d := json.NewDecoder(bytes.NewReader(src))
	d.UseNumber()
	n, err := fromJSON(d, 0)
	if err != nil {
		return nil, err
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) || n.Kind != Mapping {
		return nil, errShape
	}
	return n, nil
}

func fromJSON(d *json.Decoder, depth int) (*Node, error) {
	t, err := d.Token()
	if err != nil {
		return nil, err
	}
	switch t := t.(type) {
	case json.Delim:
		if depth >= MaxDepth {
			return nil, errShape
		}
		return compound(d, t, depth+1)
	case string:
		return Text(t), nil
	case json.Number:
		return Text(t.String()), nil
	case bool:
		return Text(map[bool]string{true: "yes", false: "no"}[t]), nil
	default:
		return &Node{}, nil
	}
}

// compound reads a list or mapping up to its closing bracket.
func compound(d *json.Decoder, open json.Delim, depth int) (*Node, error) {
	n := &Node{Kind: List}
	if open == '{' {
		n.Kind = Mapping
	}
	for d.More() {
		key := ""
		if n.Kind == Mapping {
			t, err := d.Token()
			if err != nil {
				return nil, err
			}
			key, _ = t.(string)
			if key == "" || n.has(key) {
				return nil, errShape
			}
		}
		v, err := fromJSON(d, depth)
		if err != nil {
			return nil, err
		}
		if n.Kind == Mapping {
			n.Set(key, v)
		} else {
			n.Items = append(n.Items, v)
		}
	}
	_, err := d.Token()
	return n, err
}
