// Entering what was measured on the ground: points by coordinates, two tapes or an offset;
// a check distance; north; the far skyline.

import { el, set, say, keyed, id } from "./dom.js";
import { namedPoints, kindNames } from "./things.js";
import { distance, readLength, readNumber, pointToCentimetre } from "./geometry.js";

// A labelled entry.
function entry(label, input, unit) {
  const name = id("entry");
  set(input, { id: name });
  return el("div", { class: "field" }, el("label", { for: name }, label), el("div", { class: "entry" }, input, unit ? el("span", { class: "unit" }, unit) : null));
}

const lengthInput = (oninput) => el("input", { type: "text", inputmode: "decimal", autocomplete: "off", class: "short", oninput });

// Choices of which one is taken.
function choices(legend, options, change) {
  const name = id("choice");
  const node = el(
    "fieldset", { class: "choices" }, el("legend", {}, legend),
    options.map(([value, label], i) => el("label", {}, el("input", { type: "radio", name, value, checked: i === 0, onchange: () => change(value) }), ` ${label}`)),
  );
  node.value = () => node.querySelector("input:checked").value;
  return node;
}

// A choice among the points of the drawing that have a name.
class PointPick {
  constructor(app, label, change) {
    this.app = app;
    this.input = el("select", {
      onchange: () => {
        this.picked = this.input.value;
        change();
      },
    });
    this.node = entry(label, this.input);
  }

  update(points, fallback = 0) {
    keyed(this.input, points, (p) => p.name, (p) => el("option", { value: p.name }, p.name), () => {});
    if (!points.some((p) => p.name === this.picked)) this.picked = null; // it is gone
    const name = this.picked ?? (points[fallback] ?? points[0])?.name;
    if (name !== undefined && this.input.value !== name) this.input.value = name;
  }

  get at() {
    return this.points().find((p) => p.name === this.input.value)?.at;
  }

  points() {
    return allPoints(this.app);
  }
}

function allPoints(app) {
  const placing = app.placing ? app.placing.points.map((at, i) => ({ name: `the new ${kindNames[app.placing.kind].toLowerCase()}, corner ${i + 1}`, at, thing: "placing", corner: i })) : [];
  return [...namedPoints(app.things()), ...placing];
}

export class Measure {
  constructor(app, drawing) {
    this.app = app;
    this.drawing = drawing;
    const look = () => this.look();
    this.by = choices("How it was measured", [["xy", "x and y"], ["tapes", "two tapes"], ["offset", "along a line and off it"]], () => {
      this.update();
      look();
    });
    this.a = new PointPick(app, "From point A", look);
    this.b = new PointPick(app, "and point B", look);
    this.first = lengthInput(look);
    this.second = lengthInput(look);
    this.firstField = entry("x, right", this.first, "m");
    this.secondField = entry("y, up", this.second, "m");
    this.side = choices("Which side, seen from A towards B", [["left", "left"], ["right", "right"]], look);
    this.result = el("p", { class: "result", role: "status" });
    this.go = el("div", { class: "acts" }, this.put = this.button("Put it there", () => this.putThere()), this.after = this.button("Add it as the corner after", () => this.addAfter()), this.place = this.button("Add this corner", () => this.addHere()), this.done = this.button("Finish", () => app.finish()), this.back = this.button("Take back", () => app.placeBack()), this.stop = this.button("Leave it", () => app.stopPlacing()));
    this.target = el("p", { class: "note" });
    this.node = el("section", { class: "measure", "aria-labelledby": "d-measure-h" }, el("h3", { id: "d-measure-h" }, "As measured"), this.target, this.by, el("div", { class: "fields" }, this.a.node, this.b.node, this.firstField, this.secondField), this.side, this.result, this.go);
  }

  button(text, onclick) {
    return el("button", { type: "button", onclick }, text);
  }

