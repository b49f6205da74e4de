// The plan drawn: what is there, the light over it, and corners that can be dragged, clicked
// from place to place, or moved with the arrow keys.

import { el, set, keyed } from "./dom.js";
import { distance, middle, sides, snap, pointToCentimetre, runs, seams, heart, rectangleWith, isRectangle, niceStep } from "./geometry.js";
import { key, around, things, namedPoints } from "./things.js";

const clickPX = 4; // a press that moves less is a click
const hitPX = 14; // radius of what can be pressed: 28 px across
const reachPX = 9; // of snapping
const reachShare = 0.6; // how far about the lawn is shown at first, by its length

export class Drawing {
  constructor(app) {
    this.app = app;
    this.view = null; // { x, y: the middle in metres; s: pixels a metre }
    this.size = { w: 600, h: 420 };
    this.press = null;
    this.pointers = new Map();

    this.defs = el("defs", {});
    this.clip = el("clipPath", { id: "d-clip" });
    this.patterns = ["", "M0 8L8 0M-1 1L1 -1M7 9L9 7", "dots", "M0 0L8 8M-1 7L1 9M7 -1L9 1M0 8L8 0M-1 1L1 -1M7 9L9 7"].map((d, i) =>
      el("pattern", { id: `d-zone-${i}`, width: 8, height: 8, patternUnits: "userSpaceOnUse" }, d === "dots" ? el("circle", { cx: 3, cy: 3, r: 1.1, class: "dot" }) : d ? el("path", { d, class: "hatch" }) : null),
    );
    this.screen = el("pattern", { id: "d-screen", width: 6, height: 6, patternUnits: "userSpaceOnUse" }, el("path", { d: "M0 6L6 0", class: "hatch" }));
    this.defs.append(this.clip, ...this.patterns, this.screen);
    this.grid = el("g", { class: "grid", "aria-hidden": "true" });
    this.map = el("g", { class: "map", "clip-path": "url(#d-clip)", "aria-hidden": "true" });
    this.hatching = el("g", { "clip-path": "url(#d-clip)", "aria-hidden": "true" });
    this.seams = el("path", { class: "seams", "aria-hidden": "true" });
    this.seamsHalo = el("path", { class: "halo", "aria-hidden": "true" });
    this.world = el("g", {}, this.grid, this.map, this.hatching, this.seamsHalo, this.seams);
    this.bodies = el("g", {});
    this.labels = el("g", { class: "labels", "aria-hidden": "true" });
    this.draft = el("g", { class: "draft", "aria-hidden": "true" });
    this.handles = el("g", {});
    this.marks = el("g", { class: "marks", "aria-hidden": "true" });
    this.svg = el(
      "svg",
      {
        class: "plan", role: "group", "aria-label": "The plan drawn. Tab goes from thing to thing; Enter opens one, and then its corners can be reached.", tabindex: 0,
        onpointerdown: (e) => this.down(e), onpointermove: (e) => this.move(e), onpointerup: (e) => this.up(e), onpointercancel: (e) => this.cancel(e),
        onkeydown: (e) => this.keys(e), onwheel: (e) => this.wheel(e),
      },
      this.defs, this.world, this.bodies, this.labels, this.draft, this.handles, this.marks,
    );
    // A finger on a corner drags it and two fingers pinch, where else the page would scroll.
    this.svg.addEventListener("touchstart", (e) => (e.target.closest(".corner") || e.touches.length > 1) && e.preventDefault(), { passive: false });
    this.frame = el("div", { class: "frame" }, this.svg);
    new ResizeObserver(() => this.resize()).observe(this.frame);
  }

  resize() {
    const w = this.frame.clientWidth;
    if (!w) return;
    const h = Math.round(Math.min(Math.max(w * (w < 500 ? 0.95 : 0.72), 260), Math.max(window.innerHeight * 0.66, 260), 640));
    if (w === this.size.w && h === this.size.h && this.svg.hasAttribute("viewBox")) return;
    this.size = { w, h };
    set(this.svg, { viewBox: `0 0 ${w} ${h}`, width: w, height: h });
    this.fit();
  }

