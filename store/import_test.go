package store

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"
)

// changed gives the sample with one line changed.
func changed(t testing.TB, with, old, new string) []byte {
	t.Helper()
	lines := strings.SplitAfter(string(sample(t)), "\n")
	for i, l := range lines {
		if strings.Contains(l, with) {
			lines[i] = strings.Replace(l, old, new, 1)
			if lines[i] == l {
				t.Fatalf("line %d has no %s", i+1, old)
			}
			return []byte(strings.Join(lines, ""))
		}
	}
	t.Fatalf("no line has %s", with)
	return nil
}

func TestAFileIsRefusedByTheLine(t *testing.T) {
	const game = `"id":"01HWA000000000000000000000-4"`
	ball := func(n string) string { return `"id":"01HWA000000000000000000000-` + n + `"` }
	for name, c := range map[string]struct{ with, old, new, why string }{
		"a line that is none":              {ball("9"), `{"type"`, `"type"`, "line 20: "},
		"a line without its end":           {ball("9"), "}\n", "\n", "line 20: the line ends too early"},
		"an empty line":                    {ball("9"), "{", "\n{", "line 20: the line is empty"},
		"a line of another file":           {ball("9"), "{", firstLine + "\n{", `line 20: the type "settee" is none of`},
		"no first line":                    {firstLine, firstLine + "\n", "", `line 1: the type is "cue"`},
		"a first line of another format":   {firstLine, `1`, `2`, "line 1: the format 2 is not known"},
		"more in the first line":           {firstLine, `}`, `,"by":"x"}`, `line 1: the key "by" is unknown`},
		"a byte order mark":                {firstLine, `{`, "\ufeff{", "line 1: an editor has put a byte order mark before it"},
		"a student that is not there":      {`"id":"bo"`, `"id":"bo"`, `"id":"beau"`, "line 46: the student bo is neither kept"},
		"a session that is not there":      {`"id":"open"`, `"id":"open"`, `"id":"close"`, "line 47: the session open is neither kept"},
		"a game that is not there":         {`"id":"open-3"`, `"id":"open-3"`, `"id":"open-5"`, "line 48: the game open-3 is neither kept"},
		"a student of a game not there":    {`"id":"open-3"`, `"student":"_ji"`, `"student":"_jo"`, "line 47: the student _jo is neither kept"},
		"an id again with other content":   {ball("9"), ball("9"), ball("8"), "line 20: the delivery 01HWA000000000000000000000-8 is in the file twice, and line 19 says something else"},
		"a seq twice":                      {ball("9"), `"seq":5`, `"seq":4`, "line 20: "},
		"a seq left out":                   {ball("10"), `"seq":6`, `"seq":60`, "line 22: the game 01HWA000000000000000000000-4 has no delivery with the seq 6"},
		"a ball in a later frame":          {ball("9"), `"frame":3`, `"frame":4`, "line 20: by the deliveries before it this one is ball 2 of frame 3"},
		"another ball of the frame":        {ball("9"), `"ball":2`, `"ball":3`, "line 20: by the deliveries before it this one is ball 2 of frame 3"},
		"a ball without pins":              {ball("9"), `"pins":10,`, ``, "line 20: "},
		"more pins than stand":             {ball("6"), `"standing":[],"pins":1`, `"standing":[],"pins":2`, "line 17: "},
		"a pin that had fallen":            {ball("6"), `"standing":[],"pins":1`, `"standing":[9],"pins":0`, "line 17: "},
		"pins that do not add up":          {ball("5"), `"standing":[10],"pins":9`, `"standing":[10],"pins":8`, "line 16: "},
		"a ball after the game's end":      {ball("22"), `"standing":[1,2,10],"pins":7`, `"standing":[],"pins":10`, "line 34: "},
		"a frame in a drill":               {ball("25"), `"lane":7`, `"lane":7,"frame":1,"ball":1`, "line 36: a delivery of a drill has no frame"},
		"a pin that a drill has not":       {ball("26"), `"standing":[10]`, `"standing":[7]`, "line 37: "},
		"a game that is made a drill":      {game, `"kind":"game"`, `"kind":"drill"`, "line 17: "},
		"a warm-up that is made a game":    {`"kind":"warmup"`, `warmup`, `game`, "line 13: "},
		"a session with a pair of no kind": {`"id":"noon"`, `[[1,2]]`, `[[2,3]]`, "line 45: the pair 2/3"},
		"a line longer than is read":       {ball("9"), `{`, strings.Repeat(" ", maxLine) + `{`, "line 20: it is longer"},
	} {
		t.Run(name, func(t *testing.T) {
			data := changed(t, c.with, c.old, c.new)
			refusesAll(t, data, c.why)
		})
	}
}

