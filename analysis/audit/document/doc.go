// Package document looks listed documents up in the shop's folder and copies them into a bundle.
package document
