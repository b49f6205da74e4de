// What is drawn, as lists and tables: the same data as the drawing, to be edited by number.

import { el, set, say, keyed, id } from "./dom.js";
import { Fields } from "./forms.js";
import { key, kindNames } from "./things.js";
import { sides, area, middle, readLength, toCentimetre } from "./geometry.js";

// Keys of an obstacle that belong to some kinds alone; others are shown for every kind.
const kinds = {
  eaves_m: ["gable"], albedo: ["solid", "gable"], clear_stem_m: ["tree"], crown_m: ["tree"], leaf: ["tree"], genus: ["tree"], stem_cm: ["tree"],
  transmittance: ["screen", "tree"],
};

export class Editor {
  constructor(app) {
    this.app = app;
    this.list = el("div", { class: "folds" });
    this.adds = el(
      "div", { class: "acts", role: "group", "aria-label": "Add to the drawing" },
      ["lawn", "solid", "gable", "screen", "tree", "probe"].map((kind) => {
        const b = el("button", { type: "button", onclick: () => app.begin(kind) });
        b.kind = kind;
        return b;
      }),
    );
    this.node = el("div", { class: "editor" }, this.adds, el("h3", {}, "What is drawn"), this.list);
  }

  update() {
    const all = this.app.things();
    for (const b of this.adds.children) {
      const what = b.kind === "lawn" ? (all.some((t) => t.kind === "lawn") ? "Add a part of the lawn" : "Draw the lawn") : `Add: ${kindNames[b.kind].toLowerCase()}`;
      say(b, what);
      set(b, { "aria-pressed": this.app.placing?.kind === b.kind ? "true" : "false", disabled: !this.app.brief.readable });
    }
    keyed(this.list, all, key, (t) => this.make(t), (e, t) => this.refresh(e, t));
    const chosen = this.app.chosen;
    if (chosen && chosen !== this.was) {
      const e = [...this.list.children].find((c) => c.thing === chosen.thing);
      if (e) {
        for (const other of this.list.children) if (other !== e) other.open = false;
        e.open = true;
        this.fill(e);
        if (chosen.fresh) {
          delete chosen.fresh;
          // What is not known yet: how high it is, or a point's name.
          setTimeout(() => (e.querySelector('input[name$="height_m"]') ?? e.querySelector('input[name$="name"]'))?.focus());
        }
      }
    }
    this.was = chosen;
  }

  make(t) {
    const e = el("details", { class: "thing" }, el("summary", {}));
    e.thing = key(t);
    e.addEventListener("toggle", () => {
      if (e.open) this.fill(e);
      if (e.open && this.app.chosen?.thing !== e.thing) this.app.choose(e.thing, 0);
    });
    return e;
  }

  fill(e) {
    const t = this.app.thing(e.thing);
    if (!t || e.kind === t.kind) return;
    e.kind = t.kind;
    while (e.childNodes.length > 1) e.lastChild.remove();
    e.fields = null;
    if (t.kind !== "lawn") {
      const only = (k) => !kinds[k] || kinds[k].includes(t.kind);
      e.fields = new Fields(this.app, t.of, { only, change: t.kind === "probe" ? {} : { kind: (v) => this.changeKind(e.thing, v) } });
      e.append(e.fields.node);
    }
    e.corners = new Corners(this.app, e.thing);
    e.append(e.corners.node);
    const of = t.kind === "lawn" && t.of.length === 1 ? t.path : t.of;
    e.append(el("button", { type: "button", onclick: () => this.app.remove(of, `${t.name} removed`) }, `Remove ${t.name}`));
    this.refresh(e, t);
  }

  refresh(e, t) {
    const size = t.kind === "lawn" && t.ring ? `${area(t.ring).toFixed(1)} m²` : typeof t.says?.height_m === "number" ? `${t.says.height_m} m high` : "";
    const number = t.kind === "probe" ? (t.number <= 26 ? `${String.fromCharCode(96 + t.number)} ` : `${t.number} `) : t.number ? `${t.number} ` : "";
    say(e.firstChild, `${number}${t.name}${t.kind === "lawn" || t.kind === "probe" ? "" : `, ${(kindNames[t.kind] ?? t.kind).toLowerCase()}`}${size ? `, ${size}` : ""}`);
    const faulty = this.app.brief.faults.some((f) => f.path.startsWith(`${t.of[0]}[${t.of[1]}]`));
    set(e, { class: `thing${faulty ? " faulty" : ""}` });
    if (e.open && e.kind !== t.kind) this.fill(e);
    if (e.open || e.contains(document.activeElement)) {
      e.fields?.update();
      e.corners?.update();
    }
  }

