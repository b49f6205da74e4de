package main

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestMain lets the scripts run this very program as swardwright.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"swardwright": func() {
			os.Exit(start())
		},
	})
}

// TestScripts runs the commands as a user does; each script is one subject.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "testdata", RequireExplicitExec: true})
}
