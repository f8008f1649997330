package main

import (
	"fmt"
	"os"
	"path/filepath"
)

// A file is one output before it is saved.
type file struct {
	name string
	data []byte
}

// save puts files into a folder so that each appears whole or not at all:
// all are written beside their places and forced to the disk before the
// first takes its name. After a fault none of the temporary files is left.
func save(dir string, files []file) (err error) {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	var temporary []string
	defer func() {
		for _, name := range temporary {
			os.Remove(name) // those that were renamed are gone
		}
	}()
	for _, f := range files {
		if info, err := os.Stat(filepath.Join(dir, f.name)); err == nil && !info.Mode().IsRegular() {
			return fmt.Errorf("%s: want a file to replace, have something else", filepath.Join(dir, f.name))
		}
		name, err := spool(dir, f)
		temporary = append(temporary, name)
		if err != nil {
			return err
		}
	}
	for i, f := range files {
		if err := os.Rename(temporary[i], filepath.Join(dir, f.name)); err != nil {
			return err
		}
	}
	return nil
}

// spool writes a file under a passing name and returns that name.
func spool(dir string, f file) (name string, err error) {
	t, err := os.CreateTemp(dir, f.name+".*.part")
	if err != nil {
		return "", err
	}
	defer func() {
		if shut := t.Close(); err == nil {
			err = shut
		}
	}()
	if _, err := t.Write(f.data); err != nil {
		return t.Name(), err
	}
	if err := t.Chmod(0o644); err != nil {
		return t.Name(), err
	}
	return t.Name(), t.Sync()
}
