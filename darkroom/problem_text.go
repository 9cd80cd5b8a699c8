package darkroom

// Message is a todo.
func (p Problem) Message() string { return string(p.Kind) + " " + p.Found }
