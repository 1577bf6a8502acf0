package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"coach.settee/model"
	"coach.settee/store"
)

// What is in the way of a file is said with what to do, and never as the system says it.
func TestAFileInTheWayIsSaidInWords(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	for _, err := range []error{
		os.Mkdir("folder", 0o700), os.WriteFile("text", []byte("x"), 0o600), os.Symlink("gone", "link"),
		os.WriteFile("g.csv", []byte("name,hand,average\nAda,left,100\n"), 0o600),
	} {
		if err != nil {
			t.Skip(err)
		}
	}
	runIn(t, strings.NewReader(""), "import", "--store", "s.db", "g.csv")
	for args, want := range map[string]string{
		"import gone":    "there is no file gone: look at how it is spelled",
		"import link":    "link is a link to gone, where nothing is: remove the link",
		"import folder":  "folder is a folder: name a file in it",
		"import no/gone": "there is no folder no: make it, or name another",
		"import text/x":  "text/x leads through a file that is no folder",
		"export folder":  "folder is a folder: name a file in it",
		"export link":    "link is a link to gone, where nothing is: remove the link",
		"export no/x":    "there is no folder no: make it, or name another",
		"export text/x":  "text/x leads through a file that is no folder",
		"restore gone":   "there is no file " + filepath.Join(dir, "gone") + ": nothing was restored",
		"restore link":   "link is a link to gone, where nothing is",
		"check link":     "link is a link to gone, where nothing is",
		"backup link":    "link is a link to gone, where nothing is",
	} {
		var out, errOut bytes.Buffer
		code := run(context.Background(), append([]string{"--store", "s.db"}, strings.Fields(args)...), strings.NewReader(""), &out, &errOut)
		if said := errOut.String(); code != exitFailed || !strings.Contains(said, want) || strings.Contains(said, "open ") {
			t.Errorf("%s ends with %d: %s", args, code, said)
		}
	}
	if _, err := os.Stat("gone"); err == nil {
		t.Error("something was written through the link")
	}
}

// Of many students who are known ten are named.
func TestManyKnownStudentsAreCounted(t *testing.T) {
	var many []model.Student
	for n := range 502 {
		many = append(many, model.Student{ID: model.ID(fmt.Sprint("s", n)), Name: fmt.Sprint("Ada ", n)})
	}
	got := rosteredWords(store.Rostered{Known: many, All: many})
	if want := "nothing new; known already: Ada 0, Ada 1, "; !strings.HasPrefix(got, want) || !strings.HasSuffix(got, "Ada 9 and 492 more") {
		t.Errorf("got %s", got)
	}
	if got := rosteredWords(store.Rostered{Known: many[:10], All: many}); strings.Contains(got, "more") {
		t.Errorf("of ten: %s", got)
	}
}