  // Show the lawn with what stands near it, all that is drawn, or a place to begin with.
  fit(all = false) {
    const box = around(this.all ?? []) ?? { x0: -2, x1: 14, y0: -2, y1: 9 };
    const lawn = around((this.all ?? []).filter((t) => t.kind === "lawn"));
    if (lawn && !all) {
      const reach = reachShare * Math.max(lawn.x1 - lawn.x0, lawn.y1 - lawn.y0);
      Object.assign(box, {
        x0: Math.max(box.x0, lawn.x0 - reach), x1: Math.min(box.x1, lawn.x1 + reach),
        y0: Math.max(box.y0, lawn.y0 - reach), y1: Math.min(box.y1, lawn.y1 + reach),
      });
    }
    const w = Math.max(box.x1 - box.x0, 2);
    const h = Math.max(box.y1 - box.y0, 2);
    this.fitted = key(this.all?.[0] ?? { of: [] });
    this.view = { x: (box.x0 + box.x1) / 2, y: (box.y0 + box.y1) / 2, s: Math.min((this.size.w - 56) / w, (this.size.h - 64) / h) };
    this.render();
  }

  zoom(k, at = [this.size.w / 2, this.size.h / 2]) {
    const s = Math.min(Math.max(this.view.s * k, 0.3), 400);
    const p = this.toPlan(at);
    this.view = { s, x: p[0] - (at[0] - this.size.w / 2) / s, y: p[1] + (at[1] - this.size.h / 2) / s };
    this.render();
  }

  pan(dx, dy) {
    this.view = { ...this.view, x: this.view.x - dx / this.view.s, y: this.view.y + dy / this.view.s };
    this.render();
  }

  toPage(p) {
    const { x, y, s } = this.view;
    return [(p[0] - x) * s + this.size.w / 2, (y - p[1]) * s + this.size.h / 2];
  }

  toPlan(q) {
    const { x, y, s } = this.view;
    return [(q[0] - this.size.w / 2) / s + x, y - (q[1] - this.size.h / 2) / s];
  }

  at(e) {
    const box = this.svg.getBoundingClientRect();
    return [e.clientX - box.left, e.clientY - box.top];
  }

  // Bring a place into view.
  show(p) {
    const [x, y] = this.toPage(p);
    const m = 30;
    const dx = x < m ? m - x : x > this.size.w - m ? this.size.w - m - x : 0;
    const dy = y < m ? m - y : y > this.size.h - m ? this.size.h - m - y : 0;
    if (dx || dy) this.pan(dx, dy);
  }

  // --- showing ---

  update() {
    this.all = things(this.app.says);
    if (!this.view || (this.fitted !== key(this.all[0] ?? { of: [] }) && !this.press)) this.fit();
    else this.render();
  }

  render() {
    if (!this.view || !this.all) return;
    const { x, y, s } = this.view;
    set(this.world, { transform: `matrix(${s} 0 0 ${-s} ${this.size.w / 2 - x * s} ${this.size.h / 2 + y * s})` });
    this.drawGrid();
    this.drawMap();
    this.drawBodies();
    this.drawLabels();
    this.drawDraft();
    this.drawHandles();
    this.drawMarks();
  }

  drawGrid() {
    const { w, h } = this.size;
    const [x0, y1] = this.toPlan([0, 0]);
    const [x1, y0] = this.toPlan([w, h]);
    const step = this.view.s >= 14 ? 1 : this.view.s >= 3 ? 5 : this.view.s >= 0.8 ? 20 : 100;
    let d = "";
    for (let v = Math.ceil(x0 / step) * step; v <= x1; v += step) d += `M${v} ${y0}V${y1}`;
    for (let v = Math.ceil(y0 / step) * step; v <= y1; v += step) d += `M${x0} ${v}H${x1}`;
    keyed(this.grid, [d], () => "lines", () => el("path", {}), (e) => set(e, { d }));
  }

