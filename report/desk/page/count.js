// Counting what a lawn is made of, point by point, on a telephone: a press for each point
// that the pin falls on.

import { el, say, keyed } from "./dom.js";
import { at } from "./brief.js";

const kinds = ["grass", "moss", "weeds", "bare"];

// Today, where the page is.
export function today() {
  const d = new Date();
  return `${d.getFullYear()}-${String(d.getMonth() + 1).padStart(2, "0")}-${String(d.getDate()).padStart(2, "0")}`;
}

export class Count {
  constructor(app, path) {
    this.app = app;
    this.path = path;
    this.total = el("p", { class: "result", role: "status" });
    this.buttons = el(
      "div", { class: "count", role: "group", "aria-label": "Count a point" },
      kinds.map((k) => {
        const b = el("button", { type: "button", onclick: () => this.add(k) }, el("span", {}, k), el("span", { class: "n" }));
        b.kind = k;
        return b;
      }),
    );
    this.zones = el("div", { class: "acts", role: "group", "aria-label": "In which zone" });
    this.node = el("div", {}, this.zones, this.buttons, this.total);
  }

  get says() {
    return at(this.app.brief.says, this.path) ?? {};
  }

  add(kind) {
    const says = this.says;
    const n = (k) => (typeof says[k] === "number" ? says[k] : 0);
    const edits = kinds.filter((k) => says[k] === undefined).map((k) => ({ path: [...this.path, k], value: 0 }));
    edits.push({ path: [...this.path, kind], value: n(kind) + 1 });
    edits.push({ path: [...this.path, "points"], value: kinds.reduce((sum, k) => sum + n(k), 1) });
    this.app.edit(edits, `a point of ${kind}`);
  }

  update() {
    const says = this.says;
    const counted = kinds.reduce((sum, k) => sum + (typeof says[k] === "number" ? says[k] : 0), 0);
    for (const b of this.buttons.children) say(b.lastChild, String(says[b.kind] ?? 0));
    say(this.total, counted > 0 ? `${counted} ${counted === 1 ? "point" : "points"}, ${Math.round((100 * (says.grass ?? 0)) / counted)} % grass. Undo takes the last back.` : "");
    keyed(
      this.zones, this.app.light?.zones ?? [], (z) => z.letter,
      (z) => el("button", { type: "button", onclick: () => this.app.setValue([...this.path, "zone"], this.says.zone === z.letter ? null : z.letter, "zone") }),
      (e, z) => {
        say(e, `Zone ${z.letter}, ${z.name}`);
        e.setAttribute("aria-pressed", says.zone === z.letter ? "true" : "false");
      },
    );
  }
}
