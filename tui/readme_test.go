package tui

import (
	"os"
	"slices"
	"strings"
	"testing"
)

const (
	readme       = "../README.md"
	readmeBefore = "<!-- keys: go test ./tui -run Readme -update writes them anew -->\n"
	readmeAfter  = "<!-- end of keys -->"
)

// TestReadme keeps the README's tables of keys the ones that the program has.
func TestReadme(t *testing.T) {
	d := onBoard(t, "Ada 120")
	anywhere := slices.Concat(alwaysKeys, anywhereKeys, screenKeys(d.screens))
	var keys strings.Builder
	keys.WriteString("On the board:\n\n" + keyTable(append(d.board.table(), anywhere...)))
	keys.WriteString("\nWhile a line is typed:\n\n" + keyTable(promptKeys))
	keys.WriteString("\nOn the strip, where the board's keys correct the delivery selected:\n\n" + keyTable(ownKeys(d.strip.bindings)))
	keys.WriteString("\nWhile the strip is turned to the student:\n\n" + keyTable(studentKeys))
	keys.WriteString("\nOn the line's screen, whose views move nobody:\n\n" + keyTable(d.line.table()))
	keys.WriteString("\nOn the glance, where the keys that grade are the board's:\n\n" + keyTable(glanceKeys))
	keys.WriteString("\nOn the evening's screen:\n\n" + keyTable(d.session.table()))
	keys.WriteString("\nOn the student's screen:\n\n" + keyTable(d.student.table()))
	keys.WriteString("\nOn the checklist before an evening is closed, x there:\n\n" + keyTable(d.closing.table()))
	keys.WriteString("\nOn the page to take home, h on the student's screen:\n\n" + keyTable(d.handout.table()))
	keys.WriteString("\nOn the book of cues:\n\n" + keyTable(d.cues.table()))
	keys.WriteString("\nOn the settings, M:\n\n" + keyTable(d.settings.table()))
	keys.WriteString("\nOn the list of evenings, E there:\n\n" + keyTable(earlierKeys) + "\n")

	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(text), readmeBefore)
	kept, after, alsoOK := strings.Cut(rest, readmeAfter)
	if !ok || !alsoOK {
		t.Fatal("the README has no place for the keys")
	}
	if *update {
		if err := os.WriteFile(readme, []byte(before+readmeBefore+keys.String()+readmeAfter+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if kept != keys.String() {
		t.Errorf("the README's keys are not the program's; write them anew with go test ./tui -run Readme -update\n%s", keys.String())
	}
}

// ownKeys gives the keys of a table that are not the board's.
func ownKeys(t table) table {
	return slices.DeleteFunc(slices.Clone(t), func(b binding) bool { return b.group != groupStrip })
}

// keyTable writes bindings as a table, group by group.
func keyTable(bindings table) string {
	var b strings.Builder
	b.WriteString("| key | does |\n| --- | --- |\n")
	for _, g := range groups {
		for _, k := range bindings {
			if k.group == g {
				b.WriteString("| `" + strings.Join(strings.Fields(k.label()), "` `") + "` | " + strings.ReplaceAll(k.help, "|", "\\|") + " |\n")
			}
		}
	}
	return b.String()
}