// refusesAll holds an import to refusing a file for a reason, into no store and into one, and to leaving both as they
// were.
func refusesAll(t *testing.T, data []byte, why string) {
	t.Helper()
	dir := t.TempDir()
	path := filepath.Join(dir, "settee.db")
	for _, kept := range []string{"", firstLine + "\n" + goodCue + "\n"} {
		var before []byte
		if kept != "" {
			mustImport(t, path, []byte(kept))
			before = read(t, path)
		}
		_, err := Import(path, bytes.NewReader(data))
		if err == nil || !strings.HasPrefix(err.Error(), why) {
			t.Errorf("got %v, want %s", err, why)
		}
		if kept != "" && !bytes.Equal(read(t, path), before) {
			t.Error("the store has changed")
		}
		left, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		if kept == "" && len(left) != 0 || kept != "" && len(left) != 1 {
			t.Errorf("in the directory are %v", left)
		}
	}
}

func read(t testing.TB, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestAnEmptyFileIsRefused(t *testing.T) {
	refusesAll(t, nil, "line 1: the file is empty")
}

func TestAFileThatBreaksOffIsRefused(t *testing.T) {
	data := sample(t)
	for _, at := range []int{10, len(data) / 2, len(data) - 2} {
		dir := t.TempDir()
		if _, err := Import(filepath.Join(dir, "settee.db"), bytes.NewReader(data[:at])); err == nil {
			t.Errorf("taken though it ends after %d of %d bytes", at, len(data))
		}
	}
}

func TestALastLineNeedsNoEnd(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	mustImport(t, path, bytes.TrimSuffix(sample(t), []byte("\n")))
	same(t, exported(t, path), sample(t))
}

func TestAFileThatCannotBeReadIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	_, err := Import(path, iotest.TimeoutReader(iotest.OneByteReader(bytes.NewReader(sample(t)))))
	if !errors.Is(err, iotest.ErrTimeout) {
		t.Errorf("got %v", err)
	}
}

func TestWhatDoesNotFitWhatIsKeptIsRefused(t *testing.T) {
	for name, c := range map[string]struct{ with, old, new, why string }{
		"a student renamed":     {`"id":"bo"`, `"Bo"`, `"Beau"`, "line 10: the student bo is kept already"},
		"a cue on another axis": {`"id":"cue-3"`, `release`, `finish`, "line 4: the cue cue-3 is kept already"},
		"a session closed":      {`"id":"noon"`, `"roster":[]`, `"roster":[],"closed":"2026-03-11T20:00:00Z"`, "line 45: the session noon is kept already"},
		"a game stopped":        {`"id":"open-1"`, `"game"}`, `"game","stopped":"tired"}`, "line 51: the game open-1 is kept already"},
		"a delivery noted":      {`"id":"open-7"`, `slow feet"`, `slow feet","note":"n"`, "line 53: the delivery open-7 is kept already"},
		"a seq taken":           {`"id":"open-7"`, `"open-7"`, `"x"`, "line 53: the game open-1 has two deliveries with the seq 2"},
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "settee.db")
			mustImport(t, path, sample(t))
			before := read(t, path)
			data := changed(t, c.with, c.old, c.new)
			_, err := Import(path, bytes.NewReader(data))
			if err == nil || !strings.HasPrefix(err.Error(), c.why) {
				t.Errorf("got %v, want %s", err, c.why)
			}
			if !bytes.Equal(read(t, path), before) {
				t.Error("the store has changed")
			}
		})
	}
}

// FuzzImport holds a file to being taken whole, and then exported so that it is taken again, or not at all.
func FuzzImport(f *testing.F) {
	f.Add(sample(f))
	f.Add([]byte(firstLine + "\n" + goodStudent + "\n" + goodSession + "\n" + goodGame + "\n"))
	f.Add([]byte(firstLine))
	f.Fuzz(func(t *testing.T, data []byte) {
		path := filepath.Join(t.TempDir(), "settee.db")
		if _, err := Import(path, bytes.NewReader(data)); err != nil {
			if _, err := os.Stat(path); !errors.Is(err, os.ErrNotExist) {
				t.Error("a store is there though the file was refused")
			}
			return
		}
		once := exported(t, path)
		other := filepath.Join(t.TempDir(), "settee.db")
		mustImport(t, other, once)
		same(t, exported(t, other), once)
	})
}
