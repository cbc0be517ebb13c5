package proof

import (
	"crypto/sha256"
	"errors"
	"math/bits"
)

// A Merkle tree by RFC 6962 section 2.1, with SHA-256:
//
//	leaf(d)      = SHA-256(0x00 || d)
//	node(l, r)   = SHA-256(0x01 || l || r)
//	root of none = SHA-256 of nothing
//	root of n    = node(root of the first k, root of the rest), k the largest power of two below n
//
// The two prefixes keep a leaf from being passed off as a node.
type digest = [sha256.Size]byte

const (
	leafPrefix = 0x00
	nodePrefix = 0x01
)

func leafHash(data []byte) digest { return sha256.Sum256(append([]byte{leafPrefix}, data...)) }

func nodeHash(left, right digest) digest {
	var both [1 + 2*sha256.Size]byte
	both[0] = nodePrefix
	copy(both[1:], left[:])
	copy(both[1+sha256.Size:], right[:])
	return sha256.Sum256(both[:])
}

// MerkleRoot is the root over leaf hashes.
func MerkleRoot(leaves []digest) digest {
	switch len(leaves) {
	case 0:
		return sha256.Sum256(nil)
	case 1:
		return leaves[0]
	}
	k := split(len(leaves))
	return nodeHash(MerkleRoot(leaves[:k]), MerkleRoot(leaves[k:]))
}

// split is the largest power of two below n, n at least 2.
func split(n int) int { return 1 << (bits.Len(uint(n-1)) - 1) }

// inclusionPath is the audit path of the leaf at index: the hashes that lead from it to the root, nearest first.
// Source: RFC 6962 section 2.1.1.
func inclusionPath(leaves []digest, index int) []digest {
	if len(leaves) <= 1 {
		return nil
	}
	k := split(len(leaves))
	if index < k {
		return append(inclusionPath(leaves[:k], index), MerkleRoot(leaves[k:]))
	}
	return append(inclusionPath(leaves[k:], index-k), MerkleRoot(leaves[:k]))
}

var errPath = errors.New("the path does not fit the place of the record")

// rootFromPath is the root that a leaf, its place and its path lead to.
// Source: RFC 9162 section 2.1.3.2, which spells out the check that RFC 6962 leaves to the reader.
func rootFromPath(leaf digest, index, size int, path []digest) (digest, error) {
	if index < 0 || index >= size {
		return digest{}, errPath
	}
	fn, sn, root := index, size-1, leaf
	for _, sibling := range path {
		if sn == 0 {
			return digest{}, errPath
		}
		if fn&1 == 1 || fn == sn {
			root = nodeHash(sibling, root)
			for fn&1 == 0 && fn != 0 {
				fn, sn = fn>>1, sn>>1
			}
		} else {
			root = nodeHash(root, sibling)
		}
		fn, sn = fn>>1, sn>>1
	}
	if sn != 0 {
		return digest{}, errPath
	}
	return root, nil
}
