package main

import (
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// Whatever the account's umask is, what the commands write is its owner's alone. The folder in which they write, which was
// there before, is as it was.
func TestCommandsWriteForTheOwnerAlone(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("there files have no modes")
	}
	home := t.TempDir()
	if err := os.Chmod(home, 0o755); err != nil {
		t.Fatal(err)
	}
	invented := filepath.Join(t.TempDir(), "invented.db")
	s, err := demoStore(invented, 1)
	if err != nil {
		t.Fatal(err)
	}
	students, err := s.Students()
	if err = errors.Join(err, s.Close()); err != nil {
		t.Fatal(err)
	}
	table := filepath.Join(t.TempDir(), "students.csv")
	if err := os.WriteFile(table, []byte("name,hand,average\nJo,right,140\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	id := string(students[0].ID)
	for _, args := range [][]string{
		{"restore", invented},
		{"restore", invented},
		{"export", "all.jsonl"},
		{"export", "--csv", "all.csv"},
		{"import", "--store", "taken/new.db", "all.jsonl"},
		{"import", "--store", "fresh/table.db", table},
		{"backup", "may.db"},
		{"backup", "."},
		{"handout", id},
		{"handout", id, "--text"},
		{"handout", "--all", "--out", "pages"},
		{"stats", id},
		{"erase", "--yes", "--backups", id},
	} {
		cmd := exec.Command("sh", append([]string{"-c", `umask 000; exec "$0" "$@"`, binary(t)}, args...)...)
		cmd.Dir = home
		cmd.Env = append(os.Environ(), "SETTEE_STORE="+filepath.Join(home, "kept", "settee.db"), "XDG_DATA_HOME="+home)
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("settee %v: %v\n%s", args, err, out)
		}
	}
	n := 0
	err = filepath.WalkDir(home, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		want := fs.FileMode(0o600)
		switch {
		case path == home:
			want = fs.ModeDir | 0o755
		case d.IsDir():
			want = fs.ModeDir | 0o700
		}
		if n++; info.Mode() != want {
			t.Errorf("%s has %v, not %v", path, info.Mode(), want)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if n < 15 {
		t.Errorf("only %d files and folders were written", n)
	}
}

// The board's own folder of pages, and what it sets aside.
func TestTheBoardsFilesAreTheOwnersAlone(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("there files have no modes")
	}
	dir := t.TempDir()
	s, err := demoStore(filepath.Join(dir, "demo.db"), 1)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	sessions, err := s.Sessions()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := (handoutsBeside{s: s}).all(sessions[len(sessions)-1].ID, func(int, int) {}); err != nil {
		t.Fatal(err)
	}
	pages, err := os.ReadDir(filepath.Join(dir, "handouts"))
	if err != nil || len(pages) == 0 {
		t.Fatalf("%d pages, %v", len(pages), err)
	}
	for _, p := range pages {
		if info, err := p.Info(); err != nil || info.Mode() != 0o600 {
			t.Errorf("%s has %v, %v", p.Name(), info.Mode(), err)
		}
	}
	if info, err := os.Stat(filepath.Join(dir, "handouts")); err != nil || info.Mode() != fs.ModeDir|0o700 {
		t.Errorf("the folder has %v, %v", info.Mode(), err)
	}
}

// The one package of the program that imports the network's reads addresses as flags; nothing that would open, accept or
// look up a connection is in the built program.
func TestTheProgramReachesNoNetwork(t *testing.T) {
	network := regexp.MustCompile(`^(net|net/.*|crypto/tls|golang\.org/x/net/.*|google\.golang\.org/.*)$`)
	known := map[string][]string{
		// Flags that are addresses.
		"github.com/spf13/pflag": {"net"},
		// Addresses of links on a terminal, and of files: the reading of them only.
		"github.com/charmbracelet/x/ansi": {"net/url"},
	}
	for _, p := range goList(t, "-deps", "./cmd/settee") {
		if p.Standard {
			continue
		}
		for _, imported := range p.Imports {
			if network.MatchString(imported) && !slices.Contains(known[p.ImportPath], imported) {
				t.Errorf("%s imports %s: nothing that is kept may leave the machine", p.ImportPath, imported)
			}
		}
	}
	out, err := exec.Command("go", "tool", "nm", binary(t)).Output()
	if err != nil {
		t.Fatal(err)
	}
	reaches := regexp.MustCompile(`^(net\.(\(\*(Dialer|sysDialer|sysListener|netFD|conn|Resolver|ListenConfig)\)|Dial|Listen|Lookup)|` +
		`net/http|crypto/tls|syscall\.(connect|Connect|socket|Socket|listen|Listen|bind|Bind)$|golang\.org/x/sys/unix\.(Connect|Socket|Bind)$)`)
	read := 0
	for line := range strings.Lines(string(out)) {
		fields := strings.Fields(line)
		symbol := fields[len(fields)-1]
		if strings.HasPrefix(symbol, "main.") {
			read++
		}
		if reaches.MatchString(symbol) {
			t.Errorf("the program contains %s", symbol)
		}
	}
	if read == 0 {
		t.Error("no symbols were read")
	}
}