  drawMap() {
    const lawn = this.all.filter((t) => t.kind === "lawn");
    keyed(this.clip, lawn, key, () => el("polygon", {}), (e, t) => set(e, { points: t.ring.join(" ") }));
    const look = this.app.look();
    if (look !== this.drawn) {
      this.drawn = look;
      const paths = (list) => [...(list ?? [])];
      keyed(this.map, paths(look?.paths), ([v]) => v, () => el("path", { class: "band" }), (e, [v, d]) => set(e, { d, fill: look.colour(v) }));
      keyed(this.hatching, paths(look?.zones), ([v]) => v, () => el("path", {}), (e, [v, d]) => set(e, { d, fill: `url(#d-zone-${Math.min(v, 3)})` }));
      for (const e of [this.seamsHalo, this.seams]) set(e, { d: look?.seams ?? "" });
    }
    for (const p of [...this.patterns, this.screen]) set(p, { patternTransform: `scale(${1 / this.view.s})` });
  }

  drawBodies() {
    const chosen = this.app.chosen;
    keyed(
      this.bodies, this.all.filter((t) => t.ring || t.at), key,
      (t) => {
        const g = el("g", { "data-thing": key(t), tabindex: 0, role: "button", onfocus: () => this.show(t.at ?? this.nearest(g.thing)) });
        return g;
      },
      (g, t) => {
        g.thing = t;
        const is = chosen?.thing === key(t);
        set(g, {
          class: `thing ${t.kind}${is ? " chosen" : ""}${t.kind === "tree" && t.says.leaf !== "evergreen" ? " bare" : ""}`,
          "aria-pressed": is ? "true" : "false", "aria-label": this.describe(t),
        });
        const shapes = this.shapes(t);
        keyed(g, shapes, (sh) => sh.name, (sh) => el(sh.tag, {}), (e, sh) => set(e, { class: sh.name, ...sh.props }));
      },
    );
  }

  nearest(t) {
    return t.at ?? middle(t.ring);
  }

  describe(t) {
    const n = t.ring ? `, ${t.ring.length} corners` : "";
    const high = typeof t.says?.height_m === "number" ? `, ${t.says.height_m} m high` : "";
    return `${t.name}${n}${high}`;
  }

  shapes(t) {
    if (t.kind === "probe") {
      const [x, y] = this.toPage(t.at);
      return [
        { name: "hit", tag: "circle", props: { cx: x, cy: y, r: hitPX } },
        { name: "halo", tag: "path", props: { d: `M${x - 6} ${y}h12M${x} ${y - 6}v12` } },
        { name: "cross", tag: "path", props: { d: `M${x - 6} ${y}h12M${x} ${y - 6}v12` } },
      ];
    }
    if (t.at) {
      const [cx, cy] = this.toPage(t.at);
      const r = Math.max((t.crown / 2) * this.view.s, 4);
      return [
        { name: "hit", tag: "circle", props: { cx, cy, r: Math.max(r, hitPX) } },
        { name: "crown", tag: "circle", props: { cx, cy, r } },
        { name: "stem", tag: "circle", props: { cx, cy, r: 3 } },
      ];
    }
    const points = t.ring.map((p) => this.toPage(p).map((v) => v.toFixed(1)).join(",")).join(" ");
    const list = [{ name: "hit", tag: "polygon", props: { points } }, { name: "body", tag: "polygon", props: { points } }];
    if (t.kind === "screen") list.push({ name: "slats", tag: "polygon", props: { points, fill: "url(#d-screen)" } });
    if (t.kind === "gable" && t.ring.length === 4) {
      const mid = (a, b) => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      const [a, b, c, d] = t.ring.map((p) => this.toPage(p));
      const long = distance(a, b) > distance(b, c);
      const [p, q] = long ? [mid(d, a), mid(b, c)] : [mid(a, b), mid(c, d)];
      list.push({ name: "ridge", tag: "path", props: { d: `M${p}L${q}` } });
    }
    return list;
  }

