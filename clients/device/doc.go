// Package device is one grower's device: everything a person can note with no
// network, kept until the cooperative has it, and a copy of the cooperative's
// records to read from.
//
// A device is a folder: one SQLite file, a key and a token. In the file stand an
// outbox (operations with running numbers, packed as they will be sent), a
// replica (what the server sent, scope by scope, with the cursor of each scope
// committed beside its rows) and the outcomes of operations that the server
// refused or holds. What a person reads is the replica with their own entries
// laid over it until the server's echo of them has arrived.
//
//	dev, err := device.Open(dir)
//	err = dev.Join(ctx, device.Invitation{Code: "....", Address: "localhost:7420"})
//	ids, err := dev.Note(ctx, event)
//	_, err = dev.Sync(ctx)
//	fmt.Println(dev.Status(ctx))
//
// What a client promises is written in clients/README.md.
package device
