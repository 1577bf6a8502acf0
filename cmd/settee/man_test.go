package main

import (
	"bytes"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// The macros of man(7) that the page is made of.
var manLine = regexp.MustCompile(`^\.(TH|SH|SS|B|PP|IP|TP|RS|RE)( "[^"]*")*$|^\.(br|nf|fi)$|^[^.'].*$|^$`)

func TestTheManualPageHasEveryCommandAndFlag(t *testing.T) {
	root := newRoot()
	page := manPage(root, "v1.2.3")
	lines := strings.Split(page, "\n")
	for i, line := range lines {
		if !manLine.MatchString(line) {
			t.Errorf("line %d is no roff that man knows: %s", i+1, line)
		}
	}
	has := func(what, line string) {
		if !strings.Contains(page, "\n"+line+"\n") {
			t.Errorf("%s is missing: %s", what, line)
		}
	}
	var look func(*cobra.Command)
	look = func(cmd *cobra.Command) {
		if cmd != root {
			has("a command", `.SS "`+strings.ReplaceAll(roffText(useOf(cmd)), `"`, `\(dq`)+`"`)
		}
		cmd.LocalFlags().VisitAll(func(f *pflag.Flag) {
			if f.Name != "help" && !strings.Contains(page, `.B "`+roffText("--"+f.Name)) {
				t.Errorf("the flag --%s of %s is missing", f.Name, cmd.CommandPath())
			}
		})
		for _, below := range cmd.Commands() {
			if below.IsAvailableCommand() {
				look(below)
			}
		}
	}
	look(root)
	has("an example", `settee stats \(aqAda Marsh\(aq`)
	has("what is set in columns", `zsh         source <(settee completion zsh)`)
	if !strings.HasPrefix(page, `.TH "SETTEE" "1" "" "settee v1.2.3" "User Commands"`+"\n") {
		t.Errorf("it begins %q", lines[0])
	}
}

// A text is shown as it is, whatever roff makes of its characters.
func TestNoTextIsAMacro(t *testing.T) {
	m := &roff{}
	m.text(`.br is "no" macro \fB here`)
	m.text("'tis -1 é")
	m.macro("SS", `say "x-y"`)
	want := `\&.br is "no" macro \efB here` + "\n" + `\(aqtis \-1 \[u00E9]` + "\n" + `.SS "say \(dqx\-y\(dq"` + "\n"
	if got := m.String(); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Where there is a groff, it has nothing to say against the page.
func TestTheManualPageIsSet(t *testing.T) {
	groff, err := exec.LookPath("groff")
	if err != nil {
		t.Skip("there is no groff")
	}
	cmd := exec.Command(groff, "-man", "-Tutf8", "-ww", "-P-cbou")
	cmd.Stdin = strings.NewReader(manPage(newRoot(), "v1.2.3"))
	var out, errOut bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errOut
	if err := cmd.Run(); err != nil || errOut.Len() > 0 {
		t.Errorf("%v: %s", err, errOut.String())
	}
	for _, want := range []string{"settee stats 'Ada Marsh'", "settee completion zsh", "--keep-mine"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not shown", want)
		}
	}
}