  drawLabels() {
    const list = [];
    const add = (name, p, text, kind) => list.push({ name, p, text, kind });
    const look = this.app.look();
    for (const z of look?.letters ?? []) add(`zone ${z.letter}`, this.toPage(z.at), z.letter, "letter");
    for (const t of this.all) {
      if (t.kind === "probe" && t.at) {
        const [x, y] = this.toPage(t.at);
        add(key(t), [x + 13, y - 9], t.number <= 26 ? String.fromCharCode(96 + t.number) : t.number, "small");
      } else if (t.number && (t.ring || t.at)) {
        const [x, y] = this.toPage(t.at ?? middle(t.ring));
        const m = 12;
        add(key(t), [Math.min(Math.max(x, m), this.size.w - m), Math.min(Math.max(t.at ? y + 13 : y, m), this.size.h - m)], t.number, "number");
      }
      if (t.ring && this.app.chosen?.thing === key(t)) {
        sides(t.ring).forEach((d, i) => {
          const a = this.toPage(t.ring[i]);
          const b = this.toPage(t.ring[(i + 1) % t.ring.length]);
          const px = distance(a, b);
          if (px < 44) return;
          // Outside the outline, half a line off the side.
          const c = this.toPage(middle(t.ring));
          const m = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
          let n = [(b[1] - a[1]) / px, -(b[0] - a[0]) / px];
          if ((m[0] - c[0]) * n[0] + (m[1] - c[1]) * n[1] < 0) n = [-n[0], -n[1]];
          add(`side ${i}`, [m[0] + n[0] * 20, m[1] + n[1] * 13], `${d.toFixed(2)}`, "side");
        });
      }
    }
    // The figures of a map stand beside what is there already.
    for (const f of look?.figures ?? []) {
      const wide = f.wide * (this.app.show.what === "hour" ? this.app.hours : this.app.light).cell_m * this.view.s;
      if (!(wide > 30)) continue;
      const [x, y] = this.toPage(f.at);
      const free = ([a, b]) => list.every((l) => Math.abs(l.p[0] - a) > 32 || Math.abs(l.p[1] - b) > 17);
      const step = Math.min(wide / 2 - 8, 24);
      const p = [[x, y], [x, y + step], [x, y - step], [x + 1.5 * step, y], [x - 1.5 * step, y]].find(free);
      if (p) add(`figure ${f.text}`, p, f.text, "figure");
    }
    keyed(
      this.labels, list, (l) => l.name, (l) => el("g", { class: l.kind }, l.kind === "number" ? el("circle", { r: 9 }) : null, el("text", { "text-anchor": "middle", dy: "0.35em" })),
      (e, l) => {
        set(e, { transform: `translate(${l.p[0].toFixed(1)} ${l.p[1].toFixed(1)})` });
        const text = e.lastChild;
        if (text.textContent !== String(l.text)) text.textContent = l.text;
      },
    );
  }

  // What is being placed, and where the pointer would put its next corner.
  drawDraft() {
    const placing = this.app.placing;
    const points = placing ? [...placing.points, ...(this.hover ? [this.hover.at] : [])].map((p) => this.toPage(p)) : [];
    const list = points.length > 0 ? [{ name: "line", tag: "polyline", props: { points: points.map((p) => p.map((v) => v.toFixed(1)).join(",")).join(" ") } }] : [];
    (placing?.points ?? []).forEach((p, i) => {
      const [cx, cy] = this.toPage(p);
      list.push({ name: `point ${i}`, tag: "circle", props: { cx, cy, r: 5 } });
    });
    const ring = (name, p) => {
      const [cx, cy] = this.toPage(p);
      list.push({ name, tag: "circle", props: { cx, cy, r: 11 } });
    };
    if (this.guide) ring("guide", this.guide.at);
    if (this.app.preview) ring("preview", this.app.preview);
    keyed(this.draft, list, (l) => l.name, (l) => el(l.tag, { class: l.name.split(" ")[0] }), (e, l) => set(e, l.props));
  }

