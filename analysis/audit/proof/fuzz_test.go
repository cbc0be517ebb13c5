package proof

import (
	"bytes"
	"testing"
)

// Whatever the text, the reader of manifests ends; one in canonical form is written again to the byte, and any other
// spelling of the same is told as such.
func FuzzManifest(f *testing.F) {
	plain, err := (&Manifest{Format: ManifestFormat}).Encode()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(plain)
	f.Add(append(bytes.Clone(plain), ' '))
	for _, seed := range []string{"", "{}", "null", `{"format":1,"format":2}`, `{"format":1}{"format":1}`, `[1`, `{"Format":1}`, `{"format":1e0}`} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		m, canonical, err := DecodeManifest(text)
		if err != nil {
			return
		}
		again, err := m.Encode()
		if err != nil || canonical != bytes.Equal(again, text) {
			t.Fatalf("canonical: %v, written again %q, %v", canonical, again, err)
		}
	})
}
