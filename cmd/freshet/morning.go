package main

import "context"

func morning(ctx context.Context, a *app) error { return showSites(ctx, a) }
