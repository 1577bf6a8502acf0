package main

import (
	"fmt"
	"io"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// manCommand is `settee man`: the help of every command as a page for man.
func manCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "man",
		Short: "Print the manual page, for man",
		Long: `Print the help of all commands as a manual page. A pager of such pages shows it at
once, and in a folder that man looks in it is found by its name.`,
		Example: `  settee man | man -l -
  settee man > ~/.local/share/man/man1/settee.1`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			version := ""
			if info, ok := debug.ReadBuildInfo(); ok {
				version = info.Main.Version
			}
			_, err := io.WriteString(cmd.OutOrStdout(), manPage(cmd.Root(), version))
			return err
		},
	}
}

// manPage writes the help of a program and of its commands with the macros of man.
func manPage(root *cobra.Command, version string) string {
	m := &roff{}
	m.macro("TH", strings.ToUpper(root.Name()), "1", "", root.Name()+" "+version, "User Commands")
	m.macro("SH", "NAME")
	m.text(root.Name() + " - " + root.Short)
	m.macro("SH", "SYNOPSIS")
	m.macro("B", root.Name()+" [flags]")
	m.macro("br")
	m.macro("B", root.Name()+" COMMAND [arguments] [flags]")
	m.macro("SH", "DESCRIPTION")
	m.blocks(root.Long)
	m.flags(root.LocalFlags())
	m.examples(root.Example)
	for _, group := range root.Groups() {
		m.macro("SH", strings.ToUpper(strings.TrimSuffix(group.Title, ":")))
		for _, cmd := range root.Commands() {
			if cmd.GroupID == group.ID && cmd.IsAvailableCommand() {
				m.command(cmd)
			}
		}
	}
	m.macro("SH", "EXIT STATUS")
	m.blocks("0: done.\n\n1: refused or failed; a line on the standard error says what happened and what to do.\n\n2: wrong usage.")
	return m.String()
}

// roff is a page as it is built.
type roff struct{ strings.Builder }

// macro writes a line of a macro with its arguments.
func (m *roff) macro(name string, args ...string) {
	m.WriteString("." + name)
	for _, arg := range args {
		fmt.Fprintf(m, ` "%s"`, strings.ReplaceAll(roffText(arg), `"`, `\(dq`))
	}
	m.WriteByte('\n')
}

// text writes a line that is filled with what comes after it.
func (m *roff) text(line string) {
	line = roffText(line)
	if strings.HasPrefix(line, ".") || strings.HasPrefix(line, "'") {
		line = `\&` + line
	}
	m.WriteString(line + "\n")
}

// roffText gives a text of which no character means anything to roff, in ASCII.
func roffText(text string) string {
	text = strings.NewReplacer(`\`, `\e`, "-", `\-`, "'", `\(aq`, "`", `\(ga`, "^", `\(ha`, "~", `\(ti`).Replace(text)
	var out strings.Builder
	for _, r := range text {
		if r < 0x80 {
			out.WriteRune(r)
		} else {
			fmt.Fprintf(&out, `\[u%04X]`, r)
		}
	}
	return out.String()
}

// useOf gives how a command is called.
func useOf(cmd *cobra.Command) string { return strings.TrimSuffix(cmd.UseLine(), " [flags]") }

// command writes a command's help, and that of the commands below it.
func (m *roff) command(cmd *cobra.Command) {
	m.macro("SS", useOf(cmd))
	long := cmd.Long
	if long == "" {
		long = cmd.Short + "."
	}
	m.blocks(long)
	m.flags(cmd.NonInheritedFlags())
	m.examples(cmd.Example)
	for _, below := range cmd.Commands() {
		if below.IsAvailableCommand() {
			m.command(below)
		}
	}
}

// blocks writes a help's paragraphs: text is filled, lines that begin with two blanks are items, and what is set in columns
// stays as it is.
func (m *roff) blocks(text string) {
	for i, block := range strings.Split(strings.Trim(text, "\n"), "\n\n") {
		switch lines := strings.Split(block, "\n"); {
		case !strings.HasPrefix(block, "  "):
			if i > 0 {
				m.macro("PP")
			}
			for _, line := range lines {
				m.text(strings.TrimSpace(line))
			}
		case inColumns(lines):
			m.examples(block)
		default:
			for _, line := range lines {
				if !strings.HasPrefix(line, "   ") {
					m.macro("IP", "", "2")
				}
				m.text(strings.TrimSpace(line))
			}
		}
	}
}

// inColumns tells whether two blanks part what is in any of some lines.
func inColumns(lines []string) bool {
	for _, line := range lines {
		if strings.Contains(strings.TrimSpace(line), "  ") {
			return true
		}
	}
	return false
}

// examples writes lines as they are.
func (m *roff) examples(text string) {
	if text == "" {
		return
	}
	m.macro("PP")
	m.macro("RS", "2")
	m.macro("nf")
	for _, line := range strings.Split(text, "\n") {
		m.text(strings.TrimPrefix(line, "  "))
	}
	m.macro("fi")
	m.macro("RE")
}

// flags writes what flags do.
func (m *roff) flags(flags *pflag.FlagSet) {
	flags.VisitAll(func(f *pflag.Flag) {
		if f.Hidden || f.Name == "help" {
			return
		}
		name, usage := pflag.UnquoteUsage(f)
		m.macro("TP")
		m.macro("B", strings.TrimSpace("--"+f.Name+" "+name))
		m.text(strings.Join(strings.Fields(usage), " "))
	})
}
