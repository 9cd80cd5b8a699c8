package webbook

import (
	"context"
	"errors"

	"wetside/book"
	"wetside/store"
	"wetside/web"
)

// Notes returns the words of the notes that stand.
func (b Book) Notes(ctx context.Context) (map[string]string, error) {
	return b.Store.Notes(ctx, b.Room)
}

// LeaveNote keeps a note's words and writes its entry, both or neither.
func (b Book) LeaveNote(ctx context.Context, id, words string, e book.Entry) error {
	return b.write(ctx, e, func(tx *store.Tx) error { return tx.PutNote(ctx, b.Room, id, words) })
}

// EraseNote forgets a note's words.
func (b Book) EraseNote(ctx context.Context, id string) error {
	return b.Store.EraseNote(ctx, b.Room, id)
}

// Share keeps an evening's code and writes that it is shared, both or neither.
func (b Book) Share(ctx context.Context, session, code string, e book.Entry) error {
	return b.write(ctx, e, func(tx *store.Tx) error { return tx.PutInvitation(ctx, b.Room, session, code) })
}

// Invitation returns the code of an evening.
func (b Book) Invitation(ctx context.Context, session string) (code string, err error) {
	err = b.Store.Read(ctx, func(tx *store.Tx) error {
		code, err = tx.Invitation(ctx, b.Room, session)
		return err
	})
	return code, err
}

// Invited returns the evening of a code.
func (b Book) Invited(ctx context.Context, code string) (session string, err error) {
	err = b.Store.Read(ctx, func(tx *store.Tx) error {
		session, err = tx.Invited(ctx, b.Room, code)
		return err
	})
	return session, err
}

// Join keeps who joined with a device, their name and the entry, all or nothing.
func (b Book) Join(ctx context.Context, token string, g web.Guest, p book.Person, e book.Entry) error {
	return b.write(ctx, e, func(tx *store.Tx) error {
		return errors.Join(tx.PutPerson(ctx, b.Room, p), tx.PutGuest(ctx, b.Room, token, store.Guest(g)))
	})
}

// Guest returns who joined with a device.
func (b Book) Guest(ctx context.Context, token string) (g web.Guest, err error) {
	err = b.Store.Read(ctx, func(tx *store.Tx) error {
		was, err := tx.Guest(ctx, b.Room, token)
		g = web.Guest(was)
		return err
	})
	return g, err
}

// NotePerson keeps notes of somebody in place of those before.
func (b Book) NotePerson(ctx context.Context, id string, notes []string) error {
	return b.Store.NotePerson(ctx, b.Room, id, notes)
}

// ErasePerson forgets a name.
func (b Book) ErasePerson(ctx context.Context, id string) error {
	return b.Store.ErasePerson(ctx, b.Room, id)
}

// write writes a fact and what stands beside the book, both or neither.
func (b Book) write(ctx context.Context, e book.Entry, beside func(*store.Tx) error) error {
	return b.Store.Write(ctx, func(tx *store.Tx) error {
		if err := beside(tx); err != nil {
			return err
		}
		_, err := tx.Append(ctx, b.Room, []book.Entry{e}, nil)
		return err
	})
}
