package proof

import (
	"crypto/ed25519"
	"crypto/sha256"
	"crypto/x509"
	"encoding/hex"
	"encoding/pem"
	"errors"
	"fmt"
	"os"
	"runtime"

	"plumbline/analysis/folder"
)

// A Key is a shop's own: it signs bundles and keys their masks. It is Ed25519 (RFC 8032), kept as PKCS #8 in PEM, the
// form that common tools read.
type Key struct {
	private ed25519.PrivateKey
}

const (
	privateBlock = "PRIVATE KEY"
	publicBlock  = "PUBLIC KEY"
)

// NewKey makes a new key. It is nowhere but in memory until Save writes it.
func NewKey() (*Key, error) {
	_, private, err := ed25519.GenerateKey(nil)
	if err != nil {
		return nil, fmt.Errorf("key: %w", err)
	}
	return &Key{private}, nil
}

// Save writes the key to a file that only its owner can read, and the public half beside it with the ending .pub, for the
// insurer. A file that is there already is an error: a key that is overwritten is lost. On an error neither is written.
func (k *Key) Save(path string) error {
	secret, err := x509.MarshalPKCS8PrivateKey(k.private)
	if err != nil {
		return fmt.Errorf("key: %w", err)
	}
	public, err := k.PublicPEM()
	if err != nil {
		return err
	}
	if err := folder.NewFile(path, pem.EncodeToMemory(&pem.Block{Type: privateBlock, Bytes: secret}), 0o600); err != nil {
		return fmt.Errorf("key: %w", err)
	}
	if err := folder.NewFile(path+".pub", public, 0o644); err != nil {
		return errors.Join(fmt.Errorf("public key: %w", err), os.Remove(path))
	}
	return nil
}

// RemoveKey takes a key that Save wrote away again.
func RemoveKey(path string) error { return errors.Join(os.Remove(path), os.Remove(path+".pub")) }

// LoadKey reads a key file. A file that others can read is refused: its signatures prove nothing. A missing file is an
// error that wraps os.ErrNotExist.
func LoadKey(path string) (*Key, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, fmt.Errorf("key: %w", err)
	}
	if runtime.GOOS != "windows" && info.Mode().Perm()&0o077 != 0 {
		return nil, fmt.Errorf("key: %s can be read by others (mode %04o); make it yours alone (chmod 600), "+
			"or make a new key if it was open for long", path, info.Mode().Perm())
	}
	block, err := readPEM(path)
	if err != nil {
		return nil, err
	}
	parsed, err := x509.ParsePKCS8PrivateKey(block.Bytes)
	private, isEd25519 := parsed.(ed25519.PrivateKey)
	if err != nil || !isEd25519 {
		return nil, fmt.Errorf("key: %s is not an Ed25519 private key", path)
	}
	return &Key{private}, nil
}

func readPEM(path string) (*pem.Block, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("key: %w", err)
	}
	block, _ := pem.Decode(text)
	if block == nil {
		return nil, fmt.Errorf("key: %s is not a key file (it begins with no -----BEGIN line)", path)
	}
	return block, nil
}

// loadPublic reads the public half from a .pub file, or from the key file itself.
func loadPublic(path string) (ed25519.PublicKey, error) {
	block, err := readPEM(path)
	if err != nil {
		return nil, err
	}
	if block.Type == privateBlock {
		key, err := LoadKey(path)
		if err != nil {
			return nil, err
		}
		return key.private.Public().(ed25519.PublicKey), nil
	}
	public, err := parsePublic(block)
	if err != nil {
		return nil, fmt.Errorf("key: %s: %w", path, err)
	}
	return public, nil
}

func parsePublic(block *pem.Block) (ed25519.PublicKey, error) {
	if block == nil {
		return nil, errors.New("not a key file")
	}
	parsed, err := x509.ParsePKIXPublicKey(block.Bytes)
	public, isEd25519 := parsed.(ed25519.PublicKey)
	if err != nil || !isEd25519 {
		return nil, errors.New("not an Ed25519 public key")
	}
	return public, nil
}

func (k *Key) PublicPEM() ([]byte, error) {
	public, err := x509.MarshalPKIXPublicKey(k.private.Public())
	if err != nil {
		return nil, fmt.Errorf("key: %w", err)
	}
	return pem.EncodeToMemory(&pem.Block{Type: publicBlock, Bytes: public}), nil
}

// Seed is the secret that masks are keyed with; nil without a key.
func (k *Key) Seed() []byte {
	if k == nil {
		return nil
	}
	return k.private.Seed()
}

// Sign signs a text.
func (k *Key) Sign(text []byte) []byte { return ed25519.Sign(k.private, text) }

// Fingerprint names the key in a form short enough to be read out: SHA-256 of the public half, hexadecimal.
func (k *Key) Fingerprint() string { return fingerprint(k.private.Public().(ed25519.PublicKey)) }

func fingerprint(public ed25519.PublicKey) string {
	digest := sha256.Sum256(public)
	return hex.EncodeToString(digest[:])
}
