package access

import "context"

type whoKey struct{}

// With returns a context in which somebody asks.
func With(ctx context.Context, w Who) context.Context { return context.WithValue(ctx, whoKey{}, w) }

// From returns who asks; a Stranger where nobody said.
func From(ctx context.Context) Who {
	w, _ := ctx.Value(whoKey{}).(Who)
	return w
}
