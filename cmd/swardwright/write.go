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

// form is one form that a command's answer can take besides text.
type form struct {
	what, name string // in a message; of the file, empty: not wanted
	write      func(io.Writer) error
}

// ready says whether a command can begin that reads some files and writes its text and,
// where they name a place, JSON and other forms.
func ready(cmd *cobra.Command, reads []files.Use, json string, others ...form) error {
	writes := []files.Use{{What: "the text", Name: files.Std, Stream: under(cmd.OutOrStdout())}}
	for _, x := range append(others, form{what: "the JSON", name: json}) {
		switch x.name {
		case "":
		case files.Std:
			writes[0].What = x.what
		default:
			writes = append(writes, files.Use{What: x.what, Name: x.name})
		}
	}
	return files.Ready(reads, writes)
}

// writeOne writes text to standard output, and JSON and other forms to their places if
// they have one; to standard output one goes alone.
func writeOne(cmd *cobra.Command, json string, asJSON, asText func(io.Writer) error, others ...form) error {
	var outputs []files.Output
	alone := false
	for _, x := range append(others, form{"the JSON", json, asJSON}, form{"the text", files.Std, asText}) {
		if x.name == "" || x.name == files.Std && alone {
			continue
		}
		data, err := rendered(x.write)
		if err != nil {
			return err
		}
		outputs = append(outputs, files.Output{Name: x.name, Data: data})
		alone = alone || x.name == files.Std
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
