package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"coach.settee/store"
)

// repairTo makes a store at target of what can be read at path, and says what is there and what is missing.
func repairTo(cmd *cobra.Command, path, target string, asJSON bool) error {
	r, err := store.Repair(path, target, newProgress(cmd, "read").count)
	if err != nil {
		return err
	}
	if asJSON {
		return json.NewEncoder(cmd.OutOrStdout()).Encode(repairJSON{
			File: path, To: target, Cues: r.Cues, Students: r.Students, Sessions: r.Sessions, Games: r.Games,
			Deliveries: r.Deliveries, Older: r.Older, StandIns: r.StandIns, LeftOut: r.LeftOut, LeftOutFile: r.LeftOutFile,
			Missing: r.Missing, Unread: r.Unread, BadHeads: r.BadHeads, JournalLost: r.JournalLost, MayMiss: r.MayMissLast,
			WasSound: r.WasSound,
		})
	}
	return printRepaired(cmd.OutOrStdout(), path, target, r)
}

func printRepaired(out io.Writer, path, target string, r store.Repaired) error {
	var b strings.Builder
	held := recordWords(r.Cues, r.Students, r.Sessions, r.Games, r.Deliveries)
	if held == "" {
		held = "nothing"
	}
	fmt.Fprintf(&b, "repaired: %s holds %s; %s is as it was\n", target, held, path)
	if r.WasSound {
		b.WriteString("nothing was wrong with it: there was nothing to repair\n")
	}
	if r.BadHeads > 0 {
		heads := "one of its two heads is"
		if r.BadHeads > 1 {
			heads = "both of its heads are"
		}
		fmt.Fprintf(&b, "%s damaged: the newest calls may be missing\n", heads)
	}
	if r.JournalLost {
		b.WriteString("its journal could not be read whole: calls of the last minutes may be missing\n")
	}
	if r.MayMissLast {
		fmt.Fprintf(&b, "%s\n", mayMissLast)
	}
	if r.Missing > 0 {
		fmt.Fprintf(&b, "%s missing of the games that are there\n", amount(r.Missing, "delivery is", "deliveries are"))
	}
	if r.Unread > 0 {
		fmt.Fprintf(&b, "%s not be read\n", amount(r.Unread, "value could", "values could"))
	}
	if r.StandIns > 0 {
		fmt.Fprintf(&b, "%s lost and there by id only, since others refer to it\n", amount(r.StandIns, "student or session is",
			"students or sessions are"))
	}
	if r.Older > 0 {
		fmt.Fprintf(&b, "%s from pages no longer in use, and may be older than what is lost\n", amount(r.Older, "record is",
			"records are"))
	}
	if r.LeftOut > 0 {
		fmt.Fprintf(&b, "%s be read but not kept, as what comes before is lost: see %s\n", amount(r.LeftOut, "record can",
			"records can"), r.LeftOutFile)
	}
	fmt.Fprintf(&b, "what could be taken back cannot be any more\nlook at it with settee --store %s; settee restore %s puts it in the store's place\n",
		target, target)
	_, err := io.WriteString(out, b.String())
	return err
}

type repairJSON struct {
	File        string `json:"file"`
	To          string `json:"to"`
	Cues        int    `json:"cues"`
	Students    int    `json:"students"`
	Sessions    int    `json:"sessions"`
	Games       int    `json:"games"`
	Deliveries  int    `json:"deliveries"`
	Older       int    `json:"older"`
	StandIns    int    `json:"stand_ins"`
	LeftOut     int    `json:"left_out"`
	LeftOutFile string `json:"left_out_file,omitempty"`
	Missing     int    `json:"missing"`
	Unread      int    `json:"unread"`
	BadHeads    int    `json:"bad_heads"`
	JournalLost bool   `json:"journal_lost"`
	MayMiss     bool   `json:"last_may_be_missing"`
	WasSound    bool   `json:"was_sound"`
}
