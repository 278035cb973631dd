package main

import (
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"freshet.example/api/photofile"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
)

// keepPhoto keeps a picture in the device's folder, and puts what the entry
// says of it in place of the file's name. The file travels after the entry.
func keepPhoto(a *app, typed words.Typed) (words.Typed, error) {
	if len(typed.Words) != 1 {
		return typed, wrong("a photo needs its file", `write it like photo bed.jpg caption="Raft 1"`)
	}
	picture, err := os.ReadFile(typed.Words[0]) //nolint:gosec // the person names the file
	if errors.Is(err, fs.ErrNotExist) {
		return typed, wrong("there is no file "+typed.Words[0], `write it like photo bed.jpg caption="Raft 1"`)
	}
	if err != nil {
		return typed, err
	}
	dev, err := a.device()
	if err != nil {
		return typed, err
	}
	photo, err := dev.KeepPhoto(picture)
	switch {
	case errors.Is(err, photofile.ErrKind):
		return typed, wrong(typed.Words[0]+" is no JPEG, PNG or WebP picture", "give the picture as one of these")
	case errors.Is(err, photofile.ErrLarge), errors.Is(err, device.ErrPhotoSize):
		return typed, wrong(typed.Words[0]+": "+err.Error(), "give a smaller picture")
	case err != nil:
		return typed, err
	}
	typed.Words = nil
	typed.Photo = words.Photo{SHA256: photo.GetSha256(), Bytes: photo.GetSizeBytes(), MediaType: photo.GetMediaType()}
	return typed, nil
}

func photoCommand(a *app) *cobra.Command {
	var into string
	c := &cobra.Command{
		Use:   "photo [ENTRY]",
		Short: "How photos stand; with an entry, fetch its picture",
		Long: "Say which photos noted here have arrived at the co-op, and which wait. They are sent by freshet sync,\n" +
			"after all entries; a small picture goes first. With the entry of a photo, anybody's, its picture is\n" +
			"fetched to this device, where an earlier try was cut from there on, and its file named.\n" +
			"A photo is noted with freshet note photo FILE; where it was taken is not kept in it.",
		Example: example("freshet photo", "freshet photo 8k2", "freshet photo 8k2 --into raft.jpg"),
		Args:    arguments(0, 1, ""),
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return tellPhotos(c.Context(), a)
			}
			return fetchPhoto(c.Context(), a, args[0], into)
		},
	}
	c.Flags().StringVar(&into, "into", "", "copy the picture to this file")
	return c
}

func tellPhotos(ctx context.Context, a *app) error {
	dev, err := a.device()
	if err != nil {
		return err
	}
	files, err := dev.PhotoFiles(ctx)
	if err != nil {
		return err
	}
	if a.json {
		shown := make([]map[string]any, 0, len(files))
		for _, f := range files {
			shown = append(shown, map[string]any{"sha256": hex.EncodeToString(f.SHA256), "arrived": f.Arrived, "trouble": f.Trouble})
		}
		return printJSON(a.out, shown)
	}
	p := a.page()
	if len(files) == 0 {
		p.Say("No photo was noted on this device.")
		return p.Err()
	}
	p.Say(photosStand(files) + ".")
	if err := sayPhotoTroubles(ctx, a, p, files); err != nil {
		return err
	}
	return p.Err()
}

// photosStand is "3 photos wait, 2 arrived".
func photosStand(files []device.PhotoFile) string {
	arrived := 0
	for _, f := range files {
		if f.Arrived {
			arrived++
		}
	}
	waiting := len(files) - arrived
	switch {
	case waiting == 0 && arrived == 1:
		return "The photo has arrived"
	case waiting == 0:
		return fmt.Sprintf("All %d photos have arrived", arrived)
	case arrived == 0:
		return many(waiting, "photo waits", "photos wait") + "; freshet sync sends them after all entries"
	}
	return fmt.Sprintf("%s, %d arrived", many(waiting, "photo waits", "photos wait"), arrived)
}

// sayPhotoTroubles says which were not taken, and why.
func sayPhotoTroubles(ctx context.Context, a *app, p *page.Page, files []device.PhotoFile) error {
	files = slices.DeleteFunc(files, func(f device.PhotoFile) bool { return f.Arrived || f.Trouble == "" })
	if len(files) == 0 {
		return nil
	}
	desk, err := a.desk(ctx)
	if err != nil {
		return err
	}
	entries, err := a.dev.Entries(ctx, device.Want{Kinds: []string{"photo"}})
	if err != nil {
		return err
	}
	p.Gap()
	for _, f := range files {
		name := "a photo that was taken back"
		if at := slices.IndexFunc(entries, func(e device.Entry) bool { return string(e.Event.GetPhoto().GetSha256()) == string(f.SHA256) }); at >= 0 {
			name = a.dev.Short(entries[at].ID) + " " + page.Clean(desk.Book.Say(entries[at].Event))
		}
		p.Item("!", name+": "+page.Clean(f.Trouble))
	}
	return nil
}

func fetchPhoto(ctx context.Context, a *app, short, into string) error {
	dev, err := a.device()
	if err != nil {
		return err
	}
	e, err := findEntry(ctx, dev, short)
	if err != nil {
		return err
	}
	photo := e.Event.GetPhoto()
	if photo == nil {
		return wrong(short+" is no photo", "freshet show photos lists them")
	}
	path, err := dev.PhotoPath(ctx, e.Event.GetSiteId(), photo)
	if err != nil {
		return err
	}
	if into != "" {
		err := copyPicture(path, into)
		if errors.Is(err, os.ErrExist) {
			return wrong(filepath.Base(into)+" is there already", "name another file")
		}
		if err != nil {
			return err
		}
		path = into
	}
	if a.json {
		return printJSON(a.out, map[string]string{"file": path, "media_type": photo.GetMediaType()})
	}
	p := a.page()
	p.Say("The picture is in " + path)
	return p.Err()
}

// copyPicture writes a picture where the person wants it, over nothing.
func copyPicture(path, into string) error {
	picture, err := os.ReadFile(path) // #nosec G304 -- the device's own folder
	if err != nil {
		return err
	}
	f, err := os.OpenFile(into, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600) // #nosec G304 -- the person names it, or a folder made just now holds it
	if err != nil {
		return err
	}
	_, err = f.Write(picture)
	return errors.Join(err, f.Close())
}
