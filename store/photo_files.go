package store

import (
	"context"
	"errors"
	"io"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// ErrPhotoRoom says that the files of photos would take up more than they may.
var ErrPhotoRoom = errors.New("no room is left for the files of photos")

// PhotoFile is how much of a photo's file is here.
type PhotoFile struct {
	SHA256       []byte `db:"sha256"`
	SizeBytes    int64  `db:"size_bytes"`
	MediaType    string `db:"media_type"`
	NextChunk    int    `db:"next_chunk"` // chunks come in their order: those before it are here
	Whole        bool   `db:"whole"`      // its hash was verified
	HasThumbnail bool   `db:"has_thumbnail"`
}

// PhotoRoom is how many bytes files of photos take up, those begun counted
// whole, or how many they may.
type PhotoRoom struct{ Member, Site int64 }

// PhotoPart says of which file a part comes, and what room there may be used.
type PhotoPart struct {
	Site, Member uuid.UUID
	SHA256       []byte
	Limit        PhotoRoom
}

const photoFileColumns = `p.sha256, p.size_bytes, p.media_type, coalesce(f.next_chunk, 0) AS next_chunk,
	f.whole_at IS NOT NULL AS whole, f.thumbnail IS NOT NULL AS has_thumbnail`

// namedPhotos are the files that a site's photos name: what nobody noted is not
// taken, and what was voided is not handed out.
const namedPhotos = `(SELECT DISTINCT ON (sha256) site_id, sha256, size_bytes, media_type FROM photos
		WHERE site_id = $1 AND sha256 = ANY ($2) AND corrected_by IS NULL ORDER BY sha256, id) p
	LEFT JOIN photo_files f ON f.site_id = p.site_id AND f.sha256 = p.sha256`

// PhotoFiles finds those of a site's files that a photo names.
func (s *Store) PhotoFiles(ctx context.Context, site uuid.UUID, sha256 [][]byte) ([]PhotoFile, error) {
	rows, err := s.query(ctx, "SELECT "+photoFileColumns+" FROM "+namedPhotos, site, sha256)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, pgx.RowToStructByName[PhotoFile])
}

const photoRoom = `SELECT coalesce(sum(size_bytes) FILTER (WHERE sender_id = $2), 0), coalesce(sum(size_bytes) FILTER (WHERE site_id = $1), 0)
	FROM photo_files WHERE site_id = $1 OR sender_id = $2`

// PhotoRoom is what a member's and a site's files take up now.
func (s *Store) PhotoRoom(ctx context.Context, site, member uuid.UUID) (used PhotoRoom, err error) {
	return used, s.queryRow(ctx, photoRoom, site, member).Scan(&used.Member, &used.Site)
}

// KeepThumbnail stores a file's small picture.
func (s *Store) KeepThumbnail(ctx context.Context, part PhotoPart, jpeg []byte) (file PhotoFile, err error) {
	return file, s.transact(ctx, func(tx pgx.Tx) error {
		if file, err = part.begin(ctx, tx); err != nil {
			return err
		}
		file.HasThumbnail = true
		_, err = tx.Exec(ctx, "UPDATE photo_files SET thumbnail = $3 WHERE site_id = $1 AND sha256 = $2", part.Site, part.SHA256, jpeg)
		return err
	})
}

// KeepChunk stores the next chunk of a file; another is not stored, and the
// answer says which is the next. Whole reads the file once the last has come,
// and says whether it is the one that was named: if not, none of it stays, and
// its error comes back.
func (s *Store) KeepChunk(ctx context.Context, part PhotoPart, number int, data []byte, chunks func(size int64) int, whole func(PhotoFile, io.Reader) error) (file PhotoFile, err error) {
	var unfit error
	err = s.transact(ctx, func(tx pgx.Tx) error {
		if file, err = part.begin(ctx, tx); err != nil || number != file.NextChunk || file.Whole {
			return err
		}
		if err := part.add(ctx, tx, number, data); err != nil {
			return err
		}
		file.NextChunk++
		if file.NextChunk < chunks(file.SizeBytes) {
			return nil
		}
		if unfit = part.read(ctx, tx, file, whole); unfit != nil {
			return part.forget(ctx, tx)
		}
		file.Whole = true
		_, err := tx.Exec(ctx, "UPDATE photo_files SET whole_at = clock_timestamp() WHERE site_id = $1 AND sha256 = $2", part.Site, part.SHA256)
		return err
	})
	return file, errors.Join(err, unfit)
}

