// Forms over the brief. What fields there are, of which kind, in which range and with which
// words, the core says; nothing here knows a key by name but where a comment says why.

import { el, set, say, keyed, id } from "./dom.js";
import { at, pathText } from "./brief.js";
import { readNumber, readLength } from "./geometry.js";

export const keyOf = (path) => path.filter((p) => typeof p === "string").join(".");

// A number as a form shows it.
const written = (v) => (v === undefined || v === null ? "" : Array.isArray(v) ? v.map(written).join(", ") : String(v));

// What an entry means; text that means nothing is kept as text, for the core to fault.
function meaning(f, text) {
  const t = text.trim();
  if (t === "") return null;
  switch (f.kind) {
    case "flag":
      return t === "yes";
    case "number": {
      const list = t.split(/[;\s]+|,\s+/).filter(Boolean);
      if (list.length > 1 && f.unit !== "m") return list.every((x) => readNumber(x) !== null) ? list.map(readNumber) : t;
      const length = f.unit === "m" ? readLength(t) : null;
      return readNumber(t) ?? (length === null ? t : Math.round(length * 1000) / 1000);
    }
    case "numbers":
    case "months": {
      const list = t.split(/[;\s]+|,\s*/).filter(Boolean);
      return list.map((x) => readNumber(x) ?? x);
    }
  }
  return t;
}

function hintOf(f) {
  const parts = [];
  if (f.hint) parts.push(f.hint);
  if (["number", "numbers", "months"].includes(f.kind) && f.hi[0] < 1e6) parts.push(`${written(f.lo[0])} to ${written(f.hi[0])}`);
  if (f.kind === "months") parts.push("12 numbers, January first");
  if (f.left) parts.push(`left out: ${f.left}`);
  return parts.join("; ");
}

// One field. It gives its element and keeps it true.
export class Field {
  constructor(app, path, f = app.fieldOf.get(keyOf(path)), { label = f.label, change } = {}) {
    this.app = app;
    this.path = path;
    this.f = f;
    this.change = change;
    const name = id("field");
    const hint = hintOf(f);
    const props = { id: name, name: pathText(path), "aria-describedby": `${name}-hint ${name}-fault`, onchange: () => this.entered() };
    if (f.kind === "choice" || f.kind === "flag") {
      const words = f.kind === "flag" ? ["yes", "no"] : f.words;
      this.input = el("select", props, el("option", { value: "" }, f.left ? `— (${f.left})` : "—"), words.map((w) => el("option", { value: w }, w)));
    } else {
      const number = ["number", "numbers", "months"].includes(f.kind);
      this.input = el("input", { ...props, type: f.kind === "date" ? "date" : "text", inputmode: f.kind === "number" ? "decimal" : null, autocomplete: "off", class: number && f.kind === "number" ? "short" : null });
    }
    this.fault = el("p", { class: "fault", id: `${name}-fault` });
    const unit = f.unit ? el("span", { class: "unit" }, f.unit) : null;
    this.node = el(
      "div", { class: "field", "data-path": pathText(path) },
      el("label", { for: name }, label), el("div", { class: "entry" }, this.input, unit), el("p", { class: "hint", id: `${name}-hint` }, hint), this.fault,
    );
  }

  get value() {
    return at(this.app.brief.says, this.path);
  }

  entered() {
    const value = meaning(this.f, this.input.value);
    if (JSON.stringify(value) === JSON.stringify(this.value ?? null)) return;
    if (this.change) this.change(value);
    else this.app.setValue(this.path, value, this.f.label);
  }

  update() {
    const v = this.value;
    const text = this.f.kind === "flag" ? (v === true ? "yes" : v === false ? "no" : written(v)) : written(v);
    if (this.input !== document.activeElement || this.input.tagName === "SELECT") {
      if (this.input.tagName === "SELECT" && text !== "" && ![...this.input.options].some((o) => o.value === text)) {
        this.input.append(el("option", { value: text }, text)); // what the text says, though it is faulty
      }
      if (this.input.value !== text) this.input.value = text;
    }
    const here = pathText(this.path);
    const faults = this.app.brief.faults.filter((f) => f.path === here || f.path.startsWith(`${here}[`) || f.path.startsWith(`${here}.`));
    say(this.fault, faults.map((f) => f.text).join("; "));
    set(this.input, { "aria-invalid": faults.length > 0 ? "true" : null, disabled: !this.app.brief.readable });
  }
}

