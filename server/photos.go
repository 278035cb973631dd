package server

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/photofile"
	"freshet.example/store"
)

// Room for files of photos, where whoever keeps the server says nothing: some
// three thousand pictures of the app a member, and four members' at a site.
const (
	memberPhotoBytes = 1_000_000_000
	sitePhotoBytes   = 4_000_000_000
	// Files of one FindPhotoFiles, as the contract says.
	maxPhotoFiles = 100
)

// photoService carries the files of photos. Whose a photo is, the database says.
type photoService struct {
	freshetv1.UnimplementedPhotoServiceServer
	store *store.Store
	limit store.PhotoRoom
}

func newPhotos(st *store.Store, limit store.PhotoRoom) *photoService {
	if limit.Member == 0 {
		limit.Member = memberPhotoBytes
	}
	if limit.Site == 0 {
		limit.Site = sitePhotoBytes
	}
	return &photoService{store: st, limit: limit}
}

// FindPhotoFiles says how much of each file is here.
func (s *photoService) FindPhotoFiles(ctx context.Context, in *freshetv1.FindPhotoFilesRequest) (*freshetv1.FindPhotoFilesResponse, error) {
	site, err := parseID("site_id", in.GetSiteId())
	if err != nil {
		return nil, err
	}
	if len(in.GetSha256()) > maxPhotoFiles {
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_TOO_LONG, "sha256", fmt.Sprintf("at most %d files are asked for at once", maxPhotoFiles), "")
	}
	files, err := s.store.PhotoFiles(ctx, site, in.GetSha256())
	if err != nil {
		return nil, err
	}
	used, err := s.store.PhotoRoom(ctx, site, caller(ctx).MemberID)
	out := &freshetv1.FindPhotoFilesResponse{Room: &freshetv1.PhotoRoom{
		MemberBytes: uint64(used.Member), MemberLimitBytes: uint64(s.limit.Member), SiteBytes: uint64(used.Site), SiteLimitBytes: uint64(s.limit.Site), // #nosec G115 -- sums of sizes
	}}
	for _, file := range files {
		out.Files = append(out.Files, photoFileMessage(file))
	}
	return out, err
}

func photoFileMessage(file store.PhotoFile) *freshetv1.PhotoFile {
	return &freshetv1.PhotoFile{
		Sha256: file.SHA256, SizeBytes: uint64(file.SizeBytes), MediaType: file.MediaType, // #nosec G115 -- validated against the contract's limits
		NextChunk: uint32(file.NextChunk), Whole: file.Whole, HasThumbnail: file.HasThumbnail, // #nosec G115 -- some hundreds
	}
}

// part is what both kinds of sending name.
func (s *photoService) part(ctx context.Context, siteID string, sum []byte) (store.PhotoPart, error) {
	site, err := photoNamed(siteID, sum)
	return store.PhotoPart{Site: site, Member: caller(ctx).MemberID, SHA256: sum, Limit: s.limit}, err
}

func photoNamed(siteID string, sum []byte) (uuid.UUID, error) {
	site, err := parseID("site_id", siteID)
	if err == nil && len(sum) != sha256.Size {
		err = refuse(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, "sha256", "a SHA-256 has 32 bytes", "")
	}
	return site, err
}

// PutPhotoThumbnail stores a file's small picture.
func (s *photoService) PutPhotoThumbnail(ctx context.Context, in *freshetv1.PutPhotoThumbnailRequest) (*freshetv1.PutPhotoThumbnailResponse, error) {
	part, err := s.part(ctx, in.GetSiteId(), in.GetSha256())
	if err != nil {
		return nil, err
	}
	facts, err := photofile.Examine(bytes.NewReader(in.GetJpeg()))
	if err != nil {
		return nil, unfit("jpeg", err)
	}
	if facts.MediaType != "image/jpeg" {
		return nil, unfit("jpeg", photofile.ErrKind)
	}
	if max(facts.Width, facts.Height) > photofile.MaxThumbnailSide || len(in.GetJpeg()) > photofile.MaxThumbnailBytes {
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_PHOTO_TOO_LARGE, "jpeg",
			fmt.Sprintf("a thumbnail has at most %d px a side and %d bytes", photofile.MaxThumbnailSide, photofile.MaxThumbnailBytes), "")
	}
	file, err := s.store.KeepThumbnail(ctx, part, in.GetJpeg())
	if err != nil {
		return nil, s.roomless(err)
	}
	return &freshetv1.PutPhotoThumbnailResponse{File: photoFileMessage(file)}, nil
}

