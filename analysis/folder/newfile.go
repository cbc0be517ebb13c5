package folder

import (
	"errors"
	"os"
)

// NewFile writes a file that must not be there yet, whole or not at all.
func NewFile(path string, content []byte, mode os.FileMode) error {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	_, err = file.Write(content)
	if err != nil {
		file.Close()
	} else {
		err = SyncAndClose(file)
	}
	if err != nil {
		return errors.Join(err, os.Remove(path))
	}
	return nil
}

// Replace writes a file whole or not at all, over one of the same name.
func Replace(path string, content []byte) error {
	next := path + ".unfinished"
	err := os.WriteFile(next, content, 0o644)
	if err == nil {
		err = os.Rename(next, path)
	}
	if err != nil {
		return errors.Join(err, os.Remove(next))
	}
	return nil
}