  drawHandles() {
    const chosen = this.app.chosen;
    const t = chosen && this.all.find((t) => key(t) === chosen.thing);
    const corners = t?.ring ? t.ring : t?.at ? [t.at] : [];
    keyed(
      this.handles, this.app.placing ? [] : corners, (p, i) => `${key(t)} ${i}`,
      (p, i) => {
        const g = el("g", { class: "corner", "data-corner": i, tabindex: 0, role: "button", onfocus: () => this.app.choose(g.thing, i, { from: "drawing" }) }, el("circle", { class: "hit", r: hitPX }), el("circle", { class: "knob", r: 7 }));
        return g;
      },
      (g, p, i) => {
        const [x, y] = this.toPage(p);
        g.thing = key(t);
        const is = chosen.corner === i;
        set(g, {
          transform: `translate(${x.toFixed(1)} ${y.toFixed(1)})`, class: `corner${is ? " chosen" : ""}${is && this.app.taken ? " taken" : ""}`, "aria-pressed": is && this.app.taken ? "true" : "false",
          "aria-label": `${t.name}${t.ring ? `, corner ${i + 1} of ${t.ring.length}` : ""}: x ${p[0].toFixed(2)}, y ${p[1].toFixed(2)} metres. Arrows move it.`,
        });
      },
    );
  }

  // North and a scale bar, as on the paper.
  drawMarks() {
    const north = Number(this.app.says.lawn?.plan_north_deg ?? 0) || 0;
    const target = 90 / this.view.s;
    const length = niceStep(target, 1);
    const px = length * this.view.s;
    const y = this.size.h - 12;
    const list = [
      { name: "north", tag: "g", props: { transform: `translate(${this.size.w - 24} 26) rotate(${-north})` } },
      { name: "bar", tag: "path", props: { d: `M12 ${y}h${px.toFixed(1)}M12 ${y - 4}v8M${(12 + px).toFixed(1)} ${y - 4}v8` } },
      { name: "length", tag: "text", props: { x: 12 + px + 6, y: y + 4 } },
    ];
    keyed(
      this.marks, list, (l) => l.name,
      (l) => (l.name === "north" ? el("g", { class: "north" }, el("path", { d: "M0 -12L6 12L0 8L-6 12Z" }), el("text", { y: -14, "text-anchor": "middle" }, "N")) : el(l.tag, { class: l.name })),
      (e, l) => {
        set(e, l.props);
        if (l.name === "length") e.textContent = `${length} m`;
      },
    );
  }

  // --- pointing ---

  snapped(p, ring, i, free, own) {
    if (!this.app.snapping || free) {
      this.guide = null;
      return { at: pointToCentimetre(p), said: "" };
    }
    const others = namedPoints(this.all).filter((n) => n.thing !== own).map((n) => n.at);
    const s = snap(p, { ring, i, others, reach: reachPX / this.view.s });
    this.guide = s.said ? s : null;
    return s;
  }

  down(e) {
    if (e.button > 0) return;
    const q = this.at(e);
    this.pointers.set(e.pointerId, q);
    if (this.pointers.size === 2) {
      this.press = null; // a pinch
      this.app.dropDrag();
      return;
    }
    const corner = e.target.closest(".corner");
    const body = e.target.closest(".thing");
    this.press = { q, id: e.pointerId, corner: corner && Number(corner.dataset.corner), thing: corner?.thing ?? body?.dataset.thing, moved: false, touch: e.pointerType === "touch" };
    if (corner || e.pointerType !== "touch") {
      this.svg.setPointerCapture(e.pointerId);
      e.preventDefault();
      (corner ?? body ?? this.svg).focus({ preventScroll: true });
    }
  }

