package device

import "testing"

// The field of the contract is said as a person says it.
func TestAFieldIsSaidByItsName(t *testing.T) {
	for _, c := range []struct{ field, message, want string }{
		{"site_id", "site_id: it is another member's", "the site is another member's"},
		{"event.feeding.feed_id", "event.feeding.feed_id: nobody knows it", "the feed: nobody knows it"},
		{"bed_ids", "bed_ids: names no bed", "the bed: names no bed"},
		{"", "site_id: it is", "site_id: it is"},
		{"site_id", "it is not said", "it is not said"},
	} {
		if got := (&Trouble{Field: c.field, Words: c.message}).named(); got != c.want {
			t.Errorf("%s, not %s", got, c.want)
		}
	}
}
