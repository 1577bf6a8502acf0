package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"syscall"
)

// The reasons for which a file is refused, to be told apart with errors.Is. The error's own text is a sentence for the
// reader.
var (
	// ErrInUse says that another process has the store open.
	ErrInUse = errors.New("the store is in use")
	// ErrNotOurs says that the file is something else than a store.
	ErrNotOurs = errors.New("not a store")
	// ErrNewer says that a later version of the program wrote the file.
	ErrNewer = errors.New("the store is newer than this program")
	// ErrDamaged says that the file's content cannot be what was written.
	ErrDamaged = errors.New("the store is damaged")
	// ErrAbsent says that there is no such file, and that none was to be made.
	ErrAbsent = errors.New("there is no store")
)

var (
	// ErrNoSession says that no session is kept under an id.
	ErrNoSession = errors.New("no such session is kept")
	// ErrNoGame says that no game, drill or warm-up of a student is kept under an id.
	ErrNoGame = errors.New("no such game, drill or warm-up of this student is kept")
)

// refusal is an error of a kind with a sentence of its own.
type refusal struct {
	kind  error
	text  string
	cause error
}

func (r *refusal) Error() string { return r.text }

// Unwrap gives the kind, and what was behind it where there is something.
func (r *refusal) Unwrap() []error {
	if r.cause == nil {
		return []error{r.kind}
	}
	return []error{r.kind, r.cause}
}

func inUse(path string, cause error) error {
	return &refusal{kind: ErrInUse, cause: cause,
		text: "another Settee has this store open (" + path + "): close it there, or give another file with --store"}
}

func notOurs(path, what string) error {
	return &refusal{kind: ErrNotOurs,
		text: path + " is not a store of Settee (" + what + "): it is left as it is; give another file with --store"}
}

func newer(path, what string) error {
	return &refusal{kind: ErrNewer,
		text: path + " was written by a newer Settee (" + what + "): it is left as it is; use that version or a later one"}
}

func damaged(path string, cause error) error {
	return &refusal{kind: ErrDamaged, cause: cause,
		text: "the store " + path + " is damaged (" + cause.Error() +
			"): it is left as it is; " + remedy(path)}
}

func absent(path string) error {
	return &refusal{kind: ErrAbsent,
		text: "there is no store at " + path + ": settee makes one when the board is opened, or give another file with --store"}
}

// unread says that a file which is to be a store cannot be read, and what to do.
func unread(path string, err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		err = at.Err
	}
	switch {
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("the store %s cannot be read: %w for this account: change who may, or give another file with --store", path, err)
	case errors.Is(err, syscall.ENOTDIR):
		return fmt.Errorf("the store %s cannot be read: %w is on the way to it: look at how it is spelled", path, err)
	}
	return fmt.Errorf("the store %s cannot be read: %w; give another file with --store", path, err)
}

// leadsNowhere tells whether there is a link at path, to a file that is not there.
func leadsNowhere(path string) bool {
	_, err := os.Stat(path)
	return errors.Is(err, fs.ErrNotExist) && isThere(path)
}

func nowhere(path string) error {
	to, err := os.Readlink(path)
	if err != nil {
		to = "another place"
	}
	return fmt.Errorf("%s is a link to %s, where nothing is: put there what it is to lead to, remove the link, or give another "+
		"name", path, to)
}

// badRow names a row that cannot be read.
type badRow struct {
	row   string
	cause error
}

func (b *badRow) Error() string { return b.row + ": " + b.cause.Error() }
func (b *badRow) Unwrap() error { return b.cause }

// bad wraps what is wrong with a row, nil where nothing is.
func bad(err error, format string, args ...any) error {
	if err == nil {
		return nil
	}
	return &badRow{row: fmt.Sprintf(format, args...), cause: err}
}
