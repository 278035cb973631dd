package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
)

func joinCommand(a *app) *cobra.Command {
	in := device.Invitation{}
	authorityFile := ""
	c := &cobra.Command{
		Use:   "join CODE --server HOST:PORT | join 'LINK'",
		Short: "Use an invitation to join a co-op with this device",
		Long: "Use an invitation, or your recovery code, to join a co-op with this device. Letter case, spaces and hyphens in the code do\n" +
			"not matter. The link in an invitation's square holds the server's address as well, and, where nobody else\n" +
			"vouches for the server, the key it must show. Plain text is spoken only with a server on this machine,\n" +
			"TLS with all others. The device makes a key of its own, which never leaves it.\n" +
			"What was noted before joining is kept and sent at the next sync.",
		Example: example(`freshet join 7KQM-2VXA-9RTD --server localhost:7420 --name "Ana"`,
			`freshet join 7KQM-2VXA-9RTD --server coop.example:7420 --device "greenhouse laptop"`,
			`freshet join 'https://coop.example:7412/?grpc=7411#/join/7KQM-2VXA-9RTD' --name "Ana"`),
		Args: oneArgument("the invitation's code or link"),
		RunE: func(c *cobra.Command, args []string) error {
			in.Code = args[0]
			if link, ok := device.ReadLink(args[0]); ok {
				in.Code, in.Address, in.Pin = link.Code, link.Address, link.Pin
			}
			if authorityFile != "" {
				pem, err := os.ReadFile(authorityFile) //nolint:gosec // the person names the file
				if err != nil {
					return err
				}
				in.Authority = string(pem)
			}
			return join(c, a, in)
		},
	}
	c.Flags().StringVar(&in.Address, "server", os.Getenv("FRESHET_SERVER"), "address of the co-op's server, HOST:PORT (default $FRESHET_SERVER)")
	c.Flags().StringVar(&in.Person, "name", "", "your name, as the others shall see it (for a new member)")
	c.Flags().StringVar(&in.Device, "device", hostName(), "what to call this device")
	c.Flags().StringVar(&authorityFile, "authority", "", "file with the certificate (PEM) that vouches for the server, where it is the co-op's own")
	return c
}

func hostName() string {
	name, err := os.Hostname()
	if err != nil || name == "" {
		return "a computer"
	}
	return name
}

func join(c *cobra.Command, a *app, in device.Invitation) error {
	if in.Address == "" {
		return wrong("the server's address is missing", "add --server HOST:PORT; the steward who invited you knows it")
	}
	dev, err := a.device()
	if err != nil {
		return err
	}
	if err := dev.Join(c.Context(), in); err != nil {
		return err
	}
	progress, err := dev.Sync(c.Context())
	if err != nil {
		say(a.err, "Joined, but the first sync is not complete: %v. Try: freshet sync", err)
	}
	me, err := whoAmI(c, dev)
	if err != nil {
		return err
	}
	if a.json {
		return printMessage(a.out, me)
	}
	p := a.page()
	p.Say(fmt.Sprintf("%s, this device now belongs to %s. You are a %s.", page.Clean(me.GetDisplayName()), coopName(me), roleWord(me.GetRole())))
	if progress.Stored > 0 {
		p.Say(many(progress.Stored, "entry noted before joining is", "entries noted before joining are") + " with the co-op.")
	}
	if progress.Came > 0 {
		p.Say(many(progress.Came, "entry of the co-op's is", "entries of the co-op's are") + " on this device now.")
	}
	if len(me.GetSiteIds()) == 0 && me.GetRole() != freshetv1.Role_ROLE_READER {
		p.Say(`Next, name your place: freshet set site "My place" time_zone=Europe/Rome`)
	}
	if me.GetRole() != freshetv1.Role_ROLE_SENSOR {
		p.Say("For the day when this device is lost, make a code on paper: freshet recovery")
	}
	return p.Err()
}
