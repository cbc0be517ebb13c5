package proof

import (
	"bytes"
	"cmp"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"plumbline/analysis/audit/record"
)

// about are the files that are about the others and not in the manifest's list.
func (c *checking) about() []string {
	if c.manifest.Signer != "" {
		return []string{ManifestName, SignatureName, SumsName}
	}
	return []string{ManifestName, SumsName}
}

// compareFiles holds the folder against the manifest. A file that is gone and whose content is there under another name
// was renamed; two that have each other's content were swapped.
func (c *checking) compareFiles() {
	listed := map[string]FileSum{}
	byHash := map[string]string{}
	for _, sum := range c.manifest.Files {
		listed[sum.Path] = sum
		byHash[sum.SHA256] = sum.Path
	}
	for _, sum := range c.manifest.Files {
		held, present := c.held[sum.Path]
		other := byHash[held.SHA256]
		switch {
		case !present:
			c.found(sum.Path, "missing", "is missing%s", c.renamed(sum, listed))
		case held.SHA256 == sum.SHA256:
		case other != "" && c.held[other].SHA256 == sum.SHA256:
			c.found(sum.Path, "swapped", "has the content of %s, and that has its", other)
		case other != "":
			c.found(sum.Path, "changed", "has the content of %s", other)
		case held.Bytes != sum.Bytes:
			c.found(sum.Path, "changed", "is changed: %d bytes, the manifest says %d", held.Bytes, sum.Bytes)
		default:
			c.found(sum.Path, "changed", "is changed: its SHA-256 is not the manifest's")
		}
	}
	for _, name := range slices.Sorted(maps.Keys(c.held)) {
		if _, known := listed[name]; !known && !slices.Contains(c.about(), name) {
			c.found(name, "added", "does not belong to the bundle")
		}
	}
	for _, name := range c.about() {
		if _, present := c.held[name]; !present {
			c.found(name, "missing", "is missing")
		}
	}
}

// renamed says under which name the content of a missing file is there.
func (c *checking) renamed(sum FileSum, listed map[string]FileSum) string {
	for _, name := range slices.Sorted(maps.Keys(c.held)) {
		if _, known := listed[name]; !known && c.held[name].SHA256 == sum.SHA256 {
			return "; its content is in " + record.Visible(name)
		}
	}
	return ""
}

// compareSums makes the list for sha256sum again from what the manifest says.
func (c *checking) compareSums() {
	if _, present := c.held[SumsName]; !present {
		return // named already
	}
	expected := slices.Clone(c.manifest.Files)
	for _, name := range c.about() {
		if sum, present := c.held[name]; present && name != SumsName {
			expected = append(expected, sum)
		}
	}
	slices.SortFunc(expected, func(a, b FileSum) int { return cmp.Compare(a.Path, b.Path) })
	text, err := os.ReadFile(filepath.Join(c.dir, SumsName))
	if err == nil && bytes.Equal(text, SumsFile(expected)) {
		return
	}
	c.found(SumsName, "changed", "does not list what the manifest lists, the manifest itself and its signature")
	if !bytes.Contains(text, SumsFile([]FileSum{c.held[ManifestName]})) {
		c.found(ManifestName, "changed", "is not the one that SHA256SUMS lists: one of the two was changed")
	}
}