  // Another kind takes other keys: a tree has a place, all else an outline.
  changeKind(name, kind) {
    const t = this.app.thing(name);
    const edits = [{ path: [...t.of, "kind"], value: kind }];
    for (const k of Object.keys(t.says)) if (kinds[k] && !kinds[k].includes(kind)) edits.push({ path: [...t.of, k], value: null });
    if (kind === "tree" && t.ring) {
      edits.push({ path: [...t.of, "footprint"], value: null }, { path: [...t.of, "at"], value: middle(t.ring).map(toCentimetre) });
    } else if (kind && kind !== "tree" && t.at) {
      const r = Math.max(t.crown / 2, 0.5);
      const [x, y] = t.at;
      edits.push({ path: [...t.of, "at"], value: null }, { path: [...t.of, "footprint"], value: [[x - r, y - r], [x + r, y - r], [x + r, y + r], [x - r, y + r]].map((p) => p.map(toCentimetre)) });
    }
    this.app.edit(edits, "kind changed");
  }
}

// The corners of a thing as a table.
class Corners {
  constructor(app, thing) {
    this.app = app;
    this.thing = thing;
    this.body = el("tbody", {});
    this.head = el("tr", {});
    this.fault = el("p", { class: "fault" });
    this.caption = el("caption", {});
    this.node = el("div", {}, el("table", { class: "corners" }, this.caption, el("thead", {}, this.head), this.body), this.fault);
  }

  update() {
    const t = this.app.thing(this.thing);
    if (!t) return;
    const points = t.ring ?? (t.at ? [t.at] : []);
    say(this.caption, t.ring ? `Corners of ${t.name}, metres` : `Where ${t.name} is, metres`);
    const heads = t.ring ? ["", "x, right", "y, up", "to the next", ""] : ["", "x, right", "y, up", ""];
    keyed(this.head, heads, (h, i) => `${i} ${heads.length}`, (h) => (h ? el("th", { scope: "col" }) : el("td")), (e, h) => say(e, h));
    const lengths = t.ring ? sides(t.ring) : [];
    keyed(
      this.body, points, (p, i) => i, (p, i) => this.row(i, !!t.ring),
      (row, p, i) => {
        row.inputs.forEach((input, k) => {
          const text = String(p[k]);
          if (input !== document.activeElement && input.value !== text) input.value = text;
          set(input, { disabled: !this.app.brief.readable });
        });
        if (row.side) say(row.side, lengths[i].toFixed(2));
        if (row.less) set(row.less, { disabled: points.length <= 3 });
        set(row, { class: this.app.chosen?.thing === this.thing && this.app.chosen.corner === i ? "chosen" : null });
      },
    );
    const here = `${t.of[0]}${t.of.length > 1 ? `[${t.of[1]}]` : ""}`;
    const at = t.path.at(-1);
    say(this.fault, this.app.brief.faults.filter((f) => f.path.startsWith(here) && f.path.includes(at)).map((f) => f.text).join("; "));
  }

  row(i, ring) {
    const name = id("corner");
    const inputs = ["x", "y"].map((axis, k) =>
      el("input", {
        type: "text", inputmode: "decimal", class: "short", "aria-label": `${ring ? `Corner ${i + 1}, ` : ""}${axis}`, id: `${name}-${axis}`,
        onchange: (e) => this.entered(i, k, e.target), onfocus: () => this.app.choose(this.thing, i),
      }),
    );
    const row = el("tr", {}, el("th", { scope: "row" }, ring ? String(i + 1) : ""), inputs.map((input) => el("td", {}, input)));
    row.inputs = inputs;
    if (ring) {
      row.side = el("td", { class: "right" });
      row.less = el("button", { type: "button", "aria-label": `Remove corner ${i + 1}`, onclick: () => this.app.removeCorner(this.app.thing(this.thing), i) }, "−");
      row.append(row.side, el("td", { class: "acts" }, el("button", { type: "button", "aria-label": `Add a corner after corner ${i + 1}`, onclick: () => this.app.addCorner(this.app.thing(this.thing), i) }, "+"), row.less));
    } else row.append(el("td", {}));
    return row;
  }

  entered(i, k, input) {
    const t = this.app.thing(this.thing);
    const p = t.ring ? t.ring[i] : t.at;
    const v = readLength(input.value);
    if (v === null) {
      input.value = String(p[k]);
      this.app.tell("That is no length in metres.");
      this.app.update();
      return;
    }
    const q = [...p];
    q[k] = toCentimetre(v);
    if (q[k] !== p[k]) this.app.setCorner(t, i, q);
  }
}
