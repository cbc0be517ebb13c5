package proof

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"testing"

	"plumbline/analysis/testkit"
)

type hashVectors struct {
	SHA256 []struct {
		Text, Repeat, Hex string
		Count             int
	} `json:"sha256"`
	RFC6962 struct {
		Leaves     []string `json:"leaves"`
		LeafHashes []string `json:"leaf_hashes"`
		Roots      []string `json:"roots"`
		Inclusion  []struct {
			Index int      `json:"leaf_index"`
			Size  int      `json:"tree_size"`
			Path  []string `json:"path"`
		} `json:"inclusion"`
	} `json:"rfc6962"`
}

// Source: FIPS 180-4, the examples of SHA-256; through the writer that hashes a bundle's files.
func TestHashing(t *testing.T) {
	vectors := testkit.ReadJSON[hashVectors](t, "testdata/hashes.json").SHA256
	for _, v := range vectors {
		text := v.Text + strings.Repeat(v.Repeat, v.Count)
		h := NewHashing(&strings.Builder{})
		for part := range strings.SplitSeq(text, "") { // piece by piece, as files are written
			if _, err := h.Write([]byte(part)); err != nil {
				t.Fatal(err)
			}
		}
		if h.Hex() != v.Hex || h.bytes != int64(len(text)) {
			t.Errorf("SHA-256 of %d bytes is %s over %d, published %s", len(text), h.Hex(), h.bytes, v.Hex)
		}
	}
	if len(vectors) != 5 {
		t.Errorf("%d vectors, not 5", len(vectors))
	}
}

// Source: RFC 6962 section 2.1; leaves, roots and paths of transparency-dev/merkle.
func TestMerkleTree(t *testing.T) {
	v := testkit.ReadJSON[hashVectors](t, "testdata/hashes.json").RFC6962
	var hashes []digest
	for i, text := range v.Leaves {
		data, err := hex.DecodeString(text)
		if err != nil {
			t.Fatal(err)
		}
		hashes = append(hashes, leafHash(data))
		if got := hex.EncodeToString(hashes[i][:]); got != v.LeafHashes[i] {
			t.Errorf("leaf %d is %s, published %s", i, got, v.LeafHashes[i])
		}
	}
	for size, want := range v.Roots {
		root := MerkleRoot(hashes[:size])
		if got := hex.EncodeToString(root[:]); got != want {
			t.Errorf("root of %d is %s, published %s", size, got, want)
		}
	}
	for _, c := range v.Inclusion {
		var got []string
		for _, sibling := range inclusionPath(hashes[:c.Size], c.Index) {
			got = append(got, hex.EncodeToString(sibling[:]))
		}
		if strings.Join(got, " ") != strings.Join(c.Path, " ") {
			t.Errorf("path of leaf %d of %d is %v, published %v", c.Index, c.Size, got, c.Path)
		}
	}
	if len(v.Roots) != 9 || len(v.Inclusion) != 5 {
		t.Errorf("%d roots and %d paths, not 9 and 5", len(v.Roots), len(v.Inclusion))
	}
}

// Every leaf of every tree leads to the root by its own path, and by no other leaf's, place or size.
func TestPathsProveTheirLeafOnly(t *testing.T) {
	var hashes []digest
	for i := range 33 {
		hashes = append(hashes, sha256.Sum256([]byte{byte(i)}))
		root, size := MerkleRoot(hashes), len(hashes)
		for place, leaf := range hashes {
			path := inclusionPath(hashes, place)
			if got, err := rootFromPath(leaf, place, size, path); err != nil || got != root {
				t.Fatalf("leaf %d of %d does not lead to the root: %v", place, size, err)
			}
			if got, err := rootFromPath(nodeHash(leaf, leaf), place, size, path); err == nil && got == root {
				t.Fatalf("another leaf passes for leaf %d of %d", place, size)
			}
			for other := range hashes {
				if got, err := rootFromPath(leaf, other, size, path); other != place && err == nil && got == root {
					t.Fatalf("leaf %d of %d passes for leaf %d", place, size, other)
				}
			}
			if got, err := rootFromPath(leaf, place, size, append(path, leaf)); err == nil && got == root {
				t.Fatalf("a path that is too long passes for leaf %d of %d", place, size)
			}
		}
	}
	if _, err := rootFromPath(hashes[0], 5, 5, nil); err == nil {
		t.Error("a place outside the tree passes")
	}
}
