package store

import (
	"context"
	"fmt"

	"wetside/book"
)

// OpenBeside opens books to read them, beside whoever has them open. It makes nothing and changes nothing: books of an older
// schema are read as they stand. Writing is refused. Errors are those of Open but InUse, and NotFound where there are no books.
func OpenBeside(ctx context.Context, c Config) (*Store, error) {
	s, err := unopened(c)
	if err != nil {
		return nil, err
	}
	s.failed.Store(&book.Error{Kind: book.NoAccess, Key: "store_read_only"})
	if err := s.openBeside(ctx, c.still); err != nil {
		_ = s.Close()
		return nil, s.dialect.fail(fmt.Errorf("opening %s: %w", s.dialect.place, err))
	}
	return s, nil
}

func (s *Store) openBeside(ctx context.Context, still bool) error {
	if err := s.dialect.beside(ctx, s, still); err != nil {
		return err
	}
	s.reader.SetMaxOpenConns(s.dialect.readers)
	has, knows, err := schemaOf(ctx, s.reader)
	s.has = has
	if err == nil && has > knows {
		err = newer(has, knows)
	}
	return err
}