  move(e) {
    const q = this.at(e);
    if (this.pointers.size === 2 && this.pointers.has(e.pointerId)) return this.pinch(e.pointerId, q);
    const was = this.pointers.get(e.pointerId);
    if (this.pointers.has(e.pointerId)) this.pointers.set(e.pointerId, q);
    const p = this.press;
    if (!p) {
      if (this.app.placing && e.pointerType !== "touch") {
        this.hover = this.snapped(this.toPlan(q), [...this.app.placing.points, this.toPlan(q)], this.app.placing.points.length, e.altKey);
        this.drawDraft();
      }
      return;
    }
    if (!p.moved && distance(p.q, q) < clickPX) return;
    p.moved = true;
    const t = this.all.find((t) => key(t) === p.thing);
    if (p.corner !== null && p.corner !== undefined && t) {
      const to = this.snapped(this.toPlan(q), t.ring ?? [], p.corner, e.altKey, key(t));
      this.app.dragTo(t, p.corner, to.at, to.said);
    } else if (t && this.app.chosen?.thing === p.thing && t.kind !== "lawn" && !this.app.placing) {
      p.start ??= t;
      const a = this.toPlan(p.q);
      const b = this.toPlan(q);
      const grid = this.app.snapping && !e.altKey ? (v) => Math.round(v * 10) / 10 : (v) => v;
      this.app.dragBy(p.start, grid(b[0] - a[0]), grid(b[1] - a[1]));
    } else if (was && !p.touch) {
      this.pan(q[0] - was[0], q[1] - was[1]);
    }
  }

  pinch(id, q) {
    const [[ia, a], [ib, b]] = [...this.pointers];
    const [p, r] = id === ia ? [q, b] : [a, q];
    const before = distance(a, b);
    const mid = [(p[0] + r[0]) / 2, (p[1] + r[1]) / 2];
    const old = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    this.pointers.set(id, q);
    if (before > 0) this.zoom(distance(p, r) / before, old);
    this.pan(mid[0] - old[0], mid[1] - old[1]);
  }

  up(e) {
    const p = this.press;
    this.pointers.delete(e.pointerId);
    this.press = null;
    this.guide = null;
    if (!p || p.id !== e.pointerId) return;
    if (p.moved) {
      this.app.settleDrag();
      return;
    }
    const where = this.toPlan(p.q);
    if (this.app.placing) {
      const points = this.app.placing.points;
      this.app.place(this.snapped(where, [...points, where], points.length, e.altKey).at);
    } else if (p.corner !== null && p.corner !== undefined) {
      this.app.take(p.thing, p.corner);
    } else if (this.app.taken) {
      const t = this.all.find((t) => key(t) === this.app.chosen.thing);
      this.app.putDown(this.snapped(where, t?.ring ?? [], this.app.chosen.corner, e.altKey, key(t)).at);
    } else this.app.choose(p.thing ?? null, null, { from: "drawing" });
    this.guide = null;
    this.render();
  }

  cancel(e) {
    this.pointers.delete(e.pointerId);
    if (this.press?.id === e.pointerId) {
      this.press = null;
      this.guide = null;
      this.app.dropDrag();
    }
  }

  wheel(e) {
    if (!e.ctrlKey && document.activeElement !== this.svg && !this.svg.contains(document.activeElement)) return; // the page scrolls
    e.preventDefault();
    this.zoom(Math.exp(-e.deltaY / 400), this.at(e));
  }

  keys(e) {
    if (e.ctrlKey || e.metaKey) return;
    const corner = e.target.closest(".corner");
    const body = e.target.closest(".thing");
    const step = e.shiftKey ? 1 : 0.1;
    const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[e.key];
    const t = this.all.find((t) => key(t) === (corner?.thing ?? body?.dataset.thing));
    const i = corner ? Number(corner.dataset.corner) : null;
    let done = true;
    if (way && corner) {
      const p = t.ring ? t.ring[i] : t.at;
      this.app.nudge(t, i, pointToCentimetre([p[0] + way[0] * step, p[1] + way[1] * step]));
    } else if (way && body && t.kind !== "lawn") this.app.nudgeAll(t, way[0] * step, way[1] * step);
    else if (way) this.pan(-way[0] * 40, way[1] * 40);
    else if (e.key === "Enter" || e.key === " ") {
      if (corner) this.app.take(key(t), i);
      else if (body) {
        this.app.choose(key(t), 0, { from: "drawing" });
        this.handles.querySelector(".corner")?.focus();
      } else done = false;
    } else if ((e.key === "Delete" || e.key === "Backspace") && corner && t.ring) this.app.removeCorner(t, i);
    else if (e.key === "Insert" && corner && t.ring) this.app.addCorner(t, i);
    else if (e.key === "Escape") {
      if (corner && !this.app.taken) this.bodies.querySelector(`[data-thing="${key(t)}"]`)?.focus();
      this.app.letGo();
    } else if (e.key === "+" || e.key === "=") this.zoom(1.25);
    else if (e.key === "-") this.zoom(0.8);
    else if (e.key === "0") this.fit();
    else done = false;
    if (done) {
      e.preventDefault();
      e.stopPropagation();
    }
  }
}

