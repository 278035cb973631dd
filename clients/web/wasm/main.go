// Command wasm is husbandry for a browser: the formulas by name, answering
// without a network from the same source as everywhere. Only numbers and bytes
// cross over; clients/web/src/husbandry is the other side.
//
// It keeps fmt, encoding/json and protobuf out: they would double its size.
package main

// A reactor has nothing to run: the other side calls what exports.go exports.
func main() {}
