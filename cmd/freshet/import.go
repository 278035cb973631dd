package main

import (
	"context"

	"github.com/spf13/cobra"
)

func importCommand(a *app) *cobra.Command { return &cobra.Command{Use: "import"} }

func morning(ctx context.Context, a *app) error { return showSites(ctx, a) }
