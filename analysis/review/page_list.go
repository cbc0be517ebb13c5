package review

import (
	"bufio"
	"bytes"
	"cmp"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"

	"plumbline/analysis/folder"
)

// listName is the file of a review's folder that names its pages, each with its digest. A page that a later review does
// not write is removed only if this list has its name and its very content: that tells a page of ours from one that
// somebody has changed since, and from any other file whatever it looks like. A mark inside the pages would not do: it
// goes along into a copy that somebody keeps under another name, and stays in a page that somebody has written notes into.
const listName = "plumbline-pages.sha256"

const listHead = "# Pages of the review in this folder, as sha256sum checks them. The next review written here removes those that\n" +
	"# it no longer has, unless they have been changed since.\n"

// listLine is a line of the list. It matches no name but those that pages have, so that a list that was tampered with
// cannot point anywhere else.
var listLine = regexp.MustCompile(`^([0-9a-f]{64})  ((?:(?:vehicles|subjects)/)?[A-Za-z0-9_-]+\.html)$`)

// A pageList is what plumbline has written into a folder: pages by name and digest.
type pageList map[listedPage]bool

type listedPage struct{ name, digest string }

// listOf lists pages that are about to be written.
func listOf(files []pageFile) pageList {
	l := pageList{}
	for _, f := range files {
		l[listedPage{f.name, fmt.Sprintf("%x", sha256.Sum256(f.content))}] = true
	}
	return l
}

// readList reads the list of a folder. Where there is none, or a line is not as this package writes it, nothing is known
// to be ours.
func readList(dir string) (pageList, error) {
	text, err := os.ReadFile(filepath.Join(dir, listName))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	l := pageList{}
	lines := bufio.NewScanner(bytes.NewReader(text))
	for lines.Scan() {
		if found := listLine.FindStringSubmatch(lines.Text()); found != nil {
			l[listedPage{found[2], found[1]}] = true
		}
	}
	return l, nil
}

// with is the list and another together.
func (l pageList) with(other pageList) pageList {
	both := maps.Clone(l)
	maps.Copy(both, other)
	return both
}

// names are the pages of the list.
func (l pageList) names() map[string]bool {
	names := map[string]bool{}
	for listed := range l {
		names[listed.name] = true
	}
	return names
}

// write puts the list into a folder, in order, so that the same review leaves the same list.
func (l pageList) write(dir string) error {
	text := bytes.NewBufferString(listHead)
	for _, listed := range slices.SortedFunc(maps.Keys(l), func(a, b listedPage) int {
		return cmp.Or(cmp.Compare(a.name, b.name), cmp.Compare(a.digest, b.digest))
	}) {
		fmt.Fprintf(text, "%s  %s\n", listed.digest, listed.name)
	}
	return folder.Replace(filepath.Join(dir, listName), text.Bytes())
}

// clear removes the pages that the list proves to be ours and that are not among those written now. What is not as it
// was written stays where it is, and in the list that comes back. All goes through the root: not even a link that is laid
// meanwhile leads out of the folder.
func (l pageList) clear(dir string, written pageList) (pageList, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	left, settled := maps.Clone(l), written.names()
	for name := range l.names() {
		if settled[name] {
			continue // written anew
		}
		digest, err := digestOf(root, name)
		if l[listedPage{name, digest}] {
			err = root.Remove(name)
			settled[name] = true
		}
		if errors.Is(err, fs.ErrNotExist) {
			settled[name] = true
		} else if err != nil {
			return nil, err
		}
	}
	maps.DeleteFunc(left, func(listed listedPage, _ bool) bool { return settled[listed.name] })
	return left, nil
}

// digestOf is the digest of a page of the folder; empty where something else has its name, or a link leads to it: what
// is behind a link is somebody's own arrangement, even if the content is ours.
func digestOf(root *os.Root, name string) (string, error) {
	if dir := path.Dir(name); dir != "." {
		if info, err := root.Lstat(dir); err != nil || !info.IsDir() {
			return "", err
		}
	}
	if info, err := root.Lstat(name); err != nil || !info.Mode().IsRegular() {
		return "", err
	}
	file, err := root.Open(name)
	if err != nil {
		return "", err
	}
	defer file.Close()
	digest := sha256.New()
	if _, err := io.Copy(digest, file); err != nil {
		return "", err
	}
	return fmt.Sprintf("%x", digest.Sum(nil)), nil
}
