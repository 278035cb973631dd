package device

import (
	"context"
	"crypto/sha256"
	"errors"
	"io"
	"os"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/photofile"
)

// An owed file is one of a photo whose entry the cooperative has, and whose
// file it lacks for all this device knows.
type owed struct {
	site string
	sum  []byte
	has  *freshetv1.PhotoFile
}

// sendPhotos sends the files of photos, once no entry waits: first what is
// small of all, then each whole. An entry that is noted meanwhile goes first. A
// file that the cooperative refuses is shown with why, and tried again with the
// next contact; it holds up nothing.
func (d *Device) sendPhotos(ctx context.Context, p *Progress) error {
	connection, err := d.Connection(ctx)
	if err != nil {
		return err
	}
	s := &photoSender{Device: d, calls: freshetv1.NewPhotoServiceClient(connection), progress: p}
	files, err := s.lacking(ctx)
	if status.Code(err) == codes.Unimplemented { // a server of an earlier release
		return nil
	}
	if err != nil {
		return err
	}
	for _, send := range []func(context.Context, owed) error{s.small, s.whole} {
		for _, file := range files {
			if err := s.settled(ctx, file, send(ctx, file)); err != nil {
				return err
			}
		}
	}
	return nil
}

type photoSender struct {
	*Device
	calls    freshetv1.PhotoServiceClient
	progress *Progress
}

// maxAsked files are asked about at once, as the contract says.
const maxAsked = 100

// lacking asks which of the files that are owed the cooperative lacks.
func (s *photoSender) lacking(ctx context.Context) ([]owed, error) {
	bySite := map[string][][]byte{}
	err := each(ctx, s.db, `SELECT site_id, sha256 FROM photo_files WHERE arrived = 0
		AND number <= (SELECT COALESCE((SELECT value FROM facts WHERE name = ?), 0) + 0)
		AND number NOT IN (SELECT number FROM outcomes) ORDER BY number`, []any{factThrough}, func(scan func(...any) error) error {
		var site string
		var sum []byte
		err := scan(&site, &sum)
		bySite[site] = append(bySite[site], sum)
		return err
	})
	if err != nil {
		return nil, err
	}
	var files []owed
	for site, sums := range bySite {
		for len(sums) > 0 {
			asked := sums[:min(len(sums), maxAsked)]
			sums = sums[len(asked):]
			found, err := s.calls.FindPhotoFiles(ctx, &freshetv1.FindPhotoFilesRequest{SiteId: site, Sha256: asked})
			if err != nil {
				return nil, err
			}
			if files, err = s.sort(ctx, site, asked, found.GetFiles(), files); err != nil {
				return nil, err
			}
		}
	}
	return files, nil
}

// sort adds those that are to be sent. One that no photo names any more, since
// it was voided, is not owed.
func (s *photoSender) sort(ctx context.Context, site string, asked [][]byte, found []*freshetv1.PhotoFile, files []owed) ([]owed, error) {
	named := map[string]*freshetv1.PhotoFile{}
	for _, file := range found {
		named[string(file.GetSha256())] = file
	}
	for _, sum := range asked {
		has := named[string(sum)]
		var err error
		switch {
		case has == nil:
			_, err = s.db.ExecContext(ctx, `DELETE FROM photo_files WHERE sha256 = ?`, sum)
		case has.GetWhole():
			err = s.arrived(ctx, sum)
		default:
			files = append(files, owed{site, sum, has})
		}
		if err != nil {
			return nil, err
		}
	}
	return files, nil
}

func (s *photoSender) arrived(ctx context.Context, sum []byte) error {
	s.progress.Photos++
	_, err := s.db.ExecContext(ctx, `UPDATE photo_files SET arrived = 1, trouble = '' WHERE sha256 = ?`, sum)
	return err
}

// settled keeps why a file was not taken. What the network or the disk says
// ends the sending.
func (s *photoSender) settled(ctx context.Context, file owed, err error) error {
	if errors.Is(err, os.ErrNotExist) {
		err = &Trouble{Words: "the picture is no longer on this device", Reason: "PHOTO_GONE"}
	}
	var t *Trouble
	if !errors.As(understand(err), &t) || t.NoSignal || t.Reason == "" {
		return err
	}
	_, err = s.db.ExecContext(ctx, `UPDATE photo_files SET trouble = ? WHERE sha256 = ?`, t.Error(), file.sum)
	return err
}

// small sends the small picture, where there is one.
func (s *photoSender) small(ctx context.Context, file owed) error {
	jpeg, err := os.ReadFile(s.photoPath(thumbnailName(file.sum)))
	if file.has.GetHasThumbnail() || errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	_, err = s.calls.PutPhotoThumbnail(ctx, &freshetv1.PutPhotoThumbnailRequest{SiteId: file.site, Sha256: file.sum, Jpeg: jpeg})
	return err
}

// whole sends what the cooperative lacks of the file, from where it was cut.
func (s *photoSender) whole(ctx context.Context, file owed) error {
	f, err := os.Open(s.photoPath(photoName(file.sum)))
	if err != nil {
		return err
	}
	defer f.Close() //nolint:errcheck // it was only read
	for has := file.has; !has.GetWhole(); {
		if err := s.entriesFirst(ctx); err != nil {
			return err
		}
		if has, err = s.chunk(ctx, file, f, int(has.GetNextChunk())); err != nil {
			return err
		}
		s.progress.PhotoChunks++
	}
	return s.arrived(ctx, file.sum)
}

func (s *photoSender) chunk(ctx context.Context, file owed, f io.ReaderAt, number int) (*freshetv1.PhotoFile, error) {
	data := make([]byte, photofile.ChunkLength(int64(file.has.GetSizeBytes()), number))
	if _, err := f.ReadAt(data, int64(number)*photofile.ChunkBytes); err != nil && !errors.Is(err, io.EOF) {
		return nil, err
	}
	sum := sha256.Sum256(data)
	answer, err := s.calls.PutPhotoChunk(ctx, &freshetv1.PutPhotoChunkRequest{SiteId: file.site, Sha256: file.sum, Number: uint32(number), Data: data, DataSha256: sum[:]})
	return answer.GetFile(), err
}

// entriesFirst sends what was noted while files were on their way.
func (s *photoSender) entriesFirst(ctx context.Context) error {
	waiting, err := s.waitingCount(ctx)
	if err != nil || waiting == 0 {
		return err
	}
	again := false
	return s.push(ctx, s.progress, &again)
}

// lookAgain lets the files be asked about anew: a server that was restored may
// have lost some.
func lookAgain(ctx context.Context, q queryer, h *freshetv1.HelloResponse) error {
	epoch, err := factNumber(ctx, q, factEpoch)
	if err != nil || uint64(epoch) == h.GetEpoch() {
		return err
	}
	if _, err := q.ExecContext(ctx, `UPDATE photo_files SET arrived = 0`); err != nil {
		return err
	}
	return keepNumber(ctx, q, factEpoch, int64(h.GetEpoch()))
}
