package main

import (
	"fmt"

	"github.com/spf13/cobra"
)

func newCheck() *cobra.Command {
	return &cobra.Command{
		Use:   "check BRIEF...",
		Short: "Look briefs over and name every fault",
		Long: `Check reads each brief and names every fault in it: what, on which line, and
what to do. It prints nothing of a brief without faults. A folder stands for the
briefs in it.`,
		Example: `  swardwright check lawn.toml
  swardwright check briefs/`,
		Args:              arguments(1, -1, "at least one brief"),
		ValidArgsFunction: completeBriefs,
		RunE: func(cmd *cobra.Command, args []string) error {
			names, _, err := briefsOf(args)
			if err != nil {
				return err
			}
			worst := exitDone
			for _, name := range names {
				_, err := readBrief(cmd, name)
				if cmd.Context().Err() != nil {
					return err
				}
				if err != nil {
					tell(cmd.ErrOrStderr(), err)
					worst = max(worst, status(err))
				}
			}
			switch worst {
			case exitDone:
				return nil
			case exitWrong:
				return wrongCall{errTold}
			}
			return fmt.Errorf("some briefs could not be read: %w", errTold)
		},
	}
}
