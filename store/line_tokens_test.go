package store

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf16"
)

// escaped gives a line with every character of its texts escaped.
func escaped(t *testing.T, line []byte) []byte {
	t.Helper()
	var out []byte
	for len(line) > 0 {
		if line[0] != '"' {
			out, line = append(out, line[0]), line[1:]
			continue
		}
		end := 1
		for ; line[end] != '"'; end++ {
			if line[end] == '\\' {
				end++
			}
		}
		var text string
		if err := json.Unmarshal(line[:end+1], &text); err != nil {
			t.Fatal(err)
		}
		out = append(out, '"')
		for _, unit := range utf16.Encode([]rune(text)) {
			out = fmt.Appendf(out, `\u%04X`, unit)
		}
		out, line = append(out, '"'), line[end+1:]
	}
	return out
}

// TestALineInAnotherFormIsTheSame reads lines with blanks in them, and with all of their texts escaped.
func TestALineInAnotherFormIsTheSame(t *testing.T) {
	for _, line := range sampleLines(t) {
		var indented bytes.Buffer
		if err := json.Indent(&indented, line, "\r", "\t "); err != nil {
			t.Fatal(err)
		}
		for _, form := range [][]byte{indented.Bytes(), escaped(t, line)} {
			r, err := decodeLine(form)
			if err != nil {
				t.Errorf("%s\n%v", form, err)
				continue
			}
			if got := encodeLine(nil, r); !bytes.Equal(got, line) {
				t.Errorf("got  %swant %s", got, line)
			}
		}
	}
}

// disfigured changes some bytes of a line.
func disfigured(dice *rand.Rand, line []byte) []byte {
	const bytesOfJSON = `{}[]",:\u0123456789abcdefE+-. tn` + "\t\x00\x1f\x7f\xff"
	line = bytes.Clone(line)
	for range 1 + dice.IntN(3) {
		at, b := dice.IntN(len(line)), bytesOfJSON[dice.IntN(len(bytesOfJSON))]
		switch dice.IntN(4) {
		case 0:
			line = append(line[:at], line[at+1:]...)
		case 1:
			line = append(line[:at], append([]byte{b}, line[at:]...)...)
		case 2:
			line = line[:at+1]
		default:
			line[at] = b
		}
		if len(line) == 0 {
			return []byte("{")
		}
	}
	return line
}

// TestOnlyJSONIsRead disfigures lines at random: those that are taken, and those of which it is not said that they are no
// JSON, are held against encoding/json.
func TestOnlyJSONIsRead(t *testing.T) {
	const seed = 3
	dice := rand.New(rand.NewPCG(seed, 1))
	taken, refused := 0, 0
	for range 400 {
		for _, line := range sampleLines(t) {
			line := disfigured(dice, line)
			_, err := decodeLine(line)
			switch {
			case err == nil:
				taken++
				if !json.Valid(line) {
					t.Fatalf("seed %d: taken: %s", seed, line)
				}
			case strings.Contains(err.Error(), "not JSON") || strings.Contains(err.Error(), "ends too early"):
				refused++
				if json.Valid(line) {
					t.Fatalf("seed %d: %v: %s", seed, err, line)
				}
			}
		}
	}
	if taken < 100 || refused < 1000 {
		t.Errorf("seed %d: %d lines were taken, %d were no JSON: too few to say anything", seed, taken, refused)
	}
}

