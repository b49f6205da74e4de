// The brief as text, beside the forms and both ways.

import { el, set } from "./dom.js";

const pauseMS = 400;

export class TextPanel {
  constructor(app) {
    this.app = app;
    this.area = el("textarea", {
      id: "d-text", spellcheck: "false", autocapitalize: "off", autocomplete: "off", rows: 24, "aria-describedby": "d-text-hint",
      oninput: () => this.typed(), onfocus: () => (this.sitting = (this.sitting ?? 0) + 1), onblur: () => this.flush(),
    });
    this.node = el(
      "section", { id: "d-page-text", "aria-labelledby": "d-text-h" }, el("h2", { id: "d-text-h" }, "The brief itself"), el("label", { for: "d-text" }, "Its text (TOML)"),
      el("p", { class: "note", id: "d-text-hint" }, "Forms and drawing write here, and leave your notes as they are; what you write here they show."), this.area,
    );
  }

  typed() {
    clearTimeout(this.pause);
    this.pause = setTimeout(() => this.flush(), pauseMS);
    this.writing = true;
  }

  flush() {
    clearTimeout(this.pause);
    if (!this.writing) return;
    this.writing = false;
    if (this.area.value !== this.app.brief.text) this.app.write(this.area.value, "text changed", `text ${this.sitting}`); // one step to undo
  }

  update() {
    if (!this.writing && this.area.value !== this.app.brief.text) this.area.value = this.app.brief.text;
    set(this.area, { "aria-invalid": this.app.brief.readable ? null : "true" });
  }

  // Put the cursor on a line.
  goTo(line) {
    const lines = this.area.value.split("\n");
    const from = lines.slice(0, Math.max(line - 1, 0)).reduce((n, l) => n + l.length + 1, 0);
    this.area.focus();
    this.area.setSelectionRange(from, from + (lines[line - 1]?.length ?? 0));
    this.area.scrollTop = (this.area.scrollHeight / Math.max(lines.length, 1)) * Math.max(line - 4, 0);
  }
}
