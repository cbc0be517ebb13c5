package folder

import (
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// SyncAndClose makes sure that a file is on disk.
func SyncAndClose(file *os.File) error {
	if err := file.Sync(); err != nil {
		file.Close()
		return err
	}
	return file.Close()
}

// syncFolders writes the folders' own entries to disk, the innermost last.
func syncFolders(dir string) error {
	return filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || !entry.IsDir() {
			return err
		}
		return syncFolder(path)
	})
}

// syncFolder writes a folder's entries to disk, where a system lets a program do so: Windows keeps them by itself and opens no
// folder for it.
func syncFolder(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	folder, err := os.Open(dir)
	if err != nil {
		return err
	}
	return SyncAndClose(folder)
}
