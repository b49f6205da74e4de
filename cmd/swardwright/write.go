package main

import (
	"io"

	"github.com/spf13/cobra"

	"swardwright/internal/files"
)

// jsonFlag gives a command the flag for a form that programs read.
func jsonFlag(cmd *cobra.Command, to *string) {
	cmd.Flags().StringVar(to, "json", "", "write it as JSON to `FILE`")
}

// ready says whether a command can begin that reads some files and writes its text and,
// where json names a place, JSON.
func ready(cmd *cobra.Command, reads []files.Use, json string) error {
	text := files.Use{What: "the text", Name: files.Std, Stream: under(cmd.OutOrStdout())}
	writes := []files.Use{text}
	switch json {
	case "":
	case files.Std:
		writes[0].What = "the JSON"
	default:
		writes = append(writes, files.Use{What: "the JSON", Name: json})
	}
	return files.Ready(reads, writes)
}

// writeOne writes text to standard output, and JSON to its place if it has one; to
// standard output that goes alone.
func writeOne(cmd *cobra.Command, json string, asJSON, asText func(io.Writer) error) error {
	var outputs []files.Output
	if json != "" {
		data, err := rendered(asJSON)
		if err != nil {
			return err
		}
		outputs = append(outputs, files.Output{Name: json, Data: data})
	}
	if json != files.Std {
		data, err := rendered(asText)
		if err != nil {
			return err
		}
		outputs = append(outputs, files.Output{Name: files.Std, Data: data})
	}
	return files.Write(cmd.Context(), cmd.OutOrStdout(), outputs)
}

// watched is a standard stream that remembers whether a write to it failed: much is
// printed by a library that does not say so.
type watched struct {
	io.Writer
	err error
}

func (w *watched) Write(b []byte) (int, error) {
	n, err := w.Writer.Write(b)
	if err != nil && w.err == nil {
		w.err = err
	}
	return n, err
}

// under is the stream that is watched.
func under(w io.Writer) io.Writer {
	if x, ok := w.(*watched); ok {
		return x.Writer
	}
	return w
}
