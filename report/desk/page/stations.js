// Weather stations to choose from, by name or near a place, each with its distance and height.

import { el, say, keyed, id } from "./dom.js";

export class Stations {
  constructor(app, { legend = "Which one?", chosen } = {}) {
    this.app = app;
    this.group = id("station");
    this.change = chosen;
    this.legend = el("legend", {}, legend);
    this.list = el("div", {});
    this.set = el("fieldset", { class: "choices stations", hidden: true }, this.legend, this.list);
    this.heard = el("p", { class: "note", role: "status" });
    this.node = el("div", {}, this.set, this.heard);
    this.found = [];
  }

  // Ask for stations, or with nothing show none. first says that the first is to be taken.
  async ask(want, legend = "", first = false) {
    const asked = (this.asked = Symbol());
    const answer = want ? await this.app.ask({ stations: want }).catch(() => null) : { stations: [] };
    if (asked !== this.asked || !answer) return;
    this.offer(answer.stations ?? [], want ? legend : "", first);
  }

  offer(stations, legend, first) {
    const was = this.chosen?.name;
    this.found = stations;
    say(this.legend, legend);
    this.set.hidden = stations.length === 0;
    keyed(
      this.list, stations, (s) => s.name,
      (s) => el("label", {}, el("input", { type: "radio", name: this.group, value: s.name, onchange: () => this.change?.(this.chosen) }), el("span", {})),
      (e, s) => say(e.lastChild, ` ${s.name}, ${s.country}: ${Math.round(s.altitude_m)} m high, ${s.latitude.toFixed(2)}°, ${s.longitude.toFixed(2)}°${s.km === undefined ? "" : `, ${s.km} km away`}`),
    );
    const pick = stations.find((s) => s.name === was) ?? (first || (!this.change && stations.length === 1) ? stations[0] : null);
    if (pick) [...this.list.querySelectorAll("input")].find((i) => i.value === pick.name).checked = true;
    say(this.heard, legend && stations.length === 0 ? "No station has that in its name." : stations.length > 0 ? `${stations.length} ${stations.length === 1 ? "station" : "stations"}` : "");
  }

  get chosen() {
    const input = this.list.querySelector("input:checked");
    return this.found.find((s) => s.name === input?.value);
  }
}

// Under the fields of the place: another station for a brief that has one, or none.
export class OtherStation {
  constructor(app) {
    this.app = app;
    const name = id("entry");
    this.named = el("input", { id: name, type: "search", autocomplete: "off", oninput: () => this.search() });
    this.stations = new Stations(app, { chosen: (s) => s && app.setValue(["place", "station"], s.name, "station") });
    this.node = el("details", {}, el("summary", {}, "Find a station"), el("div", { class: "field" }, el("label", { for: name }, "By a part of its name; empty: the nearest"), this.named), this.stations.node);
    this.node.addEventListener("toggle", () => this.node.open && this.search());
  }

  search() {
    const { latitude, longitude } = this.app.where();
    const at = typeof latitude === "number" && typeof longitude === "number" ? [latitude, longitude] : null;
    const named = this.named.value.trim();
    this.stations.ask(named.length > 1 ? { named, ...(at ? { at } : {}) } : at ? { at } : null, "Take one");
  }

  update() {
    const taken = this.app.brief.says.place?.station;
    for (const i of this.stations.list.querySelectorAll("input")) i.checked = i.value === taken;
  }
}
