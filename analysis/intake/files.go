package intake

import (
	"cmp"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode/utf8"

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
		if name == "-" {
			file, err := im.fromStandardInput()
			if err != nil {
				return nil, err
			}
			files = append(files, file)
			continue
		}
		info, err := os.Stat(name)
		if err != nil {
			return nil, source.Refuse(name, "cannot be read: there is no such file, or no right to read it", "check the name")
		}
		if !info.IsDir() {
			if err := refuseOdd(name, info); err != nil {
				return nil, err
			}
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
		info, err := os.Stat(path) // what a link leads to
		if left := whyLeft(entry.Name(), info, err); left != "" {
			im.notice("%s: %s", path, left)
			continue
		}
		if !utf8.ValidString(entry.Name()) {
			return nil, refuseOdd(path, info)
		}
		if source.FormOf(path) == "" {
			im.notice("%s: skipped, it is no CSV, XLSX, JSON, NDJSON or Parquet file", path)
			continue
		}
		files = append(files, source.Input{Name: path, Form: source.FormOf(path), Bytes: info.Size()})
	}
	return files, nil
}

// whyLeft says why something in a folder is not read; empty where it is looked at.
func whyLeft(name string, info fs.FileInfo, err error) string {
	switch {
	case err != nil:
		return "not read, it is not there any more, or there is no right to read it"
	case strings.HasPrefix(name, "~$"):
		return "not read, a spreadsheet program leaves such a file beside a workbook that is open: close it, for what is not saved is not in it"
	case strings.HasPrefix(name, "."):
		return "not read, it is hidden"
	case info.IsDir():
		return "not read, it is a folder within the folder; name it to import what is in it"
	case !info.Mode().IsRegular():
		return "not read, it is no file but " + whatItIs(info)
	}
	return ""
}

// refuseOdd refuses what has a name like a file's and is none, or has a name that nothing could be said of.
func refuseOdd(name string, info fs.FileInfo) error {
	switch {
	case !utf8.ValidString(name):
		return source.Refuse(strings.ToValidUTF8(name, "?"), "has a name that is not UTF-8", "rename it")
	case strings.HasPrefix(filepath.Base(name), "~$"):
		return source.Refuse(name, "is what a spreadsheet program leaves beside a workbook that is open", "close the workbook, and give its own name")
	case !info.Mode().IsRegular():
		return source.Refuse(name, "is no file but "+whatItIs(info), "save it as a file, or pass it to plumbline import - --kind KIND")
	}
	return nil
}

func whatItIs(info fs.FileInfo) string {
	switch mode := info.Mode(); {
	case mode&fs.ModeNamedPipe != 0:
		return "a pipe"
	case mode&fs.ModeSocket != 0:
		return "a socket"
	case mode&fs.ModeDevice != 0:
		return "a device"
	}
	return "something else"
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

// vanished tells of a file that went away after the look into its folder; any other error stays as it is.
func vanished(file source.Input, err error) error {
	if _, missing := os.Stat(file.Name); errors.Is(err, fs.ErrNotExist) && errors.Is(missing, fs.ErrNotExist) {
		return source.Refuse(cmp.Or(file.Shown, file.Name), "is not there any more", "nothing of this import was kept; import again what is there now")
	}
	return err
}

// file takes one file, whatever it holds.
func (im *importing) file(file source.Input) error {
	im.progress(file.Name, 0)
	if file.Bytes == 0 {
		return source.Refuse(cmp.Or(file.Shown, file.Name), "is empty", "export it again")
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
