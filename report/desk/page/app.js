// The page's state and what can be done to it. Everything that changes the brief goes
// through here as edits; the core answers, and every part of the page is shown anew.

import { Brief, at } from "./brief.js";
import { TakenOver } from "./core.js";
import { moved, lookOf } from "./drawing.js";
import { things, key } from "./things.js";
import { pointToCentimetre, rectangleOver } from "./geometry.js";

const quickCells = 400; // while something moves
const calmCells = 1600; // of a day's hours, at rest
const restMS = 350; // without a change, before the whole plan is asked for
const joinMS = 1500; // arrow keys within this are one step

export class App {
  constructor(core, start) {
    this.core = core;
    this.start = start;
    this.brief = new Brief();
    this.parts = []; // what is to be updated
    this.chosen = null; // { thing, corner }
    this.taken = false; // the chosen corner goes where the next click is
    this.placing = null; // { kind, points }
    this.snapping = true;
    this.show = { what: "zones", month: 12, day: 172, hour: 12, scale: start.scale };
    this.light = null;
    this.hours = null;
    this.plan = null; // of the brief as it is; else null
    this.lastPlan = null;
    this.problem = "";
    this.extra = []; // single questions
    this.pageParts = ["client", "crew"]; // of the plan's page, as on paper
    this.variant = 0; // which is shown; 0: the lawn as it is
    this.variantSays = null;
    this.compared = null; // { text, variants }: what the variants of a text differ by
    this.file = { name: "", state: "", kept: false };
    this.fieldOf = new Map(start.fields.filter((f) => !["table", "tables", "keys"].includes(f.kind)).map((f) => [f.path, f]));
  }

  // Whether the core knows a key.
  knows(path) {
    return this.start.fields.some((f) => f.path === path);
  }

  update() {
    for (const p of this.parts) p.update();
  }

  // What is drawn: the brief, or it with the keys of the variant that is shown.
  get says() {
    return this.variant ? (this.variantSays ?? this.brief.says) : this.brief.says;
  }

  showVariant(n) {
    this.variant = n;
    this.variantSays = null;
    this.letGo();
    this.stopPlacing();
    this.lastPlan = null;
    this.changed();
  }

  // What a variant brings and costs, once the lawn as it is was planned with it.
  bought(n) {
    const of = this.compared?.text === this.brief.text ? this.compared.variants[n - 1] : null;
    return of?.differs.join(" ") ?? "";
  }

  // A variant is looked at, not drawn in.
  get fixed() {
    if (this.variant) this.tell("This is a variant: change it under Variants, or the lawn as it is in the first tab.");
    return this.variant > 0;
  }

  // --- the brief ---

  changed() {
    this.dirty = true;
    this.plan = null;
    this.rested = false;
    clearTimeout(this.rest);
    this.update();
    this.pump();
  }

  edit(edits, what, join = null) {
    if (this.variant && edits.some((e) => ["lawn", "obstacle", "probe"].includes(e.path[0]))) this.showVariant(0);
    this.brief.edit(edits, what, join);
    this.changed();
  }

  setValue(path, value, what) {
    this.edit([{ path, value }], what);
  }

  write(text, what, join) {
    this.brief.write(text, what, join);
    this.changed();
  }

  undo() {
    this.letGo();
    this.brief.undo();
    this.changed();
  }

  redo() {
    this.letGo();
    this.brief.redo();
    this.changed();
  }

  // --- asking the core: one question at a time, the newest counts ---

  ask(want) {
    return new Promise((resolve, reject) => {
      this.extra.push({ want, resolve, reject });
      this.pump();
    });
  }

  async pump() {
    if (this.busy) {
      if (this.busy.plan && (this.dirty || this.extra.length > 0)) this.busy.abort.abort();
      return;
    }
    const extra = this.extra[0];
    const plan = !extra && !this.dirty && this.rested;
    if (!extra && !this.dirty && !plan) return;
    const want = { ...extra?.want };
    if (plan) Object.assign(want, { plan: true, parts: this.pageParts });
    else if (this.dirty) {
      want.cells = quickCells;
      if (this.show.what === "hour") want.day = this.show.day;
    }
    if (this.variant && (want.plan || want.cells || want.files)) want.variant = this.variant;
    this.dirty = false;
    const request = this.brief.request();
    this.busy = { plan, abort: new AbortController() };
    const asked = performance.now();
    let answer = null;
    try {
      answer = await this.core.ask({ text: request.text, edits: request.edits.map(({ path, value }) => ({ path, value })), want }, this.busy.abort.signal);
    } catch (e) {
      this.busy = null;
      if (e instanceof TakenOver) {
        if (!plan) this.dirty = true;
        setTimeout(() => this.pump(), plan ? 0 : 50);
        return;
      }
      if (extra) {
        this.extra.shift();
        extra.reject(e);
      }
      this.gone = e.message;
      this.update();
      return;
    }
    this.busy = null;
    this.gone = "";
    if (extra) {
      this.extra.shift();
      extra.resolve(answer);
    }
    if (!plan) this.roundTrip = performance.now() - asked;
    if (this.brief.take(request, answer)) this.takeIn(want, answer, plan);
    else this.dirty = true;
    this.update();
    this.pump();
  }

