package store

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"filippo.io/age"
)

// ErrLocked says that a backup is encrypted, and that no key was given.
var ErrLocked = errors.New("this backup is encrypted: give the file of the key that opens it")

// ErrWrongKey says that the keys that were given do not open a backup.
var ErrWrongKey = errors.New("this backup is encrypted to another key than the one that was given")

// ErrNotLocked says that a key was given for a backup that is not encrypted.
var ErrNotLocked = errors.New("a key was given, and this backup is not encrypted: somebody may have put it in the place of yours; to use it all the same, leave the key out")

// lockedEnding ends the names of files that are encrypted.
const lockedEnding = ".age"

// A locker writes the files of a backup: encrypted where there are recipients.
type locker []age.Recipient

// write makes a file of a folder, whole and on the disk.
func (l locker) write(folder, name string, write func(io.Writer) error) error {
	if len(l) == 0 {
		return writeWhole(filepath.Join(folder, name), write)
	}
	return writeWhole(filepath.Join(folder, name+lockedEnding), func(to io.Writer) error {
		locked, err := age.Encrypt(to, l...)
		if err != nil {
			return fmt.Errorf("backup encryption: %w", err)
		}
		if err := write(locked); err != nil {
			return err
		}
		return locked.Close()
	})
}

// An opener reads the files of a backup with the keys that somebody has.
type opener []age.Identity

// read hands a file's text, decrypted where it is encrypted. What was cut off
// or altered since it was encrypted is a *BackupError, at the latest at its end.
func (o opener) read(folder, name string, read func(io.Reader) error) (err error) {
	f, err := os.Open(filepath.Join(folder, name+lockedEnding)) // #nosec G304 -- a folder that was asked for
	locked := err == nil
	if errors.Is(err, os.ErrNotExist) {
		f, err = os.Open(filepath.Join(folder, name)) // #nosec G304 -- a folder that was asked for
	}
	if err != nil {
		return err
	}
	defer f.Close()
	if !locked && len(o) > 0 {
		return ErrNotLocked
	}
	if !locked {
		return read(f)
	}
	text, err := o.unlock(f)
	if err != nil {
		return err
	}
	return read(text)
}

func (o opener) unlock(f io.Reader) (io.Reader, error) {
	if len(o) == 0 {
		return nil, ErrLocked
	}
	text, err := age.Decrypt(f, o...)
	if _, other := errors.AsType[*age.NoIdentityMatchError](err); other {
		return nil, ErrWrongKey
	}
	if err != nil {
		return nil, &BackupError{"the beginning of an encrypted file was altered"}
	}
	return sealedReader{text}, nil
}

// A sealedReader says of a piece that does not decrypt what a person needs to know.
type sealedReader struct{ text io.Reader }

func (r sealedReader) Read(into []byte) (int, error) {
	n, err := r.text.Read(into)
	if err != nil && !errors.Is(err, io.EOF) {
		err = &BackupError{"an encrypted file was cut off or altered"}
	}
	return n, err
}
