package main

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"time"

	"filippo.io/age"
	"github.com/spf13/cobra"

	"freshet.example/store"
)

func keyCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "key FILE",
		Short: "Make the key that opens encrypted backups",
		Long: "Make the key that opens encrypted backups, into a new file, and print its public half, to which\n" +
			"freshetd backup encrypts. The server needs the public half only. Keep the file away from the\n" +
			"server and from the backups, and a copy of it on paper: without it nobody opens them, neither do you.",
		Example: "  freshetd key /media/drawer/backups.key\n" +
			"  freshetd backup /mnt/stick/freshet-2026-11-26 --encrypt-to age1...\n" +
			"  freshetd rehearse /mnt/stick/freshet-2026-11-26 --key /media/drawer/backups.key",
		Args: cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			public, err := makeKey(args[0], time.Now())
			if err != nil {
				return err
			}
			say(c.OutOrStdout(), "The key is in %s, which only you can read. Keep it away from the server.\n"+
				"Encrypt backups with\n\n  freshetd backup FOLDER --encrypt-to %s\n", args[0], public)
			return nil
		},
	}
}

func makeKey(file string, now time.Time) (public string, err error) {
	key, err := age.GenerateX25519Identity()
	if err != nil {
		return "", err
	}
	public = key.Recipient().String()
	f, err := os.OpenFile(file, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600) // #nosec G304 -- the person names the file
	if err != nil {
		return "", fmt.Errorf("a key goes into a file of its own: %w", err)
	}
	_, err = fmt.Fprintf(f, "# opens Freshet's backups; made %s\n# public: %s\n%s\n", now.Format(time.DateOnly), public, key)
	return public, errors.Join(err, f.Sync(), f.Close())
}

func keyFlag(c *cobra.Command, file *string) {
	c.Flags().StringVar(file, "key", "", "file of the key that opens the backup, where it is encrypted")
}

// recipients reads public keys, and files of them.
func recipients(to []string) (keys []age.Recipient, err error) {
	for _, one := range to {
		text := one
		if !strings.HasPrefix(one, "age1") {
			file, err := os.ReadFile(one) // #nosec G304 -- the person names the file
			if err != nil {
				return nil, fmt.Errorf("--encrypt-to is a public key, age1..., or a file of them: %w", err)
			}
			text = string(file)
		}
		if strings.Contains(text, "AGE-SECRET-KEY-") {
			return nil, fmt.Errorf("%s holds a secret key; --encrypt-to takes the public half only, and the secret does not belong on the server", one)
		}
		found, err := age.ParseRecipients(strings.NewReader(text))
		if err != nil {
			return nil, errors.New("--encrypt-to is no public key: one begins with age1 and was copied whole")
		}
		keys = append(keys, found...)
	}
	return keys, nil
}

// identities reads the file of a key; none where no file is named.
func identities(file string) ([]age.Identity, error) {
	if file == "" {
		return nil, nil
	}
	f, err := os.Open(file) // #nosec G304 -- the person names the file
	if err != nil {
		return nil, fmt.Errorf("--key: %w", err)
	}
	defer f.Close()
	keys, err := age.ParseIdentities(f)
	if err != nil { // the library's words may hold some of the key
		return nil, fmt.Errorf("%s is not the file of a key that opens backups", file)
	}
	return keys, nil
}

// proving is what else rehearse needs for an encrypted backup.
func proving(keys []age.Recipient) string {
	if len(keys) == 0 {
		return ""
	}
	return " --key FILE"
}

// inWords adds which flag would help.
func inWords(err error) error {
	switch {
	case errors.Is(err, store.ErrLocked):
		return fmt.Errorf("%w: --key FILE", err)
	case errors.Is(err, store.ErrWrongKey):
		return fmt.Errorf("%w; its public half was named by --encrypt-to when the backup was taken", err)
	}
	return err
}
