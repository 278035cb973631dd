package store

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// ErrNoPostgres says that no Postgres is installed where it is looked for.
var ErrNoPostgres = errors.New("no Postgres found: install it (Debian: apt-get install postgresql), or set FRESHET_POSTGRES_BIN to the folder that holds postgres and initdb, or name a running server with --database URL")

// programs is a folder with postgres and initdb of one release.
type programs struct {
	folder string
	major  int
}

func (p programs) path(name string) string { return filepath.Join(p.folder, name) }

// findPrograms picks the newest installed Postgres, or for existing data the
// one of the same release: data files of another cannot be read.
func findPrograms(data string) (programs, error) {
	found := installed()
	if len(found) == 0 {
		return programs{}, ErrNoPostgres
	}
	made, err := os.ReadFile(filepath.Join(data, "PG_VERSION"))
	if errors.Is(err, os.ErrNotExist) {
		return found[0], nil
	}
	if err != nil {
		return programs{}, fmt.Errorf("data folder: %w", err)
	}
	major := strings.TrimSpace(string(made))
	for _, p := range found {
		if strconv.Itoa(p.major) == major {
			return p, nil
		}
	}
	return programs{}, fmt.Errorf("the data in %s was made by Postgres %s, which is not installed; install it (Debian: apt-get install postgresql-%s) or name its folder in FRESHET_POSTGRES_BIN", data, major, major)
}

// installed lists usable folders: the one named by the environment alone, else
// the one on PATH and Debian's, newest first.
func installed() []programs {
	var found []programs
	folders := []string{os.Getenv("FRESHET_POSTGRES_BIN")}
	if folders[0] == "" {
		folders = append(pathFolders(), debianFolders()...)
	}
	for _, folder := range folders {
		if major := release(folder); major > 0 {
			found = append(found, programs{folder, major})
		}
	}
	slices.SortStableFunc(found, func(a, b programs) int { return b.major - a.major })
	return found
}

func pathFolders() []string {
	program, err := exec.LookPath("postgres")
	if err != nil {
		return nil
	}
	if program, err = filepath.EvalSymlinks(program); err != nil {
		return nil
	}
	return []string{filepath.Dir(program)}
}

func debianFolders() []string {
	folders, err := filepath.Glob("/usr/lib/postgresql/*/bin")
	if err != nil {
		return nil
	}
	return folders
}

var releaseNumber = regexp.MustCompile(`\(PostgreSQL\) (\d+)`)

// release asks the program itself; 0 where postgres or initdb is missing.
func release(folder string) int {
	if _, err := os.Stat(filepath.Join(folder, "initdb")); err != nil {
		return 0
	}
	said, err := exec.Command(filepath.Join(folder, "postgres"), "--version").Output()
	if err != nil {
		return 0
	}
	number := releaseNumber.FindSubmatch(said)
	if number == nil {
		return 0
	}
	major, err := strconv.Atoi(string(number[1]))
	if err != nil {
		return 0
	}
	return major
}
