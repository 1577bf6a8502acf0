package store

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"coach.settee/model"
)

// killedPath is the environment variable by which the test binary, started again, is told to be the one that is killed.
const killedPath = "SETTEE_TEST_KILLED"

// TestRecordsUntilKilled is the process that is killed: it records an evening without end and writes how many steps are
// durable, five by five.
func TestRecordsUntilKilled(t *testing.T) {
	path := os.Getenv(killedPath)
	if path == "" {
		t.Skip("only as the process that is killed")
	}
	s, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	r := NewRecorder(s, RecorderOptions{})
	steps := 0
	c := newCoach(t, 9, func(step model.Step) {
		steps++
		r.Keep(step)
		// A coach is not faster than the disk for long.
		if steps%5 == 0 {
			for r.Progress().Durable < uint64(steps) {
				<-r.Changed()
			}
			fmt.Println(steps)
		}
	})
	c.begin(8)
	for {
		c.bowl(1)
	}
}

// TestKilledAtAnyMoment kills a process that records, after it has told that a number of steps is durable, and finds at
// least those in the file, in order.
func TestKilledAtAnyMoment(t *testing.T) {
	var steps []model.Step
	c := newCoach(t, 9, func(step model.Step) { steps = append(steps, step) })
	c.begin(8)
	c.bowl(1200)
	for _, enough := range []int{5, 20, 35, 90, 205, 330, 500} {
		t.Run(strconv.Itoa(enough), func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "settee.db")
			durable := recordAndKill(t, path, enough, func() {})
			if err := Check(path); err != nil {
				t.Fatal(err)
			}
			s, err := Open(path, Options{})
			if err != nil {
				t.Fatal(err)
			}
			defer s.Close()
			k, err := s.Evening(c.session())
			if err != nil {
				t.Fatal(err)
			}
			least, all := recordedBy(steps[:durable]), recordedBy(steps)
			if len(k.Deliveries) < len(least) || len(k.Deliveries) > len(all) {
				t.Fatalf("%d deliveries are there, %d were durable", len(k.Deliveries), len(least))
			}
			for i, d := range k.Deliveries {
				if d != all[i] {
					t.Fatalf("delivery %d is %+v, recorded was %+v", i+1, d, all[i])
				}
			}
			if len(k.Log) < lastAction(steps[:durable]) {
				t.Fatalf("%d actions are there, %d were durable", len(k.Log), lastAction(steps[:durable]))
			}
		})
	}
}

func TestAnotherProcessHasTheStoreOpen(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	recordAndKill(t, path, 5, func() {
		if _, err := Open(path, Options{}); !errors.Is(err, ErrInUse) {
			t.Errorf("opening gives %v", err)
		}
	})
}

// recordAndKill gives how many steps the process has told to be durable before it was killed. It calls meanwhile once
// there are enough.
func recordAndKill(t *testing.T, path string, enough int, meanwhile func()) (durable int) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self, "-test.run=^TestRecordsUntilKilled$", "-test.count=1")
	cmd.Env = append(os.Environ(), killedPath+"="+path)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	told := false
	for lines.Scan() {
		n, err := strconv.Atoi(lines.Text())
		if err != nil {
			t.Errorf("the process says %q", lines.Text())
			continue
		}
		durable = n
		if n >= enough && !told {
			told = true
			meanwhile()
			if err := cmd.Process.Kill(); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := cmd.Wait(); err == nil || !told {
		t.Fatalf("the process ended by itself after %d steps: %v", durable, err)
	}
	return durable
}

// recordedBy gives the deliveries that steps record, in order, as the last of them leaves each.
func recordedBy(steps []model.Step) []model.Delivery {
	var out []model.Delivery
	for _, step := range steps {
		for _, c := range step.Changes {
			if d, ok := c.After.(model.Delivery); ok && c.Before == nil {
				out = append(out, d)
			}
		}
	}
	return out
}