  update() {
    const { placing, chosen } = this.app;
    const t = this.app.thing();
    const points = allPoints(this.app);
    const by = this.by.value();
    const poly = placing && placing.kind !== "tree" && placing.kind !== "probe";
    this.node.hidden = !placing && !t;
    say(
      this.target,
      placing
        ? poly
          ? `New: ${kindNames[placing.kind].toLowerCase()}. ${placing.kind === "gable" ? "Two corners along one side, then one across." : "Its corners in order."} Press on the drawing, or enter corner ${placing.points.length + 1}.`
          : `New: ${kindNames[placing.kind].toLowerCase()}. Press where it is, or enter it.`
        : t
          ? `For ${t.name}${t.ring ? `, corner ${chosen.corner + 1}` : ""}.`
          : "",
    );
    for (const e of [this.a.node, this.b.node, this.side]) e.hidden = by === "xy";
    say(this.firstField.firstChild, by === "xy" ? "x, right" : by === "tapes" ? "Tape from A" : "Along, from A towards B");
    say(this.secondField.firstChild, by === "xy" ? "y, up" : by === "tapes" ? "Tape from B" : "Off the line");
    this.a.update(points, 0);
    this.b.update(points, 1);
    this.put.hidden = !!placing || !t;
    this.after.hidden = !!placing || !t?.ring;
    say(this.after, t?.ring ? `Add it after corner ${chosen.corner + 1}` : "");
    this.place.hidden = !placing;
    say(this.place, poly ? "Add this corner" : "Place it there");
    this.done.hidden = !poly;
    this.done.disabled = !poly || placing.points.length < 3;
    this.back.hidden = !poly;
    this.back.disabled = !poly || placing.points.length === 0;
    this.stop.hidden = !placing;
    for (const b of [this.put, this.after, this.place]) b.disabled = !this.found;
  }

  // What the entries come to. The core fixes points; the newest entries count.
  async look() {
    const [x, y] = [readLength(this.first.value), readLength(this.second.value)];
    const by = this.by.value();
    this.found = null;
    if (x === null || y === null) {
      say(this.result, this.first.value.trim() && this.second.value.trim() ? "That is no length in metres." : "");
    } else if (by === "xy") this.show({ at: pointToCentimetre([x, y]) });
    else {
      const [a, b] = [this.a.at, this.b.at];
      if (!a || !b) say(this.result, "There are no two points to measure from yet; enter these by x and y.");
      else {
        const right = this.side.value() === "right";
        const point = by === "tapes" ? { by, a, b, from_a: x, from_b: y, right } : { by, a, b, along: x, off: y, right };
        const asked = (this.asked = Symbol());
        const answer = await this.app.ask({ point }).catch(() => null);
        if (asked !== this.asked || !answer) return;
        this.show(answer.point);
      }
    }
    this.app.preview = this.found;
    this.update();
    this.drawing.render();
  }

  show(found) {
    this.found = found.at ?? null;
    const where = found.at ? `x ${found.at[0].toFixed(2)}, y ${found.at[1].toFixed(2)}.` : "";
    say(this.result, [where, found.said, found.warned, found.refused].filter(Boolean).join(" "));
    set(this.result, { class: `result${found.refused ? " refused" : found.warned ? " warned" : ""}` });
  }

  used() {
    this.found = this.app.preview = null;
    this.first.value = this.second.value = "";
    say(this.result, "");
    this.first.focus();
    this.app.update();
  }

  putThere() {
    this.app.putDown(this.found);
    this.used();
  }

  addAfter() {
    this.app.addCorner(this.app.thing(), this.app.chosen.corner, this.found);
    this.used();
  }

  addHere() {
    this.app.place(this.found);
    this.used();
    if (!this.app.placing) this.node.blur();
  }
}

// A distance between two points as drawn, against the tape.
export class Check {
  constructor(app) {
    this.app = app;
    const look = () => this.update();
    this.a = new PointPick(app, "From", look);
    this.b = new PointPick(app, "to", look);
    this.tape = lengthInput(look);
    this.result = el("p", { class: "result", role: "status" });
    this.node = el("details", {}, el("summary", {}, "Check a diagonal"), el("div", { class: "fields" }, this.a.node, this.b.node, entry("By the tape", this.tape, "m")), this.result);
    this.node.addEventListener("toggle", look);
  }

