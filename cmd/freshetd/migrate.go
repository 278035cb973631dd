package main

import (
	"errors"

	"github.com/spf13/cobra"
)

func migrateCommand() *cobra.Command {
	var d database
	c := &cobra.Command{
		Use:   "migrate",
		Short: "Bring the database's schema up to this release, and stop",
		Long: "Bring the database's schema up to this release, and stop. serve does the same when it\n" +
			"starts; by itself it is for those who want to see it done before they change servers.",
		Example: "  freshetd migrate --database postgres://freshet@db.example/freshet",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) (err error) {
			defer func() { err = errors.Join(err, d.close()) }()
			st, err := d.visit(c.Context())
			if err != nil {
				return err
			}
			defer st.Close()
			say(c.OutOrStdout(), "The schema is that of this release.\n")
			return nil
		},
	}
	d.flags(c)
	return c
}
