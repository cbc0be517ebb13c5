package mask

import (
	"encoding/hex"
	"strings"
	"testing"
)

// Source: RFC 4231 section 4, test cases 1, 2, 3 and 6, written down from memory; that they agree speaks for both.
func TestMaskHashIsThatOfRFC4231(t *testing.T) {
	for i, v := range []struct{ key, data, want string }{
		{strings.Repeat("\x0b", 20), "Hi There", "b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7"},
		{"Jefe", "what do ya want for nothing?", "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843"},
		{strings.Repeat("\xaa", 20), strings.Repeat("\xdd", 50), "773ea91e36800e46854db8ebd09181a72959098b3ef8c122d9635514ced565fe"},
		{strings.Repeat("\xaa", 131), "Test Using Larger Than Block-Size Key - Hash Key First",
			"60e431591ee0b67f0d8a26aacbf5b77f8e0bc6213728c5140546040f0ee37f54"},
	} {
		if got := hex.EncodeToString(sum([]byte(v.key), v.data)); got != v.want {
			t.Errorf("case %d: %s, published %s", i+1, got, v.want)
		}
	}
}
