package store

import (
	"bytes"
	"encoding/csv"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// table imports a file and gives the rows of its table by their deliveries, each by the names of the columns.
func table(t *testing.T, data []byte) (raw string, rows []map[string]string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "settee.db")
	mustImport(t, path, data)
	var out bytes.Buffer
	if err := mustOpen(t, path).ExportCSV(&out); err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(bytes.NewReader(out.Bytes())).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = cells[i]
		}
		rows = append(rows, row)
	}
	return out.String(), rows
}

func TestTheTableHasARowForEachDelivery(t *testing.T) {
	raw, rows := table(t, sample(t))
	lines := strings.SplitAfter(raw, "\r\n")
	if last := lines[len(lines)-1]; last != "" || strings.Count(raw, "\n") != len(lines)-1 {
		t.Errorf("a row does not end as RFC 4180 has it")
	}
	var want []string
	for _, line := range sampleLines(t) {
		if id, ok := strings.CutPrefix(string(line), `{"type":"delivery","id":"`); ok {
			want = append(want, id[:strings.IndexByte(id, '"')])
		}
	}
	if len(rows) != len(want) {
		t.Fatalf("%d rows for %d deliveries", len(rows), len(want))
	}
	for i, row := range rows {
		if row["delivery"] != want[i] {
			t.Errorf("row %d is of %s, want %s", i+1, row["delivery"], want[i])
		}
	}
}

func TestTheTableSaysWhatIsKnownOfADelivery(t *testing.T) {
	_, rows := table(t, sample(t))
	for _, c := range []struct {
		row  int
		want string
	}{
		{0, "session=01HWA000000000000000000000 session_at=2026-03-04T18:00:00Z name=Zuzana_Kvetáková hand=right " +
			"number=1 kind=warmup seq=1 frame= ball= full_rack=false standing= pins= seen=false balance= touched= grade= good= side="},
		{2, "frame=1 ball=1 full_rack=true standing=10 pins=9 foul=false dead=false seen=true balance=A target=A release=B " +
			"finish=A touched=true grade=A- good=true level=regular bar=A- weight_balance=25 weight_target=30 weight_release=25 " +
			"weight_finish=20 side=in side_boards=2 hit=high hit_boards=1.5 aimed_arrows=17 aimed_slide=34 aimed_breakpoint= " +
			"aimed_breakpoint_ft= line_arrows=17.5 line_slide=34 line_breakpoint=8 line_breakpoint_ft=43 speed_mph=16.1 " +
			"bowled=dull_blue_15 own=B+ cue=quiet_head note=late,_\"pulled\""},
		{4, "standing=none pins=10"},
		{5, "foul=true pins=0 standing=1_2_3_4_5_6_7_8_9_10"},
		{7, "hit_boards=-0.5 standing= pins=8"},
		{10, "standing=7_10 grade=D+ good=false"},
		{11, "balance= target= release= finish= touched=false grade= good=false"},
		{21, "game_name=corner_10 kind=drill full_rack=false good=true"},
		{26, "stopped=lane_10_broke_down lane=10 weight_release=100"},
	} {
		for _, cell := range strings.Fields(c.want) {
			name, want, _ := strings.Cut(cell, "=")
			got, ok := rows[c.row][name]
			if want = strings.ReplaceAll(want, "_", " "); !ok || got != want {
				t.Errorf("row %d, %s: %q, want %q", c.row, name, got, want)
			}
		}
	}
}

func TestNoCellIsAFormula(t *testing.T) {
	data := changed(t, `"id":"bo"`, `"Bo"`, `"=cmd|' /C calc'!A0"`)
	_, rows := table(t, data)
	if got := rows[len(rows)-1]["name"]; got != "'=cmd|' /C calc'!A0" {
		t.Errorf("the name is %q", got)
	}
	for text, want := range map[string]string{
		"=1+1": "'=1+1", "+1": "'+1", "-1": "'-1", "@SUM(A1)": "'@SUM(A1)", "  =1": "'  =1", "＝1": "'＝1",
		"1-2": "1-2", "A-": "A-", "": "", "late": "late", "'=1": "'=1",
	} {
		if got := defused(text); got != want {
			t.Errorf("%q becomes %q, want %q", text, got, want)
		}
	}
}

// TestNoTextOfAStoreIsAFormula begins every text of the sample with each of the characters that a formula begins with.
func TestNoTextOfAStoreIsAFormula(t *testing.T) {
	texts := regexp.MustCompile(`"(name|place|stopped|note|cue|bowled|text|focus)":"`)
	ids := regexp.MustCompile(`"01HWA0`)
	for _, start := range []string{"=", "+", "-", "@", "＝", "＋", "－", "＠", " =", "\u00a0=", "\u200b=", "\u3000＝", "−"} {
		data := texts.ReplaceAll(sample(t), []byte(`"$1":"`+start))
		data = ids.ReplaceAll(data, []byte(`"-1HWA0`))
		_, rows := table(t, data)
		found := 0
		for i, row := range rows {
			for name, cell := range row {
				if strings.HasPrefix(cell, "'") {
					found++
				}
				if _, err := strconv.ParseFloat(cell, 64); err == nil {
					continue
				}
				if strings.HasPrefix(cell, start) || strings.HasPrefix(cell, "-") {
					t.Errorf("row %d, %s: %q", i+1, name, cell)
				}
			}
		}
		if found < 100 {
			t.Errorf("%q: %d cells were made harmless", start, found)
		}
	}
	for _, text := range []string{"\t=1", "\r=1", "\n1", "\t", "\x00=1", "\ufeff=1", "\u202e=1"} {
		if got := defused(text); got != "'"+text {
			t.Errorf("%q becomes %q", text, got)
		}
	}
}
