package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"
)

// versionCommand is `settee version`.
func versionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Print which settee this is and how it was built",
		Args:  cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			info, _ := debug.ReadBuildInfo()
			_, err := fmt.Fprintln(cmd.OutOrStdout(), versionLine(info))
			return err
		},
	}
}

// versionLine says what the build information does: the version, the commit where it is known, Go's version and the
// platform. A build without information gives what is known of the running program.
func versionLine(info *debug.BuildInfo) string {
	version, commit := "(unknown)", ""
	if info != nil {
		version = info.Main.Version
		settings := map[string]string{}
		for _, s := range info.Settings {
			settings[s.Key] = s.Value
		}
		if revision := settings["vcs.revision"]; revision != "" {
			commit = ", commit " + revision[:min(len(revision), 12)]
			if settings["vcs.modified"] == "true" {
				commit += " and changes"
			}
		}
	}
	return fmt.Sprintf("settee %s%s, %s for %s/%s", version, commit, runtime.Version(), runtime.GOOS, runtime.GOARCH)
}
