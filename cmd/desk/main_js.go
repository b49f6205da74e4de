// Desk is the desk's core for a browser by itself: WebAssembly that answers the page's
// requests in a worker. The folder's build makes one file of it and the page:
//
//	go run ./internal/gen/desk
package main

import (
	"context"
	"syscall/js"

	"swardwright/report/desk"
	"swardwright/sowing"
)

func main() {
	tables, err := sowing.BuiltIn()
	if err != nil {
		panic(err) // the tables are part of the program, and tested
	}
	d := desk.New(tables, nil)
	js.Global().Set("deskAnswer", js.FuncOf(func(_ js.Value, args []js.Value) any {
		out, err := d.AnswerJSON(context.Background(), []byte(args[0].String()))
		if err != nil {
			return map[string]any{"error": err.Error()}
		}
		return map[string]any{"answer": string(out)}
	}))
	select {} // the worker ends when the page does
}
