package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/spf13/cobra"
)

// runScoreArgs runs the command below a root that has a flag of its own, as in
// the program.
func runScoreArgs(t *testing.T, args ...string) (out string, store string, err error) {
	t.Helper()
	root := &cobra.Command{Use: "settee", SilenceErrors: true, SilenceUsage: true}
	root.PersistentFlags().StringVar(&store, "store", "", "the file")
	root.AddCommand(scoreCommand())
	var b bytes.Buffer
	root.SetOut(&b)
	root.SetErr(&b)
	root.SetArgs(append([]string{"score"}, args...))
	err = root.Execute()
	return b.String(), store, err
}

func TestScoreJSON(t *testing.T) {
	tests := []struct{ name, game, want string }{
		// Running totals: Universal Playing Rules of the International Bowling
		// Federation, 2.1.2.
		{"the rules' worked game", "X X X 72 (8)/ F9 X 7/ 9- XX8",
			`{"frames":[{"balls":["X"],"total":30,"split":false},{"balls":["X"],"total":57,"split":false},` +
				`{"balls":["X"],"total":76,"split":false},{"balls":["7","2"],"total":85,"split":null},` +
				`{"balls":["(8)","/"],"total":95,"split":true},{"balls":["F","9"],"total":104,"split":false},` +
				`{"balls":["X"],"total":124,"split":false},{"balls":["7","/"],"total":143,"split":null},` +
				`{"balls":["9","-"],"total":152,"split":false},{"balls":["X","X","8"],"total":180,"split":null}],` +
				`"score":180,"max":180,"complete":true}`},
		{"a game in progress", "72X(8)",
			`{"frames":[{"balls":["7","2"],"total":9,"split":null},{"balls":["X"],"total":null,"split":false},` +
				`{"balls":["(8)"],"total":null,"split":true}],"score":9,"max":259,"complete":false}`},
		{"one strike", "X",
			`{"frames":[{"balls":["X"],"total":null,"split":false}],"score":0,"max":300,"complete":false}`},
		{"no ball yet", "", `{"frames":[],"score":0,"max":300,"complete":false}`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, _, err := runScoreArgs(t, "--json", test.game)
			if err != nil {
				t.Fatal(err)
			}
			if got != test.want+"\n" {
				t.Errorf("got\n%swant\n%s", got, test.want)
			}
		})
	}
}

func TestScoreTable(t *testing.T) {
	tests := []struct{ name, game, want string }{
		{"a finished game", "9- 9- 9- 9- 9- 9- 9- 9- 9- (7)/(8)", `frame  balls    total
    1  9-           9
    2  9-          18
    3  9-          27
    4  9-          36
    5  9-          45
    6  9-          54
    7  9-          63
    8  9-          72
    9  9-          81
   10  (7)/(8)     99

score 99
`},
		{"a game in progress", "9/ X", `frame  balls    total
    1  9/          20
    2  X            .

score so far 20, still possible 290
`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, _, err := runScoreArgs(t, test.game)
			if err != nil {
				t.Fatal(err)
			}
			if got != test.want {
				t.Errorf("got\n%s\nwant\n%s", got, test.want)
			}
		})
	}
}

func TestScoreReadsItsArguments(t *testing.T) {
	tests := []struct {
		name  string
		args  []string
		score int
		store string
	}{
		{"one argument", []string{"X 7/ 9-"}, 48, ""},
		{"joined by spaces", []string{"X", "7/", "9-"}, 48, ""},
		{"a gutter ball first", []string{"-1 7/ 3-"}, 17, ""},
		{"a gutter ball first, unquoted", []string{"-1", "7/", "3-"}, 17, ""},
		{"two gutter balls between frames", []string{"9/", "--", "X"}, 10, ""},
		{"two gutter balls first, quoted", []string{"-- 9-"}, 9, ""},
		{"small letters after two gutter balls", []string{"--x9-"}, 28, ""},
		{"the end of the flags, then a quoted game", []string{"--", "-1 7/ 3-"}, 17, ""},
		{"a flag of the root after", []string{"9-", "--store", "a/b.db"}, 9, "a/b.db"},
		{"a flag of the root before", []string{"--store=a/b.db", "9-"}, 9, "a/b.db"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, store, err := runScoreArgs(t, append([]string{"--json"}, test.args...)...)
			if err != nil {
				t.Fatal(err)
			}
			var card struct{ Score int }
			if err := json.Unmarshal([]byte(got), &card); err != nil {
				t.Fatal(err)
			}
			if card.Score != test.score || store != test.store {
				t.Errorf("score %d, store %q; want %d, %q", card.Score, store, test.score, test.store)
			}
		})
	}
}

func TestScoreRefuses(t *testing.T) {
	tests := []struct {
		name string
		args []string
		want string
	}{
		{"eleven pins", []string{"X 74"}, "frame 2, ball 2: 4 pins cannot fall where 3 stand"},
		{"a ball after the end", []string{strings.Repeat("X", 13)}, "a ball after the game's end"},
		{"an unknown sign", []string{"X Q"}, "'Q' at character 3"},
		{"no game", nil, "no game to score"},
		{"only the flag", []string{"--json"}, "no game to score"},
		{"gutter balls or the end of the flags", []string{"--", "9/", "X"}, "in one pair of quotes"},
		{"an unknown flag", []string{"--jsno", "X"}, "unknown flag: --jsno"},
		{"a flag without its value", []string{"X", "--store"}, "flag needs an argument: --store"},
		{"a flag with a wrong value", []string{"X", "--json=perhaps"}, "perhaps"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			out, _, err := runScoreArgs(t, test.args...)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %v, want %q in it", err, test.want)
			}
			if err != nil && strings.Contains(err.Error(), "\n") {
				t.Errorf("%q is more than a line", err)
			}
			if out != "" {
				t.Errorf("printed %q", out)
			}
		})
	}
}

func TestScoreHelp(t *testing.T) {
	for _, flag := range []string{"-h", "--help"} {
		out, _, err := runScoreArgs(t, flag)
		if err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{"settee score", "--json", "7/"} {
			if !strings.Contains(out, want) {
				t.Errorf("%s: no %q in\n%s", flag, want, out)
			}
		}
	}
}
