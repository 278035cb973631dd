package wire

import "fmt"

// RenewalNonceBytes is the length of a renewal's nonce.
const RenewalNonceBytes = 16

// Renewal is what a device signs for another token, as RenewTokenRequest
// describes it: to one cooperative, at one moment by the server's clock,
// milliseconds since 1970 UTC, and once, by the nonce.
func Renewal(cooperative, device string, atMs int64, nonce []byte) []byte {
	return fmt.Appendf(nil, "freshet renew 1\n%s\n%s\n%d\n%x\n", cooperative, device, atMs, nonce)
}
