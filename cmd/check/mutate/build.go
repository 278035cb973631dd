package mutate

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

// compile builds the tests of a package with some of its files in other words.
func (e *examination) compile(ctx context.Context, name string, files map[string]string) (program string, err error) {
	folder := filepath.Join(e.scratch, name)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", err
	}
	overlay := map[string]string{}
	for file, text := range files {
		overlay[file] = filepath.Join(folder, filepath.Base(file))
		if err := os.WriteFile(overlay[file], []byte(text), 0o600); err != nil {
			return "", err
		}
	}
	listed, err := json.Marshal(map[string]any{"Replace": overlay})
	if err != nil {
		return "", err
	}
	listing := filepath.Join(folder, "overlay.json")
	if err := os.WriteFile(listing, listed, 0o600); err != nil {
		return "", err
	}
	program = filepath.Join(folder, "tests")
	build := exec.CommandContext(ctx, "go", "test", "-c", "-overlay", listing, "-o", program, e.source.PkgPath) //nolint:gosec // our own package
	build.Dir = e.options.Root
	if said, err := build.CombinedOutput(); err != nil {
		return "", fmt.Errorf("go test -c: %w\n%s", err, said)
	}
	return program, nil
}
