package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// fileError is what is in the way of a file, in words.
type fileError struct {
	words string
	cause error
}

func (e fileError) Error() string { return e.words }
func (e fileError) Unwrap() error { return e.cause }

// openToRead opens a file, or says in words why it cannot.
func openToRead(file string) (*os.File, error) {
	if isFolder(file) {
		return nil, fileError{file + " is a folder: name a file in it", syscall.EISDIR}
	}
	f, err := os.Open(file)
	return f, inFileWords(file, true, err)
}

// inFileWords gives an error of the disk about a file, which is to be read or else written, in words with what to do; any
// other error as it is.
func inFileWords(file string, reads bool, err error) error {
	var onDisk *fs.PathError
	if file == "-" || !errors.As(err, &onDisk) {
		return err
	}
	folder, done := filepath.Dir(file), map[bool]string{true: "read", false: "written"}[reads]
	words := ""
	switch {
	case leadsNowhere(file):
		to, _ := os.Readlink(file)
		words = fmt.Sprintf("%s is a link to %s, where nothing is: remove the link, or name another file", file, to)
	case isFolder(file):
		words = fmt.Sprintf("%s is a folder: name a file in it", file)
	case errors.Is(err, syscall.ENOTDIR):
		words = fmt.Sprintf("%s leads through a file that is no folder: look at how it is spelled", file)
	case errors.Is(err, fs.ErrNotExist) && !isFolder(folder):
		words = fmt.Sprintf("there is no folder %s: make it, or name another", folder)
	case errors.Is(err, fs.ErrNotExist):
		words = fmt.Sprintf("there is no file %s: look at how it is spelled, and at the folder it is in", file)
	case errors.Is(err, fs.ErrPermission):
		words = fmt.Sprintf("%s may not be %s by this account: change who may, or name another file", file, done)
	default:
		words = fmt.Sprintf("%s cannot be %s: %v", file, done, onDisk.Err)
	}
	return fileError{words, err}
}

// leadsNowhere tells whether a name is a link's to a file that is not there.
func leadsNowhere(file string) bool {
	_, err := os.Stat(file)
	if !errors.Is(err, fs.ErrNotExist) {
		return false
	}
	_, err = os.Lstat(file)
	return err == nil
}
