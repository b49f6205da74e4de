//go:build unix

package files

import (
	"bytes"
	"context"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

const (
	killedDir  = "FILES_TEST_KILLED_DIR" // tells the test binary to write there until it is killed
	killedSize = 1 << 20

	fullDir = "FILES_TEST_FULL_DIR" // tells it to write there once, as on a full disk
)

func TestMain(m *testing.M) {
	if dir := os.Getenv(killedDir); dir != "" {
		writeUntilKilled(dir)
	}
	if dir := os.Getenv(fullDir); dir != "" {
		writeOnFullDisk(dir)
		os.Exit(0)
	}
	os.Exit(m.Run())
}

func writeUntilKilled(dir string) {
	for i := 0; ; i++ {
		data := bytes.Repeat([]byte{"ab"[i%2]}, killedSize)
		err := Write(context.Background(), nil, []Output{
			{Name: filepath.Join(dir, "plan.json"), Data: data},
			{Name: filepath.Join(dir, "drawn", "plan.svg"), Data: data, Folder: true},
		})
		if err != nil {
			os.Exit(1)
		}
	}
}

// TestKilled kills runs while they write: every file is whole, old or new, and
// the next run sweeps what lies about.
func TestKilled(t *testing.T) {
	dir := t.TempDir()
	kills := 60
	if testing.Short() {
		kills = 12
	}
	rng := rand.New(rand.NewPCG(3, 5))
	left := 0
	for i := 0; i < kills || left == 0 && i < 10*kills; i++ {
		run := exec.Command(os.Args[0])
		run.Env = append(os.Environ(), killedDir+"="+dir)
		if err := run.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(10+rng.IntN(40)) * time.Millisecond)
		run.Process.Kill()
		if run.Wait(); run.ProcessState.ExitCode() == 1 {
			t.Fatal("a run failed before it was killed")
		}
		for _, name := range []string{"plan.json", "drawn/plan.svg"} {
			data, err := os.ReadFile(filepath.Join(dir, name))
			if os.IsNotExist(err) {
				continue // killed before it wrote any
			}
			if err != nil || len(data) != killedSize || bytes.Count(data, data[:1]) != killedSize {
				t.Fatalf("%s is not whole: %d bytes, %v", name, len(data), err)
			}
		}
		parts, _ := filepath.Glob(filepath.Join(dir, partBegins+"*"))
		left += len(parts)
		if err := Ready(nil, []Use{{Name: filepath.Join(dir, "plan.json")}, {Name: filepath.Join(dir, "drawn"), Ending: ".svg", Folder: true}}); err != nil {
			t.Fatal(err)
		}
		if lying, _ := filepath.Glob(filepath.Join(dir, "*", partBegins+"*")); len(lying) > 0 {
			t.Fatalf("not swept: %v", lying)
		}
		if lying, _ := filepath.Glob(filepath.Join(dir, partBegins+"*")); len(lying) > 0 {
			t.Fatalf("not swept: %v", lying)
		}
	}
	if left == 0 {
		t.Error("no run was killed while it wrote: nothing was shown")
	}
}
