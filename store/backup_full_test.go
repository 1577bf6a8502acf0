//go:build unix

package store

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// fullPath is the environment variable by which the test binary, started again, is told which store to copy where a file
// may not grow to the store's size.
const fullPath = "SETTEE_TEST_FULL"

// TestCopiesWithoutRoom is the process that has no room.
func TestCopiesWithoutRoom(t *testing.T) {
	path := os.Getenv(fullPath)
	if path == "" {
		t.Skip("only as the process that has no room")
	}
	s, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: 100_000, Max: 100_000}); err != nil {
		t.Fatal(err)
	}
	if made, err := s.AutoBackup(nine.Add(24 * time.Hour)); err == nil || made != "" ||
		!strings.Contains(err.Error(), "cannot be made: "+syscall.EFBIG.Error()+"; nothing is left of it") {
		t.Errorf("%q, %v", made, err)
	}
	other := filepath.Join(filepath.Dir(path), "other", "settee.db")
	_, err = Restore(other, folderOf(path).name(nine), nine, nil)
	want := "nothing can be written in " + filepath.Dir(other) + " (" + syscall.EFBIG.Error() + "): nothing was restored, the store is " +
		"as it was; the copy is not to blame"
	if err == nil || !strings.HasPrefix(err.Error(), want) {
		t.Errorf("restored without room: %v", err)
	}
}

func TestACopyWithoutRoomLeavesNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	fill(t, s, 900, 200)
	before := autoBackup(t, s, nine)
	if err := s.Keep(evening(t, 1)...); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self, "-test.run=^TestCopiesWithoutRoom$", "-test.count=1")
	cmd.Env = append(os.Environ(), fullPath+"="+path)
	if out, err := cmd.CombinedOutput(); err != nil || strings.Contains(string(out), "no tests") {
		t.Fatalf("%v\n%s", err, out)
	}
	if left := files(t, filepath.Dir(before)); len(left) != 1 || left[0] != filepath.Base(before) {
		t.Errorf("in the folder are %v", left)
	}
}
