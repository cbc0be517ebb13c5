package policy

import (
	"errors"
	"testing"
)

// Whatever the text, the reader of policies ends. What it refuses it refuses with the place and a remedy; what it takes has
// a name, asks for something in every rule, and is taken again as it is kept.
func FuzzPolicy(f *testing.F) {
	f.Add(string(commonPractice))
	for _, seed := range []string{"name = \"a\"\n[[require]]\nscans = [\"pre\"]\n", "name = 1", "\ufeffname = \"a\"", "name = \"a\"\n[[require]]\nhours = { post_scan = -1 }\n",
		"name = \"a\"\n[[require]]\ndocuments = { photo = 0 }\n", "name = \"a\"\n[[require]]\ninsurer = []\nroad_test = true\n", "[[require]]\n[[require]]\nx", "name = \"a\"\nrequire = 3"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		policy, err := Read("p.toml", []byte(text))
		var wrong *Error
		switch {
		case err != nil && (!errors.As(err, &wrong) || wrong.Detail == "" || wrong.Remedy == ""):
			t.Fatalf("refused without a place and a remedy: %v", err)
		case err != nil:
			return
		case policy.Name == "":
			t.Fatal("a policy without a name was taken")
		}
		again, err := Read("p.toml", policy.Text)
		if err != nil || again.Name != policy.Name || len(again.Rules) != len(policy.Rules) {
			t.Fatalf("as it is kept it is %+v, %v", again, err)
		}
	})
}
