package handout_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"coach.settee/model/handout"
)

var update = flag.Bool("update", false, "write the golden handouts anew")

// pageOf is a page by its name.
type pageOf struct {
	name string
	of   func(testing.TB) handout.Input
}

var goldens = []pageOf{{"new-minor", newMinor}, {"regular", regular}, {"elite", elite}}

func TestGoldenHandouts(t *testing.T) {
	for _, g := range goldens {
		in := g.of(t)
		page, err := handout.HTML(in)
		if err != nil {
			t.Fatal(err)
		}
		for ending, got := range map[string]string{".html": page, ".txt": handout.Text(in)} {
			checkGolden(t, filepath.Join("..", "..", "testdata", "handouts", g.name+ending), got)
		}
	}
}

func checkGolden(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v; -update writes it", err)
	}
	g, w := strings.Split(got, "\n"), strings.Split(string(want), "\n")
	for i := range max(len(g), len(w)) {
		if i >= len(g) || i >= len(w) || g[i] != w[i] {
			t.Errorf("%s, line %d is not as it was (-update writes it anew):\n%s\nwant\n%s", path, i+1, at(g, i), at(w, i))
			return
		}
	}
}

func at(lines []string, i int) string {
	if i < len(lines) {
		return lines[i]
	}
	return "(the end)"
}
