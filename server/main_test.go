package server_test

import (
	"os"
	"testing"

	"freshet.example/store/storetest"
)

func TestMain(m *testing.M) { os.Exit(storetest.Run(m)) }