  takeIn(want, answer, plan) {
    if (want.variant && want.variant !== this.variant) {
      this.dirty = true;
      return;
    }
    if (answer.variant) this.variantSays = answer.variant;
    if (this.brief.refused) this.notice = `That could not be put into the text: ${this.brief.refused}`;
    if (answer.light) this.light = answer.light;
    else if ((want.cells || plan) && !answer.hours) this.light = null;
    if (answer.hours) this.hours = answer.hours;
    if (want.cells || plan) this.problem = answer.problem ?? "";
    this.looked = null;
    if (plan) {
      this.rested = false;
      this.plan = answer.plan ?? null;
      this.lastPlan = answer.plan ?? this.lastPlan;
      if (answer.plan && !want.variant) this.compared = { text: this.brief.text, variants: answer.plan.figures.variants ?? [] };
      if (this.show.what === "hour") this.refreshLight();
      return;
    }
    if (!this.dirty && this.brief.open.length === 0 && !this.plan) {
      clearTimeout(this.rest);
      if (this.brief.faults.length === 0 && this.brief.text) {
        this.rest = setTimeout(() => {
          this.rested = true;
          this.pump();
        }, restMS);
      }
    }
  }

  // Ask for the light again, for another way of showing it.
  refreshLight() {
    this.ask({ cells: calmCells, ...(this.show.what === "hour" ? { day: this.show.day } : {}) }).catch(() => {});
  }

  look() {
    const { what, month, day, hour } = this.show;
    const by = `${what} ${month} ${day} ${hour}`;
    if (!this.looked || this.lookedBy !== by) {
      this.looked = { look: lookOf(this.light, this.hours?.day === day ? this.hours : null, this.show) };
      this.lookedBy = by;
    }
    return this.looked.look;
  }

  // --- drawing ---

  things() {
    return things(this.says);
  }

  thing(name = this.chosen?.thing) {
    return this.things().find((t) => key(t) === name);
  }

  choose(thing, corner, { from } = {}) {
    if (this.chosen?.thing === (thing ?? undefined) && (corner === null || this.chosen?.corner === corner)) return;
    this.taken = false;
    this.chosen = thing ? { thing, corner: corner ?? 0, from } : null;
    this.update();
  }

  // A press on a corner takes it up; the next press puts it down there.
  take(thing, corner) {
    if (this.fixed) return this.update();
    const again = this.taken && this.chosen?.thing === thing && this.chosen.corner === corner;
    this.chosen = { thing, corner, from: "drawing" };
    this.taken = !again;
    this.tell(again ? "" : "Taken. Press where it goes, or move it with the arrow keys; Escape leaves it.");
    this.update();
  }

  putDown(p) {
    const t = this.thing();
    const corner = this.chosen.corner;
    this.taken = false;
    this.tell("");
    if (t) this.edit([{ path: t.path, value: moved(t, corner, p) }], `${t.name} moved`);
  }

  letGo() {
    this.taken = false;
    this.brief.drop();
    this.tell("");
    this.update();
  }

  dragTo(t, corner, p, said) {
    if (this.fixed) return this.update();
    this.chosen = { thing: key(t), corner, from: "drawing" };
    this.taken = false;
    this.told = said;
    this.brief.drag([{ path: t.path, value: moved(t, corner, p) }]);
    this.changed();
  }

  dragBy(t, dx, dy) {
    if (this.fixed) return this.update();
    this.brief.drag([{ path: t.path, value: shifted(t, dx, dy) }]);
    this.changed();
  }

  settleDrag() {
    this.told = "";
    if (this.brief.open.length > 0) this.edit(this.brief.open, "moved");
    else this.update();
  }

  dropDrag() {
    if (this.brief.open.length === 0) return;
    this.brief.drop();
    this.changed();
  }

  join(t, corner) {
    const now = performance.now();
    const word = `${key(t)} ${corner}`;
    if (this.joined?.word !== word || now - this.joined.at > joinMS) this.joined = { word, n: (this.joined?.n ?? 0) + 1 };
    this.joined.at = now;
    return `${word} ${this.joined.n}`;
  }

