package main

import (
	"bufio"
	"strings"
	"testing"
	"testing/iotest"
)

func TestWhatIsATableOfStudents(t *testing.T) {
	for name, c := range map[string]struct {
		file, data string
		want       bool
	}{
		"an export":                   {"evening.jsonl", "{\"type\":\"settee\"}", false},
		"an export after blanks":      {"-", "\ufeff \r\n\t{", false},
		"an export without an ending": {"evening", "{", false},
		"a header":                    {"-", "name,hand,average\n", true},
		"a header after a mark":       {"students.txt", "\ufeff\r\n\"name\";hand", true},
		"a name that says so":         {"Students.CSV", "{", true},
		"nothing":                     {"-", "", false},
		"nothing but blanks":          {"-", strings.Repeat(" \n", 5000), false},
		"nothing under a name":        {"students.csv", "", true},
	} {
		t.Run(name, func(t *testing.T) {
			data := bufio.NewReader(iotest.OneByteReader(strings.NewReader(c.data)))
			if got := isTable(c.file, data); got != c.want {
				t.Errorf("it is a table: %v", got)
			}
			var all strings.Builder
			if _, err := data.WriteTo(&all); err != nil || all.String() != c.data {
				t.Errorf("of %q %q is left, %v", c.data, all.String(), err)
			}
		})
	}
}