// TestALineIsNamedByItsNumberInALongFile has a bad line on either side of the ends of the batches in which lines are
// taken, and others after it.
func TestALineIsNamedByItsNumberInALongFile(t *testing.T) {
	lines := make([]string, 3*intakeBatch)
	for i := range lines {
		lines[i] = fmt.Sprintf(`{"type":"cue","id":"c%d","axis":"release","text":"soft"}`, i+1)
	}
	lines[0] = firstLine
	bad := map[string]string{
		"that is none":           "{",
		"that refers to nothing": goodGame,
		"with an id there is":    `{"type":"cue","id":"c2","axis":"finish","text":"soft"}`,
		"longer than is read":    strings.Repeat(" ", maxLine+1),
	}
	dir := t.TempDir()
	for name, line := range bad {
		for _, at := range []int{3, intakeBatch, intakeBatch + 1, intakeBatch + 2, len(lines)} {
			file := append([]string(nil), lines...)
			file[at-1] = line
			for later := at + 2; later < len(file); later += intakeBatch {
				file[later] = "]"
			}
			_, err := Import(filepath.Join(dir, "settee.db"), strings.NewReader(strings.Join(file, "\n")))
			if want := fmt.Sprintf("line %d: ", at); err == nil || !strings.HasPrefix(err.Error(), want) {
				t.Errorf("a line %s: got %v, want %s", name, err, want)
			}
		}
	}
	path := filepath.Join(dir, "good.db")
	mustImport(t, path, []byte(strings.Join(lines, "\n")))
	if got := bytes.Count(exported(t, path), []byte("\n")); got != len(lines) {
		t.Errorf("%d of %d lines are kept", got, len(lines))
	}
}

// TestLongLinesAreTakenInSmallBatches has more in its lines than a batch holds.
func TestLongLinesAreTakenInSmallBatches(t *testing.T) {
	lines := []string{firstLine}
	for i := range 3 * intakeBytes / (maxLine / 2) {
		lines = append(lines, fmt.Sprintf(`{"type":"cue","id":"c%d",%s"axis":"release","text":"soft"}`, i, strings.Repeat(" ", maxLine/2)))
	}
	path := filepath.Join(t.TempDir(), "settee.db")
	if taken := mustImport(t, path, []byte(strings.Join(lines, "\n"))); taken.Cues != len(lines)-1 {
		t.Errorf("taken %+v of %d", taken, len(lines)-1)
	}
}

// FuzzOneLine puts a line in the place of one of a good file's, for a store that holds something: the file is refused by
// the number of a line and nothing of it is taken, or it is taken whole.
func FuzzOneLine(f *testing.F) {
	for i, line := range []string{
		goodCue, goodStudent, goodSession, goodGame, goodDelivery, `{"type":"cue","id":` + strings.Repeat("[", 2000),
		strings.Replace(goodStudent, "172", "1e999", 1), strings.Replace(goodCue, "soft", "s\xff", 1),
		strings.Replace(goodCue, "soft", "s\x1b[2J", 1), strings.Replace(goodDelivery, `"pins":9`, `"pins":10`, 1),
		strings.Replace(goodCue, `"c"`, `"cue-1"`, 1), strings.Replace(goodGame, `"e"`, `"nothing"`, 1), "", "null",
	} {
		f.Add(uint8(3*i+1), []byte(line))
	}
	dir := f.TempDir()
	seed := filepath.Join(dir, "seed.db")
	mustImport(f, seed, []byte(firstLine+"\n"+goodCue+"\n"))
	kept := read(f, seed)
	f.Fuzz(func(t *testing.T, at uint8, line []byte) {
		lines := bytes.SplitAfter(sample(t), []byte("\n"))
		n := 1 + int(at)%(len(lines)-2)
		lines[n] = append(bytes.ReplaceAll(line, []byte("\n"), nil), '\n')
		path := filepath.Join(t.TempDir(), "settee.db")
		if err := os.WriteFile(path, kept, 0o600); err != nil {
			t.Fatal(err)
		}
		_, err := Import(path, bytes.NewReader(bytes.Join(lines, nil)))
		if err == nil {
			if err := Check(path); err != nil {
				t.Fatal(err)
			}
			return
		}
		var number int
		if _, err := fmt.Sscanf(err.Error(), "line %d: ", &number); err != nil || number < 2 || number > len(lines) {
			t.Errorf("no line is named: %v", err)
		}
		if !bytes.Equal(read(t, path), kept) {
			t.Error("the store has changed")
		}
	})
}
