package proof

import (
	"bytes"
	"crypto/ed25519"
	"crypto/x509"
	"encoding/hex"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"plumbline/analysis/folder"
)

// Source: RFC 8032 section 7.1, tests 1 to 3, written down from memory; that they agree speaks for both. The key goes through a key file, as a shop's does.
func TestSignaturesAreThoseOfRFC8032(t *testing.T) {
	for i, v := range []struct{ seed, public, message, signature string }{
		{"9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
			"d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
			"e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b"},
		{"4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
			"3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "72",
			"92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00"},
		{"c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
			"fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025", "af82",
			"6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a"},
	} {
		path := filepath.Join(t.TempDir(), "shop.key")
		der, err := x509.MarshalPKCS8PrivateKey(ed25519.NewKeyFromSeed(fromHex(t, v.seed)))
		if err != nil {
			t.Fatal(err)
		}
		if err := folder.NewFile(path, pem.EncodeToMemory(&pem.Block{Type: privateBlock, Bytes: der}), 0o600); err != nil {
			t.Fatal(err)
		}
		key, err := LoadKey(path)
		if err != nil {
			t.Fatal(err)
		}
		public, err := loadPublic(path)
		if err != nil || !bytes.Equal(public, fromHex(t, v.public)) {
			t.Errorf("test %d: public key %x, published %s (%v)", i+1, public, v.public, err)
		}
		if got := hex.EncodeToString(ed25519.Sign(key.private, fromHex(t, v.message))); got != v.signature {
			t.Errorf("test %d: signature %s, published %s", i+1, got, v.signature)
		}
	}
}

func TestKeyFilesAreTheOwnersAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.key")
	made := savedKey(t, path)
	info, err := os.Stat(path)
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the key file has mode %v (%v)", info.Mode(), err)
	}
	read, err := LoadKey(path)
	if err != nil || read.Fingerprint() != made.Fingerprint() {
		t.Errorf("the key read is not the key made: %v", err)
	}
	public, err := loadPublic(path + ".pub")
	if err != nil || fingerprint(public) != made.Fingerprint() {
		t.Errorf("the public half is not the key's: %v", err)
	}
	other := newKey(t)
	if err := other.Save(path); !errors.Is(err, fs.ErrExist) {
		t.Errorf("a key that is there is overwritten, or: %v", err)
	}
	for file, want := range map[string]os.FileMode{path: 0o600, path + ".pub": 0o644} {
		if info, err := os.Stat(file); err != nil || info.Mode().Perm() != want {
			t.Errorf("%s has mode %v, want %v: %v", file, info.Mode(), want, err)
		}
	}
	for mode, isTaken := range map[os.FileMode]bool{0o600: true, 0o400: true, 0o640: false, 0o620: false, 0o610: false, 0o604: false, 0o602: false, 0o601: false} {
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
		_, err := LoadKey(path)
		if isOthers := err != nil && strings.Contains(err.Error(), fmt.Sprintf("can be read by others (mode %04o)", mode)); isTaken != (err == nil) || isTaken == isOthers {
			t.Errorf("a key of mode %04o: %v", mode, err)
		}
	}
}

// savedKey makes a key and its file.
func savedKey(t *testing.T, path string) *Key {
	t.Helper()
	key := newKey(t)
	if err := key.Save(path); err != nil {
		t.Fatal(err)
	}
	return key
}

// A key whose public half cannot be written is none: the next try would find it and never hand out the half.
func TestHalfAKeyIsNotKept(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.key")
	if err := os.WriteFile(path+".pub", []byte("of an older key"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := newKey(t).Save(path); !errors.Is(err, fs.ErrExist) {
		t.Errorf("%v", err)
	}
	if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the private half is left (%v)", err)
	}
	if text, err := os.ReadFile(path + ".pub"); err != nil || string(text) != "of an older key" {
		t.Errorf("the older public half is %q (%v)", text, err)
	}
}

func fromHex(t *testing.T, text string) []byte {
	t.Helper()
	data, err := hex.DecodeString(text)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func newKey(t *testing.T) *Key {
	t.Helper()
	key, err := NewKey()
	if err != nil {
		t.Fatal(err)
	}
	return key
}
