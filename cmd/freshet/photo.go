package main

import (
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"os"
	"path/filepath"

	"freshet.example/cmd/freshet/words"
)

// largestPhoto is the contract's limit, bytes.
const largestPhoto = 50_000_000

// keepPhoto copies a picture into the device's folder under its hash, and puts
// what the entry says of it in place of the file's name. The picture itself
// travels apart from the entry.
func keepPhoto(a *app, typed words.Typed) (words.Typed, error) {
	if len(typed.Words) != 1 {
		return typed, wrong("a photo needs its file", `write it like photo bed.jpg caption="Raft 1"`)
	}
	picture, err := os.ReadFile(typed.Words[0]) //nolint:gosec // the person names the file
	if err != nil {
		return typed, err
	}
	kind := http.DetectContentType(picture)
	if kind != "image/jpeg" && kind != "image/png" && kind != "image/webp" {
		return typed, wrong(typed.Words[0]+" is no JPEG, PNG or WebP picture", "give the picture as one of these")
	}
	if len(picture) > largestPhoto {
		return typed, wrong(typed.Words[0]+" is larger than 50 MB", "give a smaller picture")
	}
	dev, err := a.device()
	if err != nil {
		return typed, err
	}
	sum := sha256.Sum256(picture)
	folder := filepath.Join(dev.Dir(), "photos")
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return typed, err
	}
	typed.Words = nil
	typed.Photo = words.Photo{SHA256: sum[:], Bytes: uint64(len(picture)), MediaType: kind}
	return typed, os.WriteFile(filepath.Join(folder, hex.EncodeToString(sum[:])), picture, 0o600) //nolint:gosec // the name is a hash
}
