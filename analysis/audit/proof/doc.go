// Package proof shows that a bundle, or the record of one job in it, is untouched: hashes, Merkle tree, manifest and signature,
// and the check of all of them. Checking reads nothing but the bundle.
package proof