  update() {
    if (!this.node.open) return;
    const points = allPoints(this.app);
    this.a.update(points, 0);
    this.b.update(points, 2);
    const [a, b] = [this.a.at, this.b.at];
    if (!a || !b) return;
    const drawn = distance(a, b);
    const taped = readLength(this.tape.value);
    const off = taped === null ? null : Math.round((taped - drawn) * 100);
    say(this.result, `${drawn.toFixed(2)} m as drawn.${off === null ? "" : off === 0 ? " The tape agrees." : ` The tape has ${Math.abs(off)} cm ${off > 0 ? "more" : "less"}.`}`);
  }
}

// North from a wall whose bearing was taken, or from a shadow at a clock time.
export class North {
  constructor(app) {
    this.app = app;
    const look = () => this.look();
    this.by = choices("How north was found", [["bearing", "compass bearing of a line"], ["shadow", "an upright's shadow at a clock time"]], () => {
      this.update();
      look();
    });
    this.a = new PointPick(app, "Line from", look);
    this.b = new PointPick(app, "to", look);
    this.bearing = lengthInput(look);
    this.variation = lengthInput(look);
    this.turned = lengthInput(look);
    this.day = el("input", { type: "date", oninput: look });
    this.time = el("input", { type: "time", oninput: look });
    this.zone = lengthInput(look);
    this.fields = {
      bearing: entry("Bearing from the one to the other", this.bearing, "°"),
      variation: entry("Variation of the compass, east positive", this.variation, "°"),
      turned: entry("The shadow falls clockwise of that line by", this.turned, "°"),
      day: entry("Day", this.day), time: entry("Clock time", this.time), zone: entry("The clock is ahead of UTC by", this.zone, "h"),
    };
    this.result = el("p", { class: "result", role: "status" });
    this.put = el("button", { type: "button", onclick: () => app.setValue(["lawn", "plan_north_deg"], this.found, "north") }, "Take it");
    this.node = el("details", {}, el("summary", {}, "North by a bearing or a shadow"), this.by, el("div", { class: "fields" }, this.a.node, this.b.node, Object.values(this.fields)), this.result, this.put);
    this.node.addEventListener("toggle", () => this.update());
  }

  update() {
    if (!this.node.open) return;
    const points = allPoints(this.app);
    this.a.update(points, 0);
    this.b.update(points, 1);
    const shadow = this.by.value() === "shadow";
    for (const [k, e] of Object.entries(this.fields)) e.hidden = shadow === ["bearing", "variation"].includes(k);
    this.put.disabled = this.found === null || this.found === undefined;
  }

  async look() {
    const [a, b] = [this.a.at, this.b.at];
    this.found = null;
    say(this.result, "");
    const n = (input) => (input.value.trim() === "" ? 0 : readNumber(input.value));
    if (!a || !b) say(this.result, "Draw two points of the line first.");
    else {
      let north;
      if (this.by.value() === "bearing") {
        if (this.bearing.value.trim() !== "") north = { by: "bearing", from: a, to: b, bearing: n(this.bearing) ?? -1, variation: n(this.variation) ?? 0 };
      } else if (this.day.value && this.time.value && this.zone.value.trim() !== "") {
        // The shadow runs from the line's first point, turned clockwise.
        const turn = ((n(this.turned) ?? 0) * Math.PI) / 180;
        const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
        const to = [a[0] + dx * Math.cos(turn) + dy * Math.sin(turn), a[1] - dx * Math.sin(turn) + dy * Math.cos(turn)];
        const ahead = n(this.zone) ?? 0;
        const place = this.app.where();
        const zone = `${ahead < 0 ? "-" : "+"}${String(Math.floor(Math.abs(ahead))).padStart(2, "0")}:${String(Math.round((Math.abs(ahead) % 1) * 60)).padStart(2, "0")}`;
        north = { by: "shadow", from: a, to, time: `${this.day.value}T${this.time.value.slice(0, 5)}:00${zone}`, latitude: place.latitude ?? 999, longitude: place.longitude ?? 999 };
      }
      if (north) {
        const asked = (this.asked = Symbol());
        const answer = await this.app.ask({ north }).catch(() => null);
        if (asked !== this.asked || !answer) return;
        const f = answer.north;
        this.found = f.north ?? null;
        say(this.result, [f.north === undefined ? "" : `“Up the page” bears ${f.north}°.`, f.said, f.warned, f.refused].filter(Boolean).join(" "));
        set(this.result, { class: `result${f.refused ? " refused" : f.warned ? " warned" : ""}` });
      }
    }
    this.update();
  }
}

