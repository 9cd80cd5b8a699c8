package outline

// Kind is the shape of a node.
type Kind uint8

// The shapes. The zero value is a place that was left blank.
const (
	Empty Kind = iota
	Scalar
	List
	Mapping
)

// A Place is a line and a column, both from 1, the column in characters; the zero value is no place.
type Place struct{ Line, Column int }

// A Node is a scalar, a list or a mapping.
type Node struct {
	Kind   Kind
	Place  Place
	Text   string  // of a scalar
	Items  []*Node // of a list
	Fields []Field // of a mapping, in the order of the file

	// Flow writes a list or mapping on one line.
	Flow bool
	// Words marks a scalar that is text by nature: written so that no reader of YAML takes it for a number,
	// a date or a yes.
	Words bool
	// Loose marks what came from a form: blank list items are no mistake there, and a list may be one text.
	Loose bool
}

// A Field is one key of a mapping and its value, never nil.
type Field struct {
	Key   string
	Place Place // of the key
	Value *Node
}

// Text returns a scalar node.
func Text(text string) *Node { return &Node{Kind: Scalar, Text: text} }

// Get returns the value under key, or an Empty node.
func (n *Node) Get(key string) *Node {
	for _, f := range n.Fields {
		if f.Key == key {
			return f.Value
		}
	}
	return &Node{}
}

// Set appends a field.
func (n *Node) Set(key string, value *Node) {
	n.Fields = append(n.Fields, Field{Key: key, Value: value})
}

// Put sets the value under key, in the place of one that stands there or as the last field.
func (n *Node) Put(key string, value *Node) {
	for i, f := range n.Fields {
		if f.Key == key {
			n.Fields[i].Value = value
			return
		}
	}
	n.Set(key, value)
}