  nudge(t, corner, p) {
    if (this.fixed) return this.update();
    this.edit([{ path: t.path, value: moved(t, corner, p) }], `${t.name} moved`, this.join(t, corner));
  }

  nudgeAll(t, dx, dy) {
    if (this.fixed) return this.update();
    this.edit([{ path: t.path, value: shifted(t, dx, dy) }], `${t.name} moved`, this.join(t, "all"));
  }

  setCorner(t, corner, p) {
    this.edit([{ path: t.path, value: t.ring ? t.ring.map((q, k) => (k === corner ? p : q)) : p }], `${t.name} moved`);
  }

  removeCorner(t, corner) {
    if (t.ring.length <= 3) {
      this.tell("An outline keeps at least 3 corners.");
      return;
    }
    this.chosen = { thing: key(t), corner: Math.min(corner, t.ring.length - 2), from: "drawing" };
    this.edit([{ path: t.path, value: t.ring.filter((q, k) => k !== corner) }], `corner of ${t.name} removed`);
  }

  // A new corner half-way to the next one, or where it was measured to be.
  addCorner(t, corner, p = null) {
    const next = t.ring[(corner + 1) % t.ring.length];
    const here = t.ring[corner];
    p ??= pointToCentimetre([(here[0] + next[0]) / 2, (here[1] + next[1]) / 2]);
    this.chosen = { thing: key(t), corner: corner + 1, from: "drawing" };
    this.edit([{ path: t.path, value: [...t.ring.slice(0, corner + 1), p, ...t.ring.slice(corner + 1)] }], `corner of ${t.name} added`);
  }

  remove(of, what) {
    this.chosen = null;
    this.edit([{ path: of, value: null }], what);
  }

  // --- placing something new, corner by corner ---

  begin(kind) {
    if (this.variant) this.showVariant(0);
    this.placing = { kind, points: [] };
    this.taken = false;
    this.chosen = null;
    this.update();
  }

  place(p) {
    const { kind, points } = this.placing;
    if (kind === "tree" || kind === "probe") {
      this.placing.points = [p];
      this.finish();
      return;
    }
    const first = points[0];
    if (points.length >= 3 && first[0] === p[0] && first[1] === p[1]) {
      this.finish();
      return;
    }
    this.placing.points = [...points, p];
    if (kind === "gable" && this.placing.points.length === 3) {
      this.placing.points = rectangleOver(...this.placing.points);
      this.finish();
      return;
    }
    this.update();
  }

  placeBack() {
    this.placing.points = this.placing.points.slice(0, -1);
    this.update();
  }

  stopPlacing() {
    this.placing = null;
    this.update();
  }

  finish() {
    const { kind, points } = this.placing;
    this.placing = null;
    const says = this.brief.says;
    if (kind === "lawn") {
      const edits = [];
      if (at(says, ["lawn", "outline"]) || at(says, ["lawn", "part"])) {
        const parts = at(says, ["lawn", "part"]) ?? [];
        let n = parts.length;
        if (at(says, ["lawn", "outline"])) {
          edits.push({ path: ["lawn", "part", ++n], value: {} }, { path: ["lawn", "part", n, "outline"], value: says.lawn.outline }, { path: ["lawn", "outline"], value: null });
        }
        n++;
        edits.push({ path: ["lawn", "part", n], value: {} }, { path: ["lawn", "part", n, "outline"], value: points });
        this.chosen = { thing: `lawn part ${n}`, corner: 0 };
      } else {
        if (at(says, ["lawn", "area_m2"]) !== undefined) edits.push({ path: ["lawn", "area_m2"], value: null });
        edits.unshift({ path: ["lawn", "outline"], value: points });
        this.chosen = { thing: "lawn", corner: 0 };
      }
      this.edit(edits, "lawn drawn");
      return;
    }
    const list = kind === "probe" ? "probe" : "obstacle";
    const n = (Array.isArray(says[list]) ? says[list].length : 0) + 1;
    const of = [list, n];
    const edits = [{ path: of, value: {} }];
    if (kind === "probe") edits.push({ path: [...of, "name"], value: `point ${n}` });
    else edits.push({ path: [...of, "kind"], value: kind });
    edits.push(kind === "tree" || kind === "probe" ? { path: [...of, "at"], value: points[0] } : { path: [...of, "footprint"], value: points });
    this.chosen = { thing: `${list} ${n}`, corner: 0, fresh: true };
    this.edit(edits, "drawn");
  }

  tell(text) {
    this.told = text;
  }
}

const shifted = (t, dx, dy) => {
  const by = (p) => pointToCentimetre([p[0] + dx, p[1] + dy]);
  return t.ring ? t.ring.map(by) : by(t.at);
};
