// The light over the lawn: what is shown, for which month or hour, and the same in a table.

import { el, set, say, keyed, id } from "./dom.js";
import { choices } from "./measure.js";

const months = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December", "the growing season"];

export class LightPanel {
  constructor(app) {
    this.app = app;
    this.what = choices(
      "Over the lawn", [["zones", "zones"], ["sun", "direct sun, clear days"], ["dli", "light, average sky"], ["hour", "a day, hour by hour"]],
      (v) => {
        app.show.what = v;
        if (v === "hour" && app.hours?.day !== app.show.day) app.refreshLight();
        app.update();
      },
    );
    const month = id("month");
    this.month = el("input", { id: month, type: "range", min: 0, max: 12, step: 1, value: 12, oninput: () => this.setMonth() });
    this.monthNow = el("output", { for: month });
    this.monthField = el("div", { class: "slider" }, el("label", { for: month }, "Month"), this.month, this.monthNow);
    const day = id("day");
    this.day = el("select", { id: day, onchange: () => this.setDay() });
    const hour = id("hour");
    this.hour = el("input", { id: hour, type: "range", oninput: () => this.setHour() });
    this.hourNow = el("output", { for: hour });
    this.hourField = el("div", { class: "slider" }, el("label", { for: day }, "Day"), this.day, el("label", { for: hour }, "Hour"), this.hour, this.hourNow);
    this.legend = el("ul", { class: "legend" });
    this.legendTitle = el("p", { class: "note" });
    this.body = el("tbody", {});
    this.caption = el("caption", {});
    this.table = el("table", { class: "zones" }, this.caption, el("thead", {}, el("tr", {}, ["Zone", "Share", "Sun, h", "Light, mol/m²"].map((h, i) => el("th", { scope: "col", class: i > 0 ? "right" : null }, h)))), this.body);
    this.notes = el("ul", { class: "notes" });
    this.node = el("section", { class: "lightpanel", "aria-label": "Light" }, this.what, this.monthField, this.hourField, this.legendTitle, this.legend, this.table, el("details", {}, el("summary", {}, "What the light was reckoned with"), this.notes));
  }

  setMonth() {
    this.app.show.month = Number(this.month.value);
    this.app.update();
  }

  setDay() {
    this.app.show.day = Number(this.day.value);
    this.app.refreshLight();
    this.app.update();
  }

  setHour() {
    this.app.show.hour = Number(this.hour.value);
    this.app.update();
  }

  update() {
    const { app } = this;
    const { what, month } = app.show;
    const light = app.light;
    this.node.hidden = !light;
    if (!light) return;
    const byMonth = what === "sun" || what === "dli" || what === "zones";
    this.monthField.hidden = !byMonth;
    this.hourField.hidden = what !== "hour";
    set(this.month, { "aria-valuetext": months[month] });
    say(this.monthNow, months[month]);
    const south = Number(app.brief.says.place?.latitude) < 0;
    const days = [[south ? 355 : 172, "midsummer"], [80, south ? "autumn equinox" : "spring equinox"], [south ? 172 : 355, "midwinter"]];
    keyed(this.day, days, (d) => d[0], (d) => el("option", { value: d[0] }), (e, d) => say(e, d[1]));
    if (!days.some((d) => d[0] === app.show.day)) app.show.day = days[0][0];
    this.day.value = String(app.show.day);
    if (what === "hour" && app.hours?.day === app.show.day) {
      const at = app.hours.at;
      if (at.length > 0) {
        set(this.hour, { min: at[0].hour, max: at.at(-1).hour, step: 0.5 });
        const now = at.find((a) => a.hour === app.show.hour) ?? at[Math.floor(at.length / 2)];
        if (app.show.hour !== now.hour) {
          app.show.hour = now.hour;
          app.looked = null;
        }
        this.hour.value = String(now.hour);
        const clock = `${String(Math.floor(now.hour)).padStart(2, "0")}:${now.hour % 1 ? "30" : "00"}`;
        const words = `${clock} by the sun, which stands ${Math.round(now.elevation)}° high at ${Math.round(now.bearing)}°`;
        say(this.hourNow, words);
        set(this.hour, { "aria-valuetext": words });
      } else say(this.hourNow, "the sun does not rise");
    }
    const look = app.look();
    const titles = { zones: "", sun: "Hours of direct sun on a clear day", dli: "Photosynthetic light under the average sky, mol a m² and day", hour: "Of the direct sun; by the sun's own time, in which it stands highest at 12" };
    say(this.legendTitle, titles[what]);
    keyed(
      this.legend, look?.bands ?? [], (b) => b[1], () => el("li", {}, el("svg", { width: 18, height: 14, "aria-hidden": "true" }, el("rect", { width: 18, height: 14 })), el("span", {})),
      (e, b) => {
        set(e.firstChild.firstChild, { fill: look.colour(b[1]) });
        say(e.lastChild, b[0]);
      },
    );
    say(this.caption, `Zones and points in ${months[month]}`);
    const rows = [...light.zones.map((z) => ({ name: `${z.letter}, ${z.name}`, share: `${Math.round(z.share * 100)} %`, z })), ...light.probes.map((z) => ({ name: z.name, share: "", z }))];
    keyed(
      this.body, rows, (r, i) => i, () => el("tr", {}, el("th", { scope: "row" }), el("td", { class: "right" }), el("td", { class: "right" }), el("td", { class: "right" })),
      (e, r) => {
        const c = e.children;
        say(c[0], r.name);
        say(c[1], r.share);
        say(c[2], r.z.sun[month].toFixed(1));
        say(c[3], r.z.dli[month].toFixed(1));
      },
    );
    keyed(this.notes, light.notes ?? [], (n) => n, (n) => el("li", {}, n), () => {});
  }
}