// The faults of a table as a whole.
class TableFaults {
  constructor(app, path) {
    this.app = app;
    this.here = pathText(path);
    this.node = el("p", { class: "fault" });
  }

  update() {
    say(this.node, this.app.brief.faults.filter((f) => f.path === this.here && this.here).map((f) => f.text).join("; "));
  }
}

// The fields of one table, but for those left to other parts of the page.
export class Fields {
  constructor(app, path, { without = [], only = null, change = {} } = {}) {
    const table = keyOf(path);
    const own = app.start.fields.filter((f) => {
      const key = table ? (f.path.startsWith(`${table}.`) ? f.path.slice(table.length + 1) : "") : f.path;
      return key && !key.includes(".") && !["table", "tables", "keys", "pairs", "pair"].includes(f.kind) && !without.includes(key) && (!only || only(key));
    });
    const seen = new Set();
    this.parts = [new TableFaults(app, path)];
    for (const f of own) {
      if (seen.has(f.path)) continue; // of two kinds: the first
      seen.add(f.path);
      const key = f.path.split(".").at(-1);
      this.parts.push(new Field(app, [...path, key], f, { change: change[key] }));
    }
    for (const f of app.start.fields) {
      const key = f.path.slice(table.length + 1);
      if (f.kind === "keys" && table && f.path.startsWith(`${table}.`) && !key.includes(".")) this.parts.push(new (key === "set" ? Settings : Names)(app, [...path, key], f));
    }
    this.node = el("div", { class: "fields" }, this.parts.map((p) => p.node));
  }

  update() {
    for (const p of this.parts) p.update();
  }
}

// A table whose keys are names, such as the parts of a mixture: a row each.
class Names {
  constructor(app, path, f) {
    this.app = app;
    this.path = path;
    this.rows = el("div", { class: "rows" });
    this.fault = el("p", { class: "fault" });
    const name = id("names");
    this.pick = el("select", { id: name }, el("option", { value: "" }, "—"), app.start.grasses.map((g) => el("option", { value: g.id }, g.name)));
    this.node = el(
      "fieldset", { class: "names" }, el("legend", {}, f.label), this.rows,
      el("div", { class: "entry" }, el("label", { for: name }, "One more"), this.pick, el("button", { type: "button", onclick: () => this.add() }, "Add")), this.fault,
    );
  }

  add() {
    const key = this.pick.value;
    if (!key) return;
    this.pick.value = "";
    this.app.setValue([...this.path, key], 0, `${key} added`);
  }

  update() {
    const v = at(this.app.brief.says, this.path);
    const table = v && typeof v === "object" && !Array.isArray(v) ? v : {};
    const names = Object.keys(table);
    const grass = (key) => this.app.start.grasses.find((g) => g.id === key)?.name ?? key;
    keyed(
      this.rows, names, (k) => k,
      (k) => {
        const name = id("part");
        const row = el("div", { class: "entry" }, el("label", { for: name }, grass(k)));
        row.input = el("input", {
          id: name, type: "text", inputmode: "decimal", class: "short",
          onchange: () => this.app.setValue([...this.path, k], readNumber(row.input.value) ?? row.input.value, k),
        });
        row.append(row.input, el("button", { type: "button", onclick: () => this.app.setValue([...this.path, k], null, `${k} removed`), "aria-label": `Remove ${grass(k)}` }, "Remove"));
        return row;
      },
      (row, k) => {
        const text = written(table[k]);
        if (row.input !== document.activeElement && row.input.value !== text) row.input.value = text;
      },
    );
    const here = pathText(this.path);
    say(this.fault, this.app.brief.faults.filter((f) => f.path === here || f.path.startsWith(`${here}.`)).map((f) => f.text).join("; "));
  }
}

// The keys that a variant sets: each a key of the brief, things by their names.
class Settings {
  constructor(app, path, f) {
    this.app = app;
    this.path = path;
    this.rows = el("div", { class: "rows" });
    this.fault = el("p", { class: "fault" });
    const name = id("key");
    this.pick = el("select", { id: name });
    this.node = el("fieldset", { class: "names" }, el("legend", {}, f.label), this.rows, el("div", { class: "entry" }, el("label", { for: name }, "One more"), this.pick, el("button", { type: "button", onclick: () => this.add() }, "Add")), this.fault);
  }

