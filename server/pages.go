package server

import (
	"bytes"
	"compress/flate"
	"io"
	"sync"

	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store"
)

// schemaOfPages is the first whose devices read pages many in a step.
const schemaOfPages = 2

// stepBytes is about what one step of pages holds, before it is packed: enough
// to pack well, and little to lose where a line breaks.
const stepBytes = 32 << 10

// stepOf is how many of the pages go into the next step.
func stepOf(pages []store.Page) int {
	bytes := 0
	for i, page := range pages {
		if bytes += len(page.Block); bytes >= stepBytes {
			return i + 1
		}
	}
	return len(pages)
}

// packFrom is the fewest bytes that are worth packing.
const packFrom = 256

// A packer has more memory than most of what it packs.
var packers = sync.Pool{New: func() any {
	w, _ := flate.NewWriter(io.Discard, flate.DefaultCompression) // the level is one there is
	return w
}}

// pack packs a step's blocks where that makes it shorter.
func pack(step *freshetv1.Pages) error {
	plain, err := proto.Marshal(&freshetv1.Pages{Blocks: step.GetBlocks()})
	if err != nil || len(plain) < packFrom {
		return err
	}
	var out bytes.Buffer
	w := packers.Get().(*flate.Writer) //nolint:forcetypeassert // the pool holds nothing else
	defer packers.Put(w)
	w.Reset(&out)
	if _, err := w.Write(plain); err != nil {
		return err
	}
	if err := w.Close(); err != nil {
		return err
	}
	if out.Len() < len(plain) {
		step.Blocks, step.Packed = nil, out.Bytes()
	}
	return nil
}
