package main

import (
	"bufio"
	"fmt"
	"html"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"coach.settee/model"
	"coach.settee/store"
)

// traced is a file that holds something of a student: what it is, how it is cleansed and what is said then.
type traced struct {
	path, what, done string
	cleanse          func(*store.Erasure, store.Told) error
	// namesake says that only the name is the student's.
	namesake bool
}

// sorted puts what can be cleansed apart from what is only named. A page is taken for a page.
func sorted(copies []store.Copy, pages []traced, student model.Student) (beside, others []traced) {
	for _, c := range copies {
		switch {
		case !c.Kind.IsOther():
			beside = append(beside, tracedCopy(c))
		case !slices.ContainsFunc(pages, func(p traced) bool { same, _ := sameFile(p.path, c.Path); return same }):
			others = append(others, tracedOther(c, student))
		}
	}
	return append(beside, pages...), others
}

// tracedOther is a file that is not written, with what is to be done about it.
func tracedOther(c store.Copy, student model.Student) traced {
	erase := func(id model.ID) string {
		return fmt.Sprintf("settee erase --store %s --backups %s", shellWord(c.Path), id)
	}
	switch {
	case c.Kind == store.OtherStore && c.Namesake != "":
		return traced{
			path: c.Path, what: fmt.Sprintf("another store: only the name is the same, the id there is %s", c.Namesake),
			done: "left as it was: if it is the same student, " + erase(c.Namesake), namesake: true,
		}
	case c.Kind == store.OtherStore:
		return traced{path: c.Path, what: "another store", done: "left as it was: " + erase(student.ID)}
	case c.Kind == store.OtherLink:
		return traced{
			path: c.Path, what: "a link to " + c.Target, done: "left as it was: look at " + c.Target + " yourself",
		}
	}
	return traced{path: c.Path, what: "the name or the id is in it", done: "left as it was: look at it yourself"}
}

func tracedCopy(c store.Copy) traced {
	t := traced{path: c.Path, what: "a copy of the store", done: "written anew without the student", cleanse: c.Cleanse}
	switch c.Kind {
	case store.CopyLines:
		t.what = "an export or calls that were not kept"
	case store.CopyTable:
		t.what = "an export as a table"
	case store.CopyPart:
		t.what, t.done = "what was left of writing a file", "removed"
	}
	return t
}

// handoutName matches the names that handouts are given: the student, the date, the hour where there is one, the ending.
var handoutName = regexp.MustCompile(`^(.+?)-\d{4}-\d\d-\d\d(?:-\d{4})?\.(html|txt)$`)

// handoutsOf gives the student's pages: those in the folder `handouts` beside the store that are named after the student or
// are headed by the name, and those beside the store of which both is so. Of two students with one name a page of the other
// may be among them, which can be written again.
func handoutsOf(path string, student model.Student) ([]traced, error) {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	whole, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	bare := slug(nameOnPage(student))
	own := []string{bare, strings.Trim(bare+"-"+string(student.ID), "-")}
	var out []traced
	for _, dir := range []string{filepath.Dir(whole), filepath.Join(filepath.Dir(whole), "handouts")} {
		if !isFolder(dir) {
			continue
		}
		files, err := os.ReadDir(dir)
		if err != nil {
			return nil, err
		}
		for _, f := range files {
			file := filepath.Join(dir, f.Name())
			parts := handoutName.FindStringSubmatch(f.Name())
			if !f.Type().IsRegular() || parts == nil {
				continue
			}
			named, headed := slices.Contains(own, parts[1]), headedBy(file, student)
			// What tells the student from another of that name may stand behind it.
			like := named || bare != "" && strings.HasPrefix(parts[1], bare+"-")
			if like && headed || (named || headed) && dir != filepath.Dir(whole) {
				out = append(out, handoutTraced(file))
			}
		}
	}
	return out, nil
}

func handoutTraced(file string) traced {
	return traced{path: file, what: "a handout", done: "removed", cleanse: removed(file)}
}

func removed(file string) func(*store.Erasure, store.Told) error {
	return func(*store.Erasure, store.Told) error { return os.Remove(file) }
}

// headedBy tells whether a page, or its text, is headed by a student's name as pages have it.
func headedBy(file string, student model.Student) bool {
	name := nameOnPage(student)
	f, err := os.Open(file)
	if err != nil {
		return false
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	lines.Buffer(nil, 1<<20)
	title := "<title>" + name + ", "
	for n := 0; lines.Scan(); n++ {
		if n == 0 && lines.Text() == name || strings.Contains(html.UnescapeString(lines.Text()), title) {
			return true
		}
	}
	return false
}