  // Every key that can be set, with its field and what the brief has there.
  keys() {
    const { says } = this.app.brief;
    const out = [];
    for (const f of this.app.fieldOf.values()) {
      const [table, key, ...deeper] = f.path.split(".");
      if (!key || deeper.length > 0 || table === "variant" || ["pair", "pairs"].includes(f.kind) || key === "name") continue;
      const list = says[table];
      if (!Array.isArray(list)) {
        if (!this.app.start.fields.some((g) => g.path === table && g.kind === "tables")) out.push({ key: f.path, label: f.label, f, now: list?.[key] });
        continue;
      }
      list.forEach((t, i) => {
        const called = typeof t?.name === "string" && t.name ? t.name : String(i + 1);
        if (t?.[key] !== undefined) out.push({ key: `${table}.${/^[\w-]+$/.test(called) ? called : `'${called}'`}.${key}`, label: `${called}: ${f.label.toLowerCase()}`, f, now: t[key] });
      });
    }
    return out;
  }

  add() {
    const k = this.keys().find((k) => k.key === this.pick.value);
    if (!k) return;
    this.pick.value = "";
    const first = { flag: !k.now, choice: k.f.words?.find((w) => w !== k.now) }[k.f.kind] ?? k.now ?? k.f.lo[0];
    this.app.setValue([...this.path, k.key], first, `${k.label} added`);
  }

  update() {
    const v = at(this.app.brief.says, this.path);
    const table = v && typeof v === "object" && !Array.isArray(v) ? v : {};
    const known = this.keys();
    keyed(this.pick, [{ key: "", label: "—" }, ...known], (k) => k.key, (k) => el("option", { value: k.key }), (e, k) => say(e, k.label));
    keyed(
      this.rows, Object.keys(table), (k) => k,
      (k) => {
        const is = known.find((x) => x.key === k);
        const label = is?.label ?? k;
        const field = new Field(this.app, [...this.path, k], { kind: "text", lo: [0, 0], hi: [0, 0], ...is?.f, hint: is?.now === undefined ? "" : `as it is: ${written(is.now)}`, left: "" }, { label });
        const row = el("div", {}, field.node, el("button", { type: "button", onclick: () => this.app.setValue([...this.path, k], null, `${label} removed`), "aria-label": `Remove ${label}` }, "Remove"));
        row.field = field;
        return row;
      },
      (row) => row.field.update(),
    );
    const here = pathText(this.path);
    say(this.fault, this.app.brief.faults.filter((f) => f.path === here).map((f) => f.text).join("; "));
  }
}

// One page of the brief as a section.
export class Section {
  constructor(app, page, options) {
    this.app = app;
    const name = `d-page-${page.path.replace(/\W/g, "-") || "top"}`;
    this.fields = new Fields(app, page.path ? page.path.split(".") : [], options);
    this.path = page.path ? page.path.split(".") : [];
    const note = page.hint ? el("p", { class: "note" }, page.hint) : null;
    if (page.fold) this.fold = el("details", {}, el("summary", {}, page.title), note, this.fields.node);
    this.node = el("section", { id: name, "aria-labelledby": `${name}-h`, class: page.fold ? "folded" : null }, el("h2", { id: `${name}-h`, class: page.fold ? "unseen" : null }, page.title), this.fold ?? [note, this.fields.node]);
  }

  update() {
    // What seldom says anything is folded away until it does.
    const given = this.fold && at(this.app.brief.says, this.path) !== undefined;
    if (given && !this.given) this.fold.open = true;
    this.given = given;
    this.fields.update();
  }
}