// PutPhotoChunk stores a file's next chunk.
func (s *photoService) PutPhotoChunk(ctx context.Context, in *freshetv1.PutPhotoChunkRequest) (*freshetv1.PutPhotoChunkResponse, error) {
	part, err := s.chunk(ctx, in)
	if err != nil {
		return nil, err
	}
	files, err := s.store.PhotoFiles(ctx, part.Site, [][]byte{part.SHA256})
	if err != nil {
		return nil, err
	}
	number := int(min(in.GetNumber(), photofile.MaxBytes))
	if len(files) == 1 && len(in.GetData()) != photofile.ChunkLength(files[0].SizeBytes, number) {
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_PHOTO_DIFFERS, "data",
			fmt.Sprintf("chunk %d of this file has %d bytes, %d came", number, photofile.ChunkLength(files[0].SizeBytes, number), len(in.GetData())), "")
	}
	file, err := s.store.KeepChunk(ctx, part, number, in.GetData(), photofile.Chunks, verify)
	if err != nil {
		return nil, s.roomless(err)
	}
	return &freshetv1.PutPhotoChunkResponse{File: photoFileMessage(file)}, nil
}

// chunk looks at what needs no database.
func (s *photoService) chunk(ctx context.Context, in *freshetv1.PutPhotoChunkRequest) (store.PhotoPart, error) {
	part, err := s.part(ctx, in.GetSiteId(), in.GetSha256())
	if sum := sha256.Sum256(in.GetData()); err == nil && !bytes.Equal(sum[:], in.GetDataSha256()) {
		err = refuse(freshetv1.ErrorReason_ERROR_REASON_PHOTO_DIFFERS, "data_sha256", "the chunk changed on its way", "send it again")
	}
	return part, err
}

// verify reads a file whole: the hash that was named, the kind that was named,
// of sides that can be drawn, and nothing but the picture.
func verify(file store.PhotoFile, data io.Reader) error {
	hash := sha256.New()
	facts, err := photofile.Examine(io.TeeReader(data, hash))
	if err == nil && !bytes.Equal(hash.Sum(nil), file.SHA256) || err == nil && facts.MediaType != file.MediaType {
		return refuse(freshetv1.ErrorReason_ERROR_REASON_PHOTO_DIFFERS, "sha256", "", "")
	}
	if err != nil {
		return unfit("data", err)
	}
	return nil
}

// unfit is why a file is not taken.
func unfit(field string, err error) error {
	switch {
	case errors.Is(err, photofile.ErrTells):
		return refuse(freshetv1.ErrorReason_ERROR_REASON_PHOTO_TELLS_MORE, field, "", "")
	case errors.Is(err, photofile.ErrLarge):
		return refuse(freshetv1.ErrorReason_ERROR_REASON_PHOTO_TOO_LARGE, field, err.Error(), "")
	case errors.Is(err, photofile.ErrKind):
		return refuse(freshetv1.ErrorReason_ERROR_REASON_PHOTO_DIFFERS, field, err.Error(), "")
	}
	return err
}

// roomless says how much room there is, where there is too little.
func (s *photoService) roomless(err error) error {
	if !errors.Is(err, store.ErrPhotoRoom) {
		return err
	}
	return refuse(freshetv1.ErrorReason_ERROR_REASON_PHOTO_ROOM_USED, "",
		fmt.Sprintf("there is no room left for this picture: a member's may take up %s, a site's %s", megabytes(s.limit.Member), megabytes(s.limit.Site)), "")
}

func megabytes(n int64) string { return fmt.Sprintf("%d MB", n/1_000_000) }

// GetPhotoThumbnail gives a file's small picture.
func (s *photoService) GetPhotoThumbnail(ctx context.Context, in *freshetv1.GetPhotoThumbnailRequest) (*freshetv1.GetPhotoThumbnailResponse, error) {
	site, err := photoNamed(in.GetSiteId(), in.GetSha256())
	if err != nil {
		return nil, err
	}
	jpeg, err := s.store.Thumbnail(ctx, site, in.GetSha256())
	return &freshetv1.GetPhotoThumbnailResponse{Jpeg: jpeg}, notArrived(err)
}

// GetPhotoChunk gives a chunk of a file.
func (s *photoService) GetPhotoChunk(ctx context.Context, in *freshetv1.GetPhotoChunkRequest) (*freshetv1.GetPhotoChunkResponse, error) {
	site, err := photoNamed(in.GetSiteId(), in.GetSha256())
	if err != nil {
		return nil, err
	}
	data, err := s.store.Chunk(ctx, site, in.GetSha256(), int(min(in.GetNumber(), photofile.MaxBytes)))
	sum := sha256.Sum256(data)
	return &freshetv1.GetPhotoChunkResponse{Data: data, DataSha256: sum[:]}, notArrived(err)
}

func notArrived(err error) error {
	if errors.Is(err, store.ErrUnknown) {
		return refuse(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_RECORD, "sha256", "this picture has not arrived at the co-op", "the phone it was taken with sends it when it has signal")
	}
	return err
}