// begin finds the file and locks it, or makes room for it.
func (p PhotoPart) begin(ctx context.Context, tx pgx.Tx) (PhotoFile, error) {
	find := func() (PhotoFile, error) {
		rows, err := tx.Query(ctx, "SELECT "+photoFileColumns+" FROM "+namedPhotos, p.Site, [][]byte{p.SHA256})
		if err != nil {
			return PhotoFile{}, err
		}
		return pgx.CollectExactlyOneRow(rows, pgx.RowToStructByName[PhotoFile])
	}
	file, err := find()
	if errors.Is(err, pgx.ErrNoRows) {
		return file, ErrUnknown
	}
	if err != nil {
		return file, err
	}
	if err := p.lock(ctx, tx, file); err != nil {
		return file, err
	}
	return find() // as it is under the lock
}

func (p PhotoPart) lock(ctx context.Context, tx pgx.Tx, file PhotoFile) error {
	locked, err := tx.Exec(ctx, "SELECT FROM photo_files WHERE site_id = $1 AND sha256 = $2 FOR UPDATE", p.Site, p.SHA256)
	if err != nil || locked.RowsAffected() > 0 {
		return err
	}
	// One file begins after another, so that two do not take the same room.
	if _, err := tx.Exec(ctx, "SELECT pg_advisory_xact_lock(hashtext('photo_files'))"); err != nil {
		return err
	}
	var used PhotoRoom
	if err := tx.QueryRow(ctx, photoRoom, p.Site, p.Member).Scan(&used.Member, &used.Site); err != nil {
		return err
	}
	if used.Member+file.SizeBytes > p.Limit.Member || used.Site+file.SizeBytes > p.Limit.Site {
		return ErrPhotoRoom
	}
	_, err = tx.Exec(ctx, `INSERT INTO photo_files (site_id, sha256, sender_id, size_bytes, media_type) VALUES ($1, $2, $3, $4, $5)
		ON CONFLICT DO NOTHING`, p.Site, p.SHA256, p.Member, file.SizeBytes, file.MediaType)
	return err
}

func (p PhotoPart) add(ctx context.Context, tx pgx.Tx, number int, data []byte) error {
	if _, err := tx.Exec(ctx, "INSERT INTO photo_chunks (site_id, sha256, number, data) VALUES ($1, $2, $3, $4)", p.Site, p.SHA256, number, data); err != nil {
		return err
	}
	_, err := tx.Exec(ctx, "UPDATE photo_files SET next_chunk = $3 WHERE site_id = $1 AND sha256 = $2", p.Site, p.SHA256, number+1)
	return err
}

// forget lets go of a file that is not what was named; its thumbnail goes too.
func (p PhotoPart) forget(ctx context.Context, tx pgx.Tx) error {
	_, err := tx.Exec(ctx, "DELETE FROM photo_files WHERE site_id = $1 AND sha256 = $2", p.Site, p.SHA256)
	return err
}

// read hands the chunks on one by one: a file is never in memory whole.
func (p PhotoPart) read(ctx context.Context, tx pgx.Tx, file PhotoFile, whole func(PhotoFile, io.Reader) error) error {
	rows, err := tx.Query(ctx, "SELECT data FROM photo_chunks WHERE site_id = $1 AND sha256 = $2 ORDER BY number", p.Site, p.SHA256)
	if err != nil {
		return err
	}
	defer rows.Close()
	return whole(file, &chunkReader{rows: rows})
}

type chunkReader struct {
	rows pgx.Rows
	left []byte
}

// Read gives what is left of a chunk, or of the next.
func (r *chunkReader) Read(into []byte) (int, error) {
	for len(r.left) == 0 {
		if !r.rows.Next() {
			if err := r.rows.Err(); err != nil {
				return 0, err
			}
			return 0, io.EOF
		}
		if err := r.rows.Scan(&r.left); err != nil {
			return 0, err
		}
	}
	n := copy(into, r.left)
	r.left = r.left[n:]
	return n, nil
}

// Thumbnail reads a file's small picture; ErrUnknown where there is none.
func (s *Store) Thumbnail(ctx context.Context, site uuid.UUID, sha256 []byte) ([]byte, error) {
	return s.photoBytes(ctx, "SELECT thumbnail FROM photo_files WHERE site_id = $1 AND sha256 = $2 AND thumbnail IS NOT NULL", site, sha256)
}

// Chunk reads one chunk of a file that is whole; ErrUnknown where there is none.
func (s *Store) Chunk(ctx context.Context, site uuid.UUID, sha256 []byte, number int) ([]byte, error) {
	return s.photoBytes(ctx, `SELECT c.data FROM photo_chunks c JOIN photo_files f USING (site_id, sha256)
		WHERE site_id = $1 AND sha256 = $2 AND number = $3 AND f.whole_at IS NOT NULL`, site, sha256, number)
}

func (s *Store) photoBytes(ctx context.Context, sql string, arguments ...any) (found []byte, err error) {
	err = s.queryRow(ctx, sql, arguments...).Scan(&found)
	if errors.Is(err, pgx.ErrNoRows) {
		err = ErrUnknown
	}
	return found, err
}
