package proof

import (
	"cmp"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// The files of a bundle that are about the others.
const (
	ManifestName  = "manifest.json"
	SignatureName = "manifest.sig"
	SumsName      = "SHA256SUMS"
	SignerName    = "signer.pub"
)

// SumFolder hashes all files of a folder, in the order of their names.
func SumFolder(dir string) ([]FileSum, error) {
	var sums []FileSum
	err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		sum, err := SumFile(path)
		sum.Path = filepath.ToSlash(name)
		sums = append(sums, sum)
		return err
	})
	slices.SortFunc(sums, func(a, b FileSum) int { return cmp.Compare(a.Path, b.Path) })
	return sums, err
}

func SumFile(path string) (FileSum, error) {
	file, err := os.Open(path)
	if err != nil {
		return FileSum{}, err
	}
	defer file.Close()
	hashed := NewHashing(io.Discard)
	if _, err := io.Copy(hashed, file); err != nil {
		return FileSum{}, err
	}
	return FileSum{Bytes: hashed.bytes, SHA256: hashed.Hex()}, nil
}