// The corners of a thing with one moved; a gable stays a rectangle.
export function moved(t, i, p) {
  if (!t.ring) return p;
  if (t.kind === "gable" && isRectangle(t.ring)) return rectangleWith(t.ring, i, p);
  return t.ring.map((q, k) => (k === i ? p : q));
}

// How the light is drawn: paths by value with their colours, zones and letters.
export function lookOf(light, hours, show) {
  if (!light) return null;
  const letters = (light.cells.col.length > 0 ? light.zones : []).map((z, i) => ({ letter: z.letter, at: heart(light.cells, light.cell_m, i)?.at })).filter((l) => l.at);
  const look = { letters, seams: seams(light.cells, light.cell_m), bands: [] };
  if (show.what === "hour" && hours) {
    const at = hours.at.find((a) => a.hour === show.hour) ?? hours.at[Math.floor(hours.at.length / 2)];
    const band = (share) => (share === 0 ? 0 : share < 34 ? 1 : share < 67 ? 2 : share < 100 ? 3 : 4);
    look.paths = at ? runs(hours.cells, hours.cell_m, (k) => band(at.share[k])) : new Map();
    look.figures = at ? figures(hours, (k) => band(at.share[k]), [[0, "shade"], [4, "sun"]]) : [];
    look.bands = [["no sun", 0], ["up to a third", 1], ["to two thirds", 2], ["more", 3], ["full sun", 4]];
    look.colour = (v) => show.scale[Math.round((v / 4) * (show.scale.length - 1))];
    look.at = at;
    return look;
  }
  if (show.what === "sun" || show.what === "dli") {
    const list = light[show.what][show.month];
    // One scale for the whole year, so that months can be compared.
    light.tops ??= {};
    const top = (light.tops[show.what] ??= light[show.what].reduce((m, l) => l.reduce((n, v) => Math.max(n, v), m), 10) / 10);
    const step = niceStep(top, 7);
    const last = Math.max(Math.ceil(top / step - 1e-9), 1);
    const band = (k) => Math.min(Math.floor(list[k] / 10 / step), last - 1);
    look.paths = runs(light.cells, light.cell_m, band);
    look.colour = (v) => show.scale[Math.round(((v + 0.5) / last) * (show.scale.length - 1))];
    for (let v = 0; v < last; v++) look.bands.push([`${+(v * step).toFixed(2)} to ${+((v + 1) * step).toFixed(2)}`, v]);
    look.figures = figures(light, band, look.bands.map(([words, v]) => [v, words.replace(" to ", "–")]));
    return look;
  }
  look.paths = runs(light.cells, light.cell_m, (k) => light.cells.zone[k]);
  look.zones = look.paths;
  look.colour = (v) => tint(0.16 + 0.2 * Math.min(v, 3));
  return look;
}

// A figure in each band of a map, where it is widest, so that no one has to match colours.
function figures({ cells, cell_m }, of, words) {
  return words.map(([v, text]) => ({ text, ...heart(cells, cell_m, v, of) })).filter((f) => f.at);
}

// The green of the zones, thinned with white.
const tint = (strength) => `rgb(${[0x00, 0x9e, 0x73].map((v) => Math.round(255 - (255 - v) * strength)).join(" ")})`;
