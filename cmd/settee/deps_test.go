package main

import (
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const module = "coach.settee"

// listed is what `go list` says of a package.
type listed struct {
	ImportPath, Dir, Doc string
	Standard             bool
	GoFiles              []string
	// IgnoredGoFiles are those of other systems.
	IgnoredGoFiles []string
	Imports, Deps  []string
	// TestImports and XTestImports are those of its tests.
	TestImports, XTestImports []string
}

// goList lists packages of this module.
func goList(t *testing.T, args ...string) []listed {
	t.Helper()
	cmd := exec.Command("go", append([]string{"list", "-json=ImportPath,Dir,Doc,Standard,GoFiles,IgnoredGoFiles,Imports,Deps,TestImports,XTestImports"}, args...)...)
	cmd.Dir = filepath.Join("..", "..")
	var problems strings.Builder
	cmd.Stderr = &problems
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v\n%s", err, problems.String())
	}
	var packages []listed
	for decoder := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		switch err := decoder.Decode(&p); {
		case errors.Is(err, io.EOF):
			return packages
		case err != nil:
			t.Fatal(err)
		}
		packages = append(packages, p)
	}
}

// layers are the parts of the program from the top down. Arrows point down only, and why is in each line.
var layers = []struct{ path, why string }{
	{module + "/cmd", "commands put the parts together, and nothing is put together of commands"},
	{module + "/tui", "screens show what is kept, and what is kept knows no screen"},
	{module + "/store", "the disk keeps what the model says, and the model knows no disk"},
	{module + "/model", "the words of the lesson stand on their own"},
}

func layerOf(path string) int {
	return slices.IndexFunc(layers, func(l struct{ path, why string }) bool {
		return path == l.path || strings.HasPrefix(path, l.path+"/")
	})
}

func TestArrowsPointDown(t *testing.T) {
	for _, p := range goList(t, "./...") {
		from := layerOf(p.ImportPath)
		if from < 0 {
			t.Errorf("%s is in none of the layers", p.ImportPath)
			continue
		}
		for _, imported := range slices.Concat(p.Imports, p.TestImports, p.XTestImports) {
			if to := layerOf(imported); to >= 0 && to < from {
				t.Errorf("%s imports %s: %s", p.ImportPath, imported, layers[to].why)
			}
		}
	}
}

// The model is the standard library's and its own, but for the figures of the lane and of the shots, which may use
// gonum. It asks no clock, no disk and no terminal.
func TestModelIsPure(t *testing.T) {
	standard := map[string]bool{}
	for _, p := range goList(t, "std") {
		standard[p.ImportPath] = true
	}
	forbidden := []string{"os", "io/ioutil", "net", "syscall", "log", "math/rand", "crypto/rand", "runtime", "testing"}
	for _, p := range goList(t, "./model/...") {
		figures := slices.Contains([]string{module + "/model/insight", module + "/model/lane"}, p.ImportPath)
		for _, imported := range p.Imports {
			switch {
			case slices.ContainsFunc(forbidden, func(f string) bool { return imported == f || strings.HasPrefix(imported, f+"/") }):
				t.Errorf("%s imports %s: the model is a pure function of what it is given", p.ImportPath, imported)
			case standard[imported], strings.HasPrefix(imported, module+"/model"):
			case figures && strings.HasPrefix(imported, "gonum.org/"):
			default:
				t.Errorf("%s imports %s: the model needs the standard library only", p.ImportPath, imported)
			}
		}
		for _, file := range p.GoFiles {
			for _, call := range clockCalls(t, filepath.Join(p.Dir, file)) {
				t.Errorf("%s: the model is handed the time and asks no clock", call)
			}
		}
	}
}

// clockCalls gives the places of a file where the clock is asked or waited for.
func clockCalls(t *testing.T, path string) []string {
	t.Helper()
	files := token.NewFileSet()
	parsed, err := parser.ParseFile(files, path, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	asks := []string{"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker"}
	var found []string
	ast.Inspect(parsed, func(n ast.Node) bool {
		if s, ok := n.(*ast.SelectorExpr); ok && slices.Contains(asks, s.Sel.Name) {
			if x, ok := s.X.(*ast.Ident); ok && x.Name == "time" {
				found = append(found, files.Position(s.Pos()).String()+": time."+s.Sel.Name)
			}
		}
		return true
	})
	return found
}

// The repository has the layers, what the tests need, and the papers; whatever else is wanted lies below them.
func TestNamesAtTheTop(t *testing.T) {
	wanted := []string{"DEVELOPERS.md", "README.md", "cmd", "go.mod", "go.sum", "model", "store", "testdata", "tui"}
	// What .gitignore names may be there.
	built := []string{"dist", "settee"}
	entries, err := os.ReadDir(filepath.Join("..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, e := range entries {
		name, ending := e.Name(), filepath.Ext(e.Name())
		if !strings.HasPrefix(name, ".") && !slices.Contains(built, name) && ending != ".test" && ending != ".prof" {
			found = append(found, name)
		}
	}
	if diff := cmp.Diff(wanted, found); diff != "" {
		t.Error(diff)
	}
}

func TestPackagesSayWhatTheyAre(t *testing.T) {
	for _, p := range goList(t, "./...") {
		if p.Doc == "" && len(p.GoFiles) > 0 {
			t.Errorf("%s has no package doc", p.ImportPath)
		}
	}
}

func TestProgramHoldsNoTests(t *testing.T) {
	tests := []string{"testing", "github.com/google/go-cmp", "pgregory.net/rapid", "github.com/rogpeppe/go-internal",
		"github.com/creack/pty", "github.com/go-rod/rod", "github.com/charmbracelet/x/vt"}
	for _, p := range goList(t, "./cmd/settee") {
		for _, dep := range p.Deps {
			for _, test := range tests {
				if dep == test || strings.HasPrefix(dep, test+"/") {
					t.Errorf("the program contains %s: that is for tests", dep)
				}
			}
		}
	}
}

// The most lines of a file and of a function: beyond that a thing has two subjects. The root of the screens may take a
// little more, and a test's table of cases reads like a table at any length.
const mostLines, mostFunction, mostRoot = 400, 60, 100

func TestFilesAndFunctionsAreShort(t *testing.T) {
	for _, p := range goList(t, "./...") {
		tests, err := filepath.Glob(filepath.Join(p.Dir, "*_test.go"))
		if err != nil {
			t.Fatal(err)
		}
		files := []string{}
		for _, name := range slices.Concat(p.GoFiles, p.IgnoredGoFiles) {
			files = append(files, filepath.Join(p.Dir, name))
		}
		for _, file := range slices.Compact(slices.Sorted(slices.Values(append(files, tests...)))) {
			checkLengths(t, file)
		}
	}
}

func checkLengths(t *testing.T, path string) {
	t.Helper()
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	if lines := set.File(file.Pos()).LineCount(); lines > mostLines {
		t.Errorf("%s has %d lines, more than %d", path, lines, mostLines)
	}
	if strings.HasSuffix(path, "_test.go") {
		return
	}
	for _, d := range file.Decls {
		f, ok := d.(*ast.FuncDecl)
		if !ok || f.Body == nil {
			continue
		}
		lines := set.Position(f.Body.Rbrace).Line - set.Position(f.Pos()).Line + 1
		most := mostFunction
		if file.Name.Name == "tui" && f.Name.Name == "Update" {
			most = mostRoot
		}
		if lines > most {
			t.Errorf("%s: %s has %d lines, more than %d", path, f.Name.Name, lines, most)
		}
	}
}