// The far skyline as bearings and elevations, with a strip that shows it all round.
export class Skyline {
  constructor(app) {
    this.app = app;
    this.path = ["lawn", "horizon"];
    this.body = el("tbody", {});
    this.fault = el("p", { class: "fault" });
    this.line = el("path", { class: "skyline" });
    this.strip = el("svg", { class: "strip", viewBox: "0 0 360 60", role: "img", "aria-label": "The far skyline from north round to north" }, el("path", { class: "zero", d: "M0 50H360" }), this.line, ["N", "E", "S", "W"].map((w, i) => el("text", { x: i * 90 + (i === 0 ? 4 : 0), y: 59, "text-anchor": "middle" }, w)));
    this.node = el(
      "details", {}, el("summary", {}, "The far skyline"), el("p", { class: "note" }, "What stands beyond the drawing, as bearing and height in degrees; between the points it runs straight. Left out: flat."),
      this.strip, el("table", { class: "corners" }, el("caption", {}, "Skyline, degrees"), el("thead", {}, el("tr", {}, ["", "Bearing", "Height", ""].map((h) => (h ? el("th", { scope: "col" }, h) : el("td"))))), this.body),
      el("button", { type: "button", onclick: () => this.add() }, "Add a point"), this.fault,
    );
    this.node.addEventListener("toggle", () => this.update());
  }

  get points() {
    const v = this.app.brief.says.lawn?.horizon;
    return Array.isArray(v) ? v.filter((p) => Array.isArray(p) && p.length === 2) : [];
  }

  set(points, what) {
    this.app.setValue(this.path, points.length > 0 ? points : null, what);
  }

  add() {
    const last = this.points.at(-1);
    this.set([...this.points, last ? [Math.min(Number(last[0]) + 30, 360) || 0, last[1]] : [0, 0]], "skyline point added");
  }

  update() {
    if (!this.node.open) return;
    const points = this.points;
    keyed(
      this.body, points, (p, i) => i,
      (p, i) => {
        const inputs = ["bearing", "height"].map((what, k) =>
          el("input", { type: "text", inputmode: "decimal", class: "short", "aria-label": `Skyline point ${i + 1}, ${what}`, onchange: (e) => this.set(this.points.map((q, j) => (j === i ? q.map((v, m) => (m === k ? readNumber(e.target.value) ?? e.target.value : v)) : q)), "skyline") }),
        );
        const row = el("tr", {}, el("th", { scope: "row" }, String(i + 1)), inputs.map((e) => el("td", {}, e)), el("td", {}, el("button", { type: "button", "aria-label": `Remove skyline point ${i + 1}`, onclick: () => this.set(this.points.filter((q, j) => j !== i), "skyline point removed") }, "−")));
        row.inputs = inputs;
        return row;
      },
      (row, p) => row.inputs.forEach((e, k) => e !== document.activeElement && e.value !== String(p[k]) && (e.value = String(p[k]))),
    );
    const sorted = points.filter((p) => p.every((v) => typeof v === "number")).sort((a, b) => a[0] - b[0]);
    let d = "";
    if (sorted.length > 0) {
      const y = (e) => 50 - Math.min(Math.max(e, -10), 45);
      const first = sorted[0];
      const last = sorted.at(-1);
      // Across north, from the last point round to the first.
      const gap = first[0] + 360 - last[0];
      const north = gap > 0 ? last[1] + ((first[1] - last[1]) * (360 - last[0])) / gap : first[1];
      d = `M0 ${y(north)}${sorted.map((p) => `L${p[0]} ${y(p[1])}`).join("")}L360 ${y(north)}`;
    }
    set(this.line, { d });
    say(this.fault, this.app.brief.faults.filter((f) => f.path.startsWith("lawn.horizon")).map((f) => f.text).join("; "));
  }
}

export { entry, choices };
