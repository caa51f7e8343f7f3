package say

import "context"

type farKey struct{}

// Telling returns a context under which long work says how far it is: tell is called with one sentence after the other, from
// whichever goroutine the work runs on, and has to be quick.
func Telling(ctx context.Context, tell func(Line)) context.Context {
	return context.WithValue(ctx, farKey{}, tell)
}

// Tell says how far work is to whoever waits for it; where nobody does, nothing happens.
func Tell(ctx context.Context, key string, args ...any) {
	if tell, ok := ctx.Value(farKey{}).(func(Line)); ok {
		tell(New(key, args...))
	}
}
