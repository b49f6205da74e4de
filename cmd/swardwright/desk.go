package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/spf13/cobra"

	"swardwright/internal/files"
	"swardwright/internal/sheet"
	"swardwright/report/desk"
	"swardwright/report/desk/loopback"
	"swardwright/site"
	"swardwright/sowing"
)

func newDesk() *cobra.Command {
	var noOpen bool
	cmd := &cobra.Command{
		Use:   "desk [BRIEF]",
		Short: "Draw, change and plan a lawn in a browser on this machine",
		Long: `Desk opens a page on which a lawn is drawn or entered as it was measured, its
light is seen at once and its whole plan is made. The page edits BRIEF and saves
to it; a BRIEF that is not there yet is begun with a few questions. Without one
the browser saves.

The page is served to this machine alone, and to nobody without the printed
address. The program connects to nothing. Ctrl-C ends it.`,
		Example: `  swardwright desk lawn.toml
  swardwright desk`,
		Args:              arguments(0, 1, "one brief"),
		ValidArgsFunction: completeBriefs,
		RunE: func(cmd *cobra.Command, args []string) error {
			file, open := loopback.File{}, site.Opener(nil)
			if len(args) > 0 {
				text, err := deskText(cmd.Context(), args[0])
				if err != nil {
					return err
				}
				file, open = deskFile(cmd.Context(), args[0]), onlyNamed(args[0], text)
			}
			tables, err := sowing.BuiltIn()
			if err != nil {
				return err
			}
			out := cmd.OutOrStdout()
			unsaved, err := loopback.Serve(cmd.Context(), desk.New(tables, open), file, func(address string) {
				fmt.Fprintf(out, "The desk is at %s\nCtrl-C ends it.\n", address)
				if !noOpen {
					if err := openBrowser(address); err != nil {
						fmt.Fprintln(cmd.ErrOrStderr(), "swardwright: no browser could be opened; open the address in one")
					}
				}
			})
			if err != nil {
				return fmt.Errorf("cannot serve the page: %w", err)
			}
			if len(unsaved) > 0 {
				fmt.Fprintf(cmd.ErrOrStderr(), "swardwright: not saved: %s\nThe page still holds it while it is open; its brief can be downloaded there.\n", strings.Join(unsaved, ", "))
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&noOpen, "no-open", false, "print the address and open no browser; on a machine shared with others this also keeps it out of the list of processes")
	return cmd
}

// deskText is the text of a brief that may not be there yet.
func deskText(ctx context.Context, name string) (text []byte, err error) {
	if info, err := os.Stat(name); err == nil && !info.Mode().IsRegular() {
		return nil, wrongf("%s is no plain file; name a brief", name)
	}
	err = files.Within(ctx, func() error {
		file, err := os.Open(name)
		if err != nil {
			return err
		}
		defer file.Close()
		text, err = io.ReadAll(io.LimitReader(file, sheet.MaxBytes+1))
		return err
	})
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Stat(filepath.Dir(name)); err != nil {
			return nil, wrongf("there is no folder %s to write a brief in", filepath.Dir(name))
		}
		return nil, nil
	case err != nil:
		return nil, fmt.Errorf("cannot read the brief: %w", err)
	}
	return text, nil
}

// deskFile is the brief's file for the page.
func deskFile(ctx context.Context, name string) loopback.File {
	return loopback.File{
		Name: filepath.Base(name),
		Read: func() ([]byte, error) { return deskText(ctx, name) },
		Write: func(text []byte) error {
			return files.Write(ctx, io.Discard, []files.Output{{Name: name, Data: text}})
		},
	}
}

// onlyNamed opens the weather file that a brief named when the program was called, and no
// other: a page names no files.
func onlyNamed(brief string, text []byte) site.Opener {
	named, _ := sheet.At(sheet.Open("", text).Tree(), []any{"climate", "epw"}).(string)
	besides := besides(brief)
	return func(name string) (io.ReadCloser, error) {
		if named == "" || name != named {
			return nil, fmt.Errorf("only a weather file that the brief named when the desk was opened is read")
		}
		file, _, err := besides(name)
		return file, err
	}
}

// openBrowser asks the system to open an address.
func openBrowser(address string) error {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	}
	cmd := exec.Command(name, args...)
	if err := cmd.Start(); err != nil {
		return err
	}
	go cmd.Wait()
	return nil
}
