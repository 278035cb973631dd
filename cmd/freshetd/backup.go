package main

import (
	"context"
	"errors"
	"os"
	"time"

	"filippo.io/age"
	"github.com/spf13/cobra"

	"freshet.example/store"
)

func backupCommand() *cobra.Command {
	var d database
	var to []string
	c := &cobra.Command{
		Use:   "backup FOLDER",
		Short: "Copy all records into a new folder, while the server goes on",
		Long: "Copy all records, as of one moment, into a new folder, while the server goes on. The folder\n" +
			"holds the records and a sum of each table, by which freshetd rehearse proves it and\n" +
			"freshetd restore brings it back. What devices enter afterwards is not lost with the server\n" +
			"either: devices keep it for 30 days and send it again to a restored server.\n" +
			"Whoever reads the folder reads everything, unless it is encrypted to a key: freshetd key makes one.\n" +
			"Each backup is whole, pictures too: none needs an older one to be restored.",
		Example: "  freshetd backup /mnt/stick/freshet-2026-11-26\n" +
			"  freshetd backup /mnt/stick/freshet-2026-11-26 --encrypt-to age1...\n" +
			"  freshetd backup /mnt/stick/freshet-2026-11-26 --database postgres://owner@db.example/freshet",
		Args: cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) (err error) {
			defer func() { err = errors.Join(err, d.close()) }()
			keys, err := recipients(to)
			if err != nil {
				return err
			}
			url, err := d.visited(c.Context())
			if err != nil {
				return err
			}
			taken, err := store.TakeBackup(c.Context(), url, args[0], keys...)
			if err != nil {
				return err
			}
			say(c.OutOrStdout(), "Backed up %d rows of %d tables, as of %s: %.1f MB in %s.\nProve it, best today: freshetd rehearse %s%s\n",
				taken.Rows(), len(taken.Tables), until(taken.TakenAt), float64(taken.DumpBytes)/1e6, args[0], args[0], proving(keys))
			return nil
		},
	}
	c.Flags().StringArrayVar(&to, "encrypt-to", nil, "encrypt to this public key (age1...), or to those in this file; may be said again, each key opens it")
	d.flags(c)
	return c
}

func restoreCommand() *cobra.Command {
	var d database
	var key string
	c := &cobra.Command{
		Use:   "restore FOLDER",
		Short: "Bring a backup into a new, empty database",
		Long: "Bring a backup into a new, empty database: --data with a folder that is not there yet, or\n" +
			"--database with the URL of a superuser. Each table is proved equal to what was backed up. Then\n" +
			"the epoch is raised, by which devices notice that the server went back in time, and send again\n" +
			"what the backup lacks.",
		Example: "  freshetd restore /mnt/stick/freshet-2026-11-26 --data /srv/freshet-again\n" +
			"  freshetd serve --data /srv/freshet-again",
		Args: cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) (err error) {
			defer func() { err = errors.Join(err, d.close()) }()
			keys, err := identities(key)
			if err != nil {
				return err
			}
			if _, err := store.ReadBackup(args[0], keys...); err != nil { // before anything is made
				return inWords(err)
			}
			url, err := d.address(c.Context())
			if err != nil {
				return err
			}
			found, epoch, err := store.RestoreBackup(c.Context(), args[0], url, keys...)
			if err != nil {
				return err
			}
			say(c.OutOrStdout(), "Restored %d rows of %d tables as of %s, each table as it was backed up.\n"+
				"The epoch is now %d: devices notice at their next contact and send again what is missing.\n", found.Rows(), len(found.Tables), until(found.TakenAt), epoch)
			return nil
		},
	}
	keyFlag(c, &key)
	d.flags(c)
	return c
}

func rehearseCommand() *cobra.Command {
	var d database
	var key string
	c := &cobra.Command{
		Use:   "rehearse FOLDER",
		Short: "Prove a backup by restoring it into a Postgres that is thrown away",
		Long: "Restore a backup into a Postgres of its own, compare each table with what was backed up, and\n" +
			"throw it away. Where the server's own database can be reached, it is told, and devices need no\n" +
			"longer keep what is in this backup; its records are not touched. A backup that was never\n" +
			"rehearsed is a hope.",
		Example: "  freshetd rehearse /mnt/stick/freshet-2026-11-26",
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			began := time.Now()
			keys, err := identities(key)
			if err != nil {
				return err
			}
			found, reach, err := rehearse(c.Context(), args[0], keys)
			if err != nil {
				return inWords(err)
			}
			say(c.OutOrStdout(), "All %d tables with %d rows came back equal, in %s. This backup of %s can be relied on.\n",
				len(found.Tables), found.Rows(), time.Since(began).Round(100*time.Millisecond), until(found.TakenAt))
			return tellProved(c, &d, found, reach)
		},
	}
	keyFlag(c, &key)
	d.flags(c)
	return c
}

// tellProved tells the server that a backup can be relied on, where it runs
// here or its address was given.
func tellProved(c *cobra.Command, d *database, proved store.Backup, reach []store.Reach) error {
	url, found := d.running(c.Context())
	if !found {
		say(c.OutOrStdout(), "No server was found here to be told. Rehearse beside it, or with --data or --database, and devices\nneed no longer keep what is in the backup.\n")
		return nil
	}
	err := store.NoteProved(c.Context(), url, proved, reach)
	if errors.Is(err, store.ErrOtherCooperative) {
		say(c.OutOrStdout(), "The server here keeps another cooperative; it was not told.\n")
		return nil
	}
	if err == nil {
		say(c.OutOrStdout(), "The server was told: devices need no longer keep what is in it. Keep the folder; an older backup\nwould lack what they let go.\n")
	}
	return err
}

func rehearse(ctx context.Context, folder string, keys []age.Identity) (found store.Backup, reach []store.Reach, err error) {
	if found, err = store.ReadBackup(folder, keys...); err != nil { // before anything is made
		return found, nil, err
	}
	scratch, err := os.MkdirTemp("", "freshet-rehearsal-")
	if err != nil {
		return found, nil, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(scratch)) }()
	d := &database{dir: scratch}
	defer func() { err = errors.Join(err, d.close()) }()
	url, err := d.address(ctx)
	if err != nil {
		return found, nil, err
	}
	if found, _, err = store.RestoreBackup(ctx, folder, url, keys...); err != nil {
		return found, nil, err
	}
	reach, err = store.Reached(ctx, url)
	return found, reach, err
}
