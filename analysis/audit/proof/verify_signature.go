package proof

import (
	"crypto/ed25519"
	"encoding/pem"
	"fmt"
	"os"
	"path/filepath"
)

// checkSignature checks who signed the manifest. The key in the bundle shows only that the signature fits; the one that
// the reader brings shows whose it is.
func (c *checking) checkSignature(signed []byte) error {
	trusted, err := c.trustedKey(ManifestName)
	if err != nil {
		return err
	}
	if c.manifest.Signer == "" {
		c.note("The bundle is not signed: whoever could write these files could write other ones.")
		return nil
	}
	signature, err := os.ReadFile(filepath.Join(c.dir, SignatureName))
	if err != nil {
		return nil // missing, and named already
	}
	text, err := os.ReadFile(filepath.Join(c.dir, SignerName))
	if err != nil {
		text = nil
	}
	block, _ := pem.Decode(text)
	public, err := parsePublic(block)
	if err != nil {
		public = trusted
	}
	c.judgeSignature(signed, signature, public, trusted)
	return nil
}

func (c *checking) judgeSignature(signed, signature []byte, public, trusted ed25519.PublicKey) {
	switch {
	case public == nil:
		c.found(SignerName, "signature", "holds no key, so that the signature cannot be checked")
	case fingerprint(public) != c.manifest.Signer:
		c.found(SignerName, "signature", "is not the key that the manifest names")
	case !ed25519.Verify(public, signed, signature):
		c.found(SignatureName, "signature", "is not this manifest's: one of the two was changed")
	default:
		c.report.Signer = fingerprint(public)
	}
	switch {
	case trusted == nil:
		c.note(fmt.Sprintf("Signed by the key %s. Compare it with what the shop tells you, or name its key with --key.",
			c.manifest.Signer))
	case !trusted.Equal(public):
		c.found(ManifestName, "signature", "was not signed with the key given, %s", fingerprint(trusted))
	default:
		c.report.SignerTrusted = c.report.Signer != ""
	}
}

func (c *checking) note(text string) { c.report.Notices = append(c.report.Notices, text) }

// trustedKey is the key that the reader brings, nil where none was given. A manifest that nobody signed is found then, under
// the name given.
func (c *checking) trustedKey(name string) (ed25519.PublicKey, error) {
	if c.o.Key == "" {
		return nil, nil
	}
	key, err := loadPublic(c.o.Key)
	if err == nil && c.manifest.Signer == "" {
		c.found(name, "signature", "is not signed, so that nothing ties it to the key given")
	}
	return key, err
}
