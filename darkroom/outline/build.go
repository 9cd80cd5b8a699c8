package outline

import (
	"fmt"

	"github.com/goccy/go-yaml/ast"
)

// build turns the parsed file into nodes.
func build(file *ast.File) (*Node, []Fault) {
	var root ast.Node
	for _, doc := range file.Docs {
		if doc.Body != nil && root == nil {
			root = doc.Body
		}
	}
	if root == nil {
		return nil, []Fault{{Kind: EmptyFile, Place: Place{1, 1}}}
	}
	b := &builder{}
	n := b.node(root, Place{1, 1}, "")
	switch {
	case n.Kind == Empty:
		return nil, []Fault{{Kind: EmptyFile, Place: n.Place}}
	case n.Kind != Mapping:
		return nil, []Fault{{Kind: RootNoMapping, Place: n.Place, Found: n.Describe()}}
	}
	return n, b.faults
}

type builder struct{ faults []Fault }

func (b *builder) fault(f Fault) {
	if len(b.faults) < maxFaults {
		b.faults = append(b.faults, f)
	}
}

// node builds one node; at is the place of the key or list it belongs to, for what has none of its own.
func (b *builder) node(n ast.Node, at Place, path string) *Node {
	switch n := n.(type) {
	case *ast.MappingNode:
		return b.mapping(n.Values, at, path)
	case *ast.MappingValueNode:
		return b.mapping([]*ast.MappingValueNode{n}, at, path)
	case *ast.SequenceNode:
		return b.list(n, path)
	case *ast.LiteralNode:
		return &Node{Kind: Scalar, Place: placeOf(n.Start), Text: n.Value.Value}
	case *ast.StringNode:
		return &Node{Kind: Scalar, Place: placeOf(n.Token), Text: n.Value}
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		return &Node{Kind: Scalar, Place: placeOf(n.GetToken()), Text: n.GetToken().Value}
	case *ast.NullNode, nil:
		return &Node{Place: at}
	default:
		b.fault(Fault{Kind: Syntax, Place: at, Path: path})
		return &Node{Place: at}
	}
}

func (b *builder) list(n *ast.SequenceNode, path string) *Node {
	out := &Node{Kind: List, Place: placeOf(n.Start)}
	for i, item := range n.Values {
		out.Items = append(out.Items, b.node(item, out.Place, fmt.Sprintf("%s[%d]", path, i)))
	}
	return out
}

// mapping builds a mapping; of a key that stands twice the first value counts.
func (b *builder) mapping(values []*ast.MappingValueNode, at Place, path string) *Node {
	out := &Node{Kind: Mapping, Place: at}
	seen := map[string]Place{}
	for i, v := range values {
		key, place := b.key(v.Key)
		below := join(path, key)
		if i == 0 {
			out.Place = place
		}
		if first, twice := seen[key]; twice {
			b.fault(Fault{Kind: DuplicateKey, Place: place, Path: below, Found: key, First: first})
			continue
		}
		seen[key] = place
		out.Fields = append(out.Fields, Field{Key: key, Place: place, Value: b.node(v.Value, place, below)})
	}
	return out
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// key returns a key's own characters and place.
func (b *builder) key(n ast.MapKeyNode) (string, Place) {
	at := placeOf(n.GetToken())
	switch n := n.(type) {
	case *ast.StringNode:
		return n.Value, at
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode, *ast.NullNode:
		return n.GetToken().Value, at
	default:
		b.fault(Fault{Kind: NoPlainKey, Place: at, Found: n.GetToken().Value})
		return "", at
	}
}

// Describe says what a node is in the fewest words, a scalar's own text first.
func (n *Node) Describe() string {
	switch n.Kind {
	case Scalar:
		return n.Text
	case List:
		return fmt.Sprintf("a list of %d", len(n.Items))
	case Mapping:
		return fmt.Sprintf("a mapping of %d", len(n.Fields))
	default:
		return ""
	}
}
