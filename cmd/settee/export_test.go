package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"
)

func TestAFileIsReplacedWholeOrNotAtAll(t *testing.T) {
	dir := t.TempDir()
	path, link := filepath.Join(dir, "out"), filepath.Join(dir, "link")
	if err := os.WriteFile(path, []byte("before"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(path, link); err != nil {
		t.Skip("no symbolic links here")
	}
	full := errors.New("no space")
	err := replaceFile(link, func(w io.Writer) error {
		if _, err := io.WriteString(w, "half"); err != nil {
			return err
		}
		return full
	})
	if !errors.Is(err, full) {
		t.Errorf("got %v", err)
	}
	holds(t, path, "before")
	if err := replaceFile(link, func(w io.Writer) error { _, err := io.WriteString(w, "after"); return err }); err != nil {
		t.Fatal(err)
	}
	holds(t, path, "after")
	left, err := os.ReadDir(dir)
	if err != nil || len(left) != 2 {
		t.Errorf("in the directory are %v, %v", left, err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is gone: %v", err)
	}
}

func TestAPipeIsWrittenTo(t *testing.T) {
	if err := replaceFile(os.DevNull, func(w io.Writer) error { _, err := io.WriteString(w, "x"); return err }); err != nil {
		t.Error(err)
	}
	if info, err := os.Stat(os.DevNull); err != nil || info.Mode().IsRegular() {
		t.Errorf("%s is now a file: %v", os.DevNull, err)
	}
}

func holds(t *testing.T, path, want string) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Errorf("the file holds %q, want %q", got, want)
	}
}
