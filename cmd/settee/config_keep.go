package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// keepSetting makes a settings file say that a key has a value, and leaves every other line as it is. A file with anything
// wrong in it is not touched: the error says what is wrong in which line. What is there is read anew each time, since an
// editor may have it open too.
func keepSetting(path, key, value string) error {
	if path == "" {
		return errors.New("this account has no place for a settings file")
	}
	text, err := configText(path)
	if err != nil {
		return err
	}
	c, faults := parseConfig(text)
	if len(faults) > 0 {
		return fmt.Errorf("%w: mend it and choose again", configError{filepath.Base(path), faults})
	}
	now, err := withSetting(text, c, key, value)
	if err != nil || now == text {
		return err
	}
	if err := replaceConfig(path, now); err != nil {
		return fmt.Errorf("settee.conf cannot be written: %w; it is as it was", pathless(err))
	}
	return nil
}

// withSetting gives the text of a settings file with a key set to a value. A value that holds anyway needs no line of its own.
func withSetting(text string, c config, key, value string) (string, error) {
	var is setting
	for _, s := range settings {
		if s.key == key {
			is = s
		}
	}
	if is.key == "" {
		return "", fmt.Errorf("%s: no such key", key)
	}
	if err := is.set(&c, value); err != nil {
		return "", fmt.Errorf("%s = %s: %w", key, value, err)
	}
	n := c.lines[key]
	if n == 0 && is.value(usualConfig()) == value {
		return text, nil
	}
	now := withLine(text, n, key, value)
	again, faults := parseConfig(now)
	if len(faults) > 0 || is.value(again) != value || len(now) > mostConfig {
		return "", fmt.Errorf("settee.conf would not be read with %s = %s in it; it is as it was", key, value)
	}
	return now, nil
}

// withLine puts a value into a line, counted from 1, of which it keeps all else; 0 adds a line at the end.
func withLine(text string, n int, key, value string) string {
	if n == 0 {
		end := "\n"
		if strings.Contains(text, "\r\n") {
			end = "\r\n"
		}
		if text != "" && !strings.HasSuffix(text, "\n") {
			text += end
		}
		return text + key + " = " + value + end
	}
	lines := strings.Split(text, "\n")
	line := lines[n-1]
	head, was, _ := strings.Cut(line, "=")
	before, after := was[:len(was)-len(strings.TrimLeft(was, " \t"))], was[len(strings.TrimRight(was, " \t\r")):]
	if strings.TrimSpace(was) == "" {
		before = " "
	}
	lines[n-1] = head + "=" + before + value + after
	return strings.Join(lines, "\n")
}

// replaceConfig puts a new file in the place of a settings file, or of the one that it is a link to: whoever reads it finds
// the old text or the new one.
func replaceConfig(path, text string) (err error) {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	switch there, err := filepath.EvalSymlinks(path); {
	case err == nil:
		path = there
	case !errors.Is(err, fs.ErrNotExist):
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".settee.conf.*.new")
	if err != nil {
		return err
	}
	_, err = f.WriteString(text)
	err = errors.Join(err, f.Sync(), f.Close())
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		return errors.Join(err, os.Remove(f.Name()))
	}
	return nil
}

// pathless gives what went wrong with a file without its long name.
func pathless(err error) error {
	var onDisk *fs.PathError
	if errors.As(err, &onDisk) {
		return onDisk.Err
	}
	return err
}
