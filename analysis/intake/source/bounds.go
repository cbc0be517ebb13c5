package source

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"strings"
)

// The bounds of a workbook. A sheet of a million rows and forty columns stays within them; a small file made to unpack to
// what no machine holds does not.
//
// Source of the longest cell: ECMA-376 gives none; 32,767 characters is what spreadsheet programs keep (common practice, no
// source), here with room for marks and several bytes a character.
const (
	mostPacked   = 128 << 20
	mostUnzipped = 2 << 30
	mostParts    = 10_000
	mostRatio    = 200     // of a part's size to what it takes in the file: sheets pack to a tenth or twentieth
	smallPart    = 4 << 20 // whose ratio does not matter
	mostCell     = 1 << 20 // bytes between two marks of XML
)

// beyondBounds says which bound a workbook breaks; empty where it breaks none, or is no archive at all.
func beyondBounds(content []byte) string {
	archive, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		return ""
	}
	if len(archive.File) > mostParts {
		return fmt.Sprintf("has %d parts", len(archive.File))
	}
	var sum uint64
	for _, part := range archive.File {
		size := part.UncompressedSize64
		if sum += size; sum > mostUnzipped {
			return fmt.Sprintf("would unzip to more than %d GB", mostUnzipped>>30)
		}
		if size > smallPart && size/mostRatio > part.CompressedSize64 {
			return fmt.Sprintf("has a part that unzips to %d MB, more than %d times what it takes in the file", size>>20, mostRatio)
		}
	}
	for _, part := range archive.File {
		if longest := longestText(part); longest > mostCell {
			return fmt.Sprintf("has a cell of more than %d MB", mostCell>>20)
		}
	}
	return ""
}

// longestText is how many bytes of a part of XML lie between two marks at most. It stops at the first that is too long,
// and looks only at parts that could hold one.
func longestText(part *zip.File) int {
	if part.UncompressedSize64 <= mostCell || !strings.HasSuffix(part.Name, ".xml") {
		return 0
	}
	in, err := part.Open()
	if err != nil {
		return 0 // the workbook library will say what is wrong
	}
	defer in.Close()
	block := make([]byte, 1<<16)
	longest, run := 0, 0
	for {
		n, err := in.Read(block)
		rest := block[:n]
		for {
			at := bytes.IndexByte(rest, '<')
			if at < 0 {
				run += len(rest)
				break
			}
			longest, run = max(longest, run+at), 0
			rest = rest[at+1:]
		}
		if longest = max(longest, run); err == io.EOF || err != nil || longest > mostCell {
			return longest
		}
	}
}
