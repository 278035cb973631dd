// Command outlook is husbandry/outlook for a browser: a loop's days to come, told
// from what its phone holds. It is apart from the formulas because only one page
// asks for it, and runs in a worker because it thinks for a second or two;
// clients/web/src/outlook is the other side.
package main

// A reactor has nothing to run: the other side calls what is exported.
func main() {}
