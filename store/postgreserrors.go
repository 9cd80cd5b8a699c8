package store

import (
	"context"
	"crypto/tls"
	"database/sql"
	"database/sql/driver"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"os"
	"strings"
	"syscall"

	"github.com/lib/pq"

	"wetside/book"
	"wetside/store/postgres"
)

// noSetting is SQLSTATE undefined_object, of a connection's settings.
const noSetting = "42704"

// kindOfPostgres tells the trouble by the server's code, or by what became of the connection.
func kindOfPostgres(err error) (book.ErrorKind, bool) {
	_, connecting := errors.AsType[*postgres.ConnectError](err)
	if e, ok := errors.AsType[*pq.Error](err); ok {
		switch {
		case connecting && e.SQLState() == postgres.OnlyReads:
			return book.Away, true // until it is written to again
		case connecting && e.SQLState() == noSetting:
			return book.BadInput, true
		}
		return kindOfState(e.SQLState()), true
	}
	_, network := errors.AsType[net.Error](err)
	switch {
	case connecting && untrusted(err):
		return book.NoAccess, true
	case connecting:
		return book.Away, true
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded), errors.Is(err, os.ErrDeadlineExceeded):
		return book.Cancelled, true
	case network, errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, net.ErrClosed),
		errors.Is(err, driver.ErrBadConn), errors.Is(err, sql.ErrConnDone):
		return book.Away, true
	default:
		return book.Internal, false
	}
}

// onTheWire reports an error of the network, and not one of a file, which looks like it from within.
func onTheWire(err error) bool {
	_, is := errors.AsType[*net.OpError](err)
	return is
}

// untrusted reports a server whose certificate does not hold.
func untrusted(err error) bool {
	_, is := errors.AsType[*tls.CertificateVerificationError](err)
	return is
}

// kindOfState tells the trouble by SQLSTATE (PostgreSQL's manual, appendix A).
func kindOfState(code string) book.ErrorKind {
	switch code {
	case "57P01", "57P02", "57P03", // it stops, has crashed, starts
		"25P03", "57P05", // it gave the connection up
		"53300",          // too many connections
		"40001", "40P01": // it broke one of two off that waited for each other
		return book.Away
	case "53100":
		return book.Full
	case "55P03", "53200":
		return book.Busy
	case "57014":
		return book.Cancelled
	case "42501", postgres.OnlyReads, "3D000", "3F000":
		return book.NoAccess
	case "XX001", "XX002":
		return book.Damaged
	case "58030":
		return book.Failing
	}
	switch code[:min(2, len(code))] {
	case "08":
		return book.Away
	case "28":
		return book.NoAccess
	default:
		return book.Internal
	}
}

// advised puts before an error of a connection what somebody can do about it, all on one line.
func advised(err error, config *postgres.Config) error {
	kind, known := kindOfPostgres(err)
	if !known {
		return err
	}
	what := adviceOn(err)
	if what == "" {
		return err
	}
	if config != nil {
		user, database, host, port := config.First()
		what = fmt.Sprintf("%s (user %s, database %s at %s port %d)", what, user, database, host, port)
	}
	last := err
	if e, ok := errors.AsType[*pq.Error](err); ok {
		last = e
	} else if e, ok := errors.AsType[*net.OpError](err); ok {
		last = e
	}
	key := "database_refused"
	switch kind {
	case book.Away:
		key = "database_away"
	case book.BadInput:
		key = "store_bad_url"
	default:
	}
	return &book.Error{Kind: kind, Key: key, Cause: errors.New(what + ": " + strings.Join(strings.Fields(last.Error()), " "))}
}

// keyOfPostgres is keyOf where a server lets nobody in, in place of a file.
func keyOfPostgres(k book.ErrorKind) string {
	if k == book.NoAccess {
		return "database_refused"
	}
	return keyOf(k)
}

// adviceOn says what somebody can do, empty where nothing more is known than the error says.
func adviceOn(err error) string {
	if e, ok := errors.AsType[*pq.Error](err); ok {
		return map[string]string{
			postgres.OnlyReads: "this PostgreSQL only reads (a standby): name the one that is written to",
			noSetting:          "the URL has a setting that PostgreSQL does not know: take it out",
			"28P01":            "PostgreSQL does not take this user and password: look at the URL, or set it anew with  ALTER ROLE ... PASSWORD",
			"28000":            "PostgreSQL does not let this user in from here: look at its pg_hba.conf and whether the role may log in",
			"3D000":            "there is no such database: make it with  createdb --owner=USER DATABASE",
			"42501":            "this user may not make tables there: make it the database's owner with  ALTER DATABASE ... OWNER TO ...",
			"3F000":            "no schema to make tables in: look at search_path",
			"53300":            "PostgreSQL takes no more connections: raise max_connections, or run fewer processes (each takes up to 8)",
			"57P03":            "PostgreSQL is starting or stopping: try again in a moment",
		}[e.SQLState()]
	}
	if _, ok := errors.AsType[*net.DNSError](err); ok {
		return "no machine of this name is known here: look at the host in the URL"
	}
	switch {
	case untrusted(err):
		return "this PostgreSQL can't prove that it is the one: look at the host in the URL, and whether sslrootcert names who vouches for it"
	case !onTheWire(err) && errors.Is(err, fs.ErrNotExist):
		return "a file that the URL names is not there"
	case errors.Is(err, syscall.ECONNREFUSED), errors.Is(err, fs.ErrNotExist):
		return "nobody answers: is PostgreSQL running there, does it listen on that address (listen_addresses), is the port right?"
	case errors.Is(err, context.DeadlineExceeded), errors.Is(err, os.ErrDeadlineExceeded), errors.Is(err, syscall.EHOSTUNREACH), errors.Is(err, syscall.ENETUNREACH):
		return "the machine does not answer: is it on, is it the right address, does a firewall stand between?"
	default:
		return ""
	}
}
