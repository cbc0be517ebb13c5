package intake

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// files lists the files to import: those given, and of a folder those directly in it, by name.
func (im *importing) files() ([]source.Input, error) {
	if im.o.typed != nil {
		return im.typedFile()
	}
	var files []source.Input
	for _, name := range im.o.Files {
		info, err := os.Stat(name)
		if err != nil {
			return nil, source.Refuse(name, "cannot be read: there is no such file, or no right to read it", "check the name")
		}
		if !info.IsDir() {
			file, err := source.OneFile(name, info.Size())
			if err != nil {
				return nil, err
			}
			files = append(files, file)
			continue
		}
		inside, err := im.folder(name)
		if err != nil {
			return nil, err
		}
		files = append(files, inside...)
	}
	for _, file := range files {
		im.total += file.Bytes
	}
	return files, nil
}

func (im *importing) folder(name string) ([]source.Input, error) {
	if history.IsExport(name) {
		return im.exported(name)
	}
	entries, err := os.ReadDir(name)
	if err != nil {
		return nil, source.Refuse(name, "cannot be read", "check your rights")
	}
	var files []source.Input
	for _, entry := range entries {
		path := filepath.Join(name, entry.Name())
		info, err := entry.Info()
		if err != nil || entry.IsDir() {
			continue
		}
		if source.FormOf(path) == "" {
			im.notice("%s: skipped, it is no CSV, XLSX, JSON, NDJSON or Parquet file", path)
			continue
		}
		files = append(files, source.Input{Name: path, Form: source.FormOf(path), Bytes: info.Size()})
	}
	return files, nil
}

// exported lists the files of records of an export that comes into a history with imports of its own.
func (im *importing) exported(name string) ([]source.Input, error) {
	im.notice("%s: is an export; its records are imported, and its journal, replaced records and decisions are left: only a "+
		"new history takes these", name)
	var files []source.Input
	for _, kind := range layout.KindNames() {
		err := filepath.WalkDir(filepath.Join(name, kind), func(path string, entry fs.DirEntry, err error) error {
			if errors.Is(err, fs.ErrNotExist) {
				return nil // there were no records of the kind
			}
			if err != nil || entry.IsDir() || source.FormOf(path) != "parquet" {
				return err
			}
			info, err := entry.Info()
			files = append(files, source.Input{Name: path, Form: "parquet", Bytes: info.Size()})
			return err
		})
		if err != nil {
			return nil, source.Refuse(name, "cannot be read", "check your rights")
		}
	}
	return files, nil
}

// file takes one file, whatever it holds.
func (im *importing) file(file source.Input) error {
	im.progress(file.Name, 0)
	if file.Bytes == 0 {
		return source.Refuse(file.Name, "is empty", "export it again")
	}
	if im.profile != nil {
		return im.profiledFile(file)
	}
	switch file.Form {
	case "csv", "csv.gz":
		return im.delimitedFile(file)
	case "xlsx":
		return im.workbook(file)
	case "json", "ndjson":
		return im.jsonFile(file)
	case "parquet":
		return im.parquetFile(file)
	}
	return source.Refuse(file.Name, "is a workbook of the old XLS form, which is not read", "open it and save it as XLSX")
}
