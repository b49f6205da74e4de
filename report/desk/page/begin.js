// A brief begun with a few questions, the place first. Nothing is taken that nobody gave.

import { el, say } from "./dom.js";
import { choices, entry } from "./measure.js";
import { Stations } from "./stations.js";
import { readLength, readNumber } from "./geometry.js";

export class Begin {
  constructor(app, done) {
    this.app = app;
    this.done = done;
    this.where = choices("Where does it lie?", [["station", "near a weather station, by name"], ["position", "at a latitude and longitude"]], () => this.update());
    const search = () => this.search();
    this.named = el("input", { type: "search", autocomplete: "off", oninput: search });
    this.latitude = el("input", { type: "text", inputmode: "decimal", class: "short", autocomplete: "off", oninput: search });
    this.longitude = el("input", { type: "text", inputmode: "decimal", class: "short", autocomplete: "off", oninput: search });
    this.altitude = el("input", { type: "text", inputmode: "decimal", class: "short", autocomplete: "off", oninput: search });
    this.byName = el("div", { class: "fields" }, entry("Name of the station or its country", this.named));
    this.byPosition = el("div", { class: "fields" }, entry("Latitude, north positive", this.latitude, "°"), entry("Longitude, east positive", this.longitude, "°"), entry("Height above the sea, if known", this.altitude, "m"));
    this.stations = new Stations(app);
    this.size = choices("How large is it?", [["draw", "I'll draw it, or enter it as measured"], ["rectangle", "a rectangle"], ["area", "I know its area, and its hours of sun"]], () => this.update());
    this.along = el("input", { type: "text", inputmode: "decimal", class: "short", autocomplete: "off" });
    this.across = el("input", { type: "text", inputmode: "decimal", class: "short", autocomplete: "off" });
    this.areaM2 = el("input", { type: "text", inputmode: "decimal", class: "short", autocomplete: "off" });
    this.sun = el("input", { type: "text", inputmode: "decimal", class: "short", autocomplete: "off" });
    this.rectangle = el("div", { class: "fields" }, entry("Along the foot of the page", this.along, "m"), entry("and up it", this.across, "m"));
    this.known = el("div", { class: "fields" }, entry("Area", this.areaM2, "m²"), entry("Direct sun on a clear day, mean of the growing season", this.sun, "h"));
    const field = (path) => app.fieldOf.get(path);
    const select = (f, first) => el("select", {}, first ? el("option", { value: "" }, first) : null, f.words.map((w) => el("option", { value: w }, w)));
    this.grade = select(field("use.grade"), "—");
    this.title = el("input", { type: "text", autocomplete: "off" });
    this.units = select(field("units"));
    this.currency = el("input", { type: "text", class: "short", autocomplete: "off", placeholder: "GBP" });
    this.language = el("input", { type: "text", class: "short", autocomplete: "off", placeholder: "en-GB" });
    this.missing = el("p", { class: "fault", role: "alert" });
    this.node = el(
      "form", { class: "begin", novalidate: true, onsubmit: (e) => this.go(e) }, el("h2", {}, "A new brief"), el("p", { class: "note" }, "A few questions to begin with. All of it can be changed on the next page."),
      this.where, this.byName, this.byPosition, this.stations.node, this.size, this.rectangle, this.known,
      el("div", { class: "fields" }, entry("What standard is asked for?", this.grade), entry("What shall the lawn be called?", this.title), entry("Units shown", this.units), entry("Currency", this.currency), entry("Language", this.language)),
      this.missing, el("div", { class: "acts" }, el("button", { type: "submit", class: "first" }, "Begin"), (this.open = el("label", { class: "button" }, "Open a brief", el("input", { type: "file", accept: ".toml,text/plain", class: "unseen", onchange: (e) => this.read(e.target.files[0]) })))),
    );
    this.update();
  }

  update() {
    const by = this.where.value();
    this.byName.hidden = by !== "station";
    this.byPosition.hidden = by === "station";
    const size = this.size.value();
    this.rectangle.hidden = size !== "rectangle";
    this.known.hidden = size !== "area";
    this.search();
  }

  search() {
    const by = this.where.value();
    const named = this.named.value.trim();
    if (by === "station") return this.stations.ask(named.length > 1 ? { named } : null, "Which one?");
    const [lat, lon, alt] = [this.latitude, this.longitude, this.altitude].map((i) => readNumber(i.value));
    if (lat === null || lon === null) return this.stations.ask(null);
    return this.stations.ask({ at: [lat, lon], ...(alt === null ? {} : { altitude: alt }) }, "Whose weather? The first is what a brief without a station takes.", true);
  }

  go(e) {
    e.preventDefault();
    const missing = [];
    const edits = [];
    const add = (path, value) => edits.push({ path: path.split("."), value });
    const number = (input, what, least = 0) => {
      const v = readLength(input.value);
      if (v === null || v <= least) missing.push(what);
      return v;
    };
    if (!this.title.value.trim()) missing.push("what the lawn is called");
    add("title", this.title.value.trim());
    add("units", this.units.value);
    if (this.currency.value.trim()) add("currency", this.currency.value.trim().toUpperCase());
    if (this.language.value.trim()) add("language", this.language.value.trim());
    const s = this.stations.chosen;
    if (this.where.value() === "station") {
      if (!s) missing.unshift("where it lies");
      else {
        add("place.latitude", s.latitude);
        add("place.longitude", s.longitude);
        add("place.station", s.name);
      }
    } else {
      const [lat, lon, alt] = [this.latitude, this.longitude, this.altitude].map((i) => readNumber(i.value));
      if (lat === null || lon === null) missing.unshift("where it lies");
      add("place.latitude", lat);
      add("place.longitude", lon);
      if (alt !== null) add("place.altitude_m", alt);
      if (s && s !== this.stations.found[0]) add("place.station", s.name);
    }
    const size = this.size.value();
    if (size === "rectangle") {
      const [w, h] = [number(this.along, "the rectangle's length"), number(this.across, "the rectangle's width")];
      add("lawn.outline", [[0, 0], [w, 0], [w, h], [0, h]]);
    } else if (size === "area") {
      add("lawn.area_m2", number(this.areaM2, "the area"));
      const sun = readNumber(this.sun.value);
      if (sun === null) missing.push("the hours of sun");
      add("light.sun_hours", sun);
    }
    if (!this.grade.value) missing.push("the standard asked for");
    add("use.grade", this.grade.value);
    say(this.missing, missing.length > 0 ? `Still to be said: ${missing.join("; ")}.` : "");
    if (missing.length > 0) return;
    this.done();
    this.app.edit(edits, "begun");
    if (size === "draw") this.app.begin("lawn");
  }

  async read(file) {
    if (!file) return;
    const text = await file.text();
    this.done();
    if (!this.app.file.kept) {
      this.app.file.name = file.name;
      this.app.brief.saved = text;
    }
    this.app.write(text, "opened");
  }
}