// Several tables of one kind: a fold each.
export class Several {
  // extra makes a part of its own for each; first are the values that a new one has.
  constructor(app, page, { extra, first = () => ({}) } = {}) {
    this.app = app;
    this.page = page;
    this.extra = extra;
    this.first = first;
    const name = `d-page-${page.path.replace(/\W/g, "-")}`;
    this.list = el("div", { class: "folds" });
    this.fault = new TableFaults(app, [page.path]);
    this.node = el(
      "section", { id: name, "aria-labelledby": `${name}-h` }, el("h2", { id: `${name}-h` }, page.title), page.hint ? el("p", { class: "note" }, page.hint) : null, this.fault.node, this.list,
      el("button", { type: "button", onclick: () => this.add() }, `Add a ${page.one}`),
    );
  }

  get tables() {
    const v = this.app.brief.says[this.page.path];
    return Array.isArray(v) ? v : [];
  }

  add() {
    const n = this.tables.length + 1;
    this.fresh = n;
    const values = Object.entries(this.first()).map(([key, value]) => ({ path: [this.page.path, n, key], value }));
    this.app.edit([{ path: [this.page.path, n], value: {} }, ...values], `${this.page.one} added`);
  }

  update() {
    this.fault.update();
    keyed(
      this.list, this.tables, (t, i) => i,
      (t, i) => {
        const path = [this.page.path, i + 1];
        const fold = el("details", {}, el("summary", {}));
        fold.addEventListener("toggle", () => this.open(fold, path));
        if (this.fresh === i + 1) {
          this.fresh = null;
          fold.open = true;
          setTimeout(() => fold.querySelector("input, select")?.focus());
        }
        return fold;
      },
      (fold, t, i) => {
        say(fold.firstChild, `${i + 1}. ${[t.name, t.species, t.date, t.zone && `zone ${t.zone}`].filter(Boolean).join(", ") || this.page.one}`);
        for (const p of fold.parts ?? []) p.update();
      },
    );
  }

  open(fold, path) {
    if (!fold.open || fold.parts) return;
    fold.parts = [...(this.extra ? [this.extra(path)] : []), new Fields(this.app, path)];
    fold.append(
      ...fold.parts.map((p) => p.node),
      el("button", { type: "button", onclick: () => this.app.remove(path, `${this.page.one} removed`) }, `Remove this ${this.page.one}`),
    );
    for (const p of fold.parts) p.update();
  }
}

// The price list, each figure with the list's own beside it.
export class Prices {
  constructor(app, page) {
    this.app = app;
    this.fields = [];
    this.body = el("div", { class: "fields" });
    const find = id("find");
    this.fault = el("p", { class: "fault" });
    this.search = el("input", { id: find, type: "search", oninput: () => this.sift() });
    this.fold = el("details", {}, el("summary", {}, "The price list"), el("div", { class: "field" }, el("label", { for: find }, "Find a price"), this.search), this.body);
    this.fold.addEventListener("toggle", () => this.fold.open && this.load());
    this.node = el("section", { id: "d-page-prices", "aria-labelledby": "d-page-prices-h" }, el("h2", { id: "d-page-prices-h" }, page.title), el("p", { class: "note" }, page.hint), this.fault, this.fold);
  }

  async load() {
    const currency = this.app.brief.says.currency ?? "";
    if (this.currency === currency) return;
    this.currency = currency;
    const { prices } = await this.app.ask({ prices: true });
    this.fields = (prices ?? []).map((p) => {
      const unit = p.kind === "output" ? `${p.unit} an hour` : p.kind === "price" ? `${currency || "GBP"} for ${p.unit}` : p.unit;
      return new Field(this.app, ["prices", p.key], { kind: p.kind === "text" ? "text" : "number", label: p.title, unit, lo: [0, 0], hi: [1e9, 1e9], left: p.kind === "text" ? "the list's own words" : p.figure });
    });
    this.body.replaceChildren(...this.fields.map((f) => f.node));
    this.sift();
    this.update();
  }

  sift() {
    const t = this.search.value.trim().toLowerCase();
    for (const f of this.fields) f.node.hidden = t !== "" && !`${f.f.label} ${f.path[1]}`.toLowerCase().includes(t);
  }

  update() {
    if (this.fold.open && (this.app.brief.says.currency ?? "") !== this.currency) this.load();
    for (const f of this.fields) f.update();
    const shown = new Set(this.fields.map((f) => pathText(f.path)));
    say(this.fault, this.app.brief.faults.filter((f) => /^prices\b/.test(f.path) && !shown.has(f.path)).map((f) => f.said).join("; "));
  }
}
