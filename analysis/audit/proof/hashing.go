package proof

import (
	"crypto/sha256"
	"encoding/hex"
	"hash"
	"io"
)

// hashing is a writer that hashes and counts what passes through.
type hashing struct {
	to     io.Writer
	digest hash.Hash
	bytes  int64
}

func NewHashing(to io.Writer) *hashing { return &hashing{to: to, digest: sha256.New()} }

func (h *hashing) Write(p []byte) (int, error) {
	n, err := h.to.Write(p)
	h.digest.Write(p[:n])
	h.bytes += int64(n)
	return n, err
}

func (h *hashing) Hex() string { return hex.EncodeToString(h.digest.Sum(nil)) }
