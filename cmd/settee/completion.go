package main

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"coach.settee/model"
)

// completionCommand is `settee completion`: the script by which a shell completes what is typed.
func completionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "completion {bash | zsh | fish | powershell}",
		Short: "Print the script by which a shell completes commands and names",
		Long: `Print the script by which the tab key completes commands, flags and the names of
students at the prompt of a shell. Each shell reads it in a way of its own:

  bash        source <(settee completion bash)
              in ~/.bashrc; needs the package bash-completion
  zsh         source <(settee completion zsh)
              in ~/.zshrc, after compinit
  fish        settee completion fish | source
              in ~/.config/fish/config.fish
  powershell  settee completion powershell | Out-String | Invoke-Expression
              in the file that $PROFILE names

Names are completed while the board is closed.`,
		Example:   `  settee completion bash > ~/.local/share/bash-completion/completions/settee`,
		ValidArgs: []string{"bash", "zsh", "fish", "powershell"},
		Args:      aShell,
		RunE:      runCompletion,
	}
}

func aShell(cmd *cobra.Command, args []string) error {
	if len(args) != 1 || !slices.Contains(cmd.ValidArgs, args[0]) {
		return fmt.Errorf("name one shell: bash, zsh, fish or powershell")
	}
	return nil
}

func runCompletion(cmd *cobra.Command, args []string) error {
	out, root := cmd.OutOrStdout(), cmd.Root()
	switch args[0] {
	case "bash":
		return root.GenBashCompletionV2(out, true)
	case "zsh":
		return root.GenZshCompletion(out)
	case "fish":
		return root.GenFishCompletion(out, true)
	}
	return root.GenPowerShellCompletionWithDesc(out)
}

// completeArguments sets what the tab key offers: students where a command speaks of one, files only where it takes one.
func completeArguments(root *cobra.Command) {
	for _, cmd := range root.Commands() {
		switch cmd.Name() {
		case "stats", "handout", "erase":
			cmd.ValidArgsFunction = studentNames
		case "config", "demo", "man", "score", "version":
			cmd.ValidArgsFunction = cobra.NoFileCompletions
		case "line":
			cmd.ValidArgsFunction = cobra.NoFileCompletions
			for _, below := range cmd.Commands() {
				below.ValidArgsFunction = cobra.NoFileCompletions
			}
		}
	}
}

// studentNames gives the names of the students who are not archived, with what tells those of one name apart. A store that
// is not there, or is open elsewhere, has none: a shell shows no error.
func studentNames(cmd *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	s, err := openStore(cmd)
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	defer s.Close()
	students, err := s.Students()
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var names []cobra.Completion
	for _, student := range students {
		if !student.Archived {
			names = append(names, model.LabelAmong(student, students))
		}
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}
