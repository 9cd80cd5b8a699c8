package store

import (
	"context"
	"database/sql"
	"fmt"
	"unicode/utf8"

	"wetside/book"
)

// maxNote bounds a note: more than anybody reads while coming in.
const maxNote = 2000

// Notes returns the words of the notes that stand, by the ids that entries name. Exports leave them out.
func (tx *Tx) Notes(ctx context.Context, darkroom string) (map[string]string, error) {
	all := map[string]string{}
	err := tx.each(ctx, func(rows *sql.Rows) error {
		var id, words string
		if err := rows.Scan(&id, &words); err != nil {
			return err
		}
		all[id] = words
		return nil
	}, `SELECT id, words FROM notes WHERE darkroom = ? ORDER BY id`, darkroom)
	return all, err
}

// PutNote keeps a note's words in place of what was there. The error is of kind BadInput for more than 2,000 characters and
// for what is no text.
func (tx *Tx) PutNote(ctx context.Context, darkroom, id, words string) error {
	if !book.ValidID(id) || !validText(words) || utf8.RuneCountInString(words) > maxNote {
		return &book.Error{Kind: book.BadInput, Key: "note_bad", Cause: fmt.Errorf("note %q", id)}
	}
	if _, err := tx.Head(ctx, darkroom); err != nil {
		return err
	}
	return tx.exec(ctx, `INSERT INTO notes (darkroom, id, words) VALUES (?, ?, ?)
		ON CONFLICT (darkroom, id) DO UPDATE SET words = excluded.words`, darkroom, id, words)
}

// Notes returns the words of the notes that stand, by id.
func (s *Store) Notes(ctx context.Context, darkroomID string) (all map[string]string, err error) {
	err = s.Read(ctx, func(tx *Tx) error {
		all, err = tx.Notes(ctx, darkroomID)
		return err
	})
	return all, err
}

// PutNote is Tx.PutNote in a transaction of its own.
func (s *Store) PutNote(ctx context.Context, darkroomID, id, words string) error {
	return s.Write(ctx, func(tx *Tx) error { return tx.PutNote(ctx, darkroomID, id, words) })
}

// EraseNote forgets a note's words for good: they are overwritten in the files, too. The entry keeps the id.
func (s *Store) EraseNote(ctx context.Context, darkroomID, id string) error {
	err := s.Write(ctx, func(tx *Tx) error {
		return tx.exec(ctx, `DELETE FROM notes WHERE darkroom = ? AND id = ?`, darkroomID, id)
	})
	if err != nil {
		return err
	}
	return s.dialect.fail(s.dialect.forget(ctx, s.writer, "notes"))
}
