package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server"
)

var roles = map[string]freshetv1.Role{
	"steward": freshetv1.Role_ROLE_STEWARD,
	"grower":  freshetv1.Role_ROLE_GROWER,
	"helper":  freshetv1.Role_ROLE_HELPER,
	"reader":  freshetv1.Role_ROLE_READER,
	"sensor":  freshetv1.Role_ROLE_SENSOR,
}

func inviteCommand() *cobra.Command {
	var d database
	var role string
	var sites []string
	var hours int
	c := &cobra.Command{
		Use:   "invite --role ROLE",
		Short: "Make an invitation, as whoever keeps the server",
		Long: "Make an invitation that one person can use once. It is written into the database\n" +
			"directly, so it also works when every steward has lost their devices. Stewards and\n" +
			"growers invite from their own devices.",
		Example: "  freshetd invite --role steward\n" +
			"  freshetd invite --role helper --site 5f0c1de2-7a3b-8c41-8000-000000000001 --hours 24",
		Args: cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) (err error) {
			wanted, ok := roles[role]
			if !ok {
				return errors.New("--role is one of steward, grower, helper, reader, sensor")
			}
			defer func() { err = errors.Join(err, d.close()) }()
			st, err := d.visit(c.Context())
			if err != nil {
				return err
			}
			defer st.Close()
			if _, err := st.Cooperative(c.Context()); err != nil {
				return fmt.Errorf("%w: freshetd serve makes it", err)
			}
			code, ends, err := server.Invite(c.Context(), st, wanted, sites, hours)
			if err != nil {
				return err
			}
			say(c.OutOrStdout(), "%s\n\nOne %s joins with it once, until %s.\n", code, role, until(ends))
			link := d.linkOf(code)
			if link == "" {
				return nil
			}
			say(c.OutOrStdout(), "\nOn a computer:\n\n  freshet join '%s' --name \"YOUR NAME\"\n\nOn a phone, scan:\n\n", link)
			return drawSquare(c.OutOrStdout(), link)
		},
	}
	d.flags(c)
	c.Flags().StringVar(&role, "role", "", "steward, grower, helper, reader or sensor")
	c.Flags().StringSliceVar(&sites, "site", nil, "id of a site; helpers need at least one, sensors exactly one")
	c.Flags().IntVar(&hours, "hours", 72, "how long the code may be used, 1 to 720")
	return c
}
