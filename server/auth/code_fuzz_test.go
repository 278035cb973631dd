package auth

import (
	"bytes"
	"strings"
	"testing"
)

// Whatever is typed is no code, or one that may be typed with more hyphens and
// spaces, and in small letters, and is the same.
func FuzzCode(f *testing.F) {
	for _, typed := range []string{"7QK2-M9XR-04TB", "7qk2m9xr04tb", "OIL1 oil1 UVUV", "7QK2-M9XR-04T", "7QK2-M9XR-04Tß", "ſſſſſſſſſſſſ", "", "\x00\xff", strings.Repeat("-", 200)} {
		f.Add(typed)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		hash, ok := CodeHash(typed)
		if !ok {
			return
		}
		for _, again := range []string{"-" + typed[:len(typed)/2] + typed[len(typed)/2:] + " ", strings.ToLower(strings.ToUpper(typed))} {
			if same, ok := CodeHash(again); len(again) <= 10*codeLength && (!ok || !bytes.Equal(same, hash)) {
				t.Errorf("%q is a code and %q is not the same", typed, again)
			}
		}
	})
}
