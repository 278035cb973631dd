package device

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/photofile"
)

// ErrPhotoSize says that a file is too large to be kept.
var ErrPhotoSize = fmt.Errorf("a picture is at most %d MB", photofile.MaxBytes/1_000_000)

// KeepPhoto keeps a picture under its hash in the device's folder, synced to
// the disk, and gives what its entry says of it. What the camera wrote beside
// the picture, such as the place, is taken off first; one that was held askew
// is turned. Errors are those of photofile, ErrPhotoSize, or the disk's.
func (d *Device) KeepPhoto(picture []byte) (*freshetv1.Photo, error) {
	if len(picture) > photofile.MaxBytes {
		return nil, ErrPhotoSize
	}
	picture, facts, err := photofile.Strip(picture)
	if err != nil {
		return nil, err
	}
	drawn, err := decode(picture)
	if err != nil {
		return nil, photofile.ErrKind
	}
	if facts.Turned > 1 {
		drawn = turned(drawn, facts.Turned)
		if picture, err = encodeJPEG(drawn, turnedQuality); err != nil {
			return nil, err
		}
		facts.MediaType = "image/jpeg"
	}
	small, err := thumbnail(drawn)
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256(picture)
	if err := d.writePhoto(thumbnailName(sum[:]), small); err != nil {
		return nil, err
	}
	return &freshetv1.Photo{Sha256: sum[:], SizeBytes: uint64(len(picture)), MediaType: facts.MediaType},
		d.writePhoto(photoName(sum[:]), picture)
}

// Names are hashes only: nothing that anybody typed or sent becomes a path.
func photoName(sum []byte) string     { return hex.EncodeToString(sum) }
func thumbnailName(sum []byte) string { return photoName(sum) + ".small.jpg" }

func (d *Device) photoPath(name string) string { return filepath.Join(d.dir, "photos", name) }

func (d *Device) writePhoto(name string, content []byte) error {
	path := d.photoPath(name)
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	return d.replace(path, content)
}

// PhotoPath is where a photo's file is on this device; it is fetched from the
// cooperative where it is not there yet, from where an earlier try was cut.
// Trouble where it cannot be had now.
func (d *Device) PhotoPath(ctx context.Context, siteID string, photo *freshetv1.Photo) (string, error) {
	if len(photo.GetSha256()) != sha256.Size {
		return "", ErrUnknownEntry
	}
	path := d.photoPath(photoName(photo.GetSha256()))
	if _, err := os.Stat(path); err == nil {
		return path, nil
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return "", err
	}
	if err := d.fetchPhoto(ctx, siteID, photo, path+".part"); err != nil {
		return "", understand(err)
	}
	return path, os.Rename(path+".part", path)
}

// fetchPhoto brings a file whole, and proves it the one that was named.
func (d *Device) fetchPhoto(ctx context.Context, siteID string, photo *freshetv1.Photo, part string) (err error) {
	connection, err := d.Connection(ctx)
	if err != nil {
		return err
	}
	f, err := os.OpenFile(part, os.O_CREATE|os.O_RDWR, 0o600) // #nosec G304 -- the device's own folder
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	begun, err := f.Stat()
	if err != nil {
		return err
	}
	calls := freshetv1.NewPhotoServiceClient(connection)
	for n := int(begun.Size() / photofile.ChunkBytes); n < photofile.Chunks(int64(photo.GetSizeBytes())); n++ {
		chunk, err := calls.GetPhotoChunk(ctx, &freshetv1.GetPhotoChunkRequest{SiteId: siteID, Sha256: photo.GetSha256(), Number: uint32(n)})
		if err != nil {
			return err
		}
		if sum := sha256.Sum256(chunk.GetData()); !bytes.Equal(sum[:], chunk.GetDataSha256()) {
			return &Trouble{Words: "a piece of the picture changed on its way", Hint: "it is fetched again", NoSignal: true}
		}
		if _, err := f.WriteAt(chunk.GetData(), int64(n)*photofile.ChunkBytes); err != nil {
			return err
		}
	}
	return errors.Join(d.provePhoto(photo, part), f.Sync())
}

func (d *Device) provePhoto(photo *freshetv1.Photo, part string) error {
	whole, err := os.ReadFile(part) // #nosec G304 -- the device's own folder
	if err != nil {
		return err
	}
	if sum := sha256.Sum256(whole); bytes.Equal(sum[:], photo.GetSha256()) {
		return nil
	}
	return errors.Join(&Trouble{Words: "the picture that came is not the one that was noted", Reason: "PHOTO_DIFFERS", Hint: "it is fetched from the start when it is asked for again"}, os.Remove(part))
}

// PhotoFile is how a photo that was noted on this device stands.
type PhotoFile struct {
	SHA256  []byte
	Arrived bool   // the cooperative has the file whole, by its hash
	Trouble string // why it does not, where it refused it; in words
}

// PhotoFiles lists the photos noted on this device, in their order.
func (d *Device) PhotoFiles(ctx context.Context) (list []PhotoFile, err error) {
	return list, each(ctx, d.db, `SELECT sha256, arrived, trouble FROM photo_files ORDER BY number, sha256`, nil, func(scan func(...any) error) error {
		var f PhotoFile
		err := scan(&f.SHA256, &f.Arrived, &f.Trouble)
		list = append(list, f)
		return err
	})
}

// photoOf is the photo that an operation names: its own, or the one that a
// correction puts in another's place.
func photoOf(op *freshetv1.Operation) *freshetv1.Photo {
	if photo := op.GetEvent().GetPhoto(); photo != nil {
		return photo
	}
	return op.GetEvent().GetCorrection().GetReplacement().GetPhoto()
}

// oweFile notes that the file of a photo that was just noted is to be sent.
func (t *Draft) oweFile(op *freshetv1.Operation) error {
	photo := photoOf(op)
	if photo == nil {
		return nil
	}
	_, err := t.tx.ExecContext(t.ctx, `INSERT INTO photo_files (sha256, site_id, number) VALUES (?1, ?2, ?3)
		ON CONFLICT DO UPDATE SET number = ?3, arrived = 0, trouble = ''`, photo.GetSha256(), op.GetEvent().GetSiteId(), int64(op.GetNumber()))
	return err
}
