package task

import (
	"context"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/store"
)

// Newest returns the newest set-up of a head, without its lists.
func Newest(ctx context.Context, book *store.Book, head record.Head) (record.Setup, error) {
	setups, err := book.Setups(ctx, head.ID)
	if err != nil {
		return record.Setup{}, err
	}
	if len(setups) == 0 {
		return record.Setup{}, say.Fail(say.NotFound, "task.no-setup", head.Tag)
	}
	return setups[len(setups)-1], nil
}

// Find returns the identifier of the set-up that a command means: the newest of the head that is called
// so, or another one of that head by the start of its identifier.
func Find(ctx context.Context, book *store.Book, name, setup string) (string, error) {
	head, err := book.FindHead(ctx, name)
	if err != nil {
		return "", err
	}
	if setup == "" {
		newest, err := Newest(ctx, book, head)
		return newest.ID, err
	}
	setups, err := book.Setups(ctx, head.ID)
	if err != nil {
		return "", err
	}
	var found []string
	for _, s := range setups {
		if s.ID == setup {
			return s.ID, nil
		}
		if len(s.ID) > len(setup) && s.ID[:len(setup)] == setup {
			found = append(found, s.ID)
		}
	}
	switch len(found) {
	case 0:
		return "", say.Fail(say.NotFound, "task.no-such-setup", head.Tag, setup, len(setups))
	case 1:
		return found[0], nil
	}
	return "", say.Fail(say.Conflict, "task.many-setups", head.Tag, setup, found[0], found[1])
}
